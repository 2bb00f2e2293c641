package simulate

import (
	"math"
	"slices"
)

// truth is one engine: its smooth rate of consumption at every hour, in qt/h.
//
//	rate(h) = end + (start - end) fall(h / tau)
//
// times what the other fields say.
type truth struct {
	start, end, tau float64
	fall            fall
	stepAt, stepBy  float64   // from hour stepAt on, stepBy times as much; 0: never
	habit           []float64 // a factor for each eight hours in turn; nil: none
	drift           float64   // by this share of itself more for every hour
}

// fall is the share of the fall that is still to come, 1 at 0.
type fall func(h, tau float64) float64

func exponential(h, tau float64) float64 { return math.Exp(-h / tau) }
func hyperbolic(h, tau float64) float64  { return 1 / ((1 + h/tau) * (1 + h/tau)) }
func ramp(h, tau float64) float64        { return max(0, 1-h/rampEnd(tau)) }

func rampEnd(tau float64) float64 { return 2.5 * tau }

const habitHours = 8

func (t *truth) rate(h float64) float64 {
	return (t.end + (max(t.start, t.end)-t.end)*t.fall(h, t.tau)) * t.times(h)
}

// times is the factor on the curve: drift, habit and step.
func (t *truth) times(h float64) float64 {
	r := 1 + t.drift*h
	if t.habit != nil {
		r *= t.habit[min(int(h/habitHours), len(t.habit)-1)]
	}
	if t.stepBy != 0 && h >= t.stepAt {
		r *= t.stepBy
	}
	return r
}

// used is the integral of the smooth rate, qt.
func (t *truth) used(from, to float64) float64 { return t.integral(t.rate, from, to) }

// integral of a function that is smooth but at the hours where the engine changes.
func (t *truth) integral(f func(h float64) float64, from, to float64) float64 {
	kinks := []float64{t.stepAt, rampEnd(t.tau)}
	for i := range t.habit {
		kinks = append(kinks, habitHours*float64(i))
	}
	edges := []float64{from, to}
	for _, k := range kinks {
		if from < k && k < to {
			edges = append(edges, k)
		}
	}
	slices.Sort(edges)
	var sum float64
	for i := 1; i < len(edges); i++ {
		sum += gauss(f, edges[i-1], edges[i])
	}
	return sum
}

// gauss is Gauss and Legendre's rule on five points, whose points lie inside the
// piece, so a jump at its end does no harm. (Nodes and weights: Abramowitz and
// Stegun, table 25.4, n = 5.)
func gauss(f func(float64) float64, a, b float64) float64 {
	mid, half := (a+b)/2, (b-a)/2
	sum := 0.568888888888889 * f(mid)
	for _, p := range [...]struct{ x, w float64 }{
		{0.538469310105683, 0.478628670499366},
		{0.906179845938664, 0.236926885056189},
	} {
		sum += p.w * (f(mid-half*p.x) + f(mid+half*p.x))
	}
	return half * sum
}

// falls is how much less the rate is in ten hours.
func (t *truth) falls(h float64) float64 { return t.rate(h) - t.rate(h+10) }

// stillFalling is a rate that in ten hours will be under 75 % of what it is.
func (t *truth) stillFalling(h float64) bool { return t.falls(h) > 0.25*t.rate(h) }

// ready is the hour from which the rate is level and under the ceiling.
func (t *truth) ready(horizon float64) float64 {
	for h := 0.0; h < horizon; h += 0.1 {
		level := t.falls(h) < max(0.15*t.rate(h), 0.05*ceiling)
		if level && t.rate(h) < ceiling {
			return h
		}
	}
	return math.Inf(1)
}
