package oil

// Unit is the shop's own unit of oil, for words only; everything is reckoned
// in US quarts.
type Unit struct {
	Symbol   string
	PerQuart float64 // how many of it make one US quart
}

var (
	USQuart       = Unit{"qt", 1}
	Litre         = Unit{"L", 0.946352946}                  // exact
	ImperialQuart = Unit{"imp qt", 0.946352946 / 1.1365225} // both exact
)

// Line is the one line: rate, band, hours and readings, direction, ceiling.
// "0.41 (0.33 to 0.50) qt/h now, from 21 readings over 39 h; level; under the shop's 0.60"
func Line(a Answer, u Unit) string { return "" }

// Say is the verdict in a sentence, with what to do.
// "not seating: 1.17 qt/h and not heading under 0.70. Call the shop before flying more."
func Say(a Answer, u Unit) string { return "" }

// Maths are the lines behind the answer, for whoever asks.
func Maths(a Answer, u Unit) []string { return nil }
