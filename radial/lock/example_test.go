package lock_test

import (
	"fmt"

	"linkrod/radial/lock"
	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

// The engine of the examples is invented: seven cylinders of 5.375 by 5 inches at 6.1 to 1.

// Thirty-four days idle; the pull-through went firm on cylinder 5, and 11.5 fl oz came out.
func ExampleFill() {
	five := chambers[4]
	c, _ := lock.Fill(five, 11.5*quantity.FluidOunce)
	fmt.Printf("Cylinder 5 has room for %.1f fl oz. 11.5 in it leave %.1f to 1 of compression where there should be %.1f.\n",
		five.Clearance.FluidOunces(), c.Ratio, five.Ratio())
	// Output: Cylinder 5 has room for 12.5 fl oz. 11.5 in it leave 61.7 to 1 of compression where there should be 6.0.
}

func ExampleLiquidFor() {
	swept, _ := ring.Swept(5.1875, 5.1875)
	room, _ := ring.Clearance(swept, 6)
	nine := ring.Chamber{Swept: swept, Clearance: room}
	v, _ := lock.LiquidFor(nine, 2*nine.Ratio())
	fmt.Printf("%.1f fl oz, a small teacup, doubles the compression of a cylinder of a 985 class nine.\n", v.FluidOunces())
	// Output: 6.6 fl oz, a small teacup, doubles the compression of a cylinder of a 985 class nine.
}

func ExamplePropeller_BladesFor() {
	gear, _ := lock.ParseGear("3:2")
	geared := lock.Propeller{Blades: 3, Gear: gear}
	direct := lock.Propeller{Blades: 2, Gear: lock.Direct}
	a, _ := direct.BladesFor(1)
	b, _ := geared.BladesFor(1)
	pulled, _ := direct.Pull(8, 9)
	fmt.Printf("Every cylinder once: %d blades of two direct, %d of three geared 3:2. Eight of two on a nine pass %v compressions, each cylinder %d times.\n",
		a, b, pulled.Compressions, pulled.EveryCylinder)
	// Output: Every cylinder once: 4 blades of two direct, 4 of three geared 3:2. Eight of two on a nine pass 18 compressions, each cylinder 2 times.
}

func ExamplePush_OnPiston() {
	push := lock.Push{Force: 60, Arm: 4 * quantity.Foot, Gear: lock.Direct}
	master, _ := ring.NewCrank(2.5, 9.75)
	far, _ := push.OnPiston(master, 30)
	close, _ := push.OnPiston(master, 10)
	fmt.Printf("A 60 lb push 4 ft out is %.0f lb on the piston 30° before its top and %.0f lb at 10°.\n", far, close)
	// Output: A 60 lb push 4 ft out is 1882 lb on the piston 30° before its top and 5296 lb at 10°.
}

func ExampleWorst_Words() {
	low, _ := lock.Lows(seven, ring.Attitude{}, chambers)
	w, _ := lock.WorstCase(7.3*quantity.FluidOunce, 29.7*quantity.FluidOunce, low)
	fmt.Println(w.Words())
	// Output: At least 7.3 fl oz of oil is somewhere in the engine. It could be up to 29.7 fl oz, 2.4 clearance volumes of cylinder 4: enough to lock it. A stick never clears an engine: drain the low cylinders and their inlet pipes.
}

func ExampleCharge_Peak() {
	c, _ := lock.Fill(chambers[0], 6*quantity.FluidOunce)
	dry, _ := lock.Polytropic(14.7, chambers[0].Ratio(), lock.Cranking)
	wet, _ := c.Peak(14.7, lock.Cranking)
	fmt.Printf("Cranked dry the master cylinder's peak is at most %.0f psi on a gauge; with 6 fl oz in it, %.0f.\n",
		lock.Gauge(dry, 14.7), lock.Gauge(wet, 14.7))
	// Output: Cranked dry the master cylinder's peak is at most 140 psi on a gauge; with 6 fl oz in it, 315.
}
