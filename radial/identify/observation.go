package identify

import (
	"slices"
	"strings"

	"linkrod/radial/quantity"
)

// State is what came of looking at a feature.
type State uint8

// The states. NotLooked is nobody's answer; the others are.
const (
	NotLooked State = iota
	Observed
	NotVisible    // looked at and not to be seen: covered, gone, out of reach
	Contradictory // seen two ways: one flange round and the next with flats, a stamp over a stamp
)

// Observation is what somebody saw at a feature, or that they could not.
type Observation struct {
	Feature string // by its key, or SerialKey
	State   State
	// Values is what was seen, as typed or as picked: one if observed, two or more if
	// contradictory, none otherwise.
	Values   []string
	Evidence []string // photographs by their names
	Approval string   // the document that allows it to be so, "" for none seen
	// Doubt is how unsure the one who looked is: 0 for no more than the feature's own,
	// otherwise more than 0 and less than a half.
	Doubt float64
}

// look is an Observation that has been read.
type look struct {
	Observation
	choice int               // of the feature's values
	figure quantity.Measured // or this
	serial Serial            // or this
	shown  []string          // what was seen, for reading
	doubt  float64
}

// looks reads the observations; one for each feature of the catalogue, by its place, and
// one for the serial number.
func (c Catalogue) looks(list []Observation) (byFeature []look, serial look, err error) {
	byFeature = make([]look, len(c.features))
	for _, o := range list {
		at, name, doubt := &serial, "serial number", c.serialDoubt
		if i := c.find(o.Feature); i >= 0 {
			at, name, doubt = &byFeature[i], c.features[i].Name, c.features[i].Doubt
		} else if o.Feature != SerialKey {
			return nil, look{}, problem(o.Feature, "There is no feature "+quoted(o.Feature)+" to be observed.")
		}
		if at.State != NotLooked {
			return nil, look{}, problem(o.Feature, "The "+name+" is observed twice. If the two differ, give it once, as contradictory, with both.")
		}
		if err := o.check(name); err != nil {
			return nil, look{}, err
		}
		*at = look{Observation: o, doubt: doubt}
		if o.Doubt != 0 {
			at.doubt = o.Doubt
		}
		if err := c.see(at); err != nil {
			return nil, look{}, problem(o.Feature, "The "+name+": "+err.Error())
		}
	}
	return byFeature, serial, nil
}

func (o Observation) check(name string) error {
	n := distinct(o.Values)
	switch {
	case o.State > Contradictory:
		return problem(o.Feature, "What came of looking at the "+name+"? It was observed, not visible, or contradictory.")
	case o.Doubt != 0 && !doubtful(o.Doubt):
		return problem(o.Feature, "The doubt about the "+name+" is "+quantity.Figure(o.Doubt, 3)+". It is 0 for no more than usual, or else more than 0 and less than a half.")
	case o.State == Observed && n != 1:
		return problem(o.Feature, "The "+name+" was observed, and what was seen is given "+times(n)+". It takes one value; two that differ are contradictory.")
	case o.State == Contradictory && n < 2:
		return problem(o.Feature, "The "+name+" is contradictory, and what was seen is given "+times(n)+". It takes the values that contradict each other.")
	case (o.State == NotLooked || o.State == NotVisible) && n != 0:
		return problem(o.Feature, "The "+name+" was not seen, and yet "+quoted(strings.Join(o.Values, ", "))+" is given.")
	}
	return nil
}

// distinct is how many different values there are.
func distinct(values []string) (n int) {
	for i, v := range values {
		if !slices.Contains(values[:i], v) {
			n++
		}
	}
	return n
}

func times(n int) string {
	return [...]string{"no times", "once", "twice", "more than twice"}[min(n, 3)]
}

// see reads what was seen. Every value must make sense; only an observed one is weighed.
func (c Catalogue) see(at *look) error {
	i := c.find(at.Feature)
	for _, v := range at.Values {
		var err error
		var shown string
		switch {
		case i < 0:
			at.serial, err = ParseSerial(v)
			shown = at.serial.String()
		case c.features[i].figure():
			at.figure, err = c.features[i].read(v)
			shown = figureShown(at.figure)
		default:
			at.choice, err = c.features[i].choice(v)
			shown = c.features[i].Values[at.choice]
		}
		if err != nil {
			return err
		}
		at.shown = append(at.shown, shown)
	}
	return nil
}

// fits reports that what was seen is among what a cell has; silent that the model says
// nothing of it.
func (l look) fits(f feature, x cell) (fits, silent bool) {
	has := x.has[f.index]
	if len(has) == 0 {
		return false, true
	}
	if !f.figure() {
		return slices.Contains(has, l.choice), false
	}
	return slices.ContainsFunc(has, func(k int) bool { return f.outcomes[k].holds(l.figure) }), false
}
