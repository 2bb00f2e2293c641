package due

import (
	"strconv"

	"linkrod/radial/quantity"
)

// Spell is the time a part was on an engine: the engine's total hours when it went on
// and when it came off, or now if it is still on. Either may be not known.
type Spell struct {
	On, Off quantity.Measured
}

// Hours is a part's hours as far as the records go.
type Hours struct {
	AtLeast quantity.Measured // the hours on record
	Whole   bool              // they are all it has
}

// Worked is the hours of a part, such as one cylinder, over all the engines it has been
// on.
//
//	before + Σ (off − on)
//
// What is not known is left out, and then the sum is not the Whole: the part has at
// least those hours. Before is what it had when its records begin, 0 for a new part.
func Worked(before quantity.Measured, spells []Spell) (Hours, error) {
	if err := hours("hours before", before); err != nil {
		return Hours{}, err
	}
	h := Hours{before, before.Given()}
	if !h.Whole {
		h.AtLeast = quantity.Of("0", quantity.UnitH)
	}
	for i, s := range spells {
		field := "spell " + strconv.Itoa(i+1)
		if err := first(hours(field, s.On), hours(field, s.Off)); err != nil {
			return Hours{}, err
		}
		if !s.On.Given() || !s.Off.Given() {
			h.Whole = false
			continue
		}
		run, err := minus(s.Off, s.On)
		if err == nil && run.Value.Sign() < 0 {
			return Hours{}, problem(field, "It came off at "+s.Off.Show()+", before it went on at "+s.On.Show()+".")
		}
		if err == nil {
			h.AtLeast, err = quantity.Add(h.AtLeast, run)
		}
		if err != nil {
			return Hours{}, problem(field, err.Error())
		}
	}
	return h, nil
}

// Words is the hours, and how far they can be trusted.
func (h Hours) Words() string {
	if h.Whole {
		return h.AtLeast.Show()
	}
	return "at least " + h.AtLeast.Show() + "; the rest is not known"
}
