package lock

import (
	"fmt"
	"math"

	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

// problem is an input that cannot be, in the form package ring has for it.
func problem(field, format string, args ...any) *ring.Problem {
	return &ring.Problem{Field: field, Sentence: fmt.Sprintf(format, args...)}
}

func above(field string, v float64, unit quantity.Unit) error {
	if v > 0 && !math.IsInf(v, 0) {
		return nil
	}
	return problem(field, "The %s is %s. It must be more than 0.", field, quantity.Computed(v, 2, unit))
}

func aboveNumber(field string, v float64) error {
	if v > 0 && !math.IsInf(v, 0) {
		return nil
	}
	return problem(field, "The %s is %s. It must be more than 0.", field, quantity.Figure(v, 3))
}

func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
