package wear

import (
	"slices"
	"strconv"

	"linkrod/radial/quantity"
)

// Trust is how far two readings of one point may differ with a bore gauge set in a ring:
// half a thou, the difference itself included. Common practice, no source; a finer
// micrometer deserves less.
var Trust = quantity.Of("0.0005", quantity.UnitIn)

// Agreement is what several readings of one point say of one another.
type Agreement struct {
	Agreed bool
	// Low and High are the ends of the readings that agree; of all of them if none do.
	Low, High quantity.Measured
	Count     int // how many readings there were
	Trust     quantity.Measured
}

// Agree looks whether readings of one point repeat: whether more than half of them lie
// within trust of one another, a difference of trust itself being agreement.
//
// One reading has nothing to contradict it. Two that differ by more are no reading, and a
// third is taken; if it stands by one of the two, those two count. Where it stands by both
// all three do, and a verdict rests on the worse of them.
func Agree(trust quantity.Measured, readings ...quantity.Measured) (Agreement, error) {
	if len(readings) == 0 {
		return Agreement{}, problem("readings", "There is no reading of this point.")
	}
	if !trust.Given() || trust.Value.Sign() < 0 {
		return Agreement{}, problem("repeatability", "The difference two readings may have is ", trust.Show(), ". It must be 0 or more, 0.0005 in for a bore gauge.")
	}
	sorted := slices.Clone(readings)
	for _, r := range sorted {
		if !r.Given() {
			return Agreement{}, problem("readings", "A reading is not given.")
		}
		if _, err := quantity.Compare(r, trust); err != nil {
			return Agreement{}, problem("readings", err.Error())
		}
	}
	slices.SortStableFunc(sorted, func(a, b quantity.Measured) int {
		order, _ := quantity.Compare(a, b)
		return order
	})
	n := len(sorted)
	a := Agreement{Low: sorted[0], High: sorted[n-1], Count: n, Trust: trust}
	most := n/2 + 1
	for i := 0; i+most <= n; i++ {
		d, err := minus(sorted[i+most-1], sorted[i])
		if err != nil {
			return Agreement{}, problem("readings", err.Error())
		}
		if more(d, trust) {
			continue
		}
		if !a.Agreed {
			a.Agreed, a.Low = true, sorted[i]
		}
		a.High = sorted[i+most-1]
	}
	return a, nil
}

// Words is what to do about readings that do not agree, or that they do.
func (a Agreement) Words() string {
	switch {
	case a.Count == 1:
		return "One reading, not repeated."
	case a.Agreed:
		return "The readings agree within " + brief(a.Trust) + "."
	}
	s := "The " + strconv.Itoa(a.Count) + " readings run from " + brief(a.Low) + " to " + brief(a.High) + ", and " + brief(a.Trust) + " is what the gauge is trusted to."
	if a.Count == 2 {
		return s + " Wipe gauge and part, take a third."
	}
	return s + " Look at the gauge and its setting, let both reach one temperature, and begin again."
}
