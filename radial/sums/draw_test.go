package sums_test

import (
	"math"
	"strings"
	"testing"
)

// Numbers for the drawings, from the same rows of testdata/checks as the answers, or by
// hand; lists one value per cylinder or station.
func TestDrawn(t *testing.T) {
	for _, tt := range []struct {
		id   string
		in   typed
		want map[string][]float64
	}{
		{"torque-wrench", typed{"wanted": "435 in-lb", "upto": "450 in-lb", "lever": "11", "adapter": "3.25", "grip": "9"}, map[string][]float64{"L": {11}, "E": {3.25}, "angle": {0}, "arm": {14.25}, "setting": {335.79}, "settingMax": {450 * 11 / 14.25}, "grip": {9}}},
		{"prop-nut", typed{"torque": "450 ft-lb", "bar": "3", "weight": "180", "out": "2"}, map[string][]float64{"L": {36}, "slope": {0}, "makes": {30}, "out": {24}}},
		{"preload", typed{"torque": "420 in-lb", "thread": "7/16-20", "lube": "oiled", "grip": "4"}, map[string][]float64{"D": {0.4375}, "pitch": {0.05}, "stress": {53910}, "grip": {4}}},
		{"nut-order", typed{"nuts": "4", "torque": "35 ft-lb"}, map[string][]float64{"n": {4}, "order": {1, 3, 2, 4}}},
		{"bolt-table", typed{"thread": "3/8-24"}, map[string][]float64{"D": {0.375}, "pitch": {1.0 / 24}}},
		{"travel", typed{"stroke": "5", "rod": "9.5", "degrees": "25"}, map[string][]float64{"throw": {2.5}, "rod": {9.5}, "angle": {25}, "travel": {0.2931654}}},
		{"tops", typed{"cylinders": "7", "master": "1", "turns": "with", "stroke": "5", "rod": "9.75", "knuckle": "2.55", "link": "7.2"}, map[string][]float64{"n": {7}, "master": {1}, "throw": {2.5}, "rod": {9.75}, "knuckle": {2.55}, "link": {7.2},
			"shifts": {0, 1.2335, 4.7249, 2.7322, -2.7322, -4.7249, -1.2335}, "heights": {0, -0.06923, -0.09795, -0.01694, -0.01694, -0.09795, -0.06923}}},
		{"travel-link", typed{"cylinders": "9", "master": "5", "turns": "with", "cylinder": "1", "stroke": "5", "rod": "10.1", "knuckle": "2.75", "link": "7.35", "advance": "25", "cam": "even"}, map[string][]float64{"cylinder": {1}, "shift": {-2.2174}}},
		{"positive-stop", typed{"before": "38.0", "after": "36.5"}, map[string][]float64{"before": {38}, "after": {36.5}, "top": {-0.75}}},
		{"run-up", typed{"both": "1800", "left": "1740", "right": "1710"}, map[string][]float64{"left": {60}, "right": {90}}},
		{"advance", typed{"table": "400 0 1000 10", "degrees": "distributor", "speed": "700"}, map[string][]float64{"speeds": {400, 1000}, "angles": {0, 20}, "speed": {700}, "advance": {10}}},
		{"missing-oil", typed{"shutdown": "13.5", "start": "12.0", "sump": "29.5"}, map[string][]float64{"shutdown": {13.5}, "start": {12}}},
		{"oil-rate", typed{"before": "15", "added": "1", "hours": "5", "after": "14.5"}, map[string][]float64{"before": {15}, "added": {1}, "after": {14.5}}},
		{"oil-heat", typed{"level": "16", "read": "160", "asked": "60"}, map[string][]float64{"before": {16}, "after": {15.366}}},
		{"lock", typed{"bore": "5.5", "stroke": "4.5558", "room": "24.6 cu in", "liquid": "6"}, map[string][]float64{"clearance": {13.631}, "ratio": {5.4}, "liquid": {6}, "swept": {108.24 / 1.8046875}}},
		{"blades", typed{"blades": "3", "gear": "3:2", "cylinders": "9", "pulled": "8"}, map[string][]float64{"blades": {3}, "once": {4}, "twice": {8}, "pulled": {8}}},
		{"push", typed{"push": "60", "arm": "4", "stroke": "5", "rod": "9.75", "degrees": "10"}, map[string][]float64{"angle": {10}, "force": {5295.6}, "throw": {2.5}}},
		{"differential", typed{"bore": "5.1875", "supply": "80", "reading": "65", "stroke": "5.1875", "rod": "10.5", "off": "5"}, map[string][]float64{"supply": {80}, "reading": {65}, "off": {5}, "throw": {2.59375}}},
		{"cranking", typed{"readings": "100 100 75 100 100"}, map[string][]float64{"values": {100, 100, 75, 100, 100}, "average": {95}, "low": {3}}},
		{"clearance", typed{"hole": "5.2500", "shaft": "5.2245", "newmin": "25", "newmax": "27", "wear": "32"}, map[string][]float64{"hole": {5.25}, "shaft": {5.2245}, "value": {0.0255}, "newMin": {0.025}, "newMax": {0.027}, "wear": {0.032}}},
		{"bore-shape", typed{"topa": "5.2515", "topb": "5.2490", "skirta": "5.2520", "skirtb": "5.2515"}, map[string][]float64{"a": {5.2515, 5.2520}, "b": {5.2490, 5.2515}, "value": {0.0025}}},
		{"ring-gap", typed{"gap": "37.5", "bore": "5.5"}, map[string][]float64{"bore": {5.5}, "value": {0.0375}}},
		{"displacement", typed{"bore": "5.25", "stroke": "5", "cylinders": "7", "ratio": "5.4"}, map[string][]float64{"bore": {5.25}, "stroke": {5}, "clearance": {24.6}}},
		{"firing-order", typed{"cylinders": "5", "turns": "with", "master": "1"}, map[string][]float64{"n": {5}, "order": {1, 3, 5, 2, 4}, "master": {1}}},
		{"hang-low", typed{"cylinders": "5", "seen": "cockpit", "numbered": "clockwise"}, map[string][]float64{"n": {5}, "angles": {0, 72, 144, 216, 288}, "elevations": {90, 18, -54, -54, 18}}},
		{"magneto", typed{"cylinders": "7", "cam": "with"}, map[string][]float64{"n": {7}, "lobes": {4}}},
		{"next-due", typed{"every": "100", "done": "1000", "now": "1090", "months": "12", "period": "calendar", "day": "2025-03-10", "today": "2026-03-29"}, map[string][]float64{"due": {1100}, "done": {1000}, "now": {1090}, "daysLeft": {2}, "daysAll": {386}}},
		{"meter-change", typed{"start": "502.0", "now": "551.7"}, map[string][]float64{"run": {49.7}}},
		{"tach-clock", typed{"clock": "1", "speed": "1800", "reference": "2200"}, map[string][]float64{"hours": {0.8182}}},
	} {
		p := work(t, tt.id, tt.in)
		for name, want := range tt.want {
			var got []float64
			switch v := p.Draw[name].(type) {
			case float64:
				got = []float64{v}
			case []any:
				for _, x := range v {
					got = append(got, x.(float64))
				}
			}
			fits := len(got) == len(want)
			for i := range want {
				fits = fits && math.Abs(got[i]-want[i]) <= 1e-3*math.Max(0.01, math.Abs(want[i]))
			}
			if !fits {
				t.Errorf("%s draws %s at %v, want %v (%v)", tt.id, name, got, want, problems(p))
			}
		}
		// Figures of these engines are usual, and none of them is asked about.
		for _, a := range p.Asks {
			if strings.HasPrefix(a.Code, "far") {
				t.Errorf("%s: %s", tt.id, a.Words)
			}
		}
	}
}

// The drawing follows the typing: a box is drawn as soon as it can be read, in inches or
// in the first unit of its box, whatever is still to come; what can't be read is not.
func TestDrawnWhileTyping(t *testing.T) {
	p := work(t, "torque-wrench", typed{"lever": "254 mm", "adapter": "3 1/4", "wanted": "abc"})
	if p.Waits == "" || p.Draw["lever"] != 10.0 || p.Draw["adapter"] != 3.25 || p.Draw["wanted"] != nil {
		t.Errorf("%v, %q", p.Draw, p.Waits)
	}
	p = work(t, "lock", typed{"bore": "5", "stroke": "5", "ratio": "6", "liquid": "2"})
	if p.Draw["bore"] != 5.0 || p.Draw["liquid"] != 2.0 || p.Draw["clearance"] == nil {
		t.Errorf("%v", p.Draw)
	}
	if p = work(t, "prop-nut", typed{"bar": "3 ft"}); p.Draw["bar"] != 36.0 {
		t.Errorf("%v", p.Draw)
	}
}

// A line of the maths ends in the answer it leads to, or in a figure named further on.
func TestMathsLeadsToTheAnswers(t *testing.T) {
	for _, e := range examples {
		p := work(t, e.id, e.in)
		maths := strings.Join(p.Maths.Lines[1:], "\n")
		shown := 0
		for _, a := range p.Answers {
			if strings.Contains(maths, a.Figure) {
				shown++
			}
		}
		if shown == 0 && e.id != "tops" && e.id != "hang-low" && !strings.Contains(maths, "nothing to add to") {
			t.Errorf("%s: no answer is in the maths %q", e.id, maths)
		}
		if strings.ContainsAny(maths, "{}…") {
			t.Errorf("%s: %q", e.id, maths)
		}
	}
}

// Preload is known to 30 per cent either way, and it says so.
func TestPreloadBand(t *testing.T) {
	p := work(t, "preload", typed{"torque": "450 in-lb", "thread": "3/8-24", "lube": "dry"})
	if a := p.Answers[1]; a.Figure != "4200 to 7800" || a.Words != "four thousand two hundred to seven thousand eight hundred pounds-force" {
		t.Errorf("%+v", a)
	}
}
