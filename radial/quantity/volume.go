package quantity

// Volume is a volume in cubic inches, which is what bore and stroke give.
//
// The US gallon is 231 cu in and the inch 25.4 mm, both exactly, so quarts,
// fluid ounces and litres follow without a rounded figure in between. The
// imperial gallon is 4.54609 L exactly (UK Weights and Measures Act 1985).
// An imperial quart is a fifth more than a US quart: 15 of one are 18 of the
// other.
type Volume float64

// Units of volume. Quart alone is the US liquid quart.
const (
	CubicInch          Volume = 1
	Gallon             Volume = 231
	Quart              Volume = 231.0 / 4
	Pint               Volume = 231.0 / 8
	FluidOunce         Volume = 231.0 / 128
	Litre              Volume = 1000 / 16.387064
	CubicCentimetre    Volume = 1 / 16.387064
	ImperialGallon     Volume = 4546.09 / 16.387064
	ImperialQuart      Volume = 4546.09 / 16.387064 / 4
	ImperialPint       Volume = 4546.09 / 16.387064 / 8
	ImperialFluidOunce Volume = 4546.09 / 16.387064 / 160
)

// CubicInches is the volume in cubic inches.
func (v Volume) CubicInches() float64 { return float64(v) }

// Quarts is the volume in US quarts.
func (v Volume) Quarts() float64 { return float64(v / Quart) }

// Gallons is the volume in US gallons.
func (v Volume) Gallons() float64 { return float64(v / Gallon) }

// Pints is the volume in US liquid pints.
func (v Volume) Pints() float64 { return float64(v / Pint) }

// FluidOunces is the volume in US fluid ounces, 32 to the quart.
func (v Volume) FluidOunces() float64 { return float64(v / FluidOunce) }

// Litres is the volume in litres.
func (v Volume) Litres() float64 { return float64(v) * 16.387064 / 1000 }

// CubicCentimetres is the volume in cubic centimetres, which are millilitres.
func (v Volume) CubicCentimetres() float64 { return float64(v) * 16.387064 }

// ImperialGallons is the volume in imperial gallons.
func (v Volume) ImperialGallons() float64 { return float64(v / ImperialGallon) }

// ImperialQuarts is the volume in imperial quarts.
func (v Volume) ImperialQuarts() float64 { return float64(v / ImperialQuart) }

// ImperialPints is the volume in imperial pints.
func (v Volume) ImperialPints() float64 { return float64(v / ImperialPint) }

// ImperialFluidOunces is the volume in imperial fluid ounces, 40 to their quart.
func (v Volume) ImperialFluidOunces() float64 { return float64(v / ImperialFluidOunce) }

// Volume is the value as a Volume. It refuses another kind of quantity.
func (m Measured) Volume() (Volume, error) { v, err := m.float(DimVolume); return Volume(v), err }
