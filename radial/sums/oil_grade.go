package sums

import (
	"strconv"

	"linkrod/radial/oil"
	"linkrod/radial/quantity"
)

var oilGrade = sum{
	id: "oil-grade", title: "Which grade is that", drawing: "scales",
	what: "The three names of an aviation oil's grade, and how thick it is at 100 °C.",
	fields: []field{
		{name: "grade", label: "Grade", kind: text, check: func(typed string) (string, error) {
			g, err := oil.ParseGrade(typed)
			return g.Words(), err
		}, hint: "SAE 50, W100, 100 or 1100."},
		{name: "viscosity", label: "Viscosity at 100 °C", sym: "ν", kind: number, usual: span{5, 30}, without: "Viscosity not given: only the names.", hint: "cSt, from the oil's data sheet or a laboratory."},
	},
	source:   "Names: SAE J1966, table 1. Viscosity at 100 °C: SAE J300, the least included and the end not. What moves it: common practice, no source.",
	cautions: []string{"A grade is a thickness. Whether an oil disperses, and may follow what is in the engine, is another part of its name. The engine's own card says which."},
	work: func(p *Page) error {
		g, err := oil.ParseGrade(p.text("grade"))
		if err != nil {
			return err
		}
		p.tell("By SAE", strconv.Itoa(g.SAE), quantity.Whole(g.SAE).Words())
		p.tell("On the can", strconv.Itoa(g.Commercial), quantity.Whole(g.Commercial).Words())
		p.tell("In old papers", strconv.Itoa(g.Military), quantity.Whole(g.Military).Words())
		p.line(p.text("grade") + " is SAE " + strconv.Itoa(g.SAE))
		p.tell("Viscosity at 100 °C", g.Viscosity.String()+" cSt", g.Viscosity.Min.Words()+" to less than "+g.Viscosity.Under.Words()+" centistokes")
		if p.has("viscosity") {
			v := p.reading("viscosity").number
			p.line(v.Show() + " cSt against {=}")
			if g.Viscosity.Holds(v) {
				p.note("It is of that grade.")
			} else {
				p.note("It is not of that grade now. Fuel thins an oil, soot and heat thicken it.")
			}
		}
		return nil
	},
}
