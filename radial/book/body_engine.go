package book

import (
	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// Opened is the first entry of a book.
type Opened struct {
	Demo  bool // an invented engine
	Today Now  // of a demo engine: the day it is told on, always
}

func (*Opened) Type() string { return "engine" }
func (*Opened) Check() error { return nil }

func (o *Opened) read(r *reader) {
	o.Demo = r.flag("demo")
	r.inside("today", func(in *reader) { o.Today = Now{in.text("day"), in.text("clock")} })
}

func (o *Opened) write(w *plain.Writer) {
	putFlag(w, "demo", o.Demo)
	if o.Today.Day != "" {
		w.Open("today", '{')
		w.Text("day", o.Today.Day)
		w.Text("clock", o.Today.Clock)
		w.End('}')
	}
}

func (o *Opened) Say() string {
	if o.Demo {
		return "Demo engine. Every number is invented"
	}
	return "Book opened"
}

// StepClosed is a person's word that a step in the consumption was explained or
// repaired. Reckoning starts afresh at its hours.
type StepClosed struct {
	Hours quantity.Measured
	Found string
	Stamp
}

func (*StepClosed) Type() string            { return "step_closed" }
func (s *StepClosed) at() quantity.Measured { return s.Hours }

func (s *StepClosed) read(r *reader) {
	s.Hours, s.Found = r.measured("hours"), r.text("found")
	s.Stamp.read(r)
}

func (s *StepClosed) write(w *plain.Writer) {
	putMeasured(w, "hours", s.Hours)
	putText(w, "found", s.Found)
	s.Stamp.write(w)
}

func (s *StepClosed) Check() error {
	if s.Found == "" {
		return Wrong("What was found? A step is closed with what explains it.")
	}
	return first(needHours(s.Hours), s.Stamp.check())
}

func (s *StepClosed) Say() string { return "Step explained: " + s.Found }

// MeterChange is one meter taken out and another put in.
type MeterChange struct {
	Out quantity.Measured // what the old one read last
	In  quantity.Measured // what the new one read first
	Stamp
}

func (*MeterChange) Type() string            { return "meter" }
func (m *MeterChange) at() quantity.Measured { return m.Out }

func (m *MeterChange) read(r *reader) {
	m.Out, m.In = r.measured("out"), r.measured("in")
	m.Stamp.read(r)
}

func (m *MeterChange) write(w *plain.Writer) {
	putMeasured(w, "out", m.Out)
	putMeasured(w, "in", m.In)
	m.Stamp.write(w)
}

func (m *MeterChange) Check() error {
	return first(needHours(m.Out), needHours(m.In), m.Stamp.check())
}

func (m *MeterChange) Say() string {
	return "Meter changed: " + m.Out.Value.Show() + " out, " + m.In.Value.Show() + " in"
}

// Note is something worth keeping in words.
type Note struct {
	Text  string
	Hours quantity.Measured
	Stamp
}

func (*Note) Type() string            { return "note" }
func (n *Note) at() quantity.Measured { return n.Hours }

func (n *Note) read(r *reader) {
	n.Text, n.Hours = r.text("text"), r.measured("hours")
	n.Stamp.read(r)
}

func (n *Note) write(w *plain.Writer) {
	putText(w, "text", n.Text)
	putMeasured(w, "hours", n.Hours)
	n.Stamp.write(w)
}

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
	Reason string
	By     string
}

func (*Strike) Type() string { return "strike" }

func (s *Strike) read(r *reader) { s.Reason, s.By = r.text("reason"), r.text("by") }

func (s *Strike) write(w *plain.Writer) {
	putText(w, "reason", s.Reason)
	putText(w, "by", s.By)
}

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

func (n Newer) Type() string      { return n.Kind }
func (Newer) read(*reader)        {}
func (Newer) write(*plain.Writer) {}
func (Newer) Check() error        { return nil }
func (n Newer) Say() string       { return "Written by a newer Linkrod (" + n.Kind + ")" }
