package lock

import (
	"math"

	"linkrod/radial/quantity"
)

// Exponents of compression. Air squeezed with no heat lost has 1.4; air squeezed so
// slowly that it stays as cool as the cylinder has 1. A cold engine turned by hand is
// near 1, by a starter about 1.3.
const (
	Isothermal = 1.0 // all the heat lost; the least pressure
	Cranking   = 1.3 // common practice, no source
	Adiabatic  = 1.4 // no heat lost; the most pressure. FAA and textbook value for air
)

// absoluteZero is −459.67 °F, 0 K.
const absoluteZero quantity.Temperature = -459.67

// Polytropic is the absolute pressure after compression from the absolute pressure
// start by the ratio r of volumes.
//
//	p₂ = p₁ rⁿ
//
// It takes the charge from bottom dead centre, shut in at once and leaking nothing. A
// real inlet valve shuts well after the bottom and rings leak, so for a cranking gauge it
// is an upper bound. n = 1.4 is the adiabatic exponent of air.
func Polytropic(start quantity.Pressure, r, n float64) (quantity.Pressure, error) {
	err := first(above("pressure at the start", start.PSI(), quantity.UnitPsi), ratio(r), exponent(n))
	if err != nil {
		return 0, err
	}
	return start * quantity.Pressure(math.Pow(r, n)), nil
}

// Temperature is the temperature after that compression: T₂ = T₁ rⁿ⁻¹, in absolute
// degrees. Above some hundreds of degrees air's own exponent falls, so it is high.
func Temperature(start quantity.Temperature, r, n float64) (quantity.Temperature, error) {
	t := start.Above(absoluteZero)
	if err := first(aboveNumber("absolute temperature at the start", t.FahrenheitDegrees()), ratio(r), exponent(n)); err != nil {
		return 0, err
	}
	return absoluteZero.Plus(t * quantity.TemperatureDifference(math.Pow(r, n-1))), nil
}

// Exponent is the exponent that two absolute pressures and the ratio between them show:
// n = ln(p₂/p₁)/ln r.
func Exponent(start, end quantity.Pressure, r float64) (float64, error) {
	err := first(above("pressure at the start", start.PSI(), quantity.UnitPsi),
		above("pressure at the end", end.PSI(), quantity.UnitPsi), ratio(r))
	if err != nil {
		return 0, err
	}
	return math.Log(float64(end/start)) / math.Log(r), nil
}

// Peak is the absolute pressure at the top of a charge, Polytropic at its effective
// ratio. It refuses a locked one, in which no pressure has a meaning: the liquid takes
// whatever force the crank can give.
func (f Charge) Peak(start quantity.Pressure, n float64) (quantity.Pressure, error) {
	if f.Locked {
		return 0, problem("liquid", Held(f.Liquid), " fill the clearance volume. Liquid does not compress: there is no pressure to state, something bends.")
	}
	return Polytropic(start, f.Ratio, n)
}

// Gauge is what a gauge shows of an absolute pressure: what is above the atmosphere.
func Gauge(absolute, atmosphere quantity.Pressure) quantity.Pressure { return absolute - atmosphere }

func ratio(r float64) error {
	if r > 1 && !math.IsInf(r, 0) {
		return nil
	}
	return problem("compression ratio", "The compression ratio is ", quantity.Figure(r, 3), ". It must be more than 1.")
}

func exponent(n float64) error {
	if n >= 1 && n <= 2 {
		return nil
	}
	return problem("exponent", "The exponent is ", quantity.Figure(n, 3), ". It must be from 1 (all heat lost) to 2; 1.4 is air with no heat lost.")
}
