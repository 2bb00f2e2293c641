package ring_test

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

var nan, inf = math.NaN(), math.Inf(1)

// ok is a value that must have come without an error.
func ok[T any](t *testing.T, v T, err error) T {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Ratio and clearance are each other's inverse; the outside values are in the tables
// of radial/checks.
func TestRatioAndClearance(t *testing.T) {
	v, err := ring.Swept(5, 5)
	swept := ok(t, v, err)
	for _, cr := range []float64{1.01, 5.4, 6.1, 20} {
		v, err := ring.Clearance(swept, cr)
		back, err2 := ring.CompressionRatio(swept, ok(t, v, err))
		if got := ok(t, back, err2); !near(got, cr, 1e-12*cr) {
			t.Errorf("%v came back as %v", cr, got)
		}
	}
}

// Each cylinder's own volumes: by displacement from pin heights, done the long way.
func TestChambers(t *testing.T) {
	const bore, cr = 5.375, 6.1
	list, err := plainSeven.Chambers(bore, cr)
	chambers := ok(t, list, err)
	a := math.Pi / 4 * bore * bore
	head := 9.75 + 2.5 + a*5/(cr-1)/a // the head's height above the shaft, as a flat one
	var sum float64
	for i, p := range plainSeven.Pistons() {
		c := chambers[i]
		if want := a * (head - p.Top().Pin.Inches()); !near(c.Clearance.CubicInches(), want, 1e-11) {
			t.Errorf("cylinder %d: clearance %v, want %v", i+1, c.Clearance, want)
		}
		if want := (head - p.Bottom().Pin.Inches()) / (head - p.Top().Pin.Inches()); !near(c.Ratio(), want, 1e-11) {
			t.Errorf("cylinder %d: ratio %v, want %v", i+1, c.Ratio(), want)
		}
		sum += c.Swept.CubicInches()
	}
	d, err := plainSeven.Displacement(bore)
	if got := ok(t, d, err).CubicInches(); !near(got, sum, 1e-9) {
		t.Errorf("displacement %v, the cylinders swept %v", got, sum)
	}
}

func TestSizesThatCannotBe(t *testing.T) {
	high := rods(seven, 2.5, 9.75, 1, ring.Link{Knuckle: 2.55, Length: 7.9}) // pistons 0.7 in higher than the master's
	for _, tt := range []struct {
		field string
		err   error
	}{
		{"bore", second(ring.Swept(0, 5))},
		{"bore", second(ring.Swept(quantity.Length(nan), 5))},
		{"stroke", second(ring.Swept(5, -5))},
		{"stroke", second(ring.Displacement(5, quantity.Length(inf), 7))},
		{"cylinders", second(ring.Displacement(5, 5, 0))},
		{"stroke", second(ring.StrokeBetween(3, 3))},
		{"stroke", second(ring.StrokeBetween(quantity.Length(nan), 3))},
		{"displacement", second(ring.Designation(0))},
		{"displacement", second(ring.Designation(quantity.Volume(inf)))},
		{"swept volume", second(ring.CompressionRatio(0, 20))},
		{"clearance volume", second(ring.CompressionRatio(100, 0))},
		{"swept volume", second(ring.Clearance(-1, 6))},
		{"compression ratio", second(ring.Clearance(100, 1))},
		{"compression ratio", second(ring.Clearance(100, nan))},
		{"compression ratio", second(ring.Clearance(100, inf))},
		{"compression ratio", second(plainSeven.Chambers(5, 0.5))},
		{"bore", second(plainSeven.Chambers(0, 6))},
		{"bore", second(plainSeven.Displacement(0))},
		{"bore", second(piston(plainSeven, 2).Chamber(0, 20))},
		{"clearance volume", second(piston(plainSeven, 2).Chamber(5, 0))},
		{"clearance volume", second(high.Chambers(5, 20))},
		{"stroke", second(ring.MeanPistonSpeed(0, 2000))},
		{"speed", second(ring.MeanPistonSpeed(5, 0))},
		{"power", second(ring.BMEP(0, 800, 2000))},
		{"displacement", second(ring.BMEP(200, 0, 2000))},
		{"speed", second(ring.BMEP(200, 800, quantity.Speed(nan)))},
		{"torque", second(ring.BMEPFromTorque(0, 800, ring.FourStroke))},
		{"cycle", second(ring.BMEPFromTorque(1, 800, 4))},
		{"pressure", second(ring.TorqueFromBMEP(0, 800, ring.FourStroke))},
		{"displacement", second(ring.TorqueFromBMEP(120, 0, ring.FourStroke))},
		{"cycle", second(ring.TorqueFromBMEP(120, 800, 0))},
		{"pressure", second(ring.PowerFromMEP(-1, 800, 2000))},
		{"speed", second(ring.PowerFromMEP(120, 800, -2000))},
		{"power", second(ring.TorqueFrom(-1, 2000))},
		{"speed", second(ring.TorqueFrom(200, 0))},
		{"torque", second(ring.PowerFrom(0, 2000))},
		{"speed", second(ring.PowerFrom(100, 0))},
		{"power", second(ring.ThermalEfficiency(0, 50, 18800))},
		{"fuel", second(ring.ThermalEfficiency(85, 0, 18800))},
		{"heat", second(ring.ThermalEfficiency(85, 50, 0))},
	} {
		wantProblem(t, tt.err, tt.field)
	}
}

// second is the error of two results. A refusal comes with no figure that could be taken
// for one.
func second[T any](v T, err error) error {
	if f := reflect.ValueOf(v); err != nil && f.CanFloat() && f.Float() != 0 {
		return fmt.Errorf("refused, and yet %v: %w", v, err)
	}
	return err
}

// Powers, torques and pressures are one fact said three ways.
func TestPowerThereAndBack(t *testing.T) {
	const power, d, rpm = 450, 985, 2300
	tq, err := ring.TorqueFrom(power, rpm)
	p, err2 := ring.PowerFrom(ok(t, tq, err), rpm)
	if got := ok(t, p, err2).Horsepower(); !near(got, power, 1e-10) {
		t.Errorf("450 hp came back as %v", got)
	}
	mep, err := ring.BMEP(power, d, rpm)
	p, err2 = ring.PowerFromMEP(ok(t, mep, err), d, rpm)
	if got := ok(t, p, err2).Horsepower(); !near(got, power, 1e-10) {
		t.Errorf("450 hp by its pressure came back as %v", got)
	}
	if want := 792000.0 * power / (d * rpm); !near(mep.PSI(), want, 1e-10) {
		t.Errorf("mean pressure %v, want %v by the constant of the books", mep, want)
	}
	half, err := ring.BMEPFromTorque(tq, d, ring.TwoStroke)
	if got := ok(t, half, err); !near(got.PSI(), mep.PSI()/2, 1e-10) {
		t.Errorf("a two-stroke has %v, want half of %v", got, mep)
	}
	v, err := ring.MeanPistonSpeed(5, 2200)
	if got := ok(t, v, err); !near(got.FeetPerMinute(), 2200*5.0/6, 1e-10) || !near(got.MetresPerSecond(), 2200*2*5*0.0254/60, 1e-12) {
		t.Errorf("5 in at 2200 rpm: %v ft/min, %v m/s", got.FeetPerMinute(), got.MetresPerSecond())
	}
}

// A share of the heat cannot be more than what went in: at 100 % a pound of fuel an hour
// gives its heat in horsepower hours, 2544.43 BTU each (NIST SP 811, App. B).
func TestThermalEfficiency(t *testing.T) {
	e, err := ring.ThermalEfficiency(1, 1, 2544.4336)
	if got := ok(t, e, err); !near(got, 1, 1e-6) {
		t.Errorf("one horsepower hour out of its own heat is %v of it", got)
	}
}

// A barrel 8.5 in deep, the crown 4.0 in from its bottom at bottom dead centre: a
// practice question of the FAA general test, which the depth is there to mislead.
func TestStrokeBetween(t *testing.T) {
	s, err := ring.StrokeBetween(8.5, 4)
	back, err2 := ring.StrokeBetween(4, 8.5)
	if ok(t, s, err) != 4.5 || ok(t, back, err2) != 4.5 {
		t.Errorf("stroke %v, and %v", s, back)
	}
}

func TestDesignation(t *testing.T) {
	for _, tt := range []struct {
		v    quantity.Volume
		want int
	}{{757.6, 760}, {757.4, 755}, {757.5, 760}, {986.76, 985}, {1.2, 0}} {
		if got, err := ring.Designation(tt.v); err != nil || got != tt.want {
			t.Errorf("%v cu in is called %d (%v), want %d", tt.v, got, err, tt.want)
		}
	}
}

// A refusal shows the figure it refuses, to as many places as anyone reads it to.
func TestRefusalsShowTheFigure(t *testing.T) {
	third := -1.0 / 3
	turned := ring.Rods{Throw: 2.5, MasterRod: 9.75, Master: 1, Axes: []quantity.Angle{quantity.Angle(third), 180}, Links: make([]ring.Link, 2)}
	for _, tt := range []struct {
		err  error
		says string
	}{
		{second(ring.Clearance(100, 1/3.0)), "is 0.333."},
		{second(ring.BMEPFromTorque(quantity.Torque(third), 800, ring.FourStroke)), "\u22120.33 in-lb"},
		{second(ring.NewLinkage(turned)), "\u22120.33°"},
	} {
		if said := strings.ReplaceAll(tt.err.Error(), "\u2009", " "); !strings.Contains(said, tt.says) {
			t.Errorf("%q does not say %q", said, tt.says)
		}
	}
}
