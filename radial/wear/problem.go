package wear

import (
	"math"
	"strings"

	"linkrod/radial/quantity"
)

// problem is an input that cannot be, in the form package quantity has for it.
func problem(field string, sentence ...string) error {
	return &quantity.Problem{Field: field, Sentence: strings.Join(sentence, "")}
}

// size refuses what is no length above 0: a diameter, a gap.
func size(field string, m quantity.Measured) error {
	switch {
	case !m.Given():
		return problem(field, "The ", field, " is not given.")
	case m.Dimension() != quantity.DimLength:
		return problem(field, "The ", field, " is ", m.Show(), ". It must be a length, in inches, thou or millimetres.")
	case m.Value.Sign() <= 0:
		return problem(field, "The ", field, " is ", m.Show(), ". It must be more than 0.")
	}
	return nil
}

func length(field string, l quantity.Length) error {
	if l > 0 && !math.IsInf(float64(l), 0) {
		return nil
	}
	return problem(field, "The ", field, " is ", quantity.Computed(l.Inches(), 4, quantity.UnitIn), ". It must be more than 0.")
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

// brief is a measured value once, without its second unit.
func brief(m quantity.Measured) string { return m.Value.Show() + " " + m.Unit.Symbol() }
