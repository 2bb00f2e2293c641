package sums

import (
	"errors"
	"slices"
	"strings"

	"linkrod/radial/civil"
	"linkrod/radial/quantity"
)

// Typed is what stands on a page when it is worked out.
type Typed struct {
	// Text is what stands in the boxes, by the names of the fields; "wanted.unit" is the unit
	// chosen beside the box "wanted". It is what a link to the page carries.
	Text map[string]string
	// Checked are the codes of the questions that a person has answered with "as typed".
	Checked []string
	Today   civil.Day // what the phone takes today for; no day if it does not say
	Demo    bool      // a demo engine is open, so the figures are invented
}

// Page is a sum with everything that is on its screen.
type Page struct {
	sum      *sum
	fields   []field
	in       Typed
	readings []reading
	answers  []answer
	waits    string // why there is no answer
	lines    []string
	lets     []string // what stands for a {name} in the lines, in pairs
	notes    []string // what these figures say beside their answers
	without  []string // what was not given, and what was done without it
	cautions []string
	asks     []ask
	draws    []draw
	tooLong  bool
}

// answer is one figure that came out.
type answer struct {
	label, figure, unit, words string
	verdict                    verdict
}

// verdict is a figure against limits that were typed on the page.
type verdict string

const (
	inside    verdict = "inside"
	atEdge    verdict = "edge"
	outside   verdict = "outside"
	cantJudge verdict = "cant"
)

// ask is a question about a figure. Only an impossible one stands in the way of an answer.
type ask struct {
	field, strength, code, words string
	ways                         []way
}

// way is an answer to a question: the text it puts into a box.
type way struct{ label, name, text string }

// draw is numbers for the drawing.
type draw struct {
	name   string
	value  float64
	list   []float64
	isList bool
}

// Work works a sum out. It has a page for whatever is typed, with the sentence that says
// why a text is not taken; false only for a sum that there is not.
func Work(id string, in Typed) (*Page, bool) {
	s := find(id)
	if s == nil {
		return nil, false
	}
	p := &Page{sum: s, fields: s.all(), in: in}
	p.read()
	if p.waits = p.missing(); p.waits == "" {
		switch err := s.work(p); {
		case err != nil:
			p.refused(err)
		case p.tooLong:
			p.blank("These figures come to more than can be shown. Look at them again: a point may be out of its place.")
		default:
			p.notes = append(p.notes, p.without...)
		}
	}
	p.drawTyped()
	return p, true
}

// read takes every box.
func (p *Page) read() {
	known := map[string]bool{}
	for i := range p.fields {
		f := &p.fields[i]
		known[f.name], known[f.name+".unit"] = true, true
		r, instead := f.read(p.in.Text[f.name], quantity.Unit(p.in.Text[f.name+".unit"]))
		if len(instead) > 0 {
			a := ask{field: f.name, strength: "impossible", code: "which", words: r.problem}
			for _, text := range instead {
				a.ways = append(a.ways, way{text, f.name, text})
			}
			p.asks = append(p.asks, a)
		}
		if first := p.first(f.or); first != nil && r.given && r.problem == "" && p.reading(first.name).given {
			r.ok, r.problem = false, "Give this or “"+first.label+"”, not both. Clear one of the two."
		}
		p.readings = append(p.readings, r)
		if r.ok {
			p.far(f, r)
		}
	}
	var strange []string
	for name, text := range p.in.Text {
		if !known[name] && strings.TrimSpace(text) != "" {
			strange = append(strange, "“"+short(name)+"”")
		}
	}
	if slices.Sort(strange); len(strange) > 0 {
		p.without = append(p.without, "The link also gave "+strings.Join(strange, ", ")+", which this page does not ask for.")
	}
}

// first is the field of a set that has something in it, or the first of the set if none
// has, among those read so far.
func (p *Page) first(or string) (first *field) {
	for i := range p.readings {
		if f := &p.fields[i]; or != "" && f.or == or && (first == nil || p.readings[i].given && !p.reading(first.name).given) {
			first = f
		}
	}
	return first
}

// missing says what is still to come before there can be an answer, "" if nothing is, and
// notes what is done without what is not given.
func (p *Page) missing() string {
	var problems, wanted []string
	for i := range p.fields {
		f, r := &p.fields[i], p.readings[i]
		switch {
		case r.problem != "":
			problems = append(problems, f.plain())
		case r.given && f.with != "" && !p.has(f.with):
			p.note(f.label + " says nothing without “" + p.field(f.with).label + "”, and is left out.")
			p.readings[i] = reading{typed: r.typed, unit: r.unit, given: true, echo: r.echo}
		case r.given, f.with != "" && !p.has(f.with):
		case f.or != "" && p.first(f.or) != f: // another of the set is given, or it is asked for already
		case f.without != "":
			p.without = append(p.without, f.without)
		case f.or != "":
			wanted = append(wanted, p.set(f.or))
		default:
			wanted = append(wanted, f.plain())
		}
	}
	switch {
	case len(problems) > 0:
		return "Look at what is marked: " + strings.Join(problems, "; ") + "."
	case len(wanted) > 0:
		return "Still to come: " + strings.Join(wanted, "; ") + "."
	}
	return ""
}

// set is the labels of a set of fields, one of which is wanted.
func (p *Page) set(or string) string {
	var labels []string
	for i := range p.fields {
		if f := &p.fields[i]; f.or == or {
			labels = append(labels, f.plain())
		}
	}
	return strings.Join(labels, ", or ")
}

// refused puts a package's sentence beside the box it is about.
func (p *Page) refused(err error) {
	var problem *quantity.Problem
	if errors.As(err, &problem) {
		box, sure := -1, 0
		for i := range p.fields {
			s := 2 * p.fields[i].called(problem.Field)
			if s > 0 && p.readings[i].given {
				s++ // of two that could be meant, the one with something in it
			}
			if s > sure {
				box, sure = i, s
			}
		}
		if box >= 0 {
			p.readings[box].problem = problem.Sentence
			p.blank("Look at what is marked: " + p.fields[box].plain() + ".")
			return
		}
	}
	p.blank(err.Error())
}

// blank is the page without an answer, and why.
func (p *Page) blank(waits string) {
	p.answers, p.lines, p.draws, p.notes, p.cautions, p.waits = nil, nil, nil, nil, nil, sentence(waits)
}

// far asks about a figure that is far from the usual ones, and offers the same figure in
// a unit in which it would be near them.
func (p *Page) far(f *field, r reading) {
	if f.usual == (span{}) || f.usual.holds(f.size(r.value, r.number)) {
		return
	}
	unit := ""
	var ways []way
	if f.kind == figure {
		unit = " " + f.units[0].Plural()
		for _, u := range f.units {
			if other := (quantity.Measured{Value: r.value.Value, Unit: u}); u != r.value.Unit && f.usual.holds(f.size(other, r.number)) {
				ways = append(ways, way{brief(other), f.name, other.Text()})
			}
		}
	}
	p.ask(f.name, "far", f.label+" "+f.shown(r)+" is outside what is usual here, "+fig(f.usual.from, 3)+" to "+
		fig(f.usual.to, 3)+unit+". Is the point in its place, and the unit right?", ways...)
}

func (s span) holds(v float64) bool { return v >= s.from && v <= s.to }

// size is a figure in the field's first unit, or a bare number.
func (f *field) size(m quantity.Measured, n quantity.Decimal) float64 {
	if f.kind != figure {
		return n.Float64()
	}
	r, _, err := m.Rounded(f.units[0], 6)
	if err != nil {
		return f.usual.from // no size to ask about
	}
	return r.Value.Float64()
}

// field is a field of the sum by its name.
func (p *Page) field(name string) *field {
	for i := range p.fields {
		if p.fields[i].name == name {
			return &p.fields[i]
		}
	}
	return nil
}

// reading is what stands in a box that has been read.
func (p *Page) reading(name string) reading {
	for i := range p.readings {
		if p.fields[i].name == name {
			return p.readings[i]
		}
	}
	return reading{}
}

// sentence is a text with its capital and its full stop.
func sentence(s string) string {
	if s == "" {
		return s
	}
	s = strings.ToUpper(s[:1]) + s[1:]
	if !strings.HasSuffix(s, ".") && !strings.HasSuffix(s, "?") {
		s += "."
	}
	return s
}
