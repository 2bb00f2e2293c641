package due

import (
	"linkrod/radial/civil"
	"linkrod/radial/quantity"
)

// Due is when something is due. It is made by Interval.Next and Interval.NextAfter.
type Due struct {
	Interval Interval
	Done     At // when it was last done
	// Hours and Day are the marks. Not given, or no day: not due by that, or it is not
	// known when it was last done.
	Hours quantity.Measured
	Day   civil.Day
}

// Next is when it is due after it was done for the first time, or done as something
// whose overrun is nobody's concern.
func (iv Interval) Next(done At) (Due, error) { return iv.NextAfter(At{}, done) }

// NextAfter is when it is due after it was due and then done. Where the interval carries
// over, its next counts from the mark if the mark came first:
//
//	next = min(due, done) + every     carried over
//	next = done + every               otherwise
//
// so what was overrun is taken off the next, what was done early is not saved, and the
// same mark comes out however late it was done. A mark that was not known counts as if
// there had been none.
//
// Source: 14 CFR 91.409(b), for the inspection whose overrun is counted in the next.
func (iv Interval) NextAfter(was, done At) (Due, error) {
	if err := first(iv.Check(), was.check("due"), done.check("done")); err != nil {
		return Due{}, err
	}
	next := Due{Interval: iv, Done: done}
	if from := done.Hours; iv.Hours.used() && from.Given() {
		if c, err := quantity.Compare(was.Hours, from); iv.Hours.Carry && err == nil && c < 0 {
			from = was.Hours
		}
		var err error
		if next.Hours, err = quantity.Add(from, iv.Hours.Every); err != nil {
			return Due{}, problem("every", err.Error())
		}
	}
	if from := done.Day; iv.Calendar.used() && from.Known() {
		if iv.Calendar.Carry && was.Day.Known() && was.Day < from {
			from = was.Day
		}
		if next.Day = iv.Calendar.after(from); !next.Day.Known() {
			return Due{}, problem("every", "It would be due after the year 9999.")
		}
	}
	return next, nil
}

// At is the marks as a place on the two lines, for NextAfter.
func (d Due) At() At { return At{d.Hours, d.Day} }

// Latest is how far the card lets each of the marks be overrun: the marks themselves
// where it allows nothing.
func (d Due) Latest() (At, error) {
	latest := At{d.Hours, d.Day.AddDays(d.Interval.Calendar.Overrun)}
	if d.Hours.Given() && d.Interval.Hours.Overrun.Given() {
		var err error
		if latest.Hours, err = quantity.Add(d.Hours, d.Interval.Hours.Overrun); err != nil {
			return At{}, problem("overrun", err.Error())
		}
	}
	return latest, nil
}

// check refuses hours that are not hours, and a day that is none.
func (a At) check(field string) error {
	if !a.Day.Known() && a.Day != 0 {
		return problem(field+" day", "The day it was "+field+" is not in the calendar.")
	}
	return hours(field+" hours", a.Hours)
}

// hours refuses what is given and is not hours, 0 or more.
func hours(field string, m quantity.Measured) error {
	switch {
	case !m.Given():
		return nil
	case m.Dimension() != quantity.DimTime:
		return problem(field, "The "+field+" are "+m.Show()+". They must be hours.")
	case m.Value.Sign() < 0:
		return problem(field, "The "+field+" are "+m.Show()+". They must be 0 or more.")
	}
	return even(field, m)
}

// even refuses a time that is no decimal number of hours, which no meter shows and no
// sum here could keep exactly.
func even(field string, m quantity.Measured) error {
	if _, err := m.Exactly(quantity.UnitH); err != nil {
		return problem(field, err.Error()+" Give them as hours and a decimal.")
	}
	return nil
}

// first is the first error there is.
func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// minus is a − b in a's unit, exact.
func minus(a, b quantity.Measured) (quantity.Measured, error) {
	return quantity.Add(a, quantity.Measured{Value: b.Value.Neg(), Unit: b.Unit})
}
