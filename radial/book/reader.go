package book

import (
	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// reader reads the fields of a body. A field that is absent or null reads as
// not given; one of the wrong kind is the reader's error, and only the first is
// kept.
type reader struct {
	plain.Value
	err error
}

const unreadable = "This line cannot be read: "

func (r *reader) field(name string, want plain.Kind) plain.Value {
	v := r.Get(name)
	if v.Given() && v.Kind() != want {
		r.fail("“" + name + "” is not of the right kind.")
		return plain.Value{}
	}
	return v
}

func (r *reader) fail(sentence string) {
	if r.err == nil {
		r.err = Wrong(unreadable + sentence)
	}
}

func (r *reader) text(name string) string { return r.field(name, plain.Text).Text() }

func (r *reader) flag(name string) bool { return r.field(name, plain.Bool).Bool() }

func (r *reader) whole(name string) int {
	n, ok := r.Get(name).Int()
	if !ok && r.Get(name).Given() {
		r.fail("“" + name + "” is not a whole number.")
	}
	return int(n)
}

func (r *reader) list(name string) []plain.Value { return r.field(name, plain.List).Items() }

// inside reads a field that is an object.
func (r *reader) inside(name string, read func(*reader)) {
	in := &reader{Value: r.field(name, plain.Object)}
	if read(in); in.err != nil && r.err == nil {
		r.err = in.err
	}
}

// measured reads a field that is a value with its unit.
func (r *reader) measured(name string) (m quantity.Measured) {
	r.inside(name, func(in *reader) { m = in.itself() })
	return m
}

// itself reads {"v":"15.5","u":"qt"}. Both must be there, and v is text: a value
// without its unit is none, and no float ever stands for what was typed.
func (r *reader) itself() quantity.Measured {
	if !r.Given() {
		return quantity.Measured{}
	}
	v, err := quantity.ParseDecimal(r.text("v"))
	if err != nil || r.text("u") == "" {
		r.fail("a measured value needs a figure and its unit.")
		return quantity.Measured{}
	}
	return quantity.Measured{Value: v, Unit: quantity.Unit(r.text("u"))}
}

// texts reads a list of texts.
func (r *reader) texts(name string) (all []string) {
	for _, v := range r.list(name) {
		all = append(all, v.Text())
	}
	return all
}

// putText writes a text that was given.
func putText(w *plain.Writer, name, s string) {
	if s != "" {
		w.Text(name, s)
	}
}

// putFlag writes a flag that is set.
func putFlag(w *plain.Writer, name string, set bool) {
	if set {
		w.Bool(name, true)
	}
}

// putTexts writes a list that is not empty.
func putTexts(w *plain.Writer, name string, list []string) {
	if len(list) > 0 {
		w.Texts(name, list)
	}
}

// putMeasured writes a value that was given.
func putMeasured(w *plain.Writer, name string, m quantity.Measured) {
	if m.Given() {
		w.Open(name, '{')
		w.Text("v", m.Value.Text())
		w.Text("u", string(m.Unit))
		w.End('}')
	}
}
