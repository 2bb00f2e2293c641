package ignition

import (
	"slices"

	"linkrod/radial/quantity"
)

// RunUp is one run-up check: the speed on both ignitions, and on each side alone, steady
// each time and the throttle not touched. Left alone means that the right is cut off by
// the switch.
type RunUp struct {
	Both, Left, Right quantity.Measured // rpm
}

// DropLimits is what the engine's card allows; not given: no limit on file.
type DropLimits struct {
	Most  quantity.Measured // rpm, on one side
	Apart quantity.Measured // rpm, between the two
}

// Earlier is the drops of each side at earlier run-ups of the same engine at the same
// speed. One magneto and one battery distributor drop differently by design, so a side is
// only ever compared with itself.
type Earlier struct {
	Left, Right []quantity.Measured // rpm
}

// Meaning is what a drop says by itself.
type Meaning uint8

// The meanings.
const (
	Dropped Meaning = iota // some, as one side alone must
	NoDrop                 // none: the other side was not cut off, and is live with the switch off
	CutOut                 // the engine stopped: this side does not fire at all
)

// Verdict is a drop against its limit.
type Verdict uint8

// The verdicts.
const (
	NoLimit   Verdict = iota // none on file: never a pass
	Inside                   // under the last twentieth before the limit
	AtEdge                   // in the last twentieth, the limit itself included
	Outside                  // over the limit
	CantJudge                // not a drop at all: what it means comes first
)

// SideDrop is one side of a run-up.
type SideDrop struct {
	Drop    quantity.Measured // rpm on both less rpm on this side; less than 0 for a rise
	Meaning Meaning
	Limit   quantity.Measured // not given: none on file
	Verdict Verdict
	// Usual is the middle one of this side's earlier drops, of which there are Of, and
	// More how much more this one is. Not given if there are none.
	Usual quantity.Measured
	Of    int
	More  quantity.Measured
}

// Check is what a run-up says.
type Check struct {
	Left, Right SideDrop
	Apart       quantity.Measured // how far the two drops are apart; not given unless both are drops
	Limit       quantity.Measured // on that; not given: none on file
	Verdict     Verdict           // on that
}

// Judge is what a run-up says, side by side.
//
//	drop = rpm on both − rpm on one
//
// No drop, or a rise, is the worst of answers and not the best: with one side cut off the
// engine burns more slowly and must lose some speed, so if it does not, the other side was
// not cut off. It has no verdict by its limit. The maker's figures come first.
//
// Source: FAA-H-8083-32 for the check; no drop: common practice, no source.
func (r RunUp) Judge(l DropLimits, e Earlier) (Check, error) {
	if err := first(
		speed("both", r.Both, true), speed("left", r.Left, true), speed("right", r.Right, true),
		speed("most", l.Most, false), speed("apart", l.Apart, false), running(r.Both),
		drops("earlier left", e.Left), drops("earlier right", e.Right),
	); err != nil {
		return Check{}, err
	}
	c := Check{
		Left: sideDrop(r.Both, r.Left, l.Most, e.Left), Right: sideDrop(r.Both, r.Right, l.Most, e.Right),
		Limit: l.Apart, Verdict: CantJudge,
	}
	if c.Left.Meaning == Dropped && c.Right.Meaning == Dropped {
		c.Apart = minus(c.Left.Drop, c.Right.Drop)
		c.Apart.Value = c.Apart.Value.Abs()
		c.Verdict = against(c.Apart, l.Apart)
	}
	return c, nil
}

func running(both quantity.Measured) error {
	if both.Value.Sign() > 0 {
		return nil
	}
	return problem("both", "The speed on both is "+both.Show()+". The engine must be running.")
}

// speed refuses what is not rpm as a tachometer shows them, 0 or more.
func speed(field string, m quantity.Measured, needed bool) error {
	switch {
	case !m.Given() && !needed:
		return nil
	case !m.Given():
		return problem(field, "The speed on "+field+" is not given.")
	case m.Value.Sign() < 0:
		return problem(field, "It is "+m.Show()+". It must be 0 or more.")
	}
	return shown(field, m)
}

// shown refuses what no tachometer shows. What is left can be added, doubled and compared
// without running out of digits.
func shown(field string, m quantity.Measured) error {
	switch {
	case m.Dimension() != quantity.DimSpeed:
		return problem(field, "This takes rpm, not "+m.Show()+".")
	case m.Value.Abs().Compare(quantity.Whole(100_000)) > 0 || m.Value.Places() > 6:
		return problem(field, "It is "+m.Show()+". No tachometer shows that.")
	}
	return nil
}

// drops refuses a list with something in it that is no drop.
func drops(field string, list []quantity.Measured) error {
	for _, m := range list {
		if err := shown(field, m); err != nil {
			return err
		}
	}
	return nil
}

func sideDrop(both, one, limit quantity.Measured, earlier []quantity.Measured) SideDrop {
	s := SideDrop{Drop: minus(both, one), Limit: limit, Of: len(earlier), Usual: middle(earlier)}
	switch {
	case one.Value.Sign() == 0:
		s.Meaning, s.Verdict = CutOut, CantJudge
	case s.Drop.Value.Sign() <= 0:
		s.Meaning, s.Verdict = NoDrop, CantJudge
	default:
		s.Verdict = against(s.Drop, limit)
	}
	if s.Usual.Given() {
		s.More = minus(s.Drop, s.Usual)
	}
	return s
}

// against is a figure against a maximum. The edge is the last twentieth, and the limit
// is in it. Nothing is rounded.
func against(v, limit quantity.Measured) Verdict {
	if !limit.Given() {
		return NoLimit
	}
	switch {
	case v.Value.Compare(limit.Value) > 0:
		return Outside
	case v.Value.Compare(times(limit, "0.95")) < 0:
		return Inside
	}
	return AtEdge
}

// middle is the median, not given for none: the middle one, or halfway between the two
// in the middle.
func middle(list []quantity.Measured) quantity.Measured {
	if len(list) == 0 {
		return quantity.Measured{}
	}
	sorted := slices.Clone(list)
	slices.SortFunc(sorted, func(a, b quantity.Measured) int { return a.Value.Compare(b.Value) })
	n := len(sorted)
	if n%2 == 1 {
		return sorted[n/2]
	}
	sum, _ := quantity.Add(sorted[n/2-1], sorted[n/2])
	return quantity.Measured{Value: times(sum, "0.5").Shortest(), Unit: quantity.UnitRpm}
}

// times is a speed's figure so many times, exact.
func times(m quantity.Measured, factor string) quantity.Decimal {
	d, _ := m.Value.Mul(quantity.MustDecimal(factor))
	return d
}

// minus is a − b, exact.
func minus(a, b quantity.Measured) quantity.Measured {
	d, _ := a.Value.Sub(b.Value)
	return quantity.Measured{Value: d, Unit: quantity.UnitRpm}
}
