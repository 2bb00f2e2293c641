package sums

import (
	"errors"
	"strings"

	"linkrod/radial/due"
	"linkrod/radial/quantity"
)

var words = sum{
	id: "words", title: "A figure in words and other units", drawing: "scales", first: true,
	what: "Says a figure as on the telephone and in every other unit of its kind.",
	fields: []field{
		{name: "figure", label: "Figure and unit", kind: text, hint: "300 in-lb, 8 thou, 5 1/4 in, 1:30, 0.25 qt/h, 205 F"},
		{name: "kind", label: "It is", kind: option, choices: kinds, without: "What it is was read from the unit."},
	},
	source: "Exact ratios of whole numbers from the definitions: yard and pound agreement 1959, NIST SP 811 App. B, UK Weights and Measures Act 1985. The inch of mercury is rounded there.",
	work: func(p *Page) error {
		m, err := p.anyFigure()
		if err != nil {
			return err
		}
		p.say(answer{label: "Said", figure: m.Value.Show(), unit: m.Unit.Symbol(), words: m.Words()})
		p.line(brief(m) + " is " + m.Dimension().String() + ", typed as " + p.text("figure"))
		for _, u := range m.Dimension().Units() {
			if u == m.Unit {
				continue
			}
			c, exact, err := inOther(m, u)
			if err != nil {
				continue // nought has no hours to a quart
			}
			label := "in " + u.Plural()
			if !exact {
				label += ", about"
			}
			p.say(answer{label: label, figure: c.Value.Show(), unit: u.Symbol(), words: c.Value.Words() + " " + u.Plural()})
			p.line(brief(m) + " = {=}: " + u.Source())
		}
		if m.Dimension() == quantity.DimTime {
			p.tell("as hours and minutes", due.Clock(m), m.Words())
		}
		return nil
	},
}

// inOther is a value in another unit, with as many places as show four figures of it.
func inOther(m quantity.Measured, u quantity.Unit) (c quantity.Measured, exact bool, err error) {
	least := quantity.Whole(1)
	for places := 4; places <= 12; places += 2 {
		if c, exact, err = m.Rounded(u, places); err != nil {
			return c, false, err
		}
		c.Value = c.Value.Shortest()
		if exact || c.Value.Abs().Compare(least) >= 0 {
			break
		}
		least, _ = least.Mul(quantity.MustDecimal("0.01")) // five times at most
	}
	return c, exact, nil
}

var kinds = []choice{{"length", "A length"}, {"volume", "A volume"}, {"torque", "A torque"}, {"pressure", "A pressure"}, {"temperature", "A temperature"}, {"temperature difference", "A temperature difference"},
	{"speed of rotation", "A speed of rotation"}, {"angle", "An angle"}, {"power", "A power"}, {"mass", "A mass"}, {"force", "A force"}, {"time", "A time"}, {"oil rate", "An oil rate"}, {"consumption by power", "A consumption by power"}}

// anyFigure is the figure typed, of the kind said or of the one kind its unit can be.
func (p *Page) anyFigure() (quantity.Measured, error) {
	typed := p.text("figure")
	var found []quantity.Measured
	var names []string
	var refused error
	for d := quantity.DimLength; d.Base() != ""; d++ {
		if p.has("kind") && p.chosen("kind") != d.String() {
			continue
		}
		r, err := quantity.ParseSaid(typed, d)
		var refusal *quantity.Refusal
		switch {
		case err == nil:
			found, names = append(found, r.Measured), append(names, "a "+d.String())
		case refused == nil || errors.As(err, &refusal) && refusal.Why != quantity.WhyOtherKind && refusal.Why != quantity.WhyUnit:
			refused = err
		}
	}
	sentence := ""
	switch {
	case len(found) == 1:
		return found[0], nil
	case len(found) > 1:
		sentence = "“" + short(typed) + "” can be " + strings.Join(names, " or ") + ". Say below which it is."
	case p.has("kind"):
		sentence = refused.Error()
	default:
		sentence = "“" + short(typed) + "” was not made out. Type a figure with its unit, as 300 in-lb, 8 thou or 1:30."
	}
	return quantity.Measured{}, fault("figure", sentence)
}
