package quantity

import "linkrod/sync/plain"

// Measured is a value as a person gave it, with its unit: {"v":"26.50","u":"qt"}
// on the wire. The zero Measured has no unit and means not given, which is not
// the same as nought.
type Measured struct {
	Value Decimal `json:"v"`
	Unit  Unit    `json:"u"`
}

// Of is a Measured from a constant in the program: Of("15", UnitQt). It panics
// on text that is not a decimal.
func Of(value string, u Unit) Measured { return Measured{MustDecimal(value), u} }

// Given reports that there is a value at all.
func (m Measured) Given() bool { return m.Unit != "" }

// IsZero reports that nothing was given, for the JSON option omitzero.
func (m Measured) IsZero() bool { return !m.Given() }

// Dimension is the kind of quantity.
func (m Measured) Dimension() Dimension { return m.Unit.Dimension() }

// MarshalJSON writes {"v":"15","u":"qt"}, and null if not given.
func (m Measured) MarshalJSON() ([]byte, error) {
	if !m.Given() {
		return []byte("null"), nil
	}
	var w plain.Writer
	w.Begin('{')
	w.Text("v", m.Value.Text())
	w.Text("u", string(m.Unit))
	w.End('}')
	return w.Bytes(), nil
}

// UnmarshalJSON reads {"v":"15","u":"qt"}. Both must be there and v must be a
// string: a missing value is not nought. A unit this program does not know is
// kept as it is.
func (m *Measured) UnmarshalJSON(data []byte) error {
	wire, err := plain.Parse(data)
	if err != nil {
		return err
	}
	if wire.Kind() == plain.Null {
		*m = Measured{}
		return nil
	}
	v, u := wire.Get("v"), wire.Get("u")
	if v.Kind() != plain.Text || u.Text() == "" {
		return refuse(WhyNoNumber, string(data), "A measured value needs both its figure and its unit.")
	}
	value, err := ParseDecimal(v.Text())
	if err != nil {
		return err
	}
	*m = Measured{value, Unit(u.Text())}
	return nil
}

// Text is the value and the unit's symbol in a form that Parse takes back:
// "26.50 qt".
func (m Measured) Text() string {
	if !m.Given() {
		return ""
	}
	return m.Value.Text() + " " + m.Unit.Symbol()
}

// String is Text.
func (m Measured) String() string { return m.Text() }

// exactly is the value in its dimension's base unit, above absolute zero for a
// temperature.
func (m Measured) exactly() (fraction, error) {
	u, ok := m.Unit.facts()
	switch {
	case !m.Given():
		return fraction{}, refuse(WhyEmpty, "", "A value is not given.")
	case !ok:
		return fraction{}, refuse(WhyUnit, m.Text(), quoted(string(m.Unit))+" is not a unit this Linkrod knows.")
	case u.inverse && m.Value.Sign() == 0:
		return fraction{}, refuse(WhyRange, m.Text(), "Nought hours a quart is no rate. Oil that is not used is nought quarts an hour.")
	}
	f := fractionOf(m.Value).plus(fractionOf(u.zero))
	if u.inverse {
		f = f.inverse()
	}
	return f.scaled(u.num, u.den), nil
}

// in is the value in another unit, exactly.
func (m Measured) in(to Unit) (fraction, error) {
	u, _ := to.facts()
	f, err := m.exactly()
	if err != nil {
		return f, err
	}
	if u.dim != m.Dimension() {
		return f, refuse(WhyOtherKind, m.Text(),
			m.shown()+" is "+dimensions[m.Dimension()].one+", and "+u.plural+" measure something else.")
	}
	f = f.scaled(u.den, u.num)
	if u.inverse {
		if f.isZero() {
			return f, refuse(WhyRange, m.Text(), "No oil is used, so there are no hours to a quart.")
		}
		f = f.inverse()
	}
	return f.minus(fractionOf(u.zero)), nil
}

// Compare is -1, 0 or 1 as a is less than, equal to or more than b. It is exact
// across units: 300 in-lb equals 25 ft-lb, and nothing has been rounded on
// the way. It refuses two different kinds of quantity, unknown units, and values
// not given.
//
// An oil rate compares by oil used: 5 h/qt is less than 4 h/qt.
func Compare(a, b Measured) (int, error) {
	x, err := a.exactly()
	if err != nil {
		return 0, err
	}
	y, err := b.exactly()
	if err != nil {
		return 0, err
	}
	if a.Dimension() != b.Dimension() {
		return 0, refuse(WhyOtherKind, a.Text(), a.shown()+" and "+b.shown()+" are different kinds of quantity.")
	}
	return x.compare(y), nil
}

// Exactly is m in another unit, if the figure ends in decimal within eighteen
// digits: 1 qt is 0.946352946 L. A figure that never ends is refused rather than
// rounded: 1 L is 1.0566882… qt.
func (m Measured) Exactly(to Unit) (Measured, error) {
	if to == m.Unit {
		return m, nil
	}
	f, err := m.in(to)
	if err != nil {
		return Measured{}, err
	}
	if d, ok := f.ending(); ok {
		return Measured{d, to}, nil
	}
	return Measured{}, refuse(WhyNoEnd, m.Text(), m.shown()+" does not come out even in "+to.Plural()+".")
}

// Rounded is m in another unit with the given decimal places, half away from
// zero, and whether that is the exact value. It is for showing.
func (m Measured) Rounded(to Unit, places int) (r Measured, exact bool, err error) {
	f, err := m.in(to)
	if err != nil {
		return Measured{}, false, err
	}
	d, exact, err := f.decimal(max(0, places))
	if err != nil {
		return Measured{}, false, err
	}
	return Measured{d, to}, exact, nil
}

// Add is a + b in a's unit, exact. It refuses different kinds of quantity, a sum
// that does not end in decimal, and temperatures, which do not add.
func Add(a, b Measured) (Measured, error) {
	if a.Dimension() == DimTemperature || a.Unit == UnitHPerQt {
		return Measured{}, refuse(WhyOtherKind, a.Text(), "Two "+a.Unit.Plural()+" figures do not add up to anything.")
	}
	c, err := b.Exactly(a.Unit)
	if err != nil {
		return Measured{}, err
	}
	sum, err := a.Value.Add(c.Value)
	return Measured{sum, a.Unit}, err
}

// float is the value in the base unit of dim: the nearest float64 when the unit
// is the base unit, otherwise within three roundings of it.
func (m Measured) float(dim Dimension) (float64, error) {
	if !m.Given() {
		return 0, refuse(WhyEmpty, "", "The "+dim.String()+" is not given.")
	}
	if m.Dimension() != dim {
		return 0, refuse(WhyOtherKind, m.Text(), "This takes "+dimensions[dim].one+", not "+m.shown()+".")
	}
	u, _ := m.Unit.facts()
	v := m.Value.Float64()
	switch {
	case u.inverse && v == 0:
		_, err := m.exactly()
		return 0, err
	case u.inverse:
		return 1 / v, nil
	case m.Unit == UnitC:
		return float64(Celsius(v)), nil
	}
	return v * float64(u.num) / float64(u.den), nil
}
