package compression_test

import (
	"math"
	"testing"

	"linkrod/radial/compression"
	"linkrod/radial/quantity"
)

// byMach is the flow through a square metre the other way round, from the Mach number that
// the pressures make, as gas tables have it:
//
//	p₀/p = (1 + (γ−1)/2 M²)^(γ/(γ−1)),  M no more than 1
//	ṁ/A = p₀ √(γ/(R T₀)) M (1 + (γ−1)/2 M²)^(−(γ+1)/(2(γ−1)))
func byMach(gamma, r, p0, t0, back float64) float64 {
	m := math.Sqrt(2 / (gamma - 1) * (math.Pow(p0/back, (gamma-1)/gamma) - 1))
	m = min(m, 1)
	return p0 * math.Sqrt(gamma/(r*t0)) * m * math.Pow(1+(gamma-1)/2*m*m, -(gamma+1)/(2*(gamma-1)))
}

func TestMassFlowByMach(t *testing.T) {
	r := random(t)
	for range 5000 {
		g := compression.Gas{Gamma: 1.05 + 0.6*r.Float64(), R: 100 + 500*r.Float64()}
		p0 := 1e4 + 2e6*r.Float64()
		back := p0 * r.Float64()
		t0 := 200 + 800*r.Float64()
		got := must(g.MassFlow(quantity.Pressure(p0)*quantity.Pascal, quantity.Celsius(t0-273.15), quantity.Pressure(back)*quantity.Pascal, quantity.SquareMetre))
		want := byMach(g.Gamma, g.R, p0, t0, back)
		if !near(got.KilogramsPerSecond(), want, 1e-9*want) {
			t.Fatalf("%+v, %v Pa at %v K to %v: %v kg/s, by Mach number %v", g, p0, t0, back, got, want)
		}
	}
	// Gas tables for air (NACA Report 1135, from memory): at M 0.5 the pressure is 0.8430
	// of that at rest, and the throat 1.3398 times as wide as the choked one.
	flow := func(back quantity.Pressure) float64 {
		return must(compression.Air.MassFlow(100, 68, back, 1)).KilogramsPerSecond()
	}
	if got := flow(0) / flow(84.30); !near(got, 1.3398, 0.0002) {
		t.Errorf("choked over M 0.5: %v", got)
	}
	critical := quantity.Pressure(100 * must(compression.Air.CriticalRatio()))
	if flow(0) != flow(critical) || flow(critical) != flow(critical*0.999) || flow(critical*1.02) >= flow(critical) {
		t.Error("what is choked depends on the pressure behind")
	}
	if flow(100) != 0 {
		t.Errorf("between equal pressures %v kg/s flow", flow(100))
	}
	for _, tt := range []struct {
		err          error
		field, words string
	}{
		{second(compression.Gas{Gamma: 1, R: 287}.CriticalRatio()), "gas", "Air is 1.4"},
		{second(compression.Gas{Gamma: 1.7, R: 287}.CriticalRatio()), "gas", "Air is 1.4"},
		{second(compression.Gas{Gamma: 1.4}.MassFlow(100, 68, 0, 1)), "gas", "Air is 1.4"},
		{second(compression.Air.MassFlow(-1.25, 68, 0, 1)), "pressure before", "is −1.3 psi. It must be more than 0"},
		{second(compression.Air.MassFlow(100, -459.67, 0, 1)), "temperature", "is −460 °F. It must be above absolute zero"},
		{second(compression.Air.MassFlow(100, quantity.Temperature(nan), 0, 1)), "temperature", "absolute zero"},
		{second(compression.Air.MassFlow(100, 68, -1, 1)), "pressure after", "from 0 to the pressure before it, 100 psi"},
		{second(compression.Air.MassFlow(100.04, 68, 100.14, 1)), "pressure after", "is 100.1 psi. It must be from 0 to the pressure before it, 100 psi"},
		{second(compression.Air.MassFlow(99.94, 68, 100.14, 1)), "pressure after", "before it, 99.9 psi"},
		{second(compression.Air.MassFlow(100, 68, 0, -0.0000014)), "area", "is −0.000001 square inches"},
	} {
		wantProblem(t, tt.err, tt.field, tt.words)
	}
	if _, err := (compression.Gas{Gamma: 5.0 / 3, R: 2077}).CriticalRatio(); err != nil {
		t.Errorf("helium: %v", err)
	}
}

// What flows in by the orifice flows out by the leak, on random testers; and the reading
// comes back.
func TestLeakBalances(t *testing.T) {
	r := random(t)
	for range 2000 {
		ts := compression.Tester{
			Supply:     quantity.Pressure(20 + 100*r.Float64()),
			Orifice:    quantity.Length(0.02 + 0.06*r.Float64()),
			Atmosphere: quantity.Pressure(10 + 5*r.Float64()),
		}
		reading := ts.Supply * quantity.Pressure(0.01+0.98*r.Float64())
		leak := must(ts.Leak(reading))
		in := must(compression.Air.MassFlow(ts.Supply+ts.Atmosphere, 68, reading+ts.Atmosphere, quantity.Circle(ts.Orifice)))
		out := must(compression.Air.MassFlow(reading+ts.Atmosphere, 68, ts.Atmosphere, leak))
		if !near(float64(in/out), 1, 1e-9) {
			t.Fatalf("%+v reads %v: %v in and %v out", ts, reading, in, out)
		}
		if back := must(ts.Reading(leak)); !near(back.PSI(), reading.PSI(), 1e-9*ts.Supply.PSI()) {
			t.Fatalf("%+v: %v came back as %v", ts, reading, back)
		}
		// A larger leak reads lower, a larger orifice higher.
		if lower := must(ts.Reading(leak * 1.01)); lower >= reading {
			t.Fatalf("%+v: more leak reads %v, was %v", ts, lower, reading)
		}
		if higher := must(ts.With(ts.Orifice*1.01, reading)); higher <= reading {
			t.Fatalf("%+v: a larger orifice reads %v, was %v", ts, higher, reading)
		}
	}
}

// The invented engine E1 (DEMO): one set of leaks seen by the right tester and by the
// wrong one.
func TestSameLeaksTwoTesters(t *testing.T) {
	right := compression.Tester{Supply: 80, Orifice: 0.060, Atmosphere: compression.SeaLevel}
	for i, pair := range [][2]quantity.Pressure{{72, 49}, {74, 55}, {70, 44}, {73, 52}, {69, 41}, {66, 35}, {75, 59}} {
		if got := must(right.With(0.040, pair[0])); !near(got.PSI(), pair[1].PSI(), 0.5) {
			t.Errorf("cylinder %d: %v with the 0.060 is %v with the 0.040, want %v", i+1, pair[0], got, pair[1])
		}
	}
}

func TestLeakEnds(t *testing.T) {
	ts := compression.Tester{Supply: 80, Orifice: 0.060, Atmosphere: compression.SeaLevel}
	if leak := must(ts.Leak(80)); leak != 0 {
		t.Errorf("no loss is a leak of %v", leak)
	}
	if got := must(ts.Reading(0)); got != 80 {
		t.Errorf("no leak reads %v", got)
	}
	if got := must(ts.Reading(1000)); !(got >= 0 && got < 1e-3) {
		t.Errorf("a hole of 1000 sq in reads %v", got)
	}
	for _, tt := range []struct {
		err          error
		field, words string
	}{
		{second(ts.Leak(0)), "reading", "more than 0"},
		{second(ts.Leak(80.14)), "reading", "reads 80.1 psi. For a leak to be reckoned it must be more than 0 and no more than the supply, 80 psi"},
		{second(compression.Tester{Supply: 80.14, Orifice: 0.060, Atmosphere: 14.7}.Leak(81)), "reading", "the supply, 80.1 psi"},
		{second(ts.Leak(quantity.Pressure(nan))), "reading", "not known"},
		{second(ts.Reading(-0.0000014)), "leak", "is −0.000001 square inches. It must be 0 or more"},
		{second(ts.Reading(quantity.Area(inf))), "leak", "0 or more"},
		{second(ts.With(0, 70)), "other orifice", "more than 0"},
		{second(ts.With(0.040, 81)), "reading", "more than 0"},
		{second(compression.Tester{}.Leak(70)), "supply pressure", "more than 0"},
		{second(compression.Tester{Supply: 80, Orifice: -0.06004}.Leak(70)), "orifice", "is −0.0600 in. It must be more than 0"},
		{second(compression.Tester{Supply: 80, Orifice: 0.060}.Reading(0.001)), "atmosphere", "more than 0"},
	} {
		wantProblem(t, tt.err, tt.field, tt.words)
	}
}
