package compression

import "linkrod/radial/quantity"

// LossPercent is how much of the supply pressure is lost: (supply − reading)/supply, as a
// percentage, for showing. 65 of 80 is 18.75.
func LossPercent(supply, reading quantity.Measured) (float64, error) {
	if err := pair(supply, reading); err != nil {
		return 0, err
	}
	s, _ := supply.Pressure() // both are pressures
	r, _ := reading.Pressure()
	return float64(100 * (s - r) / s), nil
}

// SuspectBelow is the reading below which a cylinder is suspect by the circular: a loss of
// more than 25 per cent, so under 60 of 80.
//
// Source: FAA AC 43.13-1B 8-14, for engines whose maker gives no figure. What follows is
// to run the engine at least three minutes, check again and listen; makers of large
// radials and others differ widely, and none pulls a cylinder on one number.
func SuspectBelow(supplied quantity.Measured) (quantity.Measured, error) {
	if err := supply(supplied); err != nil {
		return quantity.Measured{}, err
	}
	v, err := supplied.Value.Mul(threeQuarters)
	if err != nil {
		return quantity.Measured{}, problem("supply pressure", err.Error())
	}
	return quantity.Measured{Value: v.Shortest(), Unit: supplied.Unit}, nil
}

var threeQuarters = quantity.MustDecimal("0.75")

// Suspect reports a loss of more than 25 per cent, exactly as typed. 60 of 80 is 25 per
// cent and is not over it.
func Suspect(supply, reading quantity.Measured) (bool, error) {
	if err := pair(supply, reading); err != nil {
		return false, err
	}
	limit, err := SuspectBelow(supply)
	return over(limit, reading), err
}

// pair refuses readings that no tester shows.
func pair(supplied, reading quantity.Measured) error {
	if err := first(supply(supplied), pressure("reading", reading)); err != nil {
		return err
	}
	if over(reading, supplied) {
		return problem("reading", "The cylinder reads ", brief(reading), " and only ", brief(supplied), " is supplied. Set the regulator again, or look at the gauges.")
	}
	return nil
}
