package simulate

import "math"

// published is how many logs stand behind a published figure.
const published = 2000

// rounded is a published figure: what was printed and half its last digit.
type rounded struct{ v, half float64 }

// nearest is the value that prints so and lies nearest to x.
func (r rounded) nearest(x float64) float64 { return min(max(x, r.v-r.half), r.v+r.half) }

// twoSided is the chance of a standard normal as far from 0 as z or farther.
func twoSided(z float64) float64 { return math.Erfc(math.Abs(z) / math.Sqrt2) }

// studentAsNormal turns Student's t with that many degrees of freedom into a
// standard normal of nearly the same chance. (Abramowitz and Stegun 26.7.8.)
func studentAsNormal(t float64, freedom int) float64 {
	n := float64(freedom)
	return t * (1 - 1/(4*n)) / math.Sqrt(1+t*t/(2*n))
}

// sameCount is Fisher's exact test: the chance that two samples with the same
// underlying share differ as much as x of n and y of m, or more.
func sameCount(x, n, y, m int) float64 {
	choose := func(n, k int) float64 {
		a, _ := math.Lgamma(float64(n + 1))
		b, _ := math.Lgamma(float64(k + 1))
		c, _ := math.Lgamma(float64(n - k + 1))
		return a - b - c
	}
	chance := func(k int) float64 { return math.Exp(choose(n, k) + choose(m, x+y-k) - choose(n+m, x+y)) }
	seen := chance(x) * (1 + 1e-9)
	var p float64
	for k := max(0, x+y-m); k <= min(n, x+y); k++ {
		if c := chance(k); c <= seen {
			p += c
		}
	}
	return min(p, 1)
}
