package sums

import (
	"linkrod/radial/lock"
	"linkrod/radial/quantity"
)

var push = sum{
	id: "push", title: "A push at the blade", drawing: "push",
	what: "What a hand on a blade does to the piston that meets liquid.",
	fields: []field{
		{name: "push", label: "Push", sym: "F", units: forces, usual: span{5, 250}},
		{name: "arm", label: "Hand from the shaft", sym: "arm", units: arms, usual: span{1, 8}},
		{from: &gearField}, {from: &strokeField}, {from: &rodField},
		{name: "degrees", is: "angle before the top", label: "Piston before its top", sym: "a", units: angles, usual: span{1, 90}},
	},
	source:   "T = F arm/G; force on the piston = T/(dx/dθ), the slope of its travel: statics without friction.",
	cautions: []string{"The hazard: a strong helper bends a rod by hand. It goes firm: stop.", "A moving propeller carries far more than the hand that pushed it.", "For the master rod's cylinder; a link cylinder's slope is near it."},
	work: func(p *Page) error {
		piston, err := p.crank()
		if err != nil {
			return err
		}
		hand := lock.Push{Force: p.force("push"), Arm: p.length("arm"), Gear: p.gear()}
		t, err := hand.Torque()
		if err != nil {
			return err
		}
		a := p.angle("degrees")
		f, err := hand.OnPiston(piston, a)
		if err != nil {
			return err
		}
		p.let("G", hand.Gear.String())
		p.letFig("in", hand.Arm.Inches(), 2)
		p.letFig("slope", piston.SlopeBeforeTop(a).PerRadian().Inches(), 4)
		p.letFig("T", t.InchPounds(), 1)
		p.inUnit("At the crankshaft", t, quantity.UnitFtLb)
		p.line("T = F arm/G = {push} × {in} in/({G}) = {T} in-lb = {=}")
		p.answer("On the piston", f.PoundsForce(), 0, quantity.UnitLbf)
		p.line("T/(dx/dθ at {degrees}) = {T}/{slope} in = {=}")
		p.draw("angle", a.Degrees())
		p.draw("force", f.PoundsForce())
		return nil
	},
}
