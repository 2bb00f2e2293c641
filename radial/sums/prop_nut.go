package sums

import (
	"linkrod/radial/quantity"
	"linkrod/radial/torque"
)

var propNut = sum{
	id: "prop-nut", title: "Propeller nut with bar and body weight", drawing: "bar",
	what: "Whether bar and body can make the torque, and how far out to lean.",
	fields: []field{
		{name: "torque", label: "Torque wanted", sym: "T", units: torques, hint: "From the propeller's sheet."},
		{name: "bar", label: "Bar", sym: "L", units: arms, usual: span{1, 10}, hint: "From the centre of the nut to the end."},
		{name: "weight", label: "Body weight", sym: "W", units: masses, usual: span{80, 400}, without: "Weight not given: only the pull at the end of the bar."},
		{name: "slope", label: "Bar from level", sym: "s", units: angles, with: "weight", without: "Slope not given: the bar level.", hint: "Degrees up or down."},
		{name: "out", is: "distance out", label: "Leaning at", sym: "x", with: "weight", units: arms, without: "Nowhere else to lean is given.", hint: "From the centre of the nut, to see what the weight makes there."},
	},
	source:   "T = F x arm; T = W x cos s: statics. 450 ft-lb is 150 lb at 3 ft.",
	cautions: []string{"Switches off, propeller treated as live, blades held by somebody who does nothing else.", "A body is no torque wrench: put the weight on gently. Dropped on it is double.", "The bar's own weight is left out: half its length times what it weighs.", "Look at the nut again after the first runs, as the propeller's maker says."},
	work: func(p *Page) error {
		t, bar := p.torque("torque"), p.length("bar")
		pull, err := torque.Pull(t, bar)
		if err != nil {
			return err
		}
		p.letFig("in", bar.Inches(), 2)
		p.answer("Pull square at the end of the bar", pull.PoundsForce(), 0, quantity.UnitLbf)
		p.line("F = T/L = {torque} in-lb/{in} in = {=}")
		p.draw("L", bar.Inches())
		p.draw("slope", p.angle("slope").Degrees())
		if !p.has("weight") {
			return nil
		}
		b := torque.Bar{Length: bar, Slope: p.angle("slope")}
		w := p.mass("weight")
		out, err := b.WeightAt(t, w)
		if err != nil {
			return err
		}
		p.answer("The weight makes it at", out.Feet(), 2, quantity.UnitFt)
		p.letFig("x", out.Inches(), 1)
		p.line("x = T/(W cos s) = {torque} in-lb/({weight} lb × cos {slope}) = {x} in = {=}")
		p.draw("makes", out.Inches())
		if p.has("out") {
			at := p.length("out")
			made, err := b.WeightGives(w, at)
			if err != nil {
				return err
			}
			p.letFig("at", at.Inches(), 2)
			p.inUnit("There the weight makes", made, p.of("torque").Unit)
			p.line("T = W x cos s = {weight} lb × {at} in × cos {slope} = {=}")
			p.draw("out", at.Inches())
		}
		return nil
	},
}
