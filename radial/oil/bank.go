package oil

import (
	"errors"
	"math"
)

// Bank takes readings one at a time and answers each. It holds no clock and no
// log, and the same readings always give the same answers, so keep it while
// the log only grows, and make a new one (Run) when a line was corrected or
// came late.
//
// A step that a person has explained or repaired is closed by starting a new
// Bank with the readings from that hour on.
type Bank struct {
	settings  Settings
	step, ref float64 // of the stick, qt; reference rate, qt/h
	refTemp   Fahrenheit
	scatter   float64

	histories []history
	noise     noise
	origin    Hours // Hours at which the shapes start
	first     Hours // of the first used reading
	last      Hours // of the last used reading
	used      int
	added     float64 // at the last used reading, qt
	addVar    float64
	fresh     bool // the chain of levels is broken after the last used reading
	lastTail  bool // the aeroplane stood tail down then
	chain     chain
	leftOuts  []LeftOut

	said    Verdict
	settled *settled
	answer  Answer // of the last used reading
}

// refRate is what rates are measured against when no ceiling is on file.
const refRate = 0.6

// New makes a bank. The error says which setting cannot be and what to do.
func New(s Settings) (*Bank, error) {
	for _, c := range []struct {
		given bool
		ok    bool
		name  string
	}{
		{s.Capacity.OK, s.Capacity.V > 0 && s.Capacity.V <= anyTank, "tank capacity"},
		{s.StickStep.OK, s.StickStep.V >= 0.01 && s.StickStep.V <= 10, "step of the stick"},
		{s.Ceiling.OK, s.Ceiling.V >= 0.01 && s.Ceiling.V <= 100, "shop's ceiling"},
		{s.RefTemp.OK, within(float64(s.RefTemp.V), -100, 600), "usual oil temperature"},
	} {
		if c.given && !c.ok {
			return nil, errors.New("the " + c.name + " on file cannot be right: look at it again, or leave it not given")
		}
	}
	if !s.Ceiling.OK {
		s.Ceiling = Given[QtPerHour]{} // answers carry it, and nothing else of what was not given
	}
	return &Bank{
		settings: s,
		step:     float64(s.StickStep.or(usualStep)),
		ref:      float64(s.Ceiling.or(refRate)),
		refTemp:  s.RefTemp.or(usualTemp),
		scatter:  flightScatter,
	}, nil
}

// Run answers a whole log, line by line.
func Run(s Settings, log []Reading) ([]Answer, error) {
	b, err := New(s)
	if err != nil {
		return nil, err
	}
	answers := make([]Answer, len(log))
	for i, r := range log {
		answers[i] = b.Add(r)
	}
	return answers, nil
}

// Fork is a bank that has heard the same readings and goes its own way from here, to see what
// a reading would say that is not written yet.
func (b *Bank) Fork() *Bank {
	c := *b
	c.leftOuts = append([]LeftOut(nil), b.leftOuts...)
	c.histories = make([]history, len(b.histories))
	for i, h := range b.histories {
		h.members = append([]member(nil), h.members...)
		h.events = append([]event(nil), h.events...)
		c.histories[i] = h
	}
	return &c
}

// Add takes the next line of the log, in the order of the log, and answers it.
// A line that cannot be used changes nothing but the list of lines left out.
func (b *Bank) Add(r Reading) Answer {
	if why := b.leftOut(r); why != Used {
		return b.leave(r, why)
	}
	l, like := b.look(r)
	a := b.blank()
	a.Hours, a.Level = r.Hours, r.Level
	if b.used == 0 {
		b.histories = []history{{members: newMembers(l.y, l.r, b.ref)}}
	} else {
		b.follow(&a, r, l)
	}
	b.drain(r.Drained, l)
	for i := range b.histories {
		b.histories[i].members = collapse(b.histories[i].members, l.to)
	}
	b.chain.take(r, l)
	b.remember(r, like)
	b.figures(&a, l.to, r.Conditions.Temp.OK)
	b.answer = a
	return a
}

// blank is an answer that says what it rests on and nothing else.
func (b *Bank) blank() Answer {
	return Answer{
		StickStep:   Quarts(b.step),
		StepAssumed: !b.settings.StickStep.OK,
		Ceiling:     b.settings.Ceiling,
		HoursKnown:  b.settings.HoursKnown,
		Noise:       b.noise.lambda(),
	}
}

// look is the reading as the filters see it.
func (b *Bank) look(r Reading) (l look, like bool) {
	if b.used == 0 {
		b.first = r.Hours
		b.last = r.Hours
		if !b.settings.HoursKnown {
			b.origin = r.Hours
		}
	}
	like = b.lastTail
	base := variance(Quarts(b.step), r.Conditions, like)
	return look{
		n:       b.used,
		y:       atRef(r.Level, r.Conditions.Temp, b.refTemp),
		r:       b.noise.lambda() * base,
		base:    base,
		from:    b.last - b.origin,
		to:      r.Hours - b.origin,
		mid:     (b.last + r.Hours) / 2,
		added:   b.added,
		addVar:  b.addVar,
		fresh:   b.used > 0 && (b.fresh || r.ChainBroken),
		scatter: b.scatter,
		ref:     b.ref,
	}, like
}

// follow takes the histories through every reading but the first.
func (b *Bank) follow(a *Answer, r Reading, l look) {
	mean, sd := b.histories[0].foretold(l)
	z := (l.y - mean) / sd
	if !l.fresh {
		expected := onStick(mean, r.Conditions.Temp, b.refTemp)
		a.Fit = Fit{OK: true, Expected: expected, Off: r.Level - expected, Z: z}
		if dt := l.to - l.from; dt > 0 {
			before := b.chain.y + b.added
			a.Raw = Is(Interval{b.last, r.Hours, QtPerHour((before - l.y) / float64(dt))})
		}
	}
	b.histories = advance(b.histories, l, !l.fresh && math.Abs(z) >= branchAt)
	if b.used >= 2 && l.to > l.from && !l.fresh && b.histories[0].explains(l.n) == plain {
		b.noise.learn(z)
	}
}

// drain puts what was drained after the reading into every filter.
func (b *Bank) drain(d Drained, l look) {
	b.fresh = d != NotDrained && d != DrainedSame
	if d != DrainedSame {
		return
	}
	for i := range b.histories {
		ms := b.histories[i].members
		for j := range ms {
			ms[j].L, ms[j].PLL, ms[j].PLS = l.y, b.noise.lambda()*l.base, 0
		}
	}
}

// remember what the next reading needs of this one.
func (b *Bank) remember(r Reading, like bool) {
	b.used++
	b.last = r.Hours
	b.added = float64(r.Added)
	b.addVar = addVariance(r.Poured)
	b.lastTail = r.Conditions.Stands == StandsTail || r.Conditions.Stands == StandsSame && like
}

// figures fills the answer from the histories as they now stand, h hours from
// the origin of the shapes.
func (b *Bank) figures(a *Answer, h Hours, temp bool) {
	ps := parts(b.histories)
	cs := rates(ps, h)
	a.Now = band(ps, cs)
	a.Chances = b.chances(ps, cs, h)
	a.Readings, a.Span = b.used, b.last-b.first
	a.LeftOuts = b.leftOuts
	a.Noise = b.noise.lambda()
	a.Average = b.chain.average()
	switch {
	case b.used == 1:
		a.Shows = ShowsNothing
	case b.used < tooFew || a.Span < tooShort:
		if a.Average.OK {
			a.Shows = ShowsAverage
		}
	default:
		a.Shows = ShowsNow
	}
	b.judge(a, h)
	if a.Verdict == Seated && b.settled == nil {
		rate := float64(a.Now.Rate)
		b.settled = &settled{at: a.Hours, rate: rate, sd: spread(ps, cs, rate)}
	}
	if a.Verdict == StepUp {
		b.explain(a)
	}
	a.Curve = b.curve(ps)
	if a.Verdict == ReadingSuspect {
		a.Fit.Why = why(a.Fit, b.chain.addedBefore, temp)
	}
	a.Said = b.said
	b.hideBedding(a)
	a.Direction = direction(*a)
}

// hideBedding: with hours since overhaul not known, no bedding-in verdict is
// given. It is still reckoned, from the first reading, because what crept up
// is told by when the log was first level.
func (b *Bank) hideBedding(a *Answer) {
	if b.settings.HoursKnown {
		return
	}
	for _, v := range []*Verdict{&a.Verdict, &a.Said} {
		switch *v {
		case Falling, Levelling, Seated, NotSeating:
			*v = RateOnly
		}
	}
}

// explain says what stepped, when and from what.
func (b *Bank) explain(a *Answer) {
	s := &a.Step
	s.Now = a.Now.Rate
	if s.Cause != Stepped {
		s.About, s.Before = b.settled.at, QtPerHour(b.settled.rate)
		return
	}
	for i := range b.histories { // heaviest first
		if st := b.histories[i].step; st != nil {
			s.About, s.Before = st.about, QtPerHour(st.before)
			return
		}
	}
}

// curve of the heaviest part.
func (b *Bank) curve(ps []part) Curve {
	best := 0
	for i := range ps {
		if ps[i].share > ps[best].share {
			best = i
		}
	}
	p := ps[best]
	c := Curve{
		OK: true, Shape: p.Shape, Start: QtPerHour(p.S), Origin: b.origin,
		From: b.first, To: b.last, Weight: Chance(p.share),
	}
	if p.history.step != nil {
		c.From = p.history.step.about
	}
	return c
}

// At is the curve at an hour, never below nothing.
func (c Curve) At(h Hours) QtPerHour {
	return QtPerHour(math.Max(float64(c.Start)*c.Shape.At(h-c.Origin), 0))
}

// leave answers a line that is kept and not used: everything stands as it did.
func (b *Bank) leave(r Reading, why LeftOut) Answer {
	b.leftOuts = append(b.leftOuts[:len(b.leftOuts):len(b.leftOuts)], why)
	if why == AddedNotNumber {
		b.fresh = true // what went in is not known: no consumption from here to the next level
	}
	a := b.answer
	if b.used == 0 {
		a = b.blank()
	}
	a.Hours, a.Level = r.Hours, r.Level
	a.Left, a.Verdict = why, ReadingSuspect
	a.Step, a.Fit, a.Raw = Step{}, Fit{}, Given[Interval]{}
	a.LeftOuts = b.leftOuts
	return a
}
