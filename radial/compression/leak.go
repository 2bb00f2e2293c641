package compression

import (
	"math"

	"linkrod/radial/quantity"
)

// Tester is a differential tester in use. Its two gauges read above the atmosphere.
type Tester struct {
	Supply     quantity.Pressure // the first gauge
	Orifice    quantity.Length   // its diameter
	Atmosphere quantity.Pressure // absolute; SeaLevel, or less on high ground
}

// SeaLevel is the standard atmosphere, 14.696 psi.
const SeaLevel = quantity.Atmosphere

func (t Tester) check() error {
	return first(abovePressure("supply pressure", t.Supply), aboveLength("orifice", t.Orifice), abovePressure("atmosphere", t.Atmosphere))
}

// Leak is the area of the one ideal hole that would leak as much as the cylinder does, from
// the reading of the second gauge:
//
//	A₁ pₛ F(p/pₛ) = A₂ p F(pₐ/p)
//
// where 1 is the tester's orifice and 2 the leak, pₛ, p and pₐ the absolute pressures of
// supply, cylinder and atmosphere, and F the flow through an ideal orifice (Gas.MassFlow).
// Both are taken to have one discharge coefficient and the air one temperature. A reading
// of 60 of 80 is a leak 1.06 times the area of the orifice; a leak as large as the orifice
// reads 61.8.
//
// It is for understanding. It ignores that air creeping past rings is slowed by their walls,
// so it is no measurement of a gap. A reading of the supply itself is no leak, 0; a reading
// of 0 has no bound and is refused.
func (t Tester) Leak(reading quantity.Pressure) (quantity.Area, error) {
	if err := t.check(); err != nil {
		return 0, err
	}
	if !(reading > 0 && reading <= t.Supply) {
		return 0, problem("reading", "The cylinder reads ", quantity.Computed(reading.PSI(), 1, quantity.UnitPsi), ". For a leak to be reckoned it must be more than 0 and no more than the supply, ",
			quantity.Computed(t.Supply.PSI(), 1, quantity.UnitPsi), ".")
	}
	return quantity.Circle(t.Orifice) * quantity.Area(t.ratio(reading)), nil
}

// ratio is the leak's area over the orifice's.
func (t Tester) ratio(reading quantity.Pressure) float64 {
	in, out := t.flows(reading)
	return in / out
}

// flows is what the orifice lets in and what a leak of its size would let out at a reading,
// each over the area and √(R T).
func (t Tester) flows(reading quantity.Pressure) (in, out float64) {
	ps, p, pa := t.Supply+t.Atmosphere, reading+t.Atmosphere, t.Atmosphere
	return float64(ps) * Air.flux(float64(p/ps)), float64(p) * Air.flux(float64(pa/p))
}

// Reading is what the second gauge would show with a leak of that area, the inverse of
// Leak. It is found to the last bit by halving: what comes in falls as the cylinder fills
// and what goes out grows.
func (t Tester) Reading(leak quantity.Area) (quantity.Pressure, error) {
	if err := t.check(); err != nil {
		return 0, err
	}
	if !(leak >= 0) || math.IsInf(float64(leak), 0) {
		return 0, problem("leak", "The leak is ", quantity.Figure(leak.SquareInches(), 6), " square inches. It must be 0 or more.")
	}
	ratio := float64(leak / quantity.Circle(t.Orifice))
	low, high := quantity.Pressure(0), t.Supply
	for range 200 { // some 60 are enough
		mid := low + (high-low)/2
		if mid == low || mid == high {
			break
		}
		if in, out := t.flows(mid); in > ratio*out {
			low = mid
		} else {
			high = mid
		}
	}
	return high, nil
}

// With is what this reading would have been with another orifice on the same leak: the
// direction and size of the error of a wrong tester, to show and never to log. 70 with the
// 0.060 is about 44 with the 0.040.
func (t Tester) With(orifice quantity.Length, reading quantity.Pressure) (quantity.Pressure, error) {
	leak, err := t.Leak(reading)
	if err != nil {
		return 0, err
	}
	if err := aboveLength("other orifice", orifice); err != nil {
		return 0, err
	}
	t.Orifice = orifice
	return t.Reading(leak)
}
