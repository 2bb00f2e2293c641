package ignition_test

import (
	"math"
	"testing"

	"linkrod/radial/ignition"
	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

// Ten degrees past neutral, one common type's (published training text); the rest is the
// gearing of the training text's magneto formula, N/(2 × sparks).
func TestEGap(t *testing.T) {
	for _, tt := range []struct {
		cylinders, sparks int
		crank             float64
	}{{7, 4, 80.0 / 7}, {9, 4, 80.0 / 9}, {9, 2, 40.0 / 9}, {5, 2, 8}} {
		speed, err := ring.Magneto(tt.cylinders, tt.sparks)
		if err != nil {
			t.Fatal(err)
		}
		at, err := ignition.EGapAtCrank(10, speed)
		if err != nil || math.Abs(at.Degrees()-tt.crank) > 1e-12 {
			t.Errorf("%d cylinders, %d sparks: %v, %v, want %v", tt.cylinders, tt.sparks, at, err, tt.crank)
		}
		neutral, err := ignition.NeutralAt(25, 10, speed)
		if err != nil || math.Abs(neutral.Degrees()-25-tt.crank) > 1e-12 {
			t.Errorf("neutral at %v, %v", neutral, err)
		}
		if e, err := ignition.EGapFound(neutral, 25, speed); err != nil || math.Abs(e.Degrees()-10) > 1e-12 {
			t.Errorf("found %v, %v, want 10", e, err)
		}
	}
}

func TestEGapRefuses(t *testing.T) {
	nan, inf := quantity.Angle(math.NaN()), quantity.Angle(math.Inf(1))
	second := func(_ any, err error) error { return err }
	for field, errs := range map[string][]error{
		"E-gap":         {second(ignition.EGapAtCrank(0, ring.Distributor)), second(ignition.EGapAtCrank(90, ring.Distributor)), second(ignition.NeutralAt(25, nan, ring.Distributor)), second(ignition.EGapFound(210, 25, ring.Distributor))},
		"magneto speed": {second(ignition.EGapAtCrank(10, ring.Ratio{})), second(ignition.EGapFound(40, 25, ring.Ratio{Num: 1}))},
		"opening":       {second(ignition.NeutralAt(nan, 10, ring.Distributor)), second(ignition.NeutralAt(inf, 10, ring.Distributor))},
		"neutral":       {second(ignition.EGapFound(25, 25, ring.Distributor)), second(ignition.EGapFound(20, 25, ring.Distributor)), second(ignition.EGapFound(nan, 25, ring.Distributor)), second(ignition.EGapFound(inf, 25, ring.Distributor))},
	} {
		for i, err := range errs {
			p, ok := err.(*quantity.Problem)
			if !ok || p.Field != field {
				t.Errorf("%s %d: %v", field, i, err)
			}
		}
	}
	for _, e := range []quantity.Angle{0.1, 89.9} {
		if _, err := ignition.EGapAtCrank(e, ring.Distributor); err != nil {
			t.Error(err)
		}
	}
}
