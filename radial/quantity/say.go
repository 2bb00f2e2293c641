package quantity

import "strings"

// Words says the value back, so that a wrong unit or a slipped point is heard:
//
//	15 qt      fifteen quarts
//	15.5 qt    fifteen and a half quarts
//	300 in-lb  three hundred inch pounds, twenty-five foot pounds
//	100 in-lb  one hundred inch pounds, about eight point three foot pounds
//	8 thou     eight thou, 0.008 inch, 0.20 millimetre
//	0.25 qt/h  point two five quarts an hour, four hours a quart
//
// A torque or rate said a second way that had to be rounded says "about". A length
// said a second way has as many places as the reading was worth. A value not given
// is "not given".
func (m Measured) Words() string {
	if !m.Given() {
		return "not given"
	}
	switch m.Dimension() {
	case DimTorque:
		return m.plainWords() + ", " + m.otherTorque(Measured.plainWords)
	case DimLength:
		return m.lengthWords()
	case DimOilRate:
		return m.plainWords() + ", " + m.otherWay()
	}
	return m.plainWords()
}

// Loud is Words with the unit in capitals where mistaking it breaks things: "two
// hundred ninety-five point five INCH pounds, …".
func (m Measured) Loud() string {
	said := m.Words()
	if m.Unit != UnitInLb && m.Unit != UnitFtLb {
		return said
	}
	first, _, _ := strings.Cut(m.unitWord(), " ")
	return strings.Replace(said, first, strings.ToUpper(first), 1)
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

// alsoIn is the value in another unit as it follows the first figure: exact if
// three places hold it, otherwise rounded to one place, or to as many as show a
// figure at all, and "about".
func (m Measured) alsoIn(u Unit, write func(Measured) string) string {
	if exact, err := m.Exactly(u); err == nil && exact.Value.Places() <= 3 {
		return write(exact)
	}
	for places := 1; places <= maxDigits; places++ {
		if about, _, err := m.Rounded(u, places); err == nil && about.Value.Sign() != 0 {
			return "about " + write(about)
		}
	}
	return "too much to say in " + u.Plural()
}

// otherTorque is the torque in the other of inch pounds and foot pounds, written
// by the given method.
func (m Measured) otherTorque(write func(Measured) string) string {
	to := UnitFtLb
	if m.Unit == UnitFtLb {
		to = UnitInLb
	}
	return m.alsoIn(to, write)
}

// otherWay says an oil rate the other way round.
func (m Measured) otherWay() string {
	switch {
	case m.Unit == UnitHPerQt:
		return m.alsoIn(UnitQtPerH, Measured.plainWords)
	case m.Value.Sign() == 0:
		return "so there are no hours to a quart"
	}
	return m.alsoIn(UnitHPerQt, Measured.plainWords)
}

// lengthWords says a length small enough to be a clearance in thou, inches and
// millimetres, and any other in words with the inches or millimetres after it.
func (m Measured) lengthWords() string {
	in, _, err1 := m.Rounded(UnitIn, lengthPlaces(m, UnitIn))
	mm, _, err2 := m.Rounded(UnitMm, lengthPlaces(m, UnitMm))
	if err1 != nil || err2 != nil {
		return m.plainWords()
	}
	switch m.Unit {
	case UnitThou, UnitTenth:
		return m.plainWords() + ", " + figureWords(in) + ", " + figureWords(mm)
	case UnitIn:
		if thou, ok := m.asThou(); ok {
			return thou.plainWords() + ", " + figureWords(in) + ", " + figureWords(mm)
		}
		return m.plainWords() + ", " + figureWords(mm)
	case UnitFt:
		in.Value = in.Value.Shortest()
	}
	return m.plainWords() + ", " + figureWords(in)
}

// asThou is a length in inches that is small and fine enough to be a clearance,
// in thou: under a tenth of an inch and read to a thousandth.
func (m Measured) asThou() (Measured, bool) {
	if m.Unit != UnitIn || m.Value.Sign() == 0 || m.Value.Places() < 3 || m.Value.Abs().Compare(Decimal{1, 1}) >= 0 {
		return Measured{}, false
	}
	thou, err := m.Exactly(UnitThou)
	return thou, err == nil
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
