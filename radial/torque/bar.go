package torque

import (
	"math"

	"linkrod/radial/quantity"
)

// Pull is the force square to a bar, so far out from the centre of the nut, that makes
// the torque: F = T/arm. A propeller nut of 450 ft-lb wants 150 lb at the end of a 3 ft
// bar.
func Pull(t quantity.Torque, arm quantity.Length) (quantity.Force, error) {
	if err := first(aboveTorque("torque", t), aboveLength("bar", arm)); err != nil {
		return 0, err
	}
	return quantity.Force(t.InchPounds() / arm.Inches()), nil
}

// PullGives is the torque of a force square to a bar: T = F × arm.
func PullGives(f quantity.Force, arm quantity.Length) (quantity.Torque, error) {
	if err := first(aboveForce("pull", f), aboveLength("bar", arm)); err != nil {
		return 0, err
	}
	return quantity.Torque(f.PoundsForce() * arm.Inches()), nil
}

// Bar is a bar on a nut that a person leans on with their weight. Its own weight is
// left out: it adds half its length times what it weighs, and a 3 ft pipe of 10 lb is
// 15 ft-lb.
type Bar struct {
	Length quantity.Length // from the centre of the nut to its end
	Slope  quantity.Angle  // how far it stands from level, either way, 0 to under 90
}

func (b Bar) check() error {
	if err := aboveLength("bar", b.Length); err != nil {
		return err
	}
	if !(b.Slope >= 0 && b.Slope < 90) {
		return problem("slope", "The bar slopes ", quantity.Computed(b.Slope.Degrees(), 1, quantity.UnitDeg),
			" from level. It must be from 0° to under 90°, where a weight turns nothing.")
	}
	return nil
}

func aboveMass(m quantity.Mass) error {
	if positive(m) {
		return nil
	}
	return problem("weight", "The weight is ", quantity.Computed(m.Pounds(), 1, quantity.UnitLb), ". It must be above 0.")
}

// WeightGives is the torque of a body's weight put gently on the bar, so far out from
// the nut: T = W x cos(slope). Dropped on it is double, and a bounce is anything.
func (b Bar) WeightGives(weight quantity.Mass, out quantity.Length) (quantity.Torque, error) {
	if err := first(b.check(), aboveMass(weight), aboveLength("distance out", out)); err != nil {
		return 0, err
	}
	if out > b.Length {
		return 0, problem("distance out", "The weight hangs ", inches(out), " out on a bar of ", inches(b.Length), ".")
	}
	return quantity.Torque(weight.Weight().PoundsForce() * out.Inches() * math.Cos(b.Slope.Radians())), nil
}

// WeightAt is how far out along the bar a body's weight makes the torque, the inverse of
// WeightGives. It refuses a bar that is too short, and says how long it would have to be.
//
// A person's weight is no torque wrench: boots on the ground, a hand on the blade, a bar
// that is not level. It is for knowing beforehand whether bar and body can do it at all,
// and what a figure on the sheet feels like.
func (b Bar) WeightAt(t quantity.Torque, weight quantity.Mass) (quantity.Length, error) {
	if err := first(b.check(), aboveTorque("torque", t), aboveMass(weight)); err != nil {
		return 0, err
	}
	out := quantity.Length(t.InchPounds() / (weight.Weight().PoundsForce() * math.Cos(b.Slope.Radians())))
	if out > b.Length {
		return 0, problem("bar", "The bar is ", quantity.Figure(b.Length.Feet(), 2), " ft long. ", quantity.Computed(weight.Pounds(), 0, quantity.UnitLb),
			" would have to hang ", quantity.Figure(out.Feet(), 2), " ft out. Take a longer bar.")
	}
	return out, nil
}
