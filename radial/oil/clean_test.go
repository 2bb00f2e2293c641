package oil

import (
	"math"
	"strings"
	"testing"
)

// TestMalformedLines: a line that cannot be gets a clear word, never a number,
// and leaves everything else as it was.
func TestMalformedLines(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	ok := Reading{Hours: 10, Level: 12}
	for _, c := range []struct {
		name string
		bad  func(Reading) Reading
		want LeftOut
		says string
	}{
		{"hours go back", func(r Reading) Reading { r.Hours = 4; return r }, HoursGoBack, "hours go back"},
		{"hours NaN", func(r Reading) Reading { r.Hours = Hours(nan); return r }, HoursNotNumber, "hours are not a number"},
		{"hours endless", func(r Reading) Reading { r.Hours = Hours(inf); return r }, HoursNotNumber, "hours are not a number"},
		{"hours beyond any meter", func(r Reading) Reading { r.Hours = 1e7; return r }, HoursNotNumber, "hours are not a number"},
		{"hours before the overhaul", func(r Reading) Reading { r.Hours = -1; return r }, HoursBefore, "before the overhaul"},
		{"level NaN", func(r Reading) Reading { r.Level = Quarts(nan); return r }, LevelNotNumber, "level is not a number"},
		{"level endless", func(r Reading) Reading { r.Level = Quarts(inf); return r }, LevelOutsideTank, "outside the tank"},
		{"level negative", func(r Reading) Reading { r.Level = -0.5; return r }, LevelOutsideTank, "outside the tank"},
		{"level above capacity", func(r Reading) Reading { r.Level = 16.6; return r }, LevelOutsideTank, "outside the tank"},
		{"added NaN", func(r Reading) Reading { r.Added = Quarts(nan); return r }, AddedNotNumber, "added"},
		{"added negative", func(r Reading) Reading { r.Added = -1; return r }, AddedNotNumber, "added"},
		{"minutes negative", func(r Reading) Reading { r.Conditions.SinceStop = Is(Minutes(-1)); return r }, ConditionNotNumber, "minutes"},
		{"temperature NaN", func(r Reading) Reading { r.Conditions.Temp = Is(Fahrenheit(nan)); return r }, ConditionNotNumber, "temperature"},
		{"conditions endless", func(r Reading) Reading { r.Conditions.SD = Is(Quarts(inf)); return r }, ConditionNotNumber, "cannot be"},
	} {
		t.Run(c.name, func(t *testing.T) {
			settings := Settings{HoursKnown: true, Capacity: Is(Quarts(16)), Ceiling: Is(QtPerHour(0.6))}
			first := []Reading{{Hours: 0, Level: 16}, {Hours: 3, Level: 14}, {Hours: 6, Level: 13}}
			b, err := New(settings)
			if err != nil {
				t.Fatal(err)
			}
			var before Answer
			for _, r := range first {
				before = b.Add(r)
			}
			a := b.Add(c.bad(ok))
			if a.Left != c.want || a.Verdict != ReadingSuspect || a.Said != before.Said || a.Now != before.Now || a.Readings != 3 {
				t.Errorf("left out %v, %v (was %v), %v (was %v)", a.Left, a.Verdict, before.Said, a.Now, before.Now)
			}
			for _, line := range []string{Say(a, USQuart), Line(a, USQuart)} {
				if !strings.Contains(line, c.says) || !strings.HasPrefix(line, "this line is not used: ") || strings.ContainsAny(line, "0123456789") {
					t.Errorf("says %q", line)
				}
			}
			// The rest is used as if the line were not there, except that an
			// unknown amount added breaks the chain of levels.
			broken := ok
			broken.ChainBroken = c.want == AddedNotNumber
			clean := mustRun(t, settings, append(first, broken))
			want, got := clean[len(clean)-1], b.Add(ok)
			if got.Now != want.Now || got.Verdict != want.Verdict || got.Raw != want.Raw || len(got.LeftOuts) != 1 || got.LeftOuts[0] != c.want {
				t.Errorf("afterwards %v %v, want %v %v", got.Verdict, got.Now, want.Verdict, want.Now)
			}
			if m := strings.Join(Maths(got, USQuart), "\n"); !strings.Contains(m, "1 left out") || !strings.Contains(m, c.says) {
				t.Errorf("maths do not name the line left out:\n%s", m)
			}
		})
	}
}

func TestLevelMayStandHalfAQuartOverCapacity(t *testing.T) {
	as := mustRun(t, Settings{Capacity: Is(Quarts(16))}, []Reading{{Level: 16.5}, {Hours: 1, Level: 16.51}})
	if as[0].Left != Used || as[1].Left != LevelOutsideTank {
		t.Errorf("16.5: %v, 16.51: %v", as[0].Left, as[1].Left)
	}
}

func TestEmptyLogAndBadFirstLine(t *testing.T) {
	if as := mustRun(t, Settings{}, nil); len(as) != 0 {
		t.Errorf("%d answers to nothing", len(as))
	}
	a := mustRun(t, Settings{}, []Reading{{Level: -1}})[0]
	if a.Shows != ShowsNothing || a.Said != None || a.Curve.OK || a.Now != (Band{}) || !a.StepAssumed || a.StickStep != 0.5 {
		t.Errorf("a bad first line answers %+v", a)
	}
	if s := (Answer{}).Verdict.String(); s != "none" || Say(Answer{}, USQuart) != "no reading yet" {
		t.Errorf("no answer says %q, %q", s, Say(Answer{}, USQuart))
	}
}

// Readings at one and the same hour give an average of nothing.
func TestNoAverageOverNoTime(t *testing.T) {
	as := mustRun(t, Settings{}, []Reading{{Hours: 5, Level: 12}, {Hours: 5, Level: 12}, {Hours: 5, Level: 12}, {Hours: 5, Level: 11.5}})
	for i, a := range as {
		if a.Shows != ShowsNothing || a.Average.OK || a.Raw.OK {
			t.Errorf("reading %d shows %v, average %v, interval %v", i, a.Shows, a.Average, a.Raw)
		}
	}
	if got := Say(as[3], USQuart); got != "too early to say" {
		t.Errorf("says %q", got)
	}
}

// A tank that holds clearly more than before, with nothing added, has no
// average either.
func TestNoAverageAgainstTheTank(t *testing.T) {
	as := mustRun(t, Settings{}, []Reading{{Hours: 0, Level: 12}, {Hours: 1, Level: 15}})
	if a := as[1]; a.Shows != ShowsNothing || a.Average.OK {
		t.Errorf("shows %v, %+v", a.Shows, a.Average)
	}
}

func TestSettingsThatCannotBe(t *testing.T) {
	for name, s := range map[string]Settings{
		"tank capacity":         {Capacity: Is(Quarts(-1))},
		"step of the stick":     {StickStep: Is(Quarts(0))},
		"shop's ceiling":        {Ceiling: Is(QtPerHour(math.NaN()))},
		"usual oil temperature": {RefTemp: Is(Fahrenheit(1e9))},
	} {
		if _, err := Run(s, nil); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: error %v", name, err)
		}
	}
}

// The second look at the same stop is worth having.
func TestSecondLookNarrowsTheBand(t *testing.T) {
	settings, log := demo(t, "A")
	log = log[:7] // nothing was added at the last of these
	as := mustRun(t, settings, append(log, log[6]))
	if w, was := as[7].Now, as[6].Now; w.Hi-w.Lo >= was.Hi-was.Lo {
		t.Errorf("band %v after, %v before", w, was)
	}
}

// A drain whose level after is known is two readings at the same hour.
func TestDrainToAKnownLevel(t *testing.T) {
	good := Conditions{SinceStop: Is(Minutes(20)), Temp: Is(Fahrenheit(150)), Stands: StandsLevel}
	log := []Reading{
		{Hours: 0, Level: 16}, {Hours: 4, Level: 14}, {Hours: 8, Level: 12},
		{Hours: 12, Level: 10, Drained: DrainedUnknown}, {Hours: 12, Level: 15},
		{Hours: 16, Level: 13}, {Hours: 20, Level: 11},
	}
	alone := []Reading{log[0], log[1], log[2], {Hours: 12, Level: 15, ChainBroken: true}, log[5], log[6]}
	for name, l := range map[string][]Reading{"level before read": log, "level before not read": alone} {
		for i := range l {
			l[i].Conditions = good
		}
		as := mustRun(t, Settings{HoursKnown: true}, l)
		end := as[len(as)-1]
		if end.Verdict == ReadingSuspect || end.Verdict == StepUp || !near64(float64(end.Now.Rate), 0.5, 0.05) {
			t.Errorf("%s: %v, %v", name, end.Verdict, end.Now)
		}
		if raw := as[len(as)-2].Raw; !raw.OK || !near64(float64(raw.V.Rate), 0.5, 1e-9) {
			t.Errorf("%s: interval %v after the drain", name, raw)
		}
	}
}

// The raw interval is the plain difference, however short; over no time there is none.
func TestRawInterval(t *testing.T) {
	log := []Reading{{Hours: 10, Level: 15, Added: 1}, {Hours: 10.5, Level: 15.5}, {Hours: 10.5, Level: 15}}
	as := mustRun(t, Settings{HoursKnown: true}, log)
	if got, want := as[1].Raw, Is(Interval{From: 10, To: 10.5, Rate: 1}); got != want {
		t.Errorf("half a quart in half an hour: %+v, want %+v", got, want)
	}
	if as[0].Raw.OK || as[2].Raw.OK {
		t.Errorf("an interval before the first reading %+v, or within no time %+v", as[0].Raw, as[2].Raw)
	}
}
