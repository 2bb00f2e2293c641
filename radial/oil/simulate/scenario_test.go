package simulate

import "math/rand/v2"

// span is a uniform distribution.
type span struct{ lo, hi float64 }

func (s span) draw(r *rand.Rand) float64 { return s.lo + (s.hi-s.lo)*r.Float64() }

// scenario is a kind of engine, stick and person.
type scenario struct {
	name  string
	about string

	start, end, tau span // start and end in qt/h, tau in hours
	fall            fall
	settled         bool // starts where it ends
	stepAt, stepBy  span // hours and factor; none when 0
	habit           float64
	drift           float64

	gap      span    // hours between readings
	step     float64 // of the stick, qt
	sd       float64 // of a level, qt, beside its rounding
	declared float64 // what the method is told of it
	tails    bool    // one reading in ten is three times as bad
	misread  float64 // chance of each slip
	unlogged float64
	poured   float64 // quarts that go in for each quart written
	overfull float64 // lost overboard after each fill, qt
	horizon  float64 // hours
}

const ceiling = 0.6 // qt/h, invented, the same for all

// with is the base case, changed.
func with(name, about string, change func(*scenario)) scenario {
	s := scenario{
		name: name, about: about,
		start: span{1.2, 2.2}, end: span{0.25, 0.5}, tau: span{4, 14}, fall: exponential,
		gap: span{0.7, 3}, step: 0.5, sd: 0.1, declared: 0.1, poured: 1, horizon: 60,
	}
	change(&s)
	return s
}

func settled(s *scenario) {
	s.settled, s.end, s.horizon = true, span{0.3, 0.55}, 100
}

// scenarios in their published order; a place in it is part of the seed.
var scenarios = []scenario{
	with("A", "seats, 1/2 qt stick", func(s *scenario) {}),
	with("A4", "seats, 1/4 qt stick", func(s *scenario) { s.step = 0.25 }),
	with("B", "glazed", func(s *scenario) { s.start, s.end, s.tau = span{1.5, 2.2}, span{0.9, 1.4}, span{3, 8} }),
	with("C", "settled, then a step of 2 to 3.5", func(s *scenario) {
		settled(s)
		s.horizon, s.stepAt, s.stepBy = 60, span{15, 40}, span{2, 3.5}
	}),
	with("C2", "seats, then a step of 2 to 3", func(s *scenario) { s.stepAt, s.stepBy = span{28, 45}, span{2, 3} }),
	with("D", "settled, 100 h, no change", settled),
	with("D5", "settled, 5 % misread, 3 % of adds unlogged", func(s *scenario) { settled(s); s.misread, s.unlogged = 0.05, 0.03 }),
	with("E", "seats, poor conditions, declared", func(s *scenario) { s.sd, s.declared = 0.35, 0.35 }),
	with("F", "seats, poor conditions, not declared", func(s *scenario) { s.sd, s.tails = 0.35, true }),
	with("G", "seats, 5 % misread, 10 % of adds unlogged", func(s *scenario) { s.misread, s.unlogged = 0.05, 0.10 }),
	with("H", "ends at the ceiling", func(s *scenario) { s.end = span{ceiling, ceiling} }),
	with("I", "settled, drifts to double in 100 h", func(s *scenario) { settled(s); s.drift = 0.01 }),
	with("J", "very low use", func(s *scenario) { s.start, s.end = span{0.3, 0.8}, span{0.03, 0.12} }),
	with("K", "litres written as quarts, always", func(s *scenario) { s.poured = 1.057 }),
	with("L", "4 to 9 h between readings", func(s *scenario) { s.gap = span{4, 9} }),
	with("M", "seats slowly", func(s *scenario) { s.tau = span{15, 25} }),
	with("N", "another curve: hyperbola", func(s *scenario) { s.fall, s.tau = hyperbolic, span{8, 20} }),
	with("O", "another curve: straight, then flat", func(s *scenario) { s.fall = ramp }),
	with("P", "power habit changes by 25 % every 8 h", func(s *scenario) { s.habit = 0.25 }),
	with("Q", "overfull: 0.3 qt overboard after each fill", func(s *scenario) { s.overfull = 0.3 }),
}

// draw an engine.
func (s *scenario) draw(r *rand.Rand) truth {
	t := truth{start: s.start.draw(r), end: s.end.draw(r), tau: s.tau.draw(r), fall: s.fall, drift: s.drift}
	if s.settled {
		t.start = t.end
	}
	if s.stepBy != (span{}) {
		t.stepAt, t.stepBy = s.stepAt.draw(r), s.stepBy.draw(r)
	}
	if s.habit > 0 {
		t.habit = make([]float64, 16)
		for i := range t.habit {
			t.habit[i] = span{1 - s.habit, 1 + s.habit}.draw(r)
		}
	}
	return t
}
