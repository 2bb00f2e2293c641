package quantity

import "strings"

// Words says the value back, so that a wrong unit or a slipped point is heard:
//
//	15 qt      fifteen quarts
//	15.5 qt    fifteen and a half quarts
//	300 in-lb  three hundred inch pounds, twenty-five foot pounds
//	8 thou     eight thou, 0.008 inch, 0.20 millimetre
//	0.25 qt/h  point two five quarts an hour, four hours a quart
//
// A second figure that had to be rounded says "about". A value not given is "not
// given".
func (m Measured) Words() string {
	if !m.Given() {
		return "not given"
	}
	said := m.plainWords()
	switch m.Dimension() {
	case DimTorque:
		if other, ok := m.otherTorqueWords(); ok {
			said += ", " + other
		}
	case DimLength:
		said = m.lengthWords()
	case DimOilRate:
		if other, ok := m.otherRateWords(); ok {
			said += ", " + other
		}
	}
	return said
}

// Loud is Words with the unit in capitals where mistaking it does harm: "two
// hundred ninety-five point five INCH pounds, …".
func (m Measured) Loud() string {
	said := m.Words()
	for _, u := range []string{"inch pound", "foot pound"} {
		if first, _, found := strings.Cut(said, ","); found && strings.Contains(first, u) || strings.HasSuffix(said, u+"s") && !found {
			said = strings.Replace(said, u, strings.ToUpper(u[:4])+u[4:], 1)
			break
		}
	}
	return said
}

// unitWord is the unit's word for this many of it.
func (m Measured) unitWord() string {
	if m.Value.Abs().Compare(Whole(1)) == 0 && m.Value.Places() == 0 {
		return m.Unit.Singular()
	}
	return m.Unit.Plural()
}

// plainWords is the value and its unit in words.
func (m Measured) plainWords() string {
	half := Decimal{5, 1}
	if v := m.Value; m.Dimension() == DimVolume && v.Places() == 1 && v.coef > 0 && v.coef%10 == 5 {
		if v == half {
			return "half " + article(m.Unit.Singular())
		}
		return Whole(int(v.coef/10)).Words() + " and a half " + m.Unit.Plural()
	}
	return m.Value.Words() + " " + m.unitWord()
}

// article is the word with a or an before it.
func article(word string) string {
	if strings.ContainsAny(word[:1], "aeiou") && !strings.HasPrefix(word, "US") {
		return "an " + word
	}
	return "a " + word
}

// alsoIn is the value in another unit as it is said after the first figure:
// exact if three places hold it, otherwise rounded to one place and about.
func (m Measured) alsoIn(u Unit) (other Measured, about string, ok bool) {
	if exact, err := m.Exactly(u); err == nil && exact.Value.Places() <= 3 {
		return exact, "", true
	}
	other, exact, err := m.Rounded(u, 1)
	if err != nil {
		return Measured{}, "", false
	}
	if !exact {
		about = "about "
	}
	return other, about, true
}

// counterpart is the other unit that a torque is always said in as well.
func counterpart(u Unit) Unit {
	if u == UnitFtLb {
		return UnitInLb
	}
	return UnitFtLb
}

func (m Measured) otherTorqueWords() (string, bool) {
	other, about, ok := m.alsoIn(counterpart(m.Unit))
	return about + other.plainWords(), ok
}

func (m Measured) otherTorque() (string, bool) {
	other, about, ok := m.alsoIn(counterpart(m.Unit))
	return about + other.Value.Show() + thin + other.unitWord(), ok
}

// otherRateWords says an oil rate the other way round.
func (m Measured) otherRateWords() (string, bool) {
	to := UnitHPerQt
	if m.Unit == UnitHPerQt {
		to = UnitQtPerH
	} else if m.Value.Sign() == 0 {
		return "so there are no hours to a quart", true
	}
	other, about, ok := m.alsoIn(to)
	return about + other.plainWords(), ok
}

// lengthWords says a length small enough to be a clearance in thou, inches and
// millimetres, and any other in words with the inches or millimetres after it.
func (m Measured) lengthWords() string {
	in, inExact, err := m.Rounded(UnitIn, lengthPlaces(m, UnitIn))
	if err != nil {
		return m.plainWords()
	}
	mm, _, err := m.Rounded(UnitMm, lengthPlaces(m, UnitMm))
	if err != nil {
		return m.plainWords()
	}
	switch m.Unit {
	case UnitThou, UnitTenth:
		return m.plainWords() + ", " + figureWords(in) + ", " + figureWords(mm)
	case UnitIn:
		if thou, err := m.Exactly(UnitThou); err == nil && m.Value.Sign() != 0 && m.Value.Places() >= 3 &&
			m.Value.Abs().Compare(Decimal{1, 1}) < 0 {
			return thou.plainWords() + ", " + figureWords(in) + ", " + figureWords(mm)
		}
		return m.plainWords() + ", " + figureWords(mm)
	case UnitFt:
		return m.plainWords() + ", " + figureWords(Measured{in.Value.Shortest(), UnitIn})
	}
	if !inExact {
		return m.plainWords() + ", about " + figureWords(in)
	}
	return m.plainWords() + ", " + figureWords(in)
}

// lengthPlaces is how many places another unit of length needs to say what the
// reading said and no more: a thou is 0.001 in and worth two places of a
// millimetre, and each further place one more.
func lengthPlaces(m Measured, to Unit) int {
	p := m.Value.Places()
	switch m.Unit {
	case UnitThou:
		p += 3
	case UnitTenth:
		p += 4
	case UnitMm:
		p++
	case UnitCm:
		p += 2
	}
	p = max(p, 3)
	if to == UnitMm {
		p--
	}
	return p
}

// figureWords is the figure with the unit's word, one of it up to one: "0.008
// inch", "1.5 inches".
func figureWords(m Measured) string {
	if m.Value.Abs().Compare(Whole(1)) <= 0 {
		return m.Value.Show() + " " + m.Unit.Singular()
	}
	return m.Value.Show() + " " + m.Unit.Plural()
}
