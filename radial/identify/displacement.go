package identify

import (
	"math"

	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

// Size is a bore and a stroke as they were measured, with how far off each may be.
type Size struct {
	Bore, Stroke             quantity.Length
	BoreWithin, StrokeWithin quantity.Length // either way; 0 for exact
	Cylinders                int
}

// Match is how a measured displacement compares with a known one.
type Match uint8

// The matches.
const (
	No  Match = iota // not within the tolerance, whatever the true bore and stroke
	May              // within it for some of what they may be
	Yes              // within it for all of what they may be
)

// Tolerance is how far a displacement may be from a published one and be the same: half a
// per cent, for what makers and copyists round. Common practice, no source.
const Tolerance = 0.005

// Between is the least and the most the displacement can be.
//
//	N × π/4 × (bore ± b)² × (stroke ± s)
//
// A bore to 0.001 in is nothing here. A stroke felt with a probe through a plug hole is
// good to 1/16 in, and on a 5 in stroke that is 1.2 %, more than the Tolerance: it can
// rule an engine out and not in.
func (s Size) Between() (low, high quantity.Volume, err error) {
	for _, off := range []quantity.Length{s.BoreWithin, s.StrokeWithin} {
		if !(off >= 0) || math.IsInf(float64(off), 0) {
			return 0, 0, problem("within", "How far off a measurement may be must be a length of 0 or more.")
		}
	}
	low, err1 := ring.Displacement(s.Bore-s.BoreWithin, s.Stroke-s.StrokeWithin, s.Cylinders)
	high, err2 := ring.Displacement(s.Bore+s.BoreWithin, s.Stroke+s.StrokeWithin, s.Cylinders)
	if err := first(err1, err2); err != nil {
		return 0, 0, err
	}
	return low, high, nil
}

// Match is how the size compares with a known displacement.
func (s Size) Match(known quantity.Volume) (Match, error) {
	low, high, err := s.Between()
	if err != nil {
		return No, err
	}
	if !(known > 0) || math.IsInf(float64(known), 0) {
		return No, problem("known displacement", "The known displacement is "+quantity.Computed(known.CubicInches(), 1, quantity.UnitCuIn)+". It must be more than 0.")
	}
	least, most := known*(1-Tolerance), known*(1+Tolerance)
	switch {
	case high < least || low > most:
		return No, nil
	case low >= least && high <= most:
		return Yes, nil
	}
	return May, nil
}

// StrokeByProbe is the stroke from how deep a soft probe goes through a plug hole at the
// piston's top and at its bottom, when the hole is inclined to the cylinder's axis: the
// probe goes down its own line, and the piston along the axis.
//
//	stroke = |difference| × cos inclination
//
// Plugs out of all cylinders, wood or plastic and never steel, and turned in the
// direction of rotation only. On a link cylinder the stroke is a little longer than
// twice the throw; the master's is the one that names are made from.
func StrokeByProbe(atTop, atBottom quantity.Length, inclination quantity.Angle) (quantity.Length, error) {
	if a := inclination.Degrees(); !(a >= 0 && a < 60) {
		return 0, problem("inclination", "The plug hole is inclined "+quantity.Computed(a, 1, quantity.UnitDeg)+" to the cylinder. It must be from 0° to less than 60°.")
	}
	s, err := ring.StrokeBetween(atTop, atBottom)
	return s * quantity.Length(math.Cos(inclination.Radians())), err
}
