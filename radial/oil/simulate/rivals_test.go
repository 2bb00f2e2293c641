package simulate

import (
	"math"

	"linkrod/radial/oil"
)

// raw is the rate of the last interval as anyone would work it out: what the
// tank held after the last stop, less what it holds now, over the hours between.
func (l *log) raw(i int) float64 {
	a, b := l.lines[i-1], l.lines[i]
	return float64(a.Level+a.Added-b.Level) / float64(b.Hours-a.Hours)
}

// estimate of a rate and its standard error, qt/h.
type estimate struct{ rate, se float64 }

// oracle is the best any unbiased method could do that was told everything but
// how much: the curve (tau; the hour and size of a step; that a settled engine
// is settled) and every variance are known, the amplitudes are not. Generalised
// least squares on the levels, the scatter of flights entering between readings,
// carried out one reading at a time; its standard error is Cramér and Rao's
// bound. Of adds it knows what the method is told, sd 0.10, which is more than
// the truth. The states are the level, what decays and what stays.
func (s *scenario) oracle(l *log) []estimate {
	const unknown = 1e6
	reading := s.declared*s.declared + s.step*s.step/12
	k := kalman{cov: [3][3]float64{{}, {1: unknown}, {2: unknown}}}
	if l.truth.start == l.truth.end {
		k.cov[1][1] = 0
	}
	out := make([]estimate, len(l.lines))
	for i, h := range l.hours {
		line := l.lines[i]
		switch {
		case i == 0:
			k.restart(float64(line.Level), reading)
		default:
			before := l.lines[i-1]
			if before.Drained == oil.DrainedSame {
				k.restart(float64(before.Level), reading)
			}
			var added float64
			if before.Added != 0 {
				added = addSD * addSD
			}
			k.use(l.truth.integral(l.truth.decays, l.hours[i-1], h), l.truth.integral(l.truth.stays, l.hours[i-1], h))
			k.mean[0] += float64(before.Added)
			k.cov[0][0] += l.spread[i] + added
			k.read(float64(line.Level), reading)
		}
		out[i] = k.rate(l.truth.decays(h), l.truth.stays(h))
	}
	return out
}

const addSD = 0.10 // qt, oil.PouredNormal

// The known curves whose amounts make up the rate.
func (t *truth) decays(h float64) float64 { return t.fall(h, t.tau) * t.times(h) }
func (t *truth) stays(h float64) float64  { return t.times(h) }

// kalman holds level, what decays and what stays.
type kalman struct {
	mean [3]float64
	cov  [3][3]float64
}

// restart: the level is as just read, and says nothing of the rest.
func (k *kalman) restart(level, v float64) {
	k.mean[0] = level
	k.cov[0] = [3]float64{v, 0, 0}
	k.cov[1][0], k.cov[2][0] = 0, 0
}

// use takes a of what decays and b of what stays from the level.
func (k *kalman) use(a, b float64) {
	k.mean[0] -= a*k.mean[1] + b*k.mean[2]
	for j := range 3 {
		k.cov[0][j] -= a*k.cov[1][j] + b*k.cov[2][j]
	}
	for i := range 3 {
		k.cov[i][0] -= a*k.cov[i][1] + b*k.cov[i][2]
	}
}

// read the level with variance v.
func (k *kalman) read(level, v float64) {
	total, off, gain := k.cov[0][0]+v, level-k.mean[0], k.cov[0]
	for i := range 3 {
		k.mean[i] += gain[i] * off / total
		for j := range 3 {
			k.cov[i][j] -= gain[i] * gain[j] / total
		}
	}
}

func (k *kalman) rate(a, b float64) estimate {
	return estimate{
		a*k.mean[1] + b*k.mean[2],
		math.Sqrt(a*a*k.cov[1][1] + 2*a*b*k.cov[1][2] + b*b*k.cov[2][2]),
	}
}
