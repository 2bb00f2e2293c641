package oil

import (
	"math"
	"slices"
)

// kind is how a history explains one reading.
type kind uint8

const (
	plain kind = iota
	badReading
	addNotNoted // oil went in and was not written down
	oilLost     // or an add was written and not poured
	stepUp
	stepDown
	kinds
)

// event is an explanation that is not the plain one.
type event struct {
	reading int // which used reading, from 0
	kind    kind
}

// history is one account of the whole log: the filters under it, its weight
// (natural log) and the events it is made of.
type history struct {
	members []member
	w       float64
	events  []event // of the last few readings
	step    *stepped
}

// stepped is the last step up of a history.
type stepped struct {
	about  Hours
	before float64 // qt/h
}

const (
	branchAt   = 1.5 // |z| from which a reading may be more than plain
	remember   = 5   // readings an event is told apart for
	mostKept   = 8   // histories
	leastKept  = 8.0 // below the best, natural log
	leastShape = -10 // a filter's weight within its history, natural log
	leastPlain = 0.05
)

// The chance of each explanation before its reading is seen, dt hours after
// the last. They sum to 1, but for a gap of more than about 240 h, where the
// two steps alone come near it and plain keeps its least.
func chance(k kind, dt float64) float64 {
	switch k {
	case badReading:
		return 0.02
	case addNotNoted:
		return 0.01
	case oilLost:
		return 0.003
	case stepUp:
		return 1 - math.Exp(-0.005*dt)
	case stepDown:
		return 1 - math.Exp(-0.001*dt)
	}
	p := 1.0
	for k := badReading; k < kinds; k++ {
		p -= chance(k, dt)
	}
	return math.Max(p, leastPlain)
}

// look is one reading as the filters see it.
type look struct {
	n        int     // used reading, from 0
	y, r     float64 // level at the reference temperature, its variance
	base     float64 // that variance before the noise multiplier
	from, to Hours   // since the origin of the shapes
	mid      Hours   // half-way, on the reader's own clock
	added    float64 // at from
	addVar   float64
	fresh    bool // the chain of levels is broken
	scatter  float64
	ref      float64
}

func (l look) process(m *member) Process {
	return Process{Scatter: l.scatter, Drift: m.drift, Ref: l.ref}
}

// predict brings a copy of the history's filters to the reading under k.
func (h *history) predict(l look, k kind) []member {
	out := slices.Clone(h.members)
	half := (l.from + l.to) / 2
	for i := range out {
		m := &out[i]
		p := l.process(m)
		switch {
		case l.fresh:
			m.Restart(l.from, l.to, l.y, p)
		case k == stepUp || k == stepDown:
			m.Predict(l.from, half, l.added, l.addVar, p)
			if k == stepUp {
				up := math.Max(m.S, 0.5*l.ref/m.Shape.At(half))
				m.S += 1.2 * up
				m.PSS += 0.49 * up * up
			} else {
				m.PSS = 0.25*m.PSS + 0.0625*m.S*m.S
				m.PLS *= 0.5
				m.S *= 0.5
			}
			m.Predict(half, l.to, 0, 0, p)
		default:
			m.Predict(l.from, l.to, l.added, l.addVar, p)
			switch k {
			case addNotNoted:
				m.L += 2
				m.PLL += 1.2 * 1.2
			case oilLost:
				m.L -= 1.5
				m.PLL += 1.2 * 1.2
			}
		}
	}
	return out
}

// child is the history with the reading explained as k.
func (h *history) child(l look, k kind) history {
	r := l.r
	if k == badReading {
		r += 1.5 * 1.5
	}
	c := history{members: h.predict(l, k), events: h.events, step: h.step}
	for i := range c.members {
		m := &c.members[i]
		m.w += m.Update(l.y, r)
	}
	all := logSum(len(c.members), func(i int) float64 { return c.members[i].w })
	c.w = h.w + all + math.Log(chance(k, float64(l.to-l.from)))
	kept := c.members[:0]
	for _, m := range c.members {
		if m.w -= all; m.w > leastShape {
			kept = append(kept, m)
		}
	}
	c.members = kept
	if k != plain {
		c.events = append(slices.Clone(h.events), event{l.n, k})
	}
	if k == stepUp {
		c.step = &stepped{about: l.mid, before: h.rate(l.from)}
	}
	return c
}

// rate is the mean rate of a history at an hour, qt/h, never below nothing.
func (h *history) rate(at Hours) float64 {
	var sum, all float64
	for i := range h.members {
		p := math.Exp(h.members[i].w)
		m, _ := h.members[i].Rate(at)
		sum += p * m
		all += p
	}
	return math.Max(sum/all, 0)
}

// foretold is the level the history expects, plainly, and its sd with the
// reading's own variance in it: mean and variance of the mixture of its
// filters. The share of a filter dropped at the reading before (see
// leastShape) is not handed to the others here; it foretells an empty tank,
// which widens the sd by at most a few hundredths of a quart. The figures of
// testdata/oil were made so.
func (h *history) foretold(l look) (mean, sd float64) {
	var square float64
	for _, m := range h.predict(l, plain) {
		p := math.Exp(m.w)
		mean += p * m.L
		square += p * (m.PLL + l.r + m.L*m.L)
	}
	return mean, math.Sqrt(math.Max(square-mean*mean, l.r))
}

// advance takes every history through a reading, branching where asked.
func advance(hs []history, l look, branch bool) []history {
	var next []history
	for i := range hs {
		next = append(next, hs[i].child(l, plain))
		if !branch {
			continue
		}
		for k := badReading; k < kinds; k++ {
			if l.to == l.from && (k == stepUp || k == stepDown) {
				continue
			}
			next = append(next, hs[i].child(l, k))
		}
	}
	return prune(next, l.n)
}

// prune forgets old events, joins histories that have become the same, keeps
// the best few and makes their weights sum to 1. n is the latest reading.
func prune(hs []history, n int) []history {
	heaviestFirst(hs)
	var kept []history
next:
	for _, h := range hs {
		for len(h.events) > 0 && h.events[0].reading <= n-remember {
			h.events = h.events[1:]
		}
		for i := range kept {
			k := &kept[i]
			if (k.step != nil) == (h.step != nil) && slices.Equal(k.events, h.events) {
				k.w += math.Log(1 + math.Exp(h.w-k.w))
				continue next
			}
		}
		kept = append(kept, h)
	}
	heaviestFirst(kept)
	for i := range kept {
		if i == mostKept || kept[i].w < kept[0].w-leastKept {
			kept = kept[:i]
			break
		}
	}
	all := logSum(len(kept), func(i int) float64 { return kept[i].w })
	for i := range kept {
		kept[i].w -= all
	}
	return kept
}

// heaviestFirst puts the few histories in order of weight and leaves equal
// ones as they are: an insertion sort, a tenth of the library's on the phone.
func heaviestFirst(hs []history) {
	for i := 1; i < len(hs); i++ {
		for j := i; j > 0 && hs[j].w > hs[j-1].w; j-- {
			hs[j], hs[j-1] = hs[j-1], hs[j]
		}
	}
}

// explains is how the history explains the latest reading n.
func (h *history) explains(n int) kind {
	if e := len(h.events); e > 0 && h.events[e-1].reading == n {
		return h.events[e-1].kind
	}
	return plain
}
