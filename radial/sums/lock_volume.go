package sums

import (
	"linkrod/radial/compression"
	"linkrod/radial/lock"
	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

var lockVolume = sum{
	id: "lock", title: "How much is a lock", drawing: "lock", first: true,
	what: "The room above a piston in cups and ounces, and what liquid in it does.",
	fields: []field{
		{from: &boreField}, {from: &strokeField},
		{name: "ratio", is: "compression ratio", label: "Compression ratio", sym: "CR", kind: number, or: "room", usual: span{4, 10}},
		{name: "room", is: "clearance volume", label: "Clearance volume", sym: "Vc", units: oils, or: "room", usual: span{4, 32}, hint: "Measured with oil from a burette, if it was."},
		{name: "liquid", label: "Liquid in it", sym: "V", units: oils, without: "Liquid not given: only the room."},
		{name: "how", label: "Turned", kind: option, with: "liquid", choices: []choice{{"hand", "Slowly by hand, exponent 1"}, {"starter", "By the starter, exponent 1.3"}, {"fast", "With no heat lost, exponent 1.4"}}, without: "How it is turned not given: no pressure."},
	},
	source: "Vs = π/4 bore² × stroke, Vc = Vs/(CR − 1), ratio with liquid (Vs + Vc − V)/(Vc − V), p = 14.7 × ratioⁿ: arithmetic; liquid taken not to compress, air shut in at the bottom. Teacups of 6 to 8 fl oz: common practice, no source.",
	cautions: []string{"A partial lock is the worse: it turns over, bends a rod a little and fails later.", "Goes firm: stop. Do not push, do not rock, never turn backwards. Draining clears a lock, turning does not.",
		"This never says that a cylinder is free of liquid."},
	work: func(p *Page) error {
		c, err := p.chamber()
		if err != nil {
			return err
		}
		twice, err := lock.LiquidFor(c, 2*c.Ratio())
		if err != nil {
			return err
		}
		p.answer("A full lock", c.Clearance.FluidOunces(), 1, quantity.UnitFlOz)
		p.note("The room is " + lock.Held(c.Clearance) + ".")
		p.answer("Doubles the compression", twice.FluidOunces(), 2, quantity.UnitFlOz)
		p.line("doubled by Vc − Vs/(2 CR − 1) = {=}")
		p.draw("clearance", c.Clearance.FluidOunces())
		p.draw("swept", c.Swept.FluidOunces())
		p.draw("ratio", c.Ratio())
		if p.has("liquid") {
			return p.liquid(c)
		}
		return nil
	},
}

// chamber is the swept and clearance volume of the boxes, with their lines.
func (p *Page) chamber() (ring.Chamber, error) {
	swept, err := ring.Swept(p.length("bore"), p.length("stroke"))
	if err != nil {
		return ring.Chamber{}, err
	}
	p.letFig("Vs", swept.CubicInches(), 2)
	p.line("Vs = π/4 × {bore}² × {stroke} = {Vs} cu in")
	c := ring.Chamber{Swept: swept}
	if p.has("ratio") {
		if c.Clearance, err = ring.Clearance(swept, p.number("ratio")); err != nil {
			return ring.Chamber{}, err
		}
		p.letFig("Vc", c.Clearance.CubicInches(), 2)
		p.line("Vc = Vs/(CR − 1) = {Vs}/({ratio} − 1) = {Vc} cu in")
		p.answer("Clearance volume", c.Clearance.CubicInches(), 2, quantity.UnitCuIn)
		return c, nil
	}
	c.Clearance = p.volume("room")
	ratio, err := ring.CompressionRatio(swept, c.Clearance)
	p.letFig("Vc", c.Clearance.CubicInches(), 2)
	p.bare("Compression ratio", ratio, 2, "to 1")
	p.line("CR = (Vs + Vc)/Vc = ({Vs} + {Vc})/{Vc} = {=}, Vc = {room} fl oz")
	return c, err
}

// liquid is what a liquid in the chamber does.
func (p *Page) liquid(c ring.Chamber) error {
	v := p.volume("liquid")
	f, err := lock.Fill(c, v)
	if err != nil {
		return err
	}
	p.draw("liquid", v.FluidOunces())
	p.bare("It fills", 100*f.Filled, 0, "per cent of the room")
	p.letFig("V", v.CubicInches(), 2)
	if f.Locked {
		p.tell("Locked", "full", "the piston cannot reach its top")
		p.line("V = {liquid} fl oz = {V} cu in, Vc = {Vc} cu in: V ≥ Vc")
		p.warn("Locked: the liquid fills the room. Something bends if the piston is made to go up.")
		return nil
	}
	p.bare("Compression with it", f.Ratio, 1, "to 1")
	p.line("V = {liquid} fl oz = {V} cu in: ({Vs} + {Vc} − {V})/({Vc} − {V}) = {=}")
	n := map[string]float64{"hand": lock.Isothermal, "starter": lock.Cranking, "fast": lock.Adiabatic}[p.chosen("how")]
	if n == 0 {
		return nil
	}
	peak, err := f.Peak(compression.SeaLevel, n)
	if err != nil {
		return err
	}
	p.letFig("r", f.Ratio, 1)
	p.letFig("n", n, 1)
	p.answer("Peak pressure at most", lock.Gauge(peak, compression.SeaLevel).PSI(), 0, quantity.UnitPsi)
	p.line("14.7 × {r}^{n} − 14.7 = {=} on a gauge")
	return nil
}
