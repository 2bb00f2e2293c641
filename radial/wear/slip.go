package wear

import "linkrod/radial/quantity"

// Slip is how far a bore may be from its nominal size before it is asked whether the point
// slipped: 60 thou, more than any oversize leaves and less than a wrong figure makes.
// Common practice, no source.
var Slip = quantity.Of("0.060", quantity.UnitIn)

// FarFromNominal is the question about a reading that is more than Slip from the nominal
// size, "" where there is none to ask: 5.0025 and 5.025 are both a bore, 5.250 for 5.025
// is a slip. Nothing is refused or changed for it.
func FarFromNominal(reading, nominal quantity.Measured) (string, error) {
	if err := first(size("reading", reading), size("nominal size", nominal)); err != nil {
		return "", err
	}
	d, err := minus(reading, nominal)
	if err != nil || !more(abs(d), Slip) {
		return "", err
	}
	side := " over"
	if d.Value.Sign() < 0 {
		side = " under"
	}
	return reading.Show() + " is " + brief(abs(d)) + side + " the nominal " + brief(nominal) + ". Is the point in its place, and the unit?", nil
}
