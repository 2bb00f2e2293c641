package quantity

import (
	"math"
	"strings"
)

const (
	thin  = "\u2009" // thin space, before a unit
	minus = "\u2212" // the real minus sign
)

// Show is the value as typed with its unit, for the eye: thin space before the
// unit, real minus sign, no digit added or taken away. Torque is shown in both
// words and thousandths twice, because those are the units that get confused:
// "336 inch pounds, 28 foot pounds", "8 thou = 0.008 in".
func (m Measured) Show() string {
	if !m.Given() {
		return "not given"
	}
	switch m.Unit {
	case UnitInLb, UnitFtLb:
		return m.shownInWords() + ", " + m.otherTorque(Measured.shownInWords)
	case UnitThou, UnitTenth:
		if in, err := m.Exactly(UnitIn); err == nil {
			return m.shown() + " = " + in.shown()
		}
	}
	if thou, ok := m.asThou(); ok {
		return m.shown() + " = " + thou.shown()
	}
	return m.shown()
}

// shown is the figure and the unit's symbol, once.
func (m Measured) shown() string { return attach(m.Value.Show(), m.Unit) }

// shownInWords is the figure and the unit's word.
func (m Measured) shownInWords() string { return m.Value.Show() + thin + m.unitWord() }

// attach puts a unit's symbol after a figure. Degrees of arc stand close.
func attach(figure string, u Unit) string {
	if u == UnitDeg {
		return figure + u.Symbol()
	}
	return figure + thin + u.Symbol()
}

// Figure is a computed number rounded to the given places for showing: leading
// zero, real minus, no trailing zeros on a whole number (13, not 13.0), and "not
// known" for what is not a number. A rounded figure is never compared.
func Figure(v float64, places int) string {
	d, err := DecimalOf(v, places)
	if err != nil {
		return "not known"
	}
	if d.IsWhole() {
		d = d.Shortest()
	} else if d.Places() < places {
		d, _ = ParseDecimal(d.Text() + strings.Repeat("0", places-d.Places()))
	}
	return d.Show()
}

// Computed is Figure with a unit after it.
func Computed(v float64, places int, u Unit) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "not known"
	}
	return attach(Figure(v, places), u)
}

// Places is how many decimal places a figure deserves whose standard error or
// half band is e: the place of e's first figure, or of its second if the first
// is a 1. A figure of 0.4312 with 0.07 is worth two places, 0.43.
func Places(e float64) int {
	e = math.Abs(e)
	if e == 0 || math.IsNaN(e) || math.IsInf(e, 0) {
		return 0
	}
	first := math.Floor(math.Log10(e))
	if e < 2*math.Pow(10, first) {
		first--
	}
	return int(max(0, min(9, -first)))
}
