package oil

// settled is the rate when the engine was first found level.
type settled struct {
	at       Hours // on the reader's own clock
	rate, sd float64
}

// A verdict is said from its first figure up and kept from its second.
type threshold struct{ say, keep Chance }

var (
	sayStep   = threshold{0.80, 0.50}
	sayCreep  = threshold{0.95, 0.50}
	sayOver   = threshold{0.95, 0.50}
	sayNot    = threshold{0.95, 0.70}
	saySeated = threshold{0.85, 0.60}
)

const (
	saySuspect  Chance = 0.50
	stillFalls  Chance = 0.50 // P(level) under this: falling
	keepFalling Chance = 0.60

	notBefore    Hours = 20 // not seating
	seatedBefore Hours = 15 // seated
	tooShort     Hours = 3  // less than this, or fewer readings than tooFew, is an average
	tooFew             = 3
	stillEarly   Hours = 5
	wideUntil    Hours = 15  // until then a wide band is too early as well
	wide               = 1.2 // of the rate
	wideOver           = 0.25
)

// reached is true from the threshold's say, or its keep where v is in force.
func (b *Bank) reached(c Chance, t threshold, v Verdict) bool {
	if b.said == v {
		return c >= t.keep
	}
	return c >= t.say
}

// judge gives the verdict on the latest used reading: the first that fits, the
// gravest first. It remembers what it said.
func (b *Bank) judge(a *Answer, h Hours) {
	c := a.Chances
	ceiling := b.settings.Ceiling.OK
	switch {
	case a.Shows != ShowsNow:
		a.Verdict = TooEarly

	case b.reached(c.Step, sayStep, StepUp):
		a.Verdict, a.Step.Cause = StepUp, Stepped
	case b.settled != nil && b.reached(c.Creep, sayCreep, StepUp):
		a.Verdict, a.Step.Cause = StepUp, Crept
	case b.settled != nil && ceiling && b.reached(c.Over, sayOver, StepUp):
		a.Verdict, a.Step.Cause = StepUp, OverCeiling

	case c.Suspect >= saySuspect:
		a.Verdict = ReadingSuspect

	case ceiling && h >= notBefore && b.reached(c.NotSeating, sayNot, NotSeating):
		a.Verdict = NotSeating

	case h >= seatedBefore && b.reached(c.Seated, saySeated, Seated):
		a.Verdict = Seated

	case a.Span < stillEarly,
		a.Span < wideUntil && a.Now.Hi > wideOver && float64(a.Now.Hi-a.Now.Lo) > wide*float64(a.Now.Rate):
		a.Verdict = TooEarly

	case b.said == Falling && c.Flat < keepFalling, c.Flat < stillFalls:
		a.Verdict = Falling
	default:
		a.Verdict = Levelling
	}
	if a.Verdict != ReadingSuspect {
		b.said = a.Verdict
	}
}
