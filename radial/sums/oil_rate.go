package sums

import (
	"linkrod/radial/oil"
	"linkrod/radial/quantity"
)

var oilRate = sum{
	id: "oil-rate", title: "Oil rate by two levels", drawing: "levels", first: true,
	what: "Quarts an hour, hours a quart and litres an hour, with the band that two looks at a stick allow.",
	fields: []field{
		{name: "before", label: "Level before", sym: "L₁", units: tanks, usual: span{1, 40}},
		{name: "added", label: "Added then", sym: "A", units: tanks, usual: span{0, 16}, without: "Nothing added is given."},
		{name: "hours", label: "Hours run", sym: "h", units: times, usual: span{0.5, 100}},
		{name: "after", label: "Level after", sym: "L₂", units: tanks, usual: span{1, 40}},
		{name: "warm", label: "Oil then", units: temperatures, usual: span{40, 250}, without: "Oil temperature before not given: that level is not corrected."},
		{name: "cold", label: "Oil after", units: temperatures, usual: span{40, 250}, without: "Oil temperature after not given: that level is not corrected."},
		{from: &stepField},
	},
	source:   "(L₁ + A − L₂)/h, give or take 2 √(s₁² + s₂²)/h + 0.3 rate, s how far a reading may be off: this project's average by hand, which held the true one in 99 of 100 simulated logs.",
	cautions: []string{"Under three hours a half-quart mark can make or hide the whole rate.", "No limit is on file here. A rate belongs beside its own baseline and the shop's sheet."},
	work: func(p *Page) error {
		bank, err := oil.New(oil.Settings{StickStep: oil.Is(p.step())})
		if err != nil {
			return err
		}
		first := bank.Add(oil.Reading{Level: p.quarts("before"), Added: p.quarts("added"), Conditions: oil.Conditions{Temp: p.oilTemp("warm")}})
		last := bank.Add(oil.Reading{Hours: oil.Hours(p.hours("hours").Hours()), Level: p.quarts("after"), Conditions: oil.Conditions{Temp: p.oilTemp("cold")}})
		if first.Left != oil.Used {
			return fault("before", sentence(oil.Say(first, oil.USQuart)))
		}
		if last.Left != oil.Used {
			return fault("after", sentence(oil.Say(last, oil.USQuart)))
		}
		avg := last.Average
		if !avg.OK {
			return fault("hours", "No rate can be reckoned: no time went by, or the tank holds more than it did.")
		}
		r := quantity.OilRate(avg.Rate)
		places := max(2, quantity.Places(float64(avg.Hi-avg.Lo)/2))
		p.answer("Rate", r.QuartsPerHour(), places, quantity.UnitQtPerH)
		p.letFig("s1", float64(oil.ReadingSD(p.step(), oil.Conditions{Temp: p.oilTemp("warm")})), 2)
		p.letFig("s2", float64(oil.ReadingSD(p.step(), oil.Conditions{Temp: p.oilTemp("cold")})), 2)
		p.line("({before} + {added} − {after}) qt/{hours} h = {=}")
		p.between("It may be anything from", float64(avg.Lo), float64(avg.Hi), places, quantity.UnitQtPerH)
		p.line("give or take 2 √({s1}² + {s2}²)/{hours} + 0.3 rate: {=}")
		p.answer("or", r.LitresPerHour(), places, quantity.UnitLPerH)
		if r > 0 {
			p.answer("or", r.HoursPerQuart(), 1, quantity.UnitHPerQt)
		}
		p.answer("Used", float64(avg.Used), 2, quantity.UnitQt)
		p.note(sentence(oil.Line(last, oil.USQuart)))
		p.litres("after", p.volume("before")+p.volume("added"))
		p.draw("before", float64(p.quarts("before")))
		p.draw("added", float64(p.quarts("added")))
		p.draw("after", float64(p.quarts("after")))
		return nil
	},
}
