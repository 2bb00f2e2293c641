package wear_test

import (
	"fmt"

	"linkrod/radial/quantity"
	"linkrod/radial/wear"
)

// The barrel and the table of these examples are those of an invented engine (DEMO).

// The barrel of a cylinder taken off for a low compression.
func ExampleLimits_Judge() {
	limits := wear.Limits{
		NewMin: quantity.Of("0", quantity.UnitThou), NewMax: quantity.Of("1.5", quantity.UnitThou),
		Wear: quantity.Of("9", quantity.UnitThou), Source: "DEMO sheet B, page 4",
	}
	worn, err := wear.Wear(quantity.Of("5.3835", quantity.UnitIn), quantity.Of("5.375", quantity.UnitIn))
	if err != nil {
		fmt.Println(err)
		return
	}
	f, err := limits.Judge(worn)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(plain(f.Words()))
	// Output: 0.0085 in = 8.5 thou: at the edge, 0.5 thou inside the wear limit of 9 thou. Source: DEMO sheet B, page 4.
}

func ExampleStations_Shape() {
	in := func(v string) quantity.Measured { return quantity.Of(v, quantity.UnitIn) }
	s, _ := wear.Stations{
		{Where: "top of ring travel", A: in("5.2505"), B: in("5.2480")},
		{Where: "skirt", A: in("5.2520"), B: in("5.2515")},
	}.Shape()
	choke, _ := s.Taper.Length()
	fmt.Printf("Out of round by %s at the top, and the head end is %.1f thou smaller than the skirt: choke.\n", s.OutOfRound, -choke.Thou())
	// Output: Out of round by 0.0025 in at the top, and the head end is 2.5 thou smaller than the skirt: choke.
}

func ExampleAgree() {
	in := func(v string) quantity.Measured { return quantity.Of(v, quantity.UnitIn) }
	a, _ := wear.Agree(wear.Trust, in("5.2515"), in("5.2490"))
	fmt.Println(a.Words())
	a, _ = wear.Agree(wear.Trust, in("5.2515"), in("5.2490"), in("5.2512"))
	fmt.Printf("The third stands by the first: %s to %s.\n", a.Low, a.High)
	// Output:
	// The 2 readings run from 5.2490 in to 5.2515 in, and 0.0005 in is what the gauge is trusted to. Wipe gauge and part, take a third.
	// The third stands by the first: 5.2512 in to 5.2515 in.
}

func ExampleFit_Clearance() {
	barrel := wear.Part{Size: quantity.Of("5.2500", quantity.UnitIn), Temperature: quantity.Of("60", quantity.UnitF), Expands: 6.3 * wear.PerMillion}
	piston := wear.Part{Size: quantity.Of("5.2260", quantity.UnitIn), Temperature: quantity.Of("95", quantity.UnitF), Expands: 12.8 * wear.PerMillion}
	_, _, err := wear.Fit{Hole: barrel, Shaft: piston}.Clearance()
	fmt.Println(plain(err.Error()))
	// Output: The hole was measured at 60 °F and the shaft at 95 °F: that alone is 2.3 thou. Leave both side by side, the gauge with them, and measure again.
}
