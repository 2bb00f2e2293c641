package ignition

import (
	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

// A magneto's magnet pulls itself to neutral, where its poles face the pole shoes and no
// flux goes through the coil. Turned on in its running direction the flux breaks over, and
// some degrees past neutral, the E-gap, the coil gives most; there the points have to open.
// The maker gives the angle at the magnet. What turns the other way, or is measured to the
// next neutral, is refused.

// EGapAtCrank is the E-gap in degrees of crank. speed is the rotor's share of the crank's
// (ring.Magneto).
//
//	e / speed
//
// 10° at the magnet of a seven with four sparks to a turn, 7/8, is 11.4° of crank.
func EGapAtCrank(e quantity.Angle, speed ring.Ratio) (quantity.Angle, error) {
	if err := first(rotor(speed), eGap(e)); err != nil {
		return 0, err
	}
	return e / quantity.Angle(speed.Float()), nil
}

// NeutralAt is where the magnet must stand in neutral for its points to open so many degrees
// of crank before the top: the E-gap earlier.
func NeutralAt(opens, e quantity.Angle, speed ring.Ratio) (quantity.Angle, error) {
	at, err := EGapAtCrank(e, speed)
	if err == nil && !finite(opens) {
		err = problem("opening", "Where the points open must be a number of degrees before the top.")
	}
	return opens + at, err
}

// EGapFound is the E-gap of a magneto on its engine, from a disc on the crank: where the
// magnet fell into neutral and where the points opened, both in degrees before the top.
// Between them the crank went on, so neutral is the larger.
//
//	(neutral − opens) × speed
func EGapFound(neutral, opens quantity.Angle, speed ring.Ratio) (quantity.Angle, error) {
	if err := rotor(speed); err != nil {
		return 0, err
	}
	if !(finite(neutral) && neutral > opens) {
		return 0, problem("neutral", "Neutral is "+angle(neutral)+" before the top and the points open at "+angle(opens)+". In the running direction neutral comes first, at more degrees before the top.")
	}
	e := (neutral - opens) * quantity.Angle(speed.Float())
	return e, eGap(e)
}

func rotor(speed ring.Ratio) error {
	if geared(speed) {
		return nil
	}
	return problem("magneto speed", "The magneto's share of the crank's speed is "+speed.String()+". Both numbers must be above 0.")
}

// eGap refuses what lies beyond the next neutral of even a two-pole magnet's half way.
func eGap(e quantity.Angle) error {
	if e > 0 && e < 90 {
		return nil
	}
	return problem("E-gap", "The E-gap is "+angle(e)+" at the magnet. It must be more than 0° and less than 90°; the maker gives it.")
}
