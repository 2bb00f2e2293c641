package sums

import (
	"math"
	"strings"

	"linkrod/radial/ignition"
	"linkrod/radial/quantity"
)

var travelLink = sum{
	id: "travel-link", title: "Timing on any cylinder, truthfully", drawing: "rods",
	what: "Where a cylinder that hangs on a link rod is fired, in degrees and travel of its own.",
	fields: []field{
		{from: &cylindersField}, {from: &masterField}, {from: &turnsField},
		{name: "cylinder", label: "Which cylinder", sym: "k", kind: count},
		{from: &strokeField}, {from: &rodField}, {from: &knuckleField}, {from: &linkField}, {from: &offsetField},
		{name: "advance", label: "Advance on the master", sym: "n", units: angles, usual: span{5, 45}, hint: "Degrees before its top, from the engine's card."},
		{name: "cam", label: "Breaker cam", kind: option, choices: []choice{{"even", "Even: lobes all alike apart"}, {"compensated", "Compensated: a lobe for each cylinder"}}},
		{name: "found", label: "Found before its own top", units: angles, or: "found", without: "Nothing found is given: only where it should fire."},
		{name: "down", is: "travel", label: "Found below its own top", units: sizes, or: "found", hint: "Travel on the way up, by a gauge along the cylinder."},
	},
	source:   rodSource + " Even cam: advance = n + shift of k. Compensated: n before each own top.",
	cautions: []string{plugsOut, "Rods of another model are worse than none: take the lengths from this engine's data.", "How far off is too far is the maker's to say."},
	work: func(p *Page) error {
		r, rods, err := p.rods()
		if err != nil {
			return err
		}
		cam := ignition.Even
		if p.chosen("cam") == "compensated" {
			cam = ignition.Compensated
		}
		t, err := ignition.New(ignition.Maker{Ring: r, Rods: rods, Cylinder: p.count("master"), Advance: p.angle("advance"), Cam: cam})
		if err != nil {
			return err
		}
		k := p.count("cylinder")
		s, err := t.Spark(k)
		if err != nil {
			return err
		}
		piston, _ := rods.Piston(k) // there is a spark for it
		p.answer("It is fired before its own top", s.Advance.Degrees(), 2, quantity.UnitDeg)
		p.letFig("shift", s.Shift.Degrees(), 2)
		if cam == ignition.Even {
			p.line("cylinder {cylinder}: n + shift = {advance} + ({shift}°) = {=}")
		} else {
			p.line("cylinder {cylinder}: a lobe of its own, moved by its shift of {shift}°, so n = {advance}")
		}
		p.answer("and so far below it", s.Travel.Inches(), 4, quantity.UnitIn)
		p.lateEarly("Its top comes", s.Shift)
		p.answer("Against the evenly spaced place it fires before", s.Before.Degrees(), 2, quantity.UnitDeg)
		p.answer("Its top stands from the master's", piston.Top().Height.Inches(), 4, quantity.UnitIn)
		p.draw("cylinder", float64(k))
		p.draw("shift", s.Shift.Degrees())
		return p.found(t, k)
	},
}

// found compares what was found on a cylinder.
func (p *Page) found(t ignition.Timing, k int) error {
	var f ignition.Finding
	var err error
	switch {
	case p.has("found"):
		f, err = t.Found(k, p.angle("found"))
	case p.has("down"):
		f, err = t.FoundTravel(k, p.length("down"))
	default:
		return nil
	}
	if err == nil {
		p.lateEarly("Found against where it should be", -f.Early)
		p.note(f.Words())
	}
	return err
}

// lateEarly is an angle said as late or early.
func (p *Page) lateEarly(label string, late quantity.Angle) { p.sided(label, late, "late", "early") }

// sided is an angle said by its side and without its sign.
func (p *Page) sided(label string, a quantity.Angle, above, below string) {
	figure, side := bySide(a, above, below)
	m, ok := p.rounded(math.Abs(a.Degrees()), 2, quantity.UnitDeg)
	if ok {
		p.say(answer{label: label, figure: figure, unit: side, words: strings.TrimSpace(m.Words() + " " + side)})
	}
}

// bySide is an angle as "2.22°" and "early", and as "0°" alone where it rounds to that.
func bySide(a quantity.Angle, above, below string) (figure, side string) {
	figure = quantity.Figure(math.Abs(a.Degrees()), 2)
	switch {
	case figure == "0":
		above = ""
	case a < 0:
		above = below
	}
	return figure + "°", above
}
