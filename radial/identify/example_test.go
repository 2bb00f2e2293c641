package identify_test

import (
	"fmt"

	"linkrod/radial/identify"
)

// The family of the examples is invented.

// A case with twelve studs, a taper shaft, glands and nipples: an A. But its barrels are a
// B's, drilled again.
func ExampleCatalogue_Identify() {
	r, _ := family.Identify(see(
		"serial", "1187", "cylinders", "7", "hold-down", "12 studs 3/8-24", "shaft", "taper and key",
		"push-rod housing", "gland nut both ends", "rockers", "grease nipple",
		"bore", "5.375", "flange", "round with two flats, 0.375 in thick", "ratio", "5.9"))
	base := r.Ranked[0]
	fmt.Printf("%s, with %d features against it. Mixed build: %v.\n", base.Name, len(base.Against), r.Build.Mixed)
	for _, p := range r.Build.Parts {
		if p.Deviates {
			fmt.Printf("The %s fit %v.\n", p.Name, p.Fits)
		}
	}
	// Output:
	// T7-A, with 3 features against it. Mixed build: true.
	// The barrels fit [T7-B].
	// The pistons fit [T7-B].
}

func ExampleResult_Words() {
	r, _ := family.Identify(see("cylinders", "7", "shaft", "20-spline"))
	fmt.Println(r.Words())
	// Output: Nothing seen speaks against T7-B (about 92 in 100). Then T7-A (about 5 in 100), with one thing against it. Another engine, or one built of several: about 4 in 100. Look next at the push-rod housing (eye): it tells most between T7-B and T7-A. Looking does not establish an identity; the plate and the papers do.
}

func ExampleParseRanges() {
	oiled, _ := identify.ParseRanges("after B-0900")
	last, _ := identify.ParseSerial("b900")
	next, _ := identify.ParseSerial("B 0901")
	_, err := identify.ParseRanges("up to B-0620")
	fmt.Printf("%v: %v %v, %v %v. And %v\n", oiled, last, oiled.Contains(last), next, oiled.Contains(next), err)
	// Output: after B-0900: B-900 false, B-0901 true. And “up to B-0620” can end with B-0620 or just before it.
}

func ExampleSize_Match() {
	seven := identify.Size{Bore: 5.375, BoreWithin: 0.001, Stroke: 5, StrokeWithin: 1.0 / 16, Cylinders: 7}
	low, high, _ := seven.Between()
	m, _ := seven.Match(794.2)
	fmt.Printf("With the stroke felt to a sixteenth it is %.0f to %.0f cu in: that it may be 794.2 is all that can be said (%v).\n",
		low.CubicInches(), high.CubicInches(), m == identify.May)
	// Output: With the stroke felt to a sixteenth it is 784 to 804 cu in: that it may be 794.2 is all that can be said (true).
}

func ExampleDesignation_Fits() {
	d, _ := identify.ParseDesignation("R-795")
	fmt.Printf("An engine of 794.2 cu in can be called %v (%v), one of 687.2 cannot (%v).\n", d, d.Fits(794.2), d.Fits(687.2))
	// Output: An engine of 794.2 cu in can be called R-795 (true), one of 687.2 cannot (false).
}
