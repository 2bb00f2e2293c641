package sums

import (
	"linkrod/radial/ignition"
	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

var magneto = sum{
	id: "magneto", title: "Magneto and cam ring", drawing: "cam",
	what: "How fast a magneto and a cam ring turn, and a magneto's E-gap in degrees of crank.",
	fields: []field{
		{from: &cylindersField},
		{name: "sparks", label: "Sparks to a turn of the magneto", sym: "s", kind: count, usual: span{1, 8}, without: "Sparks not given: no magneto.", hint: "Two for a two-pole magnet, four for a four-pole one."},
		{name: "egap", is: "E-gap", label: "E-gap at the magnet", sym: "e", units: angles, with: "sparks", usual: span{4, 30}, without: "E-gap not given.", hint: "Degrees past neutral at which the points open; the maker's."},
		{name: "lobes", label: "Lobes in one track of the cam ring", kind: count, usual: span{1, 5}, or: "cam", without: "Cam ring not given. Some fives have none."},
		{name: "cam", label: "The cam ring turns", kind: option, or: "cam", choices: []choice{{"with", "With the crankshaft"}, {"against", "Against it"}}},
	},
	source:   "Magneto N/(2 s) (FAA-H-8083-32). Cam ring against: (N − 1)/2 lobes at 1/(N − 1); with: (N + 1)/2 at 1/(N + 1).",
	cautions: []string{"A cam of another engine or rotation fits the spindle and damages pistons."},
	work: func(p *Page) error {
		n := p.count("cylinders")
		p.draw("n", float64(n))
		if p.has("sparks") {
			ratio, err := ring.Magneto(n, p.count("sparks"))
			if err != nil {
				return err
			}
			p.ratio("The magneto turns", ratio)
			p.line("{cylinders}/(2 × {sparks}) = {=}")
			if p.has("egap") {
				at, err := ignition.EGapAtCrank(p.angle("egap"), ratio)
				if err != nil {
					return err
				}
				p.answer("The E-gap at the crank", at.Degrees(), 2, quantity.UnitDeg)
				p.line("{egap}° at the magnet over its share of crank speed = {=}")
			}
		}
		p.ratio("A distributor turns", ring.Distributor)
		var cam ring.Cam
		var err error
		switch {
		case p.has("lobes"):
			cam, err = ring.CamSeen(n, p.count("lobes"))
			p.line("{lobes} lobes on {cylinders} cylinders")
		case p.chosen("cam") == "with":
			cam, err = ring.CamFor(n, ring.WithShaft)
		case p.chosen("cam") == "against":
			cam, err = ring.CamFor(n, ring.AgainstShaft)
		default:
			return nil
		}
		if err != nil {
			return err
		}
		way := "against the crankshaft"
		if cam.Turn == ring.WithShaft {
			way = "with the crankshaft"
		}
		p.tell("The cam ring turns", way, way)
		p.bare("with", float64(cam.Lobes), 0, "lobes in each track")
		p.ratio("at", cam.Speed())
		p.draw("lobes", float64(cam.Lobes))
		p.answer("Lobe to lobe", cam.Spacing().Degrees(), 2, quantity.UnitDeg)
		p.line("360°/lobes = {=}, at {cylinders} cylinders")
		return nil
	},
}

// ratio is an exact share of the crank's speed.
func (p *Page) ratio(label string, r ring.Ratio) {
	p.tell(label, r.String()+" of crank speed", quantity.Whole(r.Num).Words()+" to "+quantity.Whole(r.Den).Words())
}
