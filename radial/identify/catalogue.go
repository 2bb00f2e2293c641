package identify

import (
	"slices"
	"strings"

	"linkrod/radial/quantity"
)

// Catalogue is Data that makes sense. It is made by New and does not change.
type Catalogue struct {
	features    []feature
	models      []model
	others      float64
	serialDoubt float64
}

// feature is a Feature with every outcome it can have. Those of a figure are the figures
// that the models have, in its unit.
type feature struct {
	Feature
	outcomes []outcome // of a figure
	index    int
}

// outcome is a figure that a model has, and the least and the most that are taken for it.
// A bare number has no unit.
type outcome struct {
	nominal, low, high quantity.Measured
}

// model is a Candidate with its traits read.
type model struct {
	Candidate
	blocks Ranges
	traits []trait
	cells  []cell
}

type trait struct {
	feature int
	values  []int // of the feature's outcomes
	serials Ranges
}

// cell is what a model has in one run of serial numbers over which nothing changes: for
// each feature the outcomes it may have, none where the model is silent. Features that
// change with the serial number change together, so that one cell has short plugs and
// grease nipples and the next has not.
type cell struct {
	at  Serial // one of the run; not given for a model whose serial numbers are not known
	has [][]int
}

// New is the catalogue of some data. It refuses data that contradict themselves: keys
// that stand twice, values that no feature lists, doubts and weights out of range, and
// serial ranges that leave a part of a model's block without a value.
func New(d Data) (Catalogue, error) {
	switch {
	case len(d.Candidates) == 0 || len(d.Features) == 0:
		return Catalogue{}, problem("data", "There are no models, or nothing to look at. A family needs both.")
	case !(d.Others > 0 && d.Others < 1):
		return Catalogue{}, problem("others", "The share of other engines is "+quantity.Figure(d.Others, 3)+". It must be more than 0 and less than 1.")
	case !doubtful(d.SerialDoubt):
		return Catalogue{}, problem("serial", "The doubt of a serial number is "+quantity.Figure(d.SerialDoubt, 3)+". It must be more than 0 and less than a half.")
	}
	c := Catalogue{others: d.Others, serialDoubt: d.SerialDoubt}
	for i, f := range d.Features {
		if err := f.check(); err != nil {
			return Catalogue{}, err
		}
		if c.find(f.Key) >= 0 {
			return Catalogue{}, problem(f.Key, "The feature "+quoted(f.Key)+" stands twice.")
		}
		c.features = append(c.features, feature{Feature: f, index: i})
	}
	for _, m := range d.Candidates {
		read, err := c.read(m)
		if err != nil {
			return Catalogue{}, err
		}
		c.models = append(c.models, read)
	}
	for i := range c.models { // when every figure there is has been seen
		if err := c.models[i].divide(c.features); err != nil {
			return Catalogue{}, err
		}
	}
	return c, nil
}

func doubtful(d float64) bool { return d > 0 && d < 0.5 }

func (f Feature) check() error {
	switch {
	case f.Key == "" || f.Name == "" || f.Part == "":
		return problem("feature", "A feature needs a key, a name and the part it belongs to. One has "+quoted(f.Key)+", "+quoted(f.Name)+" and "+quoted(f.Part)+".")
	case f.Key == SerialKey:
		return problem(f.Key, "The key "+quoted(SerialKey)+" is the serial number's. Give the feature another.")
	case !doubtful(f.Doubt):
		return problem(f.Key, "The doubt of the "+f.Name+" is "+quantity.Figure(f.Doubt, 3)+". It must be more than 0 and less than a half.")
	case !(f.Effort > 0 && f.Effort <= 1e6):
		return problem(f.Key, "The effort of looking at the "+f.Name+" is "+quantity.Figure(f.Effort, 3)+". It must be more than 0, 1 for a glance.")
	case len(f.Values) == 1 || distinct(f.Values) != len(f.Values) || slices.Contains(f.Values, ""):
		return problem(f.Key, "The "+f.Name+" needs at least two values, each of them once, or none if it is a figure.")
	case f.figure() && f.Within.Sign() < 0:
		return problem(f.Key, "The "+f.Name+" may be off by "+f.Within.Show()+". It must be 0 or more.")
	case f.figure() && f.Unit != "" && f.Unit.Dimension() == quantity.NoDimension:
		return problem(f.Key, "The "+f.Name+" is in "+quoted(string(f.Unit))+", which is not a unit known here.")
	}
	return nil
}

func (f Feature) figure() bool { return len(f.Values) == 0 }

// find is the place of a feature, −1 for none.
func (c Catalogue) find(key string) int {
	return slices.IndexFunc(c.features, func(f feature) bool { return f.Key == key })
}

func (c Catalogue) read(m Candidate) (model, error) {
	read := model{Candidate: m}
	switch {
	case m.Name == "" || slices.ContainsFunc(c.models, func(o model) bool { return o.Name == m.Name }):
		return model{}, problem("model", "A model is called "+quoted(m.Name)+". Each needs a name of its own.")
	case !(m.Weight > 0 && m.Weight <= 1e6):
		return model{}, problem(m.Name, "The weight of "+m.Name+" is "+quantity.Figure(m.Weight, 3)+". It must be more than 0: how many there are of it for one of another.")
	}
	var err error
	if read.blocks, err = optional(m.Serials); err != nil {
		return model{}, problem(m.Name, "The serial numbers of "+m.Name+": "+err.Error())
	}
	for _, t := range m.Traits {
		i := c.find(t.Feature)
		if i < 0 {
			return model{}, problem(m.Name, m.Name+" has a trait of "+quoted(t.Feature)+", and there is no such feature.")
		}
		serials, err := optional(t.Serials)
		if err == nil && len(t.Values) == 0 {
			err = problem("", "no value is given.")
		}
		one := trait{feature: i, serials: serials}
		for _, v := range t.Values {
			var k int
			if err == nil {
				k, err = c.features[i].outcome(v)
			}
			one.values = append(one.values, k)
		}
		if err != nil {
			return model{}, problem(m.Name, "The "+c.features[i].Name+" of "+m.Name+": "+err.Error())
		}
		read.traits = append(read.traits, one)
	}
	return read, nil
}

// optional is serial ranges that need not be given.
func optional(text string) (Ranges, error) {
	if text == "" {
		return nil, nil
	}
	return ParseRanges(text)
}

// outcome is the place of a value among the feature's outcomes. A figure that is not
// there yet is put there.
func (f *feature) outcome(text string) (int, error) {
	if !f.figure() {
		return f.choice(text)
	}
	m, err := f.read(text)
	if err == nil && f.Unit != "" {
		m, err = m.Exactly(f.Unit)
	}
	if err != nil {
		return 0, err
	}
	for i, o := range f.outcomes {
		if compare(o.nominal, m) == 0 {
			return i, nil
		}
	}
	low, err1 := m.Value.Sub(f.Within)
	high, err2 := m.Value.Add(f.Within)
	f.outcomes = append(f.outcomes, outcome{m, quantity.Measured{Value: low, Unit: f.Unit}, quantity.Measured{Value: high, Unit: f.Unit}})
	return len(f.outcomes) - 1, first(err1, err2)
}

// choice is the place of a value among those of the feature.
func (f feature) choice(text string) (int, error) {
	text = strings.TrimSpace(text)
	for i, v := range f.Values {
		if strings.EqualFold(v, text) {
			return i, nil
		}
	}
	return 0, refuse(quantity.WhyRange, text, "is not known there. It is one of: "+strings.Join(f.Values, "; ")+".", f.Values...)
}

// read is a figure as people type it, in the feature's unit or another of its kind.
func (f feature) read(text string) (quantity.Measured, error) {
	if f.Unit != "" {
		r, err := quantity.Parse(text, f.Unit)
		return r.Measured, err
	}
	d, err := quantity.ParseNumber(text)
	return quantity.Measured{Value: d}, err
}

// compare is −1, 0 or 1, exactly, for two figures of one feature.
func compare(a, b quantity.Measured) int {
	if a.Unit == "" {
		return a.Value.Compare(b.Value)
	}
	c, _ := quantity.Compare(a, b) // of one kind
	return c
}

// holds reports that a figure is within what is taken for an outcome, the ends included.
func (o outcome) holds(figure quantity.Measured) bool {
	return compare(figure, o.low) >= 0 && compare(figure, o.high) <= 0
}

// count is how many outcomes there are, one of a figure being none of those known.
func (f feature) count() int {
	if f.figure() {
		return len(f.outcomes) + 1
	}
	return len(f.Values)
}

// divide finds the model's cells. What it has changes only where a range begins or ends,
// so a serial number at every end, one before it and one after it are in all there are.
func (m *model) divide(features []feature) error {
	ends := m.blocks.ends()
	for _, t := range m.traits {
		ends = append(ends, t.serials.ends()...)
	}
	for _, e := range ends {
		list := []Serial{e}
		for _, by := range []int{-1, 1} {
			if s, ok := e.step(by); ok {
				list = append(list, s)
			}
		}
		for _, s := range list {
			if !m.blocks.Known() || m.blocks.Contains(s) {
				m.cells = append(m.cells, m.cellAt(s, len(features)))
			}
		}
	}
	if len(ends) == 0 {
		m.cells = []cell{m.cellAt(Serial{}, len(features))}
	}
	if len(m.cells) == 0 {
		return problem(m.Name, "There is no serial number in the block of "+m.Name+".")
	}
	for _, x := range m.cells {
		for _, t := range m.traits {
			if len(x.has[t.feature]) == 0 {
				return problem(m.Name, "The "+features[t.feature].Name+" of "+m.Name+" has no value for "+x.at.String()+". Its serial ranges leave a gap.")
			}
		}
	}
	return nil
}

// cellAt is the cell of a serial number, which is in the model's block, or of none.
func (m model) cellAt(s Serial, features int) cell {
	x := cell{s, make([][]int, features)}
	for _, t := range m.traits {
		if !t.serials.Known() || t.serials.Contains(s) {
			x.has[t.feature] = append(x.has[t.feature], t.values...)
		}
	}
	return x
}

// wants is what the model has at a feature, for reading.
func (m model) wants(f feature) string {
	var said []string
	for _, t := range m.traits {
		if t.feature != f.index {
			continue
		}
		for _, v := range t.values {
			s := f.shown(v)
			if t.serials.Known() {
				s += " (" + t.serials.String() + ")"
			}
			said = append(said, s)
		}
	}
	return strings.Join(said, " or ")
}

// shown is an outcome for reading.
func (f feature) shown(k int) string {
	if !f.figure() {
		return f.Values[k]
	}
	said := figureShown(f.outcomes[k].nominal)
	if f.Within.Sign() != 0 {
		said += " give or take " + figureShown(quantity.Measured{Value: f.Within, Unit: f.Unit})
	}
	return said
}

// figureShown is a figure with its unit, or a bare number.
func figureShown(m quantity.Measured) string {
	if m.Unit == "" {
		return m.Value.Show()
	}
	return m.Value.Show() + "\u2009" + m.Unit.Symbol() // one unit, no thou beside it
}

// Features is what can be looked at, in order.
func (c Catalogue) Features() []Feature {
	list := make([]Feature, len(c.features))
	for i, f := range c.features {
		list[i] = f.Feature
	}
	return list
}
