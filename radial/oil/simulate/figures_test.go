package simulate

import (
	"math"
	"slices"
)

// figure is one number made of many scores, and how likely a published one of
// the same source would be as far from it.
type figure struct {
	value float64
	agree func(rounded) float64
}

// rootMeanSquare of an error, by its logarithm: the error of ln(rms) is
// mean-square's over twice itself (delta method).
func rootMeanSquare(e []float64) figure {
	m := mean(squares(e))
	lean := make([]float64, len(e))
	for i := range e {
		lean[i] = e[i] * e[i] / (2 * m)
	}
	return byLog(math.Sqrt(m), lean)
}

// ratio of two root mean squares of the same logs; they err together.
func ratio(a, b []float64) figure {
	ma, mb := mean(squares(a)), mean(squares(b))
	lean := make([]float64, len(a))
	for i := range a {
		lean[i] = a[i]*a[i]/(2*ma) - b[i]*b[i]/(2*mb)
	}
	return byLog(math.Sqrt(ma/mb), lean)
}

// average of widths.
func average(w []float64) figure {
	m := mean(w)
	lean := make([]float64, len(w))
	for i := range w {
		lean[i] = w[i] / m
	}
	return byLog(m, lean)
}

// byLog is a figure whose logarithm has each log's share of its error in lean.
// Both samples err: ours with its n logs, the published one with its 2,000, and
// the spread of one log is taken from ours.
func byLog(value float64, lean []float64) figure {
	n := len(lean)
	m := mean(lean)
	var v float64
	for _, x := range lean {
		v += (x - m) * (x - m)
	}
	v /= float64(n - 1)
	se := math.Sqrt(v * (1/float64(n) + 1.0/published))
	return figure{value, func(p rounded) float64 {
		return twoSided(studentAsNormal(math.Log(value/p.nearest(value))/se, n-1))
	}}
}

// share of logs of which something is true, in per cent.
func share(yes []bool) figure {
	x := 0
	for _, y := range yes {
		if y {
			x++
		}
	}
	n := len(yes)
	return figure{100 * float64(x) / float64(n), func(p rounded) float64 {
		lo := max(0, int(math.Ceil((p.v-p.half)/100*published-1e-6)))
		hi := min(published, int(math.Floor((p.v+p.half)/100*published+1e-6)))
		best := 0.0
		for y := lo; y <= hi; y++ {
			best = max(best, sameCount(x, n, y, published))
		}
		return best
	}}
}

// quantile of hours at which something was said, among the logs in which it
// ever was. How many of ours lie below the published one is binomial, whatever
// the hours' distribution.
func quantile(q float64, hours []float64) figure {
	var said []float64
	for _, h := range hours {
		if !math.IsInf(h, 0) {
			said = append(said, h)
		}
	}
	if len(said) == 0 {
		return figure{math.NaN(), func(rounded) float64 { return 0 }}
	}
	slices.Sort(said)
	n := float64(len(said))
	se := math.Sqrt(q * (1 - q) * (1/n + 1.0/published))
	return figure{said[int(q*(n-1)+0.5)], func(p rounded) float64 {
		var under, over float64 // shares below the least and the greatest value that prints so
		for _, h := range said {
			if h < p.v-p.half {
				under += 1 / n
			}
			if h <= p.v+p.half {
				over += 1 / n
			}
		}
		return twoSided((min(max(q, under), over) - q) / se)
	}}
}

func mean(xs []float64) float64 {
	var sum float64
	for _, x := range xs {
		sum += x
	}
	return sum / float64(len(xs))
}

func squares(xs []float64) []float64 {
	out := make([]float64, len(xs))
	for i, x := range xs {
		out[i] = x * x
	}
	return out
}

// each takes one thing from every score.
func each[T any](scores []score, f func(*score) T) []T {
	out := make([]T, len(scores))
	for i := range scores {
		out[i] = f(&scores[i])
	}
	return out
}
