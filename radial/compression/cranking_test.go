package compression_test

import (
	"fmt"
	"math/big"
	"testing"

	"linkrod/radial/compression"
	"linkrod/radial/quantity"
)

func TestCranking(t *testing.T) {
	for _, tt := range []struct {
		readings, minimum string
		average           float64
		low, under        string
	}{
		{"100 100 100 100 100 100 100", "", 100, "[]", "[]"},
		// 4 × 105 + 80 = 500: one of five exactly 20 per cent below the average of 100.
		{"105 105 105 105 80", "", 100, "[5]", "[]"},
		{"105 105 105 105 80.01", "", 100.002, "[]", "[]"},
		{"105 105 105 105 79.99", "", 99.998, "[5]", "[]"},
		{"105 105 105 105 80", "80 psi", 100, "[5]", "[]"}, // the minimum itself passes
		{"105 105 105 105 80", "80.1 psi", 100, "[5]", "[5]"},
		{"100 90 100", "95 psi", 96.667, "[]", "[2]"},
		{"40 100 40 100", "", 70, "[1 3]", "[]"},
		{"0 0", "", 0, "[1 2]", "[]"},
	} {
		c, err := compression.Cranking(readings(tt.readings), of(tt.minimum))
		if err != nil || !near(c.Average.PSI(), tt.average, 0.0005) || fmt.Sprint(c.Low) != tt.low || fmt.Sprint(c.Under) != tt.under {
			t.Errorf("%s: %+v %v, want %v low %s under %s", tt.readings, c, err, tt.average, tt.low, tt.under)
		}
	}
	for _, tt := range []struct {
		readings, minimum string
		field, words      string
	}{
		{"", "", "readings", "There are 0"},
		{"100", "", "readings", "all the cylinders"},
		{"100 -", "", "cylinder 2", "not given"},
		{"100 -3", "", "cylinder 2", "starts at 0"},
		{"100 100", "5 in", "minimum", "must be a pressure"},
		{"100 100", "-5 psi", "minimum", "starts at 0"},
		{"99999999999999999.9 1", "", "cylinder 2", "digits"},
		{"99999999999999999 0 0 0 0 0 0 0 0 0 0", "", "cylinder 1", "digits"},
		{"100000000000000000 100000000000000000", "", "readings", "digits"},
	} {
		wantProblem(t, second(compression.Cranking(readings(tt.readings), of(tt.minimum))), tt.field, tt.words)
	}
	mixed := []quantity.Measured{of("100 psi"), of("7 bar")}
	wantProblem(t, second(compression.Cranking(mixed, of(""))), "cylinder 2", "Cylinder 2 is in bar and cylinder 1 in psi")
}

// Low, against fractions of math/big.
func TestCrankingByFractions(t *testing.T) {
	r := random(t)
	lows := 0
	for range 5000 {
		n := 2 + r.IntN(8)
		var list []quantity.Measured
		sum := new(big.Rat)
		var vs []*big.Rat
		for range n {
			d := must(quantity.NewDecimal(int64(600+10*r.IntN(60)), 1))
			list = append(list, quantity.Measured{Value: d, Unit: quantity.UnitPsi})
			v, _ := new(big.Rat).SetString(d.Text())
			vs = append(vs, v)
			sum.Add(sum, v)
		}
		var want []int
		line := sum.Mul(sum, big.NewRat(4, int64(5*n)))
		for i, v := range vs {
			if v.Cmp(line) <= 0 {
				want = append(want, i+1)
			}
		}
		if c := must(compression.Cranking(list, quantity.Measured{})); fmt.Sprint(c.Low) != fmt.Sprint(want) {
			t.Fatalf("%v: low %v, want %v", list, c.Low, want)
		}
		lows += len(want)
	}
	if lows < 100 {
		t.Errorf("only %d low cylinders in all", lows)
	}
}
