package quantity_test

import (
	"fmt"

	"linkrod/radial/quantity"
)

func Example() {
	said, err := quantity.Parse("5 1/4", quantity.UnitIn)
	if err != nil {
		fmt.Println(err)
		return
	}
	bore, _ := said.Measured.Length()
	fmt.Printf("A bore of %s is %.2f mm.\n", said.Echo, bore.Millimetres())
	// Output: A bore of five point two five inches, 133.35 millimetres is 133.35 mm.
}

func ExampleParse() {
	for _, box := range []struct {
		typed  string
		keptIn quantity.Unit
	}{{"15½", quantity.UnitQt}, {"8 thou", quantity.UnitIn}, {"1,500", quantity.UnitRpm}} {
		said, err := quantity.Parse(box.typed, box.keptIn)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(said.Echo)
	}
	// Output:
	// fifteen and a half quarts
	// eight thou, 0.008 inch, 0.20 millimetre
	// “1,500” can be 1.500 or 1500. Type the one that is meant.
}

func ExampleParseSaid() {
	_, err := quantity.ParseSaid("300", quantity.DimTorque)
	fmt.Println(err)
	// Output: 300 of what? Inch pounds or foot pounds. Twelve times apart.
}

func ExampleMeasured_Loud() {
	fmt.Println("Set the wrench to " + quantity.Of("435", quantity.UnitInLb).Loud() + ".")
	// Output: Set the wrench to four hundred thirty-five INCH pounds, thirty-six point two five foot pounds.
}

func ExampleCompare() {
	limit := quantity.Of("25", quantity.UnitFtLb)
	reading := quantity.Of("300", quantity.UnitInLb)
	if order, _ := quantity.Compare(reading, limit); order <= 0 {
		fmt.Println("The limit itself still counts as inside.")
	}
	// Output: The limit itself still counts as inside.
}

func ExampleMeasured_Exactly() {
	quart, _ := quantity.Of("1", quantity.UnitQt).Exactly(quantity.UnitL)
	fmt.Println("A quart is", quart, "to the last digit.")
	_, err := quantity.Of("1", quantity.UnitL).Exactly(quantity.UnitQt)
	fmt.Println(err)
	// Output:
	// A quart is 0.946352946 L to the last digit.
	// 1 L does not come out even in quarts.
}

func ExampleOilRate_Show() {
	used := 3.5 * quantity.Quart
	rate := quantity.Rate(used, 8.5*quantity.Hour)
	fmt.Printf("3.5 quarts in 8.5 hours is %s.\n", rate.Show(2))
	// Output: 3.5 quarts in 8.5 hours is 0.41 qt/h, 2.4 h/qt.
}

func ExampleTemperature_Above() {
	rise := quantity.Fahrenheit(210).Above(quantity.Fahrenheit(160))
	fmt.Printf("From 160 °F to 210 °F the oil warms by %.1f C°.\n", rise.CelsiusDegrees())
	// Output: From 160 °F to 210 °F the oil warms by 27.8 C°.
}

func ExampleVolumeDoubt() {
	fmt.Println(quantity.VolumeDoubt(quantity.Whole(15)))
	// Output: Litres or quarts? 15 was typed. 15 litres is 15.9 quarts.
}
