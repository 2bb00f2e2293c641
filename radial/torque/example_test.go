package torque_test

import (
	"fmt"
	"strings"

	"linkrod/radial/quantity"
	"linkrod/radial/torque"
)

// The figures of the examples are those of an invented engine (DEMO).

// plain takes the thin spaces of print for plain ones.
func plain(s string) string { return strings.ReplaceAll(s, "\u2009", " ") }

// An offset box wrench 3.25 in long, straight out on an 11 in torque wrench.
func ExampleSetup_Setting() {
	s := torque.Setup{Lever: 11 * quantity.Inch, Adapter: 3.25 * quantity.Inch}
	set, err := s.Setting(435 * quantity.InchPound)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("For 435 inch pounds on the nut the wrench is set to %.1f.\n", set.InchPounds())
	// Output: For 435 inch pounds on the nut the wrench is set to 335.8.
}

func ExampleSetup_Say() {
	s := torque.Setup{Lever: 11 * quantity.Inch, Adapter: 3.25 * quantity.Inch, Angle: 180 * quantity.Degree}
	said, _ := s.Say(435 * quantity.InchPound)
	fmt.Println(plain(said))
	// Output: Set the wrench to 617.4 inch pounds, 51.45 foot pounds, and the nut gets 435: 435 × 11 in / 7.75 in.
}

// Somebody left the crow-foot out of the sum.
func ExampleSetup_Applied() {
	s := torque.Setup{Lever: 11 * quantity.Inch, Adapter: 3.25 * quantity.Inch}
	got, _ := s.Applied(435 * quantity.InchPound)
	fmt.Printf("The wrench clicked at 435, and the nut got %.0f.\n", got.InchPounds())
	// Output: The wrench clicked at 435, and the nut got 564.
}

func ExampleFinal() {
	sheet := torque.Range{Min: 160, Max: 190}
	final, _ := torque.Final(sheet, 12*quantity.InchPound, torque.AddAlways)
	fmt.Println(plain(final.SayCastle()))
	// Output: Start at 172 inch pounds, about 14.3 foot pounds. If the hole is not in line, go on to the next slot, never past 202 inch pounds, about 16.8 foot pounds and never back. If no slot comes, change the washer or the nut.
}

func ExampleCheck() {
	stud, _ := torque.ParseThread("7/16-20")
	s, _ := torque.Check(420*quantity.FootPound, stud, torque.Oiled)
	fmt.Println(plain(s.Sentence))
	// Output: 5040 inch pounds, 420 foot pounds on an oiled 7/16-20 is about 647,000 psi in the thread, and 100,000 is more than common bolts bear. Were inch pounds meant?
}

func ExampleTwelveToOne() {
	d, asked, _ := torque.TwelveToOne(quantity.Of("36", quantity.UnitInLb), torque.Range{Min: 420, Max: 450})
	if asked {
		fmt.Println(plain(d.Sentence))
	}
	// Output: 36 inch pounds, 3 foot pounds was typed, and the sheet says 420 to 450 inch pounds, 35 to 37.5 foot pounds: about twelve times apart. Inch pounds or foot pounds? The other way it is 36 foot pounds, 432 inch pounds.
}

func ExampleBar_WeightAt() {
	bar := torque.Bar{Length: 4 * quantity.Foot}
	out, _ := bar.WeightAt(480*quantity.FootPound, 165*quantity.Pound)
	fmt.Printf("480 foot pounds is a body of 165 lb hung %.1f ft out on a level bar.\n", out.Feet())
	_, err := torque.Bar{Length: 2 * quantity.Foot}.WeightAt(480*quantity.FootPound, 165*quantity.Pound)
	fmt.Println(plain(err.Error()))
	// Output:
	// 480 foot pounds is a body of 165 lb hung 2.9 ft out on a level bar.
	// The bar is 2 ft long. 165 lb would have to hang 2.91 ft out. Take a longer bar.
}

func ExamplePasses() {
	passes, _ := torque.Passes(12, 150, 300, 435)
	for _, p := range passes {
		fmt.Printf("%v in-lb: %v\n", p.Torque, p.Order)
	}
	// Output:
	// 150 in-lb: [1 7 4 10 2 8 5 11 3 9 6 12]
	// 300 in-lb: [1 7 4 10 2 8 5 11 3 9 6 12]
	// 435 in-lb: [1 7 4 10 2 8 5 11 3 9 6 12]
	// 435 in-lb: [1 2 3 4 5 6 7 8 9 10 11 12]
}
