package sums

import (
	"linkrod/radial/quantity"
	"linkrod/radial/wear"
)

var clearance = sum{
	id: "clearance", title: "Clearance of two parts", drawing: "fit", first: true,
	what:   "The smallest hole less the largest shaft, against the three numbers of a table.",
	limits: true,
	fields: []field{
		{name: "hole", label: "Hole, smallest", sym: "H", units: sizes},
		{name: "shaft", label: "Shaft, largest", sym: "s", units: sizes},
		{name: "nominal", is: "nominal size", label: "Nominal size", units: sizes, without: "Nominal size not given: a slipped point would not be seen."},
		{name: "holetemp", is: "hole temperature|temperature", label: "Hole at", units: temperatures, usual: span{20, 130}, without: "Temperature of the hole not given: whether the two were soaked together is not known."},
		{name: "shafttemp", is: "shaft temperature", label: "Shaft at", units: temperatures, usual: span{20, 130}, without: "Temperature of the shaft not given: whether the two were soaked together is not known."},
		{name: "holemetal", is: "expansion of the hole|material", label: "Hole of", kind: option, choices: metals, with: "holetemp", without: "Metal of the hole not given."},
		{name: "shaftmetal", is: "expansion of the shaft", label: "Shaft of", kind: option, choices: metals, with: "shafttemp", without: "Metal of the shaft not given."},
		{name: "at", label: "What would it be at", units: temperatures, with: "shaftmetal", usual: span{-40, 500}, without: "No other temperature asked for."},
	},
	source:   "H − s, as typed, nothing rounded; growth = size × α × ΔT, α the middle of a published range by family of metal, good to 15 per cent. Last tenth before the limit is the edge: common practice, no source.",
	cautions: []string{"Leave both parts and the gauge side by side until they are at one temperature.", "Two readings of one point more than half a thou apart are no reading: take a third."},
	work: func(p *Page) error {
		f := wear.Fit{Hole: p.part("hole"), Shaft: p.part("shaft")}
		c, soaked, err := f.Clearance()
		if err != nil {
			return err
		}
		label := "Clearance"
		if c.Value.Sign() < 0 {
			label = "Tight by, the minus says"
		}
		if err := p.judged(label, c); err != nil {
			return err
		}
		p.line("H − s = " + brief(p.of("hole")) + " − " + brief(p.of("shaft")) + " = {=}")
		p.draw("hole", p.length("hole").Inches())
		p.draw("shaft", p.length("shaft").Inches())
		if soaked {
			p.note("Both at one temperature, or near enough that it makes under a tenth of a thou.")
		}
		if p.has("nominal") {
			for _, name := range []string{"hole", "shaft"} {
				far, err := wear.FarFromNominal(p.of(name), p.of("nominal"))
				if err != nil {
					return err
				}
				if far != "" {
					p.ask(name, "slip", far)
				}
			}
		}
		if p.has("at") && p.has("holemetal") {
			then, err := f.At(p.temperature("at"))
			if err != nil {
				return err
			}
			p.answer("At that temperature about", then.Thou(), 1, quantity.UnitThou)
			p.line("H (1 + α ΔT) − s (1 + α ΔT) at {at} °F = {=}")
		}
		return nil
	},
}

// part is the part of a box, with the temperature and the metal beside it.
func (p *Page) part(name string) wear.Part {
	part := wear.Part{Size: p.of(name), Temperature: p.of(name + "temp"), Expands: wear.Materials[0].Middle()}
	if m, err := wear.MaterialNamed(p.chosen(name + "metal")); err == nil {
		part.Expands = m.Middle()
	}
	return part
}

var metals = []choice{{"alloy steels", "Alloy steel"}, {"nitriding steels", "Nitriding steel"}, {"grey irons (cast)", "Cast iron"}, {"aluminium alloys", "Aluminium"}, {"magnesium alloys", "Magnesium"}, {"tin bronzes (cast)", "Bronze"}}
