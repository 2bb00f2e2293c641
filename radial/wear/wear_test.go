package wear_test

import (
	"flag"
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"linkrod/radial/quantity"
	"linkrod/radial/wear"
)

var seed = flag.Uint64("seed", 1, "seed of the random cases; the log names it")

// random is a source of chance whose seed stands in the log.
func random(t *testing.T) *rand.Rand {
	t.Helper()
	t.Logf("seed %d", *seed)
	return rand.New(rand.NewPCG(*seed, 0))
}

var nan, inf = math.NaN(), math.Inf(1)

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// second is the error of two results. A refusal comes with no figure that could be taken
// for one.
func second[T any](v T, err error) error {
	if f := reflect.ValueOf(v); err != nil && f.CanFloat() && f.Float() != 0 {
		return fmt.Errorf("refused, and yet %v: %w", v, err)
	}
	return err
}

func third[T, U any](_ T, _ U, err error) error { return err }

func near(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance }

// wantProblem expects an error about one input, in a whole sentence that holds words.
func wantProblem(t *testing.T, err error, field, words string) {
	t.Helper()
	p, ok := err.(*quantity.Problem)
	if !ok || p.Field != field || !strings.HasSuffix(p.Sentence, ".") || !strings.Contains(p.Sentence, words) {
		t.Errorf("problem with the %s: %v, want one that says %q", field, err, words)
	}
}

// plain takes the thin spaces of print for plain ones.
func plain(s string) string { return strings.ReplaceAll(s, "\u2009", " ") }

// of is a measured value from "8.5 thou"; "" is not given.
func of(text string) quantity.Measured {
	if text == "" {
		return quantity.Measured{}
	}
	value, unit, _ := strings.Cut(text, " ")
	return quantity.Of(value, quantity.Unit(unit))
}

// three is limits from "0 / 1.5 / 8" in thou, a dash for what the table has not.
func three(text string) wear.Limits {
	var m [3]quantity.Measured
	for i, s := range strings.Split(text, "/") {
		if s = strings.TrimSpace(s); s != "-" {
			m[i] = of(s + " thou")
		}
	}
	return wear.Limits{NewMin: m[0], NewMax: m[1], Wear: m[2]}
}

// inch is a length's exact value in inches: math/big knows nothing of radial/quantity.
func inch(m quantity.Measured) *big.Rat {
	r, _ := new(big.Rat).SetString(m.Value.Text())
	per := map[quantity.Unit]*big.Rat{
		quantity.UnitIn: big.NewRat(1, 1), quantity.UnitThou: big.NewRat(1, 1000),
		quantity.UnitTenth: big.NewRat(1, 10000), quantity.UnitMm: big.NewRat(10, 254),
	}
	return r.Mul(r, per[m.Unit])
}
