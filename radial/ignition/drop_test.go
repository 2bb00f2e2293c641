package ignition_test

import (
	"testing"

	"linkrod/radial/ignition"
	"linkrod/radial/quantity"
)

// rpm is a speed, "" not given.
func rpm(text string) quantity.Measured {
	if text == "" {
		return quantity.Measured{}
	}
	return quantity.Of(text, quantity.UnitRpm)
}

func rpms(texts ...string) []quantity.Measured {
	var list []quantity.Measured
	for _, s := range texts {
		list = append(list, rpm(s))
	}
	return list
}

func runUp(both, left, right string) ignition.RunUp {
	return ignition.RunUp{Both: rpm(both), Left: rpm(left), Right: rpm(right)}
}

// The demo's card: 75 rpm on one, 40 between the two. DEMO.
var card = ignition.DropLimits{Most: rpm("75"), Apart: rpm("40")}

func TestDropAgainstItsLimit(t *testing.T) {
	for _, tt := range []struct {
		left    string
		drop    string
		meaning ignition.Meaning
		verdict ignition.Verdict
	}{
		{"1650", "50", ignition.Dropped, ignition.Inside},
		{"1628.8", "71.2", ignition.Dropped, ignition.Inside},
		{"1628.75", "71.25", ignition.Dropped, ignition.AtEdge}, // 19/20 of 75
		{"1625", "75", ignition.Dropped, ignition.AtEdge},       // the limit itself passes
		{"1624.9", "75.1", ignition.Dropped, ignition.Outside},
		{"1699.9", "0.1", ignition.Dropped, ignition.Inside},
		{"1700", "0", ignition.NoDrop, ignition.CantJudge},
		{"1700.0", "0.0", ignition.NoDrop, ignition.CantJudge},
		{"1710", "-10", ignition.NoDrop, ignition.CantJudge},
		{"0", "1700", ignition.CutOut, ignition.CantJudge},
	} {
		c, err := runUp("1700", tt.left, "1660").Judge(card, ignition.Earlier{})
		if err != nil || c.Left.Drop != rpm(tt.drop) || c.Left.Meaning != tt.meaning || c.Left.Verdict != tt.verdict {
			t.Errorf("left %s: %+v, %v", tt.left, c.Left, err)
		}
		if c.Right.Drop != rpm("40") || c.Right.Verdict != ignition.Inside || c.Right.Limit != card.Most || c.Right.Usual.Given() || c.Right.More.Given() || c.Right.Of != 0 {
			t.Errorf("right %+v", c.Right)
		}
		if both := tt.meaning == ignition.Dropped; c.Apart.Given() != both || !both && c.Verdict != ignition.CantJudge {
			t.Errorf("left %s: apart %v, %v", tt.left, c.Apart, c.Verdict)
		}
	}
	// The same with the sides changed.
	c := must(runUp("1700", "1660", "1710").Judge(card, ignition.Earlier{}))
	if c.Right.Meaning != ignition.NoDrop || c.Left.Meaning != ignition.Dropped || c.Apart.Given() {
		t.Errorf("right rises: %+v", c)
	}
	// No limit on file is said, and is never a pass.
	c = must(runUp("1700", "1690", "1660").Judge(ignition.DropLimits{}, ignition.Earlier{}))
	if c.Left.Verdict != ignition.NoLimit || c.Right.Verdict != ignition.NoLimit || c.Verdict != ignition.NoLimit || c.Apart != rpm("30") {
		t.Errorf("no limits: %+v", c)
	}
}

func TestDropsApart(t *testing.T) {
	for _, tt := range []struct {
		right, apart string
		want         ignition.Verdict
	}{
		{"1640", "10", ignition.Inside},
		{"1612.1", "37.9", ignition.Inside},
		{"1612", "38", ignition.AtEdge},
		{"1610", "40", ignition.AtEdge},
		{"1609", "41", ignition.Outside},
		{"1690", "40", ignition.AtEdge},
		{"1691", "41", ignition.Outside},
	} {
		c := must(runUp("1700", "1650", tt.right).Judge(card, ignition.Earlier{}))
		if c.Apart != rpm(tt.apart) || c.Verdict != tt.want {
			t.Errorf("right %s: %v apart, %v", tt.right, c.Apart, c.Verdict)
		}
	}
}

// Each side against its own earlier drops, and never against the other side.
func TestDropAgainstItsUsual(t *testing.T) {
	for _, tt := range []struct {
		earlier     []quantity.Measured
		usual, more string
	}{
		{rpms("60"), "60", "35"},
		{rpms("60", "50"), "55", "40"},
		{rpms("60", "55"), "57.5", "37.5"},
		{rpms("40", "200", "60"), "60", "35"}, // one bad morning does not move it
		{rpms("100", "90", "95"), "95", "0"},
		{rpms("-5", "0", "120", "121"), "60", "35"},
		{nil, "", ""},
	} {
		c := must(runUp("1700", "1605", "1660").Judge(card, ignition.Earlier{Left: tt.earlier, Right: rpms("38", "40")}))
		if c.Left.Usual != rpm(tt.usual) || c.Left.More != rpm(tt.more) || c.Left.Of != len(tt.earlier) {
			t.Errorf("%v: %+v", tt.earlier, c.Left)
		}
		if c.Right.Usual != rpm("39") || c.Right.More != rpm("1") || c.Right.Of != 2 {
			t.Errorf("right: %+v", c.Right)
		}
	}
	list := rpms("60", "40", "50")
	_ = must(runUp("1700", "1605", "1660").Judge(card, ignition.Earlier{Left: list}))
	if list[0] != rpm("60") {
		t.Error("the earlier drops were sorted in place")
	}
}

func TestDropWords(t *testing.T) {
	for _, tt := range []struct {
		r    ignition.RunUp
		l    ignition.DropLimits
		e    ignition.Earlier
		want string
	}{
		// E1 in the demo, before its points were set: 95 slow on the left, 40 on the right.
		{runUp("1700", "1605", "1660"), card, ignition.Earlier{Left: rpms("60"), Right: rpms("40")},
			"The left alone drops 95 rpm, over the 75 rpm of its card; that is 35 rpm more than its usual 60 rpm. The right alone drops 40 rpm, inside the 75 rpm of its card; that is its usual. The two are 55 rpm apart, over the 40 rpm of its card."},
		{runUp("1700", "1700", "1660"), card, ignition.Earlier{},
			"No drop on the left alone: the right was not cut off. Take it for live, switch off or not: keep clear of the propeller until its ground lead and the switch have been looked at. The right alone drops 40 rpm, inside the 75 rpm of its card."},
		{runUp("1700", "1660", "1710"), ignition.DropLimits{}, ignition.Earlier{Left: rpms("50")},
			"A rise of 10 rpm on the right alone: the left was not cut off. Take it for live, switch off or not: keep clear of the propeller until its ground lead and the switch have been looked at. The left alone drops 40 rpm, no limit on file; that is 10 rpm less than its usual 50 rpm."},
		{runUp("1700", "0", "1627"), card, ignition.Earlier{},
			"On the left alone the engine cut out: that side does not fire. The right alone drops 73 rpm, at the edge of the 75 rpm of its card."},
	} {
		if got := plain(must(tt.r.Judge(tt.l, tt.e)).Words()); got != tt.want {
			t.Errorf("got  %s\nwant %s", got, tt.want)
		}
	}
	if ignition.Fast.Words() == ignition.Slow.Words() || ignition.NotNoted.Words() != "How it fell was not noted." {
		t.Error("words of the manners")
	}
}

func TestRunUpRefuses(t *testing.T) {
	psi := quantity.Of("40", quantity.UnitPsi)
	good := runUp("1700", "1650", "1660")
	for _, tt := range []struct {
		r           ignition.RunUp
		l           ignition.DropLimits
		e           ignition.Earlier
		field, part string
	}{
		{runUp("", "1650", "1660"), card, ignition.Earlier{}, "both", "not given"},
		{runUp("1700", "", "1660"), card, ignition.Earlier{}, "left", "not given"},
		{runUp("1700", "1650", ""), card, ignition.Earlier{}, "right", "not given"},
		{runUp("0", "0", "0"), card, ignition.Earlier{}, "both", "must be running"},
		{runUp("1700", "-1", "0"), card, ignition.Earlier{}, "left", "0 or more"},
		{runUp("1700", "1650", "100001"), card, ignition.Earlier{}, "right", "No tachometer"},
		{runUp("1700", "1650.1234567", "1660"), card, ignition.Earlier{}, "left", "No tachometer"},
		{ignition.RunUp{Both: psi, Left: psi, Right: psi}, card, ignition.Earlier{}, "both", "takes rpm"},
		{good, ignition.DropLimits{Most: psi}, ignition.Earlier{}, "most", "takes rpm"},
		{good, ignition.DropLimits{Apart: rpm("-1")}, ignition.Earlier{}, "apart", "0 or more"},
		{good, card, ignition.Earlier{Left: []quantity.Measured{psi}}, "earlier left", "takes rpm"},
		{good, card, ignition.Earlier{Right: []quantity.Measured{{}}}, "earlier right", "takes rpm"},
	} {
		wantProblem(t, second(tt.r.Judge(tt.l, tt.e)), tt.field, tt.part)
	}
	if _, err := runUp("100000", "99999.999999", "0").Judge(card, ignition.Earlier{Left: rpms("-100000")}); err != nil {
		t.Errorf("the most that is taken: %v", err)
	}
}
