package sums

import (
	"math"

	"linkrod/radial/quantity"
	"linkrod/radial/torque"
)

var preload = sum{
	id: "preload", title: "Preload of a stud", drawing: "stud",
	what: "How hard a stud or bolt pulls at a torque, how much stress that is, and how much it stretches.",
	fields: []field{
		{name: "torque", label: "Torque at the nut", sym: "T", units: torques, hint: "Less the nut's own drag."},
		{name: "thread", label: "Thread", kind: text, check: thread, hint: "7/16-20, 10-32, M10x1.25"},
		{name: "lube", is: "threads", label: "Threads are", kind: option, choices: threadStates},
		{name: "factor", is: "nut factor", label: "Nut factor", sym: "K", kind: number, usual: span{0.08, 0.35}, without: "Nut factor not given: the usual one for these threads, good to 30 per cent.", hint: "If it was measured on this joint."},
		{name: "grip", label: "Grip", sym: "l", units: lengths, usual: span{0.1, 20}, without: "Grip not given: no stretch.", hint: "What is clamped, from head to nut, to find the stretch."},
		{name: "shank", is: "diameter", label: "Shank diameter", sym: "d", units: sizes, with: "grip", without: "Shank not given: the thread's stress area is stretched over its whole length."},
	},
	source:   "F = T/(K D); σ = F/At; At = π/4 (D − 0.9743/n)² (ASME B1.1), π/4 (d − 0.9382 P)² (ISO 898-1); stretch = F l/(A E), steel, E = 29 million psi. K: a fastener laboratory's newsletter and common practice.",
	cautions: []string{"A warning, never a limit: the sheet's torque counts, whatever comes out here.", "The same torque pulls an oiled thread a third harder than a dry one."},
	work: func(p *Page) error {
		th, err := torque.ParseThread(p.text("thread"))
		if err != nil {
			return err
		}
		t, state := p.torque("torque"), threadState(p.chosen("lube"))
		k := state.Factor()
		if p.has("factor") {
			k = torque.NutFactor(p.number("factor"))
		}
		f, err := torque.Preload(t, th.Diameter(), k)
		if err != nil {
			return err
		}
		area := th.StressArea()
		stress, err := torque.Stress(f, area)
		if err != nil {
			return err
		}
		p.letFig("K", float64(k), 3)
		p.letFig("D", th.Diameter().Inches(), 4)
		p.letFig("F", f.PoundsForce(), 0)
		p.letFig("At", area.SquareInches(), 4)
		p.answer("Preload", f.PoundsForce(), 0, quantity.UnitLbf)
		p.line("F = T/(K D) = {torque}/({K} × {D}) = {=}")
		if !p.has("factor") {
			low, high := f*(1-torque.Scatter), f*(1+torque.Scatter)
			p.between("give or take 30 per cent", low.PoundsForce(), high.PoundsForce(), 0, quantity.UnitLbf)
		}
		p.answer("Stress in the thread", hundreds(stress.PSI()), 0, quantity.UnitPsi)
		p.line("σ = F/At = {F}/{At} = {=}")
		p.draw("D", th.Diameter().Inches())
		p.draw("pitch", th.Pitch().Inches())
		p.draw("stress", stress.PSI())
		if p.has("grip") {
			if err := p.stretch(f, area); err != nil {
				return err
			}
		}
		return p.sane(t, "torque")
	},
}

// stretch is how much longer the stud gets.
func (p *Page) stretch(f quantity.Force, area quantity.Area) error {
	if p.has("shank") {
		area = quantity.Circle(p.length("shank"))
	}
	s, err := torque.Stretch(f, p.length("grip"), area, torque.Steel)
	if err != nil {
		return err
	}
	p.letFig("A", area.SquareInches(), 4)
	p.answer("Stretch", s.Inches(), 4, quantity.UnitIn)
	p.line("stretch = F l/(A E) = {F} × {grip}/({A} × 29,000,000) = {=}")
	p.draw("grip", p.length("grip").Inches())
	return nil
}

// hundreds is a figure that is known too badly for more.
func hundreds(v float64) float64 { return math.Round(v/100) * 100 }
