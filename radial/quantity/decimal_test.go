package quantity

import (
	"math"
	"math/big"
	"testing"
)

func TestDecimalText(t *testing.T) {
	for _, c := range []struct{ in, text, show string }{
		{"0", "0", "0"},
		{"15", "15", "15"},
		{"26.5", "26.5", "26.5"},
		{"26.50", "26.50", "26.50"},
		{".008", "0.008", "0.008"},
		{"+1", "1", "1"},
		{"-0.003", "-0.003", "−0.003"},
		{"-0", "0", "0"},
		{"0541.6", "541.6", "541.6"},
		{"999999999999999999", "999999999999999999", "999999999999999999"},
		{"0.000000000000000001", "0.000000000000000001", "0.000000000000000001"},
	} {
		d, err := ParseDecimal(c.in)
		if err != nil || d.Text() != c.text || d.Show() != c.show || d.String() != c.text {
			t.Errorf("ParseDecimal(%q) = %q %q, %v, want %q", c.in, d.Text(), d.Show(), err, c.text)
		}
	}
	for _, in := range []string{"", "-", "+", ".", "1.", "1,5", "1.2.3", "1e3", "NaN", "Inf", " 1", "1 ", "--1", "+-1", "0x10", "1_000", "½", "١",
		"1234567890123456789", "0.1234567890123456789"} {
		if d, err := ParseDecimal(in); err == nil {
			t.Errorf("ParseDecimal(%q) = %v, want a refusal", in, d)
		}
	}
}

func TestDecimalKeepsItsPlaces(t *testing.T) {
	a, b := MustDecimal("26.5"), MustDecimal("26.50")
	if a == b || a.Text() == b.Text() || a.Compare(b) != 0 || b.Shortest() != a || b.Places() != 2 {
		t.Errorf("26.5 and 26.50 have to be equal and not the same: %v %v", a, b)
	}
	if !MustDecimal("13.00").IsWhole() || MustDecimal("13.01").IsWhole() {
		t.Error("13.00 is whole and 13.01 is not")
	}
}

func TestDecimalRound(t *testing.T) {
	for _, c := range []struct {
		in     string
		places int
		want   string
	}{
		{"0.2032", 2, "0.20"}, {"0.205", 2, "0.21"}, {"-0.205", 2, "-0.21"}, {"0.2049", 2, "0.20"},
		{"9.95", 1, "10.0"}, {"5", 3, "5"}, {"0.004", 2, "0.00"}, {"2.5", 0, "3"}, {"2.5", -4, "3"},
	} {
		if got := MustDecimal(c.in).Round(c.places); got.Text() != c.want {
			t.Errorf("%s.Round(%d) = %v, want %s", c.in, c.places, got, c.want)
		}
	}
}

func TestDecimalLimits(t *testing.T) {
	most := MustDecimal("999999999999999999")
	for name, err := range map[string]error{
		"most + 1":       second(most.Add(Whole(1))),
		"-most - 1":      second(most.Neg().Sub(Whole(1))),
		"most × 2":       second(most.Mul(Whole(2))),
		"1e-10 × 1e-10":  second(MustDecimal("0.0000000001").Mul(MustDecimal("0.0000000001"))),
		"most + 0.1":     second(most.Add(MustDecimal("0.1"))),
		"19 figures":     second(NewDecimal(1_000_000_000_000_000_000, 0)),
		"the least":      second(NewDecimal(math.MinInt64, 0)),
		"19 places":      second(NewDecimal(1, 19)),
		"-1 places":      second(NewDecimal(1, -1)),
		"NaN":            second(DecimalOf(math.NaN(), 2)),
		"+Inf":           second(DecimalOf(math.Inf(1), 2)),
		"1e300":          second(DecimalOf(1e300, 2)),
		"an empty value": second(ParseDecimal("")),
	} {
		if err == nil {
			t.Errorf("%s is taken", name)
		}
	}
	if sum, err := most.Sub(Whole(1)); err != nil || sum.Text() != "999999999999999998" {
		t.Errorf("most − 1 = %v, %v", sum, err)
	}
	if got := Whole(math.MaxInt); got != most {
		t.Errorf("Whole(MaxInt) = %v", got)
	}
	if got := Whole(math.MinInt); got != most.Neg() {
		t.Errorf("Whole(MinInt) = %v", got)
	}
	if d, err := NewDecimal(1, 18); err != nil || d.Text() != "0.000000000000000001" {
		t.Errorf("the least decimal is %v, %v", d, err)
	}
	defer func() {
		if recover() == nil {
			t.Error("MustDecimal takes twelve")
		}
	}()
	MustDecimal("twelve")
}

func TestDecimalOf(t *testing.T) {
	for _, c := range []struct {
		v      float64
		places int
		want   string
	}{
		{0.4312, 2, "0.43"}, {2.675, 2, "2.68"}, {-0.001, 2, "0.00"}, {1e-300, 3, "0.000"}, {100, 2, "100"},
		{123456789012.3456789, 2, "123456789012.35"}, {1e17, 1, "100000000000000000"}, {123456789012345678, 1, "123456789012345680"},
	} {
		if got, err := DecimalOf(c.v, c.places); err != nil || got.Text() != c.want {
			t.Errorf("DecimalOf(%v, %d) = %v, %v, want %s", c.v, c.places, got, err, c.want)
		}
	}
}

// TestDecimalAgainstBig checks every operation on random numbers against
// math/big, and that all of them come back from their text.
func TestDecimalAgainstBig(t *testing.T) {
	r := random(t)
	for range 10000 {
		a, b := randomDecimal(r, 17), randomDecimal(r, 17)
		x, y := rat(a.Text()), rat(b.Text())
		if back, err := ParseDecimal(a.Text()); err != nil || back != a {
			t.Fatalf("%v comes back as %v, %v", a, back, err)
		}
		if got, want := a.Compare(b), x.Cmp(y); got != want {
			t.Fatalf("%v.Compare(%v) = %d, want %d", a, b, got, want)
		}
		check := func(op string, got Decimal, err error, want *big.Rat, places int) {
			fits := len(new(big.Int).Abs(mul(want, rat("1e"+digits(places))).Num()).String()) <= maxDigits && places <= maxDigits
			if fits != (err == nil) {
				t.Fatalf("%v %s %v: %v, want it taken: %v", a, op, b, err, fits)
			}
			if err == nil && (rat(got.Text()).Cmp(want) != 0 || got.Places() != places) {
				t.Fatalf("%v %s %v = %v, want %v", a, op, b, got, want.FloatString(places))
			}
		}
		finer := max(a.Places(), b.Places())
		sum, err := a.Add(b)
		check("+", sum, err, new(big.Rat).Add(x, y), finer)
		diff, err := a.Sub(b)
		check("−", diff, err, new(big.Rat).Sub(x, y), finer)
		product, err := a.Mul(b)
		check("×", product, err, mul(x, y), a.Places()+b.Places())
		if want, _ := x.Float64(); a.Float64() != want {
			t.Fatalf("%v.Float64() = %v, want %v", a, a.Float64(), want)
		}
		places := r.Intn(18)
		if got := a.Round(places); got.Places() <= a.Places() && a.Places() > places && got.Text() != halfAway(x, places) {
			t.Fatalf("%v.Round(%d) = %v, want %s", a, places, got, halfAway(x, places))
		}
	}
}

// halfAway is x rounded by math/big, which rounds half away from zero too.
func halfAway(x *big.Rat, places int) string {
	s := x.FloatString(places)
	if d := MustDecimal(s); d.Sign() == 0 {
		return d.Text() // big says -0.00
	}
	return s
}
