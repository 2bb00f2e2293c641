package simulate

import (
	"encoding/binary"
	"math"
	"math/rand/v2"

	"linkrod/radial/oil"
)

// marks are the hours at which a rate is held against the truth: at the first
// reading from each on.
var marks = [...]float64{5, 10, 20, 30, 50}

// score is one log against its truth.
type score struct {
	at      [len(marks)]atMark
	average [2]bool // at the second and third reading the band held the true average
	ready   float64 // hour from which the rate is truly level and under the ceiling

	seated, notSeating, stepUp, suspect float64 // hour first said; never: infinite

	seatedTooSoon bool
	// Where there is a step: hours after it, and what was said before it.
	stepAfter, noticedAfter float64
	stepBefore              bool
}

// atMark has estimates less the truth, qt/h.
type atMark struct {
	raw, bank, oracle float64
	width             float64 // of the band
	holds             bool    // the band holds the truth
	oracleSE          float64
}

// run draws, flies and answers one log.
func (s *scenario) run(seed uint64) score {
	var key [32]byte
	binary.LittleEndian.PutUint64(key[:], seed)
	r := rand.New(rand.NewChaCha8(key))
	l := s.fly(r, s.draw(r))
	answers, err := oil.Run(s.settings(), l.lines)
	if err != nil {
		panic(err) // of the settings, which are ours
	}
	return s.score(&l, answers)
}

func (s *scenario) score(l *log, answers []oil.Answer) score {
	never := math.Inf(1)
	out := score{
		ready: l.truth.ready(s.horizon), seated: never, notSeating: never, stepUp: never, suspect: never,
		stepAfter: never, noticedAfter: never,
	}
	oracle := s.oracle(l)
	mark := 0
	for i, a := range answers {
		h, rate := l.hours[i], l.truth.rate(l.hours[i])
		for mark < len(marks) && h >= marks[mark] {
			out.at[mark] = atMark{
				raw: l.raw(i) - rate, bank: float64(a.Now.Rate) - rate, oracle: oracle[i].rate - rate,
				oracleSE: oracle[i].se,
				width:    float64(a.Now.Hi - a.Now.Lo),
				holds:    float64(a.Now.Lo) <= rate && rate <= float64(a.Now.Hi),
			}
			mark++
		}
		if i == 1 || i == 2 {
			mean := l.truth.used(0, h) / h
			out.average[i-1] = a.Average.OK && float64(a.Average.Lo) <= mean && mean <= float64(a.Average.Hi)
		}
		switch a.Verdict {
		case oil.Seated:
			if out.seated = min(out.seated, h); out.seated == h {
				out.seatedTooSoon = l.truth.stillFalling(h)
			}
		case oil.NotSeating:
			out.notSeating = min(out.notSeating, h)
		case oil.StepUp:
			out.stepUp = min(out.stepUp, h)
		case oil.ReadingSuspect:
			out.suspect = min(out.suspect, h)
		}
		after := h - l.truth.stepAt
		switch {
		case a.Verdict == oil.StepUp && after < 0:
			out.stepBefore = true
		case a.Verdict == oil.StepUp:
			out.stepAfter = min(out.stepAfter, after)
			fallthrough
		case a.Verdict == oil.ReadingSuspect && after >= 0:
			out.noticedAfter = min(out.noticedAfter, after)
		}
	}
	return out
}
