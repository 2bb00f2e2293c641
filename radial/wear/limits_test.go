package wear_test

import (
	"math/big"
	"testing"

	"linkrod/radial/quantity"
	"linkrod/radial/wear"
)

// The tables below are those of an invented engine (DEMO).
func TestJudge(t *testing.T) {
	for _, tt := range []struct {
		limits, reading string
		want            wear.Verdict
		left            string // thou
	}{
		// Bore over nominal, 0 / 1.5 / 9: the edge begins at 1.5 + 0.9 × 7.5 = 8.25.
		{"0 / 1.5 / 9", "0 thou", wear.New, "9"},
		{"0 / 1.5 / 9", "1.5 thou", wear.New, "7.5"},
		{"0 / 1.5 / 9", "1.50001 thou", wear.Serviceable, "7.49999"},
		{"0 / 1.5 / 9", "8.2499 thou", wear.Serviceable, "0.7501"},
		{"0 / 1.5 / 9", "8.25 thou", wear.AtEdge, "0.75"},
		{"0 / 1.5 / 9", "8.5 thou", wear.AtEdge, "0.5"},
		{"0 / 1.5 / 9", "9 thou", wear.AtEdge, "0"},
		{"0 / 1.5 / 9", "9.0 thou", wear.AtEdge, "0.0"},
		{"0 / 1.5 / 9", "9.000001 thou", wear.Reject, "-0.000001"},
		{"0 / 1.5 / 9", "-0.1 thou", wear.Reject, "9.1"},
		// The same across units, exactly: 0.2286 mm is 9 thou.
		{"0 / 1.5 / 9", "0.2286 mm", wear.AtEdge, ""},
		{"0 / 1.5 / 9", "0.22860001 mm", wear.Reject, ""},
		{"0 / 1.5 / 9", "0.009 in", wear.AtEdge, "0"},
		{"0 / 1.5 / 9", "90 tenth", wear.AtEdge, ""},
		{"0 / 1.5 / 9", "91 tenth", wear.Reject, ""},
		// An interference: minus is tight. Edge from 0.3 + 0.9 × 2.2 = 2.28.
		{"-0.5 / 0.3 / 2.5", "-0.5 thou", wear.New, "3.0"},
		{"-0.5 / 0.3 / 2.5", "-0.51 thou", wear.Reject, "3.01"},
		{"-0.5 / 0.3 / 2.5", "0 thou", wear.New, "2.5"},
		{"-0.5 / 0.3 / 2.5", "0.31 thou", wear.Serviceable, "2.19"},
		{"-0.5 / 0.3 / 2.5", "2.27 thou", wear.Serviceable, "0.23"},
		{"-0.5 / 0.3 / 2.5", "2.28 thou", wear.AtEdge, "0.22"},
		{"-3 / -2 / -1", "-1 thou", wear.AtEdge, "0"},
		{"-3 / -2 / -1", "-1.1 thou", wear.AtEdge, "0.1"},
		{"-3 / -2 / -1", "-1.11 thou", wear.Serviceable, "0.11"},
		{"-3 / -2 / -1", "-0.9 thou", wear.Reject, "-0.1"},
		// Choke 3 / 5, not under 0: wear takes it away. The edge begins at 0.3.
		{"3 / 5 / 0", "3 thou", wear.New, "3"},
		{"3 / 5 / 0", "5 thou", wear.New, "5"},
		{"3 / 5 / 0", "5.1 thou", wear.Reject, "5.1"},
		{"3 / 5 / 0", "2.9 thou", wear.Serviceable, "2.9"},
		{"3 / 5 / 0", "0.31 thou", wear.Serviceable, "0.31"},
		{"3 / 5 / 0", "0.3 thou", wear.AtEdge, "0.3"},
		{"3 / 5 / 0", "0 thou", wear.AtEdge, "0"},
		{"3 / 5 / 0", "-0.1 thou", wear.Reject, "-0.1"},
		// No room between new and worn: the limit itself is the edge.
		{"0 / 2 / 2", "2 thou", wear.AtEdge, "0"},
		{"0 / 2 / 2", "1.9 thou", wear.New, "0.1"},
		{"2 / 5 / 2", "2 thou", wear.AtEdge, "0"},
		// Gaps in the table.
		{"- / 1.5 / 9", "-4 thou", wear.New, "13"},
		{"- / 1.5 / 9", "2 thou", wear.Serviceable, "7"},
		{"3 / - / 0", "40 thou", wear.New, "40"},
		{"3 / - / 0", "0.2 thou", wear.AtEdge, "0.2"},
		{"49.5 / 53.5 / -", "49.5 thou", wear.New, ""},
		{"49.5 / 53.5 / -", "53.5 thou", wear.New, ""},
		{"49.5 / 53.5 / -", "53.6 thou", wear.NoLimit, ""},
		{"49.5 / 53.5 / -", "49.4 thou", wear.NoLimit, ""},
		{"- / 53.5 / -", "50 thou", wear.NoLimit, ""},
		{"49.5 / - / -", "50 thou", wear.NoLimit, ""},
		{"- / - / -", "50 thou", wear.NoLimit, ""},
	} {
		f, err := three(tt.limits).Judge(of(tt.reading))
		if err != nil || f.Verdict != tt.want {
			t.Errorf("%s of %s: %v %v, want %v", tt.reading, tt.limits, f.Verdict, err, tt.want)
		}
		if tt.left != "" {
			left := must(f.Left.Exactly(quantity.UnitThou))
			if left.Value.Compare(quantity.MustDecimal(tt.left)) != 0 {
				t.Errorf("%s of %s: %v left, want %s", tt.reading, tt.limits, f.Left, tt.left)
			}
		}
		if f.Unworn != (tt.want == wear.Reject && f.Left.Value.Sign() > 0) {
			t.Errorf("%s of %s: unworn %v, left %v", tt.reading, tt.limits, f.Unworn, f.Left)
		}
	}
}

func TestSingleLimits(t *testing.T) {
	for _, tt := range []struct {
		sense          wear.Sense
		limit, reading string
		want           wear.Verdict
	}{
		// A maximum of 10: the last twentieth begins at 9.5.
		{wear.Grows, "10 thou", "9.49 thou", wear.Serviceable},
		{wear.Grows, "10 thou", "9.5 thou", wear.AtEdge},
		{wear.Grows, "10 thou", "10 thou", wear.AtEdge},
		{wear.Grows, "10 thou", "10.01 thou", wear.Reject},
		{wear.Grows, "10 thou", "-400 thou", wear.Serviceable},
		// A minimum of 60 lb: the last twentieth ends at 63.
		{wear.Shrinks, "60 lbf", "63.1 lbf", wear.Serviceable},
		{wear.Shrinks, "60 lbf", "63 lbf", wear.AtEdge},
		{wear.Shrinks, "60 lbf", "60 lbf", wear.AtEdge},
		{wear.Shrinks, "60 lbf", "59.9 lbf", wear.Reject},
		// Below nothing the twentieth is still on the near side.
		{wear.Grows, "-1 thou", "-1.05 thou", wear.AtEdge},
		{wear.Grows, "-1 thou", "-1.06 thou", wear.Serviceable},
		{wear.Shrinks, "-1 thou", "-0.95 thou", wear.AtEdge},
		{wear.Shrinks, "-1 thou", "-0.94 thou", wear.Serviceable},
		{wear.Grows, "0 thou", "0 thou", wear.AtEdge},
		{wear.Grows, "0 thou", "-0.001 thou", wear.Serviceable},
	} {
		l := wear.Limits{Wear: of(tt.limit), Sense: tt.sense}
		if f := must(l.Judge(of(tt.reading))); f.Verdict != tt.want {
			t.Errorf("%s against %s (%d): %v, want %v", tt.reading, tt.limit, tt.sense, f.Verdict, tt.want)
		}
	}
}

func TestEdgeOfACard(t *testing.T) {
	l := three("0 / 1 / 5")
	for _, tt := range []struct{ edge, from string }{{"0", "4.6"}, {"0.1", "4.6"}, {"0.25", "4"}, {"1", "1"}} {
		l.Edge = quantity.MustDecimal(tt.edge)
		if got := must(l.EdgeFrom()); got.Value.Compare(quantity.MustDecimal(tt.from)) != 0 {
			t.Errorf("edge %s: from %v, want %s", tt.edge, got, tt.from)
		}
	}
	l.Edge = quantity.MustDecimal("0.5")
	for reading, want := range map[string]wear.Verdict{"2.9 thou": wear.Serviceable, "3 thou": wear.AtEdge} {
		if f := must(l.Judge(of(reading))); f.Verdict != want {
			t.Errorf("%s with half the room for an edge: %v", reading, f.Verdict)
		}
	}
	if got := must(three("0 / 1 / -").EdgeFrom()); got.Given() {
		t.Errorf("an edge without a limit: %v", got)
	}
	single := wear.Limits{Wear: of("10 thou"), Sense: wear.Grows, Edge: quantity.MustDecimal("0.2")}
	if got := must(single.EdgeFrom()); got.Value.Compare(quantity.MustDecimal("8")) != 0 {
		t.Errorf("a single limit's edge of a fifth: from %v", got)
	}
}

// Random limits and readings in four units against fractions of math/big: where on the
// way from new to the limit does the reading lie, as a share.
func TestJudgeByFractions(t *testing.T) {
	r := random(t)
	units := []quantity.Unit{quantity.UnitThou, quantity.UnitIn, quantity.UnitMm, quantity.UnitTenth}
	// places so that all values are of the size of some thou and often fall on each other
	value := func() quantity.Measured {
		u := units[r.IntN(len(units))]
		n, places := int64(r.IntN(41)-20), map[quantity.Unit]int{quantity.UnitThou: 1, quantity.UnitIn: 4, quantity.UnitMm: 5, quantity.UnitTenth: 0}[u]
		if u == quantity.UnitMm {
			n *= 254 // a whole tenth of a thou
		}
		return quantity.Measured{Value: must(quantity.NewDecimal(n, places)), Unit: u}
	}
	count := map[wear.Verdict]int{}
	for range 20_000 {
		l := wear.Limits{NewMin: value(), NewMax: value(), Wear: value()}
		lo, hi, end := inch(l.NewMin), inch(l.NewMax), inch(l.Wear)
		reading := value()
		v := inch(reading)
		grows, shrinks := end.Cmp(hi) >= 0, end.Cmp(lo) <= 0
		if err := l.Check(); (err == nil) != (lo.Cmp(hi) <= 0 && grows != shrinks) {
			t.Fatalf("%+v: %v", l, err)
		} else if err != nil {
			continue
		}
		start, back := hi, lo
		if shrinks {
			start, back = lo, hi
		}
		way := new(big.Rat).Sub(end, start) // from new to the limit
		gone := new(big.Rat).Sub(v, start)  // from new to the reading
		other := new(big.Rat).Sub(v, back)  // from the far side of new
		if shrinks {
			way.Neg(way)
			gone.Neg(gone)
			other.Neg(other)
		}
		want := wear.Serviceable
		switch {
		case gone.Cmp(way) > 0, other.Sign() < 0:
			want = wear.Reject
		case new(big.Rat).Mul(gone, big.NewRat(10, 1)).Cmp(new(big.Rat).Mul(way, big.NewRat(9, 1))) >= 0:
			want = wear.AtEdge
		case gone.Sign() <= 0:
			want = wear.New
		}
		f, err := l.Judge(reading)
		if err != nil || f.Verdict != want {
			t.Fatalf("%v of %v / %v / %v: %v %v, want %v", reading, l.NewMin, l.NewMax, l.Wear, f.Verdict, err, want)
		}
		count[want]++
	}
	for _, v := range []wear.Verdict{wear.New, wear.Serviceable, wear.AtEdge, wear.Reject} {
		if count[v] < 50 {
			t.Errorf("only %d cases of %v: %v", count[v], v, count)
		}
	}
}

func TestLimitsThatCannotBe(t *testing.T) {
	grows, shrinks := three("- / - / 10"), three("- / - / 10")
	grows.Sense, shrinks.Sense = wear.Grows, wear.Shrinks
	withSense := func(text string, s wear.Sense) wear.Limits {
		l := three(text)
		l.Sense = s
		return l
	}
	withEdge := func(text string) wear.Limits {
		l := three("0 / 1 / 5")
		l.Edge = quantity.MustDecimal(text)
		return l
	}
	odd := three("0 / 1 / 5")
	odd.Wear.Unit = "furlong"
	alone := wear.Limits{Wear: quantity.Measured{Value: quantity.Whole(1), Unit: "furlong"}, Sense: wear.Grows}
	mixed := three("0 / 1 / 5")
	mixed.NewMax = of("1 psi")
	for _, tt := range []struct {
		l            wear.Limits
		field, words string
	}{
		{three("2 / 1 / 5"), "new minimum", "other way round"},
		{three("0 / 3 / 2"), "wear limit", "lies between"},
		{three("- / - / 10"), "wear limit", "maximum or a minimum"},
		{three("2 / 2 / 2"), "wear limit", "maximum or a minimum"},
		{three("- / 3 / 2"), "new minimum", "is needed"},
		{three("2 / - / 3"), "new maximum", "is needed"},
		{withSense("0 / 1 / 5", wear.Shrinks), "wear limit", "other side"},
		{withSense("3 / 5 / 0", wear.Grows), "wear limit", "other side"},
		{withEdge("-0.1"), "edge", "from 0 to 1"},
		{withEdge("1.01"), "edge", "from 0 to 1"},
		{odd, "wear limit", "furlong"},
		{alone, "wear limit", "does not know"},
		{mixed, "new maximum", "different kinds"},
	} {
		wantProblem(t, tt.l.Check(), tt.field, tt.words)
		wantProblem(t, second(tt.l.Judge(of("1 thou"))), tt.field, tt.words)
		if tt.l.Wear.Given() {
			wantProblem(t, second(tt.l.EdgeFrom()), tt.field, tt.words)
		}
		wantProblem(t, second(tt.l.JudgeAll(wear.Trust, of("1 thou"), of("1 thou"))), tt.field, tt.words)
	}
	for _, l := range []wear.Limits{grows, shrinks, withSense("2 / 2 / 2", wear.Grows), withSense("0 / 1 / 5", wear.Grows), withSense("3 / 5 / 0", wear.Shrinks), {}} {
		if err := l.Check(); err != nil {
			t.Errorf("%+v: %v", l, err)
		}
	}
	wantProblem(t, second(three("0 / 1 / 5").Judge(quantity.Measured{})), "reading", "not given")
	wantProblem(t, second(three("0 / 1 / 5").Judge(of("1 psi"))), "reading", "different kinds")
	long := three("0 / 1 / 5")
	long.NewMax = of("0.000000000000000001 thou")
	wantProblem(t, second(long.Judge(of("1 thou"))), "wear limit", "digits")
	long = wear.Limits{Wear: of("0.00000000000000001 thou"), Sense: wear.Grows}
	wantProblem(t, second(long.Judge(of("1 thou"))), "wear limit", "digits")
}

func TestEmpty(t *testing.T) {
	for text, want := range map[string]bool{"- / - / -": true, "0 / - / -": false, "- / 0 / -": false, "0 / 1 / -": false, "0 / 1 / 5": false} {
		if got := three(text).Empty(); got != want {
			t.Errorf("%s: empty %v", text, got)
		}
	}
	if (wear.Limits{Wear: of("0 thou")}).Empty() {
		t.Error("a wear limit alone is taken for none")
	}
}

func TestWords(t *testing.T) {
	withSource := three("0 / 1.5 / 9")
	withSource.Source = "DEMO sheet B, page 4"
	single := wear.Limits{Wear: of("10 thou"), Sense: wear.Grows}
	for _, tt := range []struct {
		l             wear.Limits
		reading, want string
	}{
		{withSource, "8.5 thou", "8.5 thou = 0.0085 in: at the edge, 0.5 thou inside the wear limit of 9 thou. Source: DEMO sheet B, page 4."},
		{three("0 / 1.5 / 9"), "9 thou", "9 thou = 0.009 in: at the edge, on the wear limit of 9 thou itself. The source of the limit is not on file."},
		{withSource, "1 thou", "1 thou = 0.001 in: new, from 0 thou to 1.5 thou. Source: DEMO sheet B, page 4."},
		{withSource, "3 thou", "3 thou = 0.003 in: serviceable, 6 thou inside the wear limit of 9 thou. Source: DEMO sheet B, page 4."},
		{withSource, "11.5 thou", "11.5 thou = 0.0115 in: reject, 2.5 thou past the wear limit of 9 thou. Source: DEMO sheet B, page 4."},
		{withSource, "-1 thou", "−1 thou = −0.001 in: reject, less than the new minimum of 0 thou. Wear does not go that way: measure again, and look whether it is the right part. Source: DEMO sheet B, page 4."},
		{three("3 / 5 / 0"), "6 thou", "6 thou = 0.006 in: reject, more than the new maximum of 5 thou. Wear does not go that way: measure again, and look whether it is the right part. The source of the limit is not on file."},
		{three("- / - / -"), "6 thou", "6 thou = 0.006 in: no limit on file."},
		{three("1 / 2 / -"), "6 thou", "6 thou = 0.006 in: no wear limit on file, and it is not shown to be new. The source of the limit is not on file."},
		{three("- / 2 / 9"), "1 thou", "1 thou = 0.001 in: new, up to 2 thou. The source of the limit is not on file."},
		{three("3 / - / 0"), "4 thou", "4 thou = 0.004 in: new, from 3 thou. The source of the limit is not on file."},
		{single, "4.00000000000000001 thou", "4.00000000000000001 thou: serviceable, 5.99999999999999999 thou inside the wear limit of 10 thou. The source of the limit is not on file."},
	} {
		if got := plain(must(tt.l.Judge(of(tt.reading))).Words()); got != tt.want {
			t.Errorf("got  %s\nwant %s", got, tt.want)
		}
	}
	// Where no decimal holds the rest it is left out, and the verdict stands.
	wide := wear.Limits{Wear: of("999999999999999 mm"), Sense: wear.Grows}
	f := must(wide.Judge(of("0.00000000001 in")))
	if got := f.Words(); f.Verdict != wear.Serviceable || f.Left.Given() || plain(got) != "0.00000000001 in = 0.00000001 thou: serviceable, inside the wear limit of 999999999999999 mm. The source of the limit is not on file." {
		t.Errorf("%v, left %v: %s", f.Verdict, f.Left, got)
	}
	wide.Sense = wear.Shrinks
	f = must(wide.Judge(of("0.00000000001 in")))
	if got := f.Words(); f.Verdict != wear.Reject || f.Left.Given() || plain(got) != "0.00000000001 in = 0.00000001 thou: reject, past the wear limit of 999999999999999 mm. The source of the limit is not on file." {
		t.Errorf("%v, left %v: %s", f.Verdict, f.Left, got)
	}
}
