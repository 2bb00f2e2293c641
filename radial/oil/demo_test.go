package oil

import (
	"math"
	"slices"
	"testing"
)

// TestDemoSeries: the three invented series, to the verdicts their story needs.
func TestDemoSeries(t *testing.T) {
	for _, c := range []struct{ which, want string }{
		{"A", "0.0 too early; 5.8 falling; 28.1 levelling; 33.1 seated"},
		{"B", "0.0 too early; 5.1 levelling; 6.3 falling; 14.6 levelling; 25.8 not seating"},
		{"C", "0.0 too early; 6.4 levelling; 18.0 reading suspect; 19.8 step up"},
	} {
		settings, log := demo(t, c.which)
		if got := verdicts(mustRun(t, settings, log)); got != c.want {
			t.Errorf("series %s:\n%s, want\n%s", c.which, got, c.want)
		}
	}
}

// Series C stepped at 17.0 h, from 0.45 to 1.35.
func TestStepIsToldWhereItWas(t *testing.T) {
	settings, log := demo(t, "C")
	as := mustRun(t, settings, log)
	end := as[len(as)-1]
	s := end.Step
	if s.Cause != Stepped || !near64(float64(s.About), 17, 1) || !near64(float64(s.Before), 0.45, 0.1) || !near64(float64(s.Now), 1.35, 0.15) {
		t.Errorf("step told as %+v", s)
	}
	if c := end.Curve; c.From != s.About || c.To != end.Hours || !near64(float64(c.At(c.To)), 1.35, 0.2) {
		t.Errorf("curve %+v, %v at its end", c, c.At(c.To))
	}
}

// A step that a person has closed: a new bank starts at that hour, and the
// engine may be called seated at its new rate, or not, on its own merits.
func TestClosedStepStartsANewBank(t *testing.T) {
	settings, log := demo(t, "C")
	closedAt := Hours(18.0)
	i := slices.IndexFunc(log, func(r Reading) bool { return r.Hours >= closedAt })
	as := mustRun(t, settings, log[i:])
	for _, a := range as {
		if a.Verdict == StepUp || a.Verdict == ReadingSuspect {
			t.Errorf("at %v h still %v", a.Hours, a.Verdict)
		}
	}
	if end := as[len(as)-1]; !near64(float64(end.Now.Rate), 1.35, 0.2) || end.Readings != len(log)-i {
		t.Errorf("after the step closed: %+v", end.Now)
	}
}

// With no ceiling on file nothing is called not seating, and level is only
// "levelled off".
func TestNoCeilingOnFile(t *testing.T) {
	for _, which := range []string{"A", "B"} {
		settings, log := demo(t, which)
		settings.Ceiling = Given[QtPerHour]{}
		for _, a := range mustRun(t, settings, log) {
			if a.Verdict == NotSeating || a.Step.Cause == OverCeiling || a.Chances.NotSeating != 0 || a.Chances.Over != 0 {
				t.Errorf("series %s at %v h: %v, %+v without a ceiling", which, a.Hours, a.Verdict, a.Chances)
			}
			if a.Verdict == Seated {
				if got := Say(a, USQuart)[:13]; got != "levelled off:" {
					t.Errorf("said %q", Say(a, USQuart))
				}
			}
		}
	}
}

// With hours since overhaul not known: the rate, steps and doubtful readings,
// no word on bedding in. Where the clock starts makes no difference.
func TestHoursNotKnown(t *testing.T) {
	for _, which := range []string{"A", "B", "C"} {
		settings, log := demo(t, which)
		settings.HoursKnown = false
		as := mustRun(t, settings, log)
		for _, a := range as {
			switch a.Verdict {
			case TooEarly, RateOnly, StepUp, ReadingSuspect:
			default:
				t.Errorf("series %s at %v h: %v", which, a.Hours, a.Verdict)
			}
			if a.Verdict == RateOnly && a.Direction != NoDirection {
				t.Errorf("series %s at %v h: direction %v", which, a.Hours, a.Direction)
			}
		}
		other := slices.Clone(log)
		for i := range other {
			other[i].Hours += 4096 // exact in binary, as 0.1 h is not
		}
		for i, a := range mustRun(t, settings, other) {
			if a.Verdict != as[i].Verdict || !near64(float64(a.Now.Rate), float64(as[i].Now.Rate), 1e-9) {
				t.Errorf("series %s: the clock's start changes %v %v to %v %v", which, as[i].Verdict, as[i].Now, a.Verdict, a.Now)
			}
		}
	}
	settings, log := demo(t, "C")
	settings.HoursKnown = false
	as := mustRun(t, settings, log)
	if end := as[len(as)-1]; end.Verdict != StepUp {
		t.Errorf("series C with hours not known ends %v", end.Verdict)
	}
}

// An engine that creeps over the ceiling is called also where its hours are
// not known.
func TestOverCeilingWithHoursNotKnown(t *testing.T) {
	settings, log := series(t, "open/oil_13.csv", Conditions{})
	settings.HoursKnown, settings.Ceiling = false, Is(QtPerHour(0.6))
	called := false
	for _, a := range mustRun(t, settings, log) {
		called = called || a.Verdict == StepUp && a.Step.Cause == OverCeiling
	}
	if !called {
		t.Error("never called")
	}
}

// A settled engine whose use then grows evenly to three times in 60 h, read
// without error, is called before the end, by step or by creep.
func TestGradualRiseIsCalled(t *testing.T) {
	for _, known := range []bool{true, false} {
		b, err := New(Settings{HoursKnown: known, StickStep: Is(Quarts(0.25))})
		if err != nil {
			t.Fatal(err)
		}
		good := Conditions{SinceStop: Is(Minutes(20)), Temp: Is(Fahrenheit(150)), Stands: StandsLevel, Scavenged: Yes}
		level, causes := 16.0, map[Cause]bool{}
		for h := 0.0; h <= 100; h += 2 {
			r := Reading{Hours: Hours(h), Level: Quarts(level), Conditions: good, Poured: PouredMeasured}
			if level < 13 {
				r.Added = 3
			}
			if a := b.Add(r); a.Verdict == StepUp {
				causes[a.Step.Cause] = true
				if a.Step.Now <= a.Step.Before || a.Direction != GoingUp {
					t.Errorf("at %v h: %+v, direction %v", h, a.Step, a.Direction)
				}
				if h < 40 {
					t.Errorf("called at %v h, before the rise", h)
				}
			}
			level += float64(r.Added) - 2*0.35*(1+math.Max(0, (h-40)/30))
		}
		if !causes[Crept] {
			t.Errorf("hours known %v: causes %v", known, causes)
		}
	}
}
