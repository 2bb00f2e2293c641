package quantity

import (
	"flag"
	"math"
	"math/big"
	"math/rand"
	"testing"
)

// seed replays any random test of this package: go test -quantity.seed=7.
var seed = flag.Int64("quantity.seed", 1938, "seed of the random tests")

// random is a source of chance whose seed stands in the log of a failed test.
func random(t *testing.T) *rand.Rand {
	t.Helper()
	t.Logf("replay with -quantity.seed=%d", *seed)
	return rand.New(rand.NewSource(*seed))
}

// float64Near reports that x and y differ by no more than ε.
func float64Near(x, y, ε float64) bool { return math.Abs(x-y) <= ε }

// rat is an exact number from its text, for the definitions below and as a
// second opinion on every exact result: math/big knows nothing of this package.
func rat(text string) *big.Rat {
	r, ok := new(big.Rat).SetString(text)
	if !ok {
		panic(text)
	}
	return r
}

func mul(a *big.Rat, rest ...*big.Rat) *big.Rat {
	p := new(big.Rat).Set(a)
	for _, r := range rest {
		p.Mul(p, r)
	}
	return p
}

func quo(a, b *big.Rat) *big.Rat { return new(big.Rat).Quo(a, b) }

// randomDecimal has up to the given figures, any sign and any places they allow.
func randomDecimal(r *rand.Rand, figures int) Decimal {
	coef := r.Int63n(int64(pow10(1 + r.Intn(figures))))
	if r.Intn(2) == 0 {
		coef = -coef
	}
	d, err := NewDecimal(coef, r.Intn(figures+1))
	if err != nil {
		panic(err)
	}
	return d
}
