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

// Expansion is α, the share by which oil of that density grows for a Fahrenheit degree at
// 60 °F: K₁/ρ with K₁ 0.34878. 3.92 in 10,000 for 890 kg/m³.
//
// Source: API MPMS 11.1, ASTM D1250-04, lubricating oils (K₀ and K₂ are 0); its 0.6278 for
// Celsius degrees at 15 °C agrees.
func Expansion(d Density) (float64, error) {
	if err := d.check(); err != nil {
		return 0, err
	}
	return 0.34878 / float64(d), nil
}

// VolumeFactor is the share of its volume at t that an oil has at the base temperature.
//
//	exp(−α ΔT (1 + 0.8 α ΔT))
//
// Source: as Expansion. It agrees with tables computed from the same constants within
// 0.00002. Good from −20 to 200 °F; far beyond, where no oil of a tank is, it is refused.
func VolumeFactor(d Density, base Base, t quantity.Temperature) (float64, error) {
	if err := d.check(); err != nil {
		return 0, err
	}
	if !(t >= -100 && t <= 500) {
		return 0, &quantity.Problem{Field: "temperature", Sentence: "The oil is said to be at " + quantity.Computed(float64(t), 0, quantity.UnitF) + ". It must be from −100 to 500 °F."}
	}
	grows := 0.34878 / float64(d) * t.Above(60).FahrenheitDegrees()
	if base == At15C {
		grows = 0.6278 / float64(d) * (t.Celsius() - 15)
	}
	return math.Exp(-grows * (1 + 0.8*grows)), nil
}

// VolumeAt is the volume at one temperature of oil that was measured at another. A tank
// that cools from 160 °F to 60 loses two thirds of a quart of 16 to nobody.
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
