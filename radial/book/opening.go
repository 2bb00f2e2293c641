package book

import (
	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// Planned is an entry that is ready to be written.
type Planned struct {
	Kind string
	Refs []Key
	Body []byte
}

// Write writes {"kind","refs","body"}.
func (p Planned) Write(w *plain.Writer) {
	w.Begin('{')
	p.writeEnvelope(w)
	w.Raw("body", p.Body)
	w.End('}')
}

func (p Planned) writeEnvelope(w *plain.Writer) {
	w.Text("kind", p.Kind)
	w.Open("refs", '[')
	for _, k := range p.Refs {
		w.Begin('{')
		w.Text("device", k.Device)
		w.Int("n", int64(k.N))
		w.End('}')
	}
	w.End(']')
}

// Begin is the first entries of a new book, from the answers to the four
// questions it starts with:
//
//	{"cylinders":"7","view":"cockpit","oil_unit":"qt","meter":{"which":"tach","reading":"541.6"},"name":"…"}
//
// The reading is taken as it was typed; a name may be left out. Everything else
// can be said later.
func Begin(answers plain.Value, me string, now Now) ([]Planned, error) {
	reading, err := quantity.Parse(answers.Get("meter").Get("reading").Text(), quantity.UnitH)
	if err != nil {
		return nil, Wrong(err.Error())
	}
	plan := []Planned{{Kind: "fact", Body: Encode(&Opened{})}}
	for _, name := range []string{"cylinders", "view", "oil_unit", "meter", "name"} {
		v := Value{Text: answers.Get(name).Text()}
		switch {
		case name == "meter":
			v = Value{Text: answers.Get(name).Get("which").Text(), M: reading.Measured}
		case name == "name" && v.Text == "":
			continue
		}
		f, _ := fieldOf(name)
		if err := f.check(v); err != nil {
			return nil, err
		}
		plan = append(plan, Planned{Kind: "fact", Body: Encode(&Setting{Field: name, Value: f.writeValue(v), Day: now.Day, By: me})})
	}
	return plan, nil
}
