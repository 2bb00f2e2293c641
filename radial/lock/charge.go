package lock

import (
	"math"

	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

// Charge is a cylinder with liquid trapped above its piston.
type Charge struct {
	Liquid quantity.Volume
	// Filled is how much of the clearance volume the liquid takes: 1 is all of it.
	Filled float64
	// Locked: the liquid fills the clearance volume or more. The piston cannot reach its
	// top, and something bends or breaks if it is made to. There is no ratio then.
	Locked bool
	// Ratio is the effective compression ratio, 0 if Locked.
	Ratio float64
}

// Fill is the chamber with that much liquid in it. Liquid is taken not to compress.
//
//	(Vs + Vc − V)/(Vc − V) for V < Vc;  locked for V ≥ Vc, the equality included
//
// The less dangerous sight is the full lock, which stops the propeller. A partial lock
// turns over, bends a rod a little, and fails later.
func Fill(c ring.Chamber, liquid quantity.Volume) (Charge, error) {
	if err := first(chamber(c), amount("liquid", liquid)); err != nil {
		return Charge{}, err
	}
	f := Charge{Liquid: liquid, Filled: float64(liquid / c.Clearance), Locked: liquid >= c.Clearance}
	if !f.Locked {
		f.Ratio = float64((c.Swept + c.Clearance - liquid) / (c.Clearance - liquid))
	}
	return f, nil
}

// LiquidFor is how much liquid raises the effective compression ratio to r: V = Vc −
// Vs/(r − 1). What doubles a ratio is LiquidFor(c, 2*c.Ratio()). It refuses an r below
// the dry ratio.
func LiquidFor(c ring.Chamber, r float64) (quantity.Volume, error) {
	if err := chamber(c); err != nil {
		return 0, err
	}
	if dry := c.Ratio(); !(r >= dry) || math.IsInf(r, 0) {
		return 0, problem("compression ratio", "The ratio asked for is ", quantity.Figure(r, 2), ". Liquid only raises it, from ", quantity.Figure(dry, 2), " to 1 dry.")
	}
	return max(0, c.Clearance-c.Swept/quantity.Volume(r-1)), nil
}

// Solid is how many degrees before its top the piston meets the liquid, valves shut: 0
// when it does not. The chamber is that piston's own. Liquid that more than fills the
// whole cylinder is refused.
func Solid(p ring.Piston, c ring.Chamber, liquid quantity.Volume) (quantity.Angle, error) {
	f, err := Fill(c, liquid)
	switch {
	case err != nil || !f.Locked:
		return 0, err
	case liquid > c.Swept+c.Clearance:
		return 0, problem("liquid", Held(liquid), " are more than the cylinder holds with its piston at the bottom, ", Held(c.Swept+c.Clearance), ".")
	}
	short := p.Stroke() * quantity.Length((liquid-c.Clearance)/c.Swept)
	return p.Degrees(min(short, p.Stroke()))
}

// A teacup is no measure, which is why it is two figures: people's cups hold 6 to 8
// fluid ounces (common practice, no source).
const (
	SmallTeacup = 6 * quantity.FluidOunce
	LargeTeacup = 8 * quantity.FluidOunce
)

// Held is a volume as somebody holds it in the hand: "12.3 fl oz, 364 mL, 1.5 to 2.1
// teacups". It is for the eye; compare the volume itself.
func Held(v quantity.Volume) string {
	return quantity.Computed(v.FluidOunces(), 1, quantity.UnitFlOz) + ", " +
		quantity.Computed(v.CubicCentimetres(), 0, quantity.UnitMl) + ", " +
		quantity.Figure(float64(v/LargeTeacup), 1) + " to " +
		quantity.Figure(float64(v/SmallTeacup), 1) + " teacups"
}

func chamber(c ring.Chamber) error {
	return first(
		above("swept volume", c.Swept.CubicInches(), quantity.UnitCuIn),
		above("clearance volume", c.Clearance.CubicInches(), quantity.UnitCuIn))
}

// amount refuses less than nothing and what is no number.
func amount(field string, v quantity.Volume) error {
	if v >= 0 && !math.IsInf(float64(v), 0) {
		return nil
	}
	return problem(field, "The ", field, " is ", quantity.Computed(v.FluidOunces(), 1, quantity.UnitFlOz), ". It must be 0 or more.")
}
