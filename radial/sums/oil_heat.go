package sums

import (
	"linkrod/radial/oil"
	"linkrod/radial/quantity"
)

var oilHeat = sum{
	id: "oil-heat", title: "Oil level hot and cold", drawing: "warm",
	what: "What a level read at one temperature is at another, so that a cold tank is not taken for oil gone.",
	fields: []field{
		{name: "level", is: "volume", label: "Level read", sym: "V", units: tanks, usual: span{1, 40}},
		{name: "read", is: "temperature", label: "Read at", sym: "T₁", units: temperatures, usual: span{-20, 250}},
		{name: "asked", label: "What is it at", sym: "T₂", units: temperatures, usual: span{-20, 250}},
		{name: "later", label: "Level read then", sym: "L", units: tanks, usual: span{1, 40}, without: "No level read then: nothing to compare."},
		{from: &densityField},
	},
	source:   "V₂ = V₁ F(T₁)/F(T₂), F = e^(−α ΔT (1 + 0.8 α ΔT)) from 60 °F, α = 0.34878/ρ for a degree F: API MPMS 11.1, ASTM D1250-04, lubricating oils.",
	cautions: []string{"The oil's temperature, not the air's. A tank is warmer in the middle than at the stick."},
	work: func(p *Page) error {
		d := p.density()
		a, err := oil.Expansion(d)
		if err != nil {
			return err
		}
		if _, err := oil.VolumeFactor(d, oil.At60F, p.temperature("asked")); err != nil {
			return fault("asked", err.Error())
		}
		then, err := oil.VolumeAt(p.volume("level"), d, p.temperature("read"), p.temperature("asked"))
		if err != nil {
			return err
		}
		p.letFig("ρ", d.KilogramsPerCubicMetre(), 1)
		p.letFig("α", a, 6)
		p.line("α = 0.34878/{ρ} = {α}")
		p.answer("Level there", then.Quarts(), 2, quantity.UnitQt)
		p.line("{level} qt × F({read} °F)/F({asked} °F) = {=}")
		p.answer("or", then.Litres(), 2, quantity.UnitL)
		falls, err := oil.Cooling(p.volume("level"), d, p.temperature("read"), p.temperature("asked"))
		if err != nil {
			return err
		}
		p.answer("Changed by", -falls.FluidOunces(), 1, quantity.UnitFlOz)
		if p.has("later") {
			lost, err := oil.Lost(oil.Dipped{Volume: p.volume("level"), At: p.temperature("read")}, oil.Dipped{Volume: p.volume("later"), At: p.temperature("asked")}, d)
			if err != nil {
				return err
			}
			p.answer("Gone, both brought to 60 °F", lost.Quarts(), 2, quantity.UnitQt)
			p.line("{level} × F({read}) − {later} × F({asked}) = {=}")
			p.litres("later", then)
		}
		p.draw("before", p.volume("level").Quarts())
		p.draw("after", then.Quarts())
		return nil
	},
}

var densityField = field{name: "density", label: "Density of the oil", sym: "ρ", kind: number, usual: span{850, 930}, without: "Density not given: 890 kg/m³, a mineral oil of SAE 50.", hint: "kg/m³ at 60 °F; 7.4 lb to the gallon is 886.7."}

// density is that of the box, 890 kg/m³ if nobody said.
func (p *Page) density() oil.Density {
	if p.has("density") {
		return oil.Density(p.number("density"))
	}
	return 890
}
