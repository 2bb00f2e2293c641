package checks

import (
	"fmt"
	"strings"

	"linkrod/radial/civil"
	"linkrod/radial/due"
	"linkrod/radial/quantity"
)

// The rows' own intervals: 14 CFR 91.409(a) and (b).
var (
	annual      = due.Interval{Calendar: due.ByCalendar{Every: 12, Period: due.CalendarMonths}}
	hundredHour = due.Interval{Hours: due.ByHours{
		Every: quantity.Of("100", quantity.UnitH), Overrun: quantity.Of("10", quantity.UnitH), Carry: true,
	}}
)

func init() {
	answers("calendar", table{
		"annual signed; last day it is good for": func(c *Case) Answer {
			next, err := annual.Next(due.At{Day: c.day("#1")})
			return is(next.Day, err)
		},
		"100-hour inspection: next due": func(c *Case) Answer {
			next, err := hundredHour.Next(c.hoursAt("#1", "done on time at"))
			return hoursOf(next.Hours, err)
		},
		"100-hour inspection: next due after inspection done late": func(c *Case) Answer {
			next, err := hundredHour.NextAfter(c.hoursAt("#1", "due"), c.hoursAt("#2", "done"))
			return hoursOf(next.Hours, err)
		},
		"100-hour inspection: latest time by the en route allowance": func(c *Case) Answer {
			latest, err := due.Due{Interval: hundredHour, Hours: c.hoursAt("#1", "due").Hours}.Latest()
			return hoursOf(latest.Hours, err)
		},
		"days idle": func(c *Case) Answer {
			from, to, _ := strings.Cut(c.Text("#1"), " to ")
			return just(int(c.parsed(to) - c.parsed(from)))
		},
		"HH:MM to decimal hours": func(c *Case) Answer {
			r, err := quantity.Parse(c.Text("#1"), quantity.UnitH)
			return hoursOf(r.Measured, err)
		},
		"HH:MM to nearest tenth, half up, in whole minutes": func(c *Case) Answer {
			r, err := quantity.Parse(c.Text("#1"), quantity.UnitH)
			if err != nil {
				return is(nil, err)
			}
			tenths, _, err := r.Measured.Rounded(quantity.UnitH, 1)
			return hoursOf(tenths, err)
		},
		"decimal hours to H:MM(.m)": func(c *Case) Answer {
			return just(due.Clock(c.Measured("#1", quantity.DimTime, "")))
		},
		"total time through a meter change": func(c *Case) Answer {
			var total, start, now string
			if _, err := fmt.Sscanf(c.Text("#1")+" "+c.Text("#2"), "TT %s at tach %s (new meter) now tach %s", &total, &start, &now); err != nil {
				return is(nil, err)
			}
			m := due.Meters{Start: quantity.Of(start, quantity.UnitH), Total: quantity.Of(total, quantity.UnitH)}
			return hoursOf(m.TotalAt(quantity.Of(now, quantity.UnitH)))
		},
		"tach hours in one clock hour at constant rpm": func(c *Case) Answer {
			var speed, reference quantity.Speed
			if _, err := fmt.Sscanf(c.Text("#1")+" "+c.Text("#2"), "%g rpm reference %g rpm", &speed, &reference); err != nil {
				return is(nil, err)
			}
			return is(due.MeterHours(quantity.Hour, speed, reference))
		},
		"*": func(c *Case) Answer {
			// The quantity itself holds a figure.
			var n int
			var over float64
			if _, err := fmt.Sscanf(c.Quantity, "%d months after", &n); err == nil {
				next, err := due.Interval{Calendar: due.ByCalendar{Every: n, Period: due.Months}}.Next(due.At{Day: c.day("#1")})
				return is(next.Day, err)
			}
			if _, err := fmt.Sscanf(c.Quantity, "100-hour inspection: hours left after a %g h overrun", &over); err == nil {
				was, done := c.hoursAt("#1", "due"), c.hoursAt("#2", "done")
				next, err := hundredHour.NextAfter(was, done)
				if err != nil {
					return is(nil, err)
				}
				s, err := next.Judge(done)
				return hoursOf(s.Hours.Left, err)
			}
			return is(nil, fmt.Errorf("no quantity %q", c.Quantity))
		},
	})
}

// day is an input that is a day.
func (c *Case) day(name string) civil.Day { return c.parsed(c.Text(name)) }

func (c *Case) parsed(text string) civil.Day {
	d, err := civil.Parse(strings.TrimSpace(text))
	if err != nil {
		c.fail(err)
	}
	return d
}

// hoursAt is an input that is hours after a word: "due 1100.0", "done 1104.0 (4.0 h en route)".
func (c *Case) hoursAt(name, word string) due.At {
	text, _, _ := strings.Cut(c.Text(name), "(")
	figure, ok := strings.CutPrefix(strings.TrimSpace(text), word+" ")
	d, err := quantity.ParseDecimal(strings.TrimSpace(figure))
	if !ok || err != nil {
		c.fail(fmt.Errorf("input %s=%s is not %s and hours", name, text, word))
	}
	return due.At{Hours: quantity.Measured{Value: d, Unit: quantity.UnitH}}
}

// hoursOf is an answer in hours as they are kept.
func hoursOf(m quantity.Measured, err error) Answer {
	if err != nil {
		return is(nil, err)
	}
	return is(m.Hours())
}
