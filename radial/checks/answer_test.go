package checks

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"

	"linkrod/radial/oil"
	"linkrod/radial/quantity"
)

// Answer is what the product said to a row.
type Answer struct {
	value any
	err   error
}

// is takes what a function of the product returned: is(ring.Displacement(…)).
func is(value any, err error) Answer { return Answer{value, err} }

// just takes the answer of a function that cannot fail.
func just(value any) Answer { return Answer{value, nil} }

// parts are several answers to one row, where the table puts semicolons: 3;1/6.
type parts []any

// judge compares the answer with what the row expects. nil is a pass.
func (c *Case) judge(a Answer) error {
	if c.err != nil {
		return fmt.Errorf("can't be read: %w", c.err)
	}
	if a.err != nil {
		return fmt.Errorf("the product says: %w", a.err)
	}
	for _, n := range c.names {
		if !c.asked[n] {
			return fmt.Errorf("can't be read: nobody asked for input %s=%s", n, c.in[n])
		}
	}
	got := flat(a.value)
	want := []string{strings.TrimSpace(c.Expected)}
	if len(got) > 1 {
		want = split(c.Expected)
	}
	units := split2(c.Unit)
	if len(got) != len(want) {
		return fmt.Errorf("%d values, want %d: got %v, want %s", len(got), len(want), got, c.Expected)
	}
	for i := range got {
		unit := units[0]
		if len(units) == len(got) {
			unit = units[i]
		}
		if err := c.same(got[i], want[i], unit); err != nil {
			return err
		}
	}
	return nil
}

// flat is the values of an answer one after another.
func flat(value any) []any {
	if p, ok := value.(parts); ok {
		return p
	}
	if v := reflect.ValueOf(value); v.Kind() == reflect.Slice {
		list := make([]any, v.Len())
		for i := range list {
			list[i] = v.Index(i).Interface()
		}
		return list
	}
	return []any{value}
}

// split takes a list apart: parts at semicolons, otherwise values at blanks.
func split(text string) []string {
	if strings.Contains(text, ";") {
		return split2(text)
	}
	return strings.Fields(text)
}

func split2(text string) []string {
	text, _, _ = strings.Cut(text, "(")
	list := strings.Split(text, ";")
	for i := range list {
		list[i] = strings.TrimSpace(list[i])
	}
	return list
}

// same compares one value.
func (c *Case) same(got any, want, unit string) error {
	if m, ok := got.(quantity.Measured); ok {
		return c.turned(m, want, unit)
	}
	if _, _, typed := quantityOf(got); !typed {
		if s, ok := asText(got); ok {
			if strings.Join(strings.Fields(s), " ") != strings.Join(strings.Fields(want), " ") {
				return fmt.Errorf("got %q, want %q", s, want)
			}
			return nil
		}
	}
	g, err := in(got, unit)
	if err != nil {
		return err
	}
	w, err := strconv.ParseFloat(want, 64)
	if err != nil {
		return fmt.Errorf("can't be read: expected %q is not a number", want)
	}
	if !c.Tolerance.holds(g, w) {
		return fmt.Errorf("got %.12g, want %s %s within %s %g", g, want, unit, c.Tolerance.Kind, c.Tolerance.By)
	}
	return nil
}

// turned compares a measured value, turned into the row's unit in decimals: exactly where
// the row is exact, else to twelve places.
func (c *Case) turned(m quantity.Measured, want, unit string) error {
	u, ok := unitOf(unit, m.Dimension())
	w, err := quantity.ParseDecimal(want)
	if !ok || err != nil {
		return fmt.Errorf("can't be read: %s in %q, expected %q (%v)", m.Text(), unit, want, err)
	}
	if c.Tolerance.Kind == "exact" {
		if got, err := m.Exactly(u); err != nil || got.Value.Compare(w) != 0 {
			return fmt.Errorf("%s is %s (%v), want exactly %s %s", m.Text(), got.Text(), err, want, unit)
		}
		return nil
	}
	got, _, err := m.Rounded(u, 12)
	if err != nil || !c.Tolerance.holds(got.Value.Float64(), w.Float64()) {
		return fmt.Errorf("%s is %s (%v), want %s %s within %s %g", m.Text(), got.Text(), err, want, unit, c.Tolerance.Kind, c.Tolerance.By)
	}
	return nil
}

// asText is an answer in words or a yes or no.
func asText(v any) (string, bool) {
	switch v := v.(type) {
	case string:
		return v, true
	case bool:
		return strconv.FormatBool(v), true
	case fmt.Stringer:
		return v.String(), true
	}
	return "", false
}

// in is a value in the row's unit. A typed quantity is turned through
// radial/quantity and the unit must be of its kind; a plain number must stand in a
// column whose unit is none that radial/quantity knows.
func in(v any, unit string) (float64, error) {
	if d, ok := v.(oil.Density); ok {
		switch unit {
		case "kg/m3":
			return d.KilogramsPerCubicMetre(), nil
		case "lb/US gal":
			return d.PoundsPerGallon(), nil
		}
		return 0, fmt.Errorf("the answer is a density, the row wants %q", unit)
	}
	dim, base, typed := quantityOf(v)
	if !typed {
		if unit != "" && isUnit(unit) {
			return 0, fmt.Errorf("the answer %v has no unit, the row wants %s", v, unit)
		}
		return base, nil
	}
	u, ok := unitOf(unit, dim)
	if !ok {
		return 0, fmt.Errorf("the answer is %v, a %s; the row wants %q", v, dim, unit)
	}
	switch u {
	case quantity.UnitC:
		return quantity.Temperature(base).Celsius(), nil
	case quantity.UnitHPerQt:
		return quantity.OilRate(base).HoursPerQuart(), nil
	}
	num, den := u.Ratio()
	return base / (float64(num) / float64(den)), nil
}

// quantityOf is the dimension and base value of a typed quantity, or the value of a
// plain number, or NaN, which is near nothing.
func quantityOf(v any) (quantity.Dimension, float64, bool) {
	switch v := v.(type) {
	case quantity.Length:
		return quantity.DimLength, float64(v), true
	case quantity.Volume:
		return quantity.DimVolume, float64(v), true
	case quantity.Torque:
		return quantity.DimTorque, float64(v), true
	case quantity.Pressure:
		return quantity.DimPressure, float64(v), true
	case quantity.Temperature:
		return quantity.DimTemperature, float64(v), true
	case quantity.TemperatureDifference:
		return quantity.DimDifference, float64(v), true
	case quantity.Speed:
		return quantity.DimSpeed, float64(v), true
	case quantity.Angle:
		return quantity.DimAngle, float64(v), true
	case quantity.Power:
		return quantity.DimPower, float64(v), true
	case quantity.Mass:
		return quantity.DimMass, float64(v), true
	case quantity.Force:
		return quantity.DimForce, float64(v), true
	case quantity.Hours:
		return quantity.DimTime, float64(v), true
	case quantity.OilRate:
		return quantity.DimOilRate, float64(v), true
	case quantity.SpecificConsumption:
		return quantity.DimSpecific, float64(v), true
	}
	r := reflect.ValueOf(v)
	switch {
	case r.CanFloat():
		return quantity.NoDimension, r.Float(), false
	case r.CanInt():
		return quantity.NoDimension, float64(r.Int()), false
	}
	return quantity.NoDimension, math.NaN(), false
}
