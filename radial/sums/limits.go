package sums

import (
	"linkrod/radial/quantity"
	"linkrod/radial/wear"
)

// limitFields are the three numbers of an old table of limits, typed on the page itself.
var limitFields = []field{
	{part: "limits", name: "newmin", is: "new minimum", label: "New minimum", units: thous, hint: "With its minus where the fit is tight.", without: "New minimum not typed."},
	{part: "limits", name: "newmax", is: "new maximum", label: "New maximum", units: thous, without: "New maximum not typed."},
	{part: "limits", name: "wear", is: "wear limit", label: "Wear limit", units: thous, without: "No wear limit typed: nothing is judged."},
	{part: "limits", name: "sense", label: "Wear makes it", kind: option, with: "wear", choices: []choice{{"more", "More"}, {"less", "Less"}}, without: "Whether wear makes it more is read from the numbers."},
}

// judged answers with a reading and where it stands against the limits typed.
func (p *Page) judged(label string, reading quantity.Measured) error {
	l := wear.Limits{NewMin: p.of("newmin"), NewMax: p.of("newmax"), Wear: p.of("wear"), Source: "typed on this page, no document on file"}
	switch p.chosen("sense") {
	case "more":
		l.Sense = wear.Grows
	case "less":
		l.Sense = wear.Shrinks
	}
	f, err := l.Judge(reading)
	if err != nil {
		return err
	}
	p.exact(label, inThou(reading))
	a := &p.answers[len(p.answers)-1]
	switch f.Verdict {
	case wear.New, wear.Serviceable:
		a.verdict = inside
	case wear.AtEdge:
		a.verdict = atEdge
	case wear.Reject:
		a.verdict = outside
	default:
		a.verdict = cantJudge
	}
	p.note(f.Words())
	if !l.Empty() {
		p.note(typedLimits + " Nothing here says that a part may be fitted: a certificated person does.")
	}
	for _, m := range []struct {
		name string
		v    quantity.Measured
	}{{"value", reading}, {"newMin", l.NewMin}, {"newMax", l.NewMax}, {"wear", l.Wear}} {
		if v, err := m.v.Length(); err == nil {
			p.draw(m.name, v.Inches())
		}
	}
	return nil
}

// inThou is a small length in thou, where that comes out even.
func inThou(m quantity.Measured) quantity.Measured {
	if t, err := m.Exactly(quantity.UnitThou); err == nil {
		if t.Value.IsWhole() {
			t.Value = t.Value.Shortest()
		}
		return t
	}
	return m
}
