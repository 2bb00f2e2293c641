package torque

import (
	"math"

	"linkrod/radial/quantity"
)

// Range is a torque as sheets give it: from a minimum to a maximum, both of them good.
// A single value has the two the same.
type Range struct{ Min, Max quantity.Torque }

// Only is a range of one value.
func Only(t quantity.Torque) Range { return Range{t, t} }

// Holds reports that the torque is inside. The ends are.
func (r Range) Holds(t quantity.Torque) bool { return t >= r.Min && t <= r.Max }

// Middle is half-way. It is what to aim at on a ring of nuts, all of them alike: some at
// the minimum and others at the maximum leave the load to the tighter ones (US Navy
// training text 14008).
func (r Range) Middle() quantity.Torque { return (r.Min + r.Max) / 2 }

// String is the range in both units: "420 to 450 inch pounds, 35 to 37.5 foot pounds".
func (r Range) String() string {
	if r.Min == r.Max {
		return shown(r.Min)
	}
	return figure(r.Min.InchPounds()) + " to " + figure(r.Max.InchPounds()) + " inch pounds, " +
		figure(r.Min.FootPounds()) + " to " + figure(r.Max.FootPounds()) + " foot pounds"
}

func figure(v float64) string { return quantity.Figure(v, 1) }

func (r Range) check() error {
	if err := first(aboveTorque("minimum", r.Min), aboveTorque("maximum", r.Max)); err != nil {
		return err
	}
	if r.Min > r.Max {
		return problem("minimum", "The minimum, ", shown(r.Min), ", is more than the maximum, ", shown(r.Max), ". They may be the other way round.")
	}
	return nil
}

// DragRule is what is done with the torque it takes to run a self-locking nut down
// before it touches anything. Two published rules differ, so the sheet has to say which
// is meant.
type DragRule uint8

// The rules.
const (
	// AddAlways: the drag is measured close to contact and always added. FAA AC
	// 43.13-1B 7-40 c and d.
	AddAlways DragRule = iota + 1
	// AddFromThird: the drag is measured one turn before seating; it is left out if it
	// is under a third of the wanted torque and added if it is a third or more. Army TB
	// 43-0218 7c.
	AddFromThird
)

// Final is the torque that must act at the nut, drag included, for the wanted one. With
// an adapter it is Final that goes into Setup.Setting. A drag of 0 is a nut that runs
// down freely.
//
// AddFromThird is written for a single value. Where a drag is a third or more of the
// minimum and under a third of the maximum the rule answers both ways, and that is
// refused; give one value of the range.
func Final(wanted Range, drag quantity.Torque, rule DragRule) (Range, error) {
	if err := wanted.check(); err != nil {
		return Range{}, err
	}
	if !(drag >= 0) || math.IsInf(float64(drag), 0) {
		return Range{}, problem("drag", "The drag is ", shown(drag), ". It must be 0, for a nut that runs down freely, or more.")
	}
	switch rule {
	case AddAlways:
		return Range{wanted.Min + drag, wanted.Max + drag}, nil
	case AddFromThird:
		atMin, atMax := 3*drag >= wanted.Min, 3*drag >= wanted.Max
		if atMin != atMax {
			return Range{}, problem("drag", "A drag of ", shown(drag), " is more than a third of ", shown(wanted.Min), " and less than a third of ", shown(wanted.Max),
				". The rule is for one value: say which torque in the range is wanted.")
		}
		if !atMax {
			return wanted, nil
		}
		return Range{wanted.Min + drag, wanted.Max + drag}, nil
	}
	return Range{}, problem("drag rule", "It is not said whether drag is always added or only from a third of the torque. The sheet has to say.")
}

// SayCastle is how a castle nut is lined up within a range that has its drag added:
// AC 43.13-1B 7-40f.
func (r Range) SayCastle() string {
	return "Start at " + shown(r.Min) + ". If the hole is not in line, go on to the next slot, never past " + shown(r.Max) +
		" and never back. If no slot comes, change the washer or the nut."
}

// Less is a torque for dry threads made less by so many per cent, as some sheets ask for
// when the threads are oiled or newly plated. It is done only where the sheet itself says
// so and by how much: an Army manual says 10 with engine oil and 20 newly plated (TM
// 9-2320-362-14&P, app. F), an Army helicopter manual 30 for any lubricant (TM
// 55-1520-240-23-1).
func Less(dry quantity.Torque, percent float64) (quantity.Torque, error) {
	if err := aboveTorque("torque", dry); err != nil {
		return 0, err
	}
	if !(percent >= 0 && percent < 100) {
		return 0, problem("per cent", "The torque is to be made less by ", quantity.Figure(percent, 1), " per cent. It must be from 0 to under 100.")
	}
	return dry * quantity.Torque((100-percent)/100), nil
}
