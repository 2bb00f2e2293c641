package torque

import (
	"math"
	"strings"

	"linkrod/radial/quantity"
)

// problem is an input that cannot be, in the form package quantity has for it.
func problem(field string, sentence ...string) error {
	return &quantity.Problem{Field: field, Sentence: strings.Join(sentence, "")}
}

// positive reports a number above nought, and not NaN or an infinity.
func positive[T ~float64](v T) bool { return v > 0 && !math.IsInf(float64(v), 0) }

func aboveTorque(field string, t quantity.Torque) error {
	if positive(t) {
		return nil
	}
	return problem(field, "The ", field, " is ", shown(t), ". It must be a torque above 0.")
}

func aboveLength(field string, l quantity.Length) error {
	if positive(l) {
		return nil
	}
	return problem(field, "The ", field, " is ", inches(l), ". It must be a length above 0.")
}

func aboveForce(field string, f quantity.Force) error {
	if positive(f) {
		return nil
	}
	return problem(field, "The ", field, " is ", quantity.Computed(f.PoundsForce(), 1, quantity.UnitLbf), ". It must be a force above 0.")
}

func abovePressure(field string, p quantity.Pressure) error {
	if positive(p) {
		return nil
	}
	return problem(field, "The ", field, " is ", quantity.Computed(p.PSI(), 0, quantity.UnitPsi), ". It must be a stress above 0.")
}

func aboveArea(field string, a quantity.Area) error {
	if positive(a) {
		return nil
	}
	return problem(field, "The ", field, " is ", quantity.Figure(a.SquareInches(), 4), " square inches. It must be above 0.")
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

// shown is a reckoned torque in both the units that get confused, to a tenth of an
// inch pound.
func shown(t quantity.Torque) string { return said(t, quantity.Measured.Show) }

func said(t quantity.Torque, say func(quantity.Measured) string) string {
	d, err := quantity.DecimalOf(t.InchPounds(), 1)
	if err != nil {
		return "no number"
	}
	return say(quantity.Measured{Value: d, Unit: quantity.UnitInLb})
}

// inches is a reckoned length to a tenth of a thou.
func inches(l quantity.Length) string {
	d, err := quantity.DecimalOf(l.Inches(), 4)
	if err != nil {
		return "no number"
	}
	return quantity.Measured{Value: d, Unit: quantity.UnitIn}.Show()
}
