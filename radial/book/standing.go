package book

import (
	"linkrod/radial/oil"
	"linkrod/radial/quantity"
)

// standing is what is known of the engine since its meter last moved.
type standing struct {
	since string // the day the hours were first read at their highest, "" if not stated
	days  int    // to now; -1: not known

	// The levels at that reading of the meter, when two were read on
	// different days with no drain between.
	from, to *answered
	added    oil.Quarts // between them
	gone     oil.Missing
	found    oil.FluidOunces // of it, in the sump, in cylinders and pipes
	looked   bool            // somebody drained and wrote what ran out
	ok       bool            // gone holds
}

// idleDays is when standing becomes the first thing to say and pulling through
// the next thing to do. Published storage practice for such engines acts on the
// third idle day; that it also starts a page here is our choice. Handbooks ask
// for the check after half an hour already, and the page of the next step says
// to follow the owner's card.
const idleDays = 3

// standing looks at the lines at the highest hours, whatever they record.
func (b *Book) standing(now Now) standing {
	s := standing{days: -1}
	top := b.top()
	if top == nil {
		return s
	}
	for _, l := range b.lines {
		if l.onMeter && l.behind == nil && l.total.Compare(top.total) == 0 {
			if d := stampOf(l).Day; d != "" && (s.since == "" || d < s.since) {
				s.since = d
			}
		}
	}
	from, ok1 := parseDay(s.since)
	to, ok2 := parseDay(now.Day)
	if ok1 && ok2 && to >= from {
		s.days = to - from
	}
	b.levelsAt(top.total, &s)
	return s
}

// top is the line with the most hours, nil when nothing has any.
func (b *Book) top() *line { return b.hours.top }

// levelsAt finds the first and the last level of one stop and what is gone
// between them.
func (b *Book) levelsAt(total quantity.Decimal, s *standing) {
	all := b.answers.all
	for i := range all {
		a := &all[i]
		switch {
		case a.Left != oil.Used || a.line.total.Compare(total) != 0:
		case s.from == nil || a.reading.ChainBroken:
			s.from, s.to, s.added = a, a, 0
		default:
			s.added += s.to.reading.Added
			s.to = a
		}
		if s.to == a && a.reading.Drained == oil.DrainedUnknown {
			s.from, s.to = nil, nil
		}
	}
	if s.from == s.to || stampOf(s.from.line).Day == "" || stampOf(s.from.line).Day >= stampOf(s.to.line).Day {
		s.from, s.to = nil, nil
		return
	}
	step := oil.Quarts(0.5)
	if g := b.engine.settings.StickStep; g.OK {
		step = g.V
	}
	stood := func(a *answered, level oil.Quarts) oil.Standing {
		return oil.Standing{Level: level, SD: oil.ReadingSD(step, a.reading.Conditions), Temp: a.reading.Conditions.Temp}
	}
	b.ranOut(total, stampOf(s.from.line).Day, s)
	gone, err := oil.Account(oil.Parking{
		Shutdown: stood(s.from, s.shutdownLevel()),
		Start:    stood(s.to, s.to.reading.Level),
	})
	s.gone, s.ok = gone, err == nil
}

// ranOut adds up what was drained out of the engine while it stood.
func (b *Book) ranOut(total quantity.Decimal, since string, s *standing) {
	for _, l := range b.lines {
		f, ok := l.body.(*Facts)
		if !ok || f.Kind != &pulled || !l.used() || !l.onMeter || l.total.Compare(total) != 0 || f.Day < since {
			continue
		}
		add := func(m quantity.Measured) {
			if v, err := m.Volume(); err == nil && m.Given() {
				s.found += oil.FluidOunces(v.FluidOunces())
				s.looked = true
			}
		}
		add(f.get("sump").M)
		for _, box := range []string{"drained", "pipes"} {
			for _, c := range f.get(box).At {
				add(f.get(box).measured(c.At))
			}
		}
	}
}

// shutdownLevel is the level that was left in the tank, with what was added after
// it was read.
func (s standing) shutdownLevel() oil.Quarts {
	if s.from == nil {
		return 0
	}
	return s.from.reading.Level + s.added
}

// quarts is what is gone.
func (s standing) quarts() oil.Quarts { return oil.Quarts(s.gone.Gone / 32) }
