package book

import (
	"math"

	"linkrod/radial/oil"
	"linkrod/radial/quantity"
)

// missing is the oil that left the tank while the engine stood, against the
// limit on file. nil when there are not two levels to compare.
func (b *Book) missing(s standing) *Missing {
	if !s.ok {
		return nil
	}
	e := b.engine
	gone := s.quarts()
	m := &Missing{Words: b.goneWords(s)}
	m.Line = LimitLine{Max: math.Max(2, math.Ceil(e.shown(gone))), Marks: []Mark{}, Pointer: b.amount(gone)}
	at := math.Max(0, e.shown(gone))
	m.Line.At = &at
	m.Verdict, m.Line = b.againstOvernight(gone, m.Line)
	m.Line.Chip = m.Verdict.Chip
	m.Line.Spoken = m.Words + ". " + m.Verdict.Word + ": " + m.Verdict.Reason
	m.Maths = b.missingSum(s)
	return m
}

// goneWords is the finding in a sentence: "1 qt has left the tank".
func (b *Book) goneWords(s standing) string {
	q := s.quarts()
	switch text := b.amount(q); {
	case q < 0.005 && q > -0.005:
		return "The stick reads what it read at the last stop"
	case q < 0:
		return "The stick reads " + b.amount(-q) + " more than at the last stop"
	case s.looked:
		return text + " has left the tank. " + s.accounted()
	default:
		return text + " has left the tank"
	}
}

// accounted is what was found of it.
func (s standing) accounted() string {
	all := figure(float64(s.gone.Gone), 1)
	return figure(float64(s.found), 1) + " of " + all + " fl oz found. " + figure(math.Max(0, float64(s.gone.Gone-s.found)), 1) + " not found yet"
}

// againstOvernight judges what is gone against the look and stop limits. From
// look up to and including stop is at the edge. The unrounded figure decides.
func (b *Book) againstOvernight(gone oil.Quarts, line LimitLine) (Verdict, LimitLine) {
	v, ok := b.value("overnight")
	if l := b.limitOf("overnight", nil); !ok && !b.disagreed("overnight") && l.part("stop").Given() {
		v, ok = Value{M: l.part("look"), Stop: l.part("stop")}, true
		line.Source = l.src
	}
	if !ok {
		line.None = noLimit
		if b.disagreed("overnight") {
			return verdictOf(Cant, "Two limits are on file and nobody has settled which holds."), line
		}
		return verdictOf(Cant, noLimit+". Add the page it stands on."), line
	}
	look, _ := quarts(v.M)
	stop, _ := quarts(v.Stop)
	if v.Source != nil {
		line.Source = sourceLine(v.Source)
	}
	line.Marks = []Mark{b.mark(look, "look"), b.mark(stop, "stop")}
	line.Max = math.Max(math.Ceil(b.engine.shown(stop)*8/3)/2, math.Ceil(2*b.engine.shown(gone))/2)
	limits := "look from " + short(v.M) + ", stop above " + short(v.Stop)
	switch {
	case gone > stop+hair:
		return verdictOf(Outside, "Over the stop of "+short(v.Stop)+"."), line
	case gone >= look-hair:
		return verdictOf(AtEdge, capital(limits)+"."), line
	}
	return verdictOf(Inside, "Under the look of "+short(v.M)+". A stick never clears an engine."), line
}

// hair is less than any stick shows: a limit met exactly must not be missed
// because litres became quarts on the way.
const hair = 1e-9

func (b *Book) mark(q oil.Quarts, word string) Mark {
	at := b.engine.shown(q)
	return Mark{at, figure(at, 2), word}
}

// missingSum is the arithmetic behind the figure.
func (b *Book) missingSum(s standing) Sum {
	level := func(a *answered) string {
		line := b.amount(a.reading.Level) + " at " + atHours(a.line)
		if d := stampOf(a.line).Day; d != "" {
			line += ", " + longDay(d)
		}
		if t := a.reading.Conditions.Temp; t.OK {
			return line + ", oil at " + figure(float64(t.V), 0) + " °F"
		}
		return line + ", oil temperature not given"
	}
	lines := []string{level(s.from)}
	if s.added > 0 {
		lines = append(lines, b.amount(s.added)+" added after that")
	}
	lines = append(lines, level(s.to))
	gone := "Gone: " + b.amount(s.quarts()) + ", " + ounces(s.gone.Gone)
	if s.gone.TempKnown {
		gone += ", both levels brought to 60 °F"
	}
	lines = append(lines, gone,
		"Reading error "+ounces(s.gone.U)+" (one standard deviation). Surely gone: "+ounces(s.gone.Surely)+". Could be gone: "+ounces(s.gone.Could)+". Each holds with 95 % on its own side.")
	if !s.gone.TempKnown {
		lines = append(lines, "The temperatures are not both given, so nothing was corrected: oil read cold stands lower.")
	}
	found := "Oil found in the sump, in cylinders or on the floor is not counted yet."
	if s.looked {
		found = s.accounted() + ". Reading errors are not taken off."
	}
	return Sum{"What left the tank", append(lines,
		found,
		"A stick never clears an engine: less than a half-quart stick can show may fill a cylinder.")}
}

// amount is US quarts in the book's unit, to what a stick can show.
func (b *Book) amount(q oil.Quarts) string {
	return figure(b.engine.shown(q), 2) + " " + b.engine.unit.Symbol()
}

func ounces(v oil.FluidOunces) string { return figure(float64(v), 1) + " fl oz" }

// figure is a computed number for showing: at most so many places, no zeros
// behind it.
func figure(v float64, places int) string {
	d, err := quantity.DecimalOf(v, places)
	if err != nil {
		return "not known"
	}
	return d.Shortest().Show()
}

// atHours is the meter as a line gives it: "541.6 h".
func atHours(l *line) string {
	if t, ok := l.body.(timed); ok && t.at().Given() {
		return short(t.at())
	}
	return "hours not given"
}
