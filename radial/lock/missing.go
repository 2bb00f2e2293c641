package lock

import (
	"strconv"

	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

// Low is a cylinder in which oil can pool, with its own chamber.
type Low struct {
	Cylinder int // 0: whichever it is
	Chamber  ring.Chamber
}

// Lows is the cylinders of a ring that hang below the horizontal, or lie level, each with
// its chamber; chambers has one for each cylinder, 1 to N (ring.Linkage.Chambers).
func Lows(r ring.Ring, a ring.Attitude, chambers []ring.Chamber) ([]Low, error) {
	below, err := r.Below(a)
	if err != nil {
		return nil, err
	}
	level, _ := r.Level(a) // the attitude is good
	if len(chambers) != r.Cylinders() {
		return nil, problem("chambers", "There are ", strconv.Itoa(len(chambers)), " clearance volumes for ", strconv.Itoa(r.Cylinders()), " cylinders. Give one for each.")
	}
	var list []Low
	for _, k := range append(below, level...) {
		list = append(list, Low{k, chambers[k-1]})
	}
	return list, nil
}

// Shown is the share of a clearance volume from which missing oil is called shown. It is
// a choice, not a finding: a line to draw attention at. Below it the oil is not shown to
// be missing, which is a different thing from its not being there.
const Shown = 0.25

// Worst is what oil that left the tank and was not found could do: all of it in the one
// low cylinder that has least room. It is a bound, not a forecast.
type Worst struct {
	Cylinder int    // the low cylinder with the smallest clearance volume
	Charge   Charge // that cylinder with all that could be missing in it
	// SurelyFilled is how much of its clearance volume the oil that is surely missing
	// would take. It is somewhere in the engine, in a cylinder or not.
	SurelyFilled float64
	Surely       quantity.Volume
}

// WorstCase is the worst that missing oil could do. surely and could are the one-sided
// bounds of the remainder, from package oil: at least this much is somewhere in the
// engine, and up to this much may be.
//
// Whatever it says, it may only raise concern. A stick never clears an engine: the
// uncertainty of two levels alone is of the size of a clearance volume. Only draining
// every low cylinder and its inlet pipe, and the pull-through of the owner's card, deal
// with a lock.
func WorstCase(surely, could quantity.Volume, low []Low) (Worst, error) {
	if err := first(amount("oil surely missing", surely), amount("oil that could be missing", could)); err != nil {
		return Worst{}, err
	}
	if surely > could {
		return Worst{}, problem("oil surely missing", "At least ", quantity.Computed(surely.FluidOunces(), 1, quantity.UnitFlOz), " missing and at most ", quantity.Computed(could.FluidOunces(), 1, quantity.UnitFlOz), ": the first cannot be more.")
	}
	if len(low) == 0 {
		return Worst{}, problem("low cylinders", "No cylinder is given for the oil to be in. Every parked radial has some that hang low.")
	}
	tightest := low[0]
	for _, l := range low {
		if l.Chamber.Clearance < tightest.Chamber.Clearance {
			tightest = l
		}
	}
	charge, err := Fill(tightest.Chamber, could)
	if err != nil {
		return Worst{}, err
	}
	return Worst{tightest.Cylinder, charge, float64(surely / tightest.Chamber.Clearance), surely}, nil
}

// Shown reports that a good part of a clearance volume is surely missing.
func (w Worst) Shown() bool { return w.SurelyFilled >= Shown }

// Words is the finding in sentences, with the one that never changes.
func (w Worst) Words() string {
	s := "Not shown that oil is missing."
	if w.Shown() {
		s = "At least " + quantity.Computed(w.Surely.FluidOunces(), 1, quantity.UnitFlOz) + " of oil is somewhere in the engine."
	}
	where := "one low cylinder"
	if w.Cylinder > 0 {
		where = "cylinder " + strconv.Itoa(w.Cylinder)
	}
	switch {
	case w.Charge.Locked:
		s += " It could be up to " + quantity.Computed(w.Charge.Liquid.FluidOunces(), 1, quantity.UnitFlOz) + ", " + quantity.Figure(w.Charge.Filled, 1) + " clearance volumes of " + where + ": enough to lock it."
	case w.Charge.Liquid > 0:
		s += " It could be up to " + quantity.Computed(w.Charge.Liquid.FluidOunces(), 1, quantity.UnitFlOz) + "; all in " + where + " that would be " + quantity.Figure(w.Charge.Ratio, 1) + " to 1 of compression."
	}
	return s + " A stick never clears an engine: drain the low cylinders and their inlet pipes."
}
