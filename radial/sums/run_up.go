package sums

import (
	"linkrod/radial/ignition"
	"linkrod/radial/quantity"
)

var runUp = sum{
	id: "run-up", title: "Drop on one side", drawing: "drops",
	what: "What a run-up says against this engine's own earlier ones.",
	fields: []field{
		{name: "both", label: "On both", units: speeds, usual: span{800, 2500}},
		{name: "left", label: "On left alone", units: speeds, usual: span{500, 2500}, hint: "0 if it cut out."},
		{name: "right", label: "On right alone", units: speeds, usual: span{500, 2500}, hint: "0 if it cut out."},
		{name: "lefts", is: "earlier left", label: "Earlier drops on left", kind: text, check: listed, without: "Earlier drops on left not given: nothing to compare it with.", hint: "rpm, with spaces: 60 65 70"},
		{name: "rights", is: "earlier right", label: "Earlier drops on right", kind: text, check: listed, without: "Earlier drops on right not given: nothing to compare it with.", hint: "rpm, with spaces"},
		{name: "manner", label: "How it fell", kind: option, choices: []choice{{"fast", "Fast and rough"}, {"slow", "Slow and smooth"}}, without: "How it fell not given."},
	},
	source:   "drop = rpm on both − rpm on one (FAA-H-8083-32), against the middle of the earlier ones. What no drop and its manner mean: common practice, no source.",
	cautions: []string{"No limit is on file here: the engine's card has its own.", "One magneto and one battery unit drop differently by design: a side compares only with itself, at the same speed.", "Left and right are as the pilot sits. Treat every propeller as live."},
	work: func(p *Page) error {
		c, err := ignition.RunUp{Both: p.of("both"), Left: p.of("left"), Right: p.of("right")}.Judge(ignition.DropLimits{},
			ignition.Earlier{Left: p.measures("lefts", quantity.UnitRpm), Right: p.measures("rights", quantity.UnitRpm)})
		if err != nil {
			return err
		}
		p.side("left", "{both} − {left}", c.Left)
		p.side("right", "{both} − {right}", c.Right)
		if c.Apart.Given() {
			p.exact("Apart", c.Apart)
		}
		if c.Left.Meaning != ignition.Dropped || c.Right.Meaning != ignition.Dropped {
			p.warn(c.Words())
		} else {
			p.note(c.Words())
		}
		switch p.chosen("manner") {
		case "fast":
			p.note(ignition.Fast.Words())
		case "slow":
			p.note(ignition.Slow.Words())
		}
		return nil
	},
}

// side is one side of a run-up.
func (p *Page) side(name, formula string, s ignition.SideDrop) {
	p.exact("Drop on "+name+" alone", s.Drop)
	p.line(formula + " = {=}")
	d, _ := s.Drop.Speed() // a drop is rpm
	p.draw(name, d.RPM())
	if s.Usual.Given() {
		p.exact("Its usual", s.Usual)
		p.exact("More than usual", s.More)
	}
}
