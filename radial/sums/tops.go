package sums

import (
	"math"
	"strconv"

	"linkrod/radial/lock"
	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

var tops = sum{
	id: "tops", title: "True tops of every cylinder", drawing: "rods",
	what: "How late and how low each piston comes to its top, and what room it leaves.",
	fields: []field{
		{from: &cylindersField}, {from: &masterField}, {from: &turnsField}, {from: &strokeField}, {from: &rodField}, {from: &knuckleField}, {from: &linkField},
		{name: "at", label: "Master before its top", sym: "n", units: angles, usual: span{-360, 360}, without: "Place of the crank not given: tops only.", hint: "To see where every other piston stands then."},
		{from: &boreField, without: "Bore not given: no clearance volumes."},
		{name: "ratio", is: "compression ratio", label: "Compression ratio of the master", sym: "CR", kind: number, with: "bore", usual: span{4, 10}, without: "Ratio not given: no clearance volumes."},
	},
	source:   rodSource + " Mirror of k: 2m − k, round the ring.",
	cautions: []string{"All link rods alike, their pins on the cylinders' axes: makers differ, and even the tops out.", "Compare a cylinder with its mirror and with this engine's own earlier readings, never with the average."},
	work: func(p *Page) error {
		r, l, err := p.rods()
		if err != nil {
			return err
		}
		chambers := make([]ring.Chamber, r.Cylinders())
		room := p.has("bore") && p.has("ratio")
		if room {
			if chambers, err = l.Chambers(p.length("bore"), p.number("ratio")); err != nil {
				return err
			}
			p.line("clearance volume of k = Vs/(CR − 1) − π/4 bore² × height, bore {bore} in, CR {ratio} on the master")
		}
		p.line("mirror of k = 2 × {master} − k, counted round {cylinders}")
		if p.has("at") {
			p.line("the crank {at} before the master's top")
		}
		past := l.FromTops(-p.angle("at"))
		var shifts, heights []float64
		for i, piston := range l.Pistons() {
			top := piston.Top()
			shifts, heights = append(shifts, top.Shift.Degrees()), append(heights, top.Height.Inches())
			mirror, _ := r.Mirror(i+1, l.Master()) // both are there
			shift, late := bySide(top.Shift, "late", "early")
			out := join(shift, late, ", "+quantity.Computed(top.Height.Inches(), 4, quantity.UnitIn)+", stroke "+quantity.Computed(piston.Stroke().Inches(), 4, quantity.UnitIn))
			if mirror != i+1 {
				out += ", mirror " + strconv.Itoa(mirror)
			}
			if p.has("at") {
				now, side := bySide(past[i], "after its top", "before its top")
				out += join(", now "+now, side, "")
			}
			if room {
				out += ", room " + lock.Held(chambers[i].Clearance) + ", " + quantity.Figure(chambers[i].Ratio(), 2) + " to 1"
			}
			p.tell("Cylinder "+strconv.Itoa(i+1), out, topWords(top, late))
		}
		p.drawAll("shifts", shifts)
		p.drawAll("heights", heights)
		return nil
	},
}

// topWords is a top as it is read out: how late, and how low.
func topWords(top ring.DeadCentre, late string) string {
	deg, _ := quantity.DecimalOf(math.Abs(top.Shift.Degrees()), 1) // rods that go round have figures that can be shown
	low, _ := quantity.DecimalOf(math.Abs(top.Height.Thou()), 0)
	side := " below the master's"
	if top.Height > 0 {
		side = " above the master's"
	}
	return join(quantity.Measured{Value: deg.Shortest(), Unit: quantity.UnitDeg}.Words(), late, ", "+low.Words()+" thou"+side)
}

// join puts a word between two parts, if there is one.
func join(before, word, after string) string {
	if word != "" {
		before += " " + word
	}
	return before + after
}
