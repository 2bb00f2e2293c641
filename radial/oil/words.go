package oil

import (
	"math"
	"strconv"
	"strings"
)

// Unit is the shop's own unit of oil, for words only; everything is reckoned
// in US quarts.
type Unit struct {
	Symbol   string
	PerQuart float64 // how many of it make one US quart
}

// The units oil is poured in, all exact by definition (231 cubic inches to the
// US gallon, 4.54609 L to the imperial one).
var (
	USQuart       = Unit{"qt", 1}
	Litre         = Unit{"L", perQuart}
	ImperialQuart = Unit{"imp qt", perQuart / 1.1365225}
)

// Line is the one line: rate, band, hours and readings used, direction,
// against the ceiling.
//
//	0.41 (0.33 to 0.50) qt/h now, from 21 readings over 39 h; level; under the shop's 0.60
func Line(a Answer, u Unit) string {
	switch {
	case a.Left != Used:
		return Say(a, u)
	case a.Shows == ShowsNothing:
		return nothingYet(a)
	case a.Shows == ShowsAverage:
		return averageLine(a, u)
	}
	parts := []string{
		u.band(a.Now) + " " + u.Symbol + "/h now, from " + readings(a.Readings) + " over " + hours(a.Span),
		directionWord(a),
		against(a, u),
	}
	return strings.Join(parts, "; ")
}

// Say is the verdict in a sentence, and what to do where there is something.
//
//	not seating: 1.17 qt/h and not heading under 0.70. Call the shop before flying more.
func Say(a Answer, u Unit) string {
	switch {
	case a.Left != Used:
		return "this line is not used: " + a.Left.words()
	case a.Verdict == TooEarly && a.Shows == ShowsNothing:
		return nothingYet(a)
	case a.Verdict == TooEarly && a.Shows == ShowsAverage:
		return averageLine(a, u)
	}
	rate := u.rate(a.Now.Rate)
	switch a.Verdict {
	case TooEarly:
		return "too early to say"
	case StepUp:
		if a.Step.Fell() {
			return stepWords(a.Step, u) + "; the rate has fallen. Call the shop."
		}
		return "step up: " + stepWords(a.Step, u) + ". Call the shop."
	case ReadingSuspect:
		how := "lower"
		if a.Fit.Off > 0 {
			how = "higher"
		}
		return "does not fit: " + u.amount(Quarts(math.Abs(float64(a.Fit.Off)))) + " " + how +
			" than expected. Read it again before you fly."
	case NotSeating:
		return "not seating: " + rate + " " + u.Symbol + "/h and not heading under " + u.limit(a.Ceiling.V) +
			". Call the shop before flying more."
	case Seated:
		word := "seated: "
		if !a.Ceiling.OK {
			word = "levelled off: "
		}
		return word + u.band(a.Now) + ", level, " + against(a, u)
	case Falling:
		return "falling (bedding in): " + rate + ", between " + u.rate(a.Now.Lo) + " and " + u.rate(a.Now.Hi)
	case Levelling:
		return "levelling; not proven either way yet"
	case RateOnly:
		return "rate only: hours since the overhaul are not known, so bedding in is not judged"
	}
	return "no reading yet"
}

// Ask puts a hint as the question it is.
func Ask(h Hint, u Unit) string {
	switch h.Kind {
	case OilNotNoted:
		return "Was oil put in and not written down, about " + u.amount(h.Quarts) + "?"
	case AddNotPoured:
		return "Were the " + u.amount(h.Quarts) + " written down not put in?"
	case Litres:
		return "Was it read or written in litres?"
	case ReadCold:
		return "Was it read cold?"
	}
	return "Read it again."
}

// Maths are the lines behind the answer, for whoever asks.
func Maths(a Answer, u Unit) []string {
	left := "none left out"
	if n := len(a.LeftOuts); n > 0 {
		why := make([]string, n)
		for i, l := range a.LeftOuts {
			why[i] = l.words()
		}
		left = strconv.Itoa(n) + " left out (" + strings.Join(why, "; ") + ")"
	}
	step := "stick read to " + trim(float64(a.StickStep)*u.PerQuart, 3) + " " + u.Symbol
	if a.StepAssumed {
		step += ", assumed: the step is not on file"
	}
	lines := []string{readings(a.Readings) + " used over " + hours(a.Span) + ", " + left, step}
	if a.Shows != ShowsNow {
		return lines
	}
	return append(lines,
		"readings scatter "+fixed(math.Sqrt(a.Noise))+" times as much as their conditions say",
		"95 % band "+u.rate(a.Now.Lo)+" to "+u.rate(a.Now.Hi)+" "+u.Symbol+"/h about "+u.rate(a.Now.Rate),
		curveWords(a.Curve, u),
		weights(a),
		against(a, u))
}

func curveWords(c Curve, u Unit) string {
	s := "level at " + u.rate(c.At(c.To))
	if c.Shape.Rho != 1 {
		s = "falls to " + fixed(c.Shape.Rho) + " of " + u.rate(c.Start) + " " + u.Symbol + "/h, time constant " + hours(c.Shape.Tau)
	}
	return "best curve: " + s + ", weight " + fixed(float64(c.Weight))
}

// weights of what was weighed; without a ceiling or the hours since overhaul
// some is not.
func weights(a Answer) string {
	bedding := a.HoursKnown && a.Ceiling.OK
	c := a.Chances
	s := "weight of level " + fixed(float64(c.Flat))
	for _, w := range [...]struct {
		name  string
		c     Chance
		given bool
	}{
		{"seated", c.Seated, bedding},
		{"not seating", c.NotSeating, bedding},
		{"over the ceiling now", c.Over, a.Ceiling.OK},
		{"step up", c.Step, true},
		{"crept up", c.Creep, true},
		{"this reading doubtful", c.Suspect, true},
	} {
		if w.given {
			s += ", " + w.name + " " + fixed(float64(w.c))
		}
	}
	return s
}

func nothingYet(a Answer) string {
	if a.Readings == 1 {
		return "one reading: no rate yet"
	}
	return "too early to say"
}

func averageLine(a Answer, u Unit) string {
	over := "first "
	if a.Average.Hours != a.Span {
		over = "last "
	}
	one := func(r QtPerHour) string { return tenths(float64(r) * u.PerQuart) }
	return "average over the " + over + hours(a.Average.Hours) + ": between " +
		one(a.Average.Lo) + " and " + one(a.Average.Hi) + " " + u.Symbol + "/h"
}

func stepWords(s Step, u Unit) string {
	at := strconv.FormatFloat(float64(s.About), 'f', 0, 64)
	before, now := u.rate(s.Before), u.rate(s.Now)
	switch s.Cause {
	case Crept:
		return "crept up since it was level at hour " + at + ": " + before + " then, " + now + " now"
	case OverCeiling:
		return "over the shop's ceiling since it was level at hour " + at + ": " + before + " then, " + now + " now"
	}
	return "something changed about hour " + at + ": " + before + " before, " + now + " now"
}

func directionWord(a Answer) string {
	switch a.Direction {
	case GoingDown:
		return "falling"
	case NearlyLevel:
		return "levelling"
	case Level:
		return "level"
	case GoingUp:
		if a.Step.Fell() {
			return "something changed, fallen since"
		}
		return "stepped up"
	}
	if !a.HoursKnown && a.Said == RateOnly {
		return "hours since the overhaul not known"
	}
	return "too early to say which way"
}

// against says where the unrounded band lies to the ceiling.
func against(a Answer, u Unit) string {
	if !a.Ceiling.OK {
		return "no limit on file"
	}
	c := a.Ceiling.V
	shop := "the shop's " + u.limit(c)
	switch {
	case a.Now.Hi <= c:
		return "under " + shop
	case a.Now.Lo > c:
		return "over " + shop
	case a.Now.Rate <= c:
		return "the band reaches over " + shop
	}
	return "the band reaches under " + shop
}

func (l LeftOut) words() string {
	switch l {
	case HoursGoBack:
		return "hours go back"
	case HoursNotNumber:
		return "the hours are not a number a meter shows"
	case HoursBefore:
		return "the hours are before the overhaul"
	case LevelNotNumber:
		return "the level is not a number"
	case LevelOutsideTank:
		return "level is outside the tank"
	case AddedNotNumber:
		return "the oil added is not an amount that can be poured"
	case ConditionNotNumber:
		return "the minutes or the temperature cannot be"
	}
	return ""
}

func (u Unit) rate(r QtPerHour) string { return fixed(float64(r) * u.PerQuart) }

func (u Unit) band(b Band) string {
	return u.rate(b.Rate) + " (" + u.rate(b.Lo) + " to " + u.rate(b.Hi) + ")"
}

// limit shows two decimals and never fewer than the ceiling was given with, to
// four: a limit is not rounded to fit.
func (u Unit) limit(r QtPerHour) string {
	x := float64(r) * u.PerQuart
	if s := trim(x, 4); len(s)-strings.IndexByte(s, '.') > 3 && u.PerQuart == 1 && strings.Contains(s, ".") {
		return s
	}
	return fixed(x)
}

func (u Unit) amount(q Quarts) string { return trim(float64(q)*u.PerQuart, 1) + " " + u.Symbol }

func readings(n int) string {
	if n == 1 {
		return "1 reading"
	}
	return strconv.Itoa(n) + " readings"
}

func hours(h Hours) string { return trim(float64(h), 1) + " h" }

// fixed is two decimals, the precision a rate is known to.
func fixed(x float64) string { return strconv.FormatFloat(x, 'f', 2, 64) }

func tenths(x float64) string { return strconv.FormatFloat(x, 'f', 1, 64) }

// trim is at most n decimals and no zero after a whole number.
func trim(x float64, n int) string {
	s := strconv.FormatFloat(x, 'f', n, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}
