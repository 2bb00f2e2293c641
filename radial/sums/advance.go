package sums

import (
	"linkrod/radial/ignition"
	"linkrod/radial/quantity"
)

var advance = sum{
	id: "advance", title: "Advance of a battery distributor", drawing: "curve",
	what: "How far the weights have moved the spark at a speed, from the maker's table.",
	fields: []field{
		{name: "table", is: "line", label: "Table, rpm and degrees", kind: text, check: pairs, hint: "Slowest first: 500 0, 1000 12, 1400 25"},
		{name: "degrees", label: "The table is in", kind: option, choices: []choice{{"crank", "Degrees of crank"}, {"distributor", "Degrees of the distributor"}}},
		{name: "speed", label: "Speed of the crank", sym: "n", units: speeds, usual: span{100, 3000}},
	},
	source:   "Straight between the lines of the table; the distributor turns at half crank speed: geometry.",
	cautions: []string{"A battery distributor fires at any speed while its master switch is on: a propeller turned by hand can kick.", "Strobe work at a running propeller is for those who are trained for it."},
	work: func(p *Page) error {
		list, _ := decimals(p.text("table")) // read once already
		var points []ignition.AdvancePoint
		for i := 0; i+1 < len(list); i += 2 {
			a := quantity.Angle(list[i+1].Float64())
			if p.chosen("degrees") == "distributor" {
				a = ignition.FromDistributor(a)
			}
			points = append(points, ignition.AdvancePoint{Speed: quantity.Speed(list[i].Float64()), Advance: a})
		}
		c, err := ignition.NewAdvanceCurve(points...)
		if err != nil {
			return err
		}
		at, err := c.At(p.speed("speed"))
		if err != nil {
			return err
		}
		p.answer("Advance there, degrees of crank", at.Degrees(), 1, quantity.UnitDeg)
		p.line("between the lines of the table at {speed} rpm: {=}")
		full := c.Full()
		p.answer("Full advance", full.Advance.Degrees(), 1, quantity.UnitDeg)
		p.answer("from", full.Speed.RPM(), 0, quantity.UnitRpm)
		var speeds, angles []float64
		for _, q := range points {
			speeds, angles = append(speeds, q.Speed.RPM()), append(angles, q.Advance.Degrees())
		}
		p.drawAll("speeds", speeds)
		p.drawAll("angles", angles)
		p.draw("speed", p.speed("speed").RPM())
		p.draw("advance", at.Degrees())
		return nil
	},
}

// pairs reads a table of rpm and degrees.
func pairs(typed string) (string, error) {
	list, err := decimals(typed)
	if err != nil {
		return "", err
	}
	if len(list)%2 != 0 {
		return "", refuse("There are " + quantity.Whole(len(list)).Words() + " figures, and each rpm needs its degrees. Type them in pairs, as 500 0, 1000 12.")
	}
	s := ""
	for i := 0; i < len(list); i += 2 {
		if i > 0 {
			s += "; "
		}
		s += list[i].Words() + " rpm, " + list[i+1].Words() + " degrees"
	}
	return s, nil
}
