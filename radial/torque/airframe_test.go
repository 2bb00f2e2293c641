package torque_test

import (
	"fmt"
	"strings"
	"testing"

	"linkrod/radial/quantity"
	"linkrod/radial/torque"
)

// FAA AC 43.13-1B table 7-1 (9/8/98), column by column as the page prints it: threads,
// tension nuts, shear nuts, most for tension, most for shear; fine series, then coarse.
var page744 = [2][5]string{{
	"8-36 10-32 1/4-28 5/16-24 3/8-24 7/16-20 1/2-20 9/16-18 5/8-18 3/4-16 7/8-14 1-14 1-1/8-12 1-1/4-12",
	"12-15 20-25 50-70 100-140 160-190 450-500 480-690 800-1000 1100-1300 2300-2500 2500-3000 3700-5500 5000-7000 9000-11000",
	"7-9 12-15 30-40 60-85 95-110 270-300 290-410 480-600 600-780 1300-1500 1500-1800 2200-3300 3000-4200 5400-6600",
	"20 40 100 225 390 840 1100 1600 2400 5000 7000 10000 15000 25000",
	"12 25 60 140 240 500 660 960 1400 3000 4200 6000 9000 15000",
}, {
	"8-32 10-24 1/4-20 5/16-18 3/8-16 7/16-14 1/2-13 9/16-12 5/8-11 3/4-10 7/8-9",
	"12-15 20-25 40-50 80-90 160-185 235-255 400-480 500-700 700-900 1150-1600 2200-3000",
	"7-9 12-15 25-30 48-55 95-100 140-155 240-290 300-420 420-540 700-950 1300-1800",
	"20 35 75 160 275 475 880 1100 1500 2500 4600",
	"12 21 45 100 170 280 520 650 900 1500 2700",
}}

// airframeLines are the lines of table 7-1, by the name the circular gives the thread.
func airframeLines() map[string]torque.Airframe {
	lines := map[string]torque.Airframe{}
	for _, columns := range page744 {
		for _, name := range strings.Fields(columns[0]) {
			lines[name] = must(torque.AirframeFor(must(torque.ParseThread(name))))
		}
	}
	return lines
}

func TestAirframeTables(t *testing.T) {
	span := func(r torque.Range) string { return fmt.Sprintf("%v-%v", r.Min, r.Max) }
	for _, columns := range page744 {
		var printed [5][]string
		for i, c := range columns {
			printed[i] = strings.Fields(c)
		}
		for i, name := range printed[0] {
			a := must(torque.AirframeFor(must(torque.ParseThread(name))))
			got := []string{span(a.Tension), span(a.Shear), fmt.Sprint(a.MaxTension.InchPounds()), fmt.Sprint(a.MaxShear.InchPounds())}
			for j, g := range got {
				if want := printed[j+1][i]; g != want {
					t.Errorf("%s, column %d: %s, the page has %s", name, j+1, g, want)
				}
			}
		}
	}
	if a := must(torque.AirframeFor(must(torque.ParseThread("5/8-18")))); !strings.Contains(a.Note, "660 to 780") {
		t.Errorf("5/8-18 says nothing of the copy: %q", a.Note)
	}
	odd := must(torque.ParseThread("7/16-24"))
	wantProblem(t, second(torque.AirframeFor(odd)), "thread", "no line for 7/16-24")
	wantProblem(t, second(torque.AirframeFor(torque.Thread{})), "thread", "No thread")
	wantProblem(t, second(torque.Breakaway(odd)), "thread", "no line for 7/16-24")
	wantProblem(t, second(torque.Breakaway(torque.Thread{})), "thread", "No thread")
	// US Army TM 1-1500-204-23-6 table 2-8, its threads in one column and its inch pounds in
	// the other.
	threads := strings.Fields(`5/16-24 3/8-24 7/16-20 1/2-20 9/16-18 5/8-18 3/4-16 7/8-14 1-12 1-1/8-12 1-1/4-12 1-3/8-12 1-1/2-12
		5/16-18 3/8-16 7/16-14 1/2-13 9/16-12 5/8-11 3/4-10 7/8-9 1-8 1-1/8-7 1-1/4-7 1-3/8-6 1-1/2-6
		10-32 1/4-28`) // the last two from TM 10-5430-232-12&P table I-2
	least := strings.Fields(`6.5 9.5 14 18 24 32 50 70 90 117 143 180 210
		7.5 12 16.5 24 30 40 60 82 110 137 165 200 230
		2 3.5`)
	for i, name := range threads {
		if got := must(torque.Breakaway(must(torque.ParseThread(name)))); fmt.Sprint(got.InchPounds()) != least[i] {
			t.Errorf("%s: %v, the table has %s", name, got, least[i])
		}
	}
}

// The head of table 7-1 gives each column the stress it stands for: 40,000 and 24,000
// psi, never beyond 90,000 and 54,000. So shear is six tenths of tension in every line,
// as near as the printed figures are rounded; the table itself strays further in the two
// lines named.
func TestAirframeShearIsSixTenths(t *testing.T) {
	for name, a := range airframeLines() {
		for _, c := range []struct {
			what           string
			shear, tension quantity.Torque
		}{{"least", a.Shear.Min, a.Tension.Min}, {"most", a.Shear.Max, a.Tension.Max}, {"limit", a.MaxShear, a.MaxTension}} {
			ratio := float64(c.shear / c.tension)
			odd := name == "5/8-18" && c.what == "least" || name == "3/8-16" && c.what == "most"
			if (ratio < 0.56 || ratio > 0.63) != odd {
				t.Errorf("%s, %s: %v for shear, %v for tension, %.3f", name, c.what, c.shear, c.tension, ratio)
			}
		}
	}
}
