package book

import "testing"

// The hours of the plot end at the next ten, and a new log has ten to grow into; the
// rates end at a half above everything that is drawn.
func TestPlotEnds(t *testing.T) {
	for hours, want := range map[string]float64{"0.7": 10, "9.9": 10, "10.0": 10, "10.1": 20, "100.0": 100, "100.1": 110} {
		p := engineFor(t, "0.60", "0.5", "20")
		p.oil("0.0", "16", "", "")
		p.oil(hours, "15.5", "", "")
		if got := Open(p.records).View("", Now{}).Plot.HMax; got != want {
			t.Errorf("a log of %s h is drawn to %v, want %v", hours, got, want)
		}
	}
	p := engineFor(t, "0.60", "0.5", "20")
	p.take(file(t, "csv/series_a.csv"))
	v := Open(p.records).View("", Now{}).Plot
	top := *v.Ceiling
	for _, pt := range v.Points {
		if pt.Hi != nil {
			top = max(top, *pt.Hi)
		}
	}
	if half := 2 * v.RMax; v.RMax < top || half != float64(int(half)) || v.HMax != 40 {
		t.Errorf("drawn to %v h and %v qt/h; the log ends at 39 h and the band reaches %v", v.HMax, v.RMax, top)
	}
}
