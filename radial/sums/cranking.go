package sums

import (
	"linkrod/radial/compression"
	"linkrod/radial/quantity"
)

var cranking = sum{
	id: "cranking", title: "Cranking check against the average", drawing: "pumps",
	what: "Which cylinders pump 20 per cent or more below the average.",
	fields: []field{
		{name: "readings", is: "cylinder", label: "Readings, cylinder 1 first", sym: "v", kind: text, check: listed, hint: "psi, with spaces: 98 102 95 101 80 99 97"},
		{name: "minimum", label: "Maker's minimum", units: pressures, usual: span{40, 150}, without: "No minimum typed: none is judged by."},
	},
	source:   "v ≤ 0.8 × average: US Army TM 1-1500-204-23-1.",
	cautions: []string{"All warm, throttle open, fuel off, ignition grounded, four turns at least, liquid looked for first.", "What is low is looked at again: clearance, a valve held open, oil squirted in, before anything else."},
	work: func(p *Page) error {
		readings := p.measures("readings", quantity.UnitPsi)
		c, err := compression.Cranking(readings, p.of("minimum"))
		if err != nil {
			return err
		}
		p.answer("Average", c.Average.PSI(), 1, quantity.UnitPsi)
		p.line("sum of " + numbersOf(readings) + " over their number = {=}")
		p.cylinders("20 per cent or more below it", c.Low)
		if p.has("minimum") {
			p.cylinders("Below the minimum", c.Under)
			p.note(typedLimits)
		}
		var values []float64
		for _, m := range readings {
			values = append(values, m.Value.Float64())
		}
		p.drawAll("values", values)
		p.draw("average", c.Average.PSI())
		p.drawAll("low", floats(c.Low))
		return nil
	},
}

// numbersOf is the figures of a list as typed.
func numbersOf(list []quantity.Measured) string {
	s := ""
	for i, m := range list {
		if i > 0 {
			s += ", "
		}
		s += m.Value.Show()
	}
	return s
}

const typedLimits = "The limit was typed here; no document is on file for it."
