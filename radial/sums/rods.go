package sums

import "linkrod/radial/ring"

// The boxes of an engine's rods. Nothing is known of an engine here: all of it is asked.
var (
	cylindersField = field{name: "cylinders", label: "Cylinders", sym: "N", kind: count, usual: span{5, 9}, hint: "5, 7 or 9"}
	masterField    = field{name: "master", is: "master cylinder", label: "Master rod in cylinder", sym: "m", kind: count}
	turnsField     = field{name: "turns", is: "rotation", label: "The crank turns", kind: option, choices: []choice{{"with", "The way the numbers run"}, {"against", "Against the numbers"}}}
	knuckleField   = field{name: "knuckle", label: "Knuckle pin from the crankpin", sym: "ρ", units: sizes, usual: span{1, 4}, hint: "Centre to centre."}
	linkField      = field{name: "link", label: "Link rod", sym: "l", units: sizes, usual: span{3, 16}, hint: "Between the centres of knuckle pin and piston pin."}
	offsetField    = field{name: "offset", label: "Knuckle pin off its cylinder's axis", sym: "ψ − φ", units: angles, usual: span{-10, 10}, without: "Offset of the knuckle pin not given: none, the plain design.", hint: "Positive the way the crank turns."}
)

const rodSource = "a = R cos(θ − φ) + ρ cos(ψ − β − φ), w = R sin(θ − φ) + ρ sin(ψ − β − φ), pin at a + √(l² − w²), sin β = (R/L) sin θ: articulated rod, textbook mechanics."

// rods is the ring and the linkage of the boxes, with all the link rods alike.
func (p *Page) rods() (ring.Ring, ring.Linkage, error) {
	r, err := p.ring()
	if err != nil {
		return ring.Ring{}, ring.Linkage{}, err
	}
	throw := p.length("stroke") / 2
	link := ring.Link{Knuckle: p.length("knuckle"), Length: p.length("link"), Offset: p.angle("offset")}
	rods, err := r.Rods(throw, p.length("rod"), p.count("master"), ring.Alike(r.Cylinders(), link))
	if err != nil {
		return ring.Ring{}, ring.Linkage{}, err
	}
	l, err := ring.NewLinkage(rods)
	if err == nil {
		p.letFig("R", throw.Inches(), 5)
		p.line("R = S/2 = {stroke}/2 = {R} in, L = {rod} in, ρ = {knuckle} in, l = {link} in")
		p.draw("n", float64(r.Cylinders()))
		p.draw("master", p.number("master"))
		p.draw("throw", throw.Inches())
		p.draw("rod", p.length("rod").Inches())
		p.draw("knuckle", link.Knuckle.Inches())
		p.draw("link", link.Length.Inches())
	}
	return r, l, err
}

// ring is the ring of the boxes, numbered clockwise; only whether the crank turns the same
// way matters to what is reckoned from it.
func (p *Page) ring() (ring.Ring, error) {
	turns := ring.Clockwise
	if p.chosen("turns") == "against" {
		turns = ring.Anticlockwise
	}
	return ring.New(ring.Layout{Cylinders: p.count("cylinders"), Seen: ring.FromCockpit, Numbered: ring.Clockwise, Turns: turns})
}
