package oil

import (
	"math"
	"strings"
	"testing"
)

// What no answer may say (the trade's caution and the house style).
var banned = []string{
	"airworthy", "ok to fly", "safe", "good", "healthy", "passed", "error", "invalid",
	"sync", "offline", "queue", "conflict", "submit", "success", "sorry", "please", "oops", "!",
}

func checkWords(t *testing.T, line string) {
	t.Helper()
	for _, word := range banned {
		if strings.Contains(strings.ToLower(line), word) {
			t.Errorf("%q says %q", line, word)
		}
	}
}

func TestBannedWords(t *testing.T) {
	n := 0
	check := func(a Answer) {
		for _, u := range []Unit{USQuart, Litre, ImperialQuart} {
			for _, line := range append(Maths(a, u), Line(a, u), Say(a, u)) {
				checkWords(t, line)
				n++
			}
			for _, h := range a.Fit.Why {
				checkWords(t, Ask(h, u))
			}
		}
	}
	for _, which := range []string{"A", "B", "C"} {
		settings, log := demo(t, which)
		for _, a := range mustRun(t, settings, log) {
			check(a)
		}
	}
	for v := None; v <= RateOnly; v++ {
		for l := Used; l <= ConditionNotNumber; l++ {
			for c := NoCause; c <= OverCeiling; c++ {
				for shows := ShowsNothing; shows <= ShowsNow; shows++ {
					check(Answer{Verdict: v, Said: v, Left: l, Shows: shows, Step: Step{Cause: c}, LeftOuts: []LeftOut{l}})
				}
			}
		}
	}
	checkWords(t, Caution)
	for k := ReadAgain; k <= ReadCold; k++ {
		checkWords(t, Ask(Hint{Kind: k, Quarts: 3}, USQuart))
	}
	t.Logf("%d lines read", n)
}

// at is the answer of a demo series at an hour.
func at(t *testing.T, which string, hour Hours, change func(*Settings)) Answer {
	t.Helper()
	settings, log := demo(t, which)
	if change != nil {
		change(&settings)
	}
	for _, a := range mustRun(t, settings, log) {
		if a.Hours == hour {
			return a
		}
	}
	t.Fatalf("series %s has no hour %v", which, hour)
	return Answer{}
}

// The words, each beside the figures it stands for in testdata/oil.
func TestWords(t *testing.T) {
	noCeiling := func(s *Settings) { s.Ceiling = Given[QtPerHour]{} }
	noHours := func(s *Settings) { s.HoursKnown = false }
	for _, c := range []struct {
		name      string
		a         Answer
		line, say string
	}{
		{"one reading", at(t, "A", 0, nil), "one reading: no rate yet", "one reading: no rate yet"},
		{"average", at(t, "A", 1.6, nil), // 2.5 qt over 1.6 h, by hand 0.78 to 2.34
			"average over the first 1.6 h: between 0.8 and 2.3 qt/h", "average over the first 1.6 h: between 0.8 and 2.3 qt/h"},
		{"too early", at(t, "A", 4.2, nil), // 1.3268 (0.9779 to 1.6792)
			"1.33 (0.98 to 1.68) qt/h now, from 5 readings over 4.2 h; too early to say which way; over the shop's 0.60", "too early to say"},
		{"falling", at(t, "A", 9, nil), // 0.8757 (0.6497 to 1.1545)
			"0.88 (0.65 to 1.15) qt/h now, from 8 readings over 9 h; falling; over the shop's 0.60", "falling (bedding in): 0.88, between 0.65 and 1.15"},
		{"levelling", at(t, "A", 28.1, nil), // 0.4226 (0.3245 to 0.5292)
			"0.42 (0.32 to 0.53) qt/h now, from 17 readings over 28.1 h; levelling; under the shop's 0.60", "levelling; not proven either way yet"},
		{"seated", at(t, "A", 39, nil), // 0.4127 (0.3270 to 0.5018)
			"0.41 (0.33 to 0.50) qt/h now, from 21 readings over 39 h; level; under the shop's 0.60", "seated: 0.41 (0.33 to 0.50), level, under the shop's 0.60"},
		{"levelled off", at(t, "A", 39, noCeiling),
			"0.41 (0.33 to 0.50) qt/h now, from 21 readings over 39 h; level; no limit on file", "levelled off: 0.41 (0.33 to 0.50), level, no limit on file"},
		{"hours not known", at(t, "A", 39, noHours),
			"0.41 (0.33 to 0.50) qt/h now, from 21 readings over 39 h; hours since the overhaul not known; under the shop's 0.60",
			"rate only: hours since the overhaul are not known, so bedding in is not judged"},
		{"not seating", at(t, "B", 30, nil), // 1.168 (0.970 to 1.368)
			"1.17 (0.97 to 1.37) qt/h now, from 19 readings over 30 h; level; over the shop's 0.70", "not seating: 1.17 qt/h and not heading under 0.70. Call the shop before flying more."},
		{"suspect", at(t, "C", 18, nil), // 0.7976 (0.3379 to 1.3828); 13 - 2.5 h at 0.43 to 0.45 is 11.9, read 11
			"0.80 (0.34 to 1.38) qt/h now, from 9 readings over 18 h; levelling; the band reaches under the shop's 0.60", "does not fit: 1 qt lower than expected. Read it again before you fly."},
		{"step up", at(t, "C", 25.8, nil), // 1.295 (1.073 to 1.521)
			"1.30 (1.07 to 1.52) qt/h now, from 13 readings over 25.8 h; stepped up; over the shop's 0.60", "step up: something changed about hour 17: 0.43 before, 1.30 now. Call the shop."},
	} {
		if got := Line(c.a, USQuart); got != c.line {
			t.Errorf("%s, line:\n%s, want\n%s", c.name, got, c.line)
		}
		if got := Say(c.a, USQuart); got != c.say {
			t.Errorf("%s, verdict:\n%s, want\n%s", c.name, got, c.say)
		}
	}
}

func TestWordsOfEveryKind(t *testing.T) {
	limit := Is(QtPerHour(0.6))
	for _, c := range []struct {
		a    Answer
		want string
	}{
		{Answer{Verdict: StepUp, Shows: ShowsNow, Step: Step{Crept, 15.9, 0.37, 0.76}}, "step up: crept up since it was level at hour 16: 0.37 then, 0.76 now. Call the shop."},
		{Answer{Verdict: StepUp, Shows: ShowsNow, Step: Step{OverCeiling, 15.9, 0.37, 0.76}}, "step up: over the shop's ceiling since it was level at hour 16: 0.37 then, 0.76 now. Call the shop."},
		// A rate that is under the one before the step has not stepped up.
		{Answer{Verdict: StepUp, Shows: ShowsNow, Step: Step{Stepped, 24.2, 1.2, 0.5}}, "something changed about hour 24: 1.20 before, 0.50 now; the rate has fallen. Call the shop."},
		{Answer{Verdict: ReadingSuspect, Shows: ShowsNow, Fit: Fit{Off: 1.34}}, "does not fit: 1.3 qt higher than expected. Read it again before you fly."},
		{Answer{Verdict: Seated, Shows: ShowsNow, Ceiling: limit, Now: Band{0.5, 0.4, 0.61}}, "seated: 0.50 (0.40 to 0.61), level, the band reaches over the shop's 0.60"},
	} {
		if got := Say(c.a, USQuart); got != c.want {
			t.Errorf("says %q, want %q", got, c.want)
		}
	}
	for _, c := range []struct {
		h    Hint
		want string
	}{
		{Hint{OilNotNoted, 2.9}, "Was oil put in and not written down, about 2.9 qt?"},
		{Hint{AddNotPoured, 4}, "Were the 4 qt written down not put in?"},
		{Hint{Kind: Litres}, "Was it read or written in litres?"},
		{Hint{Kind: ReadCold}, "Was it read cold?"},
		{Hint{}, "Read it again."},
	} {
		if got := Ask(c.h, USQuart); got != c.want {
			t.Errorf("asks %q, want %q", got, c.want)
		}
	}
	// The average of the chain after a break is not "the first" hours.
	last := Answer{Verdict: TooEarly, Shows: ShowsAverage, Span: 2.6, Average: Average{Band: Band{1, 0.54, 1.46}, Hours: 1.2}}
	if got, want := Line(last, USQuart), "average over the last 1.2 h: between 0.5 and 1.5 qt/h"; got != want {
		t.Errorf("says %q, want %q", got, want)
	}
	// 1 qt/h is 0.946 L/h and 0.833 imp qt/h.
	a := Answer{Shows: ShowsNow, Ceiling: Is(QtPerHour(1)), HoursKnown: true, Readings: 9, Span: 12.5, Now: Band{1, 0.5, 2}, Said: Levelling, Direction: NearlyLevel}
	if got, want := Line(a, Litre), "0.95 (0.47 to 1.89) L/h now, from 9 readings over 12.5 h; levelling; the band reaches over the shop's 0.95"; got != want {
		t.Errorf("says %q, want %q", got, want)
	}
	if got, want := Line(a, ImperialQuart), "0.83 (0.42 to 1.67) imp qt/h now, from 9 readings over 12.5 h; levelling; the band reaches over the shop's 0.83"; got != want {
		t.Errorf("says %q, want %q", got, want)
	}
	// A limit is shown as it was given, not rounded.
	for v, want := range map[QtPerHour]string{0.6: "0.60", 0.625: "0.625", 1: "1.00", 12.5: "12.50", 0.1 + 0.2: "0.30"} {
		if got := USQuart.limit(v); got != want {
			t.Errorf("limit %v shown as %q, want %q", v, got, want)
		}
	}
}

func TestMaths(t *testing.T) {
	a := at(t, "A", 39, nil)
	got := strings.Join(Maths(a, USQuart), "\n")
	for _, want := range []string{
		"21 readings used over 39 h, none left out",
		"stick read to 0.5 qt",
		"95 % band 0.33 to 0.50 qt/h about 0.41",
		"best curve: ",
		"weight of level 0.98, seated 0.98, not seating 0.00, over the ceiling now 0.00, step up 0.00, ",
		"under the shop's 0.60",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	if math.Abs(float64(a.Chances.Flat)-0.9840611105) > 1e-3 {
		t.Errorf("level %v", a.Chances.Flat)
	}
	// A falling engine's curve, and a step that is only assumed.
	a = at(t, "A", 9, func(s *Settings) { s.StickStep = Given[Quarts]{} })
	got = strings.Join(Maths(a, USQuart), "\n")
	for _, want := range []string{"best curve: falls to 0.", "time constant ", "stick read to 0.5 qt, assumed: the step is not on file"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	// Nothing that needs the hours since overhaul where they are not known.
	got = strings.Join(Maths(at(t, "A", 39, func(s *Settings) { s.HoursKnown = false }), USQuart), "\n")
	if strings.Contains(got, "seat") {
		t.Errorf("bedding in judged without hours:\n%s", got)
	}
	if n := len(Maths(at(t, "A", 0, nil), USQuart)); n != 2 {
		t.Errorf("%d lines of maths for one reading", n)
	}
}

// A verdict's code is what the screens know it by.
func TestCodes(t *testing.T) {
	var got []string
	for v := None; v <= RateOnly+1; v++ {
		got = append(got, v.String())
	}
	want := "none, too early, falling, levelling, seated, not seating, step up, reading suspect, rate only, none"
	if s := strings.Join(got, ", "); s != want {
		t.Errorf("%s, want %s", s, want)
	}
}

// Hours are shown as a meter shows them, whatever the sum of tenths comes to.
func TestHoursShown(t *testing.T) {
	var sum Hours
	for range 3 {
		sum += 0.1 // 0.30000000000000004
	}
	for h, want := range map[Hours]string{sum: "0.3 h", 12: "12 h", 39.56: "39.6 h"} {
		if got := hours(h); got != want {
			t.Errorf("%v is shown as %q, want %q", float64(h), got, want)
		}
	}
}
