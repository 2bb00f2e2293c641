package ring

import (
	"math"
	"strconv"

	"linkrod/radial/quantity"
)

// area is the area of a bore in square inches: π/4 × bore².
func area(bore quantity.Length) float64 {
	return math.Pi / 4 * bore.Inches() * bore.Inches()
}

// Swept is the volume one piston sweeps: π/4 × bore² × stroke.
func Swept(bore, stroke quantity.Length) (quantity.Volume, error) {
	if err := first(positiveLength("bore", bore), positiveLength("stroke", stroke)); err != nil {
		return 0, err
	}
	return quantity.Volume(area(bore) * stroke.Inches()), nil
}

// Displacement is the volume all the pistons sweep, reckoned as the trade and every
// data plate do, with twice the throw for every stroke:
//
//	π/4 × bore² × stroke × N
//
// Link cylinders go a little farther (Linkage.Displacement), some 0.3 %. The count
// may be any: twin rows of fourteen are reckoned the same way.
//
// Source: FAA-H-8083-32, piston displacement.
func Displacement(bore, stroke quantity.Length, cylinders int) (quantity.Volume, error) {
	each, err := Swept(bore, stroke)
	if err := first(err, count("cylinders", cylinders)); err != nil {
		return 0, err
	}
	return each * quantity.Volume(cylinders), nil
}

// StrokeBetween is the stroke from how far the piston crown is from any one fixed
// point, such as the plug hole's face or the lip of the barrel, at its top and at
// its bottom. The depth of a cylinder is not its stroke.
func StrokeBetween(atTop, atBottom quantity.Length) (quantity.Length, error) {
	s := quantity.Length(math.Abs(float64(atTop - atBottom)))
	if err := positiveLength("stroke", s); err != nil {
		return 0, err
	}
	return s, nil
}

// Designation is the number in the name of an engine of this displacement: cubic
// inches to the nearest 5, halves up. Names follow it loosely (986.8 is called 985,
// 971.9 is called 975), so a name is within 5 of the displacement and never gives it.
//
// Source: common practice, no source.
func Designation(v quantity.Volume) (int, error) {
	if err := positiveVolume("displacement", v); err != nil {
		return 0, err
	}
	return 5 * int(math.Floor(v.CubicInches()/5+0.5)), nil
}

// CompressionRatio is the volume above the piston at its bottom over that at its top,
// plugs in and valves shut.
//
//	CR = (Vs + Vc)/Vc
func CompressionRatio(swept, clearance quantity.Volume) (float64, error) {
	if err := first(positiveVolume("swept volume", swept), positiveVolume("clearance volume", clearance)); err != nil {
		return 0, err
	}
	return float64((swept + clearance) / clearance), nil
}

// Clearance is the clearance volume that a compression ratio leaves.
//
//	Vc = Vs/(CR − 1)
func Clearance(swept quantity.Volume, compressionRatio float64) (quantity.Volume, error) {
	if err := first(positiveVolume("swept volume", swept), ratioAboveOne(compressionRatio)); err != nil {
		return 0, err
	}
	return swept / quantity.Volume(compressionRatio-1), nil
}

// Chamber is the volumes of one cylinder with its own top and its own stroke.
type Chamber struct {
	Swept, Clearance quantity.Volume
}

// Ratio is the compression ratio.
func (c Chamber) Ratio() float64 { return float64((c.Swept + c.Clearance) / c.Clearance) }

// Chamber is the piston's own swept and clearance volumes when the head and the crown
// are the same as the master's, whose clearance volume is given: a lower top leaves
// more above it.
//
//	Vcₖ = Vc − bore area × height of the top over the master's
//
// It refuses a piston that would touch the head.
func (p Piston) Chamber(bore quantity.Length, mastersClearance quantity.Volume) (Chamber, error) {
	if err := first(positiveLength("bore", bore), positiveVolume("clearance volume", mastersClearance)); err != nil {
		return Chamber{}, err
	}
	c := Chamber{
		Swept:     quantity.Volume(area(bore) * p.Stroke().Inches()),
		Clearance: mastersClearance - quantity.Volume(area(bore)*p.Top().Height.Inches()),
	}
	if !(c.Clearance > 0) {
		return Chamber{}, problem("clearance volume", "The piston of cylinder ", strconv.Itoa(p.cylinder), " comes ", length(p.Top().Height), " higher than the master's, which is all the room there is above it. Head and piston cannot be the same there.")
	}
	return c, nil
}

// Chambers is the volumes of every cylinder, with the same heads and pistons all
// round and the given compression ratio in the master cylinder; cylinder k is entry
// k−1. With plain rods (l = L − ρ) they differ: 6.1 on the master may be 5.7 elsewhere.
func (l Linkage) Chambers(bore quantity.Length, mastersRatio float64) ([]Chamber, error) {
	if err := positiveLength("bore", bore); err != nil {
		return nil, err
	}
	master := l.pistons[l.master-1]
	clearance, err := Clearance(quantity.Volume(area(bore)*master.Stroke().Inches()), mastersRatio)
	if err != nil {
		return nil, err
	}
	list := make([]Chamber, len(l.pistons))
	for i, p := range l.pistons {
		if list[i], err = p.Chamber(bore, clearance); err != nil {
			return nil, err
		}
	}
	return list, nil
}

// Displacement is the volume all the pistons sweep, each with its own stroke.
func (l Linkage) Displacement(bore quantity.Length) (quantity.Volume, error) {
	if err := positiveLength("bore", bore); err != nil {
		return 0, err
	}
	var strokes quantity.Length
	for _, p := range l.pistons {
		strokes += p.Stroke()
	}
	return quantity.Volume(area(bore) * strokes.Inches()), nil
}
