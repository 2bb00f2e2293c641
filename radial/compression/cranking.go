package compression

import (
	"strconv"

	"linkrod/radial/quantity"
)

// Cranked is a cranking check: what each cylinder pumps up at the starter's speed.
type Cranked struct {
	Average quantity.Pressure // of all cylinders, the low ones with them; for showing
	// Low are the cylinders 20 per cent or more below the average, and Under those below
	// the maker's minimum.
	Low, Under []int
}

// lowShare is the share of the average at which a cylinder is low.
var lowShare = quantity.MustDecimal("0.8")

// Cranking averages a cranking check and finds the cylinders to look at: those 20 per cent
// below the average, that figure itself included, and those below the maker's minimum, the
// minimum itself passing. The minimum may be not given. All are compared as typed, with no
// rounded average in between.
//
//	v ≤ 0.8 × (v₁ + … + v_N)/N
//
// Source: US Army TM 1-1500-204-23-1. All warmed up, throttle open, fuel off, ignition
// grounded, four turns at least; a tester needs two impulses. What is found is looked at:
// clearance, a valve held open, oil squirted in, and taken again before anything else. The
// pressures depend on speed, warmth and altitude, so only the cylinders of one check
// compare.
func Cranking(readings []quantity.Measured, minimum quantity.Measured) (Cranked, error) {
	n := len(readings)
	if n < 2 {
		return Cranked{}, problem("readings", "There are ", strconv.Itoa(n), " readings. An average needs all the cylinders.")
	}
	if minimum.Given() {
		if err := pressure("minimum", minimum); err != nil {
			return Cranked{}, err
		}
	}
	var c Cranked
	sum := quantity.Measured{Unit: readings[0].Unit}
	for i, r := range readings {
		field := "cylinder " + strconv.Itoa(i+1)
		if err := pressure(field, r); err != nil {
			return Cranked{}, err
		}
		if r.Unit != sum.Unit {
			return Cranked{}, problem(field, "Cylinder ", strconv.Itoa(i+1), " is in ", r.Unit.Plural(), " and cylinder 1 in ", sum.Unit.Plural(), ". Give all of them in one unit.")
		}
		var err error
		if sum, err = quantity.Add(sum, r); err != nil {
			return Cranked{}, problem(field, err.Error())
		}
	}
	all, _ := sum.Pressure() // every reading is one
	c.Average = all / quantity.Pressure(n)
	share, err := sum.Value.Mul(lowShare)
	if err != nil {
		return Cranked{}, problem("readings", err.Error())
	}
	for i, r := range readings {
		times, err := r.Value.Mul(quantity.Whole(n))
		if err != nil {
			return Cranked{}, problem("cylinder "+strconv.Itoa(i+1), err.Error())
		}
		if !over(quantity.Measured{Value: times, Unit: r.Unit}, quantity.Measured{Value: share, Unit: sum.Unit}) {
			c.Low = append(c.Low, i+1)
		}
		if minimum.Given() && over(minimum, r) {
			c.Under = append(c.Under, i+1)
		}
	}
	return c, nil
}
