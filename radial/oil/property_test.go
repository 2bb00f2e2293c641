package oil

import (
	"math"
	"math/rand"
	"reflect"
	"slices"
	"strings"
	"testing"
)

// random is one generator, from the seed, with the seed told on failure.
func random(t *testing.T) *rand.Rand {
	t.Cleanup(func() {
		if t.Failed() {
			t.Logf("run again with -seed %d", *seed)
		}
	})
	return rand.New(rand.NewSource(*seed))
}

// flown makes a log as a person would keep one: a rate that falls from r0 to
// the end rate, whole-quart adds, now and then a drain, a slip or a re-read.
func flown(r *rand.Rand, n int) (Settings, []Reading) {
	u := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	s := Settings{HoursKnown: r.Intn(4) > 0, StickStep: Is(Quarts([]float64{0.25, 0.5}[r.Intn(2)]))}
	if r.Intn(4) > 0 {
		s.Ceiling = Is(QtPerHour(u(0.4, 0.9)))
	}
	r0, end, tau := u(0.5, 2.2), u(0.05, 1.2), u(4, 14)
	level, h := 16.0, 0.0
	var log []Reading
	for range n {
		step := float64(s.StickStep.V)
		c := Conditions{SinceStop: Is(Minutes(u(5, 70))), Stands: Stands(r.Intn(5)), Scavenged: YesNo(r.Intn(3)), Foam: YesNo(r.Intn(3))}
		if r.Intn(2) == 0 {
			c.Temp = Is(Fahrenheit(u(60, 190)))
		}
		read := Reading{
			Hours:      Hours(math.Round(10*h) / 10),
			Level:      Quarts(math.Max(0, math.Round((level+0.1*r.NormFloat64())/step)*step)),
			Poured:     Poured(r.Intn(3)),
			Conditions: c,
		}
		switch r.Intn(25) {
		case 0:
			read.Drained = DrainedSame
		case 1:
			read.Drained = DrainedUnknown
			level = u(11, 16)
		case 2:
			read.Level += Quarts(u(-2, 2)) // misread, may fall below empty
		case 3:
			read.ChainBroken = true
		}
		if level < 12.5 {
			add := math.Floor(16 - level)
			level += add
			if r.Intn(12) > 0 { // else not written down
				read.Added = Quarts(add)
			}
		}
		log = append(log, read)
		if r.Intn(15) > 0 { // else a second look
			dt := u(0.7, 3)
			level -= dt * (end + math.Max(0, r0-end)*math.Exp(-h/tau)) * (1 + 0.15*r.NormFloat64())
			h += dt
		}
	}
	return s, log
}

// The past is not redrawn: a log answered line by line, and every beginning of
// it answered from scratch, say the same, bit for bit.
func TestReplayIsIncremental(t *testing.T) {
	r := random(t)
	for trial := range 25 {
		s, log := flown(r, 40)
		b, err := New(s)
		if err != nil {
			t.Fatal(err)
		}
		var asKept []Answer
		for i, read := range log {
			asKept = append(asKept, b.Add(read))
			if i%7 != 0 && i != len(log)-1 {
				continue
			}
			if as := mustRun(t, s, log[:i+1]); !reflect.DeepEqual(as, asKept) {
				t.Fatalf("log %d: the first %d lines answered again differ", trial, i+1)
			}
		}
	}
}

// finite walks every number of an answer.
func finite(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Float64:
		return !math.IsNaN(v.Float()) && !math.IsInf(v.Float(), 0)
	case reflect.Struct:
		for i := range v.NumField() {
			if !finite(v.Field(i)) {
				return false
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			if !finite(v.Index(i)) {
				return false
			}
		}
	}
	return true
}

// sound is what must hold of every answer, whatever was typed.
func sound(t *testing.T, s Settings, r Reading, a Answer) {
	t.Helper()
	c, n := a.Chances, a.Now
	a.Hours, a.Level = 0, 0 // given back as typed
	switch {
	case !finite(reflect.ValueOf(a)):
		t.Fatalf("not a number in %+v", a)
	case n.Lo < 0 || n.Rate < 0 || n.Hi < n.Lo:
		t.Fatalf("band %+v", n)
	case a.Readings > 0 && !(n.Rate > 0 && n.Hi > 0):
		t.Fatalf("a rate of exactly nothing: %+v", n)
	case a.Average.OK && !(a.Average.Lo >= 0 && a.Average.Lo <= a.Average.Rate && a.Average.Rate <= a.Average.Hi):
		t.Fatalf("average %+v", a.Average)
	case !s.Ceiling.OK && a.Verdict == NotSeating, !s.HoursKnown && (a.Verdict == Seated || a.Verdict == NotSeating || a.Verdict == Falling || a.Verdict == Levelling):
		t.Fatalf("%v may not be said with %+v", a.Verdict, s)
	case a.Left == Used && a.Verdict == None, a.Left != Used && a.Verdict != ReadingSuspect:
		t.Fatalf("left out %v, verdict %v", a.Left, a.Verdict)
	case a.Curve.OK && (a.Curve.At(a.Curve.From) < 0 || a.Curve.At(a.Curve.To) < 0):
		t.Fatalf("curve below nothing: %+v", a.Curve)
	}
	for _, p := range []Chance{c.Flat, c.Seated, c.NotSeating, c.Over, c.Step, c.Suspect, c.Creep} {
		if p < 0 || p > 1+1e-9 {
			t.Fatalf("chances %+v", c)
		}
	}
	for _, line := range append(Maths(a, Litre), Line(a, Litre), Say(a, Litre)) {
		if line == "" || strings.Contains(line, "NaN") || strings.Contains(line, "Inf") {
			t.Fatalf("says %q to %+v", line, r)
		}
	}
}

// Whatever is typed, no panic and no number that is none.
func TestNothingBreaksIt(t *testing.T) {
	r := random(t)
	wild := []float64{0, math.Copysign(0, -1), 1e-320, 1e-9, 0.01, 0.5, 1, 3, 12, 16.5, 17, 150, 999, 1e4, 1e6, 1e7, 1e300, math.MaxFloat64,
		-1e-9, -1, -1e6, -math.MaxFloat64, math.NaN(), math.Inf(1), math.Inf(-1)}
	some := func() float64 {
		if r.Intn(3) == 0 {
			return wild[r.Intn(len(wild))]
		}
		return 20 * r.Float64()
	}
	maybe := func() Given[float64] { return Given[float64]{some(), r.Intn(2) == 0} }
	tried := 0
	for range 1000 {
		c, st, ce, rt := maybe(), maybe(), maybe(), maybe()
		s := Settings{
			Capacity:   Given[Quarts]{Quarts(c.V), c.OK},
			StickStep:  Given[Quarts]{Quarts(st.V), st.OK},
			Ceiling:    Given[QtPerHour]{QtPerHour(ce.V), ce.OK},
			RefTemp:    Given[Fahrenheit]{Fahrenheit(rt.V), rt.OK},
			HoursKnown: r.Intn(2) == 0,
		}
		b, err := New(s)
		if err != nil {
			continue
		}
		tried++
		_, log := flown(r, 15)
		for _, read := range log {
			for range r.Intn(3) {
				switch r.Intn(8) {
				case 0:
					read.Hours = Hours(some())
				case 1:
					read.Level = Quarts(some())
				case 2:
					read.Added = Quarts(some())
				case 3:
					read.Conditions.Temp = Is(Fahrenheit(some()))
				case 4:
					read.Conditions.SD = Is(Quarts(some()))
				case 5:
					read.Conditions.SinceStop = Is(Minutes(some()))
				case 6:
					read.Drained, read.Poured = Drained(r.Intn(200)-100), Poured(r.Intn(200)-100)
				case 7:
					read.Conditions.Stands = Stands(r.Intn(200) - 100)
				}
			}
			sound(t, s, read, b.Add(read))
		}
	}
	t.Logf("%d banks made of 1000 tries", tried)
	if tried < 100 {
		t.Errorf("only %d banks tried", tried)
	}
}

// Plausible logs, and the rules that hold along one.
func TestPlausibleLogs(t *testing.T) {
	r := random(t)
	for range 60 {
		s, log := flown(r, 45)
		said, settled := None, false
		for i, a := range mustRun(t, s, log) {
			sound(t, s, log[i], a)
			if a.Verdict == ReadingSuspect && a.Said != said {
				t.Fatalf("a suspect reading changed %v to %v", said, a.Said)
			}
			said, settled = a.Said, settled || a.Verdict == Seated
			if a.Verdict == StepUp && a.Step.Cause == OverCeiling && s.HoursKnown && !settled {
				t.Fatal("over the ceiling, and never seated")
			}
		}
	}
}

// A line left out changes no figure of the lines after it.
func TestLeftOutLinesChangeNothing(t *testing.T) {
	r := random(t)
	for range 20 {
		s, log := flown(r, 30)
		s.Capacity = Is(Quarts(20))
		want := mustRun(t, s, log)
		var dirty []Reading
		var where []int
		for _, read := range log {
			if r.Intn(4) == 0 {
				bad := read
				bad.Level = 25
				dirty = append(dirty, bad)
			}
			where = append(where, len(dirty))
			dirty = append(dirty, read)
		}
		got := mustRun(t, s, dirty)
		for i, at := range where {
			g, w := got[at], want[i]
			if g.Left == Used {
				g.LeftOuts, w.LeftOuts = nil, nil
				if !reflect.DeepEqual(g, w) {
					t.Fatalf("line %d: %+v, want %+v", i, g, w)
				}
			}
		}
	}
}

// Nothing of the caller's is kept or changed.
func TestLogIsNotTouched(t *testing.T) {
	r := random(t)
	s, log := flown(r, 30)
	before := slices.Clone(log)
	as := mustRun(t, s, log)
	if !reflect.DeepEqual(log, before) {
		t.Error("the log was changed")
	}
	kept := as[10].LeftOuts
	mustRun(t, s, append(log, Reading{Level: -1}))
	if !slices.Equal(kept, as[10].LeftOuts) {
		t.Error("an answer changed after it was given")
	}
}
