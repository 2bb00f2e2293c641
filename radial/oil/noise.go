package oil

import "math"

// alpha is the thermal expansion of lubricating oil per °F. The API MPMS 11.1
// lubricating-oil group has alpha60 = 0.34878/rho60 per °F, 3.79e-4 to 4.06e-4
// for 920 to 860 kg/m³.
const alpha = 4e-4

const (
	usualTemp Fahrenheit = 150 // levels are brought to this when nothing is on file
	usualStep Quarts     = 0.5 // assumed, and said so, when nothing is on file
)

// atRef brings a level on the stick to the reference temperature. A level
// whose temperature is not given is not corrected; its variance is wider.
func atRef(stick Quarts, t Given[Fahrenheit], ref Fahrenheit) float64 {
	return float64(stick) * expansion(t, ref)
}

// onStick is the reverse: what the stick shows at temperature t.
func onStick(level float64, t Given[Fahrenheit], ref Fahrenheit) Quarts {
	return Quarts(level / expansion(t, ref))
}

func expansion(t Given[Fahrenheit], ref Fahrenheit) float64 {
	if !t.OK {
		return 1
	}
	return math.Exp(-alpha * float64(t.V-ref))
}

// perQuart: one US quart in litres, exactly.
const perQuart = 0.946352946

// variance of one level reading, qt², before the noise multiplier: rounding to
// a step q is taken as uniform, q²/12 (NIST TN 1297: a bound of unknown shape
// is rectangular; rule from memory), plus what the conditions add. like says
// whether the aeroplane stood as it did for the reading before.
func variance(step Quarts, c Conditions, like bool) float64 {
	q := float64(step)
	return q*q/12 + conditionVariance(c, like)
}

// conditionVariance, qt². The figures are assumed, not measured; the noise
// multiplier corrects them as a log grows.
func conditionVariance(c Conditions, like bool) float64 {
	if c.SD.OK {
		return sq(float64(c.SD.V))
	}
	v := sq(0.05)
	switch {
	case !c.SinceStop.OK:
		v += sq(0.15)
	case c.SinceStop.V >= 10 && c.SinceStop.V <= 60:
		v += sq(0.06)
	default:
		v += sq(0.25)
	}
	if c.Temp.OK {
		v += sq(0.03)
	} else {
		v += sq(0.06)
	}
	switch {
	case c.Stands == StandsNotGiven:
		v += sq(0.10)
	case c.Stands == StandsLevel, c.Stands == StandsSame, c.Stands == StandsTail && like:
	default:
		v += sq(0.25)
	}
	if c.Scavenged == No {
		v += sq(0.30)
	}
	if c.Foam == Yes {
		v += sq(0.30)
	}
	return v
}

// ReadingSD is the standard deviation of one level reading by itself: the
// rounding of its stick and its conditions.
func ReadingSD(step Quarts, c Conditions) Quarts {
	return Quarts(math.Sqrt(variance(step, c, false)))
}

// addVariance, qt², of an amount poured in.
func addVariance(p Poured) float64 {
	switch p {
	case PouredNormal:
		return sq(0.10)
	case PouredMeasured:
		return sq(0.03)
	}
	return sq(0.25)
}

func sq(x float64) float64 { return x * x }

// noise learns a multiplier on the reading variance from how far plain
// readings were off: as if six readings had been seen to be just as declared.
type noise struct {
	sum float64
	n   int
}

func (n *noise) lambda() float64 {
	return math.Min(math.Max((6+n.sum)/(6+float64(n.n)), 0.8), 6)
}

// learn takes the z of a reading that the likeliest history calls plain.
func (n *noise) learn(z float64) {
	n.sum += math.Min(z*z, 9) * n.lambda()
	n.n++
}
