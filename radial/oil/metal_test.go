package oil

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"linkrod/radial/quantity"
)

const qt = quantity.Quart

// Oil lost and replaced in ever smaller steps with its metal in it ends where MakeUp undoes
// it; the rows of testdata/checks are oa_*.
func TestMakeUpUndoesManySmallTopUps(t *testing.T) {
	for _, x := range []float64{0.25, 0.5, 1, 2, 3} {
		const spells = 10_000
		left, err := AfterTopUps(1, 16*qt, quantity.Volume(x)*16*qt/spells, spells)
		if err != nil {
			t.Fatal(err)
		}
		factor, err := MakeUp(quantity.Volume(x)*16*qt, 16*qt)
		if got := float64(left) * factor / spells; err != nil || math.Abs(got-1) > 2*x/spells {
			t.Errorf("%v charges: %v of the metal, %v", x, got, err)
		}
	}
	for _, tt := range []struct{ x, short float64 }{{0.5, 0.016}, {1, 0.052}, {2, 0.135}} { // procedures of the trade, corrected
		hand, _ := MakeUpByHand(quantity.Volume(tt.x)*qt, qt)
		exact, _ := MakeUp(quantity.Volume(tt.x)*qt, qt)
		if got := 1 - hand/exact; math.Abs(got-tt.short) > 0.0006 {
			t.Errorf("%v charges: by hand %v short, want %v", tt.x, got, tt.short)
		}
	}
}

func TestMakeUpOfNothing(t *testing.T) {
	for _, added := range []quantity.Volume{0, 1e-15, 1e-9} {
		if f, err := MakeUp(added*qt, 16*qt); err != nil || !(math.Abs(f-1) < 1e-9) {
			t.Errorf("%v qt: %v, %v", added, f, err)
		}
	}
	if f, _ := MakeUpByHand(0, qt); f != 1 {
		t.Errorf("by hand %v", f)
	}
	if left, err := AfterTopUps(3, 16*qt, 2*qt, 0); err != nil || left != 0 {
		t.Errorf("no spell: %v, %v", left, err)
	}
	if left, err := AfterTopUps(3, 16*qt, 16*qt, 10_000); err != nil || left != 0 {
		t.Errorf("all of it every time: %v, %v", left, err)
	}
	if left, err := AfterTopUps(3, 16*qt, 0, 4); err != nil || left != 12 {
		t.Errorf("none lost: %v, %v", left, err)
	}
}

func TestOwnHistory(t *testing.T) {
	// Eight numbers of any statistics text: mean 5, squares about it 32.
	h, err := OwnHistory([]PPM{2, 4, 4, 4, 5, 5, 7, 9})
	if err != nil || h.Samples != 8 || !near64(float64(h.Mean), 5, 1e-12) || !near64(float64(h.SD), math.Sqrt(32.0/7), 1e-12) {
		t.Fatalf("%+v, %v", h, err)
	}
	if line := h.Line(); !near64(float64(line), 5+2*math.Sqrt(32.0/7), 1e-12) || h.Over(line) || !h.Over(line+1e-9) {
		t.Errorf("line %v", line)
	}
	if s := h.Words(20); !strings.Contains(s, "over it") || !strings.Contains(s, "8 samples") || !strings.Contains(s, "no chips") {
		t.Error(s)
	}
	if s := h.Words(5); !strings.Contains(s, "5 ppm") || !strings.Contains(s, "9.3, inside it") {
		t.Error(s)
	}
	checkWords(t, h.Words(20)+h.Words(1))
	_, err = OwnHistory([]PPM{1, 2, 3, 4, 5, 6, 7})
	if err == nil || !strings.Contains(err.Error(), "7 samples") || !strings.Contains(err.Error(), "8 or more") {
		t.Errorf("seven samples: %v", err)
	}
}

func TestMetalRefuses(t *testing.T) {
	inf, nan := quantity.Volume(math.Inf(1)), quantity.Volume(math.NaN())
	second := func(_ any, err error) error { return err }
	for field, errs := range map[string][]error{
		"charge":           {second(MakeUp(1, 0)), second(MakeUp(1, inf)), second(MakeUpByHand(1, -1)), second(AfterTopUps(1, nan, 0, 1))},
		"added":            {second(MakeUp(-1, 1)), second(MakeUp(inf, 1)), second(MakeUpByHand(nan, 1))},
		"lost":             {second(AfterTopUps(1, 1, 1.01, 1))},
		"top-ups":          {second(AfterTopUps(1, 1, 1, -1)), second(AfterTopUps(1, 1, 1, 10_001))},
		"metal":            {second(AfterTopUps(-1, 1, 1, 1)), second(PerTenHours(PPM(nan), 1)), second(PerTenHours(1e6+1, 1)), second(OwnHistory([]PPM{1, 2, 3, 4, 5, 6, 7, -8}))},
		"hours on the oil": {second(PerTenHours(1, 0)), second(PerTenHours(1, quantity.Hours(inf)))},
	} {
		for i, err := range errs {
			p, ok := err.(*quantity.Problem)
			if !ok || p.Field != field || !strings.HasSuffix(p.Sentence, ".") {
				t.Errorf("%s %d: %v", field, i, err)
				continue
			}
			checkWords(t, p.Sentence)
		}
	}
	for _, err := range []error{second(PerTenHours(1e6, 1)), second(PerTenHours(0, 1)), second(AfterTopUps(0, 1, 1, 10_000))} {
		if err != nil {
			t.Error(err) // the ends themselves are taken
		}
	}
}

func TestGrades(t *testing.T) {
	for _, tt := range []struct {
		typed string
		want  int
	}{{"SAE 50", 50}, {"sae50", 50}, {"100", 50}, {"W 100", 50}, {"1100", 50}, {"30", 30}, {"65", 30}, {"1065", 30}, {"w80", 40}, {"1080", 40}, {"120", 60}, {"SAE 60", 60}} {
		if g, err := ParseGrade(tt.typed); err != nil || g.SAE != tt.want {
			t.Errorf("%s: %+v, %v", tt.typed, g, err)
		}
	}
	for _, typed := range []string{"", "SAE", "70", "15W-50", "-50", "0", "SAE 5O"} {
		if g, err := ParseGrade(typed); err == nil || !strings.Contains(err.Error(), "“"+typed+"”") {
			t.Errorf("%q is %+v, %v", typed, g, err)
		}
	}
	// One grade begins where the one before ends, and the end is not in it.
	var last Grade
	for i, typed := range []string{"30", "40", "50", "60"} {
		g, _ := ParseGrade(typed)
		if i > 0 && last.Viscosity.Under != g.Viscosity.Min {
			t.Errorf("%d ends at %v, %d begins at %v", last.SAE, last.Viscosity.Under, g.SAE, g.Viscosity.Min)
		}
		if !g.Viscosity.Holds(g.Viscosity.Min) || g.Viscosity.Holds(g.Viscosity.Under) || g.Viscosity.Holds(quantity.MustDecimal("9.2")) {
			t.Errorf("the ends of %v", g.Viscosity)
		}
		last = g
	}
	if g, _ := ParseGrade("W100"); g.Words() != "SAE 50 is 100 on a can and 1100 in old papers." {
		t.Error(g.Words())
	}
}

func FuzzParseGrade(f *testing.F) {
	for _, typed := range []string{"SAE 50", "W100", "1100", "15W-50", "", "W", "\xff", "999999999999999999999"} {
		f.Add(typed)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		g, err := ParseGrade(typed)
		if err != nil {
			if p, ok := err.(*quantity.Problem); !ok || p.Sentence == "" {
				t.Errorf("%q: %v is no sentence", typed, err)
			}
			return
		}
		for _, name := range []int{g.SAE, g.Commercial, g.Military} {
			if again, err := ParseGrade(strconv.Itoa(name)); err != nil || again != g {
				t.Errorf("%q is %+v, by its name %d %+v, %v", typed, g, name, again, err)
			}
		}
	})
}
