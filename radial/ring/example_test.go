package ring_test

import (
	"fmt"

	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

// The engines of the examples are invented.

func ExampleRing_Below() {
	nine, _ := ring.New(ring.Layout{Cylinders: 9, Seen: ring.FromCockpit, Numbered: ring.Clockwise, Turns: ring.Clockwise})
	low, _ := nine.Below(ring.Attitude{TailDown: 12})
	lowest, _ := nine.Lowest(ring.Attitude{TailDown: 12})
	tilted, _ := nine.Below(ring.Attitude{TailDown: 12, Roll: 11})
	fmt.Printf("On a nine parked tail-down, cylinders %v hang, %v lowest. Right wing 11° low, %v hang.\n", low, lowest, tilted)
	// Output: On a nine parked tail-down, cylinders [4 5 6 7] hang, [5 6] lowest. Right wing 11° low, [3 4 5 6 7] hang.
}

func ExampleRing_FiringOrder() {
	seven, _ := ring.New(ring.Layout{Cylinders: 7, Seen: ring.FromCockpit, Numbered: ring.Clockwise, Turns: ring.Clockwise})
	order, _ := seven.FiringOrder(1)
	socket, _ := seven.Socket(2, 1)
	fmt.Printf("A seven fires %v, one every %.1f°; the lead of cylinder 2 goes to socket %d.\n", order, seven.Interval(), socket)
	// Output: A seven fires [1 3 5 7 2 4 6], one every 102.9°; the lead of cylinder 2 goes to socket 5.
}

func ExampleCamSeen() {
	cam, _ := ring.CamSeen(7, 3)
	fmt.Printf("Three lobes on a seven: the cam ring turns against the crankshaft (%v), at %v of its speed.\n",
		cam.Turn == ring.AgainstShaft, cam.Speed())
	// Output: Three lobes on a seven: the cam ring turns against the crankshaft (true), at 1/6 of its speed.
}

func ExamplePiston_Top() {
	seven, _ := ring.New(ring.Layout{Cylinders: 7, Seen: ring.FromCockpit, Numbered: ring.Clockwise, Turns: ring.Clockwise})
	rods, _ := seven.Rods(2.5, 9.75, 1, ring.Alike(7, ring.Link{Knuckle: 2.55, Length: 7.2}))
	l, _ := ring.NewLinkage(rods)
	for _, k := range []int{3, 6} {
		p, _ := l.Piston(k)
		top := p.Top()
		fmt.Printf("Cylinder %d stops %.3f in below the master, %+.1f° from evenly spaced.\n", k, -top.Height.Inches(), top.Shift)
	}
	mirror, _ := seven.Mirror(3, 1)
	fmt.Printf("3 and %d are mirrors: a bent rod shows as a difference of their heights.\n", mirror)
	// Output:
	// Cylinder 3 stops 0.098 in below the master, +4.7° from evenly spaced.
	// Cylinder 6 stops 0.098 in below the master, -4.7° from evenly spaced.
	// 3 and 6 are mirrors: a bent rod shows as a difference of their heights.
}

// A helper checked the timing of a nine on cylinder 1, found 22.8° before its top and
// called it two degrees late. The master is in 5 and the breaker cam is even.
func ExamplePiston_TrueAdvance() {
	nine, _ := ring.New(ring.Layout{Cylinders: 9, Seen: ring.FromCockpit, Numbered: ring.Clockwise, Turns: ring.Clockwise})
	rods, _ := nine.Rods(2.5, 10.1, 5, ring.Alike(9, ring.Link{Knuckle: 2.75, Length: 7.35}))
	l, _ := ring.NewLinkage(rods)
	one, _ := l.Piston(1)
	fmt.Printf("With 25° on the master, cylinder 1 is fired %.1f° before its own top, and that is right.\n", one.TrueAdvance(25))
	// Output: With 25° on the master, cylinder 1 is fired 22.8° before its own top, and that is right.
}

func ExamplePiston_Degrees() {
	p, _ := ring.NewCrank(2.5, 9.75)
	d := p.BeforeTop(26)
	slope := p.SlopeBeforeTop(26).InchesPerDegree()
	early, _ := p.Degrees(d + 10*quantity.Thou)
	fmt.Printf("26° before the top the master's piston is %.3f in down, %.3f in to a degree; a gauge 10 thou out says %.1f°.\n", d.Inches(), slope, early)
	// Output: 26° before the top the master's piston is 0.315 in down, 0.024 in to a degree; a gauge 10 thou out says 26.4°.
}

func ExampleDisplacement() {
	d, _ := ring.Displacement(5.375, 5, 7)
	name, _ := ring.Designation(d)
	swept, _ := ring.Swept(5.375, 5)
	room, _ := ring.Clearance(swept, 6.1)
	fmt.Printf("Seven of 5.375 by 5 inches are %.1f cu in, called %d; at 6.1 to 1 each leaves %.1f fl oz above its piston.\n",
		d.CubicInches(), name, room.FluidOunces())
	// Output: Seven of 5.375 by 5 inches are 794.2 cu in, called 795; at 6.1 to 1 each leaves 12.3 fl oz above its piston.
}

func ExampleBMEP() {
	d, _ := ring.Displacement(5.375, 5, 7)
	mep, _ := ring.BMEP(270, d, 2200)
	torque, _ := ring.TorqueFrom(270, 2200)
	speed, _ := ring.MeanPistonSpeed(5, 2200)
	fmt.Printf("270 hp at 2200 rpm is %.0f psi of mean pressure, %.0f foot pounds, and %.0f feet a minute for the pistons.\n",
		mep.PSI(), torque.FootPounds(), speed.FeetPerMinute())
	// Output: 270 hp at 2200 rpm is 122 psi of mean pressure, 645 foot pounds, and 1833 feet a minute for the pistons.
}
