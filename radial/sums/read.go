package sums

import (
	"errors"
	"strings"

	"linkrod/radial/civil"
	"linkrod/radial/quantity"
)

// reading is what one box holds and what was made of it.
type reading struct {
	typed   string        // untouched
	unit    quantity.Unit // the one typed, or else the one chosen beside the box
	given   bool          // something is typed
	ok      bool          // and it can be taken
	problem string
	echo    string
	value   quantity.Measured // of a figure
	number  quantity.Decimal  // of a number or count
	day     civil.Day
	based   bool // the formula took it in its own unit
}

// read takes what stands in the box of a field. What could be meant instead comes back
// beside it.
func (f *field) read(typed string, unit quantity.Unit) (r reading, instead []string) {
	r = reading{typed: typed, unit: unit, given: strings.TrimSpace(typed) != ""}
	var err error
	switch {
	case unit != "" && (len(f.units) == 0 || unit.Dimension() != f.units[0].Dimension()):
		r.unit = ""
		err = refuse("“" + short(string(unit)) + "” is no unit for this." + f.offered())
	case r.given:
		err = f.take(&r)
	}
	if err != nil {
		var refusal *quantity.Refusal
		if errors.As(err, &refusal) {
			instead = refusal.Instead
		}
		r.problem = err.Error()
	}
	r.ok = r.given && err == nil
	return r, instead
}

func (f *field) take(r *reading) (err error) {
	switch f.kind {
	case figure:
		return f.takeFigure(r)
	case number, count:
		if r.number, err = quantity.ParseNumber(r.typed); err != nil {
			return err
		}
		r.echo = r.number.Words()
		if f.kind == count && !r.number.IsWhole() {
			return refuse("“" + short(r.typed) + "” is no whole number, and this is counted.")
		}
	case option:
		for _, c := range f.choices {
			if c.value == r.typed {
				r.echo = c.label
				return nil
			}
		}
		return refuse("“" + short(r.typed) + "” is not one of the choices.")
	case date:
		if r.day, err = civil.Parse(strings.TrimSpace(r.typed)); err == nil {
			r.echo = r.day.Long()
		}
	default:
		if f.check != nil {
			r.echo, err = f.check(r.typed)
		}
	}
	return err
}

// takeFigure reads a figure with its unit: the one typed with it, the one chosen beside
// the box, or the field's first. No unit is ever supposed for a torque.
func (f *field) takeFigure(r *reading) (err error) {
	var got quantity.Reading
	dim := f.units[0].Dimension()
	switch {
	case r.unit != "":
		got, err = quantity.Parse(r.typed, r.unit)
	case dim == quantity.DimTorque:
		got, err = quantity.ParseSaid(r.typed, dim)
	default:
		got, err = quantity.Parse(r.typed, f.units[0])
	}
	if err != nil {
		return err
	}
	r.value, r.unit, r.echo = got.Measured, got.Measured.Unit, got.Echo
	if dim == quantity.DimTorque {
		r.echo = r.value.Loud()
	}
	return nil
}

// offered names the units of a field.
func (f *field) offered() string {
	if len(f.units) == 0 {
		return " A bare figure stands here."
	}
	var words []string
	for _, u := range f.units {
		words = append(words, u.Plural())
	}
	return " It takes " + strings.Join(words, ", ") + "."
}

// shown is a reading as it stands in the maths and in the line to share, its figure as it
// was typed.
func (f *field) shown(r reading) string {
	switch f.kind {
	case figure:
		return brief(r.value)
	case number, count:
		return r.number.Show()
	case text:
		return strings.Join(strings.Fields(r.typed), " ")
	case option:
		return lower(r.echo)
	}
	return r.echo
}

// base is a reading in the unit that the formula is written in, the field's first. What
// is not given is 0 there.
func (f *field) base(r reading) string {
	v := r.number
	if f.kind == figure {
		v = r.value.Value
		if rounded, _, err := r.value.Rounded(f.units[0], 5); err == nil && r.unit != f.units[0] {
			v = rounded.Value.Shortest()
		}
		if f.units[0] == quantity.UnitDeg {
			return v.Show() + "°"
		}
	}
	return v.Show()
}

// brief is a value once, as a formula ends with it.
func brief(m quantity.Measured) string {
	if m.Unit == quantity.UnitDeg {
		return m.Value.Show() + "°"
	}
	return m.Value.Show() + "\u2009" + m.Unit.Symbol()
}

// short is what was typed, cut to what a sentence has room for.
func short(typed string) string {
	typed = strings.ToValidUTF8(typed, "\uFFFD")
	if r := []rune(typed); len(r) > 20 {
		return string(r[:20]) + "…"
	}
	return typed
}

// refuse is a sentence about what was typed, for the box it stands in.
func refuse(sentence string) error { return &quantity.Refusal{Sentence: sentence} }

// fault is a sentence about the figure of a box, seen only when it was worked with.
func fault(field, sentence string) error {
	return &quantity.Problem{Field: field, Sentence: sentence}
}
