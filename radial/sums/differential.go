package sums

import (
	"linkrod/radial/compression"
	"linkrod/radial/quantity"
)

var differential = sum{
	id: "differential", title: "Differential compression check", drawing: "gauge",
	what: "Loss, the orifice this bore needs, and how hard the air pushes.",
	fields: []field{
		{from: &boreField},
		{name: "supply", is: "supply pressure", label: "Supply gauge", sym: "ps", units: pressures, usual: span{40, 120}},
		{name: "reading", label: "Cylinder gauge", sym: "p", units: pressures, usual: span{20, 120}},
		{name: "orifice", label: "Orifice of the tester", kind: option, choices: []choice{{"0.040", "0.040 in"}, {"0.060", "0.060 in"}}, without: "Orifice not given: this reading compares with none."},
		{from: &strokeField, without: "Stroke not given: no torque off the top."},
		{name: "rod", is: "master rod", label: "Master rod", sym: "L", units: sizes, usual: span{5, 18}, with: "stroke", without: "Master rod not given: no torque off the top."},
		{name: "off", is: "angle off the top", label: "Piston off its top", sym: "a", units: angles, with: "stroke", usual: span{0, 45}, without: "Angle off the top not given: no torque."},
		{name: "arm", label: "Hand from the shaft", units: arms, with: "off", usual: span{1, 8}, without: "Hand not given: no force at the blade."},
		{from: &gearField, with: "arm"},
	},
	source: "loss = (ps − p)/ps; orifice by bore, FAA AC 43.13-1B 8-14 change 1; force p × π/4 bore²; torque p A dx/dθ; the other orifice: two ideal orifices in series, compressible flow of air.",
	cautions: []string{"Two people, the blade held, nobody in the arc, ignition grounded, chocks. A pull-through for liquid first.",
		"One low reading decides nothing: run it warm, take it again, listen where the air goes.", "No limit is on file here. The maker's comes first; a circular's fallback where there is none is a loss over 25 per cent."},
	work: func(p *Page) error {
		bore := p.of("bore")
		loss, err := compression.LossPercent(p.of("supply"), p.of("reading"))
		if err != nil {
			return err
		}
		want, err := compression.OrificeFor(bore)
		if err != nil {
			return err
		}
		p.bare("Loss", loss, 1, "per cent")
		p.line("({supply} − {reading})/{supply} = {=}")
		p.exact("This bore needs an orifice of", want)
		p.line("bore {bore} in: {=}")
		p.draw("reading", p.pressure("reading").PSI())
		p.draw("supply", p.pressure("supply").PSI())
		if p.has("orifice") {
			if err := p.orifices(); err != nil {
				return err
			}
		}
		f, err := compression.PistonForce(p.length("bore"), p.pressure("supply"))
		if err != nil {
			return err
		}
		p.answer("Push on the piston at the supply", f.PoundsForce(), 0, quantity.UnitLbf)
		p.line("{supply} psi × π/4 × {bore}² = {=}")
		if p.has("off") && p.has("rod") {
			return p.hazard()
		}
		return nil
	},
}

// orifices is what the tester's orifice means for the reading.
func (p *Page) orifices() error {
	used, other := compression.Small, compression.Large
	if p.chosen("orifice") == "0.060" {
		used, other = other, used
	}
	wrong, err := compression.WrongOrifice(p.of("bore"), used)
	if err != nil {
		return err
	}
	p.warn(wrong)
	usedIn, _ := used.Length() // both are lengths
	otherIn, _ := other.Length()
	t := compression.Tester{Supply: p.pressure("supply"), Orifice: usedIn, Atmosphere: compression.SeaLevel}
	if p.pressure("reading") == 0 {
		return nil
	}
	would, err := t.With(otherIn, p.pressure("reading"))
	if err != nil {
		return err
	}
	p.answer("Through the other orifice it would read about", would.PSI(), 0, quantity.UnitPsi)
	p.line("A₁ ps F(p/ps) = A₂ p F(pa/p): the same leak through " + other.Show() + " reads {=}")
	p.note("That shows the direction and the size of the difference. It is never written down, compared or judged in place of a reading.")
	return nil
}

// hazard is what must be held off the top.
func (p *Page) hazard() error {
	piston, err := p.crank()
	if err != nil {
		return err
	}
	t, err := compression.HoldingTorque(piston, p.length("bore"), p.pressure("supply"), p.angle("off"))
	if err != nil {
		return err
	}
	p.inUnit("Off the top the crank pulls with", t, quantity.UnitFtLb)
	p.line("p A dx/dθ at {off} = {=}")
	p.draw("off", p.angle("off").Degrees())
	if !p.has("arm") {
		return nil
	}
	f, err := compression.AtBlade(t, p.length("arm"), p.gear())
	if err != nil {
		return err
	}
	p.answer("At the blade", f.PoundsForce(), 0, quantity.UnitLbf)
	return nil
}
