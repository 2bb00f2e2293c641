package ring

import (
	"math"

	"linkrod/radial/quantity"
)

// Slope is travel for crank angle, in inches for a degree: what a degree of error in
// timing is in travel, and the lever between a force on the piston and a torque on the
// shaft.
type Slope float64

// InchesPerDegree is the slope in inches of travel for a degree of crank.
func (s Slope) InchesPerDegree() float64 { return float64(s) }

// PerRadian is the travel for a radian of crank: the arm at which the piston's force
// turns the shaft.
func (s Slope) PerRadian() quantity.Length { return quantity.Length(float64(s) * 180 / math.Pi) }

// Torque is the torque on the shaft of a force on the piston. No work is lost, so
//
//	T dθ = F dx,  T = F dx/dθ
//
// Friction is left out. At the top the slope is 0 and so is the torque, whatever the
// force: that is why a cylinder under pressure seems to stand still there, and why it
// does not stay.
func (s Slope) Torque(f quantity.Force) quantity.Torque {
	return quantity.Torque(f.PoundsForce() * s.PerRadian().Inches())
}

// Force is the force on the piston that a torque on the shaft makes, if that one piston
// takes all of it: F = T/(dx/dθ). Towards the top it grows without bound; at a slope
// of 0 it is infinite.
func (s Slope) Force(t quantity.Torque) quantity.Force {
	return quantity.Force(t.InchPounds() / s.PerRadian().Inches())
}
