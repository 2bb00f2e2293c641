package ignition

import (
	"math"
	"strconv"

	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

// BackOff is how far the crank is turned back against the rotation before it comes up
// to a timing mark, so that the last movement takes the lash out of the gears.
//
// Source: US Army TM 1-1500-204-23-1, magneto-to-engine timing check: a quarter turn.
const BackOff quantity.Angle = 90

// Cam is how a breaker cam spaces its lobes. The zero Cam is not known and is refused:
// which it is decides what every cylinder but the timing cylinder gets.
type Cam uint8

// The cams.
const (
	_           Cam = iota
	Even            // lobes evenly spaced, or one set of evenly timed sparks
	Compensated     // one lobe for each cylinder, each moved with its cylinder's top
)

// most is the widest advance that is taken: beyond any engine's, and near enough to catch
// a figure from another box.
const most = 60

// Maker is what the maker's data say of an engine's timing.
type Maker struct {
	Ring     ring.Ring
	Rods     ring.Linkage
	Cylinder int            // the timing cylinder, in most engines the master
	Advance  quantity.Angle // before its own top
	Cam      Cam
}

// Timing is a Maker's data that makes sense. It is made by New and does not change.
type Timing struct {
	maker   Maker
	pistons []ring.Piston
	even    []quantity.Angle // where each top would come, evenly spaced, from the master's
	order   []int            // serving order from the timing cylinder
}

// New is the timing of an engine. It refuses rods that are another engine's, a cylinder
// that is not there, an advance no engine has, and a cam that nobody has named.
func New(m Maker) (Timing, error) {
	t := Timing{maker: m, pistons: m.Rods.Pistons()}
	n := m.Ring.Cylinders()
	if n == 0 || len(t.pistons) != n {
		return Timing{}, problem("rods", "The rods are for "+strconv.Itoa(len(t.pistons))+" cylinders and the ring has "+strconv.Itoa(n)+".")
	}
	t.even, _ = m.Ring.Axes(m.Rods.Master()) // as many cylinders as rods
	if err := t.sameEngine(); err != nil {
		return Timing{}, err
	}
	switch {
	case m.Cylinder < 1 || m.Cylinder > n:
		return Timing{}, problem("timing cylinder", "Which cylinder is timed? The maker names one, 1 to "+strconv.Itoa(n)+".")
	case !(m.Advance >= 0 && m.Advance <= most):
		return Timing{}, problem("advance", "The advance is "+angle(m.Advance)+". It must be from 0° to "+strconv.Itoa(most)+"° before the top.")
	case m.Cam != Even && m.Cam != Compensated:
		return Timing{}, problem("cam", "Is the breaker cam even or compensated? A compensated one has a lobe for each cylinder, unevenly spaced.")
	}
	t.order, _ = m.Ring.FiringOrder(m.Cylinder) // the cylinder is there
	return t, nil
}

// sameEngine refuses rods whose axes are numbered, or turn, the other way from the ring.
func (t Timing) sameEngine() error {
	half := 180 / float64(len(t.pistons))
	for i, p := range t.pistons {
		if off := within180(p.Axis() - t.even[i]); math.Abs(off.Degrees()) >= half {
			return problem("rods", "The rods have "+cylinder(i+1)+" at "+angle(p.Axis())+" from the master and the ring has it at "+angle(t.even[i])+". Is one of them numbered or turned the other way?")
		}
	}
	return nil
}

// within180 is an angle in [−180, 180].
func within180(a quantity.Angle) quantity.Angle {
	return quantity.Angle(math.Remainder(a.Degrees(), 360))
}

// Spark is where one cylinder is fired.
type Spark struct {
	Cylinder int
	Link     bool           // its piston hangs on a link rod
	Shift    quantity.Angle // how much later than evenly spaced its top comes
	Advance  quantity.Angle // before its own top
	Before   quantity.Angle // before its evenly spaced place, as a disc set on another cylinder reads it
	Crank    quantity.Angle // crank angle from the master's top, in [0, 360)
	Travel   quantity.Length
	Slope    ring.Slope // how fast the piston rises there
}

// Spark is where cylinder k is fired when the timing cylinder is set as the maker says.
//
//	even          advance = n + shift of k − shift of the timing cylinder
//	compensated   advance = n
//
// n being the maker's advance; Travel is how far the piston is below its own top then.
// For a timing cylinder with the master rod its own shift is 0.
func (t Timing) Spark(k int) (Spark, error) {
	if k < 1 || k > len(t.pistons) {
		return Spark{}, problem("cylinder", "Which cylinder? One that hangs on a link rod has a figure of its own, so it has to be said: 1 to "+strconv.Itoa(len(t.pistons))+".")
	}
	p := t.pistons[k-1]
	s := Spark{Cylinder: k, Link: k != t.maker.Rods.Master(), Shift: t.shift(k), Advance: t.maker.Advance}
	if t.maker.Cam == Even {
		s.Advance += s.Shift - t.shift(t.maker.Cylinder)
	}
	s.Before = s.Advance - s.Shift
	s.Crank = quantity.Angle(math.Mod((t.even[k-1]-s.Before).Degrees()+360, 360))
	s.Travel = p.BeforeTop(s.Advance)
	s.Slope = p.SlopeBeforeTop(s.Advance)
	return s, nil
}

// shift is how much later than evenly spaced the top of cylinder k comes, by its rod and by
// its axis, which may have been measured and not stand evenly.
func (t Timing) shift(k int) quantity.Angle {
	return within180(t.pistons[k-1].Top().At - t.even[k-1])
}

// Lobe is one lobe of a breaker cam that turns at half crank speed.
type Lobe struct {
	Cylinder int            // the one it fires
	At       quantity.Angle // cam degrees after the timing cylinder's lobe
}

// Lobes is the lobes in serving order, beginning with the timing cylinder's.
//
//	even          i × 360/N
//	compensated   (i × 720/N + shift − the timing cylinder's shift)/2
//
// i being 0, 1, 2 in serving order. The timing cylinder's lobe is the one that the maker
// marks; a cam of another engine or rotation fits the spindle and damages pistons.
func (t Timing) Lobes() []Lobe {
	list := make([]Lobe, len(t.order))
	for i, k := range t.order {
		at := quantity.Angle(i) * t.maker.Ring.Interval()
		if t.maker.Cam == Compensated {
			at += t.shift(k) - t.shift(t.maker.Cylinder)
		}
		list[i] = Lobe{k, at / 2}
	}
	return list
}
