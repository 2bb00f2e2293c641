package book

import (
	"linkrod/radial/quantity"
)

func (d *drafting) oil() Body {
	unit := d.oilUnit()
	o := &Oil{
		Hours: d.hours("hours"), Level: d.measured("level", unit), Added: d.measured("added", unit),
		AddHow: d.choice("add_how", addHowWords), Conditions: d.conditions(), Note: d.text("note"),
		Stamp: d.stamp(), Late: d.flag("late"), Checked: d.checkedCodes(),
	}
	d.need("level", o.Level.Given(), "What does the stick read?")
	if o.Added.Given() && o.Added.Value.Sign() == 0 {
		o.Added = quantity.Measured{} // nothing added is nothing written
	}
	if !o.poured() {
		o.AddHow = ""
	}
	d.otherUnit("level", o.Level)
	d.otherUnit("added", o.Added)
	if o.Hours.Given() {
		d.hoursBack("hours", o.Hours)
	}
	if o.Level.Given() {
		d.brim("level", o.Level, o.Added)
		d.expect(o)
	}
	return o
}

// echo is the reading as the key that saves it says it: "Fifteen quarts, nothing
// added, at 523.6".
func (o *Oil) echo() string {
	if !o.Level.Given() {
		return ""
	}
	s := capital(o.Level.Words())
	if o.poured() {
		s += ", " + o.Added.Words() + " added"
	} else {
		s += ", nothing added"
	}
	return s + atMeter(o.Hours)
}

func atMeter(m quantity.Measured) string {
	if !m.Given() {
		return ""
	}
	return ", at " + m.Value.Show()
}

func (d *drafting) drain() Body {
	unit := d.oilUnit()
	v := &Drain{
		Hours: d.hours("hours"), LevelBefore: d.measured("level_before", unit), LevelAfter: d.measured("level_after", unit),
		Same: d.flag("same"), Conditions: d.conditions(), Note: d.text("note"),
		Stamp: d.stamp(), Late: d.flag("late"), Checked: d.checkedCodes(),
	}
	if v.Same {
		d.need("level_before", v.LevelBefore.Given() || v.LevelAfter.Given(), "Refilled to the same reading: which reading?")
	}
	d.otherUnit("level_before", v.LevelBefore)
	d.otherUnit("level_after", v.LevelAfter)
	if v.Hours.Given() {
		d.hoursBack("hours", v.Hours)
	}
	for _, f := range []struct {
		name string
		m    quantity.Measured
	}{{"level_before", v.LevelBefore}, {"level_after", v.LevelAfter}} {
		if f.m.Given() {
			d.brim(f.name, f.m, quantity.Measured{})
		}
	}
	return v
}

func (v *Drain) echo() string {
	s := "Drained and refilled"
	switch {
	case v.Same:
		s += " to the same reading, " + v.after().Words()
	case v.LevelAfter.Given():
		s += ", now " + v.LevelAfter.Words()
	default:
		s += ", the level after not read"
	}
	return s + atMeter(v.Hours)
}

// oilUnit is the unit the figures are typed in.
func (d *drafting) oilUnit() quantity.Unit {
	if u := quantity.Unit(d.text("unit")); u.Dimension() == quantity.DimVolume {
		return u
	}
	return d.book.engine.unit
}

// conditions of the reading, each asked about when it cannot be.
func (d *drafting) conditions() Conditions {
	tempUnit := quantity.UnitF
	if u := quantity.Unit(d.text("temp_unit")); u == quantity.UnitC {
		tempUnit = u
	}
	c := Conditions{
		Minutes: d.measured("minutes", quantity.UnitMin), Temp: d.measured("temp", tempUnit),
		Stands: d.choice("stands", standsWords), Scavenged: d.choice("scavenged", scavengedWords), Foam: d.choice("foam", foamWords),
	}
	if t := fahrenheit(c.Temp); t.OK && (t.V > 280 || t.V < -40) {
		a := Ask{Field: "temp", Strength: Unlikely, Code: "temp", Words: "Oil at " + short(c.Temp) + "? Fahrenheit or Celsius."}
		if c.Temp.Unit == quantity.UnitC {
			a.Choices = append(a.Choices, setText("Fahrenheit", "temp_unit", "F"))
		} else {
			a.Choices = append(a.Choices, setText("Celsius", "temp_unit", "C"))
		}
		a.Choices = append(a.Choices, d.leave("Leave it", "temp"))
		d.ask(a)
	}
	if h, err := c.Minutes.Hours(); err == nil && c.Minutes.Given() && h.Minutes() < 10 {
		d.ask(Ask{Field: "minutes", Strength: Differs, Code: "early", Words: "Read it 20 minutes after stopping. " +
			figure(20-h.Minutes(), 0) + " minutes to go."})
	}
	return c
}
