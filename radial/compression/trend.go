package compression

import (
	"strconv"

	"linkrod/radial/quantity"
)

// Watch is what is worth showing: a fall in one cylinder from a check to the next, and a
// spread over all cylinders in one check. The figures themselves count.
type Watch struct{ Fall, Spread quantity.Measured }

// Usual is 5 psi and 15 psi: common practice, no source. They draw the eye; neither is a
// limit.
var Usual = Watch{quantity.Of("5", quantity.UnitPsi), quantity.Of("15", quantity.UnitPsi)}

func (w Watch) check() error {
	for _, m := range []struct {
		field string
		v     quantity.Measured
	}{{"fall to watch", w.Fall}, {"spread to watch", w.Spread}} {
		if err := pressure(m.field, m.v); err != nil {
			return err
		}
		if m.v.Value.Sign() == 0 {
			return problem(m.field, "The ", m.field, " is 0. It must be more.")
		}
	}
	return nil
}

// Wide reports a spread worth showing.
func (w Watch) Wide(s Spread) bool { return !over(w.Spread, s.Difference) }

// Line is the history of one cylinder, as its latest check sees it. What is not known is
// not given.
type Line struct {
	Cylinder int
	Now      quantity.Measured // the latest check; not given if this cylinder was not taken
	Before   quantity.Measured // the check before it that compares with it
	Best     quantity.Measured // the highest of those that compare, the latest left out
	Change   quantity.Measured // Now less Before: below 0 is a fall
	FromBest quantity.Measured // Now less Best
	Fell     bool              // the fall from Before is worth showing
	// Drifted: no single fall is, and all the falls from the best together are.
	Drifted bool
	Like    int // how many earlier checks compare and have a reading of this cylinder
}

// Trend is the history of each cylinder over the checks of one engine, the oldest first. A
// cylinder is compared with itself, in the earlier checks that had the same orifice, supply
// and warmth as the latest; the others are passed over, not converted. A cylinder that was
// changed in between begins again: leave the older checks out, or its readings in them.
func Trend(sets []Set, w Watch) ([]Line, error) {
	if err := w.check(); err != nil {
		return nil, err
	}
	if len(sets) == 0 {
		return nil, problem("checks", "There is no compression check on file.")
	}
	for i, s := range sets {
		if err := s.Check(); err != nil {
			return nil, problem("checks", "Check ", strconv.Itoa(i+1), ": ", err.Error())
		}
	}
	last := sets[len(sets)-1]
	lines := make([]Line, len(last.Readings))
	for k := range lines {
		l := Line{Cylinder: k + 1, Now: last.Readings[k]}
		for _, s := range sets[:len(sets)-1] {
			if k >= len(s.Readings) || !s.Readings[k].Given() || len(Differences(s, last)) > 0 {
				continue
			}
			l.Before = s.Readings[k]
			l.Like++
			if !l.Best.Given() || over(l.Before, l.Best) {
				l.Best = l.Before
			}
		}
		if l.Now.Given() && l.Like > 0 {
			var err, err2 error
			l.Change, err = minus(l.Now, l.Before)
			l.FromBest, err2 = minus(l.Now, l.Best)
			if err := first(err, err2); err != nil {
				return nil, problem("cylinder "+strconv.Itoa(k+1), err.Error())
			}
			l.Fell = w.fell(l.Change)
			l.Drifted = !l.Fell && w.fell(l.FromBest)
		}
		lines[k] = l
	}
	return lines, nil
}

// fell reports a change that is a fall worth showing.
func (w Watch) fell(change quantity.Measured) bool {
	change.Value = change.Value.Neg()
	return !over(w.Fall, change)
}

// Words is the line in a sentence.
//
//	Cylinder 6: 61 psi, 5 psi down from 66 psi.
func (l Line) Words() string {
	s := "Cylinder " + strconv.Itoa(l.Cylinder) + ": "
	switch {
	case !l.Now.Given():
		return s + "not taken."
	case l.Like == 0:
		return s + brief(l.Now) + ", and no earlier check compares with it."
	}
	s += brief(l.Now) + ", " + moved(l.Change) + brief(l.Before)
	if over(l.Best, l.Before) {
		s += " and " + moved(l.FromBest) + "its best of " + brief(l.Best)
	}
	return s + "."
}

// moved is "5 psi down from " or "2 psi up from " or "the same as ".
func moved(change quantity.Measured) string {
	switch change.Value.Sign() {
	case 0:
		return "the same as "
	case 1:
		return brief(change) + " up from "
	}
	change.Value = change.Value.Neg()
	return brief(change) + " down from "
}
