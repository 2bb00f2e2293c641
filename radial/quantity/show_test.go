package quantity

import (
	"math"
	"strings"
	"testing"
)

// bare puts ordinary signs for the thin space and the real minus, so that the
// tables below can be typed.
var bare = strings.NewReplacer(thin, " ", minus, "-")

func TestShow(t *testing.T) {
	for _, c := range []struct {
		m    Measured
		want string
	}{
		{Of("15", UnitQt), "15 qt"},
		{Of("26.50", UnitQt), "26.50 qt"},
		{Of("-40", UnitF), "-40 °F"},
		{Of("25", UnitDeg), "25°"},
		{Of("336", UnitInLb), "336 inch pounds, 28 foot pounds"},
		{Of("100", UnitInLb), "100 inch pounds, about 8.3 foot pounds"},
		{Of("1", UnitFtLb), "1 foot pound, 12 inch pounds"},
		{Of("8", UnitThou), "8 thou = 0.008 in"},
		{Of("5", UnitTenth), "5 tenths = 0.0005 in"},
		{Of("0.008", UnitIn), "0.008 in = 8 thou"},
		{Of("0.1", UnitIn), "0.1 in"},
		{Of("0.000000000000000001", UnitThou), "0.000000000000000001 thou"},
		{Of("7", "firkin"), "7 firkin"},
		{Measured{}, "not given"},
	} {
		if got := bare.Replace(c.m.Show()); got != c.want {
			t.Errorf("%v is shown %q, want %q", c.m, got, c.want)
		}
	}
	if got := Of("-1", UnitThou).Show(); got != "−1\u2009thou = −0.001\u2009in" {
		t.Errorf("the signs of print are %q", got)
	}
	if got := (Measured{}).String(); got != "" {
		t.Errorf("a value not given is %q in text", got)
	}
}

func TestFigure(t *testing.T) {
	for _, c := range []struct {
		v      float64
		places int
		want   string
	}{
		{13, 1, "13"}, {13.04, 1, "13"}, {0.5, 1, "0.5"}, {0.4, 2, "0.40"}, {0.4312, 2, "0.43"}, {12.5, 2, "12.50"},
		{-0.003, 3, "-0.003"}, {-0.0004, 3, "0"}, {1e30, 2, "not known"}, {math.NaN(), 2, "not known"}, {math.Inf(-1), 2, "not known"},
	} {
		if got := bare.Replace(Figure(c.v, c.places)); got != c.want {
			t.Errorf("Figure(%v, %d) = %q, want %q", c.v, c.places, got, c.want)
		}
	}
	if got := bare.Replace(Computed(-13.04, 1, UnitF)); got != "-13 °F" {
		t.Errorf("Computed(−13.04 °F) = %q", got)
	}
	if got := Computed(math.NaN(), 1, UnitF); got != "not known" {
		t.Errorf("Computed(NaN °F) = %q", got)
	}
}

func TestPlaces(t *testing.T) {
	for e, want := range map[float64]int{
		0.07: 2, 0.12: 2, 0.2: 1, 0.19: 2, 0.0012: 4, 1.5: 1, 2: 0, 35: 0, -0.07: 2, 0: 0, 1e-30: 9, math.Inf(1): 0, math.NaN(): 0,
	} {
		if got := Places(e); got != want {
			t.Errorf("Places(%v) = %d, want %d", e, got, want)
		}
	}
}

func TestClock(t *testing.T) {
	for h, want := range map[Hours]string{
		1.5: "1:30", 0: "0:00", 1.0 / 3: "0:20", 523.6: "523:36", 1.999: "2:00", -0.25: "-0:15", -0.001: "0:00",
		Hours(math.Inf(1)): "not known", Hours(math.NaN()): "not known",
	} {
		if got := bare.Replace(h.Clock()); got != want {
			t.Errorf("Hours(%v).Clock() = %q, want %q", h, got, want)
		}
	}
}

func TestOilRate(t *testing.T) {
	for _, c := range []struct {
		r      OilRate
		places int
		want   string
	}{
		{0.41, 2, "0.41 qt/h, 2.4 h/qt"},
		{0.25, 2, "0.25 qt/h, 4 h/qt"},
		{HoursPerQuart(4), 2, "0.25 qt/h, 4 h/qt"},
		{HoursPerQuart(math.Inf(1)), 2, "0 qt/h, no oil used"},
		{0.001, 2, "0 qt/h, no oil used"},
		{-0.1, 1, "-0.1 qt/h, more oil than before"},
		{Rate(1*Litre, 1), 4, "1.0567 qt/h, 0.9 h/qt"},
		{OilRate(math.NaN()), 2, "not known"},
	} {
		if got := bare.Replace(c.r.Show(c.places)); got != c.want {
			t.Errorf("OilRate(%v).Show(%d) = %q, want %q", float64(c.r), c.places, got, c.want)
		}
	}
	if got := OilRate(0).HoursPerQuart(); !math.IsInf(got, 1) {
		t.Errorf("no oil used lasts %v hours a quart", got)
	}
	if got := OilRate(0.4).Over(10).Quarts(); !float64Near(got, 4, 1e-15) {
		t.Errorf("0.4 qt/h over 10 h is %v qt", got)
	}
}

// A temperature and a difference meet only through these.
func TestTemperatureDifference(t *testing.T) {
	rise := Fahrenheit(210).Above(Fahrenheit(160))
	if got := rise.CelsiusDegrees(); !float64Near(got, 27.7778, 1e-4) { // checks row u_dF_dC
		t.Errorf("a rise of 50 F° is %v C°", got)
	}
	if got := Celsius(20).Plus(10 * CelsiusDegree).Celsius(); !float64Near(got, 30, 1e-13) {
		t.Errorf("10 C° above 20 °C is %v °C", got)
	}
}

// Closed forms: π, and the weight of a kilogram.
func TestRotationAndWeight(t *testing.T) {
	if got := Angle(180).Radians(); got != math.Pi {
		t.Errorf("180° = %v rad", got)
	}
	if got := float64(Revolution / Radian); !float64Near(got, 2*math.Pi, 1e-15) {
		t.Errorf("a revolution is %v rad", got)
	}
	if got := (60 * RPM).RadiansPerSecond(); !float64Near(got, 2*math.Pi, 1e-15) {
		t.Errorf("60 rpm = %v rad/s", got)
	}
	if got := Kilogram.Weight().Newtons(); !float64Near(got, 9.80665, 1e-14) {
		t.Errorf("a kilogram weighs %v N", got)
	}
}

// The counter-example of the package comment.
func TestRadiansAreARoundingAway(t *testing.T) {
	if got := float64(Angle(Angle(1.5).Radians()) * Radian); got != 1.5000000000000002 {
		t.Errorf("1.5° in radians and back is %.17g; the package comment says otherwise", got)
	}
}

func TestDoubts(t *testing.T) {
	for _, c := range []struct {
		got, expected Torque
		want          bool
	}{
		{300 * FootPound, 300 * InchPound, true},
		{25 * InchPound, 25 * FootPound, true},
		{27 * InchPound, 300 * InchPound, true}, // 27 said for 27 ft-lb where 25 were expected
		{300 * InchPound, 25 * FootPound, false},
		{450 * InchPound, 300 * InchPound, false},
		{9 * InchPound, 1 * InchPound, true},
		{16 * InchPound, 1 * InchPound, true},
		{17 * InchPound, 1 * InchPound, false},
		{8 * InchPound, 1 * InchPound, false},
		{0, 300, false}, {300, 0, false},
	} {
		if got := TwelveToOne(c.got, c.expected); got != c.want {
			t.Errorf("TwelveToOne(%v in-lb, %v in-lb) = %v", float64(c.got), float64(c.expected), got)
		}
	}
	for _, c := range []struct {
		read            Measured
		expected, slack Volume
		want            bool
	}{
		{Of("14.2", UnitQt), 15 * Quart, 0.5 * Quart, true},
		{Of("15", UnitQt), 15 * Quart, 0.5 * Quart, false},
		{Of("14.6", UnitQt), 15 * Quart, 0.5 * Quart, false}, // within the slack as it is
		{Of("10", UnitQt), 15 * Quart, 0.5 * Quart, false},   // neither
		{Of("14.2", UnitL), 15 * Quart, 0.5 * Quart, false},
		{Of("14.2", UnitIn), 15 * Quart, 0.5 * Quart, false},
	} {
		if got := LitresForQuarts(c.read, c.expected, c.slack); got != c.want {
			t.Errorf("LitresForQuarts(%v, %v qt, %v qt) = %v", c.read, c.expected.Quarts(), c.slack.Quarts(), got)
		}
	}
	for got, want := range map[string]string{
		VolumeDoubt(Whole(15)):                         "Litres or quarts? 15 was typed. 15 litres is 15.9 quarts.",
		VolumeDoubt(MustDecimal("999999999999999999")): "Litres or quarts? 999999999999999999 was typed.",
		TorqueDoubt(Whole(300)):                        "300 of what? Inch pounds or foot pounds. Twelve times apart.",
	} {
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}
