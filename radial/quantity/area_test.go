package quantity

import (
	"math"
	"testing"
)

func TestArea(t *testing.T) {
	// A square inch is 645.16 mm² exactly (NIST SP 811, App. B).
	for _, c := range []struct{ got, want float64 }{
		{SquareInch.SquareMillimetres(), 645.16},
		{SquareMillimetre.SquareMillimetres(), 1},
		{SquareMetre.SquareMetres(), 1},
		{SquareMetre.SquareMillimetres(), 1e6},
		{SquareMillimetre.SquareInches() * 645.16, 1},
		{Circle(2).SquareInches(), math.Pi},
		{Circle(-2).SquareInches(), math.Pi},
		// 80 psi on a 5.375 in piston: testdata/checks, general.csv, cp_force_t7b.
		{math.Round(Pressure(80).On(Circle(5.375)).PoundsForce()), 1815},
		{Force(100).Over(4).PSI(), 25},
		{Newton.Over(SquareMetre).Pascals(), 1},
	} {
		if !float64Near(c.got, c.want, 1e-12*c.want) {
			t.Errorf("got %v, want %v", c.got, c.want)
		}
	}
}
