package torque_test

import (
	"testing"

	"linkrod/radial/quantity"
	"linkrod/radial/torque"
)

func TestFinal(t *testing.T) {
	for _, tt := range []struct {
		wanted torque.Range
		drag   quantity.Torque
		rule   torque.DragRule
		want   torque.Range
	}{
		{torque.Range{160, 190}, 12, torque.AddAlways, torque.Range{172, 202}},
		{torque.Range{160, 190}, 0, torque.AddAlways, torque.Range{160, 190}},
		{torque.Range{50, 70}, 30, torque.AddFromThird, torque.Range{80, 100}}, // TB 43-0218 7c
		{torque.Range{50, 70}, 16, torque.AddFromThird, torque.Range{50, 70}},
		{torque.Only(60), 20, torque.AddFromThird, torque.Only(80)}, // a third itself is added
		{torque.Only(60), 19.99, torque.AddFromThird, torque.Only(60)},
		{torque.Only(5 * ftLb), 20, torque.AddFromThird, torque.Only(80)},
		{torque.Only(60), 0, torque.AddFromThird, torque.Only(60)},
	} {
		if got := must(torque.Final(tt.wanted, tt.drag, tt.rule)); got != tt.want {
			t.Errorf("%v, drag %v, rule %d: %v, want %v", tt.wanted, tt.drag, tt.rule, got, tt.want)
		}
	}
	good := torque.Range{50, 70}
	for _, tt := range []struct {
		err          error
		field, words string
	}{
		{second(torque.Final(good, 20, torque.AddFromThird)), "drag", "say which torque"},
		{second(torque.Final(good, -1, torque.AddAlways)), "drag", "runs down freely"},
		{second(torque.Final(good, quantity.Torque(nan), torque.AddAlways)), "drag", "no number"},
		{second(torque.Final(good, quantity.Torque(inf), torque.AddAlways)), "drag", "must be 0"},
		{second(torque.Final(good, 5, 0)), "drag rule", "sheet has to say"},
		{second(torque.Final(torque.Range{70, 50}, 5, torque.AddAlways)), "minimum", "other way round"},
		{second(torque.Final(torque.Range{0, 50}, 5, torque.AddAlways)), "minimum", "above 0"},
		{second(torque.Final(torque.Range{10, quantity.Torque(inf)}, 5, torque.AddAlways)), "maximum", "above 0"},
	} {
		wantProblem(t, tt.err, tt.field, tt.words)
	}
}

func TestRange(t *testing.T) {
	r := torque.Range{420, 450}
	if !r.Holds(420) || !r.Holds(450) || r.Holds(419.999) || r.Holds(450.001) || r.Middle() != 435 {
		t.Errorf("%v: what it holds, middle %v", r, r.Middle())
	}
	if got := r.String(); got != "420 to 450 inch pounds, 35 to 37.5 foot pounds" {
		t.Error(got)
	}
	if got := torque.Only(300).String(); !says(got, "300 inch pounds, 25 foot pounds") {
		t.Error(got)
	}
	if got := must(torque.Final(torque.Range{160, 190}, 12, torque.AddAlways)).SayCastle(); !says(got, "Start at 172 inch pounds") || !says(got, "never past 202 inch pounds") {
		t.Error(got)
	}
}

func TestLess(t *testing.T) {
	for _, tt := range []struct{ t, percent, want float64 }{{420, 10, 378}, {420, 0, 420}, {100, 99.5, 0.5}} {
		if got := must(torque.Less(quantity.Torque(tt.t), tt.percent)); !near(got.InchPounds(), tt.want, 1e-12*tt.t) {
			t.Errorf("%v less %v %%: %v, want %v", tt.t, tt.percent, got, tt.want)
		}
	}
	for _, bad := range []float64{-1, 100, nan} {
		wantProblem(t, second(torque.Less(420, bad)), "per cent", "from 0 to under 100")
	}
	wantProblem(t, second(torque.Less(-420, 10)), "torque", "above 0")
}

func TestTwelveToOne(t *testing.T) {
	sheet := torque.Range{420, 450}
	for _, tt := range []struct {
		typed, unit, instead string
	}{
		{"36", "in_lb", "36 ft-lb"},
		{"36.0", "in_lb", "36.0 ft-lb"},
		{"435", "ft_lb", "435 in-lb"},
		{"36", "ft_lb", ""},   // 432
		{"420", "in_lb", ""},  // on the sheet
		{"35", "ft_lb", ""},   // on the sheet, its minimum
		{"450", "in_lb", ""},  // its maximum
		{"300", "in_lb", ""},  // wrong, but not by a unit
		{"5000", "in_lb", ""}, // twelve times too much, and foot pounds would be worse
		{"3", "ft_lb", ""},    // a twelfth, and inch pounds would be worse
		{"4.1", "Nm", ""},     // a twelfth, and nobody takes newton metres for inch pounds
		{"30", "in_lb", "30 ft-lb"},
		{"20", "in_lb", ""}, // too far even so
	} {
		d, asked, err := torque.TwelveToOne(quantity.Of(tt.typed, quantity.Unit(tt.unit)), sheet)
		if err != nil || asked != (tt.instead != "") || d.Instead.Text() != tt.instead {
			t.Errorf("%s %s: %+v %v %v, want %q", tt.typed, tt.unit, d, asked, err, tt.instead)
		}
		if asked && !says(d.Sentence, "420 to 450 inch pounds") {
			t.Error(d.Sentence)
		}
	}
	if _, _, err := torque.TwelveToOne(quantity.Of("36", quantity.UnitPsi), sheet); err == nil {
		t.Error("a pressure was taken for a torque")
	}
	_, _, err := torque.TwelveToOne(quantity.Of("36", quantity.UnitInLb), torque.Range{})
	wantProblem(t, err, "minimum", "above 0")
}
