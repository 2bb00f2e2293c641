package sums

import (
	"linkrod/radial/quantity"
	"linkrod/radial/wear"
)

var boreShape = sum{
	id: "bore-shape", title: "Oval, taper and choke", drawing: "barrel",
	what:   "The shape of a barrel, skirt or pin from readings across two axes.",
	limits: true,
	fields: []field{
		{name: "topa", is: "top, A", label: "Top of ring travel, fore and aft", units: sizes}, {name: "topb", is: "top, B", label: "Top of ring travel, side to side", units: sizes},
		{name: "uppera", is: "upper, A", label: "Upper, fore and aft", units: sizes, without: "Upper station not measured."}, {name: "upperb", is: "upper, B", label: "Upper, side to side", units: sizes, with: "uppera"},
		{name: "lowera", is: "lower, A", label: "Lower, fore and aft", units: sizes, without: "Lower station not measured."}, {name: "lowerb", is: "lower, B", label: "Lower, side to side", units: sizes, with: "lowera"},
		{name: "skirta", is: "skirt, A", label: "Skirt, fore and aft", units: sizes}, {name: "skirtb", is: "skirt, B", label: "Skirt, side to side", units: sizes},
		{name: "nominal", is: "nominal size", label: "Nominal size", units: sizes, without: "Nominal size not given: no wear, and a slipped point would not be seen."},
		{name: "judge", label: "Judge by the limits", kind: option, without: "What to judge not given: out-of-round.", choices: []choice{{"oval", "Out-of-round"}, {"taper", "Taper"}, {"choke", "Choke"}, {"cylindricity", "Cylindricity"}, {"wear", "Wear over nominal"}}},
	},
	source:   "Out-of-round |A − B|, worst station; taper mean at the top less mean at the skirt, choke the same with the other sign; cylindricity worst along an axis; wear largest less nominal. FAA handbook text, a maker's manuals, Army TM 9-2815-200-35.",
	cautions: []string{"Measured at least at two stations, across two axes square to each other, gauge and part soaked together.", "The sign tells choke from wear: a barrel made with choke that measures straight has worn at the top."},
	work: func(p *Page) error {
		list := wear.Stations{}
		for _, where := range []string{"top", "upper", "lower", "skirt"} {
			if p.has(where + "a") {
				list = append(list, wear.Station{Where: where, A: p.of(where + "a"), B: p.of(where + "b")})
			}
		}
		s, err := list.Shape()
		if err != nil {
			return err
		}
		choke, err := wear.Choke(list[0], list[len(list)-1])
		if err != nil {
			return err
		}
		figures := map[string]quantity.Measured{"oval": s.OutOfRound, "taper": s.Taper, "choke": choke, "cylindricity": s.Cylindricity}
		if p.has("nominal") {
			if figures["wear"], err = wear.Wear(s.Most, p.of("nominal")); err != nil {
				return err
			}
			far, err := wear.FarFromNominal(s.Most, p.of("nominal"))
			if err != nil {
				return err
			}
			if far != "" {
				p.ask("nominal", "slip", far)
			}
		}
		judge := p.chosen("judge")
		if judge == "" {
			judge = "oval"
		}
		names := p.field("judge").choices
		for _, c := range names {
			m := figures[c.value]
			switch {
			case !m.Given():
				continue
			case c.value == judge:
				if err := p.judged(c.label, m); err != nil {
					return err
				}
			default:
				p.exact(c.label, inThou(m))
			}
			p.line(lower(c.label) + " = {=}")
		}
		if judge == "wear" && !p.has("nominal") {
			p.note("Wear can't be judged: the nominal size is not given.")
		}
		p.exact("Largest", s.Most)
		p.exact("Smallest", s.Least)
		p.note("Out of round worst at the " + list[s.OutAt].Where + ".")
		var a, b []float64
		for _, st := range list {
			la, _ := st.A.Length() // Shape took them
			lb, _ := st.B.Length()
			a, b = append(a, la.Inches()), append(b, lb.Inches())
		}
		p.drawAll("a", a)
		p.drawAll("b", b)
		return nil
	},
}
