package book

import (
	"linkrod/radial/oil"
	"linkrod/radial/quantity"
)

// answered is one reading and what was said after it.
type answered struct {
	line *line
	oil.Answer
	reading oil.Reading
	// parked: read on a later day with the meter unmoved, before the next
	// start. Such a level says what left the tank while the engine stood (see
	// standing.go). It is no consumption, so the reckoning does not see it and
	// Answer is the one before.
	parked bool
}

// answers is what the oil readings say, each as it was answered when it came:
// later readings do not redraw it.
type answers struct {
	all  []answered
	bank int   // index of the first reading since the last closed step
	err  error // a setting that cannot be
}

// feeding is where the reckoning stands after the last reading.
type feeding struct {
	bank   *oil.Bank
	before *line // the last reading that counts, since the last restart
	broken bool  // oil went out and in after it, and no level was read

	renewed []*line // overhauls and ring jobs passed
	going   bool    // a reading is being reckoned
}

// answer puts the readings through the reckoning of package oil.
func (b *Book) answer() {
	a := &b.answers
	if _, a.err = oil.New(b.engine.settings); a.err != nil {
		return
	}
	rs := b.hours.readings
	for i, l := range rs {
		poured := oil.Quarts(0)
		// What was poured into an engine that stands belongs to the reading before it.
		for j := i + 1; j < len(rs) && l.behind == nil && !restarts(rs[j].body) && rs[j].parkedAfter(l); j++ {
			if o, ok := rs[j].body.(*Oil); ok {
				q, _ := quarts(o.Added)
				poured += q
			}
		}
		b.feed(l, poured)
	}
}

// feed puts one line through; poured is what went in after it while the engine stood.
func (b *Book) feed(l *line, poured oil.Quarts) {
	a, f := &b.answers, &b.fed
	if restarts(l.body) {
		a.bank = len(a.all)
		*f = feeding{broken: f.broken, renewed: f.renewed}
		if renews(l.body) != "" {
			f.renewed = append(f.renewed, l)
		}
		return
	}
	parked := l.parkedAfter(f.before)
	f.going = true
	readings, breaks := b.readingsOf(l, parked)
	f.going = false
	for i, r := range readings {
		if i == 0 {
			r.ChainBroken = r.ChainBroken || f.broken
			f.broken = false
			l.answer = len(a.all)
		}
		if _, drain := l.body.(*Drain); parked && !drain {
			a.all = append(a.all, answered{line: l, reading: r, parked: true, Answer: a.all[len(a.all)-1].Answer})
			continue
		}
		fed := r
		if i == len(readings)-1 {
			fed.Added += poured
		}
		if f.bank == nil {
			f.bank, _ = oil.New(b.engine.settings)
		}
		a.all = append(a.all, answered{line: l, reading: r, Answer: f.bank.Add(fed)})
	}
	f.broken = f.broken || breaks
	if l.behind == nil {
		f.before = l
	}
}

// parkedAfter reports that l was read at the hours of the reading before, on a
// later day, and not within an hour of a stop.
func (l *line) parkedAfter(before *line) bool {
	if before == nil || l.behind != nil || l.total.Compare(before.total) != 0 {
		return false
	}
	then, now := stampOf(before).Day, stampOf(l).Day
	if then == "" || now <= then {
		return false
	}
	var c Conditions
	switch v := l.body.(type) {
	case *Oil:
		c = v.Conditions
	case *Drain:
		c = v.Conditions
	}
	since := conditions(c).SinceStop
	return !since.OK || since.V > 60
}

// readingsOf is a line as the reckoning takes it: a level, or a drain with the
// levels that were read. breaks: oil went out and in, and no level was read.
func (b *Book) readingsOf(l *line, parked bool) (rs []oil.Reading, breaks bool) {
	h := b.hoursSince(l.total)
	switch v := l.body.(type) {
	case *Oil:
		level, ok := quarts(v.Level)
		if !ok {
			return nil, false
		}
		added, _ := quarts(v.Added)
		return []oil.Reading{{Hours: h, Level: level, Added: added, Poured: poured[v.AddHow], Conditions: conditions(v.Conditions)}}, false
	case *Drain:
		before, read := quarts(v.before())
		read = read && !parked // it lacks what ran out of the tank
		after, readAfter := quarts(v.after())
		c := conditions(v.Conditions)
		switch {
		case read && v.Same:
			return []oil.Reading{{Hours: h, Level: before, Drained: oil.DrainedSame, Conditions: c}}, false
		case read && readAfter:
			return []oil.Reading{
				{Hours: h, Level: before, Drained: oil.DrainedUnknown, Conditions: c},
				{Hours: h, Level: after, Conditions: c}}, false
		case read:
			return []oil.Reading{{Hours: h, Level: before, Drained: oil.DrainedUnknown, Conditions: c}}, false
		case readAfter:
			return []oil.Reading{{Hours: h, Level: after, ChainBroken: true, Conditions: c}}, false
		}
		return nil, true
	}
	return nil, false
}

var (
	poured = map[string]oil.Poured{"measured": oil.PouredMeasured, "guessed": oil.PouredGuessed}
	stands = map[string]oil.Stands{"level": oil.StandsLevel, "tail": oil.StandsTail, "same": oil.StandsSame, "other": oil.StandsOther}
	yesNo  = map[string]oil.YesNo{"yes": oil.Yes, "no": oil.No}
)

// conditions of a reading as the reckoning weighs them.
func conditions(c Conditions) oil.Conditions {
	out := oil.Conditions{Stands: stands[c.Stands], Scavenged: yesNo[c.Scavenged], Foam: yesNo[c.Foam]}
	if h, err := c.Minutes.Hours(); err == nil && c.Minutes.Given() {
		out.SinceStop = oil.Is(oil.Minutes(h.Minutes()))
	}
	out.Temp = fahrenheit(c.Temp)
	return out
}

func fahrenheit(m quantity.Measured) oil.Given[oil.Fahrenheit] {
	t, err := m.Temperature()
	if err != nil || !m.Given() {
		return oil.Given[oil.Fahrenheit]{}
	}
	return oil.Is(oil.Fahrenheit(t.Fahrenheit()))
}

// last is the answer at the highest hours since the last closed step, nil when
// no reading counts.
func (a *answers) last() *answered {
	for i := len(a.all) - 1; i >= a.bank; i-- {
		if r := &a.all[i]; r.Left == oil.Used && !r.parked {
			return r
		}
	}
	return nil
}

// level is the reading that tells the tank now, which may be a parked one.
func (a *answers) level() *answered {
	for i := len(a.all) - 1; i >= 0; i-- {
		if a.all[i].Left == oil.Used {
			return &a.all[i]
		}
	}
	return nil
}

// newest is the answer to the reading that was written last, which is another
// one when a line came late or is left out. nil when there is none since the
// last closed step.
func (a *answers) newest() *answered {
	var n *answered
	for i := a.bank; i < len(a.all); i++ {
		if n == nil || a.all[i].line.pos >= n.line.pos {
			n = &a.all[i]
		}
	}
	return n
}

// mostDrawn is how many readings are drawn and listed: the newest. The log has them all.
const mostDrawn = 300

// shownFrom is the first of those.
func (a *answers) shownFrom() int { return max(0, len(a.all)-mostDrawn) }
