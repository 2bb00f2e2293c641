package oil

import (
	"math"
	"testing"
)

func TestConditions(t *testing.T) {
	usual := Conditions{SinceStop: Is(Minutes(20)), Temp: Is(Fahrenheit(150)), Stands: StandsLevel, Scavenged: Yes, Foam: No}
	with := func(f func(*Conditions)) Conditions { c := usual; f(&c); return c }
	for _, c := range []struct {
		name string
		c    Conditions
		like bool
		want float64 // sd, qt: square root of the squares of the assumed table
	}{
		{"usual", usual, false, 0.084},
		{"nothing logged", Conditions{}, false, 0.196},
		{"read at once", with(func(c *Conditions) { c.SinceStop = Is(Minutes(9)) }), false, math.Sqrt(sq(0.05) + sq(0.25) + sq(0.03))},
		{"read after a night", with(func(c *Conditions) { c.SinceStop = Is(Minutes(600)) }), false, math.Sqrt(sq(0.05) + sq(0.25) + sq(0.03))},
		{"at the hour", with(func(c *Conditions) { c.SinceStop = Is(Minutes(60)) }), false, 0.084},
		{"tail down", with(func(c *Conditions) { c.Stands = StandsTail }), false, math.Sqrt(0.007 + sq(0.25))},
		{"tail down again", with(func(c *Conditions) { c.Stands = StandsTail }), true, 0.084},
		{"as last time", with(func(c *Conditions) { c.Stands = StandsSame }), false, 0.084},
		{"on a slope", with(func(c *Conditions) { c.Stands = StandsOther }), true, math.Sqrt(0.007 + sq(0.25))},
		{"not scavenged", with(func(c *Conditions) { c.Scavenged = No }), false, math.Sqrt(0.007 + sq(0.3))},
		{"foam", with(func(c *Conditions) { c.Foam = Yes }), false, math.Sqrt(0.007 + sq(0.3))},
		{"known from outside", with(func(c *Conditions) { c.SD = Is(Quarts(0.35)) }), false, 0.35},
	} {
		if got := math.Sqrt(conditionVariance(c.c, c.like)); !near64(got, c.want, 0.0005) {
			t.Errorf("%s: sd %.4f, want %.4f", c.name, got, c.want)
		}
	}
	// Rounding alone: a half-quart stick is 0.144 qt, a quarter 0.072 (step / sqrt 12).
	if got := ReadingSD(0.5, Conditions{SD: Is(Quarts(0))}); !near64(float64(got), 0.144, 0.0005) {
		t.Errorf("half-quart stick %v", got)
	}
	for p, want := range map[Poured]float64{PouredMeasured: 0.03, PouredNormal: 0.10, PouredGuessed: 0.25, Poured(99): 0.25} {
		if got := math.Sqrt(addVariance(p)); !near64(got, want, 1e-12) {
			t.Errorf("poured %v: sd %v", p, got)
		}
	}
}

// 16 qt at 160 °F against 60 °F differ by 0.64 qt to first order; exactly
// 16 (1 - exp(-0.04)) = 0.627.
func TestTemperature(t *testing.T) {
	hot := atRef(16, Is(Fahrenheit(160)), 60)
	if got, want := 16-hot, 16*(1-math.Exp(-0.04)); !near64(got, want, 1e-12) || !near64(got, 0.64, 0.02) {
		t.Errorf("%v qt, want %v", got, want)
	}
	if got := onStick(hot, Is(Fahrenheit(160)), 60); !near64(float64(got), 16, 1e-12) {
		t.Errorf("back on the stick %v", got)
	}
	if atRef(16, Given[Fahrenheit]{}, 60) != 16 {
		t.Error("a temperature not given was corrected for")
	}
}

// A tank read at other temperatures, each logged, tells the same story.
func TestLoggedTemperatureCancels(t *testing.T) {
	settings, log := demo(t, "A")
	warm := make([]Reading, len(log))
	for i, r := range log {
		warm[i] = r
		warm[i].Conditions.Temp = Is(Fahrenheit(110 + 8*(i%7)))
		warm[i].Level = onStick(float64(r.Level), warm[i].Conditions.Temp, usualTemp)
	}
	as, bs := mustRun(t, settings, log), mustRun(t, settings, warm)
	for i := range as {
		if as[i].Verdict != bs[i].Verdict || !near64(float64(as[i].Now.Rate), float64(bs[i].Now.Rate), 1e-9) {
			t.Errorf("at %v h: %v %v, %v %v", as[i].Hours, as[i].Verdict, as[i].Now, bs[i].Verdict, bs[i].Now)
		}
	}
}

// Tail down every time is as steady as level every time, from the second on.
func TestTailDownEveryTime(t *testing.T) {
	settings, log := demo(t, "A")
	for i := range log {
		log[i].Conditions = Conditions{SinceStop: Is(Minutes(20)), Temp: Is(Fahrenheit(150)), Stands: StandsTail}
		if i == 3 {
			log[i].Conditions.Stands = StandsSame
		}
	}
	b, err := New(settings)
	if err != nil {
		t.Fatal(err)
	}
	for i, r := range log {
		l, _ := b.look(r)
		if got, want := math.Sqrt(l.base-0.25/12), 0.084; i > 0 && !near64(got, want, 0.0005) {
			t.Errorf("reading %d: sd %v, want %v", i, got, want)
		}
		b.Add(r)
	}
}

// The multiplier starts at 1, is capped both ways, and one wild reading counts
// as 3 sd at most.
func TestNoiseMultiplier(t *testing.T) {
	var n noise
	if n.lambda() != 1 {
		t.Errorf("starts at %v", n.lambda())
	}
	n.learn(30)
	if got := n.lambda(); !near64(got, 15.0/7, 1e-12) {
		t.Errorf("after one wild reading %v", got)
	}
	for range 100 {
		n.learn(3)
	}
	if n.lambda() != 6 {
		t.Errorf("all wild: %v", n.lambda())
	}
	n = noise{}
	for range 100 {
		n.learn(0)
	}
	if n.lambda() != 0.8 {
		t.Errorf("all perfect: %v", n.lambda())
	}
}
