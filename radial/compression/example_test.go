package compression_test

import (
	"fmt"

	"linkrod/radial/compression"
	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

// The engine of the examples is invented (DEMO).

// A bore of 5.375 in, and the common small tester.
func ExampleWrongOrifice() {
	said, _ := compression.WrongOrifice(quantity.Of("5.375", quantity.UnitIn), compression.Small)
	fmt.Println(said)
	right := compression.Tester{Supply: 80 * quantity.PSI, Orifice: 0.060, Atmosphere: compression.SeaLevel}
	low, _ := right.With(0.040, 70*quantity.PSI)
	fmt.Printf("A leak that reads 70 with the 0.060 reads about %.0f with the 0.040.\n", low)
	// Output:
	// A bore of 5.375 in needs an orifice of 0.060 in. The tester's is 0.040 in, which reads falsely low. Take the readings again with the right one; these are kept and compared with none of those.
	// A leak that reads 70 with the 0.060 reads about 44 with the 0.040.
}

func ExampleHoldingTorque() {
	piston, _ := ring.NewCrank(2.5, 9.75)
	direct := ring.Ratio{Num: 1, Den: 1}
	push, _ := compression.PistonForce(5.375, 80*quantity.PSI)
	fmt.Printf("80 psi is %.0f lb on this piston.\n", push)
	for _, off := range []quantity.Angle{5, 20} {
		t, _ := compression.HoldingTorque(piston, 5.375, 80*quantity.PSI, off)
		hand, _ := compression.AtBlade(t, 4*quantity.Foot, direct)
		fmt.Printf("%.0f° off its top the shaft turns with %.0f ft-lb, %.0f lb at a hand 4 ft out.\n", off, t.FootPounds(), hand)
	}
	// Output:
	// 80 psi is 1815 lb on this piston.
	// 5° off its top the shaft turns with 41 ft-lb, 10 lb at a hand 4 ft out.
	// 20° off its top the shaft turns with 161 ft-lb, 40 lb at a hand 4 ft out.
}

func ExampleTrend() {
	check := func(six string) compression.Set {
		psi := func(v string) quantity.Measured { return quantity.Of(v, quantity.UnitPsi) }
		return compression.Set{
			Supply: psi("80"), Orifice: compression.Large, Engine: compression.Hot,
			Readings: []quantity.Measured{psi("72"), psi("73"), psi("70"), psi("74"), psi("70"), psi(six), psi("75")},
		}
	}
	lines, _ := compression.Trend([]compression.Set{check("66"), check("61")}, compression.Usual)
	for _, l := range lines {
		if l.Fell {
			fmt.Println(l.Words())
		}
	}
	// Output: Cylinder 6: 61 psi, 5 psi down from 66 psi.
}

func ExampleDifferences() {
	hot := compression.Set{Supply: quantity.Of("80", quantity.UnitPsi), Orifice: compression.Large, Engine: compression.Hot}
	cold := hot
	cold.Engine, cold.Orifice = compression.Cold, compression.Small
	fmt.Println("They do not compare:", compression.Differences(hot, cold))
	// Output: They do not compare: [the orifices differ one was hot and one cold]
}

func ExampleCranking() {
	var readings []quantity.Measured
	for _, v := range []string{"95", "92", "97", "74", "96", "94", "98"} {
		readings = append(readings, quantity.Of(v, quantity.UnitPsi))
	}
	c, _ := compression.Cranking(readings, quantity.Of("75", quantity.UnitPsi))
	fmt.Printf("Average %.1f psi; 20 per cent below it: %v; under the maker's 75: %v.\n", c.Average, c.Low, c.Under)
	// Output: Average 92.3 psi; 20 per cent below it: []; under the maker's 75: [4].
}
