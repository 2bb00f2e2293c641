package compression

import (
	"math"

	"linkrod/radial/quantity"
)

// Gas is an ideal gas with specific heats that do not change.
type Gas struct {
	Gamma float64 // γ, the ratio of the specific heats
	R     float64 // the gas constant, J/(kg·K)
}

// Air is air at shop temperatures: γ 1.4, R 287 J/(kg·K), as textbooks have it.
var Air = Gas{1.4, 287}

func (g Gas) check() error {
	if g.Gamma > 1 && g.Gamma <= 5.0/3+1e-9 && positive(g.R) {
		return nil
	}
	return problem("gas", "A gas has a ratio of specific heats over 1 and up to 5/3, and a gas constant above 0. Air is 1.4 and 287.")
}

// CriticalRatio is the pressure after an orifice over that before it at which the flow
// reaches the speed of sound and grows no more however far the pressure falls: 0.5283 for
// air.
//
//	(2/(γ + 1))^(γ/(γ − 1))
func (g Gas) CriticalRatio() (float64, error) {
	if err := g.check(); err != nil {
		return 0, err
	}
	return g.critical(), nil
}

func (g Gas) critical() float64 { return math.Pow(2/(g.Gamma+1), g.Gamma/(g.Gamma-1)) }

// flux is F(r) in ṁ = A p₀ F(r)/√(R T₀), r being the pressure after the orifice over that
// before it.
//
//	F(r) = √(2γ/(γ − 1) (r^(2/γ) − r^((γ+1)/γ))),  r not taken below the critical ratio
//
// Near r = 1 the difference is taken with its common factor out, so that it keeps its
// figures: r^(2/γ) (1 − r^((γ−1)/γ)).
func (g Gas) flux(r float64) float64 {
	r = max(r, g.critical())
	rest := -math.Expm1((g.Gamma - 1) / g.Gamma * math.Log(r))
	return math.Sqrt(2 * g.Gamma / (g.Gamma - 1) * math.Pow(r, 2/g.Gamma) * rest)
}

// MassFlow is a flow of gas in kilograms a second.
type MassFlow float64

// KilogramsPerSecond is the flow in kg/s.
func (m MassFlow) KilogramsPerSecond() float64 { return float64(m) }

// MassFlow is the flow through an ideal orifice of the area, from gas at rest at the
// absolute pressure p0 and temperature t0 to the absolute pressure back. Below the critical
// ratio of back to p0 it is choked and back makes no difference.
//
// A real orifice passes less, by its discharge coefficient: 0.6 for a sharp edge, near 1
// for a rounded one.
func (g Gas) MassFlow(p0 quantity.Pressure, t0 quantity.Temperature, back quantity.Pressure, area quantity.Area) (MassFlow, error) {
	if err := first(g.check(), abovePressure("pressure before", p0)); err != nil {
		return 0, err
	}
	kelvin := t0.Celsius() + 273.15
	switch {
	case !positive(kelvin):
		return 0, problem("temperature", "The temperature is ", quantity.Computed(t0.Fahrenheit(), 0, quantity.UnitF), ". It must be above absolute zero.")
	case !(back >= 0 && back <= p0):
		return 0, problem("pressure after", "The pressure after the orifice is ", quantity.Computed(back.PSI(), 1, quantity.UnitPsi), ". It must be from 0 to the pressure before it, ",
			quantity.Computed(p0.PSI(), 1, quantity.UnitPsi), ", both of them absolute.")
	case !positive(area):
		return 0, problem("area", "The area is ", quantity.Figure(area.SquareInches(), 6), " square inches. It must be above 0.")
	}
	return MassFlow(area.SquareMetres() * p0.Pascals() * g.flux(float64(back/p0)) / math.Sqrt(g.R*kelvin)), nil
}
