package book

import (
	"math"
	"slices"
	"strings"
	"testing"
)

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

// The curve is the likeliest explanation as package oil defines it, s (ρ + (1 − ρ)
// exp(−h/τ)), to the last reading that bears it out. In the course of a log it is level
// at times and falls at others. One that falls begins with the log; a level one, which
// is all that is left of a curve that has come down (oil-rate 4.8), begins where it comes
// inside the bands that were answered and stays there.
func TestPlotCurve(t *testing.T) {
	rows := strings.SplitAfter(file(t, "csv/series_a.csv"), "\n")
	falls, levels, cut := 0, 0, 0
	for _, from := range []int{1, 7} { // a log from the first hour, and one that begins later
		for n := from + 6; n < len(rows); n++ {
			p := engineFor(t, "0.60", "0.5", "20")
			p.take(rows[0] + strings.Join(rows[from:n], ""))
			b := Open(p.records)
			v, c := b.View("", Now{}).Plot, b.answers.last().Curve
			if len(v.Curve) != 49 || v.Curve[48].H != v.Points[len(v.Points)-1].H {
				t.Fatalf("%d lines: %d points of a curve", n, len(v.Curve))
			}
			for _, pt := range v.Curve {
				want := float64(c.Start) * (c.Shape.Rho + (1-c.Shape.Rho)*math.Exp(-(pt.H-float64(c.Origin))/float64(c.Shape.Tau)))
				if math.Abs(pt.R-want) > 1e-3 {
					t.Errorf("%d lines: %v qt/h at %v h, want %v", n, pt.R, pt.H, want)
				}
			}
			first := v.Curve[0]
			if v.Curve[48].R < first.R {
				falls++
				if first.H != v.Points[0].H {
					t.Errorf("%d lines: a falling curve begins at %v h, the log at %v", n, first.H, v.Points[0].H)
				}
				continue
			}
			levels++
			// The bands from its first hour on hold it; the answer before does not, or is none.
			before := -1
			for i, pt := range v.Points {
				inside := pt.Rate != nil && *pt.Lo <= first.R && first.R <= *pt.Hi
				switch {
				case pt.H < first.H:
					before = i
				case !inside && pt.H < v.Curve[48].H:
					t.Errorf("%d lines: level at %v from %v h, outside the band at %v h", n, first.R, first.H, pt.H)
				}
			}
			if before >= 0 {
				if pt := v.Points[before]; pt.Rate != nil && *pt.Lo <= first.R && first.R <= *pt.Hi {
					t.Errorf("%d lines: level at %v from %v h, inside the band at %v h already", n, first.R, first.H, pt.H)
				}
				if v.Points[before].Rate != nil {
					cut++
				}
			}
		}
	}
	if falls == 0 || levels == 0 || cut == 0 {
		t.Errorf("of the curves %d fall and %d are level, %d of them not over every answer", falls, levels, cut)
	}
}

// Until three hours after the first reading of a bank there is an average and no rate.
func TestPlotEarly(t *testing.T) {
	for first, want := range map[string]float64{"0.0": 3, "5.0": 8} {
		p := engineFor(t, "0.60", "0.5", "20")
		p.oil(first, "16", "", "")
		if got := Open(p.records).View("", Now{}).Plot.EarlyUntil; got != want {
			t.Errorf("a log from %s h is early until %v, want %v", first, got, want)
		}
	}
}

// A curve is drawn in the book's unit.
func TestPlotCurveInLitres(t *testing.T) {
	p := engineFor(t, "0.60", "0.5", "20")
	p.take(file(t, "csv/series_a.csv"))
	quarts := Open(p.records).View("", Now{}).Plot.Curve
	p.setting("oil_unit", `"l"`, Key{"aa", 2})
	for i, c := range Open(p.records).View("", Now{}).Plot.Curve {
		if want := 0.946352946 * quarts[i].R; math.Abs(c.R-want) > 1e-4 {
			t.Fatalf("%v L/h at %v h, want %v", c.R, c.H, want)
		}
	}
}

// The rates end at a half above the bands and a fifth above the ceiling. What a single
// interval came to is drawn as far as half as high again and no further.
func TestPlotRates(t *testing.T) {
	at := func(x float64) *float64 { return &x }
	for _, c := range []struct {
		what    string
		ceiling *float64
		points  []PlotPoint
		want    float64
	}{
		{"nothing", nil, nil, 0.5},
		{"a ceiling", at(0.6), nil, 1}, // 0.72
		{"a ceiling on the half", at(1.25), nil, 1.5},
		{"only intervals", nil, []PlotPoint{{Raw: at(1.2)}, {Raw: at(0.4)}}, 1.5},
		{"a band over the ceiling", at(0.6), []PlotPoint{{Hi: at(1.1)}, {Hi: at(0.9)}}, 1.5},
		{"an interval inside half as much again", nil, []PlotPoint{{Hi: at(1.2), Raw: at(1.6)}}, 2},
		{"an interval far over the band", nil, []PlotPoint{{Hi: at(1.2), Raw: at(9)}}, 2},
		{"the same under a ceiling", at(2), []PlotPoint{{Hi: at(1.2), Raw: at(9)}}, 4}, // 2.4, half as much again 3.6
	} {
		p := Plot{Ceiling: c.ceiling, Points: c.points}
		p.axes()
		if p.RMax != c.want {
			t.Errorf("%s: drawn to %v, want %v", c.what, p.RMax, c.want)
		}
	}
}

// What happened before the overhaul is in the log and not on the plot, whose hours begin
// there.
func TestPlotMarksBeginAtTheOverhaul(t *testing.T) {
	p := &phone{t: t, device: "aa"}
	p.write("fact", `{"type":"engine"}`)
	p.setting("oil_unit", `"qt"`)
	p.setting("meter", `{"which":"tach","reading":{"v":"100.0","u":"h"}}`)
	p.setting("since", `{"v":"10.0","u":"h"}`)
	p.write("fact", `{"type":"note","text":"before","hours":{"v":"89.9","u":"h"}}`)
	p.write("fact", `{"type":"note","text":"at once","hours":{"v":"90.0","u":"h"}}`)
	p.oil("101.5", "12", "3", "")
	got := Open(p.records).View("", Now{}).Plot.Marks
	want := []PlotMark{{0, "note", "at once"}, {11.5, "add", "+3"}}
	if !slices.Equal(got, want) {
		t.Errorf("marks %+v, want %+v", got, want)
	}
}
