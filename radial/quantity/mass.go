package quantity

// Mass is a mass in pounds. One pound is 0.45359237 kg exactly.
type Mass float64

// Units of mass.
const (
	Pound    Mass = 1
	Ounce    Mass = 1.0 / 16
	Kilogram Mass = 1 / poundKg
	Gram     Mass = 1 / (1000 * poundKg)
)

// Pounds is the mass in pounds.
func (m Mass) Pounds() float64 { return float64(m) }

// Ounces is the mass in ounces, sixteen to the pound.
func (m Mass) Ounces() float64 { return float64(m) * 16 }

// Kilograms is the mass in kilograms.
func (m Mass) Kilograms() float64 { return float64(m) * poundKg }

// Grams is the mass in grams.
func (m Mass) Grams() float64 { return float64(m) * (1000 * poundKg) }

// Weight is the force of the mass under standard gravity: so many pounds weigh so
// many pounds-force.
func (m Mass) Weight() Force { return Force(m) }

// Mass is the value as a Mass. It refuses another kind of quantity.
func (m Measured) Mass() (Mass, error) { v, err := m.float(DimMass); return Mass(v), err }

// Force is a force in pounds-force, the weight of a pound under standard
// gravity, 9.80665 m/s² exactly.
type Force float64

// Units of force.
const (
	PoundForce    Force = 1
	Newton        Force = 1 / poundN
	KilogramForce Force = 1 / poundKg
)

// PoundsForce is the force in pounds-force.
func (f Force) PoundsForce() float64 { return float64(f) }

// Newtons is the force in newtons.
func (f Force) Newtons() float64 { return float64(f) * poundN }

// KilogramsForce is the force in kilograms-force.
func (f Force) KilogramsForce() float64 { return float64(f) * poundKg }

// Force is the value as a Force. It refuses another kind of quantity.
func (m Measured) Force() (Force, error) { v, err := m.float(DimForce); return Force(v), err }
