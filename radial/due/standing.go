package due

import (
	"linkrod/radial/civil"
	"linkrod/radial/quantity"
)

// State is where something stands against its mark, in order of gravity: of two lines
// the later state is what counts. A line that is due counts before one that can't be
// judged, because due is what it is, whatever the other may be.
type State uint8

// The states.
const (
	NotUsed   State = iota // not due by this at all
	Ahead                  // before the mark
	CantJudge              // when it was done, or where it is now, is not known
	Now                    // at the mark, and from there to the overrun its card allows
	Late                   // past that
)

// Standing is where something stands at a place on the two lines.
type Standing struct {
	Due      Due
	State    State // the graver of the two
	Hours    HoursLeft
	Calendar DaysLeft
}

// HoursLeft is how it stands by hours.
type HoursLeft struct {
	State State
	Left  quantity.Measured // to the mark, negative past it; not given if it can't be judged
	Over  quantity.Measured // past the allowed overrun; not given unless late
}

// DaysLeft is how it stands by the calendar. Left and Over mean nothing if it can't be
// judged.
type DaysLeft struct {
	State State
	Left  int // days to the mark, negative past it; 0 is the day itself
	Over  int // days past the allowed overrun, 0 unless late
}

// Judge is how it stands at a place: now, or where it was done, which says whether it
// was done late and by how much.
//
//	Ahead   at < due
//	Now     due ≤ at ≤ due + overrun
//	Late    due + overrun < at
//
// It refuses a place before the one where it was last done: a meter that went back has
// been changed, and Meters is for that.
func (d Due) Judge(at At) (Standing, error) {
	if err := first(d.Interval.Check(), at.check("present"), d.notBefore(at)); err != nil {
		return Standing{}, err
	}
	latest, err := d.Latest()
	if err != nil {
		return Standing{}, err
	}
	s := Standing{Due: d, Calendar: d.days(at.Day, latest.Day)}
	if s.Hours, err = d.hours(at.Hours, latest.Hours); err != nil {
		return Standing{}, err
	}
	s.State = max(s.Hours.State, s.Calendar.State)
	return s, nil
}

func (d Due) notBefore(at At) error {
	if c, err := quantity.Compare(at.Hours, d.Done.Hours); err == nil && c < 0 {
		return problem("present hours", "It was last done at "+d.Done.Hours.Show()+" and the hours now are "+at.Hours.Show()+". Hours do not go back. Was the meter changed?")
	}
	if at.Day.Known() && at.Day < d.Done.Day {
		return problem("present day", "It was last done on "+d.Done.Day.Long()+", which is after "+at.Day.Long()+".")
	}
	return nil
}

func (d Due) hours(at, latest quantity.Measured) (HoursLeft, error) {
	switch {
	case !d.Interval.Hours.used():
		return HoursLeft{State: NotUsed}, nil
	case !d.Hours.Given() || !at.Given():
		return HoursLeft{State: CantJudge}, nil
	}
	left, err1 := minus(d.Hours, at)
	over, err2 := minus(at, latest)
	if err := first(err1, err2); err != nil {
		return HoursLeft{}, problem("present hours", err.Error())
	}
	h := HoursLeft{State: Ahead, Left: left}
	switch {
	case over.Value.Sign() > 0:
		h.State, h.Over = Late, over
	case left.Value.Sign() <= 0:
		h.State = Now
	}
	return h, nil
}

func (d Due) days(at, latest civil.Day) DaysLeft {
	switch {
	case !d.Interval.Calendar.used():
		return DaysLeft{State: NotUsed}
	case !d.Day.Known() || !at.Known():
		return DaysLeft{State: CantJudge}
	}
	c := DaysLeft{State: Ahead, Left: int(d.Day - at), Over: max(0, int(at-latest))}
	switch {
	case c.Over > 0:
		c.State = Late
	case c.Left <= 0:
		c.State = Now
	}
	return c
}
