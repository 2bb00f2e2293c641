package torque_test

import (
	"math"
	"testing"

	"linkrod/radial/quantity"
	"linkrod/radial/torque"
)

// point is a place on the bench in inches, the drive at the origin.
type point struct{ x, y float64 }

// moment of a force f that acts at p, about c: the cross product (p − c) × f.
func moment(p, f, c point) float64 { return (p.x-c.x)*f.y - (p.y-c.y)*f.x }

// bench is the wrench lying on it: grip to the right of the drive, the adapter at its
// angle from the line drawn on to the left, and a pull turned off square by so many
// degrees. It gives the moments at the drive and at the nut.
func bench(s torque.Setup, off float64) (drive, nut float64) {
	sin, cos := math.Sincos(s.Angle.Radians())
	grip := point{s.Lever.Inches(), 0}
	at := point{-s.Adapter.Inches() * cos, s.Adapter.Inches() * sin}
	sinOff, cosOff := math.Sincos(off * math.Pi / 180)
	pull := point{10 * sinOff, 10 * cosOff}
	return moment(grip, pull, point{}), moment(grip, pull, at)
}

// The formula against the statics of a free body, on random wrenches.
func TestSettingByStatics(t *testing.T) {
	r := random(t)
	for range 10_000 {
		s := torque.Setup{
			Lever:   quantity.Length(4 + 40*r.Float64()),
			Adapter: quantity.Length(12 * r.Float64()),
			Angle:   quantity.Angle(180 * r.Float64()),
		}
		drive, nut := bench(s, 0)
		if nut < 0.01*drive {
			if _, err := s.Effective(); nut <= -1e-9*drive && err == nil {
				t.Fatalf("%+v: the nut is behind the hand, and that was taken", s)
			}
			continue
		}
		set := must(s.Setting(quantity.Torque(nut)))
		if !near(set.InchPounds(), drive, 1e-11*drive) {
			t.Fatalf("%+v: %v in-lb at the nut set as %v, statics says %v", s, nut, set, drive)
		}
		if got := must(s.Applied(set)); !near(got.InchPounds(), nut, 1e-11*nut) {
			t.Fatalf("%+v: %v came back as %v", s, nut, got)
		}
		if arm := must(s.Effective()); !near(arm.Inches()*10, nut, 1e-9) {
			t.Fatalf("%+v: arm %v, statics says %v", s, arm, nut/10)
		}
	}
}

// What the figures in the package comment claim.
func TestHowMuchAnErrorIs(t *testing.T) {
	s := torque.Setup{Lever: 11, Adapter: 3.25}
	set := must(s.Setting(435))
	for _, tt := range []struct {
		name string
		got  quantity.Torque
		want float64 // share
	}{
		{"3 in too far out", must(s.PulledAt(14, set)), -0.049},
		{"3 in too far in", must(s.PulledAt(8, set)), 0.086},
		{"on the mark", must(s.PulledAt(11, set)), 0},
		{"adapter a quarter inch longer", must(torque.Setup{Lever: 11, Adapter: 3.5}.Applied(set)), 0.018},
		{"adapter left out", must(s.Applied(435)), 0.30},
		{"no adapter, any grip", must(torque.Setup{Lever: 11}.PulledAt(6, 435)), 0},
	} {
		if got := float64(tt.got)/435 - 1; !near(got, tt.want, 0.0055) {
			t.Errorf("%s: off by %.4f, the comment says %v", tt.name, got, tt.want)
		}
	}
	square := torque.Setup{Lever: 12, Adapter: 6, Angle: 90}
	if drive, nut := bench(square, 10); !near(math.Abs(nut/drive-1), 0.09, 0.005) {
		t.Errorf("pulled 10° off square: nut %v, wrench %v", nut, drive)
	}
}

// A(1 + E) with E in feet, passed on in forums, is right for a wrench 12 in long and for
// no other.
func TestForumFormula(t *testing.T) {
	for _, lever := range []quantity.Length{9, 11, 12, 18} {
		got := must(torque.Setup{Lever: lever, Adapter: 9}.Setting(100 * ftLb)).FootPounds()
		if forum := 100 / (1 + 9.0/12); near(got, forum, 1e-9) != (lever == 12) {
			t.Errorf("lever %v: %v ft-lb, the forum says %v", lever, got, forum)
		}
	}
}

func TestAdapterWays(t *testing.T) {
	for _, tt := range []struct {
		s    torque.Setup
		want float64 // arm
	}{
		{torque.Setup{Lever: 10}, 10},
		{torque.Setup{Lever: 10, Adapter: 2.5}, 12.5},
		{torque.Setup{Lever: 10, Adapter: 2.5, Angle: 90}, 10},
		{torque.Setup{Lever: 10, Adapter: 2.5, Angle: 180}, 7.5},
		{torque.Setup{Lever: 10, Adapter: -2.5}, 7.5},
		{torque.Setup{Lever: 10, Adapter: 2, Angle: 60}, 11},
		{torque.Setup{Lever: 10, Adapter: 2, Angle: 120}, 9},
		{torque.Setup{Lever: 10, Adapter: 9.999, Angle: 180}, 0.001},
		{torque.Setup{Lever: 10, Adapter: 30, Angle: 90}, 10},
	} {
		if got := must(tt.s.Effective()); !near(got.Inches(), tt.want, 1e-14*10) {
			t.Errorf("%+v: arm %v, want %v", tt.s, got, tt.want)
		}
	}
	if set := must(torque.Setup{Lever: 10, Adapter: 2.5, Angle: 90}.Setting(300)); set != 300 {
		t.Errorf("square adapter: set to %v", set)
	}
}

func TestSetupsThatCannotBe(t *testing.T) {
	for _, tt := range []struct {
		s            torque.Setup
		field, words string
	}{
		{torque.Setup{}, "lever", "above 0"},
		{torque.Setup{Lever: -11}, "lever", "above 0"},
		{torque.Setup{Lever: quantity.Length(nan)}, "lever", "no number"},
		{torque.Setup{Lever: quantity.Length(inf)}, "lever", "above 0"},
		{torque.Setup{Lever: 11, Adapter: quantity.Length(nan)}, "adapter", "no number"},
		{torque.Setup{Lever: 11, Adapter: quantity.Length(inf)}, "adapter", "no number"},
		{torque.Setup{Lever: 11, Adapter: 3, Angle: -1}, "angle", "straight out"},
		{torque.Setup{Lever: 11, Adapter: 3, Angle: 180.5}, "angle", "back along"},
		{torque.Setup{Lever: 11, Adapter: 3, Angle: quantity.Angle(nan)}, "angle", "not known"},
		{torque.Setup{Lever: 11, Adapter: -3, Angle: 180}, "adapter", "already means back"},
		{torque.Setup{Lever: 11, Adapter: 11, Angle: 180}, "adapter", "under the hand"},
		{torque.Setup{Lever: 11, Adapter: -11.5}, "adapter", "under the hand"},
	} {
		for _, err := range []error{
			second(tt.s.Effective()), second(tt.s.Setting(100)), second(tt.s.Applied(100)), second(tt.s.Say(100)),
		} {
			wantProblem(t, err, tt.field, tt.words)
		}
	}
	good := torque.Setup{Lever: 11, Adapter: 3}
	for _, bad := range []quantity.Torque{0, -5, quantity.Torque(nan), quantity.Torque(inf)} {
		wantProblem(t, second(good.Setting(bad)), "torque wanted", "above 0")
		wantProblem(t, second(good.Applied(bad)), "reading", "above 0")
	}
	wantProblem(t, second(good.PulledAt(0, 100)), "grip", "above 0")
	wantProblem(t, second(good.PulledAt(11, 0)), "reading", "above 0")
}

func TestOffScale(t *testing.T) {
	for _, tt := range []struct {
		setting, full quantity.Torque
		words         string
	}{
		{100, 500, ""}, {99.9, 500, "smaller wrench"}, {500, 500, ""}, {500.1, 500, "longer wrench"}, {300, 500, ""},
	} {
		got := must(torque.OffScale(tt.setting, tt.full))
		if tt.words == "" && got != "" || !says(got, tt.words) {
			t.Errorf("%v of %v: %q, want %q", tt.setting, tt.full, got, tt.words)
		}
	}
	wantProblem(t, second(torque.OffScale(0, 500)), "setting", "above 0")
	wantProblem(t, second(torque.OffScale(100, -500)), "full scale", "above 0")
}

func TestSay(t *testing.T) {
	s := torque.Setup{Lever: 11, Adapter: 3.25}
	if got := must(s.Say(435)); !says(got, "Set the wrench to 335.8 inch pounds, about 28.0 foot pounds, and the nut gets 435: 435 × 11 in / 14.25 in.") {
		t.Error(got)
	}
	s.Angle = 90
	if got := must(s.Say(435)); !says(got, "435 inch pounds, 36.25 foot pounds: this adapter changes nothing.") {
		t.Error(got)
	}
	if got := torque.Spoken(335.789); got != "three hundred thirty-five point eight INCH pounds, about twenty-eight point zero foot pounds" {
		t.Error(got)
	}
	if got := torque.Spoken(quantity.Torque(nan)); got != "no number" {
		t.Error(got)
	}
}
