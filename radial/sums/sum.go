package sums

import (
	"strings"

	"linkrod/radial/quantity"
)

// sum is one calculator: what it is called, what it asks, and the work. The work calls
// the packages of the trade and has no formula of its own.
type sum struct {
	id       string // its address, /work/torque-wrench
	title    string
	what     string // what it is for, in one line
	drawing  string // which drawing the screen shows
	first    bool   // one of those most reached for, at the top of the list
	fields   []field
	limits   bool   // and the three numbers of a table after them
	source   string // where the formula comes from
	cautions []string
	work     func(*Page) error
}

// field is one box of a sum.
type field struct {
	from  *field // a box that several sums have, but for with, without and hint where given
	name  string // its name in a link
	is    string // how the packages of the trade call it in a Problem, with | between
	label string
	sym   string // its letter in the formula
	kind  kind
	// units are those offered, the one a bare figure is taken in first. A torque has no such
	// unit: its unit is always asked for.
	units   []quantity.Unit
	choices []choice
	hint    string
	// without is what the answer does without it, said while it is empty. A field that has
	// it is optional.
	without string
	// with is another field, before this one, without which this says nothing.
	with string
	// or names a set of fields of which one is given and not two.
	or string
	// part names a set of fields that belong together and are folded away together.
	part string
	// usual are figures, in the first unit, beyond which it is asked whether a point has
	// slipped. They are no limits.
	usual span
	check func(typed string) (echo string, err error) // of a text
}

type kind uint8

const (
	figure kind = iota // with a unit
	number             // without one
	count              // a whole one
	option             // one of some choices
	text
	date
)

// String is the kind as the screen knows it.
func (k kind) String() string {
	return [...]string{"figure", "figure", "figure", "choice", "text", "day"}[k]
}

type choice struct{ value, label string }

type span struct{ from, to float64 }

// group is sums that belong together.
type group struct {
	title string
	sums  []*sum
}

// find is the sum of that name, nil for none.
func find(id string) *sum {
	for _, g := range groups {
		for _, s := range g.sums {
			if s.id == id {
				return s
			}
		}
	}
	return nil
}

// all is the fields of a sum, whole.
func (s *sum) all() []field {
	var list []field
	for _, f := range s.fields {
		list = append(list, f.whole())
	}
	if s.limits {
		list = append(list, limitFields...)
	}
	return list
}

// whole is the field with what it takes from another.
func (f field) whole() field {
	if f.from == nil {
		return f
	}
	g := *f.from
	if f.with != "" {
		g.with = f.with
	}
	if f.without != "" {
		g.without = f.without
	}
	if f.hint != "" {
		g.hint = f.hint
	}
	return g
}

// called is how surely a package of the trade means this field: 2 by the whole name, 1
// by its beginning ("link 3"), 0 not at all.
func (f *field) called(name string) int {
	sure := 0
	for _, is := range strings.Split(f.name+"|"+f.is, "|") {
		switch {
		case is == name:
			return 2
		case is != "" && strings.HasPrefix(name, is+" "):
			sure = 1
		}
	}
	return sure
}

// plain is the label as it stands inside a sentence.
func (f *field) plain() string { return lower(f.label) }

// lower is a text without its capital, unless it begins with an abbreviation or a letter
// that is a name: E-gap.
func lower(s string) string {
	if len(s) > 1 && (s[1] >= 'A' && s[1] <= 'Z' || s[1] == '-') || s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}
