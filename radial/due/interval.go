package due

import (
	"strconv"

	"linkrod/radial/civil"
	"linkrod/radial/quantity"
)

// At is a place on the two lines: total hours, and the day. Either may be not known,
// which is the zero Measured and the zero Day and never nought.
type At struct {
	Hours quantity.Measured
	Day   civil.Day
}

// Interval is how often something is to be done: by hours, by the calendar, or by both
// and then whichever comes first. The zero of either is not by that.
type Interval struct {
	Hours    ByHours
	Calendar ByCalendar
}

// ByHours is an interval in hours of the meter.
type ByHours struct {
	Every   quantity.Measured // more than 0; not given: not by hours
	Overrun quantity.Measured // how far past due its card allows; not given: none
	Carry   bool              // what was overrun is taken off the next
}

// ByCalendar is an interval in days or months.
type ByCalendar struct {
	Every   int // 1 or more; 0: not by the calendar
	Period  Period
	Overrun int  // days past due its card allows
	Carry   bool // what was overrun is taken off the next
}

// Period is what a calendar interval counts. The zero Period is none and is refused: 12
// months and 12 calendar months can end thirty days apart.
type Period uint8

// The periods.
const (
	_              Period = iota
	Days                  // the same hour of the day so many days on
	Months                // the same day of the month, or the last of a shorter one
	CalendarMonths        // to the end of that month, as an annual is good for
)

// The longest interval that is taken: a hundred years.
const (
	mostMonths = 1200
	mostDays   = 36525
)

func problem(field, sentence string) error {
	return &quantity.Problem{Field: field, Sentence: sentence}
}

// Check refuses an interval that says nothing, or contradicts itself.
func (iv Interval) Check() error {
	if !iv.Hours.used() && !iv.Calendar.used() {
		return problem("interval", "No interval is given. It takes hours, or days or months, or both.")
	}
	if err := iv.Hours.check(); err != nil {
		return err
	}
	return iv.Calendar.check()
}

func (h ByHours) used() bool    { return h != ByHours{} }
func (c ByCalendar) used() bool { return c != ByCalendar{} }

func (h ByHours) check() error {
	switch {
	case !h.used():
		return nil
	case !h.Every.Given():
		return problem("every", "The hours between are not given. There is an overrun or a rule for it and no interval.")
	case h.Every.Dimension() != quantity.DimTime:
		return problem("every", "The interval is "+h.Every.Show()+". It must be hours.")
	case h.Every.Value.Sign() <= 0:
		return problem("every", "The interval is "+h.Every.Show()+". It must be more than 0.")
	case !h.Overrun.Given():
		return even("every", h.Every)
	case h.Overrun.Dimension() != quantity.DimTime:
		return problem("overrun", "The overrun is "+h.Overrun.Show()+". It must be hours.")
	case h.Overrun.Value.Sign() < 0:
		return problem("overrun", "The overrun is "+h.Overrun.Show()+". It must be 0 or more.")
	}
	if c, err := quantity.Compare(h.Overrun, h.Every); err != nil || c >= 0 {
		return problem("overrun", "The overrun is "+h.Overrun.Show()+" and the interval "+h.Every.Show()+". The overrun must be less.")
	}
	return first(even("every", h.Every), even("overrun", h.Overrun))
}

func (c ByCalendar) check() error {
	most, shortest := mostMonths, 28
	if c.Period == Days {
		most, shortest = mostDays, 1
	}
	switch {
	case !c.used():
		return nil
	case c.Period < Days || c.Period > CalendarMonths:
		return problem("period", "Every "+strconv.Itoa(c.Every)+" of what? Days, months, or calendar months, which end with their month.")
	case c.Every < 1 || c.Every > most:
		return problem("every", "The interval is "+c.Period.count(c.Every)+". It must be from 1 to "+strconv.Itoa(most)+".")
	case c.Overrun < 0 || c.Overrun >= c.Every*shortest:
		return problem("overrun", "The overrun is "+Days.count(c.Overrun)+" and the interval "+c.Period.count(c.Every)+". The overrun must be 0 or more and less than the interval.")
	}
	return nil
}

// count is so many of a period in words: "1 day", "12 calendar months".
func (p Period) count(n int) string {
	word := [...]string{"", "day", "month", "calendar month"}[p]
	if n != 1 {
		word += "s"
	}
	return strconv.Itoa(n) + " " + word
}

// after is a period so many times after a day.
func (c ByCalendar) after(d civil.Day) civil.Day {
	switch c.Period {
	case Days:
		return d.AddDays(c.Every)
	case Months:
		return d.AddMonths(c.Every)
	}
	return d.AddMonths(c.Every).MonthEnd()
}
