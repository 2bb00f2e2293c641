package book

import (
	"linkrod/radial/oil"
	"linkrod/radial/quantity"
)

// setting makes an edit of what is on file. It names what it replaces; where
// two values stand it settles them, and then it must say why.
func (d *drafting) setting() Body {
	f, ok := fieldOf(d.text("field"))
	if !ok {
		d.ask(Ask{Field: "field", Strength: Impossible, Code: "field", Words: "There is no setting “" + d.text("field") + "”."})
		return nil
	}
	s := &Setting{Field: f.name, Reason: d.text("reason"), Day: d.now.Day, By: d.me}
	heads := d.book.heads[f.name]
	for _, h := range heads {
		d.plan.Refs = append(d.plan.Refs, h.key)
	}
	switch {
	case d.book.disagreed(f.name):
		d.plan.Kind = "settle"
		d.need("reason", s.Reason != "", "Two people wrote two values. Why does this one hold?")
	case len(heads) > 0:
		d.plan.Kind = "replace"
	}
	if use := d.text("use"); use != "" {
		return d.useHead(s, heads, use)
	}
	v := d.value(f)
	if d.stuck() {
		return nil
	}
	if err := f.check(v); err != nil && !v.Unknown {
		d.ask(Ask{Field: "value", Strength: Impossible, Code: "value", Words: err.Error()})
		return nil
	}
	if v.Unknown && f.unknown == "" && len(heads) == 0 {
		d.ask(Ask{Field: "value", Strength: Impossible, Code: "empty", Words: f.label + ": nothing is typed yet."})
		return nil
	}
	s.Value = f.writeValue(v)
	if d.flag("withdraw") {
		s.Value = []byte("null")
	}
	d.doubt(f, v)
	return s
}

// useHead settles on one of the values that stand, exactly as it was written.
func (d *drafting) useHead(s *Setting, heads []*line, use string) Body {
	for _, h := range heads {
		if h.key.String() == use {
			s.Value = h.body.(*Setting).Value
			return s
		}
	}
	d.ask(Ask{Field: "use", Strength: Impossible, Code: "no-line", Words: "That value does not stand any more. Look at the two again."})
	return nil
}

// value is the value as it was typed.
func (d *drafting) value(f field) Value {
	if d.flag("unknown") || d.flag("withdraw") {
		return Value{Unknown: true}
	}
	unit := d.unitFor(f)
	var v Value
	switch f.form {
	case formWords, formChoice:
		v.Text = d.text("value")
	case formFigure:
		v.M = d.measured("value", unit)
	case formMeter:
		v.Text, v.M = d.text("which"), d.measured("value", unit)
	case formLimit:
		v.M, v.Source = d.measured("value", unit), d.source()
	case formPair:
		v.M, v.Stop, v.Source = d.measured("look", unit), d.measured("stop", unit), d.source()
	case formCount:
		v.Text, v.Source = d.text("count"), d.source()
	}
	return v
}

// source is the paper of a limit, each gap asked about where it is.
func (d *drafting) source() *Source {
	s := &Source{d.text("document"), d.text("page"), d.text("revision"), d.text("date"), d.text("typed_by"), d.text("checked_by")}
	if s.TypedBy == "" {
		s.TypedBy = d.me
	}
	d.need("document", s.Document != "", "Which document is it from? A limit is kept with the paper it stands on.")
	d.need("page", s.Page != "", "Which page of it?")
	d.need("typed_by", s.TypedBy != "", "Who typed it from the paper? A limit carries that name.")
	if _, ok := parseDay(s.Date); s.Date != "" && !ok {
		d.ask(Ask{Field: "date", Strength: Impossible, Code: "day", Words: "There is no day “" + s.Date + "”. A day is written 2025-10-06."})
	}
	if s.CheckedBy != "" && s.CheckedBy == s.TypedBy {
		d.ask(Ask{Field: "checked_by", Strength: Differs, Code: "same_person", Words: "Typed and checked by the same person. A second pair of eyes finds more."})
	}
	return s
}

// unitFor is the unit a figure is in when none is typed.
func (d *drafting) unitFor(f field) quantity.Unit {
	if u := quantity.Unit(d.text("unit")); u.Known() && u.Dimension() == f.dim {
		return u
	}
	book := d.book.engine.unit
	switch f.dim {
	case quantity.DimVolume:
		return book
	case quantity.DimTime:
		return quantity.UnitH
	case quantity.DimPower:
		return quantity.UnitHp
	case quantity.DimPressure:
		return quantity.UnitPsi
	case quantity.DimLength:
		return quantity.UnitIn
	}
	return book + "/h"
}

// doubt asks about a setting that does not go with the others.
func (d *drafting) doubt(f field, v Value) {
	b := d.book
	over := func(than oil.Given[oil.Quarts], code, words string) {
		if q, ok := quarts(v.M); ok && than.OK && q > than.V {
			d.ask(Ask{Field: "value", Strength: Unlikely, Code: code, Words: short(v.M) + words + b.amount(than.V) + ".",
				Choices: []Choice{d.leave("It is right", code)}})
		}
	}
	switch f.name {
	case "full_mark":
		over(b.engine.settings.Capacity, "over_brim", " is more than the tank holds, ")
	case "min_flight":
		over(b.engine.full, "over_full", " is over the full mark, ")
	case "stick_step":
		over(oil.Is(oil.Quarts(2)), "coarse", " between two marks is coarse. It is more than ")
	case "ceiling":
		if r, err := v.M.OilRate(); err == nil && v.M.Given() && (r.QuartsPerHour() > 3 || r.QuartsPerHour() < 0.05) {
			d.ask(Ask{Field: "value", Strength: Unlikely, Code: "ceiling_far", Words: capital(v.M.Words()) + " is far from what such engines use. Is every digit right, and the unit?",
				Choices: []Choice{d.leave("It is right", "ceiling_far")}})
		}
	case "oil_unit":
		if v.Text != string(b.engine.unit) && len(b.answers.all) > 0 {
			d.ask(Ask{Field: "value", Strength: Unlikely, Code: "unit_changes",
				Words:   "Levels are written in " + b.engine.unit.Plural() + " so far. They keep their unit; from now on a bare figure means " + quantity.Unit(v.Text).Plural() + ".",
				Choices: []Choice{d.leave("Change it", "unit_changes")}})
		}
	}
}
