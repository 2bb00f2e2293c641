package book

import (
	"math"

	"linkrod/radial/oil"
	"linkrod/radial/quantity"
)

// The guards of a reading. They ask and never correct: every figure is saved as
// it was typed once the person says that it stands.

// meterWord is the name of the meter on file: "Tach" or "Clock".
func (b *Book) meterWord() string {
	if b.text("meter") == "clock" {
		return "Clock"
	}
	return "Tach"
}

// hoursBack asks about hours before the last ones, and about hours far ahead.
func (d *drafting) hoursBack(field string, m quantity.Measured) {
	b := d.book
	last := b.top()
	total, ok := b.onLine(m, len(b.hours.changes))
	if last == nil || !ok || d.flag("late") {
		return
	}
	meter, before := b.meterWord()+" "+m.Value.Show(), last.body.(timed).at().Value.Show()
	if total.Compare(last.total) < 0 {
		a := Ask{Field: field, Strength: Unlikely, Code: "hours_back", Words: meter + " is before the last one, " + before + ". Meter changed?"}
		if field == "hours" {
			a.Choices = append(a.Choices, setText("Meter changed", "kind", "meter"), setFlag("Written late: its hours place it", "late"))
		}
		a.Choices = append(a.Choices, d.leave("Keep it, and do not use it", "hours_back"))
		d.ask(a)
		return
	}
	d.hoursJump(field, m)
}

// hoursJump asks about hours far ahead of the last ones.
func (d *drafting) hoursJump(field string, m quantity.Measured) {
	b := d.book
	last := b.top()
	total, ok := b.onLine(m, len(b.hours.changes))
	if last == nil || !ok {
		return
	}
	gone, err := total.Sub(last.total)
	if err != nil {
		return
	}
	// No engine flies more hours than the clock has, and few a hundred between
	// two looks at the stick (our choice).
	most := 100.0
	if days := d.daysSince(); days >= 0 {
		most = math.Min(most, float64(24*(days+1)))
	}
	if h := gone.Float64(); h > most {
		d.ask(Ask{Field: field, Strength: Unlikely, Code: "hours_jump", Words: b.meterWord() + " " + m.Value.Show() + " is " + figure(h, 1) + " h after the last one, " + last.body.(timed).at().Value.Show() + ". Is every digit right?",
			Choices: []Choice{d.leave("It is right", "hours_jump")}})
	}
}

// otherUnit says back a volume that was typed in another unit than the book's.
func (d *drafting) otherUnit(field string, m quantity.Measured) {
	unit := d.book.engine.unit
	if !m.Given() || m.Unit == unit {
		return
	}
	kept, _, err := m.Rounded(unit, 2)
	if err != nil {
		return
	}
	kept.Value = kept.Value.Shortest()
	d.ask(Ask{Field: field, Strength: Differs, Code: "unit", Words: "This engine is kept in " + unit.Plural() + ". Written as " +
		inWords(kept) + ", typed as " + inWords(m) + "."})
}

// overBrim is how far over the tank a stick may read before it cannot be: where
// the reckoning leaves a level out too (oil-rate 4.1).
const overBrim = 0.5 // US quarts

// brim asks about a level over the full mark, or over the brim with what was
// added.
func (d *drafting) brim(field string, level, added quantity.Measured) {
	b := d.book
	l, ok := quarts(level)
	if !ok {
		return
	}
	a, _ := quarts(added)
	holds := b.engine.settings.Capacity
	full := b.engine.full
	tooMuch := "The tank holds " + b.amount(holds.V) + ". More than that goes overboard."
	switch {
	case holds.OK && l > holds.V+overBrim:
		d.ask(Ask{Field: field, Strength: Impossible, Code: "over_brim", Words: tooMuch})
	case holds.OK && l+a > holds.V:
		d.ask(Ask{Field: field, Strength: Unlikely, Code: "over_brim", Words: tooMuch, Choices: []Choice{d.leave("Leave it", "over_brim")}})
	case full.OK && l > full.V:
		d.ask(Ask{Field: field, Strength: Unlikely, Code: "over_full", Words: short(level) + " is over the full mark, " + b.amount(full.V) + ".",
			Choices: []Choice{d.leave("It reads so", "over_full")}})
	case full.OK && l+a > full.V:
		d.ask(Ask{Field: "added", Strength: Differs, Code: "over_full", Words: "That makes " + b.amount(l+a) + ", over the full mark, " + b.amount(full.V) + "."})
	}
}

// litres is the choice to have meant litres, where a figure in quarts can be.
func (d *drafting) litres(field string, m quantity.Measured) []Choice {
	if m.Unit != quantity.UnitQt {
		return nil
	}
	return []Choice{setText("It was litres", field, m.Value.Text()+" l")}
}

// expect asks about a level that does not follow from what is written: risen
// with nothing added, right only in litres, or simply far off.
func (d *drafting) expect(o *Oil) {
	b := d.book
	last := b.answers.level()
	read, ok := quarts(o.Level)
	total, placed := b.onLine(o.Hours, len(b.hours.changes))
	if last == nil || !ok || !placed || o.Late || d.asked("over_brim") || d.asked("hours_jump") || total.Compare(last.line.total) < 0 || last.reading.Drained == oil.DrainedUnknown {
		return
	}
	had := last.reading.Level + last.reading.Added
	used, known := d.used(last, total)
	if total.Compare(last.line.total) > 0 && last.parked {
		// Once it has run, what had left the tank may be back in it.
		had = oil.Quarts(math.Max(float64(had), float64(d.book.standing(d.now).shutdownLevel())))
	}
	expected := had - used
	const slack = 0.4 // about the error of two readings on a half-quart stick
	off := math.Abs(float64(read - expected))
	switch {
	case known && off > 1.5*slack && quantity.LitresForQuarts(o.Level, quantity.Volume(expected)*quantity.Quart, slack*quantity.Quart):
		d.ask(Ask{Field: "level", Strength: Unlikely, Code: "litres", Words: quantity.VolumeDoubt(o.Level.Value),
			Choices: append(d.litres("level", o.Level), d.leave("Quarts, as typed", "litres"))})
	case read > had+0.75:
		d.ask(Ask{Field: "level", Strength: Unlikely, Code: "add_missing",
			Words: "The tank had " + b.amount(had) + " and now reads " + b.amount(read) + ". Was oil put in and not written down?",
			Choices: []Choice{setText("Read it again", "level", ""), setText("It was drained and refilled", "kind", "drain"),
				d.leave("Oil went in, the amount was not written", "add_missing")}})
	case known && off > 1+0.5*float64(used):
		d.ask(Ask{Field: "level", Strength: Differs, Code: "differs", Words: "Read again? " + short(o.Level) + " is " +
			b.about(oil.Quarts(off)) + " away from what was to be expected, " + b.about(expected) + "."})
	}
}

// used is what the engine will have used since a reading, as far as is known.
func (d *drafting) used(last *answered, total quantity.Decimal) (oil.Quarts, bool) {
	gone, err := total.Sub(last.line.total)
	if err != nil {
		return 0, false
	}
	h := oil.Quarts(gone.Float64())
	switch last.Shows {
	case oil.ShowsNow:
		return oil.Quarts(last.Now.Rate) * h, true
	case oil.ShowsAverage:
		return oil.Quarts(last.Average.Rate) * h, true
	}
	return 0, h == 0
}

// about is an amount that was worked out, to a tenth.
func (b *Book) about(q oil.Quarts) string {
	return figure(b.engine.shown(q), 1) + " " + b.engine.unit.Symbol()
}
