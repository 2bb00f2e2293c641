package compression

import (
	"math"

	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

// PistonForce is what the air pushes on the piston with: p × π/4 bore². The other side of
// the piston is at the pressure of the air, so a gauge pressure is meant. It is the hazard
// figure of the check: 80 psi on 5.375 in is 1815 lb.
func PistonForce(bore quantity.Length, p quantity.Pressure) (quantity.Force, error) {
	if err := first(aboveLength("bore", bore), abovePressure("pressure", p)); err != nil {
		return 0, err
	}
	return p.On(quantity.Circle(bore)), nil
}

// HoldingTorque is what must be held at the crankshaft when the piston is so many degrees
// from its own top, before it or, with a minus, after it: force × dx/dθ. Before the top the
// air turns the shaft backwards, after it forwards. At the top it is 0 whatever the
// pressure, which is why the place feels safe and does not stay so.
//
// The piston is one of ring's: a plain crank by ring.NewCrank, or a link cylinder with its
// own top. Friction is left out; it helps the hand a little and is not to be counted on.
func HoldingTorque(piston ring.Piston, bore quantity.Length, p quantity.Pressure, off quantity.Angle) (quantity.Torque, error) {
	f, err := PistonForce(bore, p)
	if err != nil {
		return 0, err
	}
	if !(math.Abs(off.Degrees()) < 180) {
		return 0, problem("angle off the top", "The crank is ", quantity.Computed(off.Degrees(), 1, quantity.UnitDeg), " off the top. It must be less than 180°, before the top or after it.")
	}
	t := piston.SlopeBeforeTop(off).Torque(f)
	if math.IsNaN(float64(t)) {
		return 0, problem("piston", "No crank and rod are given.")
	}
	return quantity.Torque(math.Abs(t.InchPounds())), nil
}

// AtBlade is the force at a hand on the blade, so far from the shaft's centre, that holds a
// torque at the crankshaft. Through a gear the propeller turns slower and harder:
//
//	torque × G/arm        G crank turns for one of the propeller, 1 direct
func AtBlade(t quantity.Torque, arm quantity.Length, gear ring.Ratio) (quantity.Force, error) {
	if err := aboveLength("arm", arm); err != nil {
		return 0, err
	}
	if !(t >= 0) || math.IsInf(float64(t), 0) {
		return 0, problem("torque", "The torque to hold is ", quantity.Computed(t.InchPounds(), 1, quantity.UnitInLb), ". It must be 0 or more.")
	}
	if gear.Den < 1 || gear.Num < gear.Den {
		return 0, problem("gear", "The gear is not crank turns to propeller turns. It is 1 to 1 for a propeller on the crankshaft, or more.")
	}
	return quantity.Force(t.InchPounds() * gear.Float() / arm.Inches()), nil
}
