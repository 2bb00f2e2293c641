package sums

import (
	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

var power = sum{
	id: "power", title: "Power, torque and piston speed", drawing: "cylinder",
	what: "What a power at a speed means in torque, mean effective pressure and feet a minute.",
	fields: []field{
		{name: "power", label: "Power", sym: "hp", units: powers, or: "power", usual: span{20, 1500}},
		{name: "bmep", is: "pressure", label: "Mean effective pressure", sym: "P", units: pressures, or: "power", usual: span{30, 300}},
		{name: "speed", label: "Speed of the crank", sym: "n", units: speeds, usual: span{300, 3500}},
		{name: "displacement", label: "Displacement", sym: "D", units: []quantity.Unit{quantity.UnitCuIn, quantity.UnitL, quantity.UnitCc}, usual: span{100, 3500}},
		{from: &strokeField, without: "Stroke not given: no piston speed."},
	},
	source:   "T = 33,000 hp/(2π n); BMEP = 792,000 hp/(D n); hp = P L A N K/33,000 (FAA-H-8083-32); piston speed = stroke × n/6. Four-stroke.",
	cautions: []string{"Definitions, no limits: what an engine may give stands on its own card."},
	work: func(p *Page) error {
		n, d := p.speed("speed"), p.volume("displacement")
		hp := p.power("power")
		var err error
		if p.has("bmep") {
			if hp, err = ring.PowerFromMEP(p.pressure("bmep"), d, n); err != nil {
				return err
			}
			p.answer("Power", hp.Horsepower(), 1, quantity.UnitHp)
			p.line("hp = P D n/792,000 = {bmep} × {displacement} × {speed}/792,000 = {=}")
		}
		p.letFig("hp", hp.Horsepower(), 2)
		t, err := ring.TorqueFrom(hp, n)
		if err != nil {
			return err
		}
		p.inUnit("Torque", t, quantity.UnitFtLb)
		p.line("T = 33,000 × {hp}/(2π × {speed}) = {=}")
		mep, err := ring.BMEP(hp, d, n)
		if err != nil {
			return err
		}
		if !p.has("bmep") {
			p.answer("Mean effective pressure", mep.PSI(), 1, quantity.UnitPsi)
			p.line("BMEP = 792,000 × {hp}/({displacement} × {speed}) = {=}")
		}
		if p.has("stroke") {
			v, err := ring.MeanPistonSpeed(p.length("stroke"), n)
			if err != nil {
				return err
			}
			p.bare("Mean piston speed", v.FeetPerMinute(), 0, "ft a minute")
			p.line("{stroke} × {speed}/6 = {=}")
			p.bare("or", v.MetresPerSecond(), 2, "m a second")
		}
		return nil
	},
}
