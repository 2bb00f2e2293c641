package sums

import (
	"strconv"

	"linkrod/radial/quantity"
)

var firingOrder = sum{
	id: "firing-order", title: "Firing order and sockets", drawing: "firing",
	what: "In which order the cylinders fire, which socket serves which, and which are mirrors.",
	fields: []field{
		{from: &cylindersField}, {from: &turnsField},
		{name: "first", is: "first cylinder", label: "Fires first", kind: count, without: "First not given: begun with 1."},
		{from: &masterField, without: "Master not given: no mirrors."},
	},
	source:   "Every second cylinder in the direction of rotation, 720°/N apart (FAA-H-8083-32). Sockets numbered in serving order: common practice, no source. Mirror: 2m − k.",
	cautions: []string{"Sockets of a distributor block count sparks, not cylinders: the usual mistake in wiring."},
	work: func(p *Page) error {
		r, err := p.ring()
		if err != nil {
			return err
		}
		from := 1
		if p.has("first") {
			from = p.count("first")
		}
		order, err := r.FiringOrder(from)
		if err != nil {
			return err
		}
		p.tell("Firing order", numbers(order), said(order))
		p.line("{cylinders} cylinders, every second one: {=}")
		p.answer("One every", r.Interval().Degrees(), 2, quantity.UnitDeg)
		p.line("720°/{cylinders} = {=}")
		sockets, words := "", ""
		for i, k := range order {
			sockets += strconv.Itoa(i+1) + "→" + strconv.Itoa(k) + " "
			words += "socket " + quantity.Whole(i+1).Words() + " serves " + quantity.Whole(k).Words() + ", "
		}
		p.tell("Sockets", sockets[:len(sockets)-1], words[:len(words)-2])
		p.draw("n", float64(len(order)))
		p.drawAll("order", floats(order))
		if !p.has("master") {
			return nil
		}
		pairs, err := r.Mirrors(p.count("master"))
		if err != nil {
			return err
		}
		mirrors, words := "", ""
		for _, pair := range pairs {
			mirrors += strconv.Itoa(pair[0]) + "–" + strconv.Itoa(pair[1]) + " "
			words += quantity.Whole(pair[0]).Words() + " and " + quantity.Whole(pair[1]).Words() + ", "
		}
		p.tell("Mirrors", mirrors[:len(mirrors)-1], words[:len(words)-2])
		p.line("2 × {master} − k, counted round {cylinders}: {=}")
		p.draw("master", p.number("master"))
		return nil
	},
}
