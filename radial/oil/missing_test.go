package oil

import (
	"math"
	"strings"
	"testing"
)

// What a stick cannot exclude: with nothing missing at all, still up to 13.1
// fl oz on a half-quart stick, 106 % of a 12.4 fl oz clearance volume; 6.5 and
// 53 % at best. (Worked by hand from the formula: S² = q²/12 + sc², u = 32 sqrt(2) S.)
func TestAStickNeverClears(t *testing.T) {
	for _, c := range []struct{ step, conditions, u, could, share float64 }{
		{0.5, 0.10, 7.9, 13.1, 1.06},
		{0.25, 0.05, 4.0, 6.5, 0.53},
	} {
		sd := ReadingSD(Quarts(c.step), Conditions{SD: Is(Quarts(c.conditions))})
		m, err := Account(Parking{
			Shutdown: Standing{Level: 14, SD: sd}, Start: Standing{Level: 14, SD: sd},
		})
		if err != nil {
			t.Fatal(err)
		}
		if !near64(float64(m.U), c.u, 0.06) || !near64(float64(m.Could), c.could, 0.06) || !near64(float64(m.Could)/12.4, c.share, 0.006) || m.Surely != 0 {
			t.Errorf("step %v: %+v", c.step, m)
		}
		text := strings.Join(m.Say(), "\n")
		for _, want := range []string{"temperature not given", Caution} {
			if !strings.Contains(text, want) {
				t.Errorf("no %q in\n%s", want, text)
			}
		}
		checkWords(t, text)
	}
}

// Parked 22 days, 13.5 to 12 quarts, 29.5 fl oz found.
func TestShownMissing(t *testing.T) {
	p := Parking{
		Shutdown: Standing{Level: 13.5, SD: 0.15}, Start: Standing{Level: 12, SD: 0.15},
		Found: []Found{{26, JugSD}, {1, JarSD}, {2.5, JarSD}},
	}
	m, err := Account(p)
	if err != nil {
		t.Fatal(err)
	}
	if m.TempKnown || m.AtLeast(3.1) != 1 {
		t.Errorf("%+v", m)
	}
	text := strings.Join(m.Say(), "\n")
	for _, want := range []string{
		"48.0 fl oz left the tank, 18.5 fl oz not found: surely 7.3 fl oz, could be 29.7 fl oz.",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	checkWords(t, text)

	// Read hot and then cold, the same levels show nothing. A temperature
	// given for one of the two corrects nothing.
	p.Shutdown.Temp, p.Start.Temp = Is(Fahrenheit(150)), Is(Fahrenheit(45))
	m, err = Account(p)
	if err != nil || !m.TempKnown || m.Surely != 0 {
		t.Errorf("%+v, %v", m, err)
	}
	guessed := m.U
	p.Start.TempSD, p.Shutdown.TempSD = Is(Fahrenheit(5)), Is(Fahrenheit(5))
	if m, _ = Account(p); m.U >= guessed {
		t.Errorf("u %v with a thermometer, %v by guess", m.U, guessed)
	}
	p.Start.Temp.OK = false
	if m, _ = Account(p); m.TempKnown || !near64(float64(m.Gone), 48, 1e-12) {
		t.Errorf("one temperature: %+v", m)
	}
}

// Markov's bound against the closed form where it is not 1: for rest 0,
// E[rest+] = u / sqrt(2 pi).
func TestAtLeast(t *testing.T) {
	share := ShareOf([]float64{0.02, 0.05, 0.01, 0.04, 0.1})
	if !near64(share, 0.15, 1e-12) {
		t.Errorf("share %v, want 1.5 times the largest", share)
	}
	m, err := Account(Parking{
		Shutdown: Standing{Level: 14, SD: 0.1}, Start: Standing{Level: 14, SD: 0.1},
		Share: Is(share),
	})
	if err != nil {
		t.Fatal(err)
	}
	u := 32 * 0.1 * math.Sqrt2
	if got, want := float64(m.AtLeast(6)), share*u/math.Sqrt(2*math.Pi)/(0.5*12); !near64(got, want, 1e-12) {
		t.Errorf("%v, want %v", got, want)
	}
	if m.AtLeast(0) != 1 || m.AtLeast(FluidOunces(math.NaN())) != 1 || m.AtLeast(-1) != 1 {
		t.Error("a bound on nothing is not 1")
	}
	exact, err := Account(Parking{Shutdown: Standing{Level: 14}, Start: Standing{Level: 13.9}})
	if err != nil {
		t.Fatal(err)
	}
	if got := exact.AtLeast(6.4); !near64(float64(got), 0.5, 1e-9) {
		t.Errorf("3.2 fl oz known exactly, half of 12.8: %v, want 0.5", got)
	}
	for _, few := range [][]float64{nil, {0, 0, 0, 0}, {0, 0, 0, 0, -1}, {0, 0, 0, 0, math.NaN()}, {0.9, 0, 0, 0, 0}} {
		if got := ShareOf(few); got != 1 {
			t.Errorf("share of %v is %v", few, got)
		}
	}
}

// What is expected over nothing, E[rest+], by numbers: Simpson's rule over the normal
// distribution, for rests on both sides of 0.
func TestAtLeastAgainstQuadrature(t *testing.T) {
	for _, m := range []Missing{{Rest: 3, U: 2, share: 1}, {Rest: -2, U: 2.5, share: 0.5}, {Rest: 0.4, U: 7.9, share: 0.2}} {
		const n = 4000
		rest, u := float64(m.Rest), float64(m.U)
		top := math.Max(rest, 0) + 12*u
		step := top / n
		var sum float64
		for i := 0; i <= n; i++ {
			x := float64(i) * step
			w := float64(2 + 2*(i%2))
			if i == 0 || i == n {
				w = 1
			}
			sum += w * x * math.Exp(-sq((x-rest)/u)/2) / (u * math.Sqrt(2*math.Pi))
		}
		want := m.share * sum * step / 3 / 40
		if got := float64(m.AtLeast(40)); !near64(got, want, 1e-9) {
			t.Errorf("%+v: %v, Simpson says %v", m, got, want)
		}
	}
}

// Finding oil can only lower what is missing; a less certain find widens it.
func TestFoundOil(t *testing.T) {
	p := Parking{Shutdown: Standing{Level: 14, SD: 0.1}, Start: Standing{Level: 13, SD: 0.1}}
	none, _ := Account(p)
	p.Found = []Found{{4, JarSD}}
	some, _ := Account(p)
	if !near64(float64(none.Rest-some.Rest), 4, 1e-12) || some.U <= none.U || some.Surely >= none.Surely {
		t.Errorf("%+v then %+v", none, some)
	}
}

// What is taken to the last and refused just beyond: a tank of 1,000 quarts is none of these
// engines', and oil is neither at −100 °F nor at 600.
func TestAccountAtItsEnds(t *testing.T) {
	hair := func(v float64) float64 { return v + 1e-6 }
	for _, tt := range []struct {
		name string
		set  func(*Parking, float64)
		low  float64
		high float64
	}{
		{"a level", func(p *Parking, v float64) { p.Shutdown.Level = Quarts(v) }, 0, 1000},
		{"its error", func(p *Parking, v float64) { p.Start.SD = Quarts(v) }, 0, 1000},
		{"temperature", func(p *Parking, v float64) { p.Shutdown.Temp = Is(Fahrenheit(v)) }, -100, 600},
		{"how well it is known", func(p *Parking, v float64) { p.Start.TempSD = Is(Fahrenheit(v)) }, 0, 600},
		{"found", func(p *Parking, v float64) { p.Found = []Found{{Volume: FluidOunces(v)}} }, 0, 100_000},
		{"its error", func(p *Parking, v float64) { p.Found = []Found{{SD: FluidOunces(v)}} }, 0, 100_000},
		{"share", func(p *Parking, v float64) { p.Share = Is(v) }, 0, 1},
	} {
		for v, taken := range map[float64]bool{tt.low: true, tt.high: true, tt.low - 1e-6: false, hair(tt.high): false} {
			p := Parking{Shutdown: Standing{Level: 14}, Start: Standing{Level: 13}}
			tt.set(&p, v)
			if _, err := Account(p); (err == nil) != taken {
				t.Errorf("%s %v: %v", tt.name, v, err)
			}
		}
	}
}

func TestSettingsAtTheirEnds(t *testing.T) {
	for _, tt := range []struct {
		name      string
		set       func(*Settings, float64)
		low, high float64
	}{
		{"capacity", func(s *Settings, v float64) { s.Capacity = Is(Quarts(v)) }, 1e-9, 1000},
		{"step", func(s *Settings, v float64) { s.StickStep = Is(Quarts(v)) }, 0.01, 10},
		{"ceiling", func(s *Settings, v float64) { s.Ceiling = Is(QtPerHour(v)) }, 0.01, 100},
		{"temperature", func(s *Settings, v float64) { s.RefTemp = Is(Fahrenheit(v)) }, -100, 600},
	} {
		for v, taken := range map[float64]bool{tt.low: true, tt.high: true, tt.low - 1e-6: false, tt.high + 1e-6: false} {
			var s Settings
			tt.set(&s, v)
			if _, err := New(s); (err == nil) != taken {
				t.Errorf("%s %v: %v", tt.name, v, err)
			}
		}
	}
}

func TestAccountRefuses(t *testing.T) {
	fine := func() Parking { return Parking{Shutdown: Standing{Level: 14}, Start: Standing{Level: 13}} }
	for name, spoil := range map[string]func(*Parking){
		"a level":         func(p *Parking) { p.Start.Level = Quarts(math.NaN()) },
		"temperature":     func(p *Parking) { p.Shutdown.Temp = Is(Fahrenheit(math.Inf(1))) },
		"an amount found": func(p *Parking) { p.Found = []Found{{-1, 0}} },
		"the share":       func(p *Parking) { p.Share = Is(1.5) },
	} {
		p := fine()
		spoil(&p)
		_, err := Account(p)
		if err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: %v", name, err)
			continue
		}
		checkWords(t, err.Error())
	}
	if _, err := Account(fine()); err != nil {
		t.Error(err)
	}
}
