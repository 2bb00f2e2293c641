package book

import (
	"linkrod/radial/due"
	"linkrod/radial/quantity"
)

// A cylinder is a thing of its own: it has a serial number, hours, and a past on other
// engines. A position of the ring is where it is now.

// onPosition is the cylinder in a position.
type onPosition struct {
	serial string
	since  *line             // fitted here; nil: it was there when the book began
	hours  quantity.Measured // its own, as far as they are known
	whole  bool              // they are all it has
}

// spell is one stay of a cylinder on this engine.
type spell struct {
	cyl     int
	serial  string
	on, off *line // nil: before the book, or still there
}

// spells are the stays in one position, the oldest first.
func (b *Book) spells(k int) (all []spell) {
	now := spell{cyl: k}
	for _, l := range b.lines {
		f, ok := l.body.(*Facts)
		if !ok || !l.used() || f.text("cyl") != itoa(k) {
			continue
		}
		switch f.Kind {
		case &fitted:
			if now.off == nil && (now.on != nil || len(all) == 0) {
				now.off = l // nobody wrote that the one before came off
				all = append(all, now)
			}
			now = spell{cyl: k, serial: f.text("serial"), on: l}
		case &removed:
			if now.serial == "" {
				now.serial = f.text("serial")
			}
			now.off = l
			all = append(all, now)
			now = spell{cyl: k}
		}
	}
	if now.on != nil || len(all) == 0 {
		all = append(all, now)
	}
	return all
}

// onCylinder is the cylinder in a position and its hours:
//
//	before it was fitted + what the engine ran since
//
// One that was there when the book began has the engine's hours since its overhaul only if
// somebody wrote so; here they are at least what the book saw.
func (b *Book) onCylinder(k int) onPosition {
	all := b.spells(k)
	s := all[len(all)-1]
	p := onPosition{serial: s.serial, since: s.on}
	if s.on == nil && s.off != nil {
		return p // nothing is in that position
	}
	top := b.top()
	if top == nil {
		return p
	}
	var before quantity.Measured
	run := due.Spell{Off: hoursOf(top.total)}
	switch {
	case s.on != nil:
		before = s.on.body.(*Facts).get("past").M
		if s.on.onMeter {
			run.On = hoursOf(s.on.total)
		}
		if s.on.body.(*Facts).text("state") == "new" && !before.Given() {
			before = quantity.Of("0", quantity.UnitH)
		}
	default:
		if o := b.renewed(); o != nil { // an overhaul on record is not a past on record: new cylinders are fitted
			run.On = hoursOf(o.total)
		} else if first := b.firstOnMeter(); first != nil {
			run.On = hoursOf(first.total)
		}
	}
	h, err := due.Worked(before, []due.Spell{run})
	if err == nil {
		p.hours, p.whole = h.AtLeast, h.Whole
	}
	return p
}

func hoursOf(d quantity.Decimal) quantity.Measured {
	return quantity.Measured{Value: d, Unit: quantity.UnitH}
}

// firstOnMeter is the line with the fewest hours.
func (b *Book) firstOnMeter() (first *line) {
	for _, l := range b.lines {
		if l.onMeter && l.behind == nil && (first == nil || l.total.Compare(first.total) < 0) {
			first = l
		}
	}
	return first
}

// renewed is the last overhaul or ring job on record, nil for none.
func (b *Book) renewed() *line {
	for i := len(b.lines) - 1; i >= 0; i-- {
		if f, ok := b.lines[i].body.(*Facts); ok && b.lines[i].used() && f.Kind == &overhaul && b.lines[i].onMeter {
			return b.lines[i]
		}
	}
	return nil
}

// openFindings are the findings nobody closed, the gravest first.
func (b *Book) openFindings() (open []*line) {
	closed := map[string]bool{}
	for _, l := range b.lines {
		if f, ok := l.body.(*Facts); ok && l.used() && f.Kind == &finding {
			closed[f.text("closes")] = true
		}
	}
	for _, grave := range []string{"stop", "before", "watch", "note"} {
		for _, l := range b.lines {
			f, ok := l.body.(*Facts)
			if ok && l.used() && f.Kind == &finding && f.text("grave") == grave && f.text("closes") == "" && !closed[l.key.String()] {
				open = append(open, l)
			}
		}
	}
	return open
}
