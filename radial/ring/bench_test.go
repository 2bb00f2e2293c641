package ring_test

import (
	"testing"

	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

// Nine cylinders at each of 720 one-degree steps: what a drawing of the engine in
// motion asks for.
func BenchmarkNineCylinders720Steps(b *testing.B) {
	pistons := plainNine.Pistons()
	var sum quantity.Length
	for b.Loop() {
		for step := range 720 {
			for i := range pistons {
				sum += pistons[i].Pin(quantity.Angle(step))
			}
		}
	}
	if sum == 0 {
		b.Fatal("no piston moved")
	}
}

// The same, and the dead centres first.
func BenchmarkNineCylindersFromTheirRods(b *testing.B) {
	given, err := nine.Rods(2.5, 10.1, 5, ring.Alike(9, ring.Link{Knuckle: 2.75, Length: 7.35}))
	if err != nil {
		b.Fatal(err)
	}
	var sum quantity.Length
	for b.Loop() {
		l, err := ring.NewLinkage(given)
		if err != nil {
			b.Fatal(err)
		}
		for _, p := range l.Pistons() {
			for step := range 720 {
				sum += p.Travel(quantity.Angle(step))
			}
		}
	}
	if sum == 0 {
		b.Fatal("no piston moved")
	}
}
