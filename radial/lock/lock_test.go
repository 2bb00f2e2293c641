package lock_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"linkrod/radial/lock"
	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

var seed = flag.Uint64("seed", 1, "seed of the random cases; the log names it")

// The invented engine of these tests: seven cylinders of 5.375 × 5, 6.1 to 1. DEMO
// figures, not those of any engine.
var (
	seven    = layout()
	rods     = linkage(seven)
	chambers = rooms(rods)
)

func layout() ring.Ring {
	return must(ring.New(ring.Layout{Cylinders: 7, Seen: ring.FromCockpit, Numbered: ring.Clockwise, Turns: ring.Clockwise}))
}

func linkage(r ring.Ring) ring.Linkage {
	return must(ring.NewLinkage(must(r.Rods(2.5, 9.75, 1, ring.Alike(7, ring.Link{Knuckle: 2.55, Length: 7.2})))))
}

func rooms(l ring.Linkage) []ring.Chamber { return must(l.Chambers(5.375, 6.1)) }

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

func near(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance }

// wantProblem expects an error about one input, in a whole sentence.
func wantProblem(t *testing.T, err error, field string) {
	t.Helper()
	p, plainly := err.(*ring.Problem)
	if !plainly || p.Field != field || !strings.HasSuffix(p.Sentence, ".") {
		t.Errorf("problem with the %s: %v", field, err)
	}
}

func TestFill(t *testing.T) {
	c := chambers[0]
	for _, tt := range []struct {
		share  float64 // of the clearance volume
		locked bool
	}{{0, false}, {0.5, false}, {0.999, false}, {1, true}, {1.001, true}, {50, true}} {
		f := must(lock.Fill(c, c.Clearance*quantity.Volume(tt.share)))
		if f.Locked != tt.locked || !near(f.Filled, tt.share, 1e-15*tt.share) {
			t.Errorf("filled %v: %+v", tt.share, f)
		}
		if tt.locked && f.Ratio != 0 {
			t.Errorf("filled %v and locked, with a ratio of %v", tt.share, f.Ratio)
		}
		// The long way: the volumes above the piston, less the liquid.
		if bottom, top := c.Swept+c.Clearance-f.Liquid, c.Clearance-f.Liquid; !tt.locked && !near(f.Ratio, float64(bottom/top), 1e-12*f.Ratio) {
			t.Errorf("filled %v: ratio %v", tt.share, f.Ratio)
		}
	}
	if v := must(lock.LiquidFor(c, c.Ratio())); v != 0 {
		t.Errorf("the dry ratio asks for %v of liquid", v)
	}
	if f := must(lock.Fill(c, 0)); f.Ratio != c.Ratio() {
		t.Errorf("dry ratio %v, want %v", f.Ratio, c.Ratio())
	}
}

// More liquid is never a lower ratio, and LiquidFor takes each ratio back.
func TestLiquidForIsTheInverse(t *testing.T) {
	t.Logf("seed %d", *seed)
	r := rand.New(rand.NewPCG(*seed, 0))
	for range 10_000 {
		c := ring.Chamber{Swept: quantity.Volume(20 + 180*r.Float64())}
		c.Clearance = c.Swept / quantity.Volume(3+9*r.Float64())
		less := c.Clearance * quantity.Volume(r.Float64())
		more := less + (c.Clearance-less)*quantity.Volume(r.Float64())
		a, b := must(lock.Fill(c, less)), must(lock.Fill(c, more))
		if a.Locked || b.Locked || a.Ratio > b.Ratio {
			t.Fatalf("%+v: %v gives %v, %v gives %v", c, less, a.Ratio, more, b.Ratio)
		}
		if back := must(lock.LiquidFor(c, a.Ratio)); !near(float64(back), float64(less), 1e-12*float64(c.Clearance)*a.Ratio) {
			t.Fatalf("%+v: ratio %v asks for %v, was %v", c, a.Ratio, back, less)
		}
	}
}

// Where the piston meets the liquid: turned there, the room left is the liquid.
func TestSolid(t *testing.T) {
	for i, p := range rods.Pistons() {
		c := chambers[i]
		for _, share := range []float64{1.0001, 1.2, 2, 4} {
			liquid := c.Clearance * quantity.Volume(share)
			at := must(lock.Solid(p, c, liquid))
			room := c.Clearance + c.Swept*quantity.Volume(p.BeforeTop(at)/p.Stroke())
			if !near(float64(room), float64(liquid), 1e-9) {
				t.Errorf("cylinder %d: %v liquid, and %v of room %v before the top", i+1, liquid, room, at)
			}
		}
		if at := must(lock.Solid(p, c, c.Clearance)); at != 0 {
			t.Errorf("cylinder %d: exactly full, it goes solid %v before its top", i+1, at)
		}
		if at := must(lock.Solid(p, c, c.Clearance/2)); at != 0 {
			t.Errorf("cylinder %d: half full, it goes solid %v before its top", i+1, at)
		}
		if at := must(lock.Solid(p, c, c.Swept+c.Clearance)); !near(p.BeforeTop(at).Inches(), p.Stroke().Inches(), 1e-12) {
			t.Errorf("cylinder %d: full to the bottom, it goes solid %v before its top", i+1, at)
		}
		wantProblem(t, second(lock.Solid(p, c, (c.Swept+c.Clearance)*1.01)), "liquid")
		wantProblem(t, second(lock.Solid(p, c, -1)), "liquid")
	}
}

// Pressure by steps: a small squeeze at a time, work in and a share of it lost as heat,
// which is what an exponent between 1 and the adiabatic means.
//
//	dp/p = −n dV/V
func TestPolytropicBySmallSteps(t *testing.T) {
	const start, steps = 14.7, 200_000
	for _, n := range []float64{lock.Isothermal, lock.Cranking, lock.Adiabatic} {
		for _, r := range []float64{2, 6, 62} {
			p, v := start, 1.0
			dv := (1 - 1/r) / steps
			for range steps {
				half := p + n*p*dv/2/v // midpoint
				p += n * half * dv / (v - dv/2)
				v -= dv
			}
			got := must(lock.Polytropic(start, r, n))
			if !near(got.PSI(), p, 1e-6*p) {
				t.Errorf("ratio %v, exponent %v: %v psi, by steps %v", r, n, got, p)
			}
			if back := must(lock.Exponent(start, got, r)); !near(back, n, 1e-12) {
				t.Errorf("ratio %v: exponent %v came back as %v", r, n, back)
			}
			// The gas law: p V / T stays.
			hot := must(lock.Temperature(quantity.Fahrenheit(60), r, n))
			if ratio := (hot.Fahrenheit() + 459.67) / (60 + 459.67); !near(ratio, got.PSI()/start/r, 1e-9*ratio) {
				t.Errorf("ratio %v, exponent %v: temperature × %v, pressure × %v", r, n, ratio, got.PSI()/start)
			}
		}
	}
	f := must(lock.Fill(chambers[4], 11.5*quantity.FluidOunce))
	if p, want := must(f.Peak(14.7, lock.Cranking)), 14.7*math.Pow(f.Ratio, 1.3); !near(p.PSI(), want, 1e-9*want) {
		t.Errorf("peak of %+v: %v, want %v", f, p, want)
	}
	if g := lock.Gauge(150, 14.7); !near(g.PSI(), 135.3, 1e-12) {
		t.Errorf("150 psi absolute shows %v", g)
	}
}

// Blades by turning the propeller and counting: wherever the shaft stood, the fewest that
// take every cylinder through, and no fewer.
func TestBladesByTurning(t *testing.T) {
	gears := []string{"direct", "3:2", "1.5", "16:11", "2", "20:9"}
	for _, typed := range gears {
		g := must(lock.ParseGear(typed))
		for blades := 2; blades <= 4; blades++ {
			for _, n := range []int{5, 7, 9} {
				for times := 1; times <= 3; times++ {
					p := lock.Propeller{Blades: blades, Gear: g}
					got := must(p.BladesFor(times))
					// Two turns of the crank bring every cylinder through once, wherever it stood.
					if turns := float64(got) / float64(blades) * g.Float(); turns < float64(2*times)-1e-12 {
						t.Errorf("%+v, %d times: %d blades are %v turns", p, times, got, turns)
					}
					if turns := float64(got-1) / float64(blades) * g.Float(); turns >= float64(2*times) {
						t.Errorf("%+v, %d times: %d blades would do", p, times, got-1)
					}
					pulled := must(p.Pull(got, n))
					if pulled.EveryCylinder != times && typed == "direct" {
						t.Errorf("%+v, %d blades on %d cylinders: %+v", p, got, n, pulled)
					}
					if pulled.EveryCylinder < times || !near(pulled.Compressions.Float(), pulled.CrankTurns.Float()*float64(n)/2, 1e-12) {
						t.Errorf("%+v, %d blades on %d cylinders: %+v", p, got, n, pulled)
					}
				}
			}
		}
	}
	// One blade is a count, and so is a thousand.
	for _, n := range []int{1, 1000} {
		if p := must(lock.Propeller{Blades: 1, Gear: lock.Direct}.Pull(n, 1)); p.CrankTurns.Float() != float64(n) || p.EveryCylinder != n/2 {
			t.Errorf("%d turns on one cylinder: %+v", n, p)
		}
	}
	for times, want := range map[int]int{1: 4, 100: 400} {
		if n := must(lock.Propeller{Blades: 2, Gear: lock.Direct}.BladesFor(times)); n != want {
			t.Errorf("%d times are %d blades, want %d", times, n, want)
		}
	}
	if n := must(lock.Propeller{Blades: 8, Gear: lock.Direct}.BladesFor(1)); n != 16 {
		t.Errorf("eight blades direct: %d", n)
	}
	// Eight blades of two on a seven are fourteen; five of them are eight or nine.
	if p := must(lock.Propeller{Blades: 2, Gear: lock.Direct}.Pull(8, 7)); p.Compressions.String() != "14" {
		t.Errorf("%+v", p)
	}
	if p := must(lock.Propeller{Blades: 2, Gear: lock.Direct}.Pull(5, 7)); p.Compressions.String() != "35/4" || p.EveryCylinder != 1 {
		t.Errorf("%+v", p)
	}
}

func TestParseGear(t *testing.T) {
	for typed, want := range map[string]string{
		"direct": "1", " Direct ": "1", "1": "1", "1:1": "1", "3:2": "3/2", "3/2": "3/2", "3 to 2": "3/2",
		"1.5": "3/2", "1,5": "3/2", "1.50": "3/2", "16:11": "16/11", "20 : 9": "20/9", "4": "4", "1.6667": "16667/10000", "1.5:1": "3/2", "1998:999": "2",
	} {
		if g, err := lock.ParseGear(typed); err != nil || g.String() != want {
			t.Errorf("%q is %v (%v), want %v", typed, g, err, want)
		}
	}
	for _, typed := range []string{
		"", "fast", "3:", ":2", "0", "3:0", "0:2", "-3:2", "3:-2", "2:3", "0.667", "5", "9:2", "1e1", "1:2:3", "NaN", "3:1.5",
		"1000:999999", "2000:1000", "12345678", "3:2 geared", strings.Repeat("9", 400), "\xff\xfe", "٣:٢",
	} {
		err := second(lock.ParseGear(typed))
		wantProblem(t, err, "gear")
		if err != nil && len(err.Error()) > 250 {
			t.Errorf("%.20q…: the refusal has %d bytes", typed, len(err.Error()))
		}
	}
	if err := second(lock.ParseGear("2:3")); !strings.Contains(err.Error(), "3:2") {
		t.Errorf("2:3 is refused without offering 3:2: %v", err)
	}
}

// FuzzParseGear: whatever is typed is a gear from 1 to 4 that reads back, or a sentence.
//
//	go test ./radial/lock -fuzz FuzzParseGear
func FuzzParseGear(f *testing.F) {
	for _, s := range []string{"direct", "3:2", "1.5", "1,5", "16/11", "3 to 2", "2:3", "0", "", "1:1:1", "9999999:999"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		g, err := lock.ParseGear(typed)
		if err != nil {
			wantProblem(t, err, "gear")
			return
		}
		if g.Den < 1 || g.Float() < 1 || g.Float() > 4 {
			t.Errorf("%q is %v", typed, g)
		}
		p := lock.Propeller{Blades: 3, Gear: g}
		if n, err := p.BladesFor(1); err != nil || n < 2 || n > 6 {
			t.Errorf("%q: %d blades, %v", typed, n, err)
		}
		if g.Den < 1000 {
			if again, err := lock.ParseGear(g.String()); err != nil || again != g {
				t.Errorf("%q is %v, which reads back as %v (%v)", typed, g, again, err)
			}
		}
	})
}

// The push on a blade is work: what the hand does is what the piston does.
func TestPushIsWork(t *testing.T) {
	push := lock.Push{Force: 60, Arm: 4 * quantity.Foot, Gear: lock.Direct}
	if torque := must(push.Torque()); !near(torque.FootPounds(), 240, 1e-12) {
		t.Errorf("60 lb at 4 ft is %v foot pounds", torque.FootPounds())
	}
	master := rods.Pistons()[0]
	const h = 1e-3
	for _, gear := range []string{"direct", "3:2"} {
		push.Gear = must(lock.ParseGear(gear))
		for _, p := range rods.Pistons() {
			for _, before := range []quantity.Angle{2, 10, 30, 90} {
				force := must(push.OnPiston(p, before))
				crank := 2 * h * math.Pi / 180
				hand := push.Force.PoundsForce() * push.Arm.Inches() * crank / push.Gear.Float()
				piston := force.PoundsForce() * (p.BeforeTop(before+h) - p.BeforeTop(before-h)).Inches()
				if !near(hand, piston, 1e-6*hand) {
					t.Errorf("%s, cylinder %d, %v before its top: the hand does %v, the piston %v", gear, p.Cylinder(), before, hand, piston)
				}
			}
		}
	}
	// The figures of the doc comment, to their rounding.
	push.Gear = lock.Direct
	for before, want := range map[quantity.Angle]float64{30: 1900, 10: 5300} {
		if f := must(push.OnPiston(master, before)).PoundsForce(); !near(f, want, 50) {
			t.Errorf("%v before the top: %v lb, the comment says %v", before, f, want)
		}
	}
}

func TestWorstCase(t *testing.T) {
	low := must(lock.Lows(seven, ring.Attitude{}, chambers))
	if len(low) != 4 || low[0].Cylinder != 3 || low[3].Cylinder != 6 {
		t.Fatalf("low cylinders %+v", low)
	}
	// A level cylinder counts as one that may hold oil.
	if tilted := must(lock.Lows(seven, ring.Attitude{Roll: quantity.Angle(90 - 720.0/7*0.5)}, chambers)); len(tilted) != 4 {
		t.Errorf("rolled until one is level: %+v", tilted)
	}
	// 13.5 to 12 qt with 29.5 fl oz found: surely 7.3, could be 29.7 fl oz (oil-rate
	// method, its section on missing oil), 2.4 clearance volumes.
	w := must(lock.WorstCase(7.3*quantity.FluidOunce, 29.7*quantity.FluidOunce, low))
	if w.Cylinder != 4 && w.Cylinder != 5 {
		t.Errorf("worst in cylinder %d, want one with least room, 4 or 5", w.Cylinder)
	}
	if !w.Charge.Locked || !near(w.Charge.Filled, 2.4, 0.05) || !w.Shown() {
		t.Errorf("%+v", w)
	}
	for _, c := range low {
		if c.Chamber.Clearance < chambers[w.Cylinder-1].Clearance {
			t.Errorf("cylinder %d has less room than %d", c.Cylinder, w.Cylinder)
		}
	}
	partial := must(lock.WorstCase(0, 6.5*quantity.FluidOunce, low))
	if partial.Charge.Locked || partial.Shown() || partial.Charge.Ratio <= 6 {
		t.Errorf("%+v", partial)
	}
	edge := chambers[w.Cylinder-1].Clearance * lock.Shown
	if at := must(lock.WorstCase(edge, edge, low)); !at.Shown() {
		t.Errorf("a quarter exactly is not shown: %+v", at)
	}
	for _, tt := range []struct {
		w          lock.Worst
		says, mute string
	}{
		{w, "At least 7.3", "Not shown"},
		{w, "enough to lock it", ""},
		{partial, "Not shown", "At least"},
		{must(lock.WorstCase(0, 1, []lock.Low{{Chamber: chambers[0]}})), "all in one low cylinder", "cylinder 0"},
		{partial, "to 1 of compression", "lock it"},
		{partial, "It could be up to 6.5\u2009fl oz; all in", ""},
		{must(lock.WorstCase(0, 6.04*quantity.FluidOunce, low)), "It could be up to 6\u2009fl oz;", ""},
		{must(lock.WorstCase(0, 0, low)), "Not shown", "could be"},
	} {
		s := tt.w.Words()
		if !strings.Contains(s, tt.says) || tt.mute != "" && strings.Contains(s, tt.mute) || !strings.Contains(s, "A stick never clears an engine") || strings.Contains(strings.ToLower(s), "safe") {
			t.Errorf("%q should say %q", s, tt.says)
		}
	}
}

// A refusal shows a figure as finely as it needs, and no finer.
func TestExponentRefused(t *testing.T) {
	if err := second(lock.Polytropic(14.7, 6, 2.34567)); err == nil || !strings.Contains(err.Error(), "The exponent is 2.346. It must be from 1") {
		t.Error(err)
	}
}

func TestHeld(t *testing.T) {
	if got, want := lock.Held(12.3*quantity.FluidOunce), "12.3\u2009fl oz, 364\u2009mL, 1.5 to 2.1 teacups"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestWhatCannotBe(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	c, p, low := chambers[0], rods.Pistons()[0], must(lock.Lows(seven, ring.Attitude{}, chambers))
	push := lock.Push{Force: 60, Arm: 48, Gear: lock.Direct}
	prop := lock.Propeller{Blades: 2, Gear: lock.Direct}
	for _, err := range []error{second(lock.Toggle(0.5, rods.Pistons()[0], 10)), second(prop.Pull(1, 1)), second(prop.Pull(1000, 100)), second(prop.BladesFor(1)), second(prop.BladesFor(100))} {
		if err != nil {
			t.Errorf("as much as is taken: %v", err)
		}
	}
	for _, tt := range []struct {
		field string
		err   error
	}{
		{"swept volume", second(lock.Fill(ring.Chamber{Clearance: 20}, 1))},
		{"clearance volume", second(lock.Fill(ring.Chamber{Swept: 100, Clearance: quantity.Volume(nan)}, 1))},
		{"liquid", second(lock.Fill(c, -1))},
		{"liquid", second(lock.Fill(c, quantity.Volume(nan)))},
		{"liquid", second(lock.Fill(c, quantity.Volume(inf)))},
		{"compression ratio", second(lock.LiquidFor(c, 6))},
		{"compression ratio", second(lock.LiquidFor(c, inf))},
		{"clearance volume", second(lock.LiquidFor(ring.Chamber{Swept: 100}, 12))},
		{"pressure at the start", second(lock.Polytropic(0, 6, 1.3))},
		{"compression ratio", second(lock.Polytropic(14.7, 1, 1.3))},
		{"exponent", second(lock.Polytropic(14.7, 6, 0.9))},
		{"exponent", second(lock.Polytropic(14.7, 6, nan))},
		{"exponent", second(lock.Temperature(60, 6, 13))},
		{"absolute temperature at the start", second(lock.Temperature(-459.67, 6, 1.3))},
		{"absolute temperature at the start", second(lock.Temperature(-500, 6, 1.3))},
		{"compression ratio", second(lock.Temperature(60, inf, 1.3))},
		{"pressure at the end", second(lock.Exponent(14.7, -1, 6))},
		{"pressure at the start", second(lock.Exponent(0, 100, 6))},
		{"liquid", second(must(lock.Fill(c, c.Clearance)).Peak(14.7, 1.3))},
		{"blades", second(lock.Propeller{Gear: lock.Direct}.BladesFor(1))},
		{"blades", second(lock.Propeller{Blades: 9, Gear: lock.Direct}.Pull(8, 7))},
		{"gear", second(lock.Propeller{Blades: 2}.BladesFor(1))},
		{"gear", second(lock.Propeller{Blades: 2, Gear: ring.Ratio{Num: 2, Den: 3}}.BladesFor(1))},
		{"gear", second(lock.Propeller{Blades: 2, Gear: ring.Ratio{Num: 2e9, Den: 1}}.BladesFor(1))},
		{"times", second(prop.BladesFor(0))},
		{"times", second(prop.BladesFor(101))},
		{"blades pulled", second(prop.Pull(1001, 7))},
		{"cylinders", second(prop.Pull(8, 101))},
		{"blades pulled", second(prop.Pull(0, 7))},
		{"cylinders", second(prop.Pull(8, 0))},
		{"push", second(lock.Push{Arm: 48, Gear: lock.Direct}.Torque())},
		{"arm", second(lock.Push{Force: 60, Gear: lock.Direct}.Torque())},
		{"gear", second(lock.Push{Force: 60, Arm: 48}.OnPiston(p, 10))},
		{"torque", second(lock.Toggle(0, p, 10))},
		{"angle before the top", second(push.OnPiston(p, 0))},
		{"angle before the top", second(push.OnPiston(p, 180))},
		{"angle before the top", second(push.OnPiston(p, quantity.Angle(nan)))},
		{"angle before the top", second(push.OnPiston(ring.Piston{}, 10))},
		{"chambers", second(lock.Lows(seven, ring.Attitude{}, chambers[:3]))},
		{"tail-down angle", second(lock.Lows(seven, ring.Attitude{TailDown: 95}, chambers))},
		{"low cylinders", second(lock.WorstCase(0, 1, nil))},
		{"oil surely missing", second(lock.WorstCase(-1, 1, low))},
		{"oil that could be missing", second(lock.WorstCase(0, quantity.Volume(nan), low))},
		{"oil surely missing", second(lock.WorstCase(2, 1, low))},
		{"swept volume", second(lock.WorstCase(0, 1, []lock.Low{{}}))},
	} {
		wantProblem(t, tt.err, tt.field)
	}
}

// A refusal shows the figure it refuses, to as many places as anyone reads it to, and of
// what was typed no more than twenty letters.
func TestRefusalsShowTheFigure(t *testing.T) {
	c := ring.Chamber{Clearance: 3, Swept: 20}
	for _, tt := range []struct {
		err  error
		says string
	}{
		{second(lock.LiquidFor(c, 1/3.0)), "is 0.33. Liquid only raises it, from 7.67 to 1 dry."},
		{second(lock.Toggle(100, rods.Pistons()[0], -1/3.0)), "\u22120.3° before"},
		{second(lock.ParseGear("as it was, I believe")), "“as it was, I believe”"},
		{second(lock.ParseGear("as it was, I believed")), "“as it was, I believe…”"},
		{second(lock.ParseGear("1.000000")), "no gear"},
		{second(lock.ParseGear("fast")), "“fast” is no gear ratio"},
	} {
		if said := strings.ReplaceAll(tt.err.Error(), "\u2009", " "); !strings.Contains(said, tt.says) {
			t.Errorf("%q does not say %q", said, tt.says)
		}
	}
	if _, err := lock.ParseGear("1.00000"); err != nil {
		t.Errorf("seven letters are refused: %v", err)
	}
}
