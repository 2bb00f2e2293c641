package sums

import (
	"linkrod/radial/oil"
	"linkrod/radial/quantity"
)

var oilPower = sum{
	id: "oil-power", title: "Oil by power", drawing: "scales",
	what: "A rate as pounds for a horsepower hour, as makers state ceilings, and back.",
	fields: []field{
		{name: "rate", label: "Rate", sym: "q", units: []quantity.Unit{quantity.UnitQtPerH, quantity.UnitHPerQt, quantity.UnitLPerH, quantity.UnitImpQtPerH}, or: "oil", usual: span{0.02, 8}},
		{name: "consumption", label: "Consumption by power", sym: "c", units: []quantity.Unit{quantity.UnitLbPerHpH, quantity.UnitGPerKWh}, or: "oil", usual: span{0.0005, 0.05}},
		{name: "power", label: "Power", sym: "hp", units: powers, usual: span{20, 1500}, hint: "At which the oil was used: cruising, not rated."},
		{from: &densityField},
	},
	source:   "c = q × lb to the quart/hp: arithmetic; 0.006 × hp × 4/7.4 is a maker's of opposed engines.",
	cautions: []string{"No limit is on file here. A formula of opposed engines is a line to look at on a radial and no limit."},
	work: func(p *Page) error {
		d, hp := p.density(), p.power("power")
		p.letFig("lb", d.Mass(quantity.Quart).Pounds(), 3)
		if p.has("consumption") {
			c, _ := p.of("consumption").SpecificConsumption() // the box takes no other
			r, err := oil.RateByPower(c, hp, d)
			if err != nil {
				return err
			}
			p.answer("Rate", r.QuartsPerHour(), 2, quantity.UnitQtPerH)
			p.line("q = c hp/lb to the quart = {consumption} × {power}/{lb} = {=}")
			p.answer("or", r.LitresPerHour(), 2, quantity.UnitLPerH)
			if r > 0 {
				p.answer("or", r.HoursPerQuart(), 2, quantity.UnitHPerQt)
			}
			return nil
		}
		r, _ := p.of("rate").OilRate() // the box takes no other
		c, err := oil.ByPower(r, hp, d)
		if err != nil {
			return err
		}
		p.answer("Consumption by power", c.PoundsPerHorsepowerHour(), 4, quantity.UnitLbPerHpH)
		p.line("c = q × lb to the quart/hp = {rate} × {lb}/{power} = {=}")
		p.answer("or", c.GramsPerKilowattHour(), 2, quantity.UnitGPerKWh)
		return nil
	},
}
