package wear

import (
	"math"

	"linkrod/radial/quantity"
)

// GapPerInch is the end gap of a ring square in its bore, by the inch of bore: what rules
// of thumb are told in. It is for showing; a gap is judged against its own limits.
func GapPerInch(gap, bore quantity.Measured) (quantity.Length, error) {
	if err := first(size("gap", gap), size("bore", bore)); err != nil {
		return 0, err
	}
	g, _ := gap.Length() // both are lengths
	b, _ := bore.Length()
	return quantity.Length(g / b), nil
}

// GapWhere is the end gap of the same ring where the bore is smaller by so much, as at the
// top of a choked barrel: the gap is a piece of the circumference, so
//
//	gap − π × difference of diameters
//
// At 0 or less the ends meet and the ring is held solid, which breaks it or scores the
// wall. A gap is therefore read where the bore is smallest. A bore that is larger there
// has a difference below 0.
func GapWhere(gap, smallerBy quantity.Length) quantity.Length {
	return gap - math.Pi*smallerBy
}
