package lock

import (
	"math"
	"strings"

	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

// problem is an input that cannot be, in the form package ring has for it.
func problem(field string, sentence ...string) *ring.Problem {
	return &ring.Problem{Field: field, Sentence: strings.Join(sentence, "")}
}

func above(field string, v float64, unit quantity.Unit) error {
	if v > 0 && !math.IsInf(v, 0) {
		return nil
	}
	return problem(field, "The ", field, " is ", quantity.Computed(v, 2, unit), ". It must be more than 0.")
}

func aboveNumber(field string, v float64) error {
	if v > 0 && !math.IsInf(v, 0) {
		return nil
	}
	return problem(field, "The ", field, " is ", quantity.Figure(v, 3), ". It must be more than 0.")
}

func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
