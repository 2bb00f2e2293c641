package compression

import (
	"math"
	"strings"

	"linkrod/radial/quantity"
)

// problem is an input that cannot be, in the form package quantity has for it.
func problem(field string, sentence ...string) error {
	return &quantity.Problem{Field: field, Sentence: strings.Join(sentence, "")}
}

// pressure refuses what is no pressure from nought up.
func pressure(field string, m quantity.Measured) error {
	switch {
	case !m.Given():
		return problem(field, "The ", field, " is not given.")
	case m.Dimension() != quantity.DimPressure:
		return problem(field, "The ", field, " is ", m.Show(), ". It must be a pressure, in psi.")
	case m.Value.Sign() < 0:
		return problem(field, "The ", field, " is ", m.Show(), ". A gauge starts at 0.")
	}
	return nil
}

// supply is a pressure above nought.
func supply(m quantity.Measured) error {
	if err := pressure("supply pressure", m); err != nil {
		return err
	}
	if m.Value.Sign() == 0 {
		return problem("supply pressure", "The supply pressure is 0. It is what the first gauge shows, 80 psi.")
	}
	return nil
}

func positive[T ~float64](v T) bool { return v > 0 && !math.IsInf(float64(v), 0) }

func aboveLength(field string, l quantity.Length) error {
	if positive(l) {
		return nil
	}
	return problem(field, "The ", field, " is ", quantity.Computed(l.Inches(), 4, quantity.UnitIn), ". It must be more than 0.")
}

func abovePressure(field string, p quantity.Pressure) error {
	if positive(p) {
		return nil
	}
	return problem(field, "The ", field, " is ", quantity.Computed(p.PSI(), 1, quantity.UnitPsi), ". It must be more than 0.")
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

// brief is a measured value once, without a second unit.
func brief(m quantity.Measured) string { return m.Value.Show() + " " + m.Unit.Symbol() }

// over reports a > b for two values of one kind.
func over(a, b quantity.Measured) bool {
	order, err := quantity.Compare(a, b)
	return err == nil && order > 0
}

// minus is a − b, exact, in a's unit or in b's. What no decimal holds is refused.
func minus(a, b quantity.Measured) (quantity.Measured, error) {
	b.Value = b.Value.Neg()
	d, err := quantity.Add(a, b)
	if err != nil {
		d, err = quantity.Add(b, a)
	}
	if err != nil {
		return quantity.Measured{}, problem("figures", err.Error())
	}
	return d, nil
}
