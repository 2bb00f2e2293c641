package compression_test

import (
	"fmt"
	"strings"
	"testing"

	"linkrod/radial/compression"
	"linkrod/radial/quantity"
)

func TestDifferences(t *testing.T) {
	base := set("70 71 72")
	for _, tt := range []struct {
		other compression.Set
		want  string
	}{
		{set("1 2 3"), "[]"},
		{set("70", orifice("1.524 mm")), "[]"},
		{set("70", supplied("80.0 psi")), "[]"},
		{set("70", orifice("0.040 in")), "[the orifices differ]"},
		{set("70", orifice("")), "[an orifice is not noted]"},
		{set("70", supplied("100 psi")), "[the supply pressures differ]"},
		{set("70", engine(compression.Cold)), "[one was hot and one cold]"},
		{set("70", engine(compression.Unsaid)), "[hot or cold is not noted]"},
		{set("70", orifice(""), supplied("79 psi"), engine(compression.Unsaid)), "[an orifice is not noted the supply pressures differ hot or cold is not noted]"},
	} {
		for _, got := range [][]compression.Difference{compression.Differences(base, tt.other), compression.Differences(tt.other, base)} {
			if fmt.Sprint(got) != tt.want {
				t.Errorf("%+v: %v, want %s", tt.other, got, tt.want)
			}
		}
	}
	// What was not noted compares with nothing, not even with itself.
	unknown := set("70", orifice(""), engine(compression.Unsaid))
	if got := compression.Differences(unknown, unknown); len(got) != 2 {
		t.Errorf("two checks without a word of orifice and warmth: %v", got)
	}
	if s := compression.Difference(0).String(); s != "no reason" {
		t.Error(s)
	}
}

func TestSetsThatCannotBe(t *testing.T) {
	for _, tt := range []struct {
		s            compression.Set
		field, words string
	}{
		{set("70", supplied("")), "supply pressure", "not given"},
		{set("70", orifice("0 in")), "orifice", "more than 0"},
		{set("70", orifice("60 psi")), "orifice", "must be a length"},
		{set("70 - 81"), "cylinder 3", "Cylinder 3: The cylinder reads 81 psi"},
		{set("70 -1"), "cylinder 2", "starts at 0"},
	} {
		wantProblem(t, tt.s.Check(), tt.field, tt.words)
		wantProblem(t, second(tt.s.Spread()), tt.field, tt.words)
	}
	if err := set("- 0 80").Check(); err != nil {
		t.Error(err)
	}
}

func TestSpread(t *testing.T) {
	for _, tt := range []struct {
		readings, difference string
		highest, lowest      int
		wide                 bool
	}{
		{"72 73 70 74 70 61 75", "14", 7, 6, false},
		{"72 73 70 74 70 60 75", "15", 7, 6, true}, // 15 itself is shown
		{"70 70 70", "0", 1, 1, false},
		{"- 70.5 - 71.25", "0.75", 4, 2, false},
		{"80 0", "80", 1, 2, true},
	} {
		s := must(set(tt.readings).Spread())
		if s.Difference.Value.Compare(quantity.MustDecimal(tt.difference)) != 0 || s.Highest != tt.highest || s.Lowest != tt.lowest || compression.Usual.Wide(s) != tt.wide {
			t.Errorf("%s: %+v, wide %v", tt.readings, s, compression.Usual.Wide(s))
		}
	}
	// The difference is in the unit of the readings, where one serves for both.
	if s := must(set("72 73").Spread()); s.Difference.Text() != "1 psi" {
		t.Errorf("spread %v", s.Difference)
	}
	mixed := set("70 71")
	mixed.Readings[0] = of("400 kPa")
	wantProblem(t, second(mixed.Spread()), "figures", "even")
	wantProblem(t, second(set("70 - -").Spread()), "readings", "There are 1 readings")
	wantProblem(t, second(set("").Spread()), "readings", "There are 0 readings")
}

// The history of the invented engine E1 (DEMO): a check with the wrong orifice between
// those that compare, then a fall of exactly 5 in cylinder 6.
func TestTrend(t *testing.T) {
	sets := []compression.Set{
		set("49 55 44 52 41 35 59", orifice("0.040 in")),
		set("72 74 70 73 69 66 75"),
		set("60 60 60 60 60 60 60", engine(compression.Cold)),
		set("72 73 70 74 70 61 75"),
	}
	lines := must(compression.Trend(sets, compression.Usual))
	for i, want := range []string{
		"Cylinder 1: 72 psi, the same as 72 psi.",
		"Cylinder 2: 73 psi, 1 psi down from 74 psi.",
		"Cylinder 3: 70 psi, the same as 70 psi.",
		"Cylinder 4: 74 psi, 1 psi up from 73 psi.",
		"Cylinder 5: 70 psi, 1 psi up from 69 psi.",
		"Cylinder 6: 61 psi, 5 psi down from 66 psi.",
		"Cylinder 7: 75 psi, the same as 75 psi.",
	} {
		l := lines[i]
		if l.Words() != want || l.Fell != (i == 5) || l.Drifted || l.Like != 1 || l.Cylinder != i+1 {
			t.Errorf("%+v: %s, want %s", l, l.Words(), want)
		}
	}
	// The same tester with another count: only what compares is looked at.
	if alone := must(compression.Trend(sets[:2], compression.Usual)); alone[0].Words() != "Cylinder 1: 72 psi, and no earlier check compares with it." || alone[0].Fell {
		t.Errorf("%+v", alone[0])
	}
}

func TestTrendOfOneCylinder(t *testing.T) {
	for _, tt := range []struct {
		history       string // one cylinder, check after check
		change        string
		fell, drifted bool
		words         string
	}{
		{"70 65", "-5", true, false, "5 psi down from 70 psi."},
		{"70 65.01", "-4.99", false, false, "4.99 psi down"},
		{"70 64", "-6", true, false, "6 psi down"},
		{"70 76", "6", false, false, "6 psi up from 70 psi."},
		{"76 73 70", "-3", false, true, "70 psi, 3 psi down from 73 psi and 6 psi down from its best of 76 psi."},
		{"76 70 70", "0", false, true, "the same as 70 psi and 6 psi down"},
		{"76 73 68", "-5", true, false, "5 psi down from 73 psi and 8 psi down from its best of 76 psi."},
		{"76 71 76", "5", false, false, "5 psi up from 71 psi and the same as its best of 76 psi."},
		{"76 - 70", "-6", true, false, "6 psi down from 76 psi."}, // passed over where it was not taken
		{"66 61 63", "2", false, false, "2 psi up from 61 psi and 3 psi down from its best of 66 psi."},
		{"70 -", "", false, false, "not taken."},
		{"70", "", false, false, "no earlier check"},
	} {
		var sets []compression.Set
		for _, s := range strings.Fields(tt.history) {
			sets = append(sets, set(s))
		}
		l := must(compression.Trend(sets, compression.Usual))[0]
		if l.Fell != tt.fell || l.Drifted != tt.drifted || !strings.Contains(l.Words(), tt.words) {
			t.Errorf("%s: %+v %s, want %v %v %q", tt.history, l, l.Words(), tt.fell, tt.drifted, tt.words)
		}
		if l.Change.Given() != (tt.change != "") || tt.change != "" && l.Change.Value.Compare(quantity.MustDecimal(tt.change)) != 0 {
			t.Errorf("%s: change %v, want %s", tt.history, l.Change, tt.change)
		}
	}
	// A cylinder more than before, and one in another unit that comes out even.
	lines := must(compression.Trend([]compression.Set{set("70"), set("70 71")}, compression.Usual))
	if len(lines) != 2 || lines[1].Like != 0 {
		t.Errorf("%+v", lines)
	}
	own := compression.Watch{Fall: of("2 psi"), Spread: of("4 psi")}
	if l := must(compression.Trend([]compression.Set{set("70"), set("68")}, own))[0]; !l.Fell {
		t.Errorf("a fall of 2 with 2 to watch: %+v", l)
	}
}

func TestTrendsThatCannotBe(t *testing.T) {
	good := set("70")
	for _, tt := range []struct {
		sets         []compression.Set
		w            compression.Watch
		field, words string
	}{
		{nil, compression.Usual, "checks", "no compression check"},
		{[]compression.Set{good, set("81")}, compression.Usual, "checks", "Check 2: Cylinder 1"},
		{[]compression.Set{good}, compression.Watch{}, "fall to watch", "not given"},
		{[]compression.Set{good}, compression.Watch{Fall: of("0 psi"), Spread: of("15 psi")}, "fall to watch", "must be more"},
		{[]compression.Set{good}, compression.Watch{Fall: of("5 psi"), Spread: of("0.0 psi")}, "spread to watch", "must be more"},
		{[]compression.Set{good}, compression.Watch{Fall: of("5 psi"), Spread: of("5 in")}, "spread to watch", "must be a pressure"},
		{[]compression.Set{
			set("1.00000000001", func(s *compression.Set) { s.Readings[0].Unit = quantity.UnitKPa }), set("1.00000000001"),
		}, compression.Usual, "cylinder 1", "even"},
	} {
		wantProblem(t, second(compression.Trend(tt.sets, tt.w)), tt.field, tt.words)
	}
}
