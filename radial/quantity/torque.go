package quantity

// The exact constants behind every unit made with a weight.
const (
	poundKg  = 0.45359237 // kg, yard and pound agreement of 1959
	gravity  = 9.80665    // m/s², standard gravity, 3rd CGPM 1901
	inchM    = 0.0254     // m, 1959
	poundN   = poundKg * gravity
	inchLbNm = poundN * inchM // 0.1129848290276167 N·m, exactly
)

// Torque is a torque in inch pounds (lbf·in). A foot pound is twelve of them,
// and mistaking one for the other breaks studs; see TwelveToOne.
type Torque float64

// Units of torque.
const (
	InchPound          Torque = 1
	FootPound          Torque = 12
	NewtonMetre        Torque = 1 / inchLbNm
	KilogramForceMetre Torque = gravity / inchLbNm
)

// InchPounds is the torque in inch pounds.
func (t Torque) InchPounds() float64 { return float64(t) }

// FootPounds is the torque in foot pounds.
func (t Torque) FootPounds() float64 { return float64(t) / 12 }

// NewtonMetres is the torque in newton metres.
func (t Torque) NewtonMetres() float64 { return float64(t) * inchLbNm }

// KilogramForceMetres is the torque in kilogram-force metres.
func (t Torque) KilogramForceMetres() float64 { return float64(t / KilogramForceMetre) }

// Torque is the value as a Torque. It refuses another kind of quantity.
func (m Measured) Torque() (Torque, error) { v, err := m.float(DimTorque); return Torque(v), err }
