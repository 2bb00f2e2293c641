package ring

import (
	"math"
	"strconv"

	"linkrod/radial/quantity"
)

// View is the side an engine is looked at from. Clockwise means nothing without it.
// The zero View is none and is refused: half of all mix-ups about cylinders come
// from somebody not saying where they stood.
type View uint8

const (
	_             View = iota
	FromCockpit        // from behind, as the pilot sits; the trade's left and right are from here
	FromPropeller      // from in front, facing it
)

// Turn is a sense of going round as seen from some View. The zero Turn is none and
// is refused.
type Turn uint8

const (
	_ Turn = iota
	Clockwise
	Anticlockwise
)

// sign is +1 for clockwise seen from the cockpit and -1 for the other way.
func (t Turn) sign(seen View) float64 {
	if (t == Clockwise) == (seen == FromCockpit) {
		return 1
	}
	return -1
}

// Layout is how a single row of cylinders stands in the aeroplane, how it is
// numbered and which way it turns, all as seen from one side.
//
// What the trade usually means when it says nothing: seen from the cockpit, no. 1 at
// the top, numbers clockwise, shaft clockwise (common practice, no source). It is
// not assumed here, because engines that number or turn the other way exist.
type Layout struct {
	Cylinders int  // 5, 7 or 9; any odd number from 3 to 11 is taken
	Seen      View // where the person stands who says the following
	Numbered  Turn // the way the numbers run
	Turns     Turn // the way the crankshaft turns
	// No1 is where cylinder 1 stands, clockwise from the top as seen from Seen.
	// 0 is at the top.
	No1 quantity.Angle
}

// Ring is a Layout that makes sense. Its cylinders are called by number, 1 to
// Cylinders(). The zero Ring has none.
type Ring struct {
	n             int
	number, turns float64 // +1 clockwise from the cockpit, -1 anticlockwise
	no1           float64 // degrees clockwise from the top, from the cockpit
}

// New is the ring of a layout. It refuses an even number of cylinders, which a
// single-row four-stroke engine cannot fire evenly, and a side or a sense that
// nobody has said.
func New(l Layout) (Ring, error) {
	switch {
	case l.Cylinders < 3 || l.Cylinders > 11 || l.Cylinders%2 == 0:
		return Ring{}, problem("cylinders", "A single row has an odd number of cylinders, 5, 7 or 9 here (3 and 11 are taken too), not ", strconv.Itoa(l.Cylinders), ".")
	case l.Seen != FromCockpit && l.Seen != FromPropeller:
		return Ring{}, problem("view", "From which side? Clockwise from the cockpit is anticlockwise from the propeller.")
	case l.Numbered != Clockwise && l.Numbered != Anticlockwise:
		return Ring{}, problem("numbering", "Which way do the numbers run, clockwise or anticlockwise?")
	case l.Turns != Clockwise && l.Turns != Anticlockwise:
		return Ring{}, problem("rotation", "Which way does the engine turn, clockwise or anticlockwise?")
	}
	if err := finite("no. 1", l.No1); err != nil {
		return Ring{}, err
	}
	return Ring{
		n:      l.Cylinders,
		number: l.Numbered.sign(l.Seen),
		turns:  l.Turns.sign(l.Seen),
		no1:    l.No1.Degrees() * Clockwise.sign(l.Seen),
	}, nil
}

// Cylinders is how many there are.
func (r Ring) Cylinders() int { return r.n }

// NumberedWithRotation reports that the shaft turns the way the numbers run. Many
// facts of a ring hang on this alone and not on either sense by itself.
func (r Ring) NumberedWithRotation() bool { return r.number == r.turns }

// spacing is the angle from one cylinder to the next.
func (r Ring) spacing() float64 { return 360 / float64(r.n) }

// has refuses a cylinder that is not there.
func (r Ring) has(field string, k int) error {
	if k >= 1 && k <= r.n {
		return nil
	}
	return problem(field, "There is no cylinder ", strconv.Itoa(k), ": this engine's are numbered 1 to ", strconv.Itoa(r.n), ".")
}

// wrap is cylinder k counted round the ring, so that N+1 is 1 and 0 is N.
func (r Ring) wrap(k int) int { return ((k-1)%r.n+r.n)%r.n + 1 }

// Angle is where cylinder k stands, clockwise from the top as seen from a side, in
// [0, 360). From the other side it is 360° less that.
//
//	angle = 360/N × (k − 1)      with no. 1 at the top and numbers clockwise
func (r Ring) Angle(k int, seen View) (quantity.Angle, error) {
	if seen != FromCockpit && seen != FromPropeller {
		return 0, problem("view", "From which side? Clockwise from the cockpit is anticlockwise from the propeller.")
	}
	if err := r.has("cylinder", k); err != nil {
		return 0, err
	}
	return quantity.Angle(whole(r.cockpit(k) * Clockwise.sign(seen))), nil
}

// cockpit is where cylinder k stands, degrees clockwise from the top from the cockpit.
func (r Ring) cockpit(k int) float64 {
	return r.no1 + r.number*r.spacing()*float64(k-1)
}

// whole is a in [0, 360).
func whole(a float64) float64 {
	if a = math.Mod(a, 360); a < 0 {
		a += 360
	}
	if a >= 360 { // a tiny negative angle rounds up to a whole turn
		return 0
	}
	return a
}

// Axes is the angle of each cylinder's axis from the master's, positive in the
// direction of rotation, in [0, 360): φ in the link-rod formulas. Cylinder k is
// entry k−1.
//
//	φₖ = sense × (k − m) × 360/N mod 360, sense +1 if numbered with rotation, else −1
func (r Ring) Axes(master int) ([]quantity.Angle, error) {
	if err := r.has("master cylinder", master); err != nil {
		return nil, err
	}
	axes := make([]quantity.Angle, r.n)
	for i := range axes {
		steps := i + 1 - master
		if !r.NumberedWithRotation() {
			steps = -steps
		}
		axes[i] = quantity.Angle(360 * float64((steps+r.n)%r.n) / float64(r.n))
	}
	return axes, nil
}

// Mirror is the cylinder opposite k across the line through the master cylinder and
// the shaft. With rods built alike in pairs the two have the same top, the same
// bottom and the same stroke, so a bent link rod shows against its mirror and not
// against the average. The master is its own mirror.
//
//	(2m − k) mod N, with 0 meaning N
//
// What the two do not share is the way to the top: the travel of one at so many
// degrees before its top is the travel of the other at as many after. They compare
// at the tops alone.
func (r Ring) Mirror(k, master int) (int, error) {
	if err := first(r.has("cylinder", k), r.has("master cylinder", master)); err != nil {
		return 0, err
	}
	return r.wrap(2*master - k), nil
}

// Mirrors is every pair of mirror cylinders, the lower number first, in order.
func (r Ring) Mirrors(master int) ([][2]int, error) {
	if err := r.has("master cylinder", master); err != nil {
		return nil, err
	}
	var pairs [][2]int
	for k := 1; k <= r.n; k++ {
		if j := r.wrap(2*master - k); k < j {
			pairs = append(pairs, [2]int{k, j})
		}
	}
	return pairs, nil
}
