package simulate

import (
	"math"
	"math/rand/v2"
	"testing"

	"linkrod/radial/oil"
)

func near(got, want, within float64) bool { return math.Abs(got-want) <= within }

// What an engine uses against integrals done by hand.
func TestUsedIsTheIntegral(t *testing.T) {
	flat := truth{start: 0.4, end: 0.4, tau: 8, fall: exponential}
	with := func(f func(*truth)) truth { e := flat; f(&e); return e }
	for name, c := range map[string]struct {
		truth    truth
		from, to float64
		want     float64
	}{
		"flat":                          {flat, 3, 13, 4},
		"exponential, a whole constant": {truth{start: 1.4, end: 0.4, tau: 1, fall: exponential}, 0, 1, 0.4 + 1 - 1/math.E},
		"hyperbola, to its constant":    {truth{start: 1, tau: 2, fall: hyperbolic}, 0, 2, 1},
		"ramp, to the end and past it":  {truth{start: 1, tau: 2, fall: ramp}, 0, 6, 2.5},
		"step":                          {with(func(e *truth) { e.stepAt, e.stepBy = 4.5, 3 }), 4, 5, 0.2 + 0.6},
		"drift":                         {with(func(e *truth) { e.drift = 0.01 }), 0, 100, 40 * 1.5},
		"habit":                         {with(func(e *truth) { e.habit = []float64{1, 0.5, 2} }), 7, 17, 0.4 * (1 + 4 + 2)},
	} {
		sum := 0.0 // by flights, as it is used
		for h := c.from; h < c.to; h += 0.5 {
			sum += c.truth.used(h, min(h+0.5, c.to))
		}
		if !near(sum, c.want, 1e-9) {
			t.Errorf("%s: used %v, want %v", name, sum, c.want)
		}
	}
}

// The oracle on a settled engine is a straight line through the levels: its
// variance has the closed form of least squares, v / sum of (h - mean)².
func TestOracleOnAStraightLine(t *testing.T) {
	s := with("", "", func(*scenario) {})
	l := log{truth: truth{start: 0.5, end: 0.5, tau: 8, fall: exponential}}
	var want float64
	for i := range 9 {
		h := 2 * float64(i)
		l.hours = append(l.hours, h)
		l.lines = append(l.lines, oil.Reading{Hours: oil.Hours(h), Level: oil.Quarts(16 - 0.5*h)})
		l.spread = append(l.spread, 0)
		want += (h - 8) * (h - 8)
	}
	want = math.Sqrt((0.01 + 0.25/12) / want)
	got := s.oracle(&l)[8]
	if !near(got.se, want, 1e-6) || !near(got.rate, 0.5, 1e-6) {
		t.Errorf("%+v, want 0.5 and %v", got, want)
	}
}

// The lady tasting tea has 34 chances in 70 (R. A. Fisher, The Design of
// Experiments, chapter 2; the two-sided figure is that of any statistics package).
// Student's and the normal figures are those of the common tables.
func TestChances(t *testing.T) {
	if p := sameCount(3, 4, 1, 4); !near(p, 34.0/70, 1e-12) {
		t.Errorf("tea: %v", p)
	}
	if p := sameCount(0, 500, 0, 2000); p != 1 {
		t.Errorf("nothing twice: %v", p)
	}
	if p := twoSided(1.959964); !near(p, 0.05, 1e-6) {
		t.Errorf("normal: %v", p)
	}
	for _, c := range []struct {
		t       float64
		freedom int
		p       float64
	}{{2.093, 19, 0.05}, {3.883, 19, 0.001}, {1.965, 499, 0.05}, {3.310, 499, 0.001}} {
		if p := twoSided(studentAsNormal(c.t, c.freedom)); !near(p/c.p, 1, 0.2) {
			t.Errorf("t %v, %d degrees: %v, want %v", c.t, c.freedom, p, c.p)
		}
	}
	if r, n, err := parseRounded("0.170"); r != (rounded{0.17, 0.0005}) || n != 3 || err != nil {
		t.Errorf("%v %v %v", r, n, err)
	}
	if r := (rounded{5.8, 0.05}); r.nearest(5.82) != 5.82 || r.nearest(6) != 5.85 || r.nearest(5) != 5.75 {
		t.Error("rounding")
	}
}

// The judge is judged. Two samples of one source should disagree at 5 % in 5 % of
// trials, and hardly ever be out; sources that differ should be told apart. With
// the heavy tails of slips the spread is guessed too small now and then: such a
// figure is out about ten times as often as it should be, so an OUT there means
// less than elsewhere.
func TestTheJudge(t *testing.T) {
	r := rand.New(rand.NewPCG(*base, 1))
	const ours, trials = 500, 400
	errors := func(n int, by, slips float64) []float64 {
		out := make([]float64, n)
		for i := range out {
			if out[i] = by * r.NormFloat64(); r.Float64() < slips {
				out[i] *= 4
			}
		}
		return out
	}
	often := func(n int, p float64) []bool {
		out := make([]bool, n)
		for i := range out {
			out[i] = r.Float64() < p
		}
		return out
	}
	median := func(hours []float64) figure { return quantile(0.5, hours) }
	sample := func(of func([]float64) figure, slips float64) func(n int, differs bool) figure {
		return func(n int, differs bool) figure {
			by := 1.0
			if differs {
				by = 1.6
			}
			return of(squares(errors(n, by, slips)))
		}
	}
	for name, c := range map[string]struct {
		sample        func(n int, differs bool) figure
		doubtful, out float64 // at most, of trials
	}{
		"root mean square": {sample(rootMeanSquare, 0), 0.09, 0.01},
		"average":          {sample(average, 0), 0.09, 0.01},
		"average, slips":   {sample(average, 0.05), 0.15, 0.03},
		"median":           {sample(median, 0), 0.09, 0.01},
		"share": {func(n int, differs bool) figure {
			p := 0.97
			if differs {
				p = 0.90
			}
			return share(often(n, p))
		}, 0.09, 0.01},
	} {
		var doubtful, out, told float64
		for range trials {
			their := rounded{c.sample(published, false).value, 1e-12}
			p := c.sample(ours, false).agree(their)
			if p < doubtfulP {
				doubtful++
			}
			if p < outBelow {
				out++
			}
			if c.sample(ours, true).agree(their) < outBelow {
				told++
			}
		}
		if doubtful/trials > c.doubtful || doubtful/trials < 0.01 || out/trials > c.out {
			t.Errorf("%s: of two samples of one source %v are doubtful and %v out", name, doubtful/trials, out/trials)
		}
		if told/trials < 0.9 {
			t.Errorf("%s: sources that differ are told apart in %v", name, told/trials)
		}
	}
}

// The same seed draws the same log.
func TestSeeded(t *testing.T) {
	s := &scenarios[9]
	if a, b := s.run(7), s.run(7); a != b {
		t.Errorf("%+v\n%+v", a, b)
	}
	if a, b := s.run(7), s.run(8); a == b {
		t.Error("two seeds draw one log")
	}
}
