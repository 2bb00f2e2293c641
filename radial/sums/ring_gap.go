package sums

import (
	"linkrod/radial/quantity"
	"linkrod/radial/wear"
)

var ringGap = sum{
	id: "ring-gap", title: "Ring gap", drawing: "gap",
	what:   "End gap by the inch of bore, and what it is where the bore is smaller.",
	limits: true,
	fields: []field{
		{name: "gap", label: "End gap", sym: "g", units: thous, usual: span{2, 120}, hint: "Ring square in its bore."},
		{from: &boreField},
		{name: "smaller", label: "Bore smaller by", sym: "Δ", units: thous, usual: span{0, 15}, without: "No choke given: the gap where it was measured.", hint: "At the top of a choked barrel."},
	},
	source:   "g/bore; gap where the bore is smaller = g − π Δ: geometry.",
	cautions: []string{"Read the gap where the bore is smallest. At 0 the ends meet and the ring breaks or scores the wall.", "Gaps are judged against their own sheet, never against a figure by the inch."},
	work: func(p *Page) error {
		each, err := wear.GapPerInch(p.of("gap"), p.of("bore"))
		if err != nil {
			return err
		}
		if err := p.judged("End gap", p.of("gap")); err != nil {
			return err
		}
		p.draw("bore", p.length("bore").Inches())
		p.answer("By the inch of bore", each.Thou(), 2, quantity.UnitThou)
		p.line("{gap} thou/{bore} in = {=}")
		if !p.has("smaller") {
			return nil
		}
		there := wear.GapWhere(p.length("gap"), p.length("smaller"))
		p.answer("Where the bore is smaller", there.Thou(), 1, quantity.UnitThou)
		p.line("{gap} − π × {smaller} = {=}")
		if there <= 0 {
			p.warn("The ends would meet there: the ring is held solid.")
		}
		return nil
	},
}
