package sums

import (
	"linkrod/radial/lock"
	"linkrod/radial/oil"
	"linkrod/radial/quantity"
)

var missingOil = sum{
	id: "missing-oil", title: "Oil missing after parking", drawing: "tank",
	what: "How much left the tank, what was found, and what may be in the engine.",
	fields: []field{
		{name: "shutdown", label: "Level at shutdown", sym: "L₁", units: tanks, usual: span{1, 40}},
		{name: "start", label: "Level before the next start", sym: "L₂", units: tanks, usual: span{1, 40}},
		{name: "warm", label: "Oil at shutdown", sym: "T₁", units: temperatures, usual: span{40, 250}, without: "Oil temperature at shutdown not given: no level is corrected, and a cold tank alone can look like a quart gone."},
		{name: "cold", label: "Oil before the start", sym: "T₂", units: temperatures, usual: span{-20, 120}, without: "Oil temperature before the start not given: no level is corrected."},
		{name: "sump", label: "Drained from the sump and the tray", units: oils, without: "Nothing drained from the sump given."},
		{name: "jars", label: "Drained from cylinders and pipes", units: oils, without: "Nothing drained from cylinders given."},
		{from: &stepField},
		{from: &boreField, without: "Bore, stroke and ratio not given: no worst case."},
		{from: &strokeField, with: "bore", without: "Stroke not given: no worst case."},
		{name: "ratio", is: "compression ratio", label: "Compression ratio", sym: "CR", kind: number, with: "bore", usual: span{4, 10}, without: "Ratio not given: no worst case."},
	},
	source:   "gone = 32 [L₁ e^(−α (T₁ − 60)) − L₂ e^(−α (T₂ − 60))], α = 4 in 10,000 for a degree F; bounds at 1.645 standard uncertainties, 95 per cent on each side: the missing-oil account of this project, from published constants.",
	cautions: []string{oil.Caution, "It may only raise concern, never remove it."},
	work: func(p *Page) error {
		sd := oil.ReadingSD(p.step(), oil.Conditions{})
		park := oil.Parking{
			Shutdown: oil.Standing{Level: p.quarts("shutdown"), SD: sd, Temp: p.oilTemp("warm")},
			Start:    oil.Standing{Level: p.quarts("start"), SD: sd, Temp: p.oilTemp("cold")},
		}
		for _, f := range []struct {
			name string
			sd   oil.FluidOunces
		}{{"sump", oil.JugSD}, {"jars", oil.JarSD}} {
			if p.has(f.name) {
				park.Found = append(park.Found, oil.Found{Volume: oil.FluidOunces(p.volume(f.name).FluidOunces()), SD: f.sd})
			}
		}
		m, err := oil.Account(park)
		if err != nil {
			return err
		}
		p.letFig("u", float64(m.U), 1)
		p.answer("Left the tank", float64(m.Gone), 1, quantity.UnitFlOz)
		p.line("32 × ({shutdown} − {start}) qt, both brought to 60 °F where their temperatures are given: {=}")
		p.answer("Not found", float64(m.Rest), 1, quantity.UnitFlOz)
		p.line("less what was drained, {sump} + {jars} fl oz: {=}, uncertain by {u}")
		p.answer("Surely at least", float64(m.Surely), 1, quantity.UnitFlOz)
		p.answer("It could be up to", float64(m.Could), 1, quantity.UnitFlOz)
		p.line("± 1.645 × {u}: up to {=}")
		p.note(m.Say()[0])
		if p.has("bore") && p.has("stroke") && p.has("ratio") {
			c, err := p.chamber()
			if err != nil {
				return err
			}
			w, err := lock.WorstCase(quantity.Volume(m.Surely)*quantity.FluidOunce, quantity.Volume(m.Could)*quantity.FluidOunce, []lock.Low{{Chamber: c}})
			if err != nil {
				return err
			}
			p.bare("At worst, all in one cylinder", w.Charge.Filled, 1, "clearance volumes")
			if !w.Charge.Locked {
				p.bare("which is a compression of", w.Charge.Ratio, 1, "to 1")
			}
			p.note(w.Words())
		}
		p.litres("start", p.volume("shutdown"))
		p.draw("shutdown", float64(park.Shutdown.Level))
		p.draw("start", float64(park.Start.Level))
		p.draw("surely", float64(m.Surely))
		p.draw("could", float64(m.Could))
		return nil
	},
}

var stepField = field{name: "step", label: "Smallest mark of the stick", units: tanks, usual: span{0.1, 2}, without: "Mark of the stick not given: half a quart."}

// step is how finely the stick is read, half a quart if nobody said.
func (p *Page) step() oil.Quarts {
	if p.has("step") {
		return p.quarts("step")
	}
	return 0.5
}

func (p *Page) quarts(name string) oil.Quarts { return oil.Quarts(p.volume(name).Quarts()) }

// oilTemp is the temperature of oil when it was read, not given if the box is empty.
func (p *Page) oilTemp(name string) oil.Given[oil.Fahrenheit] {
	if !p.has(name) {
		return oil.Given[oil.Fahrenheit]{}
	}
	return oil.Is(oil.Fahrenheit(p.temperature(name).Fahrenheit()))
}

// litres asks whether a level in quarts was read in litres.
func (p *Page) litres(name string, expected quantity.Volume) {
	read := p.of(name)
	if quantity.LitresForQuarts(read, expected, quantity.Quart/2) {
		other := quantity.Measured{Value: read.Value, Unit: quantity.UnitL}
		p.ask(name, "litres", quantity.VolumeDoubt(read.Value), way{brief(other), name, other.Text()})
	}
}
