package oil

import (
	"math"
	"testing"
)

// The integral of a shape against Simpson's rule, and of the flat one exactly.
func TestShapeBetween(t *testing.T) {
	for _, s := range []Shape{{0.06, 3.5}, {0.38, 10}, {0.75, 26}, {0, 8}, Flat} {
		const n = 2000
		h0, h1 := 1.5, 23.0
		step := (h1 - h0) / n
		sum := s.At(Hours(h0)) + s.At(Hours(h1))
		for i := 1; i < n; i++ {
			sum += float64(2+2*(i%2)) * s.At(Hours(h0+float64(i)*step))
		}
		if got, want := s.Between(Hours(h0), Hours(h1)), sum*step/3; !near64(got, want, 1e-9) {
			t.Errorf("%v: %v, Simpson says %v", s, got, want)
		}
		if s.At(0) != 1 || s.Between(5, 5) != 0 {
			t.Errorf("%v: starts at %v, integral over nothing %v", s, s.At(0), s.Between(5, 5))
		}
	}
}

func TestPriorsSumToOne(t *testing.T) {
	ms := newMembers(15, 0.03, 0.6)
	if w := logSum(len(ms), func(i int) float64 { return ms[i].w }); len(ms) != 32 || !near64(w, 0, 1e-12) {
		t.Errorf("%d shapes, ln of the sum %v", len(ms), w)
	}
	for _, dt := range []float64{0, 0.7, 3, 100, 240} {
		sum := chance(plain, dt)
		for k := badReading; k < kinds; k++ {
			sum += chance(k, dt)
		}
		if !near64(sum, 1, 1e-12) {
			t.Errorf("after %v h the explanations sum to %v", dt, sum)
		}
	}
	if got := chance(plain, 1e6); got != 0.05 {
		t.Errorf("plain after a very long gap: %v", got)
	}
	if got := chance(stepUp, 200); !near64(got, 1-math.Exp(-1), 1e-12) {
		t.Errorf("a step in 200 h: %v", got)
	}
}

// Straight lines have a closed form: two exact levels dt apart give the rate
// exactly, and its variance is 2 R / dt².
func TestFilterTwoReadings(t *testing.T) {
	const r, dt = 0.03, 4.0
	f := Filter{Shape: Flat, L: 15, PLL: r, PSS: 1e6}
	f.Predict(0, dt, 2, 0, Process{})
	f.Update(14, r)
	mean, sd := f.Rate(100)
	if !near64(mean, 3/dt, 1e-6) || !near64(sd, math.Sqrt(2*r)/dt, 1e-6) {
		t.Errorf("rate %v, sd %v; want %v, %v", mean, sd, 3/dt, math.Sqrt(2*r)/dt)
	}
}

// One prediction over t is two over t/2, but for the flight scatter and drift.
func TestPredictInTwoSteps(t *testing.T) {
	for _, s := range []Shape{Flat, {0.24, 6}} {
		one := Filter{s, 15, 1.2, 0.1, 0.02, 0.3}
		two := one
		one.Predict(2, 8, 3, 0.01, Process{})
		two.Predict(2, 5, 3, 0.01, Process{})
		two.Predict(5, 8, 0, 0, Process{})
		for i, d := range []float64{one.L - two.L, one.S - two.S, one.PLL - two.PLL, one.PLS - two.PLS, one.PSS - two.PSS} {
			if !near64(d, 0, 1e-12) {
				t.Errorf("%v: component %d differs by %v", s, i, d)
			}
		}
	}
}

// A second look at the same stop: what was poured between goes in with its doubt, and
// nothing else moves.
func TestPredictAtTheSameStop(t *testing.T) {
	f := Filter{Flat, 15, 0.4, 0.2, -0.01, 0.05}
	f.Predict(8, 8, 0, 0.09, Process{Scatter: 0.15, Drift: 0.03, Ref: 0.6})
	if f != (Filter{Flat, 15, 0.4, 0.2, -0.01, 0.05}) {
		t.Errorf("nothing poured: %+v", f)
	}
	f.Predict(8, 8, 2, 0.09, Process{Scatter: 0.15, Drift: 0.03, Ref: 0.6})
	if !near64(f.PLL, 0.29, 1e-12) || f != (Filter{Flat, 17, 0.4, f.PLL, -0.01, 0.05}) {
		t.Errorf("two quarts poured: %+v", f)
	}
}

// A step in the middle of two hours, worked by hand: 0.4 qt/h, variance 0.01, covariance
// −0.02, level 15 with 0.1. Halved, with a quarter of doubt; or raised by 1.2 of itself.
func TestStepsByHand(t *testing.T) {
	h := history{members: []member{{Filter: Filter{Flat, 15, 0.4, 0.1, -0.02, 0.01}}}}
	l := look{from: 10, to: 12, ref: 0.6}
	for _, tt := range []struct {
		k    kind
		want Filter
	}{
		{stepDown, Filter{Flat, 14.4, 0.2, 0.1925, -0.0275, 0.0125}},
		{stepUp, Filter{Flat, 13.72, 0.88, 0.2984, -0.1184, 0.0884}},
		{plain, Filter{Flat, 14.2, 0.4, 0.1 + 4*0.02 + 4*0.01, -0.04, 0.01}},
		{addNotNoted, Filter{Flat, 16.2, 0.4, 0.1 + 4*0.02 + 4*0.01 + 1.44, -0.04, 0.01}},
		{oilLost, Filter{Flat, 12.7, 0.4, 0.1 + 4*0.02 + 4*0.01 + 1.44, -0.04, 0.01}},
	} {
		got := h.predict(l, tt.k)[0].Filter
		for i, d := range []float64{got.L - tt.want.L, got.S - tt.want.S, got.PLL - tt.want.PLL, got.PLS - tt.want.PLS, got.PSS - tt.want.PSS} {
			if !near64(d, 0, 1e-12) {
				t.Errorf("%v: component %d off by %v: %+v", tt.k, i, d, got)
			}
		}
	}
}

// Merging keeps the mean and covariance of the mixture: against the moments of
// a sum over both.
func TestMergeKeepsMoments(t *testing.T) {
	a := member{Filter: Filter{Flat, 14, 0.4, 0.2, -0.01, 0.05}, w: math.Log(0.3), drift: driftUsual}
	b := member{Filter: Filter{Flat, 15, 0.7, 0.1, 0.02, 0.01}, w: math.Log(0.2), drift: driftUsual}
	m := merge([]member{a, b})
	if !near64(math.Exp(m.w), 0.5, 1e-12) || !near64(m.L, 0.6*14+0.4*15, 1e-12) || !near64(m.S, 0.6*0.4+0.4*0.7, 1e-12) {
		t.Errorf("merged %+v", m)
	}
	second := func(x, y, cov float64) float64 { return cov + x*y }
	want := 0.6*second(14, 0.4, -0.01) + 0.4*second(15, 0.7, 0.02)
	if got := second(m.L, m.S, m.PLS); !near64(got, want, 1e-12) {
		t.Errorf("E[L S] %v, want %v", got, want)
	}
}

// The textbook half-normal: mean sd sqrt(2/pi), median 0.6744897501960817 sd.
func TestHalfNormal(t *testing.T) {
	c := newCut(0, 0.3)
	if got, want := c.average(), 0.3*math.Sqrt(2/math.Pi); !near64(got, want, 1e-15) {
		t.Errorf("mean %v, want %v", got, want)
	}
	if got := c.below(0.3 * 0.6744897501960817); !near64(got, 0.5, 1e-14) {
		t.Errorf("below the median %v", got)
	}
}

// Cut at 0 by numbers: Simpson's rule over the density that is left.
func TestCutNormalAgainstQuadrature(t *testing.T) {
	for _, c := range []cut{newCut(1, 0.5), newCut(0.2, 0.5), newCut(-0.5, 0.3), newCut(-2, 0.3)} {
		const n, x = 20000, 0.15
		top := math.Max(c.mean, 0) + 12*c.sd
		integral := func(hi float64, f func(float64) float64) float64 {
			step := hi / n
			sum := f(0) + f(hi)
			for i := 1; i < n; i++ {
				sum += float64(2+2*(i%2)) * f(float64(i)*step)
			}
			return sum * step / 3
		}
		d := func(r float64) float64 { return math.Exp(-sq((r-c.mean)/c.sd)/2 + sq(math.Min(c.mean, 0)/c.sd)/2) }
		all := integral(top, d)
		if got, want := c.average(), integral(top, func(r float64) float64 { return r * d(r) })/all; !near64(got, want, 1e-9) {
			t.Errorf("%v: mean %v, want %v", c, got, want)
		}
		if got, want := c.below(x), integral(x, d)/all; !near64(got, want, 1e-9) {
			t.Errorf("%v: below %v %v, want %v", c, x, got, want)
		}
	}
}

// Where the two ways to reckon a far tail meet they agree to 0.3 %.
func TestFarTail(t *testing.T) {
	for _, sd := range []float64{1, 0.25} {
		near, far := newCut((-steep+1e-9)*sd, sd), newCut((-steep-1e-9)*sd, sd)
		if a, b := near.average(), far.average(); math.Abs(a/b-1) > 0.003 {
			t.Errorf("mean %v and %v", a, b)
		}
		if a, b := near.below(0.1*sd), far.below(0.1*sd); math.Abs(a/b-1) > 0.003 {
			t.Errorf("below %v and %v", a, b)
		}
		if a, b := near.densityAt(0.01*sd), far.densityAt(0.01*sd); math.Abs(a/b-1) > 0.003 {
			t.Errorf("density %v and %v", a, b)
		}
	}
	for _, c := range []cut{newCut(0.4, 0), newCut(-0.4, 0)} {
		if got, want := c.average(), math.Max(c.mean, 0); got != want {
			t.Errorf("%v: %v", c, got)
		}
	}
	if newCut(0.4, 0).below(0.5) != 1 || newCut(0.4, 0).below(0.3) != 0 || newCut(0.4, 0.1).below(-1) != 0 {
		t.Error("a rate known exactly, or nothing, is on the wrong side")
	}
	b := band([]part{{share: 1}}, []cut{newCut(-40, 1)})
	if !(b.Lo > 0 && b.Lo < b.Rate && b.Rate < b.Hi && b.Hi < 1) {
		t.Errorf("band %+v of a rate cut far in its tail", b)
	}
}

// The band of one normal well above 0 is mean ± 1.959963984540054 sd.
func TestBandOfOneNormal(t *testing.T) {
	b := band([]part{{share: 1}}, []cut{newCut(1, 0.1)})
	const z = 1.959963984540054
	if !near64(float64(b.Rate), 1, 1e-12) || !near64(float64(b.Lo), 1-0.1*z, 1e-9) || !near64(float64(b.Hi), 1+0.1*z, 1e-9) {
		t.Errorf("band %+v", b)
	}
}

func TestCurveIsNeverBelowNothing(t *testing.T) {
	c := Curve{Shape: Shape{0.24, 10}, Start: 1.5, Origin: 100}
	if got, want := float64(c.At(110)), 1.5*(0.24+0.76/math.E); !near64(got, want, 1e-12) {
		t.Errorf("one time constant on: %v, want %v", got, want)
	}
	if c.Start = -0.2; c.At(110) != 0 {
		t.Error("below nothing")
	}
}
