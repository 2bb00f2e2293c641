package compression_test

import (
	"math"
	"testing"

	"linkrod/radial/compression"
	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

func TestPistonForce(t *testing.T) {
	if f := must(compression.PistonForce(5.375, 80)); !near(f.PoundsForce(), 1815, 1) {
		t.Errorf("80 psi on 5.375 in: %v", f)
	}
	// In metric: newtons on square millimetres.
	if f := must(compression.PistonForce(100*quantity.Millimetre, 5*quantity.Bar)); !near(f.Newtons(), 0.5*math.Pi/4*10000, 1e-6) {
		t.Errorf("5 bar on 100 mm: %v N", f.Newtons())
	}
	wantProblem(t, second(compression.PistonForce(0, 80)), "bore", "more than 0")
	wantProblem(t, second(compression.PistonForce(quantity.Length(nan), 80)), "bore", "more than 0")
	wantProblem(t, second(compression.PistonForce(5, -80)), "pressure", "more than 0")
}

// The torque is the work of the air over a small turn, by the textbook slider crank.
func TestHoldingTorqueByWork(t *testing.T) {
	const throw, rod, bore, p = 2.59375, 10.5, 5.1875, 80.0
	piston := must(ring.NewCrank(throw, rod))
	below := func(deg float64) float64 {
		sin, cos := math.Sincos(deg * math.Pi / 180)
		return throw + rod - throw*cos - math.Sqrt(rod*rod-throw*throw*sin*sin)
	}
	for _, deg := range []float64{0, 1, 5, 20, 45, 90, 150, -5, -20, -120} {
		const h = 0.001
		work := p * math.Pi / 4 * bore * bore * (below(deg+h) - below(deg-h))
		want := math.Abs(work / (2 * h * math.Pi / 180))
		got := must(compression.HoldingTorque(piston, bore, p, quantity.Angle(deg)))
		if !near(got.InchPounds(), want, 1e-5*want+1e-6) {
			t.Errorf("%v° off the top: %v, by work %v", deg, got, want)
		}
	}
	// What the package comment claims: 40 and 154 foot pounds.
	for deg, want := range map[quantity.Angle]float64{5: 40, 20: 154} {
		if got := must(compression.HoldingTorque(piston, bore, p, deg)); !near(got.FootPounds(), want, 0.5) {
			t.Errorf("%v° off: %v ft-lb, the comment says %v", deg, got.FootPounds(), want)
		}
	}
	// A link cylinder is not alike before and after its top.
	seven := must(ring.New(ring.Layout{Cylinders: 7, Seen: ring.FromCockpit, Numbered: ring.Clockwise, Turns: ring.Clockwise}))
	rods := must(ring.NewLinkage(must(seven.Rods(2.5, 9.75, 1, ring.Alike(7, ring.Link{Knuckle: 2.55, Length: 7.2})))))
	three := must(rods.Piston(3))
	before, after := must(compression.HoldingTorque(three, bore, p, 20)), must(compression.HoldingTorque(three, bore, p, -20))
	if near(float64(before/after), 1, 0.01) {
		t.Errorf("link cylinder: %v before its top and %v after", before, after)
	}
	wantProblem(t, second(compression.HoldingTorque(piston, bore, p, 180.25)), "angle off the top", "is 180.3° off the top")
	for _, bad := range []quantity.Angle{180, -180, quantity.Angle(nan)} {
		wantProblem(t, second(compression.HoldingTorque(piston, bore, p, bad)), "angle off the top", "less than 180°")
	}
	wantProblem(t, second(compression.HoldingTorque(ring.Piston{}, bore, p, 5)), "piston", "No crank")
	wantProblem(t, second(compression.HoldingTorque(piston, 0, p, 5)), "bore", "more than 0")
}

func TestAtBlade(t *testing.T) {
	direct, geared := ring.Ratio{Num: 1, Den: 1}, ring.Ratio{Num: 3, Den: 2}
	if f := must(compression.AtBlade(40*quantity.FootPound, 4*quantity.Foot, direct)); !near(f.PoundsForce(), 10, 1e-12) {
		t.Errorf("40 ft-lb at 4 ft: %v", f)
	}
	// No work is lost in the gear: the crank turns 3 while the propeller turns 2.
	f := must(compression.AtBlade(40*quantity.FootPound, 4*quantity.Foot, geared))
	if !near(f.PoundsForce()*4*2, 40*3, 1e-12) {
		t.Errorf("geared 3:2: %v", f)
	}
	if f := must(compression.AtBlade(0, 48, direct)); f != 0 {
		t.Errorf("at the top: %v", f)
	}
	wantProblem(t, second(compression.AtBlade(40, 0, direct)), "arm", "more than 0")
	wantProblem(t, second(compression.AtBlade(-1.25, 48, direct)), "torque", "is −1.3 in-lb. It must be 0 or more")
	wantProblem(t, second(compression.AtBlade(quantity.Torque(inf), 48, direct)), "torque", "0 or more")
	wantProblem(t, second(compression.AtBlade(40, 48, ring.Ratio{})), "gear", "1 to 1")
	wantProblem(t, second(compression.AtBlade(40, 48, ring.Ratio{Num: 2, Den: 3})), "gear", "1 to 1")
}
