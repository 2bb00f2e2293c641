package compression

import "linkrod/radial/quantity"

// The two orifices of differential testers, and the bore from which the larger is needed.
//
// Source: FAA AC 43.13-1B change 1 (2001), 8-14, as quoted by an FAA safety team tip of
// November 2011. The circular went by displacement before and goes by bore since. Some
// makers give a master orifice of their own, which comes first.
var (
	Small     = quantity.Of("0.040", quantity.UnitIn)
	Large     = quantity.Of("0.060", quantity.UnitIn)
	LargeFrom = quantity.Of("5.00", quantity.UnitIn)
)

// An orifice of either size is 0.250 in long and approached by a cone of 60 degrees; a hole
// drilled in a plate is another tester.
const (
	OrificeLength   quantity.Length = 0.250
	OrificeApproach quantity.Angle  = 60
)

// OrificeFor is the orifice a bore needs: under 5.00 in the 0.040, at 5.00 in and over the
// 0.060. Neither displacement nor the number of cylinders comes into it: a nine of 680 cu
// in with 4.625 bores needs the small one and a seven of 670 with 5.125 bores the large.
// The bore is compared as typed, so 127 mm is 5.00 in exactly and needs the large one.
func OrificeFor(bore quantity.Measured) (quantity.Measured, error) {
	if err := diameter("bore", bore); err != nil {
		return quantity.Measured{}, err
	}
	if over(LargeFrom, bore) {
		return Small, nil
	}
	return Large, nil
}

// WrongOrifice is a sentence about readings taken with another orifice than the bore
// needs, or with one that was not noted; "" where it is the right one.
func WrongOrifice(bore, used quantity.Measured) (string, error) {
	want, err := OrificeFor(bore)
	if err != nil {
		return "", err
	}
	if !used.Given() {
		return "The tester's orifice is not noted. A bore of " + brief(bore) + " needs " + brief(want) + "; without it these readings compare with none.", nil
	}
	if err := diameter("orifice", used); err != nil {
		return "", err
	}
	reads := "falsely low"
	switch {
	case over(used, want):
		reads = "falsely high"
	case !over(want, used):
		return "", nil
	}
	return "A bore of " + brief(bore) + " needs an orifice of " + brief(want) + ". The tester's is " + brief(used) + ", which reads " + reads + ". Take the readings again with the right one; these are kept and compared with none of those.", nil
}

func diameter(field string, m quantity.Measured) error {
	switch {
	case !m.Given():
		return problem(field, "The ", field, " is not given.")
	case m.Dimension() != quantity.DimLength:
		return problem(field, "The ", field, " is ", m.Show(), ". It must be a length, in inches or millimetres.")
	case m.Value.Sign() <= 0:
		return problem(field, "The ", field, " is ", m.Show(), ". It must be more than 0.")
	}
	return nil
}
