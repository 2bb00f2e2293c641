package sums

import (
	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

var displacement = sum{
	id: "displacement", title: "Displacement and ratio", drawing: "cylinder",
	what: "Displacement, the number in the name, and the clearance volume from the ratio or the ratio from the volume.",
	fields: []field{
		{from: &boreField},
		{from: &strokeField, hint: "How far the piston goes, not how deep the cylinder is."},
		{from: &cylindersField},
		{name: "ratio", is: "compression ratio", label: "Compression ratio", sym: "CR", kind: number, or: "room", usual: span{4, 10}, without: "Ratio and clearance volume not given: displacement only."},
		{name: "room", is: "clearance volume", label: "Clearance volume", sym: "Vc", units: oils, or: "room", usual: span{4, 32}},
	},
	source:   "D = π/4 bore² × stroke × N (FAA-H-8083-32); CR = (Vs + Vc)/Vc. The name to the nearest 5: common practice, no source.",
	cautions: []string{"A name is within 5 of the displacement and never gives it.", "Link cylinders go a little farther: some 0.3 per cent on the whole."},
	work: func(p *Page) error {
		d, err := ring.Displacement(p.length("bore"), p.length("stroke"), p.count("cylinders"))
		if err != nil {
			return err
		}
		name, err := ring.Designation(d)
		if err != nil {
			return err
		}
		p.answer("Displacement", d.CubicInches(), 1, quantity.UnitCuIn)
		p.line("D = π/4 × {bore}² × {stroke} × {cylinders} = {=}")
		p.answer("or", d.Litres(), 2, quantity.UnitL)
		p.bare("Called", float64(name), 0, "")
		p.line("to the nearest 5: {=}")
		p.draw("bore", p.length("bore").Inches())
		p.draw("stroke", p.length("stroke").Inches())
		if !p.has("ratio") && !p.has("room") {
			return nil
		}
		c, err := p.chamber()
		if err != nil {
			return err
		}
		p.answer("One cylinder sweeps", c.Swept.CubicInches(), 2, quantity.UnitCuIn)
		p.answer("and leaves", c.Clearance.FluidOunces(), 1, quantity.UnitFlOz)
		p.draw("clearance", c.Clearance.CubicInches())
		return nil
	},
}
