package quantity

import "math"

// Speed is a speed of rotation in revolutions per minute.
type Speed float64

// RPM is one revolution per minute.
const RPM Speed = 1

// RPM is the speed in revolutions per minute.
func (s Speed) RPM() float64 { return float64(s) }

// RadiansPerSecond is the speed in radians per second, which is not exact:
// 2π/60 never ends.
func (s Speed) RadiansPerSecond() float64 { return float64(s) * 2 * math.Pi / 60 }

// Speed is the value as a Speed. It refuses another kind of quantity.
func (m Measured) Speed() (Speed, error) { v, err := m.float(DimSpeed); return Speed(v), err }

// Angle is an angle in degrees, since every protractor and timing disc is
// divided in them: 25 degrees stays 25. Radians are a rounding away and are not
// a unit that a reading can have: 180 degrees are π to the last bit, but 1.5
// degrees in radians and back is 1.5000000000000002.
type Angle float64

// Units of angle.
const (
	Degree     Angle = 1
	Radian     Angle = 180 / math.Pi
	Revolution Angle = 360
)

// Degrees is the angle in degrees.
func (a Angle) Degrees() float64 { return float64(a) }

// Radians is the angle in radians.
func (a Angle) Radians() float64 { return float64(a) * (math.Pi / 180) }

// Angle is the value as an Angle. It refuses another kind of quantity.
func (m Measured) Angle() (Angle, error) { v, err := m.float(DimAngle); return Angle(v), err }
