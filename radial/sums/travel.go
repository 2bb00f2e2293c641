package sums

import (
	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

var travel = sum{
	id: "travel", title: "Piston travel and degrees", drawing: "crank", first: true,
	what: "Degrees before the top to piston travel and back, for the timing cylinder.",
	fields: []field{
		{from: &strokeField}, {from: &rodField},
		{name: "degrees", is: "angle", label: "Degrees before the top", sym: "a", units: angles, or: "a", usual: span{0, 60}},
		{name: "travel", label: "Travel below the top", sym: "d", units: sizes, or: "a", hint: "Along the cylinder, from its highest place."},
	},
	source: "d = r (1 − cos a) + L (1 − √(1 − (r sin a/L)²)): crank and rod, textbook mechanics.",
	cautions: []string{"For the cylinder with the master rod only. A link cylinder has a travel and a top of its own: see the link cylinder's sum.", plugsOut,
		"Never time off the top itself: two degrees are two thou there."},
	work: func(p *Page) error {
		piston, err := p.crank()
		if err != nil {
			return err
		}
		a := p.angle("degrees")
		if p.has("travel") {
			if a, err = piston.Degrees(p.length("travel")); err != nil {
				return err
			}
			p.answer("Before the top", a.Degrees(), 2, quantity.UnitDeg)
			p.line("d = {r} (1 − cos a) + {rod} (1 − √(1 − ({r} sin a/{rod})²)) is {travel} in at a = {=}")
		} else {
			p.answer("Travel below the top", piston.BeforeTop(a).Inches(), 4, quantity.UnitIn)
			p.line("d = {r} (1 − cos {degrees}) + {rod} (1 − √(1 − ({r} sin {degrees}/{rod})²)) = {=}")
		}
		slope := piston.SlopeBeforeTop(a).InchesPerDegree()
		p.answer("There a degree is", slope, 4, quantity.UnitIn)
		p.draw("angle", a.Degrees())
		p.draw("travel", piston.BeforeTop(a).Inches())
		return nil
	},
}

var (
	boreField   = field{name: "bore", label: "Bore", sym: "bore", units: sizes, usual: span{3, 8}}
	strokeField = field{name: "stroke", is: "throw", label: "Stroke", sym: "S", units: sizes, usual: span{3, 8}, hint: "Twice the throw of the crank."}
	rodField    = field{name: "rod", is: "master rod", label: "Master rod", sym: "L", units: sizes, usual: span{5, 18}, hint: "Between the centres of crankpin and piston pin."}
	gearField   = field{name: "gear", label: "Gear", kind: text, check: gear, without: "Gear not given: direct.", hint: "Crank turns to propeller turns: 3:2, 1.5 or direct."}
)

const plugsOut = "Plugs out of all cylinders, ground leads on, propeller treated as live."

// crank is the crank and master rod of the boxes stroke and rod.
func (p *Page) crank() (ring.Piston, error) {
	r := p.length("stroke") / 2
	piston, err := ring.NewCrank(r, p.length("rod"))
	if err == nil {
		p.letFig("r", r.Inches(), 5)
		p.line("r = S/2 = {stroke}/2 = {r} in")
		p.draw("throw", r.Inches())
		p.draw("rod", p.length("rod").Inches())
	}
	return piston, err
}
