package wear

import "linkrod/radial/quantity"

// Sense is the way wear moves a figure.
type Sense uint8

// The senses.
const (
	Unsaid  Sense = iota // the numbers themselves say it, or nothing does
	Grows                // wear makes it more: bores, clearances, gaps
	Shrinks              // wear makes it less: choke, a valve's margin, a spring's load
)

// Limits are the three numbers of a table, with their signs. What the table has not is not
// given. They may be in any units of one kind, and the readings in others.
//
// Two new figures and no wear limit judge only what is new. A wear limit alone is a single
// limit, and Sense has to say whether it is a maximum (Grows) or a minimum (Shrinks).
type Limits struct {
	NewMin, NewMax quantity.Measured
	Wear           quantity.Measured
	Sense          Sense // needed only where the numbers do not show it
	// Edge is how much of the room up to the wear limit is called the edge; 0 is the
	// usual tenth, and for a single limit the usual twentieth of the limit itself.
	Edge quantity.Decimal
	// Source is the document, page and revision the numbers were read from. Words says
	// it, or that there is none.
	Source string
}

var (
	tenth     = quantity.MustDecimal("0.1")
	twentieth = quantity.MustDecimal("0.05")
	one       = quantity.Whole(1)
)

// Empty reports that nothing is on file.
func (l Limits) Empty() bool { return !l.NewMin.Given() && !l.NewMax.Given() && !l.Wear.Given() }

// Check refuses limits that contradict themselves: figures of two kinds, a new minimum
// above the new maximum, a wear limit between the two, a sense the numbers deny.
func (l Limits) Check() error {
	_, err := l.read()
	return err
}

// read is Check, with the way wear goes.
func (l Limits) read() (Sense, error) {
	if err := first(oneKind("new maximum", l.NewMax, l.NewMin), oneKind("wear limit", l.Wear, l.NewMin), oneKind("wear limit", l.Wear, l.NewMax)); err != nil {
		return Unsaid, err
	}
	if l.Edge.Sign() < 0 || l.Edge.Compare(one) > 0 {
		return Unsaid, problem("edge", "The edge is ", l.Edge.Show(), " of the room up to the limit. It must be from 0 to 1; a tenth is usual.")
	}
	if l.NewMin.Given() && l.NewMax.Given() && more(l.NewMin, l.NewMax) {
		return Unsaid, problem("new minimum", "The new minimum, ", brief(l.NewMin), ", is more than the new maximum, ", brief(l.NewMax), ". They may be the other way round, or a minus is missing.")
	}
	if !l.Wear.Given() {
		return l.Sense, nil
	}
	above := l.NewMax.Given() && !more(l.NewMax, l.Wear)
	below := l.NewMin.Given() && !more(l.Wear, l.NewMin)
	shown := Unsaid
	switch {
	case above && !below:
		shown = Grows
	case below && !above:
		shown = Shrinks
	case above || !l.NewMin.Given() && !l.NewMax.Given(): // all three the same, or a single limit
		if l.Sense == Unsaid {
			return Unsaid, problem("wear limit", "It is not said whether the limit of ", brief(l.Wear), " is a maximum or a minimum.")
		}
		return l.Sense, nil
	case l.NewMin.Given() && l.NewMax.Given():
		return Unsaid, problem("wear limit", "The wear limit, ", brief(l.Wear), ", lies between the new figures, ", brief(l.NewMin), " and ", brief(l.NewMax), ". A worn part would be newer than a new one.")
	case l.NewMax.Given():
		return Unsaid, problem("new minimum", "The wear limit, ", brief(l.Wear), ", is less than the new maximum, ", brief(l.NewMax), ". Where wear makes it less, the new minimum is needed.")
	default:
		return Unsaid, problem("new maximum", "The wear limit, ", brief(l.Wear), ", is more than the new minimum, ", brief(l.NewMin), ". Where wear makes it more, the new maximum is needed.")
	}
	if l.Sense != Unsaid && l.Sense != shown {
		return Unsaid, problem("wear limit", "The wear limit, ", brief(l.Wear), ", lies on the other side of the new figures from where wear is said to go. One of the signs may be wrong.")
	}
	return shown, nil
}

// oneKind refuses two values given that are different kinds of quantity, and units that
// are not known.
func oneKind(field string, a, b quantity.Measured) error {
	if !a.Given() || !b.Given() {
		if a.Given() && a.Dimension() == quantity.NoDimension || b.Given() && b.Dimension() == quantity.NoDimension {
			return problem(field, "The ", field, " is in a unit this Linkrod does not know.")
		}
		return nil
	}
	if _, err := quantity.Compare(a, b); err != nil {
		return problem(field, err.Error())
	}
	return nil
}

// side is the limits seen the way wear goes.
type side struct {
	sign       int               // 1 if wear makes it more, −1 if less
	near, back quantity.Measured // the new figure wear starts from, and the other one
}

func (l Limits) side(s Sense) side {
	if s == Shrinks {
		return side{-1, l.NewMin, l.NewMax}
	}
	return side{1, l.NewMax, l.NewMin}
}

// past is 1 if a is farther the way of wear than b, 0 if they are equal, −1 if not.
func (s side) past(a, b quantity.Measured) int {
	order, _ := quantity.Compare(a, b) // of one kind: read and Judge have looked
	return order * s.sign
}

// EdgeFrom is where the edge begins: the reading at which a part is at the edge and no
// longer serviceable. It is not given without a wear limit.
//
//	near + (1 − e)(wear limit − near)     three numbers, e a tenth
//	wear limit ∓ e |wear limit|           a single limit, e a twentieth
func (l Limits) EdgeFrom() (quantity.Measured, error) {
	sense, err := l.read()
	if err != nil || !l.Wear.Given() {
		return quantity.Measured{}, err
	}
	return l.edge(l.side(sense))
}

func (l Limits) edge(s side) (quantity.Measured, error) {
	share := l.Edge
	if !s.near.Given() {
		if share.Sign() == 0 {
			share = twentieth
		}
		width, err := times(abs(l.Wear), share)
		if err != nil {
			return width, err
		}
		if s.sign > 0 {
			return minus(l.Wear, width)
		}
		return plus(l.Wear, width)
	}
	if share.Sign() == 0 {
		share = tenth
	}
	room, err := minus(l.Wear, s.near)
	if err != nil {
		return room, err
	}
	rest, _ := one.Sub(share) // from 0 to 1
	before, err := times(room, rest)
	if err != nil {
		return before, err
	}
	return plus(s.near, before)
}
