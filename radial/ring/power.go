package ring

import (
	"math"
	"strconv"

	"linkrod/radial/quantity"
)

// ftLbPerMinute is one horsepower in foot pounds a minute, exact by definition.
const ftLbPerMinute = 33000

// FeetPerMinute is the speed of a piston.
type FeetPerMinute float64

// FeetPerMinute is the speed in feet a minute.
func (v FeetPerMinute) FeetPerMinute() float64 { return float64(v) }

// MetresPerSecond is the speed in metres a second: 1 ft = 0.3048 m exactly.
func (v FeetPerMinute) MetresPerSecond() float64 { return float64(v) * 0.3048 / 60 }

// MeanPistonSpeed is two strokes for every turn: stroke in inches × rpm / 6.
func MeanPistonSpeed(stroke quantity.Length, n quantity.Speed) (FeetPerMinute, error) {
	if err := first(positiveLength("stroke", stroke), positiveSpeed(n)); err != nil {
		return 0, err
	}
	return FeetPerMinute(2 * stroke.Feet() * n.RPM()), nil
}

// Cycle is how many turns of the crank a cylinder needs for each of its firings.
type Cycle int

// Every engine this program is for is a four-stroke. The other is here because its
// constants stand beside ours in the books, and give half the pressure.
const (
	TwoStroke  Cycle = 1
	FourStroke Cycle = 2
)

func (c Cycle) check() error {
	if c == TwoStroke || c == FourStroke {
		return nil
	}
	return problem("cycle", "The engine is a four-stroke (two turns to a firing) or a two-stroke (one turn), not ", strconv.Itoa(int(c)), " turns.")
}

// BMEP is the brake mean effective pressure: the steady pressure on the pistons'
// power strokes that would give the power.
//
//	BMEP = 792 000 × hp / (displacement in cu in × rpm)    for a four-stroke
//
// since PLANK says hp = P L A N K / 33 000 with L in feet and rpm/2 firings a minute.
func BMEP(p quantity.Power, displacement quantity.Volume, n quantity.Speed) (quantity.Pressure, error) {
	t, err := TorqueFrom(p, n)
	if err != nil {
		return 0, err
	}
	return BMEPFromTorque(t, displacement, FourStroke)
}

// BMEPFromTorque is the mean effective pressure behind a torque: the work of a cycle
// over the displacement.
//
//	BMEP = 2π × turns × T / D      150.8 × lb-ft / cu in for a four-stroke
func BMEPFromTorque(t quantity.Torque, displacement quantity.Volume, c Cycle) (quantity.Pressure, error) {
	err := first(
		positive("torque", float64(t), quantity.Computed(t.InchPounds(), 2, quantity.UnitInLb), "a torque"),
		positiveVolume("displacement", displacement), c.check())
	if err != nil {
		return 0, err
	}
	return quantity.Pressure(2 * math.Pi * float64(c) * t.InchPounds() / displacement.CubicInches()), nil
}

// TorqueFromBMEP is the torque that a mean effective pressure gives.
func TorqueFromBMEP(p quantity.Pressure, displacement quantity.Volume, c Cycle) (quantity.Torque, error) {
	if err := first(positivePressure(p), positiveVolume("displacement", displacement), c.check()); err != nil {
		return 0, err
	}
	return quantity.Torque(p.PSI() * displacement.CubicInches() / (2 * math.Pi * float64(c))), nil
}

// PowerFromMEP is the power that a mean effective pressure gives in a four-stroke:
// the indicated power for an indicated pressure, the brake power for a brake pressure.
//
//	hp = P L A N K / 33 000
//
// P in psi, L the stroke in feet, A the bore area in sq in, N firings of a cylinder
// in a minute (rpm/2), K cylinders; L × A × K is the displacement.
//
// Source: FAA-H-8083-32, indicated horsepower.
func PowerFromMEP(p quantity.Pressure, displacement quantity.Volume, n quantity.Speed) (quantity.Power, error) {
	t, err := TorqueFromBMEP(p, displacement, FourStroke)
	if err := first(err, positiveSpeed(n)); err != nil {
		return 0, err
	}
	return PowerFrom(t, n)
}

// TorqueFrom is the torque of a power at a speed: T = hp × 33 000 / (2π rpm) foot
// pounds, the well-known 5252 hp/rpm.
func TorqueFrom(p quantity.Power, n quantity.Speed) (quantity.Torque, error) {
	if err := first(positivePower("power", p), positiveSpeed(n)); err != nil {
		return 0, err
	}
	return quantity.Torque(p.Horsepower()*ftLbPerMinute/(2*math.Pi*n.RPM())) * quantity.FootPound, nil
}

// PowerFrom is the power of a torque at a speed: hp = 2π rpm T / 33 000, T in foot
// pounds.
func PowerFrom(t quantity.Torque, n quantity.Speed) (quantity.Power, error) {
	err := first(
		positive("torque", float64(t), quantity.Computed(t.InchPounds(), 2, quantity.UnitInLb), "a torque"),
		positiveSpeed(n))
	if err != nil {
		return 0, err
	}
	return quantity.Power(2 * math.Pi * n.RPM() * t.FootPounds() / ftLbPerMinute), nil
}

// ftLbPerBTU is the mechanical equivalent of heat, 778.1693 ft·lbf for an
// International Table BTU (1055.05585262 J exactly; NIST SP 811, App. B). Handbooks
// print 778.
const ftLbPerBTU = 1055.05585262 / (0.1129848290276167 * 12)

// ThermalEfficiency is the share of the fuel's heat that comes out as brake power.
//
//	hp × 33 000 × 60 / (fuel in lb/h × heat in BTU/lb × 778.17)
//
// Fuel is a mass for an hour. The heat is the fuel's lower heating value; 18 800 to
// 20 000 BTU/lb stand in the handbooks for petrol.
func ThermalEfficiency(brake quantity.Power, fuelInAnHour quantity.Mass, btuPerPound float64) (float64, error) {
	err := first(positivePower("power", brake),
		positive("fuel", float64(fuelInAnHour), quantity.Computed(fuelInAnHour.Pounds(), 2, quantity.UnitLb), "a mass"),
		positive("heat", btuPerPound, quantity.Figure(btuPerPound, 0)+" BTU/lb", "a figure"))
	if err != nil {
		return 0, err
	}
	return brake.Horsepower() * ftLbPerMinute * 60 / (fuelInAnHour.Pounds() * btuPerPound * ftLbPerBTU), nil
}

func positivePower(field string, p quantity.Power) error {
	return positive(field, float64(p), quantity.Computed(p.Horsepower(), 1, quantity.UnitHp), "a power")
}

func positivePressure(p quantity.Pressure) error {
	return positive("pressure", float64(p), quantity.Computed(p.PSI(), 1, quantity.UnitPsi), "a pressure")
}
