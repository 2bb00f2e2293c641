package torque

import "linkrod/radial/quantity"

// Doubt is a question about the unit of a torque that was typed.
type Doubt struct {
	Sentence string
	Instead  quantity.Measured // the same figure in the other unit, which would fit
}

// TwelveToOne is the question to ask where a torque typed in inch pounds or foot pounds
// is far from the sheet's and the same figure in the other unit is near it, and false
// where there is nothing to ask. What lies on the sheet is never asked about, the ends
// included. A torque that is wrong in another way is not a matter of its unit and not
// asked about here.
func TwelveToOne(typed quantity.Measured, sheet Range) (Doubt, bool, error) {
	got, err := typed.Torque()
	if err := first(err, sheet.check()); err != nil {
		return Doubt{}, false, err
	}
	inLb := typed.Unit == quantity.UnitInLb
	other := quantity.UnitFtLb
	if !inLb {
		other = quantity.UnitInLb
	}
	middle := sheet.Middle()
	switch {
	case !inLb && typed.Unit != quantity.UnitFtLb, // nobody takes newton metres for either
		sheet.Holds(got), !quantity.TwelveToOne(got, middle), (got < middle) != inLb:
		return Doubt{}, false, nil
	}
	instead := quantity.Measured{Value: typed.Value, Unit: other}
	return Doubt{
		Sentence: typed.Show() + " was typed, and the sheet says " + sheet.String() + ": about twelve times apart. Inch pounds or foot pounds? The other way it is " +
			instead.Show() + ".",
		Instead: instead,
	}, true, nil
}
