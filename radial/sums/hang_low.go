package sums

import "linkrod/radial/ring"

var hangLow = sum{
	id: "hang-low", title: "Which cylinders hang low", drawing: "hang",
	what: "Where oil can pool as the aeroplane stands.",
	fields: []field{
		{from: &cylindersField},
		{name: "seen", is: "view", label: "Seen from", kind: option, choices: []choice{{"cockpit", "The cockpit"}, {"propeller", "The propeller"}}},
		{name: "numbered", is: "numbering", label: "The numbers run", kind: option, choices: []choice{{"clockwise", "Clockwise"}, {"anticlockwise", "Anticlockwise"}}},
		{name: "no1", is: "no. 1", label: "No. 1 stands", units: angles, without: "No. 1 not given: at the top.", hint: "Degrees clockwise from the top, as seen."},
		{name: "roll", label: "Right wing low", sym: "roll", units: angles, usual: span{-20, 20}, without: "Roll not given: wings level.", hint: "As the pilot sits; left wing low with a minus."},
		{name: "tail", is: "tail-down angle", label: "Tail down", units: angles, usual: span{-5, 20}, without: "Tail not given: level. It never changes which hang, only where the pool lies."},
	},
	source:   "sin elevation = cos(angle + roll) × cos(tail-down), below where it is under 0: geometry.",
	cautions: []string{"Drain the level ones as well: they hold what they hold."},
	work: func(p *Page) error {
		l := ring.Layout{Cylinders: p.count("cylinders"), Seen: ring.FromCockpit, Numbered: ring.Clockwise, Turns: ring.Clockwise, No1: p.angle("no1")}
		if p.chosen("seen") == "propeller" {
			l.Seen = ring.FromPropeller
		}
		if p.chosen("numbered") == "anticlockwise" {
			l.Numbered = ring.Anticlockwise
		}
		r, err := ring.New(l)
		if err != nil {
			return err
		}
		a := ring.Attitude{Roll: p.angle("roll"), TailDown: p.angle("tail")}
		below, err := r.Below(a)
		if err != nil {
			return err
		}
		level, _ := r.Level(a) // the attitude is good
		lowest, _ := r.Lowest(a)
		p.cylinders("Hang below the horizontal", below)
		p.cylinders("Lie level", level)
		p.cylinders("Lowest", lowest)
		var where, up []float64
		for k := 1; k <= r.Cylinders(); k++ {
			e, _ := r.Elevation(k, a)
			at, _ := r.Angle(k, l.Seen)
			where, up = append(where, at.Degrees()), append(up, e.Degrees())
			p.letFig("k", float64(k), 0)
			p.letFig("e", e.Degrees(), 1)
			p.letFig("at", at.Degrees(), 1)
			p.line("{k} of {cylinders}: at {at}°, roll {roll}, tail {tail}, {e}° up")
		}
		p.draw("n", float64(r.Cylinders()))
		p.drawAll("angles", where)
		p.drawAll("elevations", up)
		return nil
	},
}

// cylinders is an answer of cylinders by their numbers.
func (p *Page) cylinders(label string, list []int) {
	if len(list) == 0 {
		p.tell(label, "none", "none")
		return
	}
	p.tell(label, numbers(list), said(list))
}
