package oil_test

import (
	"fmt"

	"linkrod/radial/oil"
	"linkrod/radial/quantity"
)

// DEMO figures, invented: an engine that seats.
func ExampleBank() {
	bank, err := oil.New(oil.Settings{
		Capacity:   oil.Is(oil.Quarts(17)),
		StickStep:  oil.Is(oil.Quarts(0.5)),
		Ceiling:    oil.Is(oil.QtPerHour(0.60)),
		HoursKnown: true,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	known := oil.Conditions{SD: oil.Is(oil.Quarts(0.10))}
	for _, r := range []oil.Reading{
		{Hours: 0, Level: 16},
		{Hours: 0.7, Level: 15},
		{Hours: 1.6, Level: 13.5},
		{Hours: 2.8, Level: 12, Added: 4},
		{Hours: 4.2, Level: 14},
		{Hours: 5.8, Level: 12.5, Added: 3},
		{Hours: 7.1, Level: 14},
		{Hours: 9.0, Level: 21.5},
	} {
		r.Conditions = known
		fmt.Println(oil.Line(bank.Add(r), oil.USQuart))
	}
	// Output:
	// one reading: no rate yet
	// average over the first 0.7 h: between 0.3 and 2.6 qt/h
	// average over the first 1.6 h: between 0.8 and 2.3 qt/h
	// average over the first 2.8 h: between 0.8 and 2.0 qt/h
	// 1.33 (0.98 to 1.68) qt/h now, from 5 readings over 4.2 h; too early to say which way; over the shop's 0.60
	// 1.11 (0.78 to 1.46) qt/h now, from 6 readings over 5.8 h; falling; over the shop's 0.60
	// 1.07 (0.78 to 1.39) qt/h now, from 7 readings over 7.1 h; falling; over the shop's 0.60
	// this line is not used: level is outside the tank
}

// DEMO figures, invented: a quart and a half gone in three weeks.
func ExampleAccount() {
	m, err := oil.Account(oil.Parking{
		Shutdown: oil.Standing{Level: 13.5, SD: 0.15, Temp: oil.Is(oil.Fahrenheit(150))},
		Start:    oil.Standing{Level: 12.0, SD: 0.15, Temp: oil.Is(oil.Fahrenheit(45))},
		Found:    []oil.Found{{Volume: 26, SD: oil.JugSD}, {Volume: 3.5, SD: oil.JarSD}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, line := range m.Say() {
		fmt.Println(line)
	}
	// Output:
	// 30.4 fl oz left the tank, 0.9 fl oz not found: surely 0.0 fl oz, could be 13.5 fl oz.
	// A stick never clears an engine. Only draining every cylinder and intake pipe below the horizon, measured, and turning by hand by the owner's card deal with hydraulic lock.
}

// DEMO figures, invented.
func ExampleMakeUp() {
	factor, _ := oil.MakeUp(8*quantity.Quart, 16*quantity.Quart)
	hand, _ := oil.MakeUpByHand(8*quantity.Quart, 16*quantity.Quart)
	fmt.Printf("With half a charge added, 24 ppm would have been up to %.1f; reckoned by hand, %.1f.\n", 24*factor, 24*hand)
	// Output: With half a charge added, 24 ppm would have been up to 30.5; reckoned by hand, 30.0.
}

// DEMO figures, invented.
func ExampleHistory_Words() {
	own, err := oil.OwnHistory([]oil.PPM{12, 15, 11, 14, 13, 16, 12, 15})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(own.Words(18))
	// Output: 18 ppm; this engine's own line, from 8 samples, is 17, over it. Take another sample, open the screens and call the shop. It sees no chips.
}

func ExampleLost() {
	lost, _ := oil.Lost(oil.Dipped{Volume: 14 * quantity.Quart, At: 150}, oil.Dipped{Volume: 12.5 * quantity.Quart, At: 50}, 890)
	fmt.Printf("14 quarts hot and 12½ cold look like 1.5 gone; %.2f are, the rest is cooling.\n", lost.Quarts())
	// Output: 14 quarts hot and 12½ cold look like 1.5 gone; 0.95 are, the rest is cooling.
}

func ExampleGrade_Words() {
	g, _ := oil.ParseGrade("W100")
	fmt.Println(g.Words())
	// Output: SAE 50 is 100 on a can and 1100 in old papers.
}
