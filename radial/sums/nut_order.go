package sums

import (
	"strconv"

	"linkrod/radial/torque"
)

var nutOrder = sum{
	id: "nut-order", title: "Tightening order", drawing: "nuts",
	what: "The order for a ring of nuts, and the torque at each stage.",
	fields: []field{
		{name: "nuts", is: "fasteners", label: "Nuts", kind: count, usual: span{3, 24}, hint: "Numbered round the circle."},
		{name: "torque", is: "final torque", label: "Final torque", units: torques},
		{name: "stages", is: "stage", label: "Stages in per cent", kind: text, check: percents, without: "Stages not given: 50, 75 and 100 per cent, common practice.", hint: "50 75 100, or the sheet's own."},
	},
	source:   "Criss-cross order: common practice, no source; for 4, 8, 12 and 16 nuts the cross pattern of ASME PCC-1 (from memory). Hold each: US Navy training text 14008.",
	cautions: []string{"The maker's sequence and stages come before these.", "The first two stand opposite and seat the part: go on only when it sits square.", "Hold each nut a few seconds, longer where a gasket gives. Not finished in one go means begun again."},
	work: func(p *Page) error {
		stages := []int{50, 75, 100}
		if p.has("stages") {
			stages, _ = wholes(p.text("stages")) // read once already
		}
		torques, err := torque.Stages(p.torque("torque"), stages...)
		if err != nil {
			return err
		}
		passes, err := torque.Passes(p.count("nuts"), torques...)
		if err != nil {
			return err
		}
		unit := p.of("torque").Unit
		for i, pass := range passes {
			label := "Stage " + strconv.Itoa(i+1)
			if pass.Round {
				label = "Once more round, still at"
			}
			p.inUnit(label, pass.Torque, unit)
			if !pass.Round {
				p.line(label + ": {torque} in-lb × " + strconv.Itoa(stages[i]) + "/100 = {=}")
			}
		}
		order := passes[0].Order
		p.tell("Order", numbers(order), said(order))
		p.line("{nuts} nuts, each opposite the one before, each pair far from the last: {=}")
		p.draw("n", float64(len(order)))
		p.drawAll("order", floats(order))
		return nil
	},
}

// percents reads the stages of a tightening.
func percents(typed string) (string, error) {
	list, err := wholes(typed)
	if err != nil {
		return "", err
	}
	return said(list) + " per cent", nil
}
