package oil

import (
	"math"

	"linkrod/radial/quantity"
)

// Density is a density in kg/m³. That of an oil is stated at 60 °F or 15 °C, which differ
// by a part in 2,800.
type Density float64

// Units of density. A US gallon of 7.4 lb, the figure of many formulas, is 886.7 kg/m³;
// mineral oils of SAE 50 lie from about 880 to 900.
const (
	KilogramPerCubicMetre Density = 1
	PoundPerGallon        Density = 0.45359237 / 0.003785411784
)

// KilogramsPerCubicMetre is the density in kg/m³.
func (d Density) KilogramsPerCubicMetre() float64 { return float64(d) }

// PoundsPerGallon is the density in pounds to the US gallon.
func (d Density) PoundsPerGallon() float64 { return float64(d / PoundPerGallon) }

// Mass is the mass of a volume of that density.
func (d Density) Mass(v quantity.Volume) quantity.Mass {
	return quantity.Mass(d.PoundsPerGallon() * v.Gallons())
}

// WaterAt60F is the density of water at 60 °F that gravities of oils are stated against.
//
// Source: API MPMS 11.1, 999.016 kg/m³.
const WaterAt60F Density = 999.016

// SpecificGravity is the density of an oil that is so many times as heavy as water, both
// at 60 °F.
func SpecificGravity(sg float64) (Density, error) {
	d := Density(sg) * WaterAt60F
	return d, d.check()
}

// APIGravity is the density of an oil of that gravity at 60 °F in degrees API, as data
// sheets of oils state it. More degrees are a lighter oil; an SAE 50 has about 27.
//
//	specific gravity = 141.5/(131.5 + degrees)
//
// Source: the definition, API MPMS 11.1.
func APIGravity(degrees float64) (Density, error) {
	return SpecificGravity(141.5 / (131.5 + degrees))
}

// Volume is the volume of a mass of that density.
func (d Density) Volume(m quantity.Mass) quantity.Volume {
	return quantity.Volume(m.Pounds()/d.PoundsPerGallon()) * quantity.Gallon
}

func (d Density) check() error {
	if d >= 700 && d <= 1200 {
		return nil
	}
	return &quantity.Problem{Field: "density", Sentence: "The density is " + quantity.Figure(float64(d), 0) + " kg/m³, " +
		quantity.Figure(d.PoundsPerGallon(), 2) + " lb to the gallon. Lubricating oils are from 700 to 1200 kg/m³, about 7.4 lb to the gallon."}
}

// Base is the temperature at which a density is stated.
type Base uint8

// The bases.
const (
	At60F Base = iota // 60 °F
	At15C             // 15 °C
)

// K1 is the constant of the lubricating-oil formula for a density stated at the base and
// one such degree: 0.34878 kg/m³ for a Fahrenheit degree from 60 °F, 0.6278 for a Celsius
// degree from 15 °C. K₀ and K₂ are 0. The two agree to a part in 100,000.
//
// Source: API MPMS 11.1, ASTM D1250-04, generalized lubricating oils.
func (b Base) K1(degree quantity.TemperatureDifference) float64 {
	if b == At15C {
		return 0.6278 * degree.CelsiusDegrees()
	}
	return 0.34878 * degree.FahrenheitDegrees()
}

func (b Base) temperature() quantity.Temperature {
	if b == At15C {
		return quantity.Celsius(15)
	}
	return 60
}

// Expansion is α, the share by which oil of that density grows for a Fahrenheit degree at
// 60 °F: K₁/ρ. 3.92 in 10,000 for 890 kg/m³; the trade's round figure is 4.
func Expansion(d Density) (float64, error) {
	if err := d.check(); err != nil {
		return 0, err
	}
	return At60F.K1(quantity.FahrenheitDegree) / float64(d), nil
}

// VolumeFactor is the share of its volume at t that an oil has at the base temperature.
//
//	exp(−α ΔT (1 + 0.8 α ΔT)), α = K₁/ρ
//
// Source: as K1. It agrees with tables computed from the same constants within 0.00002.
// Good from −20 to 200 °F; far beyond, where no oil of a tank is, it is refused.
func VolumeFactor(d Density, base Base, t quantity.Temperature) (float64, error) {
	if err := d.check(); err != nil {
		return 0, err
	}
	if !(t >= -100 && t <= 500) {
		return 0, &quantity.Problem{Field: "temperature", Sentence: "The oil is said to be at " + quantity.Computed(float64(t), 0, quantity.UnitF) + ". It must be from −100 to 500 °F."}
	}
	grows := base.K1(t.Above(base.temperature())) / float64(d)
	return math.Exp(-grows * (1 + 0.8*grows)), nil
}

// VolumeAt is the volume at one temperature of oil that was measured at another. A tank
// that cools from 160 °F to 60 loses two thirds of a quart of 16 to nobody. The density is
// that at the base temperature.
func VolumeAt(v quantity.Volume, d Density, measured, asked quantity.Temperature) (quantity.Volume, error) {
	if !(v >= 0) || math.IsInf(float64(v), 0) {
		return 0, &quantity.Problem{Field: "volume", Sentence: "The volume is " + quantity.Computed(v.Quarts(), 2, quantity.UnitQt) + ". It must be 0 or more."}
	}
	from, err := VolumeFactor(d, At60F, measured)
	if err != nil {
		return 0, err
	}
	to, err := VolumeFactor(d, At60F, asked)
	if err != nil {
		return 0, err
	}
	return v * quantity.Volume(from/to), nil
}

// Cooling is how much a level falls by nothing but cooling from one temperature to another;
// negative where it warms and rises.
func Cooling(v quantity.Volume, d Density, read, asked quantity.Temperature) (quantity.Volume, error) {
	then, err := VolumeAt(v, d, read, asked)
	return v - then, err
}

// Dipped is a volume of oil in a tank and the oil's temperature when it was read.
type Dipped struct {
	Volume quantity.Volume
	At     quantity.Temperature
}

// Lost is what is gone between two levels read at different temperatures, both brought to
// 60 °F. Account takes a round α instead, since nobody knows the density of what is in a
// tank; the two differ by less than any stick shows.
func Lost(before, after Dipped, d Density) (quantity.Volume, error) {
	was, err := VolumeAt(before.Volume, d, before.At, At60F.temperature())
	if err != nil {
		return 0, err
	}
	is, err := VolumeAt(after.Volume, d, after.At, At60F.temperature())
	return was - is, err
}

// Swelling is the change of a volume by the rule of thumb, V β ΔT, with β the share for a
// degree: 0.64 qt for 16 of them, 100 F° and the trade's 0.0004. VolumeAt is the published
// formula; at 890 kg/m³ it says 0.634.
func Swelling(v quantity.Volume, perFahrenheit float64, d quantity.TemperatureDifference) quantity.Volume {
	return v * quantity.Volume(perFahrenheit*d.FahrenheitDegrees())
}
