package torque_test

import (
	"testing"

	"linkrod/radial/quantity"
	"linkrod/radial/torque"
)

// 450 ft-lb is 150 lb at 3 ft: common practice, no source.
func TestPull(t *testing.T) {
	if f := must(torque.Pull(450*ftLb, 3*quantity.Foot)); !near(f.PoundsForce(), 150, 1e-12) {
		t.Errorf("450 ft-lb on 3 ft: %v lb", f)
	}
	if got := must(torque.PullGives(150, 36)); got != 450*ftLb {
		t.Errorf("150 lb on 36 in: %v", got)
	}
	wantProblem(t, second(torque.Pull(0, 36)), "torque", "above 0")
	wantProblem(t, second(torque.Pull(450, 0)), "bar", "above 0")
	wantProblem(t, second(torque.PullGives(quantity.Force(nan), 36)), "pull", "above 0")
	wantProblem(t, second(torque.PullGives(150, -36)), "bar", "above 0")
}

func TestWeightOnABar(t *testing.T) {
	level := torque.Bar{Length: 4 * quantity.Foot}
	if out := must(level.WeightAt(480*ftLb, 160)); !near(out.Feet(), 3, 1e-12) {
		t.Errorf("160 lb for 480 ft-lb hangs %v out", out)
	}
	// 60° from level halves the arm.
	steep := torque.Bar{Length: 4 * quantity.Foot, Slope: 60}
	if got := must(steep.WeightGives(160, 36)); !near(got.FootPounds(), 240, 1e-9) {
		t.Errorf("at 60°: %v", got)
	}
	// A metric body: 72.6 kg is the 160 lb above.
	if got := must(level.WeightGives(72.574779*quantity.Kilogram, 36)); !near(got.FootPounds(), 480, 1e-5) {
		t.Errorf("72.57 kg: %v", got)
	}
	// The whole bar is used and no more.
	if out := must(level.WeightAt(640*ftLb, 160)); !near(out.Inches(), 48, 1e-12) {
		t.Errorf("at the end: %v", out)
	}
	wantProblem(t, second(level.WeightAt(641*ftLb, 160)), "bar", "The bar is 4 ft long. 160\u2009lb would have to hang 4.01 ft out. Take a longer bar")
	wantProblem(t, second(level.WeightGives(160, 48.01)), "distance out", "on a bar of")
	r := random(t)
	for range 1000 {
		b := torque.Bar{Length: 1000, Slope: quantity.Angle(80 * r.Float64())}
		w, want := quantity.Mass(80+200*r.Float64()), quantity.Torque(100+5000*r.Float64())
		out := must(b.WeightAt(want, w))
		if back := must(b.WeightGives(w, out)); !near(back.InchPounds(), want.InchPounds(), 1e-11*want.InchPounds()) {
			t.Fatalf("%+v %v: %v came back as %v", b, w, want, back)
		}
	}
	for _, tt := range []struct {
		b            torque.Bar
		w            quantity.Mass
		t            quantity.Torque
		field, words string
	}{
		{torque.Bar{}, 160, 480, "bar", "above 0"},
		{torque.Bar{Length: 48, Slope: 90}, 160, 480, "slope", "turns nothing"},
		{torque.Bar{Length: 48, Slope: -1}, 160, 480, "slope", "from level"},
		{torque.Bar{Length: 48, Slope: quantity.Angle(nan)}, 160, 480, "slope", "from level"},
		{level, 0, 480, "weight", "above 0"},
		{level, 160, 0, "torque", "above 0"},
	} {
		wantProblem(t, second(tt.b.WeightAt(tt.t, tt.w)), tt.field, tt.words)
	}
	wantProblem(t, second(level.WeightGives(160, 0)), "distance out", "above 0")
}
