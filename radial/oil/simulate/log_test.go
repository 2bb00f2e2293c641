package simulate

import (
	"math"
	"math/rand/v2"

	"linkrod/radial/oil"
)

const (
	fullTank   = 16.0 // qt, where every log starts
	addAt      = 12.5 // qt: at or under this, oil is poured in
	flight     = 1.5  // h
	scatter    = 0.15 // sd of one flight's use about the average, as a share
	pourSpread = 0.125
)

// drainsAfter: the first reading past each of these hours is an oil change.
var drainsAfter = [...]float64{10, 25}

// log is what the person wrote, and beside each line what only the simulator
// knows.
type log struct {
	truth  truth
	lines  []oil.Reading
	hours  []float64 // of each line, not rounded to the meter
	spread []float64 // variance of what was used since the line before, qt²
}

// fly an engine to the first reading past the horizon.
func (s *scenario) fly(r *rand.Rand, t truth) log {
	l := log{truth: t}
	tank, h, drains := fullTank, 0.0, 0
	var spread float64
	for {
		line := oil.Reading{
			Hours:      oil.Hours(math.Round(10*h) / 10),
			Level:      oil.Quarts(s.read(r, tank)),
			Conditions: oil.Conditions{SD: oil.Is(oil.Quarts(s.declared))},
		}
		switch {
		case drains < len(drainsAfter) && h > drainsAfter[drains]:
			drains++
			line.Drained = oil.DrainedSame
			tank = float64(line.Level) + s.sd*r.NormFloat64() + span{-s.step / 2, s.step / 2}.draw(r)
		case line.Level <= addAt:
			added := math.Floor(fullTank - float64(line.Level))
			tank += added*s.poured + span{-pourSpread, pourSpread}.draw(r) - s.overfull
			if r.Float64() >= s.unlogged {
				line.Added = oil.Quarts(added)
			}
		}
		l.lines, l.hours, l.spread = append(l.lines, line), append(l.hours, h), append(l.spread, spread)

		if h >= s.horizon {
			return l
		}
		next := h + s.gap.draw(r)
		spread = 0
		for h < next {
			landed := min(h+flight, next)
			used := t.used(h, landed)
			tank -= used * (1 + scatter*r.NormFloat64())
			spread += used * used * scatter * scatter
			h = landed
		}
	}
}

// read the stick.
func (s *scenario) read(r *rand.Rand, tank float64) float64 {
	sd := s.sd
	if s.tails && r.IntN(10) == 0 {
		sd *= 3
	}
	round := func(x float64) float64 { return math.Round(x/s.step) * s.step }
	level := round(tank + sd*r.NormFloat64())
	if r.Float64() < s.misread {
		slip := span{1, 2}.draw(r)
		if r.IntN(2) == 0 {
			slip = -slip
		}
		level += round(slip)
	}
	return level
}

// settings is what the method is told beside the readings.
func (s *scenario) settings() oil.Settings {
	return oil.Settings{
		StickStep:  oil.Is(oil.Quarts(s.step)),
		Ceiling:    oil.Is(oil.QtPerHour(ceiling)),
		HoursKnown: true,
	}
}
