package ignition_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"linkrod/radial/ignition"
	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

var seed = flag.Uint64("seed", 1, "seed of the random cases; the log names it")

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// second is the error of two results. A refusal comes with no figure that could be taken
// for one.
func second[T any](v T, err error) error {
	if f := reflect.ValueOf(v); err != nil && f.CanFloat() && f.Float() != 0 {
		return fmt.Errorf("refused, and yet %v: %w", v, err)
	}
	return err
}

func near[T ~float64](a, b T, tolerance float64) bool {
	return math.Abs(float64(a-b)) <= tolerance
}

// wantProblem expects an error about one input, in a whole sentence.
func wantProblem(t *testing.T, err error, field, part string) {
	t.Helper()
	p, plainly := err.(*quantity.Problem)
	if !plainly || p.Field != field || !strings.ContainsAny(p.Sentence[len(p.Sentence)-1:], ".?") || !strings.Contains(p.Sentence, part) {
		t.Errorf("problem with the %s (%s): %#v", field, part, err)
	}
}

// plain is text with plain spaces.
func plain(s string) string { return strings.ReplaceAll(s, "\u2009", " ") }

// The demo's engines, DEMO figures all: a seven timed on its master, and a nine with the
// master in 5 and an even cam.
var (
	seven      = engine(7, ring.Clockwise, 9.75, 1, ring.Link{Knuckle: 2.55, Length: 7.2}, ignition.Compensated, 28)
	nine       = engine(9, ring.Clockwise, 10.1, 5, ring.Link{Knuckle: 2.75, Length: 7.35}, ignition.Even, 25)
	nineLeft   = engine(9, ring.Anticlockwise, 10.1, 5, ring.Link{Knuckle: 2.75, Length: 7.35}, ignition.Even, 25)
	nineTiming = must(ignition.New(nine))
)

func engine(n int, turns ring.Turn, rod quantity.Length, master int, link ring.Link, cam ignition.Cam, advance quantity.Angle) ignition.Maker {
	r := must(ring.New(ring.Layout{Cylinders: n, Seen: ring.FromCockpit, Numbered: ring.Clockwise, Turns: turns}))
	l := must(ring.NewLinkage(must(r.Rods(2.5, rod, master, ring.Alike(n, link)))))
	return ignition.Maker{Ring: r, Rods: l, Cylinder: master, Advance: advance, Cam: cam}
}

func with(m ignition.Maker, change func(*ignition.Maker)) ignition.Maker {
	change(&m)
	return m
}

func TestNewRefuses(t *testing.T) {
	for _, tt := range []struct {
		change      func(*ignition.Maker)
		field, part string
	}{
		{func(m *ignition.Maker) { m.Rods = seven.Rods }, "rods", "for 7 cylinders and the ring has 9"},
		{func(m *ignition.Maker) { m.Rods = ring.Linkage{} }, "rods", "for 0 cylinders"},
		{func(m *ignition.Maker) { m.Ring = ring.Ring{} }, "rods", "the ring has 0"},
		{func(m *ignition.Maker) { m.Ring, m.Rods = ring.Ring{}, ring.Linkage{} }, "rods", "for 0 cylinders"},
		{func(m *ignition.Maker) { m.Rods = nineLeft.Rods }, "rods", "The rods have cylinder 1 at 160° from the master and the ring has it at 200°. Is one of them numbered or turned the other way?"},
		{func(m *ignition.Maker) { m.Cylinder = 0 }, "timing cylinder", "Which cylinder is timed?"},
		{func(m *ignition.Maker) { m.Cylinder = 10 }, "timing cylinder", "1 to 9"},
		{func(m *ignition.Maker) { m.Advance = -1 }, "advance", "from 0° to 60°"},
		{func(m *ignition.Maker) { m.Advance = 60.1 }, "advance", "60.1°"},
		{func(m *ignition.Maker) { m.Advance = quantity.Angle(math.NaN()) }, "advance", "not known"},
		{func(m *ignition.Maker) { m.Cam = 0 }, "cam", "even or compensated?"},
		{func(m *ignition.Maker) { m.Cam = 3 }, "cam", "even or compensated?"},
	} {
		wantProblem(t, second(ignition.New(with(nine, tt.change))), tt.field, tt.part)
	}
	for _, advance := range []quantity.Angle{0, 60} {
		if _, err := ignition.New(with(nine, func(m *ignition.Maker) { m.Advance = advance })); err != nil {
			t.Errorf("advance %v: %v", advance, err)
		}
	}
}

// turnedBack is the same engine with the axes of its cylinders said another way, and each a
// little off even spacing, as measured ones are.
func turnedBack(m ignition.Maker) ignition.Maker {
	axes := must(m.Ring.Axes(m.Cylinder))
	rods := must(m.Ring.Rods(2.5, 10.1, m.Cylinder, ring.Alike(9, ring.Link{Knuckle: 2.75, Length: 7.35})))
	for i := range axes {
		if i+1 != m.Cylinder {
			rods.Axes[i] = axes[i] - 360 + 0.1
		}
	}
	m.Rods = must(ring.NewLinkage(rods))
	return m
}

// What each cylinder gets, found the long way round: turn the crank in steps to the place
// where the cam fires the cylinder, and ask its piston where it is.
func TestSparkByTurningTheCrank(t *testing.T) {
	for _, m := range []ignition.Maker{
		nine, nineLeft, seven, turnedBack(nine),
		with(turnedBack(nine), func(m *ignition.Maker) { m.Cam = ignition.Compensated }),
		with(nine, func(m *ignition.Maker) { m.Cam = ignition.Compensated }),
		with(seven, func(m *ignition.Maker) { m.Cam = ignition.Even }),
		with(nine, func(m *ignition.Maker) { m.Cylinder = 1 }), // a maker that times on a link cylinder
		with(nine, func(m *ignition.Maker) { m.Cylinder, m.Cam = 1, ignition.Compensated }),
	} {
		timing := must(ignition.New(m))
		timed := must(m.Rods.Piston(m.Cylinder))
		fires := timed.Top().At - m.Advance // the crank when the timing cylinder is fired
		for i, lobe := range timing.Lobes() {
			p := must(m.Rods.Piston(lobe.Cylinder))
			crank := fires + 2*lobe.At // the cam turns at half speed
			s := must(timing.Spark(lobe.Cylinder))
			if got := -p.FromTop(crank); !near(got, s.Advance, 1e-9) {
				t.Errorf("cylinder %d: the cam fires it %v before its top, Spark says %v", lobe.Cylinder, got, s.Advance)
			}
			if !near(math.Remainder(float64(s.Crank-crank), 360), 0, 1e-9) || s.Crank < 0 || s.Crank >= 360 {
				t.Errorf("cylinder %d: fired at crank %v, Spark says %v", lobe.Cylinder, crank, s.Crank)
			}
			if !near(p.Travel(crank), s.Travel, 1e-12) {
				t.Errorf("cylinder %d: travel %v, Spark says %v", lobe.Cylinder, p.Travel(crank), s.Travel)
			}
			if rise := p.Travel(crank-0.001) - p.Travel(crank+0.001); !near(rise.Inches()/0.002, s.Slope.InchesPerDegree(), 1e-6) {
				t.Errorf("cylinder %d: rises %v in to a degree, Spark says %v", lobe.Cylinder, rise.Inches()/0.002, s.Slope)
			}
			shift := p.Top().Shift + quantity.Angle(math.Remainder(float64(p.Axis()-must(m.Ring.Axes(m.Rods.Master()))[lobe.Cylinder-1]), 360))
			if !near(s.Before, s.Advance-shift, 1e-9) || !near(s.Shift, shift, 1e-9) || s.Cylinder != lobe.Cylinder {
				t.Errorf("cylinder %d: %+v", lobe.Cylinder, s)
			}
			if s.Link != (lobe.Cylinder != m.Rods.Master()) {
				t.Errorf("cylinder %d: link %v", lobe.Cylinder, s.Link)
			}
			if i == 0 && (lobe.At != 0 || lobe.Cylinder != m.Cylinder || !near(s.Advance, m.Advance, 1e-12)) {
				t.Errorf("first lobe %+v, advance %v", lobe, s.Advance)
			}
			if m.Cam == ignition.Compensated && !near(s.Advance, m.Advance, 1e-12) {
				t.Errorf("cylinder %d of a compensated cam has %v", lobe.Cylinder, s.Advance)
			}
			if want := float64(i) * 360 / float64(len(timing.Lobes())); m.Cam == ignition.Even && !near(float64(lobe.At), want, 1e-12) {
				t.Errorf("lobe %d of an even cam is at %v", i, lobe.At)
			}
		}
	}
}

// The trap of the demo's E3: timing checked on cylinder 1 of the nine by a helper, 22.8°
// before its own top, "2 late". The even cam gives it 25.0 − 2.2.
func TestLinkCylinderTrap(t *testing.T) {
	s := must(nineTiming.Spark(1))
	if !near(s.Advance, 22.782591, 1e-5) || !near(s.Shift, -2.217409, 1e-5) || !s.Link {
		t.Errorf("cylinder 1: %+v", s)
	}
	f := must(nineTiming.Found(1, 22.8))
	if !near(f.Early, 0.017409, 1e-5) || !near(f.Looks, -2.2, 1e-12) || f.PerThou != 0 {
		t.Errorf("found 22.8 on cylinder 1: %+v", f)
	}
	// The same by travel: as far down as cylinder 1 is then, which the master's table
	// would call something else.
	byTravel := must(nineTiming.FoundTravel(1, s.Travel))
	if !near(byTravel.Early, 0, 1e-9) || !near(byTravel.Found, s.Advance, 1e-9) {
		t.Errorf("by travel: %+v", byTravel)
	}
	master := must(nine.Rods.Piston(5))
	if wrong := must(master.Degrees(s.Travel)); near(wrong, s.Advance, 3) {
		t.Errorf("the master's table gives %v for cylinder 1's travel, and there is no trap", wrong)
	}
	wantProblem(t, second(nineTiming.Found(0, 22.8)), "cylinder", "Which cylinder?")
	wantProblem(t, second(nineTiming.Found(10, 22.8)), "cylinder", "1 to 9")
	wantProblem(t, second(nineTiming.FoundTravel(0, 0.29)), "cylinder", "Which cylinder?")
}

// The demo's table: piston travel at the timing cylinder's advance, and travel to a degree.
// DEMO figures, computed when the demo was written.
func TestTimingTravelOfTheDemo(t *testing.T) {
	for _, tt := range []struct {
		m             ignition.Maker
		travel, slope float64
	}{
		{seven, 0.364, 0.025},
		{with(seven, func(m *ignition.Maker) { m.Advance = 26 }), 0.315, 0.024},
		{nine, 0.290, 0.023},
	} {
		s := must(must(ignition.New(tt.m)).Spark(tt.m.Cylinder))
		if !near(s.Travel.Inches(), tt.travel, 0.0005) || !near(s.Slope.InchesPerDegree(), tt.slope, 0.0005) {
			t.Errorf("%v: %v in, %v in/deg", tt.m.Advance, s.Travel, s.Slope)
		}
	}
}

func TestFound(t *testing.T) {
	for _, d := range []quantity.Angle{-180, 180, 0, -5} {
		if f := must(nineTiming.Found(5, d)); f.Found != d || f.Early != d-25 {
			t.Errorf("%v: %+v", d, f)
		}
	}
	wantProblem(t, second(nineTiming.Found(5, 180.5)), "found", "from −180° to 180°")
	wantProblem(t, second(nineTiming.Found(5, quantity.Angle(math.NaN()))), "found", "not known")
	wantProblem(t, second(nineTiming.FoundTravel(5, 5.5)), "travel", "stroke of this cylinder")
	wantProblem(t, second(nineTiming.FoundTravel(5, -0.001)), "travel", "from 0")

	// A thou of travel in degrees, by moving the gauge a thou.
	f := must(nineTiming.FoundTravel(5, 0.290))
	more := must(nineTiming.FoundTravel(5, 0.2905))
	less := must(nineTiming.FoundTravel(5, 0.2895))
	if !near(more.Found-less.Found, f.PerThou, 1e-6) || !(f.PerThou > 0.04 && f.PerThou < 0.05) {
		t.Errorf("a thou is %v, want %v", f.PerThou, more.Found-less.Found)
	}
	if top := must(nineTiming.FoundTravel(5, 0)); !math.IsInf(top.PerThou.Degrees(), 1) || top.Found != 0 {
		t.Errorf("at the top %+v", top)
	}
}

// The travels 0.309 and 0.452 are those of testdata/checks, row a_B9_even25, from a separate
// constraint solver; by the master's table they would be 26° and 32°.
func TestFoundWords(t *testing.T) {
	sevenTiming := must(ignition.New(seven))
	link := must(ignition.New(with(nine, func(m *ignition.Maker) { m.Cylinder = 1 })))
	for _, tt := range []struct {
		f    ignition.Finding
		want string
	}{
		{must(nineTiming.Found(1, 22.8)), "Cylinder 1 hangs on a link rod, and its top comes 2.2° early. With an even cam and 25° on cylinder 5 it is fired 22.8° before its own top, 0.309 in down. 22.8° was found, the same. Against the 25° of cylinder 5 it would look 2.2° late."},
		{must(nineTiming.Found(8, 29)), "Cylinder 8 hangs on a link rod, and its top comes 4.9° late. With an even cam and 25° on cylinder 5 it is fired 29.9° before its own top, 0.452 in down. 29° was found, 0.9° later. Against the 25° of cylinder 5 it would look 4° early."},
		{must(nineTiming.Found(5, 26.5)), "Cylinder 5 is the timing cylinder and is fired 25° before its own top, 0.290 in down. 26.5° was found, 1.5° earlier."},
		{must(nineTiming.FoundTravel(5, 0.279)), "Cylinder 5 is the timing cylinder and is fired 25° before its own top, 0.290 in down. 24.5° was found, 0.5° later. A thou of travel there is 0.05°."},
		{must(nineTiming.FoundTravel(5, 0)), "Cylinder 5 is the timing cylinder and is fired 25° before its own top, 0.290 in down. 0° was found, 25° later. At the top a thou of travel is any angle: time off the way up, never off the top."},
		{must(sevenTiming.Found(3, 28)), "Cylinder 3 has a lobe of its own on the compensated cam, so it is fired 28° before its own top, 0.375 in down. 28° was found, the same."},
		{must(link.Found(5, 27.2)), "Cylinder 5 has the master rod, and its top comes evenly spaced. With an even cam and 25° on cylinder 1 it is fired 27.2° before its own top, 0.342 in down. 27.2° was found, the same. Against the 25° of cylinder 1 it would look 2.2° early."},
		{must(nineTiming.Found(1, 25.03)), "Cylinder 1 hangs on a link rod, and its top comes 2.2° early. With an even cam and 25° on cylinder 5 it is fired 22.8° before its own top, 0.309 in down. 25° was found, 2.2° earlier. Against the 25° of cylinder 5 it would look right."},
	} {
		if got := plain(tt.f.Words()); got != tt.want {
			t.Errorf("got  %s\nwant %s", got, tt.want)
		}
	}
}

// Halving is right on the master. On a link cylinder it is off, and PositiveStop is not:
// the disc is put anywhere, the stop at every travel, and the top must come out.
func TestPositiveStop(t *testing.T) {
	t.Logf("seed %d", *seed)
	r := rand.New(rand.NewPCG(*seed, 0))
	worst := 0.0
	for _, m := range []ignition.Maker{nine, seven, nineLeft} {
		for _, p := range m.Rods.Pistons() {
			for range 40 {
				travel := quantity.Length(0.01 + (p.Stroke().Inches()-0.02)*r.Float64())
				top := quantity.Angle(20*r.Float64() - 10) // on the disc
				before := must(p.Degrees(travel)) - top
				after := must(p.DegreesAfter(travel)) + top
				s := must(ignition.PositiveStop(p, before, after))
				if !near(s.Top, top, 1e-7) || !near(s.Travel, travel, 1e-9) || !near(s.Halfway, (after-before)/2, 1e-12) {
					t.Fatalf("cylinder %d, stop %v down: %+v, want top %v", p.Cylinder(), travel, s, top)
				}
				off := math.Abs(float64(s.Halfway - top))
				if p.Cylinder() == m.Rods.Master() && off > 1e-7 {
					t.Fatalf("the master's halfway is off by %v", off)
				}
				if travel < 0.3 {
					worst = max(worst, off)
				}
			}
		}
	}
	// Halving a link cylinder with a stop about 25° off is wrong by a fraction of a degree.
	if worst < 0.05 || worst > 1 {
		t.Errorf("halving is at worst off by %v", worst)
	}
	// Solved separately, by bisection on the closed form in another language.
	three := must(seven.Rods.Piston(3))
	if s := must(ignition.PositiveStop(three, 25, 25)); !near(s.Top, 0.3115, 5e-5) || !near(s.Travel, 0.309156, 1e-6) || s.Halfway != 0 {
		t.Errorf("cylinder 3 of the seven, 25° either side: %+v", s)
	}
	p := must(nine.Rods.Piston(5))
	for _, tt := range []struct{ before, after quantity.Angle }{{0, 0}, {-5, 4}, {-5, 5}, {200, 160}, {quantity.Angle(math.Inf(1)), 1}, {1, quantity.Angle(math.NaN())}, {quantity.Angle(math.Inf(1)), quantity.Angle(math.Inf(-1))}} {
		wantProblem(t, second(ignition.PositiveStop(p, tt.before, tt.after)), "stop", "")
		wantProblem(t, second(ignition.Halve(tt.before, tt.after)), "stop", "")
	}
	wantProblem(t, second(ignition.Halve(200, 160)), "stop", "360° apart")
	if got := must(ignition.Halve(0.2, 0.3)); !near(got, 0.05, 1e-15) {
		t.Errorf("a stop half a degree wide puts the top at %v", got)
	}
	for _, tt := range []struct{ before, after, want quantity.Angle }{{38, 36.5, -0.75}, {36.5, 38, 0.75}, {40, 40, 0}, {-5, 45, 25}, {200, 159, -20.5}} {
		if got := must(ignition.Halve(tt.before, tt.after)); got != tt.want {
			t.Errorf("halfway between %v and %v is %v, want %v", tt.before, tt.after, got, tt.want)
		}
	}
	// The disc off by a turn's worth of nothing: a stop met on both sides of the zero's far side.
	if s := must(ignition.PositiveStop(p, -10, 60)); !near(s.Top, 35, 1e-9) {
		t.Errorf("top at %v, want 35", s.Top)
	}
}

func TestAtCrank(t *testing.T) {
	if got := must(ignition.AtCrank(20, ring.Ratio{Num: 3, Den: 2})); got != 30 {
		t.Errorf("20° of a propeller geared 3:2 are %v of crank", got)
	}
	if got := must(ignition.AtCrank(-20, ring.Ratio{Num: 1, Den: 1})); got != -20 {
		t.Errorf("direct: %v", got)
	}
	wantProblem(t, second(ignition.AtCrank(20, ring.Ratio{Num: 2, Den: 3})), "gear", "2/3")
	wantProblem(t, second(ignition.AtCrank(20, ring.Ratio{})), "gear", "crank turns")
}

func TestDwell(t *testing.T) {
	half := ring.Distributor
	if got := must(ignition.Dwell(25, 9)); got != 0.625 {
		t.Errorf("25° of 40° is %v", got)
	}
	// By stepping a cam round: closed from 0 to 25 of each 40 degrees.
	closed := 0
	for tenth := range 3600 {
		if tenth%400 < 250 {
			closed++
		}
	}
	if got := must(ignition.Dwell(25, 9)); !near(got, float64(closed)/3600, 1e-12) {
		t.Errorf("25° on nine lobes is %v, by steps %v", got, float64(closed)/3600)
	}
	// 2000 rpm of crank is 1000 of cam, 60 ms a turn, 6 degrees a millisecond.
	if got := must(ignition.Closed(24, 2000, half)); !near(float64(got), 4, 1e-12) {
		t.Errorf("24° at 2000 rpm is %v ms", got)
	}
	if got := must(ignition.Closed(0.5, 1000, half)); !near(float64(got), 1/6.0, 1e-12) {
		t.Errorf("half a degree at 1000 rpm is %v ms", got)
	}
	if got := must(ignition.Dwell(0.5, 1)); got != 0.5/360 {
		t.Errorf("half a degree is %v", got)
	}
	if got := must(ignition.Later(25, 27, half)); got != 2 {
		t.Errorf("two degrees of dwell are %v of timing", got)
	}
	if got := must(ignition.Later(27, 25, ring.Ratio{Num: 1, Den: 1})); got != -1 {
		t.Errorf("at crank speed: %v", got)
	}
	none := ring.Ratio{Num: 0, Den: 1}
	for _, tt := range []struct {
		err         error
		field, part string
	}{
		{second(ignition.Dwell(25, 0)), "lobes", "from 1 to 18"},
		{second(ignition.Dwell(25, 19)), "lobes", "from 1 to 18"},
		{second(ignition.Dwell(40, 9)), "dwell", "less than 40°"},
		{second(ignition.Dwell(0, 9)), "dwell", "more than 0°"},
		{second(ignition.Closed(0, 2000, half)), "dwell", "more than 0°"},
		{second(ignition.Closed(360, 2000, half)), "dwell", "less than a turn"},
		{second(ignition.Closed(24, 0, half)), "speed", "more than 0"},
		{second(ignition.Closed(24, quantity.Speed(math.Inf(1)), half)), "speed", "not known"},
		{second(ignition.Closed(24, 2000, none)), "cam speed", "above 0"},
		{second(ignition.Later(25, 27, none)), "cam speed", "above 0"},
		{second(ignition.Later(25, 27, ring.Ratio{Num: 1, Den: 0})), "cam speed", "above 0"},
		{second(ignition.Later(quantity.Angle(math.NaN()), 27, half)), "dwell", "numbers"},
		{second(ignition.Later(25, quantity.Angle(math.Inf(-1)), half)), "dwell", "numbers"},
	} {
		wantProblem(t, tt.err, tt.field, tt.part)
	}
	if must(ignition.Dwell(359, 1)) != 359.0/360 || must(ignition.Dwell(10, 18)) != 0.5 {
		t.Error("dwell at the ends of what is taken")
	}
}

func points(gap, opens string) ignition.Points {
	return ignition.Points{Gap: quantity.Of(gap, quantity.UnitThou), Opens: quantity.Of(opens, quantity.UnitDeg)}
}

func TestDrift(t *testing.T) {
	for _, tt := range []struct {
		before, now ignition.Points
		want        ignition.Drift
	}{
		// E1 in the demo: points 11 where they were 16, timing 24.5 of 28.
		{points("16", "28.0"), points("11", "24.5"), ignition.FollowerWorn},
		{points("16", "28.0"), points("16", "28"), ignition.Steady},
		{points("16", "28.0"), points("15.1", "27.6"), ignition.Steady},
		{points("16", "28.0"), points("16.9", "28.4"), ignition.Steady},
		{points("16", "28.0"), points("15", "27.5"), ignition.FollowerWorn}, // just what can be told
		{points("16", "28.0"), points("17", "28.5"), ignition.PointsWorn},
		{points("16", "28.0"), points("16", "25"), ignition.Slipped},
		{points("16", "28.0"), points("16.5", "30"), ignition.Slipped},
		{points("16", "28.0"), points("12", "28"), ignition.GapAlone},
		{points("16", "28.0"), points("19", "28.2"), ignition.GapAlone},
		{points("16", "28.0"), points("12", "30"), ignition.Disagree},
		{points("16", "28.0"), points("19", "26"), ignition.Disagree},
		{ignition.Points{Gap: quantity.Of("0.40", quantity.UnitMm), Opens: quantity.Of("28", quantity.UnitDeg)}, points("11", "24.5"), ignition.FollowerWorn},
	} {
		got, err := ignition.DriftOf(tt.before, tt.now)
		if err != nil || got != tt.want {
			t.Errorf("%v to %v: %v, %v, want %v", tt.before, tt.now, got, err, tt.want)
		}
	}
	seen := map[string]bool{}
	for d := ignition.Steady; d <= ignition.Disagree; d++ {
		w := d.Words()
		if seen[w] || !strings.HasSuffix(w, ".") && !strings.HasSuffix(w, "?") {
			t.Errorf("drift %d: %q", d, w)
		}
		seen[w] = true
	}
	if !strings.Contains(ignition.FollowerWorn.Words(), "follower wears") || !strings.Contains(ignition.Slipped.Words(), "coupling") {
		t.Error("words of the drifts")
	}
	wantProblem(t, second(ignition.DriftOf(points("16", "28"), ignition.Points{})), "gap", "not given")
	wantProblem(t, second(ignition.DriftOf(points("16", "28"), ignition.Points{Gap: quantity.Of("16", quantity.UnitThou), Opens: quantity.Of("16", quantity.UnitThou)})), "timing", "degrees")
	wantProblem(t, second(ignition.DriftOf(points("999999999999999999", "28"), points("16", "28"))), "gap", "18 digits")
	wantProblem(t, second(ignition.DriftOf(points("16", "28"), points("999999999999999999", "28"))), "gap", "18 digits")
}

func TestAdvanceCurve(t *testing.T) {
	c := must(ignition.NewAdvanceCurve(
		ignition.AdvancePoint{Speed: 400, Advance: 5}, ignition.AdvancePoint{Speed: 800, Advance: 15},
		ignition.AdvancePoint{Speed: 1200, Advance: 28}, ignition.AdvancePoint{Speed: 2200, Advance: 28},
	))
	for _, tt := range []struct {
		n    quantity.Speed
		want quantity.Angle
	}{{0, 5}, {399, 5}, {400, 5}, {500, 7.5}, {800, 15}, {1000, 21.5}, {1200, 28}, {1700, 28}, {2200, 28}, {2600, 28}} {
		if got := must(c.At(tt.n)); !near(got, tt.want, 1e-12) {
			t.Errorf("%v rpm: %v, want %v", tt.n, got, tt.want)
		}
	}
	if full := c.Full(); full.Speed != 1200 || full.Advance != 28 {
		t.Errorf("full %+v", full)
	}
	fixed := must(ignition.NewAdvanceCurve(ignition.AdvancePoint{Speed: 0, Advance: -3}))
	if must(fixed.At(0)) != -3 || must(fixed.At(3000)) != -3 || fixed.Full().Advance != -3 {
		t.Error("a fixed spark moves")
	}
	for a, last := quantity.Speed(0), quantity.Angle(-99); a < 3000; a += 7 {
		now := must(c.At(a))
		if now < last {
			t.Fatalf("the advance falls at %v", a)
		}
		last = now
	}
	point := func(n quantity.Speed, a quantity.Angle) ignition.AdvancePoint {
		return ignition.AdvancePoint{Speed: n, Advance: a}
	}
	wantProblem(t, second(ignition.NewAdvanceCurve()), "table", "empty")
	wantProblem(t, second(ignition.NewAdvanceCurve(point(-1, 5))), "line 1", "0 or more")
	wantProblem(t, second(ignition.NewAdvanceCurve(point(quantity.Speed(math.Inf(1)), 5))), "line 1", "0 or more")
	wantProblem(t, second(ignition.NewAdvanceCurve(point(400, 60.5))), "line 1", "distributor degrees")
	wantProblem(t, second(ignition.NewAdvanceCurve(point(400, -60.5))), "line 1", "from −60°")
	wantProblem(t, second(ignition.NewAdvanceCurve(point(400, 5), point(400, 6))), "line 2", "slow to fast")
	wantProblem(t, second(ignition.NewAdvanceCurve(point(400, 5), point(500, 4.9))), "line 2", "must not fall")
	wantProblem(t, second(c.At(-1)), "speed", "0 or more")
	wantProblem(t, second(c.At(quantity.Speed(math.NaN()))), "speed", "not known")
	wantProblem(t, second(ignition.AdvanceCurve{}.At(500)), "table", "no advance table")
	if (ignition.AdvanceCurve{}).Full() != (ignition.AdvancePoint{}) {
		t.Error("no table has a full advance")
	}
	if _, err := ignition.NewAdvanceCurve(point(0, 60), point(1, 60)); err != nil {
		t.Errorf("a level table: %v", err)
	}
	if ignition.FromDistributor(14) != 28 {
		t.Error("14° of a distributor")
	}
}
