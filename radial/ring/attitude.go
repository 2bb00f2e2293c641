package ring

import (
	"math"

	"linkrod/radial/quantity"
)

// Attitude is how the aeroplane stands. The zero Attitude is level.
type Attitude struct {
	Roll     quantity.Angle // right wing low, as the pilot sits; left wing low is negative
	TailDown quantity.Angle // shaft pointing up at the propeller, as a tailwheel aeroplane parks
}

// level is how near the horizontal counts as on it, in degrees: far below what a
// parked aeroplane holds and far above the rounding of the arithmetic.
const level = 1e-9

func (a Attitude) check() error {
	if err := first(finite("roll", a.Roll), finite("tail-down angle", a.TailDown)); err != nil {
		return err
	}
	if math.Abs(a.TailDown.Degrees()) >= 90 {
		return problem("tail-down angle", "The tail-down angle is ", quantity.Computed(a.TailDown.Degrees(), 1, quantity.UnitDeg), ". It must be less than 90° either way.")
	}
	return nil
}

// Elevation is how far the axis of cylinder k points above the horizontal, from −90°
// (straight down, the head a bowl) to 90°.
//
//	sin elevation = cos(angle + roll) × cos(tail-down)
//
// with the angle clockwise from the top as seen from the cockpit. So a tail on the
// ground never changes which cylinders hang, only how steeply, and where in the head
// the oil lies; a low wing does change it.
func (r Ring) Elevation(k int, a Attitude) (quantity.Angle, error) {
	if err := first(r.has("cylinder", k), a.check()); err != nil {
		return 0, err
	}
	return quantity.Angle(r.elevation(k, a)), nil
}

func (r Ring) elevation(k int, a Attitude) float64 {
	up := math.Cos((r.cockpit(k)+a.Roll.Degrees())*math.Pi/180) * math.Cos(a.TailDown.Radians())
	return math.Asin(up) * 180 / math.Pi
}

// Below is the cylinders that hang below the horizontal, where oil can pool and a
// hydraulic lock can be. One that lies exactly level is not among them; see Level.
func (r Ring) Below(a Attitude) ([]int, error) {
	return r.which(a, func(e float64) bool { return e < -level })
}

// Level is the cylinders that lie on the horizontal, neither hanging nor standing.
// They hold what they hold: whoever drains the low ones looks at these too.
func (r Ring) Level(a Attitude) ([]int, error) {
	return r.which(a, func(e float64) bool { return math.Abs(e) <= level })
}

// Lowest is the cylinders that hang lowest: one, or two side by side.
func (r Ring) Lowest(a Attitude) ([]int, error) {
	low := 90.0
	for k := 1; k <= r.n; k++ {
		low = min(low, r.elevation(k, a))
	}
	return r.which(a, func(e float64) bool { return e <= low+level })
}

// which is the cylinders whose elevation passes the test, in order.
func (r Ring) which(a Attitude, passes func(elevation float64) bool) ([]int, error) {
	if err := a.check(); err != nil {
		return nil, err
	}
	var list []int
	for k := 1; k <= r.n; k++ {
		if passes(r.elevation(k, a)) {
			list = append(list, k)
		}
	}
	return list, nil
}
