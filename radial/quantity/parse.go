package quantity

import (
	"strconv"
	"strings"
	"unicode"
)

// Reading is what Parse made of what somebody typed.
type Reading struct {
	Measured Measured
	Typed    string // untouched
	Plus     bool   // it began with a plus: something added
	Echo     string // the value in words, and how it was understood if that took a step
}

// Parse reads what a person typed into a box that is kept in the unit def. A bare
// number is in def; a number with a unit of the same kind is taken as typed, in
// its own unit, and nothing is converted.
//
// It takes a decimal point or comma, a missing leading zero, the fractions of a
// rule and the signs for them, a leading plus or minus, a unit in any usual
// spelling, two units that go into each other (1 gal 2 qt), and hours with
// minutes as 1:30 or 1 h 30.
//
//	5 1/4   5-1/4   5¼   ½   .008   25.0   8 thou   300 in-lb   2,5 l   1:30   +1
//
// It never guesses. What can be read two ways is refused with both readings,
// and so is everything else with a Refusal, whose sentence says what was typed,
// why it was not taken, and what is.
func Parse(typed string, def Unit) (Reading, error) {
	f, ok := def.facts()
	if !ok {
		return Reading{}, refuse(WhyUnit, typed, quoted(string(def))+" is not a unit this Linkrod knows.")
	}
	return parse(typed, f.dim, def)
}

// ParseSaid reads as Parse does where no unit may be assumed: the unit has to be
// typed. Torque is always asked for in this way.
func ParseSaid(typed string, want Dimension) (Reading, error) {
	if want == NoDimension || want >= dimensionCount {
		return Reading{}, refuse(WhyUnit, typed, "There is nothing to measure here.")
	}
	return parse(typed, want, "")
}

func parse(typed string, want Dimension, def Unit) (Reading, error) {
	s := tidy(typed)
	if s == "" {
		return Reading{}, refuse(WhyEmpty, typed, "Nothing is typed yet. This takes "+dimensions[want].usual+".")
	}
	s, neg, plus := sign(s)
	if s == "" {
		_, _, err := noNumber(s, typed)
		return Reading{}, err
	}
	parts, err := partsOf(s, typed, want, def)
	if err != nil {
		return Reading{}, err
	}
	m, echo, err := together(parts, typed)
	if err != nil {
		return Reading{}, err
	}
	if neg {
		m.Value = m.Value.Neg()
		echo = m.Words()
	}
	if err := possible(m, typed); err != nil {
		return Reading{}, err
	}
	return Reading{m, typed, plus, echo}, nil
}

// possible refuses what cannot be: less than nothing, colder than anything.
func possible(m Measured, typed string) error {
	d := dimensions[m.Dimension()]
	if m.Value.Sign() < 0 && !d.signed {
		return refuse(WhySign, typed, m.shown()+" is less than nothing. "+upper(d.one)+" starts at 0.", m.Value.Abs().Text()+" "+m.Unit.Symbol())
	}
	f, err := m.exactly()
	if err == nil && m.Dimension() == DimTemperature && f.neg && !f.isZero() {
		return refuse(WhyRange, typed, m.shown()+" is colder than anything can be.")
	}
	return err
}

func upper(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// partsOf takes s apart into figures with their units: one, or several as in
// 1 gal 2 qt.
func partsOf(s, typed string, want Dimension, def Unit) ([]Measured, error) {
	if want == DimTime && strings.Contains(s, ":") {
		return clock(s, typed, def)
	}
	var parts []Measured
	for s != "" {
		d, rest, err := number(s, typed)
		if err != nil {
			return nil, err
		}
		n := unitLength(rest)
		raw := rest[:n]
		word := strings.TrimSpace(raw)
		s = rest[n:]
		if glued := raw != "" && len(word) == len(raw); glued && !known(word) &&
			(s != "" && strings.IndexFunc(word, unicode.IsLetter) >= 0 || strings.Trim(word, "oO") == "") {
			return nil, refuse(WhyLetter, typed, "There is a letter inside the figure "+quoted(typed)+". Type 0 to 9 and one point.")
		}
		if s != "" && word != "" && strings.IndexFunc(word, unicode.IsLetter) < 0 && !known(word) ||
			s != "" && strings.HasSuffix(word, "-") || strings.Contains(word, "+") {
			return nil, twoFigures(typed)
		}
		// 1 h 30: a bare figure after hours is minutes.
		if last := len(parts) - 1; word == "" && last >= 0 && parts[last].Unit == UnitH {
			parts = append(parts, Measured{d, UnitMin})
			continue
		}
		u, err := unitTyped(word, d, typed, want, def)
		if err != nil {
			return nil, err
		}
		parts = append(parts, Measured{d, u})
	}
	return parts, nil
}

// unitLength is how much of s belongs to the unit at its head: everything up to
// the next figure, but for the 3 of in3 and cm3 and the 2 of lb/in2.
func unitLength(s string) int {
	for i := 0; i < len(s); i++ {
		if s[i] == '.' || s[i] == ',' {
			if i+1 < len(s) && isDigit(s[i+1]) {
				return i
			}
			continue
		}
		power := (s[i] == '3' || s[i] == '2') && i >= 2 && (i+1 == len(s) || s[i+1] == ' ') &&
			(strings.EqualFold(s[i-2:i], "in") || strings.EqualFold(s[i-2:i], "cm"))
		if isDigit(s[i]) && !power {
			return i
		}
	}
	return len(s)
}

func known(word string) bool {
	_, ok := unitSpelled(spelled(word), NoDimension)
	return ok
}

// unitTyped is the unit that the word after figure d means here.
func unitTyped(word string, d Decimal, typed string, want Dimension, def Unit) (Unit, error) {
	spelling := spelled(word)
	if want == DimTemperature && (spelling == "°" || spelling == "deg" || spelling == "degrees") {
		spelling = ""
	}
	if spelling == "" {
		if def == "" {
			return "", unitAsked(d, typed, want)
		}
		return def, nil
	}
	if a, ok := ambiguous[spelling]; ok && want == DimLength {
		return "", refuse(WhyTwoWays, typed, a.sentence,
			Measured{d, a.instead[0]}.Text(), Measured{d, a.instead[1]}.Text())
	}
	u, ok := unitSpelled(spelling, want)
	if !ok {
		return "", refuse(WhyUnit, typed, quoted(word)+" is not a unit known here. This takes "+dimensions[want].usual+".")
	}
	if u.Dimension() != want {
		return "", refuse(WhyOtherKind, typed, quoted(word)+" is a unit of "+u.Dimension().String()+". This takes "+dimensions[want].usual+".")
	}
	// On an engine kept in imperial measure a plain quart may be either.
	if twin, ok := imperialTwin[u]; ok && !strings.HasPrefix(spelling, "us") && imperial(def) {
		return "", refuse(WhyTwoWays, typed, "Which "+strings.TrimPrefix(u.Singular(), "US ")+"? "+inLitres("US", u)+" "+inLitres("imperial", twin),
			d.Text()+" US "+u.Symbol(), Measured{d, twin}.Text())
	}
	return u, nil
}

func imperial(u Unit) bool { return strings.HasPrefix(string(u), "imp_") }

// inLitres says how large the unit is, "The US one is 0.946 L."
func inLitres(which string, u Unit) string {
	metric := UnitL
	if u.Dimension() == DimOilRate {
		metric = UnitLPerH
	}
	m, _, _ := Measured{Whole(1), u}.Rounded(metric, 3)
	return "The " + which + " one is " + m.shown() + "."
}

// unitAsked is the question for the unit that was not typed.
func unitAsked(d Decimal, typed string, want Dimension) error {
	if want == DimTorque {
		return refuse(WhyNoUnit, typed, d.Show()+" of what? Inch pounds or foot pounds. Twelve times apart.",
			Measured{d, UnitInLb}.Text(), Measured{d, UnitFtLb}.Text())
	}
	return refuse(WhyNoUnit, typed, d.Show()+" of what? "+upper(dimensions[want].usual)+".")
}

// clock reads hours and minutes with a colon, 1:30.
func clock(s, typed string, def Unit) ([]Measured, error) {
	n := span(s, func(c byte) bool { return isDigit(c) || c == ':' })
	unit, isTime := unitSpelled(spelled(s[n:]), DimTime)
	hours, minutes, _ := strings.Cut(s[:n], ":")
	h, errH := strconv.Atoi(hours)
	m, errM := strconv.Atoi(minutes)
	switch {
	case errH != nil || errM != nil || len(minutes) != 2 || len(hours) > 6, s[n:] != "" && !(isTime && unit == UnitH):
		return nil, refuse(WhyRange, typed, quoted(typed)+" is not hours and minutes. Type them as 1:30, or hours as 1.5.")
	case m > 59:
		return nil, refuse(WhyRange, typed, quoted(typed)+" has "+wholeWords(m)+" minutes, and an hour has sixty.")
	case def == UnitMin && s[n:] == "":
		return nil, refuse(WhyTwoWays, typed, quoted(typed)+" can be hours and minutes or minutes and seconds. Type the minutes alone.")
	}
	return []Measured{{Whole(h), UnitH}, {Whole(m), UnitMin}}, nil
}

// together adds up the parts of a reading and says how it was understood: "one
// hour thirty minutes, 1.5 hours". The sum is in the smallest unit typed, hours
// and minutes are in hours. Where minutes are no decimal hours (twenty of them
// never end) the sum stays in minutes, so that nothing is rounded.
func together(parts []Measured, typed string) (Measured, string, error) {
	last := len(parts) - 1
	sum := parts[last]
	if last == 0 {
		return sum, sum.Words(), nil
	}
	var said []string
	for i, part := range parts {
		if part.Value.Sign() != 0 {
			said = append(said, part.plainWords())
		}
		if i == last {
			break
		}
		one := Measured{Whole(1), part.Unit}
		next, err := one.Exactly(parts[i+1].Unit)
		less, _ := Compare(parts[i+1], one)
		if err != nil || !next.Value.IsWhole() || next.Value.Compare(Whole(1)) <= 0 || !part.Value.IsWhole() || less >= 0 {
			return Measured{}, "", twoFigures(typed)
		}
		larger, err := part.Exactly(sum.Unit)
		if err == nil {
			sum, err = Add(sum, larger)
		}
		if err != nil {
			return Measured{}, "", err
		}
	}
	if sum.Unit == UnitMin {
		if hours, err := sum.Exactly(UnitH); err == nil {
			sum = hours
		}
	}
	if tooLong(sum.Value) {
		return Measured{}, "", refuse(WhyTooLong, typed, quoted(typed)+" comes to more than "+wholeWords(mostFigures)+" figures. Type it shorter.")
	}
	if len(said) == 0 {
		return sum, sum.Words(), nil
	}
	return sum, strings.Join(said, " ") + ", " + figureWords(sum), nil
}
