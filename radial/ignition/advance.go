package ignition

import (
	"math"
	"strconv"

	"linkrod/radial/quantity"
)

// AdvancePoint is one line of a battery distributor's advance table: so many degrees of
// crank before the top at so many rpm of crank.
type AdvancePoint struct {
	Speed   quantity.Speed
	Advance quantity.Angle
}

// AdvanceCurve is how the weights of a battery distributor move the spark: retarded for
// the start, full from some speed up. It is made by NewAdvanceCurve from the maker's
// table.
type AdvanceCurve struct {
	points []AdvancePoint
}

// NewAdvanceCurve is the curve through a table. The speeds must rise, and the advance
// must not fall, as weights only ever fly outward. One line is a fixed spark.
func NewAdvanceCurve(points ...AdvancePoint) (AdvanceCurve, error) {
	if len(points) == 0 {
		return AdvanceCurve{}, problem("table", "The advance table is empty. It takes rpm and degrees, slowest first.")
	}
	for i, p := range points {
		field := "line " + strconv.Itoa(i+1)
		switch {
		case !(p.Speed >= 0) || !finite(p.Speed):
			return AdvanceCurve{}, problem(field, "The speed is "+rpm(p.Speed)+". It must be 0 or more.")
		case !(math.Abs(p.Advance.Degrees()) <= most):
			return AdvanceCurve{}, problem(field, "The advance is "+angle(p.Advance)+". It must be from −"+strconv.Itoa(most)+"° to "+strconv.Itoa(most)+"° of crank. A table in distributor degrees is FromDistributor's.")
		case i > 0 && p.Speed <= points[i-1].Speed:
			return AdvanceCurve{}, problem(field, "The speed is "+rpm(p.Speed)+" after "+rpm(points[i-1].Speed)+". The table goes from slow to fast.")
		case i > 0 && p.Advance < points[i-1].Advance:
			return AdvanceCurve{}, problem(field, "The advance falls from "+angle(points[i-1].Advance)+" to "+angle(p.Advance)+". Weights move the spark one way, so it must not fall.")
		}
	}
	return AdvanceCurve{append([]AdvancePoint(nil), points...)}, nil
}

// At is the advance at a crank speed: straight between the lines of the table, the first
// line's below it and the last line's above it.
func (c AdvanceCurve) At(n quantity.Speed) (quantity.Angle, error) {
	switch {
	case len(c.points) == 0:
		return 0, problem("table", "There is no advance table for this distributor.")
	case !(n >= 0) || !finite(n):
		return 0, problem("speed", "The speed is "+rpm(n)+". It must be 0 or more.")
	}
	before := c.points[0]
	for _, p := range c.points {
		if n < p.Speed {
			if p == c.points[0] {
				break
			}
			share := quantity.Angle((n - before.Speed) / (p.Speed - before.Speed))
			return before.Advance + share*(p.Advance-before.Advance), nil
		}
		before = p
	}
	return before.Advance, nil
}

// Full is the full advance, and the speed from which there is no more to come.
func (c AdvanceCurve) Full() AdvancePoint {
	var full AdvancePoint
	for i, p := range c.points {
		if i == 0 || p.Advance > full.Advance {
			full = p
		}
	}
	return full
}

// FromDistributor is degrees of crank from degrees of a distributor, which turns half as
// fast: twice as many. Tables are printed in either; one that is taken for the other
// is half or double the advance.
func FromDistributor(a quantity.Angle) quantity.Angle { return 2 * a }
