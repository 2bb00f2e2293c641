package oil

import (
	"slices"
	"testing"
)

// Each slip, as it would read where 13 qt were expected, asks its own question
// first, and always says to read again.
func TestWhySuspect(t *testing.T) {
	const expected = 13.0
	for _, c := range []struct {
		name    string
		off     Quarts
		lastAdd float64
		temp    bool
		first   Hint
	}{
		{"3 qt put in and not written down", 3.1, 0, true, Hint{OilNotNoted, 3.1}},
		{"4 qt written and not put in", -4.2, 4, true, Hint{AddNotPoured, 4}},
		{"12.3 L written as quarts", 12.3 - expected, 0, true, Hint{Kind: Litres}},
		{"read 90 °F colder, not logged", -0.47, 0, false, Hint{Kind: ReadCold}},
		{"none of these", -2.2, 0, true, Hint{Kind: ReadAgain}},
		{"half a quart high", 0.45, 0, true, Hint{Kind: ReadAgain}},
	} {
		hints := why(Fit{OK: true, Expected: expected, Off: c.off, Z: float64(c.off) / 0.2}, c.lastAdd, c.temp)
		if hints[0] != c.first || hints[len(hints)-1] != (Hint{Kind: ReadAgain}) {
			t.Errorf("%s: asks %v", c.name, hints)
		}
		if c.temp && slices.ContainsFunc(hints, func(h Hint) bool { return h.Kind == ReadCold }) {
			t.Errorf("%s: asks whether it was cold, with the temperature logged", c.name)
		}
	}
}

func TestDirection(t *testing.T) {
	for _, c := range []struct {
		said Verdict
		flat Chance
		want Direction
	}{
		{Falling, 0.2, GoingDown}, {Levelling, 0.6, NearlyLevel}, {Seated, 0.9, Level},
		{NotSeating, 0.9, Level}, {NotSeating, 0.3, GoingDown}, {StepUp, 0.9, GoingUp}, {TooEarly, 0.9, NoDirection}, {RateOnly, 0.9, NoDirection},
	} {
		if got := direction(Answer{Said: c.said, Chances: Chances{Flat: c.flat}}); got != c.want {
			t.Errorf("%v, level %v: %v", c.said, c.flat, got)
		}
	}
}
