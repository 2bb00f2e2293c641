package torque

import "linkrod/radial/quantity"

// NutFactor is K in T = K D F: all the friction of thread and face in one number. It is
// measured, never derived, and for a joint not measured it is known to about 30 per cent.
type NutFactor float64

// Scatter is how far the preload may be off for a torque rightly applied, as a share
// either way, when K is a usual figure and was not measured on that joint. An
// engineering firm's article calls 30 % accepted by industry; textbooks say 25 to 35, from
// memory.
const Scatter = 0.30

// Steel is the modulus of elasticity of steel, 29 million psi; textbooks print 29 to 30.
const Steel quantity.Pressure = 29e6

// Preload is how hard the bolt pulls when the nut is drawn up to the torque.
//
//	F = T/(K D)
//
// Source: the short form of every textbook; K, D and F are nut factor, nominal diameter
// and preload.
func Preload(t quantity.Torque, d quantity.Length, k NutFactor) (quantity.Force, error) {
	if err := first(aboveTorque("torque", t), aboveLength("diameter", d), k.check()); err != nil {
		return 0, err
	}
	return quantity.Force(t.InchPounds() / (float64(k) * d.Inches())), nil
}

// ForPreload is the torque that makes the preload: T = K D F, the inverse of Preload.
// It is for understanding a published table. A torque for an engine comes from its sheet.
func ForPreload(f quantity.Force, d quantity.Length, k NutFactor) (quantity.Torque, error) {
	if err := first(aboveForce("preload", f), aboveLength("diameter", d), k.check()); err != nil {
		return 0, err
	}
	return quantity.Torque(float64(k) * d.Inches() * f.PoundsForce()), nil
}

// FactorShown is the nut factor that a torque and the preload it made show: K = T/(D F).
// The 90,000 psi column of AC 43.13-1B's table gives 0.132 for 3/8-24, 0.153 for 1/2-20
// and 0.122 for 1/4-28, so no one K made that table and none makes it again.
func FactorShown(t quantity.Torque, d quantity.Length, f quantity.Force) (NutFactor, error) {
	if err := first(aboveTorque("torque", t), aboveLength("diameter", d), aboveForce("preload", f)); err != nil {
		return 0, err
	}
	return NutFactor(t.InchPounds() / (d.Inches() * f.PoundsForce())), nil
}

func (k NutFactor) check() error {
	if k >= 0.03 && k <= 1 {
		return nil
	}
	return problem("nut factor", "The nut factor is ", quantity.Figure(float64(k), 3), ". It is from 0.03 to 1: about 0.2 dry, 0.15 oiled, 0.12 with anti-seize.")
}

// Stress is the tension in a thread: σ = F/At.
func Stress(f quantity.Force, stressArea quantity.Area) (quantity.Pressure, error) {
	if err := first(aboveForce("preload", f), aboveArea("stress area", stressArea)); err != nil {
		return 0, err
	}
	return f.Over(stressArea), nil
}

// Load is the pull that makes a stress in a thread, F = σ At. With the proof stress of a
// grade it is that bolt's proof load.
func Load(stress quantity.Pressure, stressArea quantity.Area) (quantity.Force, error) {
	if err := first(abovePressure("stress", stress), aboveArea("stress area", stressArea)); err != nil {
		return 0, err
	}
	return stress.On(stressArea), nil
}

// Stretch is how much longer a bolt gets under its preload, for parts that are tightened
// by the micrometer: F l/(A E), with l what is gripped, A the area of the shank and E the
// modulus. It holds up to the yield point and for a shank of one thickness; threads in
// the grip and the give of head and nut make it more.
func Stretch(f quantity.Force, grip quantity.Length, shank quantity.Area, modulus quantity.Pressure) (quantity.Length, error) {
	if err := first(aboveForce("preload", f), aboveLength("grip", grip), aboveArea("shank area", shank), abovePressure("modulus", modulus)); err != nil {
		return 0, err
	}
	return quantity.Length(f.PoundsForce() * grip.Inches() / (shank.SquareInches() * modulus.PSI())), nil
}
