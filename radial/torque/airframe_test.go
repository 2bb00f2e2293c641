package torque_test

import (
	"strings"
	"testing"

	"linkrod/radial/quantity"
	"linkrod/radial/torque"
)

// airframeLines are the lines of table 7-1, by the name the circular gives the thread.
func airframeLines() map[string]torque.Airframe {
	lines := map[string]torque.Airframe{}
	for _, name := range strings.Fields(`8-36 10-32 1/4-28 5/16-24 3/8-24 7/16-20 1/2-20 9/16-18 5/8-18 3/4-16 7/8-14 1-14 1-1/8-12 1-1/4-12
		8-32 10-24 1/4-20 5/16-18 3/8-16 7/16-14 1/2-13 9/16-12 5/8-11 3/4-10 7/8-9`) {
		lines[name] = must(torque.AirframeFor(must(torque.ParseThread(name))))
	}
	return lines
}

// Every thread of the two tables is reached by its name, and no line runs the wrong way.
// The figures themselves are checked in radial/checks against what was read.
func TestAirframeTables(t *testing.T) {
	for name, a := range airframeLines() {
		if !(0 < a.Shear.Min && a.Shear.Min < a.Tension.Min && a.Tension.Min <= a.Tension.Max && a.Tension.Max < a.MaxTension &&
			a.Shear.Max < a.MaxShear && a.MaxShear < a.MaxTension) {
			t.Errorf("%s: %+v", name, a)
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
	// TM 1-1500-204-23-6 table 2-8.
	for name, want := range map[string]float64{"5/16-18": 7.5, "1-8": 110, "1-1/2-6": 230, "1-12": 90} {
		if got := must(torque.Breakaway(must(torque.ParseThread(name)))); got.InchPounds() != want {
			t.Errorf("%s: %v, want %v", name, got, want)
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
