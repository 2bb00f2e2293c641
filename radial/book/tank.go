package book

import "linkrod/radial/oil"

// tank is the tank with its last known level.
func (b *Book) tank(s standing) Tank {
	e := b.engine
	t := Tank{Unit: e.unit.Symbol(), UnitWord: e.unit.Plural(), Step: e.shown(0.5), AddStep: 1}
	if step := e.settings.StickStep; step.OK {
		t.Step = e.shown(step.V)
	} else if e.unit != "qt" {
		t.Step = 0.5
	}
	t.Full, t.Min = b.maybe(e.full), b.maybe(e.least)
	t.Capacity = b.maybe(e.settings.Capacity)
	level, known := b.levelNow()
	if !known {
		t.Spoken = "No level written yet."
		return t
	}
	shown := e.shown(level)
	t.Level, t.LevelText = &shown, figure(shown, 2)
	if then := s.shutdownLevel(); s.ok && then > level {
		before := e.shown(then)
		t.Before, t.BeforeText = &before, figure(before, 2)
	}
	t.Spoken = "Tank: " + t.LevelText + " " + t.UnitWord
	if t.Full != nil {
		t.Spoken += ", full is " + figure(*t.Full, 2)
	}
	if t.Min != nil {
		t.Spoken += ", least for flight " + figure(*t.Min, 2)
	}
	t.Spoken += "."
	return t
}

// levelNow is the level after everything written.
func (b *Book) levelNow() (oil.Quarts, bool) {
	a := b.answers.level()
	if a == nil || a.reading.Drained == oil.DrainedUnknown {
		return 0, false
	}
	return a.reading.Level + a.reading.Added, true
}

func (b *Book) maybe(q oil.Given[oil.Quarts]) *float64 {
	if !q.OK {
		return nil
	}
	v := b.engine.shown(q.V)
	return &v
}
