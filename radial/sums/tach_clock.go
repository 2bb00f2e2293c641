package sums

import (
	"linkrod/radial/due"
	"linkrod/radial/quantity"
)

var tachClock = sum{
	id: "tach-clock", title: "Tach hours and clock hours", drawing: "clock",
	what: "What a tachometer's hour meter counts while a clock counts, and hours as minutes.",
	fields: []field{
		{name: "clock", is: "clock hours", label: "By the clock", sym: "c", units: times, or: "hours", hint: "1.5 or 1:30"},
		{name: "tach", label: "By the tach", sym: "t", units: times, or: "hours"},
		{name: "speed", label: "Steady at", sym: "n", units: speeds, usual: span{500, 3500}},
		{name: "reference", is: "reference speed", label: "Reference speed of the meter", sym: "n₀", units: speeds, usual: span{1000, 3500}, hint: "It stands on the meter."},
	},
	source:   "t = c × n/n₀: the meter counts turns. Common practice, no source.",
	cautions: []string{"Only at a steady speed. Intervals go by the meter they were written for."},
	work: func(p *Page) error {
		label, formula := "By the tach", "{clock} × {speed}/{reference} = {=}"
		from, n, n0 := p.hours("clock"), p.speed("speed"), p.speed("reference")
		if p.has("tach") {
			label, formula = "By the clock", "{tach} × {reference}/{speed} = {=}"
			from, n, n0 = p.hours("tach"), n0, n
		}
		h, err := due.MeterHours(from, n, n0)
		if err != nil {
			return err
		}
		p.answer(label, h.Hours(), 3, quantity.UnitH)
		p.line(formula)
		if m, ok := p.rounded(h.Hours(), 6, quantity.UnitH); ok {
			p.tell("as hours and minutes", due.Clock(m), h.Clock())
		}
		p.draw("hours", h.Hours())
		return nil
	},
}
