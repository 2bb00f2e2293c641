package book

import (
	"strings"
	"testing"
)

// stop writes a level with the usual conditions, on a day.
func (p *phone) stop(hours, level, added, day string) {
	p.oil(hours, level, added, `"minutes":{"v":"20","u":"min"},"stands":"level","scavenged":"yes","day":"`+day+`"`)
}

func (p *phone) overnight(look, stop string) {
	p.setting("overnight", `{"look":{"v":"`+look+`","u":"qt"},"stop":{"v":"`+stop+`","u":"qt"},"source":{"document":"Sheet","page":"2","typed_by":"I","checked_by":"T"}}`)
}

// One next step, by the first rule that fits, with its reason.
func TestNextStep(t *testing.T) {
	const today = "2025-06-01"
	for _, c := range []struct {
		name  string
		tell  func(p *phone)
		rule  string
		title string
		goes  string
		head  string
	}{
		{"nothing written", func(p *phone) {}, "first-level", "Write the first level", "oil", "No reading yet"},
		{"a level, no ceiling", func(p *phone) { p.stop("1.0", "15", "", today) }, "no-ceiling", "Add the shop's oil ceiling", "sheet", "1 hour since the overhaul"},
		{"a level and a ceiling", func(p *phone) {
			p.setting("ceiling", limit("0.60"))
			p.stop("1.5", "15", "", today)
		}, "next-level", "Write the next level", "oil", "1.5 hours since the overhaul"},
		{"under the least for flight", func(p *phone) {
			p.setting("min_flight", `{"value":{"v":"9","u":"qt"},"source":{"document":"DEMO sheet","page":"2","typed_by":"Ann"}}`)
			p.stop("1.0", "8.5", "", today)
		}, "under-minimum", "Fill the tank before flight", "oil", "1 hour since the overhaul"},
		{"exactly the least is enough", func(p *phone) {
			p.setting("min_flight", `{"value":{"v":"9","u":"qt"},"source":{"document":"DEMO sheet","page":"2","typed_by":"Ann"}}`)
			p.stop("1.0", "9", "", today)
		}, "no-ceiling", "Add the shop's oil ceiling", "sheet", "1 hour since the overhaul"},
		{"two days are not long", func(p *phone) { p.stop("1.0", "15", "", "2025-05-30") }, "no-ceiling", "Add the shop's oil ceiling", "sheet", "1 hour since the overhaul"},
		{"three days are", func(p *phone) { p.stop("1.0", "15", "", "2025-05-29") }, "standing", "Pull it through by hand", "before-turning", "3 days standing"},
		{"half a quart gone overnight, look from half", func(p *phone) {
			p.overnight("0.5", "1.5")
			p.stop("1.0", "15", "", "2025-05-31")
			p.oil("1.0", "14.5", "", `"day":"`+today+`"`)
		}, "standing", "Pull it through by hand", "before-turning", "1 hour since the overhaul"},
		{"gone over the stop, and also not seating", func(p *phone) {
			p.overnight("0.5", "1.5")
			glazed(p)
			p.stop("31.0", "17", "", "2025-05-31")
			p.oil("31.0", "15.25", "", `"day":"`+today+`"`)
		}, "gone-over-stop", "Pull it through by hand", "before-turning", "Not seating"},
		{"not seating", glazed, "not-seating", "Call the shop before flying more", "call", "Not seating"},
		{"only a line that cannot be used", func(p *phone) { p.stop("1.0", "25", "", today) }, "read-again", "Put the last line right", "log", "No reading counts yet"},
		{"a reading that does not fit", func(p *phone) {
			settled(p)
			p.stop("22.0", "17", "", today)
		}, "read-again", "Read it again", "oil", "22 hours since the overhaul"},
		{"a line that goes back", func(p *phone) {
			settled(p)
			p.stop("2.0", "15", "", today)
		}, "read-again", "Put the last line right", "log", "20 hours since the overhaul"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := engineFor(t, "", "0.5", "20")
			c.tell(p)
			v := Open(p.records).View("00", Now{Day: today, Clock: "12:00"})
			why := ""
			for _, r := range rules {
				if r.id == c.rule {
					why = r.why
				}
			}
			if v.Next.Title != c.title || v.Next.Go != c.goes || v.Next.Why[0] != why {
				t.Errorf("next is %+v, want %q by %q", v.Next, c.title, c.rule)
			}
			if v.Headline != c.head {
				t.Errorf("headline %q, want %q", v.Headline, c.head)
			}
		})
	}
}

func limit(v string) string {
	return `{"value":{"v":"` + v + `","u":"qt/h"},"source":{"document":"Sheet","page":"2","typed_by":"I","checked_by":"T"}}`
}

// glazed is series B of the demo scenario.
func glazed(p *phone) {
	p.setting("ceiling", limit("0.70"))
	p.take(file(p.t, "csv/series_b.csv"))
}

// settled is series C up to hour 15.5 and on at the same rate to 20.
func settled(p *phone) {
	p.setting("ceiling", limit("0.60"))
	rows := strings.SplitAfter(file(p.t, "csv/series_c.csv"), "\n")
	p.take(strings.Join(rows[:8], ""))
	p.stop("18.0", "12", "", "2025-06-01")
	p.stop("20.0", "11", "", "2025-06-01")
}

// Step up: the shop is called, and what was noted about then stands beside it
// (trade.md 6.7: the step of series C belongs to the stiff pull-through).
func TestStepIsLinkedToWhatWasNoted(t *testing.T) {
	p := engineFor(t, "0.60", "0.25", "20")
	p.take(file(t, "csv/series_c.csv"))
	v := Open(p.records).View("00", Now{Day: "2025-06-01"})
	if v.Headline != "Something changed" || v.Next.Go != "call" || v.Rate.Verdict.Chip != Outside || v.Rate.Call != callTheShop || *v.StateChip != Outside {
		t.Errorf("%q, %+v, %+v", v.Headline, v.Next, v.Rate.Verdict)
	}
	why := strings.Join(v.Next.Why, "\n")
	if !strings.Contains(why, "Written at 15.5 hours: DEMO. pull-through felt stiff on no. 5, drained 3.5 fl oz.") {
		t.Errorf("the stiff pull-through is not there:\n%s", why)
	}
	shop := strings.Join(v.Words.Shop, "\n")
	if !strings.Contains(shop, "stiff on no. 5") || !strings.Contains(shop, "Step up: something changed about hour") {
		t.Errorf("the shop is not told:\n%s", shop)
	}
	// A person closes it; reckoning starts afresh, and says so.
	p.write("fact", `{"type":"step_closed","hours":{"v":"25.8","u":"h"},"found":"plug and lead of no. 5","day":"2025-06-02"}`)
	v = Open(p.records).View("00", Now{Day: "2025-06-02"})
	if v.Headline != "25.8 hours since the overhaul" || v.Rate.Code != "none" || v.Rate.Verdict.Reason != "The step was explained. Readings from there on start afresh." || v.Tank.LevelText != "13.5" {
		t.Errorf("after closing: %+v, tank %q", v.Rate.Verdict, v.Tank.LevelText)
	}
}

// The limits of standing, met exactly: look and stop belong to "at the edge"
// (design.md section 2), in the book's own unit.
func TestOvernightLimits(t *testing.T) {
	for _, c := range []struct{ unit, now, verdict string }{
		{"qt", "15", "inside Inside"}, {"qt", "14.75", "inside Inside"}, {"qt", "14.5", "atedge At edge"},
		{"qt", "13.5", "atedge At edge"}, {"qt", "13.25", "outside Outside"}, {"qt", "15.5", "inside Inside"},
		{"l", "14.6", "inside Inside"}, {"l", "14.5", "atedge At edge"}, {"l", "13.5", "atedge At edge"}, {"l", "13.4", "outside Outside"},
	} {
		p := &phone{t: t, device: "aa"}
		p.setting("oil_unit", `"`+c.unit+`"`)
		p.setting("overnight", `{"look":{"v":"0.5","u":"`+c.unit+`"},"stop":{"v":"1.5","u":"`+c.unit+`"},"source":{"document":"S","page":"1","typed_by":"I"}}`)
		level := func(v, day string) {
			p.write("fact", `{"type":"oil","hours":{"v":"10.0","u":"h"},"level":{"v":"`+v+`","u":"`+c.unit+`"},"day":"`+day+`"}`)
		}
		level("15", "2025-05-01")
		level(c.now, "2025-05-02")
		v := Open(p.records).View("00", Now{Day: "2025-05-02"})
		if v.Missing == nil {
			t.Fatalf("%s %s: nothing is said", c.now, c.unit)
		}
		if got := string(v.Missing.Verdict.Chip) + " " + v.Missing.Verdict.Word; got != c.verdict {
			t.Errorf("15 then %s %s: %s (%s), want %s", c.now, c.unit, got, v.Missing.Verdict.Reason, c.verdict)
		}
	}
}

// What is missing is only said of two days with the meter unmoved and no drain
// between.
func TestMissingNeedsTwoDays(t *testing.T) {
	for name, tell := range map[string]func(p *phone){
		"one day": func(p *phone) {
			p.oil("10.0", "15", "", `"day":"2025-05-01"`)
			p.oil("10.0", "14", "", `"day":"2025-05-01"`)
		},
		"no days": func(p *phone) { p.oil("10.0", "15", "", ""); p.oil("10.0", "14", "", "") },
		"it ran":  func(p *phone) { p.stop("10.0", "15", "", "2025-05-01"); p.stop("10.5", "14", "", "2025-05-02") },
		"it was drained": func(p *phone) {
			p.oil("10.0", "15", "", `"day":"2025-05-01"`)
			p.write("fact", `{"type":"drain","hours":{"v":"10.0","u":"h"},"level_before":{"v":"15","u":"qt"},"day":"2025-05-01"}`)
			p.oil("10.0", "14", "", `"day":"2025-05-02"`)
		},
		"a note after it ran": func(p *phone) {
			p.oil("10.0", "15", "", `"day":"2025-05-01"`)
			p.oil("10.0", "14", "", `"day":"2025-05-02"`)
			p.write("fact", `{"type":"note","text":"flew","hours":{"v":"11.0","u":"h"},"day":"2025-05-03"}`)
		},
	} {
		p := engineFor(t, "", "0.5", "20")
		tell(p)
		if m := Open(p.records).View("", Now{Day: "2025-05-03"}).Missing; m != nil {
			t.Errorf("%s: %q", name, m.Words)
		}
	}
	// Oil added after the first level is oil that was there.
	p := engineFor(t, "", "0.5", "20")
	p.stop("10.0", "13", "2", "2025-05-01")
	p.oil("10.0", "14", "", `"day":"2025-05-02"`)
	m := Open(p.records).View("", Now{Day: "2025-05-02"}).Missing
	if m == nil || m.Words != "1 qt has left the tank" {
		t.Errorf("13 and 2 added, then 14: %+v", m)
	}
	// As much as rounds to none is none; anything more is said.
	for level, want := range map[string]string{
		"14.996": "The stick reads what it read at the last stop", "15.004": "The stick reads what it read at the last stop",
		"14.99": "0.01 qt has left the tank", "15.01": "The stick reads 0.01 qt more than at the last stop",
	} {
		p := engineFor(t, "", "0.5", "20")
		p.stop("10.0", "15", "", "2025-05-01")
		p.oil("10.0", level, "", `"day":"2025-05-02"`)
		if m := Open(p.records).View("", Now{Day: "2025-05-02"}).Missing; m == nil || m.Words != want {
			t.Errorf("15 qt, then %s: %+v, want %q", level, m, want)
		}
	}
	// Both temperatures given: 15 qt at 150 °F and 14.4 at 45 °F is the same
	// oil (alpha 0.0004 per °F, oil-rate.md section 2).
	p = engineFor(t, "", "0.5", "20")
	p.oil("10.0", "15", "", `"temp":{"v":"150","u":"F"},"day":"2025-05-01"`)
	p.oil("10.0", "14.4", "", `"temp":{"v":"45","u":"F"},"day":"2025-05-02"`)
	m = Open(p.records).View("", Now{Day: "2025-05-02"}).Missing
	if m == nil || !strings.HasPrefix(m.Words, "0.0") && !strings.HasPrefix(m.Words, "The stick reads") {
		t.Errorf("cold and warm: %+v", m)
	}
}
