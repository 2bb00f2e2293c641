package book

import (
	"sort"
	"strconv"

	"linkrod/radial/quantity"
)

// Opened is the first entry of a book.
type Opened struct {
	Demo  bool `json:"demo,omitempty"` // an invented engine
	Today Now  `json:"today,omitzero"` // of a demo engine: the day it is told on, always
}

func (*Opened) Type() string { return "engine" }
func (*Opened) Check() error { return nil }

func (o *Opened) Say() string {
	if o.Demo {
		return "Demo engine. Every number is invented"
	}
	return "Book opened"
}

// StepClosed is a person's word that a step in the consumption was explained or
// repaired. Reckoning starts afresh at its hours.
type StepClosed struct {
	Hours quantity.Measured `json:"hours"`
	Found string            `json:"found"`
	Stamp
}

func (*StepClosed) Type() string            { return "step_closed" }
func (s *StepClosed) at() quantity.Measured { return s.Hours }

func (s *StepClosed) Check() error {
	if s.Found == "" {
		return Wrong("What was found? A step is closed with what explains it.")
	}
	return first(needHours(s.Hours), s.Stamp.check())
}

func (s *StepClosed) Say() string { return "Step explained: " + s.Found }

// MeterChange is one meter taken out and another put in.
type MeterChange struct {
	Out quantity.Measured `json:"out"` // what the old one read last
	In  quantity.Measured `json:"in"`  // what the new one read first
	Stamp
}

func (*MeterChange) Type() string            { return "meter" }
func (m *MeterChange) at() quantity.Measured { return m.Out }
func (m *MeterChange) Check() error {
	return first(needHours(m.Out), needHours(m.In), m.Stamp.check())
}

func (m *MeterChange) Say() string {
	return "Meter changed: " + m.Out.Value.Show() + " out, " + m.In.Value.Show() + " in"
}

// Compression is a set of differential checks, n over what was put in.
type Compression struct {
	Hours   quantity.Measured `json:"hours"`
	OutOf   quantity.Measured `json:"out_of"`           // 80 psi as a rule
	Orifice quantity.Measured `json:"orifice,omitzero"` // of the tester
	Warm    string            `json:"warm,omitempty"`   // hot, cold
	Values  []CylinderValue   `json:"values"`
	Note    string            `json:"note,omitempty"`
	Stamp
}

// CylinderValue is one cylinder's figure.
type CylinderValue struct {
	Cyl int              `json:"cyl"`
	V   quantity.Decimal `json:"v"`
}

func (*Compression) Type() string            { return "compression" }
func (c *Compression) at() quantity.Measured { return c.Hours }

func (c *Compression) Check() error {
	if len(c.Values) == 0 {
		return Wrong("A compression set needs at least one cylinder.")
	}
	seen := map[int]bool{}
	for _, v := range c.Values {
		if v.Cyl < 1 || v.Cyl > 9 || seen[v.Cyl] {
			return Wrong("Cylinder " + strconv.Itoa(v.Cyl) + " stands twice in the set, or is none.")
		}
		seen[v.Cyl] = true
	}
	if !c.OutOf.Given() {
		return Wrong("Out of how much? A differential check is so many over 80.")
	}
	return first(needHours(c.Hours), wrongKind("The pressure put in", c.OutOf, quantity.DimPressure), c.Stamp.check())
}

func (c *Compression) Say() string {
	s := "Compression over " + c.OutOf.Value.Show() + ":"
	values := append([]CylinderValue(nil), c.Values...)
	sort.SliceStable(values, func(i, j int) bool { return values[i].Cyl < values[j].Cyl })
	for _, v := range values {
		s += " " + v.V.Show()
	}
	return s + aside(c.Note)
}

// Note is something worth keeping in words.
type Note struct {
	Text  string            `json:"text"`
	Hours quantity.Measured `json:"hours,omitzero"`
	Stamp
}

func (*Note) Type() string            { return "note" }
func (n *Note) at() quantity.Measured { return n.Hours }

func (n *Note) Check() error {
	if n.Text == "" {
		return Wrong("The note is empty. Write what was seen or done.")
	}
	if n.Hours.Given() {
		return first(needHours(n.Hours), n.Stamp.check())
	}
	return n.Stamp.check()
}

func (n *Note) Say() string { return n.Text }

// Strike takes one entry out of use, with a reason. The entry stays readable.
type Strike struct {
	Reason string `json:"reason"`
	By     string `json:"by,omitempty"`
}

func (*Strike) Type() string { return "strike" }

func (s *Strike) Check() error {
	if s.Reason == "" {
		return Wrong("Why is it struck out? The reason stays with the line.")
	}
	return nil
}

func (s *Strike) Say() string { return "Struck out: " + s.Reason }

// Newer is an entry of a type that came after this program. It is kept, shown
// as such and never counted.
type Newer struct{ Kind string }

func (n Newer) Type() string { return n.Kind }
func (Newer) Check() error   { return nil }
func (n Newer) Say() string  { return "Written by a newer Linkrod (" + n.Kind + ")" }
