package ring_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

// wantProblem expects an error about one input, in a whole sentence.
func wantProblem(t *testing.T, err error, field string) {
	t.Helper()
	p, plainly := err.(*ring.Problem)
	if !plainly {
		t.Errorf("no problem with the %s: %v", field, err)
		return
	}
	if p.Field != field || p.Error() != p.Sentence || !(strings.HasSuffix(p.Sentence, ".") || strings.HasSuffix(p.Sentence, "?")) {
		t.Errorf("problem with the %s: %q, want one with the %s", p.Field, p.Sentence, field)
	}
}

func TestLayoutThatCannotBe(t *testing.T) {
	good := ring.Layout{Cylinders: 7, Seen: ring.FromCockpit, Numbered: ring.Clockwise, Turns: ring.Clockwise}
	for _, tt := range []struct {
		field string
		spoil func(*ring.Layout)
	}{
		{"cylinders", func(l *ring.Layout) { l.Cylinders = 0 }},
		{"cylinders", func(l *ring.Layout) { l.Cylinders = 8 }},
		{"cylinders", func(l *ring.Layout) { l.Cylinders = 13 }},
		{"cylinders", func(l *ring.Layout) { l.Cylinders = -7 }},
		{"view", func(l *ring.Layout) { l.Seen = 0 }},
		{"numbering", func(l *ring.Layout) { l.Numbered = 0 }},
		{"rotation", func(l *ring.Layout) { l.Turns = 9 }},
		{"no. 1", func(l *ring.Layout) { l.No1 = quantity.Angle(math.NaN()) }},
	} {
		l := good
		tt.spoil(&l)
		_, err := ring.New(l)
		wantProblem(t, err, tt.field)
	}
}

// Where the cylinders of a nine stand, from either side.
func TestAngles(t *testing.T) {
	for _, tt := range []struct {
		k    int
		seen ring.View
		want quantity.Angle
	}{
		{1, ring.FromCockpit, 0}, {1, ring.FromPropeller, 0},
		{2, ring.FromCockpit, 40}, {2, ring.FromPropeller, 320},
		{5, ring.FromCockpit, 160}, {6, ring.FromCockpit, 200}, {9, ring.FromPropeller, 40},
	} {
		if got, err := nine.Angle(tt.k, tt.seen); err != nil || got != tt.want {
			t.Errorf("cylinder %d stands at %v (%v), want %v", tt.k, got, err, tt.want)
		}
	}
	hair, err := ring.New(ring.Layout{7, ring.FromCockpit, ring.Clockwise, ring.Clockwise, -1e-20})
	if err != nil {
		t.Fatal(err)
	}
	if got, err := hair.Angle(1, ring.FromCockpit); err != nil || got != 0 {
		t.Errorf("a hair before the top is at %v (%v), not within a turn", got, err)
	}
	_, err = nine.Angle(10, ring.FromCockpit)
	wantProblem(t, err, "cylinder")
	_, err = nine.Angle(1, 0)
	wantProblem(t, err, "view")
	_, err = nine.Axes(0)
	wantProblem(t, err, "master cylinder")
	_, err = nine.Mirror(1, 0)
	wantProblem(t, err, "master cylinder")
	_, err = nine.Mirror(0, 1)
	wantProblem(t, err, "cylinder")
	_, err = nine.Mirrors(10)
	wantProblem(t, err, "master cylinder")
}

// The same engine described from the other side is the same engine.
func TestSeenFromTheOtherSide(t *testing.T) {
	other := map[ring.Turn]ring.Turn{ring.Clockwise: ring.Anticlockwise, ring.Anticlockwise: ring.Clockwise}
	for _, n := range []int{3, 5, 7, 9, 11} {
		for _, numbered := range []ring.Turn{ring.Clockwise, ring.Anticlockwise} {
			for _, turns := range []ring.Turn{ring.Clockwise, ring.Anticlockwise} {
				for _, no1 := range []quantity.Angle{0, 20, 180} {
					behind, err := ring.New(ring.Layout{n, ring.FromCockpit, numbered, turns, no1})
					front, err2 := ring.New(ring.Layout{n, ring.FromPropeller, other[numbered], other[turns], -no1})
					if err != nil || err2 != nil {
						t.Fatal(err, err2)
					}
					if behind != front {
						t.Errorf("%d cylinders: %+v from behind, %+v from the front", n, behind, front)
					}
				}
			}
		}
	}
}

// Axes agree with where the cylinders stand, whichever way anything runs.
func TestAxesAreAnglesFromTheMaster(t *testing.T) {
	for _, numbered := range []ring.Turn{ring.Clockwise, ring.Anticlockwise} {
		for _, turns := range []ring.Turn{ring.Clockwise, ring.Anticlockwise} {
			r, err := ring.New(ring.Layout{7, ring.FromPropeller, numbered, turns, 0})
			if err != nil {
				t.Fatal(err)
			}
			axes, err := r.Axes(3)
			if err != nil {
				t.Fatal(err)
			}
			// Looking so that the shaft turns clockwise, axes are clockwise from the master.
			seen := ring.FromPropeller
			if turns == ring.Anticlockwise {
				seen = ring.FromCockpit
			}
			master, _ := r.Angle(3, seen)
			for i, axis := range axes {
				if axis < 0 || axis >= 360 {
					t.Errorf("axis of cylinder %d is %v", i+1, axis)
				}
				at, _ := r.Angle(i+1, seen)
				if d := math.Remainder((at - master - axis).Degrees(), 360); !near(d, 0, 1e-9) {
					t.Errorf("numbered %v, turning %v: cylinder %d is at %v and %v from the master at %v", numbered, turns, i+1, at, axis, master)
				}
			}
		}
	}
}

// Which cylinders hang. Source: common practice for the levels; the arithmetic is
// cos(angle) against nought, done here by hand for each case.
func TestWhichHang(t *testing.T) {
	type list = []int
	for _, tt := range []struct {
		n                    int
		a                    ring.Attitude
		below, level, lowest list
	}{
		{5, ring.Attitude{}, list{3, 4}, nil, list{3, 4}},
		{7, ring.Attitude{}, list{3, 4, 5, 6}, nil, list{4, 5}},
		{9, ring.Attitude{}, list{4, 5, 6, 7}, nil, list{5, 6}},
		// A tail on the ground changes nothing.
		{9, ring.Attitude{TailDown: 14}, list{4, 5, 6, 7}, nil, list{5, 6}},
		// 3 and 8 are 10° above the horizontal: a wing 10° low brings one level.
		{9, ring.Attitude{Roll: 10}, list{4, 5, 6, 7}, list{3}, list{5}},
		{9, ring.Attitude{Roll: -10}, list{4, 5, 6, 7}, list{8}, list{6}},
		{9, ring.Attitude{Roll: 11, TailDown: 14}, list{3, 4, 5, 6, 7}, nil, list{5}},
		{9, ring.Attitude{Roll: -20}, list{4, 5, 6, 7, 8}, nil, list{6}},
		// Rolled until 9 points straight down.
		{9, ring.Attitude{Roll: -140}, list{1, 2, 7, 8, 9}, nil, list{9}},
	} {
		r := layout(tt.n, ring.Clockwise)
		below, err := r.Below(tt.a)
		level, err2 := r.Level(tt.a)
		lowest, err3 := r.Lowest(tt.a)
		if err := errors.Join(err, err2, err3); err != nil {
			t.Fatal(err)
		}
		if !slices.Equal(below, tt.below) || !slices.Equal(level, tt.level) || !slices.Equal(lowest, tt.lowest) {
			t.Errorf("%d cylinders, %+v: below %v, level %v, lowest %v, want %v, %v, %v",
				tt.n, tt.a, below, level, lowest, tt.below, tt.level, tt.lowest)
		}
	}
	if e, err := nine.Elevation(3, ring.Attitude{}); err != nil || !near(e.Degrees(), 10, 1e-12) {
		t.Errorf("no. 3 of a nine points %v above the horizontal (%v), want 10", e, err)
	}
	if e, err := nine.Elevation(5, ring.Attitude{TailDown: 30}); err != nil || !near(math.Sin(e.Radians()), math.Cos(160*math.Pi/180)*math.Cos(math.Pi/6), 1e-14) {
		t.Errorf("no. 5 with the tail 30° down: %v, %v", e, err)
	}
	for _, a := range []ring.Attitude{{Roll: quantity.Angle(math.NaN())}, {TailDown: 90}, {TailDown: quantity.Angle(math.Inf(-1))}} {
		field := "tail-down angle"
		if a.TailDown == 0 {
			field = "roll"
		}
		_, err := nine.Below(a)
		wantProblem(t, err, field)
		_, err = nine.Lowest(a)
		wantProblem(t, err, field)
		_, err = nine.Elevation(1, a)
		wantProblem(t, err, field)
	}
	_, err := nine.Elevation(10, ring.Attitude{})
	wantProblem(t, err, "cylinder")
}

// Turn the shaft and look: with the master rod's crank at each cylinder in turn, each
// has one firing in two turns, evenly spaced, in the printed order.
func TestFiringOrderByTurningTheShaft(t *testing.T) {
	for _, n := range []int{3, 5, 7, 9, 11} {
		for _, turns := range []ring.Turn{ring.Clockwise, ring.Anticlockwise} {
			r := layout(n, turns)
			axes, err := r.Axes(1)
			if err != nil {
				t.Fatal(err)
			}
			order, err := r.FiringOrder(1)
			if err != nil {
				t.Fatal(err)
			}
			for i, k := range order {
				crank := float64(i) * r.Interval().Degrees()
				if d := math.Remainder(crank-axes[k-1].Degrees(), 360); !near(d, 0, 1e-9) {
					t.Errorf("%d cylinders: firing %d at %v° of crank is cylinder %d, whose top is at %v", n, i+1, crank, k, axes[k-1])
				}
				if socket, err := r.Socket(k, 1); err != nil || socket != i+1 {
					t.Errorf("%d cylinders: cylinder %d is on socket %d (%v), want %d", n, k, socket, err, i+1)
				}
			}
			slices.Sort(order)
			for i, k := range order {
				if k != i+1 {
					t.Errorf("%d cylinders: %v do not all fire", n, order)
				}
			}
		}
	}
	if order, err := nine.FiringOrder(5); err != nil || fmt.Sprint(order) != "[5 7 9 2 4 6 8 1 3]" {
		t.Errorf("from the master in 5: %v, %v", order, err)
	}
	_, err := nine.FiringOrder(0)
	wantProblem(t, err, "first cylinder")
	_, err = nine.Socket(1, 12)
	wantProblem(t, err, "first cylinder")
	_, err = nine.Socket(10, 1)
	wantProblem(t, err, "cylinder")
}

// Turn the cam ring and look: at every firing a lobe stands at the cylinder that
// fires, and at no other that is at its top then or comes to it.
func TestCamServesEveryCylinder(t *testing.T) {
	for _, n := range []int{3, 5, 7, 9, 11} {
		r := layout(n, ring.Clockwise)
		order, err := r.FiringOrder(1)
		if err != nil {
			t.Fatal(err)
		}
		for _, turn := range []ring.CamTurn{ring.WithShaft, ring.AgainstShaft} {
			cam, err := ring.CamFor(n, turn)
			if err != nil {
				t.Fatal(err)
			}
			speed := cam.Speed().Float()
			if turn == ring.AgainstShaft {
				speed = -speed
			}
			for i := range 2 * n {
				crank := float64(i) * r.Interval().Degrees()
				var served []int
				for k := range n {
					at := 360*float64(k)/float64(n) - crank*speed // where the cylinder is on the ring
					if near(math.Remainder(at, cam.Spacing().Degrees()), 0, 1e-9) {
						served = append(served, k+1)
					}
				}
				if want := order[i%n]; !slices.Equal(served, []int{want}) {
					t.Errorf("%d cylinders, %+v: at %v° of crank lobes stand at %v, want %d", n, cam, crank, served, want)
				}
			}
			if got := cam.Between(r.Interval()); !near(got.Degrees(), cam.Spacing().Degrees(), 1e-12) {
				t.Errorf("%d cylinders, %+v: %v from lobe to lobe, spacing %v", n, cam, got, cam.Spacing())
			}
			if seen, err := ring.CamSeen(n, cam.Lobes); err != nil || seen != cam {
				t.Errorf("%d lobes on %d cylinders: %+v (%v), want %+v", cam.Lobes, n, seen, err, cam)
			}
		}
	}
	_, err := ring.CamFor(8, ring.WithShaft)
	wantProblem(t, err, "cylinders")
	_, err = ring.CamFor(7, 0)
	wantProblem(t, err, "cam")
	_, err = ring.CamSeen(8, 4)
	wantProblem(t, err, "cylinders")
	_, err = ring.CamSeen(7, 6)
	wantProblem(t, err, "lobes")
}

func TestMagneto(t *testing.T) {
	for _, tt := range []struct {
		n, sparks int
		want      string
	}{{7, 4, "7/8"}, {5, 4, "5/8"}, {9, 4, "9/8"}, {9, 2, "9/4"}, {4, 2, "1"}, {6, 2, "3/2"}} {
		if got, err := ring.Magneto(tt.n, tt.sparks); err != nil || got.String() != tt.want {
			t.Errorf("%d cylinders, %d sparks a turn: %v (%v), want %v", tt.n, tt.sparks, got, err, tt.want)
		}
	}
	if ring.Distributor.Float() != 0.5 {
		t.Errorf("the distributor turns at %v of the shaft", ring.Distributor)
	}
	_, err := ring.Magneto(0, 4)
	wantProblem(t, err, "cylinders")
	_, err = ring.Magneto(7, 0)
	wantProblem(t, err, "sparks to a turn")
}
