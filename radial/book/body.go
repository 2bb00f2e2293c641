package book

import (
	"encoding/json"
	"errors"

	"linkrod/radial/quantity"
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
}

// Decode reads the body of an entry.
//
// A type that this program does not know is not an error: it comes back as
// Newer, is kept and shown, and is never counted. A field it does not know is
// passed over. A body that breaks its own rules is an error with a sentence;
// whoever reads a book keeps it all the same.
func Decode(body []byte) (Body, error) {
	var head struct {
		Type string `json:"type"`
	}
	if err := json.Unmarshal(body, &head); err != nil {
		return nil, Wrong("This line cannot be read: " + err.Error() + ".")
	}
	if head.Type == "" {
		return nil, Wrong("This line cannot be read: it does not say what it is.")
	}
	var b Body
	switch head.Type {
	case "engine":
		b = new(Opened)
	case "setting":
		b = new(Setting)
	case "oil":
		b = new(Oil)
	case "drain":
		b = new(Drain)
	case "step_closed":
		b = new(StepClosed)
	case "meter":
		b = new(MeterChange)
	case "compression":
		b = new(Compression)
	case "note":
		b = new(Note)
	case "strike":
		b = new(Strike)
	default:
		return Newer{head.Type}, nil
	}
	if err := json.Unmarshal(body, b); err != nil {
		return nil, unreadable(err)
	}
	return b, b.Check()
}

// unreadable words what encoding/json or quantity has against a body.
func unreadable(err error) error {
	var refused *quantity.Refusal
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(err, &refused):
		return Wrong("This line cannot be read: " + refused.Sentence)
	case errors.As(err, &kind):
		return Wrong("This line cannot be read: “" + kind.Field + "” is not of the right kind.")
	}
	return Wrong("This line cannot be read: " + err.Error() + ".")
}

// Encode writes a body as it is stored: its type first, then its fields.
func Encode(b Body) ([]byte, error) {
	fields, err := json.Marshal(b)
	if err != nil {
		return nil, err
	}
	head := `{"type":"` + b.Type() + `"`
	if len(fields) > 2 {
		head += ","
	}
	return append([]byte(head), fields[1:]...), nil
}

// Stamp is who says it and when, as they state it themselves.
type Stamp struct {
	Day   string `json:"day,omitempty"`   // "2025-10-06"
	Clock string `json:"clock,omitempty"` // "18:40"
	By    string `json:"by,omitempty"`
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
