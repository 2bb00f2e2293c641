package sums

import (
	"slices"
	"strconv"
	"strings"

	"linkrod/radial/quantity"
)

// answer is a figure that came out, rounded for showing. {=} in the maths is the last one.
func (p *Page) answer(label string, v float64, places int, u quantity.Unit) {
	m, ok := p.rounded(v, places, u)
	if !ok {
		return
	}
	words := m.Words()
	if u.Dimension() == quantity.DimTorque {
		words = m.Loud()
	}
	p.say(answer{label: label, figure: m.Value.Show(), unit: u.Symbol(), words: words})
}

// between is an answer that is known to lie between two.
func (p *Page) between(label string, lo, hi float64, places int, u quantity.Unit) {
	low, ok1 := p.rounded(lo, places, u)
	high, ok2 := p.rounded(hi, places, u)
	if !ok1 || !ok2 {
		return
	}
	words := low.Value.Words() + " to " + high.Words()
	if u.Dimension() == quantity.DimTorque {
		words = low.Loud() + ", to " + high.Loud()
	}
	p.say(answer{label: label, figure: low.Value.Show() + " to " + high.Value.Show(), unit: u.Symbol(), words: words})
}

// exact is an answer that was reckoned in decimals and is shown to the last of them.
func (p *Page) exact(label string, m quantity.Measured) {
	p.say(answer{label: label, figure: m.Value.Show(), unit: m.Unit.Symbol(), words: m.Words()})
}

// bare is an answer without a unit, and what stands after its figure: "to 1", "blades".
func (p *Page) bare(label string, v float64, places int, after string) {
	if m, ok := p.rounded(v, places, ""); ok {
		words := m.Value.Words() + " " + strings.Replace(after, "to 1", "to one", 1)
		p.say(answer{label: label, figure: m.Value.Show(), unit: after, words: strings.TrimSpace(words)})
	}
}

// tell is an answer that is no single figure.
func (p *Page) tell(label, figure, words string) {
	p.say(answer{label: label, figure: figure, words: words})
}

func (p *Page) say(a answer) {
	p.answers = append(p.answers, a)
	p.let("=", a.brief())
}

// brief is an answer as a formula ends with it.
func (a answer) brief() string {
	switch a.unit {
	case "":
		return a.figure
	case "°":
		return a.figure + a.unit
	}
	return a.figure + "\u2009" + a.unit
}

// rounded is a reckoned figure for showing. A figure that cannot be shown empties the page.
func (p *Page) rounded(v float64, places int, u quantity.Unit) (quantity.Measured, bool) {
	d, err := quantity.DecimalOf(v, places)
	if err != nil {
		p.tooLong = true
		return quantity.Measured{}, false
	}
	if d.IsWhole() {
		d = d.Shortest()
	}
	return quantity.Measured{Value: d, Unit: u}, true
}

// fig is a reckoned number inside a formula: as few figures as hold it to those places.
func fig(v float64, places int) string {
	d, err := quantity.DecimalOf(v, places)
	if err != nil {
		return "…"
	}
	return d.Shortest().Show()
}

// let names something reckoned for the maths.
func (p *Page) let(name, text string) { p.lets = append(p.lets, "{"+name+"}", text) }

// letFig names a reckoned number.
func (p *Page) letFig(name string, v float64, places int) { p.let(name, fig(v, places)) }

// line is a line of the maths, in which {name} is the figure of that box in the unit of
// the formula, or what was let for it last.
func (p *Page) line(s string) {
	for i := range p.fields {
		f := &p.fields[i]
		if mark := "{" + f.name + "}"; strings.Contains(s, mark) {
			s = strings.ReplaceAll(s, mark, f.base(p.readings[i]))
			p.readings[i].based = true
		}
	}
	for i := len(p.lets) - 2; i >= 0; i -= 2 {
		s = strings.ReplaceAll(s, p.lets[i], p.lets[i+1])
	}
	p.lines = append(p.lines, s)
}

func (p *Page) note(s string) {
	if s != "" {
		p.notes = append(p.notes, s)
	}
}

// warn is a caution that comes from these figures.
func (p *Page) warn(s string) {
	if s != "" {
		p.cautions = append(p.cautions, s)
	}
}

// ask asks about what stands in a box, unless a person has said that it is as typed. It
// never stands in the way.
func (p *Page) ask(name, code, words string, ways ...way) {
	r := p.reading(name)
	code += " " + name + " " + r.typed + " " + string(r.unit) // another figure is asked about again
	if !slices.Contains(p.in.Checked, code) {
		p.asks = append(p.asks, ask{name, "unlikely", code, words, append(ways, way{label: "As typed"})})
	}
}

// draw hands a number to the drawing.
func (p *Page) draw(name string, v float64) {
	p.draws = append(p.draws, draw{name: name, value: v})
}

// drawAll hands a list of numbers to the drawing.
func (p *Page) drawAll(name string, list []float64) {
	p.draws = append(p.draws, draw{name: name, list: list, isList: true})
}

// drawTyped hands what is typed to the drawing under the names of the boxes, so that it
// moves while the rest is still to come: lengths in inches, everything else in the first
// unit of its box. What the sum itself has drawn stands.
func (p *Page) drawTyped() {
	for i, r := range p.readings {
		f := &p.fields[i]
		if !r.ok || r.problem != "" || f.kind > count || slices.ContainsFunc(p.draws, func(d draw) bool { return d.name == f.name }) {
			continue
		}
		v := f.size(r.value, r.number)
		if l, err := r.value.Length(); err == nil {
			v = l.Inches()
		}
		p.draw(f.name, v)
	}
}

// numbers is whole numbers for a person to read and to say: 1 7 4 10.
func numbers(list []int) string {
	var s []string
	for _, n := range list {
		s = append(s, strconv.Itoa(n))
	}
	return strings.Join(s, " ")
}

// said is whole numbers in words.
func said(list []int) string {
	var s []string
	for _, n := range list {
		s = append(s, quantity.Whole(n).Words())
	}
	return strings.Join(s, ", ")
}
