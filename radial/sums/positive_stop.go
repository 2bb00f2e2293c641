package sums

import (
	"linkrod/radial/ignition"
	"linkrod/radial/quantity"
)

var positiveStop = sum{
	id: "positive-stop", title: "True top by positive stop", drawing: "disc",
	what: "The top from two readings of the disc with a stop in the plug hole.",
	fields: []field{
		{name: "before", is: "stop", label: "Stop met before the zero", sym: "b", units: angles, usual: span{1, 120}},
		{name: "after", label: "Stop met after the zero", sym: "a", units: angles, usual: span{1, 120}},
		{from: &gearField, without: "Gear not given: the disc on the crank, or a direct engine."},
		{from: &strokeField, without: "Stroke not given: how far down the stop holds is not known."},
		{name: "rod", is: "master rod", label: "Master rod", sym: "L", units: sizes, usual: span{5, 18}, with: "stroke", without: "Master rod not given: how far down the stop holds is not known."},
	},
	source: "top = (a − b)/2: geometry. On a link cylinder the way up is not the mirror of the way down.",
	cautions: []string{plugsOut, "Turn against the stop by hand, gently. Back off a quarter turn and come up in the direction of rotation before timing.",
		"On the cylinder with the master rod. On a link cylinder halving is off by a fraction of a degree, more the farther down the stop holds."},
	work: func(p *Page) error {
		b, err := ignition.AtCrank(p.angle("before"), p.gear())
		if err != nil {
			return err
		}
		a, err := ignition.AtCrank(p.angle("after"), p.gear())
		if err != nil {
			return err
		}
		top, err := ignition.Halve(p.angle("before"), p.angle("after"))
		if err != nil {
			return err
		}
		p.sided("The top is", top, "after the zero", "before the zero")
		p.line("top = ({after} − {before})/2 = {=} of the disc")
		p.draw("before", p.angle("before").Degrees())
		p.draw("after", p.angle("after").Degrees())
		p.draw("top", top.Degrees())
		if p.has("gear") {
			at, err := ignition.AtCrank(top, p.gear())
			if err != nil {
				return err
			}
			p.sided("in degrees of crank", at, "after the zero", "before the zero")
		}
		if p.has("stroke") && p.has("rod") {
			piston, err := p.crank()
			if err != nil {
				return err
			}
			s, err := ignition.PositiveStop(piston, b, a)
			if err != nil {
				return err
			}
			p.answer("The stop holds the piston below its top by", s.Travel.Inches(), 3, quantity.UnitIn)
		}
		return nil
	},
}
