package ring

import (
	"math"
	"strconv"
	"strings"

	"linkrod/radial/quantity"
)

// Problem is why something cannot be reckoned; see package quantity.
type Problem = quantity.Problem

func problem(field string, sentence ...string) *Problem {
	return &Problem{Field: field, Sentence: strings.Join(sentence, "")}
}

// positive refuses what is not a figure above nought.
func positive(field string, v float64, shown, wanted string) error {
	if v > 0 && !math.IsInf(v, 0) {
		return nil
	}
	return problem(field, "The ", field, " is ", shown, ". It must be ", wanted, " above 0.")
}

func positiveLength(field string, l quantity.Length) error {
	return positive(field, float64(l), length(l), "a length")
}

func positiveVolume(field string, v quantity.Volume) error {
	return positive(field, float64(v), quantity.Computed(v.CubicInches(), 2, quantity.UnitCuIn), "a volume")
}

func positiveSpeed(n quantity.Speed) error {
	return positive("speed", float64(n), quantity.Computed(n.RPM(), 0, quantity.UnitRpm), "a number of rpm")
}

func count(field string, n int) error {
	if n >= 1 {
		return nil
	}
	return problem(field, "The number of ", field, " is ", strconv.Itoa(n), ". It must be 1 or more.")
}

func ratioAboveOne(r float64) error {
	if r > 1 && !math.IsInf(r, 0) {
		return nil
	}
	return problem("compression ratio", "The compression ratio is ", quantity.Figure(r, 3), ". It must be more than 1, as 6 for 6 to 1.")
}

// finite refuses NaN and the infinities.
func finite(field string, a quantity.Angle) error {
	if !math.IsNaN(float64(a)) && !math.IsInf(float64(a), 0) {
		return nil
	}
	return problem(field, "The ", field, " is no number. It must be a number of degrees.")
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

// length shows a length in both the units it may have been typed in.
func length(l quantity.Length) string {
	if math.IsNaN(float64(l)) || math.IsInf(float64(l), 0) {
		return "no number"
	}
	return quantity.Computed(l.Inches(), 4, quantity.UnitIn) + " (" +
		quantity.Computed(l.Millimetres(), 2, quantity.UnitMm) + ")"
}
