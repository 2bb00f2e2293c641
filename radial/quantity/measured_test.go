package quantity

import (
	"encoding/json"
	"errors"
	"math/big"
	"testing"
)

func TestMeasuredJSON(t *testing.T) {
	for _, wire := range []string{
		`{"v":"15","u":"qt"}`, `{"v":"26.50","u":"qt"}`, `{"v":"-0.003","u":"in"}`, `{"v":"0","u":"h"}`,
		`{"v":"7","u":"firkin"}`, // a unit of a newer program is kept
		`null`,
	} {
		var m Measured
		if err := json.Unmarshal([]byte(wire), &m); err != nil {
			t.Errorf("%s: %v", wire, err)
		}
		if back, err := json.Marshal(m); err != nil || string(back) != wire {
			t.Errorf("%s comes back as %s, %v", wire, back, err)
		}
	}
	for _, wire := range []string{
		`{"u":"qt"}`, `{"v":"15"}`, `{"v":null,"u":"qt"}`, `{"v":"15","u":""}`, `{}`, `{"v":15,"u":"qt"}`, `{"v":"","u":"qt"}`,
		`{"v":"1e3","u":"qt"}`, `{"v":"15 ","u":"qt"}`, `{"v":"NaN","u":"qt"}`, `"15 qt"`, `15`, `[]`,
	} {
		m := Of("3", UnitQt)
		if err := json.Unmarshal([]byte(wire), &m); err == nil {
			t.Errorf("%s is taken as %v", wire, m)
		}
		if m != Of("3", UnitQt) {
			t.Errorf("%s was refused and yet changed the value to %v", wire, m)
		}
	}
	// In a body: absent stays absent.
	type body struct {
		Level Measured `json:"level"`
		Added Measured `json:"added,omitzero"`
	}
	out, err := json.Marshal(body{Level: Of("15.0", UnitQt)})
	if err != nil || string(out) != `{"level":{"v":"15.0","u":"qt"}}` {
		t.Errorf("a body without an add is %s, %v", out, err)
	}
	var in body
	if err := json.Unmarshal(out, &in); err != nil || in.Added.Given() || in.Level.Text() != "15.0 qt" {
		t.Errorf("a body without an add reads as %+v, %v", in, err)
	}
}

func TestCompare(t *testing.T) {
	for _, c := range []struct {
		a, b Measured
		want int
	}{
		{Of("300", UnitInLb), Of("25", UnitFtLb), 0},
		{Of("300.0", UnitInLb), Of("300", UnitInLb), 0},
		{Of("8", UnitThou), Of("0.0080", UnitIn), 0},
		{Of("8", UnitThou), Of("0.2032", UnitMm), 0},
		{Of("8", UnitThou), Of("0.2031", UnitMm), 1},
		{Of("-8", UnitThou), Of("0.2031", UnitMm), -1},
		{Of("1", UnitQt), Of("0.946352946", UnitL), 0},
		{Of("1", UnitQt), Of("0.946352947", UnitL), -1},
		{Of("1", UnitImpGal), Of("4.54609", UnitL), 0},
		{Of("1", UnitInLb), Of("0.1129848290276167", UnitNm), 0},
		{Of("1", UnitHp), Of("745.69987158227022", UnitKW), -1},
		{Of("212", UnitF), Of("100", UnitC), 0},
		{Of("-40", UnitF), Of("-40", UnitC), 0},
		{Of("-459.67", UnitF), Of("-273.15", UnitC), 0},
		{Of("50", UnitDF), Of("10", UnitDC), 1}, // and 50 °F is 10 °C
		{Of("50", UnitF), Of("10", UnitC), 0},
		{Of("90", UnitMin), Of("1.5", UnitH), 0},
		{Of("4", UnitHPerQt), Of("0.25", UnitQtPerH), 0},
		{Of("3", UnitHPerQt), Of("0.333333333333333333", UnitQtPerH), 1},
		{Of("5", UnitHPerQt), Of("4", UnitHPerQt), -1}, // five hours a quart is less oil
		{Of("999999999999999999", UnitKW), Of("999999999999999999", UnitPS), 1},
	} {
		for _, swap := range []bool{false, true} {
			a, b, want := c.a, c.b, c.want
			if swap {
				a, b, want = b, a, -want
			}
			if got, err := Compare(a, b); err != nil || got != want {
				t.Errorf("Compare(%v, %v) = %d, %v, want %d", a, b, got, err, want)
			}
		}
	}
	if _, err := Compare(Of("1", UnitQt), Measured{}); err == nil || err.Error() != "A value is not given." {
		t.Errorf("a quart against nothing: %v", err)
	}
	for _, c := range [][2]Measured{
		{Of("1", UnitQt), Of("1", UnitIn)}, {Of("1", UnitF), Of("1", UnitDF)}, {Of("1", UnitQt), {}}, {{}, Of("1", UnitQt)},
		{Of("1", "firkin"), Of("1", "firkin")}, {Of("0", UnitHPerQt), Of("1", UnitQtPerH)}, {Of("1", UnitLb), Of("1", UnitLbf)},
	} {
		if got, err := Compare(c[0], c[1]); err == nil {
			t.Errorf("Compare(%v, %v) = %d, want a refusal", c[0], c[1], got)
		}
	}
}

func TestExactly(t *testing.T) {
	for _, c := range []struct {
		m    Measured
		to   Unit
		want string
	}{
		{Of("1", UnitQt), UnitCuIn, "57.75"},
		{Of("26.50", UnitQt), UnitQt, "26.50"},
		{Of("1.5", UnitQt), UnitFlOz, "48"},
		{Of("8", UnitThou), UnitMm, "0.2032"},
		{Of("5", UnitTenth), UnitThou, "0.5"},
		{Of("1", UnitImpQt), UnitL, "1.1365225"},
		{Of("104", UnitF), UnitC, "40"},
		{Of("-40", UnitC), UnitF, "-40"},
		{Of("4", UnitHPerQt), UnitQtPerH, "0.25"},
		{Of("0.25", UnitQtPerH), UnitHPerQt, "4"},
		{Of("1", UnitInHg), UnitPa, "3386.389"},
		{Of("1", UnitHp), UnitKW, "0.74569987158227022"},
	} {
		if got, err := c.m.Exactly(c.to); err != nil || got.Value.Text() != c.want || got.Unit != c.to {
			t.Errorf("%v is %v, %v, want %s %s", c.m, got, err, c.want, c.to)
		}
	}
	for _, c := range []struct {
		m        Measured
		to       Unit
		why      Why
		sentence string
	}{
		{Of("1", UnitL), UnitQt, WhyNoEnd, "1\u2009L does not come out even in quarts."},
		{Of("60", UnitF), UnitC, WhyNoEnd, "60\u2009°F does not come out even in degrees Celsius."},
		{Of("999999999999999999", UnitGal), UnitFlOz, WhyNoEnd, "999999999999999999\u2009gal does not come out even in fluid ounces."},
		{Of("1", UnitQt), UnitIn, WhyOtherKind, "1\u2009qt is a volume, and inches measure something else."},
		{Of("0", UnitQtPerH), UnitHPerQt, WhyRange, "No oil is used, so there are no hours to a quart."},
		{Of("0", UnitHPerQt), UnitQtPerH, WhyRange, "Nought hours a quart is no rate. Oil that is not used is nought quarts an hour."},
		{Of("1", "firkin"), UnitQt, WhyUnit, "“firkin” is not a unit this Linkrod knows."},
		{Of("1", UnitQt), "firkin", WhyOtherKind, "1\u2009qt is a volume, and firkin measure something else."},
	} {
		_, err := c.m.Exactly(c.to)
		var r *Refusal
		if !errors.As(err, &r) || r.Why != c.why || r.Sentence != c.sentence {
			t.Errorf("%v in %s: %v, want %s: %s", c.m, c.to, err, c.why, c.sentence)
		}
	}
	for _, c := range []struct {
		m  Measured
		to Unit
	}{{Of("1", UnitQt), UnitIn}, {Of("999999999999999999", UnitGal), UnitFlOz}} {
		if r, _, err := c.m.Rounded(c.to, 0); err == nil {
			t.Errorf("%v rounds to %v", c.m, r)
		}
	}
}

func TestAdd(t *testing.T) {
	sum, err := Add(Of("15.0", UnitQt), Of("8", UnitFlOz))
	if err != nil || sum.Text() != "15.25 qt" {
		t.Errorf("15.0 qt and 8 fl oz are %v, %v", sum, err)
	}
	for _, c := range [][2]Measured{
		{Of("15", UnitQt), Of("1", UnitL)}, // never ends
		{Of("15", UnitQt), Of("1", UnitIn)}, {Of("150", UnitF), Of("10", UnitF)}, {Of("4", UnitHPerQt), Of("4", UnitHPerQt)},
		{Of("999999999999999999", UnitQt), Of("1", UnitQt)},
	} {
		if sum, err := Add(c[0], c[1]); err == nil {
			t.Errorf("Add(%v, %v) = %v, want a refusal", c[0], c[1], sum)
		}
	}
}

// TestUnitsAgainstBig: on random values in random units, comparing, converting
// exactly and rounding agree with math/big from the definitions; what converts
// exactly comes back to the same value, digit by digit.
func TestUnitsAgainstBig(t *testing.T) {
	r := random(t)
	there := 0
	for range 10000 {
		u := units[r.Intn(len(units))]
		list := u.dim.Units()
		m := Measured{randomDecimal(r, 12), u.unit}
		if u.inverse && m.Value.Sign() == 0 {
			continue
		}
		to := list[r.Intn(len(list))]
		want := exactIn(m, to)
		if want == nil {
			continue
		}
		other := Measured{randomDecimal(r, 12), to}
		if f, _ := to.facts(); !f.inverse && !u.inverse {
			if got, err := Compare(m, other); err != nil || got != want.Cmp(rat(other.Value.Text())) {
				t.Fatalf("Compare(%v, %v) = %d, %v", m, other, got, err)
			}
		}
		exact, err := m.Exactly(to)
		if ends := endsWithin(want); ends != (err == nil) {
			t.Fatalf("%v in %s is %v: %v, %v", m, to, want, exact, err)
		}
		if err == nil {
			there++
			if rat(exact.Value.Text()).Cmp(want) != 0 {
				t.Fatalf("%v is %v, want %v", m, exact, want.FloatString(18))
			}
			if back, err := exact.Exactly(m.Unit); err != nil || back.Value.Shortest() != m.Value.Shortest() {
				t.Fatalf("%v is %v and back is %v, %v", m, exact, back, err)
			}
			if c, err := Compare(m, exact); err != nil || c != 0 {
				t.Fatalf("%v is exactly %v and compares as %d, %v", m, exact, c, err)
			}
		}
		places := r.Intn(5)
		rounded, isExact, err := m.Rounded(to, places)
		if err != nil {
			continue
		}
		if rounded.Value.Text() != halfAway(want, places) || isExact != (rat(rounded.Value.Text()).Cmp(want) == 0) {
			t.Fatalf("%v rounds to %v (exact: %v), want %s", m, rounded, isExact, want.FloatString(places))
		}
	}
	if there < 2500 {
		t.Errorf("only %d conversions came out even; the test has lost its subject", there)
	}
}

// endsWithin reports that x is a decimal of at most eighteen digits.
func endsWithin(x *big.Rat) bool {
	for places := range maxDigits + 1 {
		if s := mul(x, rat("1e"+digits(places))); s.IsInt() {
			return len(new(big.Int).Abs(s.Num()).String()) <= maxDigits
		}
	}
	return false
}
