package quantity

// Length is a length in inches, the unit that every table of fits and
// clearances of these engines is printed in.
//
// Inches, Thou and Feet of a figure typed in inches are exact to a rounding.
// Millimetres rests on 1 in = 25.4 mm, exact by the agreement of 1959.
type Length float64

// Units of length.
const (
	Inch       Length = 1
	Thou       Length = 0.001  // a thousandth of an inch
	Tenth      Length = 0.0001 // a tenth of a thou, never of an inch
	Foot       Length = 12
	Millimetre Length = 1 / 25.4
)

// Inches is the length in inches.
func (l Length) Inches() float64 { return float64(l) }

// Thou is the length in thousandths of an inch.
func (l Length) Thou() float64 { return float64(l) * 1000 }

// Feet is the length in feet.
func (l Length) Feet() float64 { return float64(l) / 12 }

// Millimetres is the length in millimetres.
func (l Length) Millimetres() float64 { return float64(l) * 25.4 }

// Length is the value as a Length. It refuses another kind of quantity.
func (m Measured) Length() (Length, error) { v, err := m.float(DimLength); return Length(v), err }
