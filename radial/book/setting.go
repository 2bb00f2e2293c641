package book

import (
	"strconv"

	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// Setting is one thing on file about the engine. An edit names the setting it
// replaces; see heads.go for what happens when two people edit at once.
type Setting struct {
	Field  string
	Value  []byte // JSON, by the form of the field; null: withdrawn or not known
	Reason string
	Day    string
	By     string

	is Value // what Value says, by Check
}

func (*Setting) Type() string { return "setting" }

func (s *Setting) read(r *reader) {
	s.Field, s.Value, s.Reason = r.text("field"), r.Get("value").Raw(), r.text("reason")
	s.Day, s.By = r.text("day"), r.text("by")
}

func (s *Setting) write(w *plain.Writer) {
	w.Text("field", s.Field)
	w.Raw("value", s.Value)
	putText(w, "reason", s.Reason)
	putText(w, "day", s.Day)
	putText(w, "by", s.By)
}

func (s *Setting) Check() (err error) {
	f, ok := fieldOf(s.Field)
	if !ok {
		return nil // of a newer Linkrod: kept, shown as it is
	}
	s.is, err = f.readValue(s.Value)
	return err
}

func (s *Setting) stamp() Stamp { return Stamp{Day: s.Day, By: s.By} }

func (s *Setting) Say() string {
	f, ok := fieldOf(s.Field)
	if !ok {
		return "Setting of a newer Linkrod (" + s.Field + ")"
	}
	text := f.label + ": " + f.say(s.is)
	if src := s.is.Source; src != nil {
		text += ", " + src.line()
	}
	return text + aside(s.Reason)
}

// same reports that two settings say the same, to the last digit typed and the
// name under it.
func (s *Setting) same(t *Setting) bool { return string(s.Value) == string(t.Value) }

// Value is a setting's value, read. Which parts are filled depends on the form
// of its field. The zero Value is "not given".
type Value struct {
	Text    string            // words and choices; the kind of meter
	M       quantity.Measured // the figure
	Stop    quantity.Measured // pairs: M is look, Stop is stop
	Source  *Source           // limits
	Unknown bool              // asked, and not known
}

// given reports that there is something to go by.
func (v Value) given() bool { return v.Text != "" || v.M.Given() }

// form is how the value of a field is built.
type form int

const (
	formWords  form = iota // "B-0711"
	formChoice             // one of the field's options
	formFigure             // {"v":"20","u":"qt"}
	formMeter              // {"which":"tach","reading":{…}}
	formLimit              // {"value":{…},"source":{…}}
	formPair               // {"look":{…},"stop":{…},"source":{…}}
	formCount              // {"count":"8","source":{…}}
)

// field is one setting that a book can hold.
type field struct {
	name, label string
	form        form
	dim         quantity.Dimension
	options     []option // formChoice
	unknown     string   // what follows when it is not known
}

type option struct{ value, words string }

// fields are all settings, in the order a person is shown them.
var fields = []field{
	{name: "name", label: "Name"},
	{name: "model", label: "Model"},
	{name: "serial", label: "Serial number"},
	{name: "cylinders", label: "Cylinders", form: formChoice, options: []option{{"5", "5"}, {"7", "7"}, {"9", "9"}}},
	{name: "view", label: "Seen from", form: formChoice, options: []option{{"cockpit", "the cockpit"}, {"propeller", "the propeller"}}},
	{name: "master", label: "Master rod in", form: formChoice, options: []option{
		{"1", "cylinder 1"}, {"2", "cylinder 2"}, {"3", "cylinder 3"}, {"4", "cylinder 4"}, {"5", "cylinder 5"},
		{"6", "cylinder 6"}, {"7", "cylinder 7"}, {"8", "cylinder 8"}, {"9", "cylinder 9"}},
		unknown: "not known; no mirror cylinders are shown"},
	{name: "oil_unit", label: "Oil is kept in", form: formChoice, options: []option{
		{"qt", "US quarts"}, {"l", "litres"}, {"imp_qt", "imperial quarts"}}},
	{name: "tank_capacity", label: "Tank holds", form: formFigure, dim: quantity.DimVolume, unknown: "not known; a level over the brim is not noticed"},
	{name: "full_mark", label: "Full mark", form: formFigure, dim: quantity.DimVolume},
	{name: "min_flight", label: "Least for flight", form: formLimit, dim: quantity.DimVolume, unknown: "No limit on file"},
	{name: "stick_step", label: "Stick is read to", form: formFigure, dim: quantity.DimVolume, unknown: "not known; half a quart is assumed"},
	{name: "meter", label: "Meter at that point", form: formMeter, dim: quantity.DimTime},
	{name: "since", label: "Hours since, at that point", form: formFigure, dim: quantity.DimTime, unknown: "not known; a rate only, no verdict on bedding in"},
	{name: "since_what", label: "Counted from", form: formChoice, options: []option{{"overhaul", "the overhaul"}, {"re-ring", "the ring job"}}},
	{name: "total", label: "Total time, at that point", form: formFigure, dim: quantity.DimTime, unknown: "not known; unknown hours stay unknown"},
	{name: "top", label: "Hours since the top overhaul, at that point", form: formFigure, dim: quantity.DimTime, unknown: "not known"},
	{name: "bore", label: "Bore", form: formFigure, dim: quantity.DimLength},
	{name: "rated_power", label: "Rated power", form: formFigure, dim: quantity.DimPower},
	{name: "ceiling", label: "Oil ceiling", form: formLimit, dim: quantity.DimOilRate, unknown: "No limit on file"},
	{name: "overnight", label: "Oil gone while standing", form: formPair, dim: quantity.DimVolume, unknown: "No limit on file"},
	{name: "compression", label: "Compression, look below", form: formLimit, dim: quantity.DimPressure, unknown: "No limit on file"},
	{name: "blades", label: "Blades to pull through", form: formCount, unknown: "No card on file"},
}

func fieldOf(name string) (field, bool) {
	for _, f := range fields {
		if f.name == name {
			return f, true
		}
	}
	return field{}, false
}

// readValue reads a value as it travels and says what is wrong with it.
func (f field) readValue(raw []byte) (v Value, err error) {
	if len(raw) == 0 {
		return v, Wrong(f.label + ": no value is given.")
	}
	json, err := plain.Parse(raw)
	if err != nil {
		return v, Wrong(unreadable + "it is " + err.Error() + ".")
	}
	r := &reader{Value: json}
	if !json.Given() || json.Get("unknown").Bool() {
		return Value{Unknown: true}, nil
	}
	switch f.form {
	case formWords, formChoice:
		v.Text = json.Text()
		if json.Kind() != plain.Text {
			r.fail("“value” is not of the right kind.")
		}
	case formFigure:
		v.M = r.itself()
	case formMeter:
		v.Text, v.M = r.text("which"), r.measured("reading")
	case formLimit:
		v.M, v.Source = r.measured("value"), r.source("source")
	case formPair:
		v.M, v.Stop, v.Source = r.measured("look"), r.measured("stop"), r.source("source")
	case formCount:
		v.Text, v.Source = r.text("count"), r.source("source")
	}
	if r.err != nil {
		return Value{}, r.err
	}
	return v, f.check(v)
}

// writeValue writes a value as it travels.
func (f field) writeValue(v Value) []byte {
	var w plain.Writer
	if v.Unknown {
		w.Begin('{')
		w.Bool("unknown", true)
		w.End('}')
		return w.Bytes()
	}
	switch f.form {
	case formWords, formChoice:
		w.Text("", v.Text)
		return w.Bytes()
	case formFigure:
		putMeasured(&w, "", v.M)
		return w.Bytes()
	}
	w.Begin('{')
	switch f.form {
	case formMeter:
		w.Text("which", v.Text)
		putMeasured(&w, "reading", v.M)
	case formLimit:
		putMeasured(&w, "value", v.M)
	case formPair:
		putMeasured(&w, "look", v.M)
		putMeasured(&w, "stop", v.Stop)
	case formCount:
		w.Text("count", v.Text)
	}
	if v.Source != nil {
		v.Source.write(&w)
	}
	w.End('}')
	return w.Bytes()
}

// check holds the rules of each field.
func (f field) check(v Value) error {
	switch f.form {
	case formWords:
		if v.Text == "" {
			return Wrong(f.label + " is empty.")
		}
	case formChoice:
		if _, ok := f.option(v.Text); !ok {
			var words []string
			for _, o := range f.options {
				words = append(words, o.value)
			}
			return Wrong(f.label + " is one of " + list(words, "or") + ", not “" + v.Text + "”.")
		}
	case formFigure:
		return f.checkFigure(v.M)
	case formMeter:
		if v.Text != "tach" && v.Text != "clock" {
			return Wrong("Which meter: tach hours or clock hours?")
		}
		return needHours(v.M)
	case formLimit:
		return first(f.checkFigure(v.M), v.Source.check())
	case formPair:
		if err := first(f.checkFigure(v.M), f.checkFigure(v.Stop), v.Source.check()); err != nil {
			return err
		}
		if c, err := quantity.Compare(v.M, v.Stop); err != nil || c > 0 {
			return Wrong("Look at " + short(v.M) + " comes after stop at " + short(v.Stop) + ". Look is the smaller of the two.")
		}
	case formCount:
		if n, err := strconv.Atoi(v.Text); err != nil || n < 1 || n > 99 {
			return Wrong("“" + v.Text + "” is not a number of blades.")
		}
		return v.Source.check()
	}
	return nil
}

func (f field) checkFigure(m quantity.Measured) error {
	if !m.Given() {
		return Wrong(f.label + ": a figure and its unit are wanted.")
	}
	if err := wrongKind(f.label, m, f.dim); err != nil {
		return err
	}
	if f.dim == quantity.DimTime && m.Unit != quantity.UnitH {
		return Wrong(f.label + " is given as " + short(m) + ". It is kept in hours.")
	}
	if s := m.Value.Sign(); s < 0 || s == 0 && f.dim != quantity.DimTime {
		return Wrong(f.label + " reads " + short(m) + ". It must be more than nought.")
	}
	return nil
}

func (f field) option(value string) (words string, ok bool) {
	for _, o := range f.options {
		if o.value == value {
			return o.words, true
		}
	}
	return "", false
}

// say is a value in words.
func (f field) say(v Value) string {
	if !v.given() {
		if f.unknown != "" {
			return f.unknown
		}
		return "not given"
	}
	switch f.form {
	case formChoice:
		words, _ := f.option(v.Text)
		return words
	case formFigure, formLimit:
		return short(v.M)
	case formMeter:
		return v.Text + " " + short(v.M)
	case formPair:
		return "look at " + short(v.M) + ", stop at " + short(v.Stop)
	case formCount:
		return counted(atoi(v.Text), "blade", "blades")
	}
	return v.Text
}
