package oil

import "math"

// near is how close a reading must come to what a slip would have read, qt:
// about the error of two readings on a half-quart stick, or the sd the reading
// itself was expected with where that is more. A choice, not measured.
const near = 0.4

// coldBy is how much colder than the usual a tank left overnight is, °F.
const coldBy = 90

// why lists what may have happened to a reading that does not fit, nearest
// first, and always at least "read it again". lastAdd is what was written as
// poured in at the reading before; temp says the reading's was logged, so that
// cold is already allowed for.
func why(f Fit, lastAdd float64, temp bool) []Hint {
	off, expected := float64(f.Off), float64(f.Expected)
	tolerance := near
	if f.Z != 0 {
		tolerance = math.Max(near, off/f.Z)
	}
	var hints []Hint
	var misses []float64
	ask := func(k HintKind, q Quarts, would float64) {
		miss := math.Abs(off - would)
		if miss > tolerance {
			return
		}
		hints, misses = append(hints, Hint{k, q}), append(misses, miss)
		for i := len(hints) - 1; i > 0 && misses[i] < misses[i-1]; i-- {
			hints[i], hints[i-1] = hints[i-1], hints[i]
			misses[i], misses[i-1] = misses[i-1], misses[i]
		}
	}
	if whole := math.Round(off); whole >= 1 {
		ask(OilNotNoted, f.Off, whole)
	}
	if lastAdd >= 0.5 {
		ask(AddNotPoured, Quarts(lastAdd), -lastAdd)
	}
	ask(Litres, 0, (perQuart-1)*expected)
	if !temp {
		ask(ReadCold, 0, -alpha*expected*coldBy)
	}
	return append(hints, Hint{Kind: ReadAgain})
}

// direction of the rate, in the words of the verdict in force.
func direction(a Answer) Direction {
	switch a.Said {
	case Falling:
		return GoingDown
	case Levelling:
		return NearlyLevel
	case Seated:
		return Level
	case NotSeating:
		if a.Chances.Flat < stillFalls {
			return GoingDown
		}
		return Level
	case StepUp:
		return GoingUp
	}
	return NoDirection
}
