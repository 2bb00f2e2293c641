package ignition_test

import (
	"fmt"

	"linkrod/radial/ignition"
	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

// The engines of the examples are invented.

// Somebody checked the timing of a nine on cylinder 1 and called it two degrees late. The
// master is in 5 and the breaker cam is even.
func ExampleTiming_Found() {
	f, _ := nineTiming.Found(1, 22.8)
	fmt.Println(f.Words())
	// Output: Cylinder 1 hangs on a link rod, and its top comes 2.2° early. With an even cam and 25° on cylinder 5 it is fired 22.8° before its own top, 0.309 in down. 22.8° was found, the same. Against the 25° of cylinder 5 it would look 2.2° late.
}

func ExampleTiming_Spark() {
	s, _ := nineTiming.Spark(5)
	fmt.Printf("The nine is timed on cylinder %d with its piston %.3f in below its top, where a thou is %.2f°.\n",
		s.Cylinder, s.Travel.Inches(), 0.001/s.Slope.InchesPerDegree())
	// Output: The nine is timed on cylinder 5 with its piston 0.290 in below its top, where a thou is 0.04°.
}

func ExamplePositiveStop() {
	link, _ := seven.Rods.Piston(3)
	s, _ := ignition.PositiveStop(link, 25, 25)
	fmt.Printf("The stop is met 25° either side, %.2f in down. Halving says the top is at %.1f°; cylinder 3 hangs on a link rod, and it is at %.1f°.\n",
		s.Travel.Inches(), s.Halfway, s.Top)
	// Output: The stop is met 25° either side, 0.31 in down. Halving says the top is at 0.0°; cylinder 3 hangs on a link rod, and it is at 0.3°.
}

func ExampleTiming_Lobes() {
	t, _ := ignition.New(seven)
	for _, l := range t.Lobes()[:3] {
		fmt.Printf("The lobe of cylinder %d is %.2f° of cam round; even would be a multiple of %.2f°.\n", l.Cylinder, l.At, 360.0/7)
	}
	// Output:
	// The lobe of cylinder 1 is 0.00° of cam round; even would be a multiple of 51.43°.
	// The lobe of cylinder 3 is 53.79° of cam round; even would be a multiple of 51.43°.
	// The lobe of cylinder 5 is 101.49° of cam round; even would be a multiple of 51.43°.
}

func ExampleDriftOf() {
	d, _ := ignition.DriftOf(
		ignition.Points{Gap: quantity.Of("16", quantity.UnitThou), Opens: quantity.Of("28", quantity.UnitDeg)},
		ignition.Points{Gap: quantity.Of("11", quantity.UnitThou), Opens: quantity.Of("24.5", quantity.UnitDeg)})
	fmt.Println(d.Words())
	// Output: The gap has closed and the spark comes later: the follower wears. Look at it, and at its oil pad, before setting either.
}

func ExampleRunUp_Judge() {
	r := ignition.RunUp{
		Both: quantity.Of("1700", quantity.UnitRpm),
		Left: quantity.Of("1700", quantity.UnitRpm), Right: quantity.Of("1660", quantity.UnitRpm),
	}
	c, _ := r.Judge(ignition.DropLimits{Most: quantity.Of("75", quantity.UnitRpm)}, ignition.Earlier{})
	fmt.Println(c.Words())
	// Output: No drop on the left alone: the right was not cut off. Take it for live, switch off or not: keep clear of the propeller until its ground lead and the switch have been looked at. The right alone drops 40 rpm, inside the 75 rpm of its card.
}

func ExampleAdvanceCurve_At() {
	c, _ := ignition.NewAdvanceCurve(
		ignition.AdvancePoint{Speed: 400, Advance: 5},
		ignition.AdvancePoint{Speed: 1200, Advance: 28})
	a, _ := c.At(800)
	full := c.Full()
	fmt.Printf("The weights give %.1f° at 800 rpm and %v° from %v rpm up.\n", a, full.Advance.Degrees(), full.Speed.RPM())
	// Output: The weights give 16.5° at 800 rpm and 28° from 1200 rpm up.
}

func ExampleClosed() {
	ms, _ := ignition.Closed(25, 2200, ring.Distributor)
	share, _ := ignition.Dwell(25, 9)
	fmt.Printf("With 25° of dwell on nine lobes the points are closed %.0f %% of the time, %.1f ms at a go at 2200 rpm.\n", 100*share, float64(ms))
	// Output: With 25° of dwell on nine lobes the points are closed 62 % of the time, 3.8 ms at a go at 2200 rpm.
}

func ExampleNeutralAt() {
	speed, _ := ring.Magneto(7, 4)
	crank, _ := ignition.EGapAtCrank(10, speed)
	at, _ := ignition.NeutralAt(25, 10, speed)
	fmt.Printf("A magneto that turns at %v of crank speed and opens 10° past neutral does so %.1f° of crank after it: to fire at 25° its magnet is in neutral at %.1f°.\n", speed, crank, at)
	// Output: A magneto that turns at 7/8 of crank speed and opens 10° past neutral does so 11.4° of crank after it: to fire at 25° its magnet is in neutral at 36.4°.
}
