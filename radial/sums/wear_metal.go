package sums

import "linkrod/radial/oil"

var wearMetal = sum{
	id: "wear-metal", title: "Metal in the oil", drawing: "scales",
	what: "A laboratory's figure for one metal, with the oil that was added and the hours reckoned in, against this engine's own.",
	fields: []field{
		{name: "found", is: "metal", label: "Metal found", sym: "m", kind: number, usual: span{0, 500}, hint: "ppm, of one metal."},
		{name: "hours", is: "hours on the oil", label: "Hours on the oil", sym: "h", units: times, usual: span{5, 100}},
		{name: "added", label: "Oil added since the change", sym: "A", units: tanks, usual: span{0, 100}, without: "Oil added not given: the figure is not raised for it."},
		{name: "charge", label: "Oil in the engine and its tank", sym: "C", units: tanks, with: "added", usual: span{4, 40}, without: "The engine's oil not given: the figure is not raised for what was added."},
		{name: "history", label: "Earlier samples", kind: text, check: listed, without: "Earlier samples not given: no line of its own.", hint: "The same figure of this engine, per ten hours, with spaces; eight or more."},
	},
	source: "m x/(1 − e⁻ˣ), x = A/C: exact for oil lost with its metal and so an upper bound; line at mean + 2 standard deviations (n − 1): common practice, no source; ASTM D7720 has such limits for data in control.",
	cautions: []string{"Compare with this engine alone, from one laboratory, at about the same hours. Other types mean nothing.",
		"It does not see chips: cut the filter open and look at the screens."},
	work: func(p *Page) error {
		found := oil.PPM(p.number("found"))
		most := found
		if p.has("added") && p.has("charge") {
			f, err := oil.MakeUp(p.volume("added"), p.volume("charge"))
			if err != nil {
				return err
			}
			most *= oil.PPM(f)
			p.bare("Without the oil added, at most", float64(most), 1, "ppm")
			p.letFig("f", f, 3)
			p.line("x = {added}/{charge}, factor x/(1 − e⁻ˣ) = {f}: {=}")
		}
		rate, err := oil.PerTenHours(most, p.hours("hours"))
		if err != nil {
			return err
		}
		p.bare("In ten hours", float64(rate), 1, "ppm")
		p.line("× 10/{hours} = {=}")
		if !p.has("history") {
			return nil
		}
		var samples []oil.PPM
		for _, m := range p.measures("history", "") {
			samples = append(samples, oil.PPM(m.Value.Float64()))
		}
		own, err := oil.OwnHistory(samples)
		if err != nil {
			return err
		}
		p.bare("This engine's own line", float64(own.Line()), 1, "ppm")
		p.letFig("mean", float64(own.Mean), 1)
		p.letFig("sd", float64(own.SD), 2)
		p.line("{mean} + 2 × {sd} = {=}")
		p.note(own.Words(rate))
		return nil
	},
}
