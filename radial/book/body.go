package book

import (
	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// Body is what one entry says. Its JSON is an object with a "type"; the types
// are the files body_*.go and setting.go.
type Body interface {
	// Type is the "type" of the JSON.
	Type() string
	// Check says in a sentence what is wrong with the body and what to do,
	// nil when nothing is.
	Check() error
	// Say is the body as it reads aloud, without its hours and its day.
	Say() string

	read(*reader)
	write(*plain.Writer)
}

// Decode reads the body of an entry.
//
// A type that this program does not know is not an error: it comes back as
// Newer, is kept and shown, and is never counted. A field it does not know is
// passed over. A body that breaks its own rules is an error with a sentence;
// whoever reads a book keeps it all the same.
func Decode(body []byte) (Body, error) {
	v, err := plain.Parse(body)
	if err != nil {
		return nil, Wrong(unreadable + "it is " + err.Error() + ".")
	}
	r := &reader{Value: v}
	b := bodyOf(r.text("type"))
	if b == nil || r.err != nil {
		return nil, Wrong(unreadable + "it does not say what it is.")
	}
	if b.read(r); r.err != nil {
		return nil, r.err
	}
	return b, b.Check()
}

// bodyOf is an empty body of a type, nil for none.
func bodyOf(typ string) Body {
	switch typ {
	case "":
		return nil
	case "engine":
		return new(Opened)
	case "setting":
		return new(Setting)
	case "oil":
		return new(Oil)
	case "drain":
		return new(Drain)
	case "step_closed":
		return new(StepClosed)
	case "meter":
		return new(MeterChange)
	case "note":
		return new(Note)
	case "identity":
		return new(Looked)
	case "deviation":
		return new(Deviation)
	case "strike":
		return new(Strike)
	}
	if k := KindOf(typ); k != nil {
		return &Facts{Kind: k}
	}
	return Newer{typ}
}

// Encode writes a body as it is stored: its type first, then what was given.
func Encode(b Body) []byte {
	var w plain.Writer
	w.Begin('{')
	w.Text("type", b.Type())
	b.write(&w)
	w.End('}')
	return w.Bytes()
}

// Stamp is who says it and when, as they state it themselves.
type Stamp struct {
	Day   string // "2025-10-06"
	Clock string // "18:40"
	By    string
}

func (s *Stamp) read(r *reader) {
	s.Day, s.Clock, s.By = r.text("day"), r.text("clock"), r.text("by")
}

func (s Stamp) write(w *plain.Writer) {
	putText(w, "day", s.Day)
	putText(w, "clock", s.Clock)
	putText(w, "by", s.By)
}

func (s Stamp) check() error {
	if _, ok := parseDay(s.Day); s.Day != "" && !ok {
		return Wrong("There is no day “" + s.Day + "”. A day is written 2025-10-06.")
	}
	if _, ok := parseTime(s.Clock); s.Clock != "" && !ok {
		return Wrong("There is no time “" + s.Clock + "”. A time is written 18:40.")
	}
	return nil
}

func (s Stamp) stamp() Stamp { return s }

// stamped is a body that says when.
type stamped interface{ stamp() Stamp }

// timed is a body that stands at an hour of the meter.
type timed interface {
	// at is the meter as it was read; not Given when it was not.
	at() quantity.Measured
}

// wrongKind is the sentence for a value in a unit of something else.
func wrongKind(what string, m quantity.Measured, want quantity.Dimension) error {
	if m.Given() && m.Dimension() != want {
		return Wrong(what + " is given as " + m.Text() + ", which is not a " + want.String() + ".")
	}
	return nil
}

// needHours is the sentence for a line without its hours.
func needHours(m quantity.Measured) error {
	if !m.Given() {
		return Wrong("At how many meter hours? A line without them cannot be placed.")
	}
	if m.Unit != quantity.UnitH {
		return Wrong("The meter reading is given as " + m.Text() + ". It is kept in hours.")
	}
	if m.Value.Sign() < 0 {
		return Wrong("The meter reads " + m.Value.Show() + ". A meter has no hours below nought.")
	}
	return nil
}

func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
