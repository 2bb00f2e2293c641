package due

import (
	"math"
	"strconv"

	"linkrod/radial/quantity"
)

// Meters is the hour meters an engine has had, from one reading on, as one line of hours.
type Meters struct {
	Start   quantity.Measured // the reading the line begins with
	Total   quantity.Measured // the total hours at Start; not given: not known
	Changes []Change          // of the meter since, in order
}

// Change is the change of a meter: the last reading of the old one and the first of the
// new.
type Change struct {
	Out, In quantity.Measured
}

// Offset is what the old meter showed more than the new one: added to a reading of the new
// meter it goes on from the old. Negative where a used meter was fitted that shows more.
//
//	out − in
func (c Change) Offset() (quantity.Measured, error) { return minus(c.Out, c.In) }

// Since is the hours run since Start when the present meter shows now: its reading, moved by
// the Offset of every change, less the one the line begins with. That is what each meter
// counted while it was fitted:
//
//	now + Σ (out − in) − start = (out₁ − start) + (out₂ − in₁) + … + (now − inₙ)
//
// They are known even when the total is not. It refuses a meter that went back.
func (m Meters) Since(now quantity.Measured) (quantity.Measured, error) {
	moved, from := quantity.Of("0", quantity.UnitH), m.Start
	for i, c := range m.Changes {
		field := "change " + strconv.Itoa(i+1)
		if err := fitted(field, from, c.Out); err != nil {
			return quantity.Measured{}, err
		}
		offset, err := c.Offset()
		if err == nil {
			moved, err = quantity.Add(moved, offset)
		}
		if err != nil {
			return quantity.Measured{}, problem(field, err.Error())
		}
		from = c.In
	}
	const field = "present hours"
	if err := fitted(field, from, now); err != nil {
		return quantity.Measured{}, err
	}
	at, err := quantity.Add(now, moved)
	if err == nil {
		at, err = minus(at, m.Start)
	}
	if err != nil {
		return quantity.Measured{}, problem(field, err.Error())
	}
	return at, nil
}

// fitted refuses the first and last reading of a meter that are not given or went back.
func fitted(field string, from, to quantity.Measured) error {
	if !from.Given() || !to.Given() {
		return problem(field, "A reading of the meter is not given. Each meter needs its first reading and its last.")
	}
	if err := first(hours(field, from), hours(field, to)); err != nil {
		return err
	}
	if order, err := quantity.Compare(to, from); err != nil {
		return problem(field, err.Error())
	} else if order < 0 {
		return problem(field, "The meter began at "+from.Show()+" and reads "+to.Show()+". Meters do not go back. Was it changed?")
	}
	return nil
}

// TotalAt is the total hours when the present meter shows now, Total + Since. It is not
// given, and no error, when Total is not known: unknown is not nought.
func (m Meters) TotalAt(now quantity.Measured) (quantity.Measured, error) {
	run, err := m.Since(now)
	if err != nil || !m.Total.Given() {
		return quantity.Measured{}, err
	}
	if err := hours("total hours", m.Total); err != nil {
		return quantity.Measured{}, err
	}
	total, err := quantity.Add(m.Total, run)
	if err != nil {
		return quantity.Measured{}, problem("total hours", err.Error())
	}
	return total, nil
}

// MeterHours is what a tachometer's hour meter counts while a clock counts the given
// time at a steady speed. Such a meter counts turns, and calls so many an hour at its
// reference speed.
//
//	tach hours = clock hours × rpm / reference rpm
func MeterHours(clock quantity.Hours, speed, reference quantity.Speed) (quantity.Hours, error) {
	switch {
	case !(clock >= 0) || math.IsInf(float64(clock), 0):
		return 0, problem("clock hours", "The time by the clock is "+quantity.Computed(clock.Hours(), 2, quantity.UnitH)+". It must be 0 or more.")
	case !(speed >= 0) || math.IsInf(float64(speed), 0):
		return 0, problem("speed", "The speed is "+quantity.Computed(speed.RPM(), 0, quantity.UnitRpm)+". It must be 0 or more.")
	case !(reference > 0) || math.IsInf(float64(reference), 0):
		return 0, problem("reference speed", "The meter's reference speed is "+quantity.Computed(reference.RPM(), 0, quantity.UnitRpm)+". It must be more than 0; it stands on the meter.")
	}
	return clock * quantity.Hours(speed/reference), nil
}
