package wear_test

import (
	"math/big"
	"testing"

	"linkrod/radial/quantity"
	"linkrod/radial/wear"
)

// barrel is the readings of an invented cylinder (DEMO) at four stations.
func barrel() wear.Stations {
	return wear.Stations{
		{"top of ring travel", of("5.3835 in"), of("5.3810 in")},
		{"an inch below", of("5.3820 in"), of("5.3805 in")},
		{"", of("5.3790 in"), of("5.3785 in")},
		{"skirt", of("5.3765 in"), of("5.3760 in")},
	}
}

func TestShape(t *testing.T) {
	s := must(barrel().Shape())
	for _, tt := range []struct {
		name string
		got  quantity.Measured
		want string
	}{
		{"out-of-round", s.OutOfRound, "0.0025"},
		{"taper", s.Taper, "0.0060"},               // 5.38225 − 5.37625
		{"cylindricity", s.Cylindricity, "0.0070"}, // along A; along B 0.0050
		{"least", s.Least, "5.3760"},
		{"most", s.Most, "5.3835"},
		{"wear", must(wear.Wear(s.Most, of("5.375 in"))), "0.0085"},
		{"wear below nominal", must(wear.Wear(of("5.3745 in"), of("5.375 in"))), "-0.0005"},
		{"choke", must(wear.Choke(barrel()[0], barrel()[3])), "-0.0060"},
		{"out-of-round, B the larger", must(wear.Station{A: of("5.2490 in"), B: of("5.2515 in")}.OutOfRound()), "0.0025"},
		{"mean", must(barrel()[0].Mean()), "5.38225"},
	} {
		if tt.got.Value.Compare(quantity.MustDecimal(tt.want)) != 0 || tt.got.Unit != quantity.UnitIn {
			t.Errorf("%s: %v, want %s in", tt.name, tt.got, tt.want)
		}
	}
	if s.OutAt != 0 {
		t.Errorf("worst out of round at station %d", s.OutAt)
	}
	// A barrel that bulges in the middle has no taper and is not cylindrical.
	bulge := must(wear.Stations{{"", of("5.000 in"), of("5.000 in")}, {"", of("5.002 in"), of("5.003 in")}, {"", of("5.000 in"), of("5.000 in")}}.Shape())
	if bulge.Taper.Value.Sign() != 0 || bulge.Cylindricity.Value.Compare(quantity.MustDecimal("0.003")) != 0 || bulge.OutAt != 1 {
		t.Errorf("bulge: %+v", bulge)
	}
	// One station says nothing of the length.
	alone := must(wear.Stations{barrel()[1]}.Shape())
	if alone.Taper.Given() || alone.Cylindricity.Given() || alone.OutOfRound.Text() != "0.0015 in" || alone.Most.Text() != "5.3820 in" {
		t.Errorf("alone: %+v", alone)
	}
}

// Readings in inches and in millimetres are one barrel: nothing is rounded between them.
func TestShapeAcrossUnits(t *testing.T) {
	r := random(t)
	for range 2000 {
		var inches, mixed wear.Stations
		reading := func() (quantity.Measured, quantity.Measured) {
			in := quantity.Measured{Value: must(quantity.NewDecimal(int64(50000+r.IntN(40)), 4)), Unit: quantity.UnitIn}
			if r.IntN(2) == 0 {
				return in, in
			}
			return in, must(in.Exactly(quantity.UnitMm))
		}
		for range 3 {
			a, ma := reading()
			b, mb := reading()
			inches = append(inches, wear.Station{A: a, B: b})
			mixed = append(mixed, wear.Station{A: ma, B: mb})
		}
		x, y := must(inches.Shape()), must(mixed.Shape())
		for _, pair := range [][2]quantity.Measured{
			{x.Least, y.Least}, {x.Most, y.Most}, {x.OutOfRound, y.OutOfRound}, {x.Taper, y.Taper}, {x.Cylindricity, y.Cylindricity},
		} {
			if order, err := quantity.Compare(pair[0], pair[1]); err != nil || order != 0 {
				t.Fatalf("%v: %v in inches, %v mixed, %v", inches, pair[0], pair[1], err)
			}
		}
		// The long way, in fractions: mean(top) − mean(bottom).
		top, bottom := inches[0], inches[2]
		want := new(big.Rat).Add(inch(top.A), inch(top.B))
		want.Sub(want, inch(bottom.A)).Sub(want, inch(bottom.B)).Mul(want, big.NewRat(1, 2))
		if inch(x.Taper).Cmp(want) != 0 {
			t.Fatalf("%v: taper %v, want %v", inches, x.Taper, want)
		}
	}
}

func TestStationsThatCannotBe(t *testing.T) {
	good := wear.Station{A: of("5 in"), B: of("5 in")}
	for _, tt := range []struct {
		list         wear.Stations
		field, words string
	}{
		{nil, "stations", "across two axes"},
		{wear.Stations{good, {"skirt", of("5 in"), of("")}}, "skirt, B", "not given"},
		{wear.Stations{good, {"", of("-5 in"), of("5 in")}}, "station 2, A", "more than 0"},
		{wear.Stations{{"", of("0 in"), of("5 in")}}, "station 1, A", "more than 0"},
		{wear.Stations{{"", of("5 in"), of("5 psi")}}, "station 1, B", "must be a length"},
	} {
		wantProblem(t, second(tt.list.Shape()), tt.field, tt.words)
	}
	bad := wear.Station{A: of("5 in")}
	wantProblem(t, second(bad.OutOfRound()), "station, B", "not given")
	wantProblem(t, second(bad.Mean()), "station, B", "not given")
	wantProblem(t, second(wear.Taper(good, bad)), "station, B", "not given")
	wantProblem(t, second(wear.Taper(bad, good)), "station, B", "not given")
	wantProblem(t, second(wear.Wear(of("0 in"), of("5 in"))), "largest reading", "more than 0")
	wantProblem(t, second(wear.Wear(of("5 in"), of(""))), "nominal size", "not given")
	// More figures than a decimal holds are refused, not rounded.
	huge, tiny := of("999999999999999 mm"), of("0.00000000001 in")
	far := wear.Station{A: huge, B: tiny}
	for name, err := range map[string]error{
		"one station": second(wear.Stations{far}.Shape()), "mean": second(far.Mean()),
		"taper":   second(wear.Taper(wear.Station{A: huge, B: huge}, wear.Station{A: tiny, B: tiny})),
		"shape":   second(wear.Stations{{"", huge, huge}, {"", tiny, tiny}}.Shape()),
		"along A": second(wear.Stations{{"", huge, huge}, {"", tiny, tiny}, {"", huge, huge}}.Shape()),
	} {
		t.Log(name)
		wantProblem(t, err, "figures", "digits")
	}
}
