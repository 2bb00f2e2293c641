package oil

import "math"

// cut is a normal distribution cut off at 0: a rate is never below nothing.
type cut struct {
	mean, sd float64
	kept     float64 // share of the whole normal that lies above 0
}

func newCut(mean, sd float64) cut {
	c := cut{mean: mean, sd: sd, kept: 1}
	if sd > 0 {
		c.kept = normal(mean / sd)
	}
	return c
}

// steep is how far below 0 the uncut mean may lie, in sd, before the tail that
// is left is taken as the exponential it resembles: the normal distribution
// function would soon be 0 there. The two differ by under 0.3 %.
const steep = 30

func (c cut) isSteep() bool { return c.mean < -steep*c.sd }

// average of what is left after the cut.
func (c cut) average() float64 {
	switch {
	case c.sd == 0:
		return math.Max(c.mean, 0)
	case c.isSteep():
		return c.sd * c.sd / -c.mean
	}
	return c.mean + c.sd*density(c.mean/c.sd)/c.kept
}

// below is the chance of less than x.
func (c cut) below(x float64) float64 {
	switch {
	case x <= 0:
		return 0
	case c.sd == 0:
		if c.mean < x {
			return 1
		}
		return 0
	case c.isSteep():
		return 1 - math.Exp(c.mean/c.sd*(x/c.sd))
	}
	// 1 - P(above x) / P(above 0), both upper tails, so neither loses digits.
	return 1 - normal((c.mean-x)/c.sd)/c.kept
}

// densityAt x > 0.
func (c cut) densityAt(x float64) float64 {
	switch {
	case c.sd == 0:
		return 0
	case c.isSteep():
		return -c.mean / c.sd / c.sd * math.Exp(c.mean/c.sd*(x/c.sd))
	}
	return density((x-c.mean)/c.sd) / (c.sd * c.kept)
}

func density(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }

// normal is the standard normal distribution function.
func normal(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// part is one filter of one history, with its share of the whole.
type part struct {
	*member
	history *history
	share   float64
}

// negligible shares are left out of every figure.
const negligible = 1e-5

func parts(hs []history) []part {
	var ps []part
	var all float64
	for i := range hs {
		h := &hs[i]
		for j := range h.members {
			if share := math.Exp(h.w + h.members[j].w); share >= negligible {
				ps = append(ps, part{&h.members[j], h, share})
				all += share
			}
		}
	}
	for i := range ps {
		ps[i].share /= all
	}
	return ps
}

// rates are the parts as distributions of the rate at hour h.
func rates(ps []part, h Hours) []cut {
	cs := make([]cut, len(ps))
	for i, p := range ps {
		cs[i] = newCut(p.Rate(h))
	}
	return cs
}

// band is the mean of the mixture and its 2.5 % and 97.5 % points.
func band(ps []part, cs []cut) Band {
	var mean, top float64
	for i, c := range cs {
		a := c.average()
		mean += ps[i].share * a
		top = math.Max(top, math.Max(c.mean+6*c.sd, 6*a))
	}
	m := mixture{ps, cs, top}
	return Band{Rate: QtPerHour(mean), Lo: m.point(0.025), Hi: m.point(0.975)}
}

// mixture of cut normals, all of it but a trace below top.
type mixture struct {
	ps  []part
	cs  []cut
	top float64
}

// point is where the mixture reaches the chance want: Newton's steps, each
// kept inside a bracket that halves when a step would leave it, to a
// billionth of top or better.
func (m mixture) point(want float64) QtPerHour {
	lo, hi := 0.0, m.top
	x := hi / 2
	for range 60 {
		var p, d float64
		for i, c := range m.cs {
			p += m.ps[i].share * c.below(x)
			d += m.ps[i].share * c.densityAt(x)
		}
		if p < want {
			lo = x
		} else {
			hi = x
		}
		next := x - (p-want)/d
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if math.Abs(next-x) <= 1e-13*m.top {
			return QtPerHour(next)
		}
		x = next
	}
	return QtPerHour(x)
}

// spread is the standard deviation of the mixture about its mean, qt/h.
func spread(ps []part, cs []cut, mean float64) float64 {
	var v float64
	for i, c := range cs {
		v += ps[i].share * (sq(c.sd) + sq(c.mean-mean))
	}
	return math.Sqrt(v)
}

const (
	ahead      Hours = 10   // over which a rate is called level
	levelFall        = 0.15 // or falls by less than this share
	levelLeast       = 0.05 // or by less than this of the reference rate
	farAhead   Hours = 30   // by when a rate ought to be under the ceiling
)

// chances are the weights behind the verdict. settled is nil until the engine
// was first found level.
func (b *Bank) chances(ps []part, cs []cut, h Hours) Chances {
	// A wandering rate stays within 15 % over 10 h this often.
	wanderers := normal(levelFall / (driftWandering * math.Sqrt(float64(ahead))))
	ceiling := b.settings.Ceiling
	var out Chances
	for i, p := range ps {
		now, g := cs[i], p.Shape.At(h)
		fall := 1 - p.Shape.At(h+ahead)/g
		flat := 0.0
		if fall < levelFall || now.mean*fall < levelLeast*b.ref {
			flat = p.share
			if p.drift == driftWandering {
				flat *= wanderers
			}
		}
		out.Flat += Chance(flat)
		if ceiling.OK {
			c := float64(ceiling.V)
			under := now.below(c)
			out.Seated += Chance(flat * under)
			out.Over += Chance(p.share * (1 - under))
			mean, sd := p.Rate(h + farAhead)
			out.NotSeating += Chance(p.share * normal((mean-c)/sd))
		} else {
			out.Seated += Chance(flat)
		}
		if s := b.settled; s != nil {
			line := 1.5*s.rate + 0.1*b.ref
			sd := math.Sqrt(sq(now.sd) + sq(1.5*s.sd))
			out.Creep += Chance(p.share * normal((now.mean-line)/sd))
		}
	}
	for i := range b.histories {
		h := &b.histories[i]
		share := Chance(math.Exp(h.w))
		if h.step != nil {
			out.Step += share
		}
		switch h.explains(b.used - 1) {
		case badReading, addNotNoted, oilLost, stepUp:
			out.Suspect += share
		}
	}
	return out
}
