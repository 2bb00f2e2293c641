package ignition

import (
	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

// Stop is a true top found with a positive stop: something in the plug hole that halts
// the piston below its top, from both sides.
type Stop struct {
	// Halfway is where halving puts the top, after the disc's zero.
	Halfway quantity.Angle
	// Top is where the piston's own top is, after the disc's zero. On the master it is
	// Halfway. On a link cylinder the way up is not the mirror of the way down, and
	// halving is off by a fraction of a degree, more the farther down the stop holds.
	Top quantity.Angle
	// Travel is how far below its top the stop holds the piston.
	Travel quantity.Length
}

// Halve is where the top is on the disc, midway between the two readings: before is how
// many degrees before the disc's zero the stop is met, after how many after it. It goes
// for the master cylinder, and for another only as PositiveStop says.
//
//	top = (after − before)/2
//
// 38.0 before and 36.5 after put the top 0.75° before the zero: move the disc by that.
func Halve(before, after quantity.Angle) (quantity.Angle, error) {
	if sum := before + after; !(sum > 0 && sum < 360) {
		return 0, problem("stop", "The stop is met "+angle(before)+" before the zero and "+angle(after)+" after it, "+angle(sum)+" apart. That must be more than 0° and less than a turn.")
	}
	return (after - before) / 2, nil
}

// PositiveStop is the true top of one piston from the disc's readings at the stop. The
// stop is met at the same travel on both sides, whatever the angles:
//
//	travel(before top) = travel(after top),  their sum = before + after
//
// which is solved for the travel; for the master both are half the sum.
func PositiveStop(p ring.Piston, before, after quantity.Angle) (Stop, error) {
	halfway, err := Halve(before, after)
	if err != nil {
		return Stop{}, err
	}
	swing := before + after
	lo, hi := quantity.Length(0), p.Stroke()
	for range 60 { // halvings, to the last bit; the swing grows with the travel
		mid := (lo + hi) / 2
		if up, down := reach(p, mid); up+down < swing {
			lo = mid
		} else {
			hi = mid
		}
	}
	_, down := reach(p, hi)
	return Stop{Halfway: halfway, Top: after - down, Travel: hi}, nil
}

// reach is how many degrees before and after its top a piston is so far below it.
func reach(p ring.Piston, travel quantity.Length) (up, down quantity.Angle) {
	up, _ = p.Degrees(travel) // the travel is within the stroke
	down, _ = p.DegreesAfter(travel)
	return up, down
}

// AtCrank is the degrees of crank of a disc on the propeller shaft, gear being crank
// turns for one of the propeller. On a direct engine they are the same.
func AtCrank(disc quantity.Angle, gear ring.Ratio) (quantity.Angle, error) {
	if gear.Den < 1 || gear.Num < gear.Den {
		return 0, problem("gear", "The gear is "+gear.String()+". It is crank turns for one of the propeller, 1 or more.")
	}
	return disc * quantity.Angle(gear.Float()), nil
}
