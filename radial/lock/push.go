package lock

import (
	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

// Push is a hand on a blade.
type Push struct {
	Force quantity.Force
	Arm   quantity.Length // from the shaft's centre to the hand
	Gear  ring.Ratio      // Direct, or crank turns for one of the propeller
}

// Torque is the torque the push makes at the crankshaft: force × arm / G. Through a gear
// the crank turns more than the propeller and so has less torque.
func (p Push) Torque() (quantity.Torque, error) {
	err := first(above("push", p.Force.PoundsForce(), quantity.UnitLbf), above("arm", p.Arm.Inches(), quantity.UnitIn),
		Propeller{Blades: 1, Gear: p.Gear}.check())
	if err != nil {
		return 0, err
	}
	return quantity.Torque(p.Force.PoundsForce() * p.Arm.Inches() / p.Gear.Float()), nil
}

// OnPiston is the force that the push puts on a piston which takes all of it, so many
// degrees before its top: T/(dx/dθ), the crank and rod being a toggle that grows without
// bound towards the top. No friction, no help from the propeller's swing, which only adds
// to it: a blade moving carries far more than a hand does.
//
// It is why the pull-through detects and does not clear. A push of 60 lb at 4 ft is some
// 1,900 lb on the piston 30° before its top and 5,300 lb at 10°.
func (p Push) OnPiston(piston ring.Piston, before quantity.Angle) (quantity.Force, error) {
	t, err := p.Torque()
	if err != nil {
		return 0, err
	}
	return Toggle(t, piston, before)
}

// Toggle is the force that a torque on the crankshaft puts on one piston so many degrees
// before its top.
func Toggle(t quantity.Torque, piston ring.Piston, before quantity.Angle) (quantity.Force, error) {
	if err := above("torque", t.InchPounds(), quantity.UnitInLb); err != nil {
		return 0, err
	}
	slope := piston.SlopeBeforeTop(before)
	if !(before > 0 && before < 180) || !(slope > 0) {
		return 0, problem("angle before the top", "The angle is ", quantity.Computed(before.Degrees(), 1, quantity.UnitDeg), " before the top. It must be more than 0, where the force has no bound, and short of the bottom.")
	}
	return slope.Force(t), nil
}
