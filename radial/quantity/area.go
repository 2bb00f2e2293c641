package quantity

import "math"

// Area is an area in square inches: of a bore, of the metal left in a thread, of a
// leak. Nobody types one, so it has no Unit; it comes from lengths.
type Area float64

// Units of area.
const (
	SquareInch       Area = 1
	SquareMillimetre Area = 1 / (25.4 * 25.4)
	SquareMetre      Area = 1e6 / (25.4 * 25.4)
)

// Circle is the area of a circle of the given diameter: π/4 d². It is as good as
// float64; the 0.7854 of many printed examples is high by 2 parts in a million.
func Circle(diameter Length) Area {
	return Area(math.Pi / 4 * diameter.Inches() * diameter.Inches())
}

// SquareInches is the area in square inches.
func (a Area) SquareInches() float64 { return float64(a) }

// SquareMillimetres is the area in square millimetres.
func (a Area) SquareMillimetres() float64 { return float64(a) * (25.4 * 25.4) }

// SquareMetres is the area in square metres.
func (a Area) SquareMetres() float64 { return float64(a) * (25.4 * 25.4) / 1e6 }

// On is the force of a pressure on an area: psi × sq in is pounds.
func (p Pressure) On(a Area) Force { return Force(float64(p) * float64(a)) }

// Over is the pressure, or the stress, of a force spread over an area.
func (f Force) Over(a Area) Pressure { return Pressure(float64(f) / float64(a)) }
