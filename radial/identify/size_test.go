package identify_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"linkrod/radial/identify"
	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

// wantProblem expects an error about one input, in a whole sentence.
func wantProblem(t *testing.T, err error, field, part string) {
	t.Helper()
	var p *quantity.Problem
	if !errors.As(err, &p) || err != error(p) || p.Field != field || !strings.HasSuffix(p.Sentence, ".") || !strings.Contains(p.Sentence, part) {
		t.Errorf("problem with the %s (%s): %#v", field, part, err)
	}
}

func TestParseDesignation(t *testing.T) {
	for _, tt := range []struct {
		typed string
		want  identify.Designation
		back  string
	}{
		{"R-685", identify.Designation{Letters: "R", Number: 685}, "R-685"},
		{" r685 ", identify.Designation{Letters: "R", Number: 685}, "R-685"},
		{"XR 795", identify.Designation{Letters: "XR", Number: 795}, "XR-795"},
		{"R-885-AN-4", identify.Designation{Letters: "R", Number: 885, Dash: "AN-4"}, "R-885-AN-4"},
		{"R-50", identify.Designation{Letters: "R", Number: 50}, "R-50"},
		{"GSXR-5000", identify.Designation{Letters: "GSXR", Number: 5000}, "GSXR-5000"},
	} {
		got, err := identify.ParseDesignation(tt.typed)
		if err != nil || got != tt.want || got.String() != tt.back {
			t.Errorf("%q is %+v, %v", tt.typed, got, err)
		}
		if again := must(identify.ParseDesignation(got.String())); again != got {
			t.Errorf("%q came back as %+v", got, again)
		}
	}
	for _, typed := range []string{"", "685", "R", "R-", "R-+685", "R-49", "R-5001", "R-685-", "GSXRT-685", "R-685A", "R-99999999"} {
		got, err := identify.ParseDesignation(typed)
		wantRefusal(t, err, typed, quantity.WhyNoNumber, "as R-685")
		if got.String() != "" {
			t.Errorf("%q refused and yet %q", typed, got)
		}
	}
}

// FuzzParseDesignation: go test -fuzz FuzzParseDesignation ./radial/identify
func FuzzParseDesignation(f *testing.F) {
	for _, s := range []string{"R-685", "xr795-4", "R--685", "R-685-AN-4"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		d, err := identify.ParseDesignation(typed)
		if err != nil {
			return
		}
		if back, err := identify.ParseDesignation(d.String()); err != nil || back != d {
			t.Errorf("%q is %q and then %+v, %v", typed, d, back, err)
		}
	})
}

// Names against sizes as published (testdata/checks, topic 1), and of the demo. The widest
// apart are 787.3, called 790, and 971.9, called 975.
func TestNamesFitTheirSizes(t *testing.T) {
	for _, tt := range []struct {
		number int
		size   quantity.Volume
	}{
		{985, 986.76}, {670, 667.86}, {975, 971.93}, {790, 787.3}, {680, 680.40}, {440, 441}, {370, 372.4},
		{685, 687.2}, {795, 794.2}, {885, 883.6},
	} {
		if d := (identify.Designation{Number: tt.number}); !d.Fits(tt.size) {
			t.Errorf("%d does not fit %v cu in", tt.number, tt.size)
		}
		for _, far := range []int{-10, 10} {
			if d := (identify.Designation{Number: tt.number + far}); d.Fits(tt.size) {
				t.Errorf("%d fits %v cu in", d.Number, tt.size)
			}
		}
	}
	d := identify.Designation{Letters: "R", Number: 795}
	for v, want := range map[quantity.Volume]bool{790: true, 800: true, 795: true, 789.99: false, 800.01: false, quantity.Volume(math.NaN()): false} {
		if d.Fits(v) != want {
			t.Errorf("%v and %v cu in: %v", d, v, !want)
		}
	}
}

func TestMatch(t *testing.T) {
	// The demo's B, DEMO: seven of 5.375 × 5.
	exact := identify.Size{Bore: 5.375, Stroke: 5, Cylinders: 7}
	v := must(ring.Displacement(5.375, 5, 7))
	for _, tt := range []struct {
		known quantity.Volume
		want  identify.Match
	}{
		{v, identify.Yes},
		{v / 1.0049, identify.Yes}, {v / 1.0051, identify.No},
		{v / 0.9951, identify.Yes}, {v / 0.9949, identify.No},
		{687.2, identify.No},
	} {
		if got := must(exact.Match(tt.known)); got != tt.want {
			t.Errorf("%v against %v: %v, want %v", v, tt.known, got, tt.want)
		}
	}
	// Probed through the plug hole: the stroke to 1/16 in.
	probed := exact
	probed.StrokeWithin = 1.0 / 16
	for known, want := range map[quantity.Volume]identify.Match{
		v: identify.May, v * 1.017: identify.May, v * 1.018: identify.No, v * 0.983: identify.May, v * 0.982: identify.No,
	} {
		if got := must(probed.Match(known)); got != want {
			t.Errorf("probed, against %v: %v, want %v", known/v, got, want)
		}
	}
	fine := exact
	fine.BoreWithin, fine.StrokeWithin = 0.001, 0.002
	if got := must(fine.Match(v)); got != identify.Yes {
		t.Errorf("measured to a thou: %v", got)
	}
	low, high, err := fine.Between()
	if err != nil || low != must(ring.Displacement(5.374, 4.998, 7)) || high != must(ring.Displacement(5.376, 5.002, 7)) {
		t.Errorf("between %v and %v, %v", low, high, err)
	}
	if got := must(exact.Match(0.5)); got != identify.No {
		t.Errorf("against half a cubic inch: %v", got)
	}
	wantProblem(t, second(exact.Match(-1.25)), "known displacement", "−1.3 cu in")
	wantProblem(t, second(exact.Match(0)), "known displacement", "more than 0")
	wantProblem(t, second(exact.Match(quantity.Volume(math.Inf(1)))), "known displacement", "not known")
	bad := exact
	bad.Bore = 0
	wantProblem(t, second(bad.Match(v)), "bore", "above 0")
	bad = exact
	bad.StrokeWithin = 6
	wantProblem(t, second(bad.Match(v)), "stroke", "above 0")
	if low, high, _ := bad.Between(); low != 0 || high != 0 {
		t.Errorf("refused, and yet between %v and %v", low, high)
	}
	for _, off := range []quantity.Length{-0.1, quantity.Length(math.NaN()), quantity.Length(math.Inf(1))} {
		bad = exact
		bad.BoreWithin = off
		wantProblem(t, second(bad.Match(v)), "within", "0 or more")
		if low, high, _ := bad.Between(); low != 0 || high != 0 {
			t.Errorf("refused, and yet between %v and %v", low, high)
		}
	}
}

func TestStrokeByProbe(t *testing.T) {
	// A triangle of 3, 4 and 5: a hole inclined 36.87° sees 6.25 for a stroke of 5.
	incl := quantity.Angle(math.Atan2(3, 4)) * quantity.Radian
	if s := must(identify.StrokeByProbe(1, 7.25, incl)); math.Abs(s.Inches()-5) > 1e-12 {
		t.Errorf("stroke %v", s)
	}
	if s := must(identify.StrokeByProbe(6, 1, 0)); s != 5 {
		t.Errorf("straight down: %v", s)
	}
	wantProblem(t, second(identify.StrokeByProbe(1, 6, 60)), "inclination", "less than 60°")
	wantProblem(t, second(identify.StrokeByProbe(1, 6, -1)), "inclination", "from 0°")
	wantProblem(t, second(identify.StrokeByProbe(1, 6, -1/3.0)), "inclination", "\u22120.3° to")
	wantProblem(t, second(identify.StrokeByProbe(1, 1, 5)), "stroke", "above 0")
}
