package ignition

import (
	"math"
	"strconv"

	"linkrod/radial/quantity"
)

// problem is an input that cannot be, in the form package quantity has for it.
func problem(field, sentence string) error {
	return &quantity.Problem{Field: field, Sentence: sentence}
}

func finite[T ~float64](v T) bool { return !math.IsNaN(float64(v)) && !math.IsInf(float64(v), 0) }

// positive reports a number above nought, and not NaN or an infinity.
func positive[T ~float64](v T) bool { return v > 0 && finite(v) }

// angle is an angle as it is shown: to a tenth of a degree, 22.8°.
func angle(a quantity.Angle) string {
	return quantity.Computed(a.Degrees(), 1, quantity.UnitDeg)
}

func rpm(n quantity.Speed) string { return quantity.Computed(n.RPM(), 0, quantity.UnitRpm) }

func cylinder(k int) string { return "cylinder " + strconv.Itoa(k) }

// first is the first error there is.
func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
