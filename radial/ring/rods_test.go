package ring_test

import (
	"math"
	"strings"
	"testing"

	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

// The invented engines of these tests. DEMO figures, not those of any engine.
var (
	seven = layout(7, ring.Clockwise)
	nine  = layout(9, ring.Clockwise)

	plainSeven = rods(seven, 2.5, 9.75, 1, ring.Link{Knuckle: 2.55, Length: 7.20})
	plainNine  = rods(nine, 2.5, 10.1, 5, ring.Link{Knuckle: 2.75, Length: 7.35})
)

// layout is n cylinders numbered clockwise from the top as seen from the cockpit.
func layout(n int, turns ring.Turn) ring.Ring {
	r, err := ring.New(ring.Layout{Cylinders: n, Seen: ring.FromCockpit, Numbered: ring.Clockwise, Turns: turns})
	if err != nil {
		panic(err)
	}
	return r
}

// rods is a linkage of equal link rods, or of links given for each cylinder.
func rods(r ring.Ring, throw, masterRod quantity.Length, master int, links ...ring.Link) ring.Linkage {
	if len(links) == 1 {
		links = ring.Alike(r.Cylinders(), links[0])
	}
	given, err := r.Rods(throw, masterRod, master, links)
	if err != nil {
		panic(err)
	}
	l, err := ring.NewLinkage(given)
	if err != nil {
		panic(err)
	}
	return l
}

// The facts of symmetric pairs: one test for each that a mechanic leans on when a rod
// is suspected. They follow from mirroring the whole engine in the line of the master.

func TestMirrorsShareTopAndStroke(t *testing.T) {
	uneven := []ring.Link{
		{Knuckle: 2.55, Length: 7.26}, {Knuckle: 2.5, Length: 7.21, Offset: 1}, {}, {Knuckle: 2.5, Length: 7.21, Offset: -1},
		{Knuckle: 2.55, Length: 7.26}, {Knuckle: 2.6, Length: 7.22, Offset: 2}, {Knuckle: 2.6, Length: 7.22, Offset: -2},
	}
	for _, tt := range []struct {
		name string
		r    ring.Ring
		l    ring.Linkage
	}{
		{"plain seven", seven, plainSeven},
		{"plain nine", nine, plainNine},
		{"a seven whose pairs alone are alike", seven, rods(seven, 2.5, 9.75, 3, uneven...)},
	} {
		pairs, err := tt.r.Mirrors(tt.l.Master())
		if err != nil || len(pairs) != tt.r.Cylinders()/2 {
			t.Fatalf("%s: %v, %v", tt.name, pairs, err)
		}
		for _, pair := range pairs {
			p, q := piston(tt.l, pair[0]), piston(tt.l, pair[1])
			if !near(p.Top().Height.Inches(), q.Top().Height.Inches(), 1e-13) ||
				!near(p.Bottom().Height.Inches(), q.Bottom().Height.Inches(), 1e-13) ||
				!near(p.Stroke().Inches(), q.Stroke().Inches(), 1e-13) {
				t.Errorf("%s: mirrors %v differ in height or stroke", tt.name, pair)
			}
			if !near(p.Top().Shift.Degrees(), -q.Top().Shift.Degrees(), 1e-11) ||
				!near(p.Bottom().Shift.Degrees(), -q.Bottom().Shift.Degrees(), 1e-11) {
				t.Errorf("%s: shifts of mirrors %v are not opposite", tt.name, pair)
			}
			for _, n := range []quantity.Angle{2, 25, 90} {
				if !near(p.BeforeTop(n).Inches(), q.BeforeTop(-n).Inches(), 1e-13) {
					t.Errorf("%s: %v before the top of %d is not %v after the top of %d", tt.name, n, pair[0], n, pair[1])
				}
			}
		}
	}
}

// What does not hold, and is often thought to: the same travel before the top.
func TestMirrorsDifferOnTheWayUp(t *testing.T) {
	three, six := piston(plainSeven, 3), piston(plainSeven, 6)
	if d := math.Abs(float64(three.BeforeTop(25) - six.BeforeTop(25))); !near(d, 0.0150, 0.0001) {
		t.Errorf("3 and 6 differ by %v in at 25° before their tops", d)
	}
}

func TestTurningTheOtherWay(t *testing.T) {
	with := plainNine
	against := rods(layout(9, ring.Anticlockwise), 2.5, 10.1, 5, ring.Link{Knuckle: 2.75, Length: 7.35})
	for k := 1; k <= 9; k++ {
		p, q := piston(with, k), piston(against, k)
		mirror, _ := nine.Mirror(k, 5)
		if !near(p.Top().Height.Inches(), q.Top().Height.Inches(), 1e-13) || !near(p.Stroke().Inches(), q.Stroke().Inches(), 1e-13) {
			t.Errorf("cylinder %d: height or stroke changed with the rotation", k)
		}
		if !near(p.Top().Shift.Degrees(), -q.Top().Shift.Degrees(), 1e-11) {
			t.Errorf("cylinder %d: shift %v one way, %v the other", k, p.Top().Shift, q.Top().Shift)
		}
		if m := piston(with, mirror); !near(m.BeforeTop(25).Inches(), q.BeforeTop(25).Inches(), 1e-13) {
			t.Errorf("cylinder %d turning the other way is not its mirror %d", k, mirror)
		}
	}
}

func TestMasterOnlyRenumbers(t *testing.T) {
	one := rods(nine, 2.5, 10.1, 1, ring.Link{Knuckle: 2.75, Length: 7.35})
	for k := 1; k <= 9; k++ {
		if p, q := piston(one, k), piston(plainNine, (k+3)%9+1); p.Top().Shift != q.Top().Shift || p.Stroke() != q.Stroke() {
			t.Errorf("cylinder %d with the master in 1 is not cylinder %d with it in 5", k, (k+3)%9+1)
		}
	}
}

func TestShiftsAddUpToNothing(t *testing.T) {
	for _, l := range []ring.Linkage{plainSeven, plainNine} {
		var sum quantity.Angle
		var strokes quantity.Length
		for _, p := range l.Pistons() {
			sum += p.Top().Shift
			strokes += p.Stroke()
		}
		if !near(sum.Degrees(), 0, 1e-11) {
			t.Errorf("shifts add up to %v", sum)
		}
		if mean := strokes / quantity.Length(len(l.Pistons())); mean <= 5 {
			t.Errorf("mean stroke %v: links of a plain design go farther than twice the throw", mean)
		}
	}
}

// A first-order estimate of the shift, good to about a fifth: a slip of sign or of a
// whole term in both the formulas and the solver would not pass it.
//
//	shift = ρ R sin φ (1 − cos φ) / (L (l + R)) radians
func TestShiftAgainstItsEstimate(t *testing.T) {
	for _, p := range plainSeven.Pistons()[1:] {
		phi := p.Axis().Radians()
		estimate := 2.55 * 2.5 * math.Sin(phi) * (1 - math.Cos(phi)) / (9.75 * (7.20 + 2.5))
		if got := p.Top().Shift.Radians(); !near(got, estimate, 0.2*math.Abs(estimate)) {
			t.Errorf("cylinder %d: shift %v, estimate %v", p.Cylinder(), got, estimate)
		}
	}
}

// A knuckle pin at the centre of the crankpin makes every cylinder a master.
func TestKnuckleInTheCrankpin(t *testing.T) {
	l := rods(nine, 2.5, 9.5, 3, ring.Link{Length: 9.5})
	crank, err := ring.NewCrank(2.5, 9.5)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range l.Pistons() {
		if !near(p.Top().Shift.Degrees(), 0, 1e-12) || !near(p.Top().Height.Inches(), 0, 1e-13) || !near(p.Stroke().Inches(), 5, 1e-13) {
			t.Errorf("cylinder %d: top %+v, stroke %v", p.Cylinder(), p.Top(), p.Stroke())
		}
		for n := quantity.Angle(-180); n <= 180; n += 7 {
			if !near(p.BeforeTop(n).Inches(), crank.BeforeTop(n).Inches(), 1e-13) {
				t.Errorf("cylinder %d is not a plain crank %v before its top", p.Cylinder(), n)
			}
		}
	}
}

// The plain crank against its own closed forms, both ways.
//
//	d = R(1 − cos a) + L − √(L² − R² sin² a)
//	sin²(a/2) = d (2L − d) / (4R (L + R − d))
func TestCrankAgainstClosedForms(t *testing.T) {
	const R, L = 2.5, 9.5
	p, err := ring.NewCrank(R, L)
	if err != nil {
		t.Fatal(err)
	}
	for a := 0.5; a <= 180; a += 0.5 {
		rad := a * math.Pi / 180
		d := R*(1-math.Cos(rad)) + L - math.Sqrt(L*L-R*R*math.Sin(rad)*math.Sin(rad))
		if got := p.BeforeTop(quantity.Angle(a)).Inches(); !near(got, d, 1e-14) {
			t.Errorf("travel at %v° = %v, want %v", a, got, d)
		}
		if a == 180 {
			continue // the travel is flat there, and the angle is what rounding makes it
		}
		back := 2 * math.Asin(math.Sqrt(d*(2*L-d)/(4*R*(L+R-d)))) * 180 / math.Pi
		got, err := p.Degrees(quantity.Length(d))
		if err != nil || !near(got.Degrees(), back, 1e-6) {
			t.Errorf("degrees at %v in = %v (%v), want %v", d, got, err, back)
		}
	}
	if p.Cylinder() != 0 || p.Axis() != 0 {
		t.Errorf("a crank by itself is cylinder %d at %v", p.Cylinder(), p.Axis())
	}
	if top, err := p.Degrees(0); top != 0 || err != nil {
		t.Errorf("at the top: %v, %v", top, err)
	}
	if down, err := p.DegreesAfter(p.Stroke()); !near(down.Degrees(), 180, 1e-5) || err != nil {
		t.Errorf("at the bottom: %v, %v", down, err)
	}
}

// All the way to the bottom, on either side, of every piston.
func TestDegreesAtTheBottom(t *testing.T) {
	for _, p := range append(plainSeven.Pistons(), plainNine.Pistons()...) {
		before, err := p.Degrees(p.Stroke())
		after, err2 := p.DegreesAfter(p.Stroke())
		if err != nil || err2 != nil || !near(p.BeforeTop(before).Inches(), p.Stroke().Inches(), 1e-13) ||
			!near(p.BeforeTop(-after).Inches(), p.Stroke().Inches(), 1e-13) || !near((before+after).Degrees(), 360, 1e-4) {
			t.Errorf("cylinder %d: its bottom is %v before its top and %v after (%v, %v)", p.Cylinder(), before, after, err, err2)
		}
	}
}

// Travel from any crank angle, and where the piston stands, agree with travel before
// the top.
func TestWhereThePistonStands(t *testing.T) {
	for _, p := range plainNine.Pistons() {
		top := p.Top()
		if !near(p.Travel(top.At).Inches(), 0, 1e-15) || !near(p.Travel(top.At+720).Inches(), 0, 1e-15) {
			t.Errorf("cylinder %d is not at its top at its top", p.Cylinder())
		}
		if !near(p.Pin(top.At).Inches(), top.Pin.Inches(), 1e-13) {
			t.Errorf("cylinder %d: pin %v at its top, want %v", p.Cylinder(), p.Pin(top.At), top.Pin)
		}
		if !near((top.Pin - p.Bottom().Pin).Inches(), p.Stroke().Inches(), 1e-13) {
			t.Errorf("cylinder %d: stroke %v is not top %v less bottom %v", p.Cylinder(), p.Stroke(), top.Pin, p.Bottom().Pin)
		}
		if at := whole(p.Axis() + top.Shift); !near(at, top.At.Degrees(), 1e-10) {
			t.Errorf("cylinder %d: top at %v, axis and shift say %v", p.Cylinder(), top.At, at)
		}
		if at := whole(p.Axis() + 180 + p.Bottom().Shift); !near(at, p.Bottom().At.Degrees(), 1e-10) {
			t.Errorf("cylinder %d: bottom at %v, axis and shift say %v", p.Cylinder(), p.Bottom().At, at)
		}
		const n = 25
		if got, want := p.BeforeEven(n), p.Travel(p.Axis()-n); !near(got.Inches(), want.Inches(), 1e-13) {
			t.Errorf("cylinder %d: %v before even, %v by crank angle", p.Cylinder(), got, want)
		}
		if got, want := p.BeforeEven(n), p.BeforeTop(p.TrueAdvance(n)); !near(got.Inches(), want.Inches(), 1e-13) {
			t.Errorf("cylinder %d: %v before even, %v by true advance", p.Cylinder(), got, want)
		}
		if got := p.FromTop(p.Axis() - n); !near(got.Degrees(), -p.TrueAdvance(n).Degrees(), 1e-10) {
			t.Errorf("cylinder %d stands %v from its top, fired at %v", p.Cylinder(), got, p.TrueAdvance(n))
		}
	}
	for i, a := range plainNine.FromTops(-25) {
		if p := plainNine.Pistons()[i]; a != p.FromTop(-25) || a < -180 || a > 180 {
			t.Errorf("cylinder %d stands at %v", i+1, a)
		}
	}
}

func TestSlopeIsTheChangeOfTravel(t *testing.T) {
	const h = 1e-4
	for _, p := range plainSeven.Pistons() {
		for a := quantity.Angle(0); a < 360; a += 11 {
			change := (p.Travel(a+h) - p.Travel(a-h)).Inches() / (2 * h)
			if got := p.Slope(a).InchesPerDegree(); !near(got, change, 1e-9) {
				t.Errorf("cylinder %d at %v: slope %v, change %v", p.Cylinder(), a, got, change)
			}
		}
		if got, want := p.SlopeBeforeTop(25), p.Slope(p.Top().At-25); !near(float64(got), -float64(want), 1e-14) {
			t.Errorf("cylinder %d: slope %v before its top, %v by crank angle", p.Cylinder(), got, want)
		}
		fast := p.FastestAfter()
		at := func(a quantity.Angle) float64 { return p.Slope(p.Top().At + fast + a).InchesPerDegree() }
		if at(0) < at(0.01) || at(0) < at(-0.01) {
			t.Errorf("cylinder %d is not fastest %v after its top", p.Cylinder(), fast)
		}
	}
}

func TestRodsThatCannotBe(t *testing.T) {
	rodsIn := func(master int) ring.Rods {
		r, _ := seven.Rods(2.5, 9.75, master, ring.Alike(7, ring.Link{Knuckle: 2.55, Length: 7.2}))
		return r
	}
	good := func() ring.Rods { return rodsIn(1) }
	for _, tt := range []struct {
		field string
		spoil func(*ring.Rods)
	}{
		{"throw", func(r *ring.Rods) { r.Throw = 0 }},
		{"throw", func(r *ring.Rods) { r.Throw = quantity.Length(math.NaN()) }},
		{"master rod", func(r *ring.Rods) { r.MasterRod = -1 }},
		{"master rod", func(r *ring.Rods) { r.MasterRod = quantity.Length(math.Inf(1)) }},
		{"master rod", func(r *ring.Rods) { r.MasterRod = 2.5 }},
		{"master cylinder", func(r *ring.Rods) { r.Master = 0 }},
		{"master cylinder", func(r *ring.Rods) { r.Master = 8 }},
		{"links", func(r *ring.Rods) { r.Links = r.Links[:6] }},
		{"link 1", func(r *ring.Rods) { r.Axes[0] = 3 }},
		{"link 4", func(r *ring.Rods) { r.Axes[3] = quantity.Angle(math.NaN()) }},
		{"link 4", func(r *ring.Rods) { r.Links[3].Offset = quantity.Angle(math.Inf(1)) }},
		{"link 3", func(r *ring.Rods) { r.Links[2].Knuckle = -0.1 }},
		{"link 3", func(r *ring.Rods) { r.Links[2].Knuckle = 9.75 }},
		{"link 3", func(r *ring.Rods) { r.Links[2].Length = 3 }},
		{"link 3", func(r *ring.Rods) { r.Links[2].Length = quantity.Length(math.NaN()) }},
		{"link 3", func(r *ring.Rods) { r.Links[2].Length = quantity.Length(math.Inf(1)) }},
		{"link 3", func(r *ring.Rods) { r.Links[2].Offset = 180 }},
		{"link 3", func(r *ring.Rods) { r.Links[2].Offset = 90 }},
		{"link 6", func(r *ring.Rods) { r.Links[5].Knuckle, r.Links[5].Length = 7, 4 }},
	} {
		r := good()
		tt.spoil(&r)
		_, err := ring.NewLinkage(r)
		wantProblem(t, err, tt.field)
	}
	// The knuckle pin only swings with the master rod, so a link shorter than throw and
	// knuckle radius together may still go round.
	short := good()
	short.Throw, short.MasterRod, short.Links = 2, 8, ring.Alike(7, ring.Link{Knuckle: 1, Length: 2.9})
	if _, err := ring.NewLinkage(short); err != nil {
		t.Errorf("a link of 2.9 in on a throw of 2 and a knuckle of 1: %v", err)
	}
	// The commonest slip is offered by name.
	if _, err := ring.NewCrank(5, 5); err == nil || !strings.Contains(err.Error(), "stroke") {
		t.Errorf("a throw as long as the rod: %v", err)
	}
	// The master rod may be in any cylinder, the last one too.
	for master := 1; master <= 7; master++ {
		l, err := ring.NewLinkage(rodsIn(master))
		if err != nil || math.Abs(piston(l, master).Stroke().Inches()-5) > 1e-12 {
			t.Errorf("master rod in %d: %v", master, err)
		}
	}
	// A whole turn more is the same knuckle angle.
	r := good()
	r.Links[2].Offset = 360
	if l, err := ring.NewLinkage(r); err != nil || piston(l, 3).Top() != piston(plainSeven, 3).Top() {
		t.Errorf("an offset of a whole turn: %v", err)
	}
	_, err := plainSeven.Piston(8)
	wantProblem(t, err, "cylinder")
	_, err = seven.Rods(2.5, 9.75, 9, nil)
	wantProblem(t, err, "master cylinder")
	for _, travel := range []quantity.Length{-0.001, 5.1, quantity.Length(math.NaN())} {
		_, err = piston(plainSeven, 1).Degrees(travel)
		wantProblem(t, err, "travel")
	}
	if n := len(ring.Alike(-1, ring.Link{})); n != 0 {
		t.Errorf("%d links for -1 cylinders", n)
	}
}

func piston(l ring.Linkage, k int) ring.Piston {
	p, err := l.Piston(k)
	if err != nil {
		panic(err)
	}
	return p
}

func whole(a quantity.Angle) float64 { return math.Mod(a.Degrees()+720, 360) }

// Force and torque through the toggle are each other's inverse, and the work agrees:
// a force moved through a small travel is the torque turned through the angle.
func TestToggle(t *testing.T) {
	const h = 1e-3
	p := piston(plainSeven, 3)
	for _, before := range []quantity.Angle{1, 10, 30, 90, 150} {
		s := p.SlopeBeforeTop(before)
		torque := s.Torque(1000)
		work := 1000 * (p.BeforeTop(before+h) - p.BeforeTop(before-h)).Inches()
		if turned := torque.InchPounds() * (2 * h * math.Pi / 180); !near(turned, work, 1e-6*work) {
			t.Errorf("%v before the top: work %v on the piston, %v on the shaft", before, work, turned)
		}
		if back := s.Force(torque).PoundsForce(); !near(back, 1000, 1e-9) {
			t.Errorf("%v before the top: 1000 lb came back as %v", before, back)
		}
	}
	if top := ring.Slope(0); top.Torque(1000) != 0 || !math.IsInf(float64(top.Force(1)), 1) {
		t.Errorf("at the top: torque %v, force %v", top.Torque(1000), top.Force(1))
	}
}

func TestRatioInLowestTerms(t *testing.T) {
	if r, err := ring.NewRatio(18, 12); err != nil || r.String() != "3/2" || r.Float() != 1.5 {
		t.Errorf("18 to 12 is %v (%v)", r, err)
	}
	for _, bad := range [][2]int{{0, 1}, {1, 0}, {-1, 2}, {3, -2}} {
		_, err := ring.NewRatio(bad[0], bad[1])
		wantProblem(t, err, "ratio")
	}
}
