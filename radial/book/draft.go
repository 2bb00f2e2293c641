package book

import (
	"strings"

	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// A draft is a form as it stands: field -> text as it was typed, or the choice
// made. The fields by kind of draft (all text, unless it says flag or list):
//
//	oil          hours, tail, level, added, unit, add_how, minutes, temp, temp_unit,
//	             stands, scavenged, foam, note, day, clock, late (flag), checked (list)
//	drain        hours, tail, level_before, level_after, same (flag), unit, minutes,
//	             temp, temp_unit, stands, scavenged, foam, note, day, clock, late, checked
//	note         text, hours, day, clock
//	setting      field, value, unit, which, look, stop, count, document, page, revision,
//	             date, typed_by, checked_by, unknown (flag), withdraw (flag), reason,
//	             use (the key of the value to settle on, where two stand)
//	step_closed  hours, found, day, clock
//	meter        out, in, day, clock
//	strike       key, reason
//	identity     shelf, looked (list), base, mixed (flag), statement
//	deviation    part, of, found, wants, fits (list), evidence (list), approval, governs,
//	             decided, gone (flag), reason
//
// tail is the last digits of the meter instead of hours. unit is the oil unit
// when it is not the book's. checked are the codes of the questions the person
// has answered by "leave it as it is".

// Drafted is what became of a draft.
type Drafted struct {
	Entry    Planned // Body is nil while it cannot be saved
	Echo     string  // what would be saved, in words
	Foretold string  // of a reading: what the log would say with it, or why nothing
	Asks     []Ask
}

// Ask is a question about one field. It asks; only what is impossible stands in
// the way of saving, and what is unlikely does so once.
type Ask struct {
	Field    string
	Strength Strength
	Code     string
	Words    string
	Choices  []Choice
}

// Strength is how hard an Ask asks.
type Strength string

const (
	Impossible Strength = "impossible" // cannot be saved
	Unlikely   Strength = "unlikely"   // saved once Code stands in the draft's checked
	Differs    Strength = "differs"    // said, and saved all the same
)

// Choice is an answer to an Ask: fields to set in the draft. A field "kind"
// means that another kind of draft says it better.
type Choice struct {
	Label string
	Set   []byte // a JSON object
}

// Draft makes an entry of a draft, or says what is in its way.
func (b *Book) Draft(kind string, fields plain.Value, me string, now Now) Drafted {
	d := &drafting{book: b, in: fields, me: me, now: b.today(now)}
	body := d.body(kind)
	if body == nil {
		return d.done(nil)
	}
	d.legal("note", d.text("note"))
	if err := body.Check(); err != nil && !d.stuck() {
		d.ask(Ask{Field: kind, Strength: Impossible, Code: "incomplete", Words: err.Error()})
	}
	return d.done(body)
}

// drafting is a draft being looked at.
type drafting struct {
	book *Book
	in   plain.Value
	me   string
	now  Now
	plan Planned
	asks []Ask
}

func (d *drafting) body(kind string) Body {
	d.plan.Kind = "fact"
	switch kind {
	case "oil":
		return d.oil()
	case "drain":
		return d.drain()
	case "note":
		return d.note()
	case "setting":
		return d.setting()
	case "step_closed":
		s := &StepClosed{Hours: d.hours("hours"), Found: d.text("found"), Stamp: d.stamp()}
		d.need("found", s.Found != "", "What was found? A step is closed with what explains it.")
		return s
	case "meter":
		return d.meter()
	case "strike":
		return d.strike()
	case "identity":
		return d.look()
	case "deviation":
		return d.deviation()
	}
	if k := KindOf(kind); k != nil {
		return d.facts(k)
	}
	d.ask(Ask{Field: "kind", Strength: Impossible, Code: "kind", Words: "This Linkrod cannot write a “" + kind + "”."})
	return nil
}

// done is the result: a body only when nothing stands in its way.
func (d *drafting) done(body Body) Drafted {
	out := Drafted{Entry: d.plan, Asks: d.asks}
	if body == nil {
		return out
	}
	if e, ok := body.(echoed); ok {
		out.Echo = e.echo()
	} else {
		out.Echo = capital(body.Say())
	}
	if !d.stuck() {
		out.Entry.Body = Encode(body)
	}
	switch body.(type) {
	case *Oil, *Drain:
		out.Foretold = d.foretell(body)
	}
	return out
}

// echoed is a body that says itself another way before it is saved.
type echoed interface{ echo() string }

// stuck reports that the draft cannot be saved as it stands.
func (d *drafting) stuck() bool {
	for _, a := range d.asks {
		if a.Strength != Differs {
			return true
		}
	}
	return false
}

// ask puts a question, unless the person has answered it.
func (d *drafting) ask(a Ask) {
	if a.Strength != Unlikely || !d.checked(a.Code) {
		d.asks = append(d.asks, a)
	}
}

// asked reports that a question is open.
func (d *drafting) asked(code string) bool {
	for _, a := range d.asks {
		if a.Code == code {
			return true
		}
	}
	return false
}

// text is a field as typed, without the space around it.
func (d *drafting) text(name string) string {
	v := d.in.Get(name)
	if v.Kind() == plain.Number {
		return string(v.Raw())
	}
	return strings.TrimSpace(v.Text())
}

func (d *drafting) flag(name string) bool { return d.in.Get(name).Bool() }

// checked reports that the person has answered a question already.
func (d *drafting) checked(code string) bool {
	for _, v := range d.in.Get("checked").Items() {
		if v.Text() == code {
			return true
		}
	}
	return false
}

func (d *drafting) checkedCodes() (codes []string) {
	for _, v := range d.in.Get("checked").Items() {
		codes = append(codes, v.Text())
	}
	return codes
}

// leave is the choice to leave it as it is.
func (d *drafting) leave(label, code string) Choice {
	var w plain.Writer
	w.Begin('{')
	w.Texts("checked", append(d.checkedCodes(), code))
	w.End('}')
	return Choice{label, w.Bytes()}
}

// setText is the choice to have a field read so.
func setText(label, field, text string) Choice {
	var w plain.Writer
	w.Begin('{')
	w.Text(field, text)
	w.End('}')
	return Choice{label, w.Bytes()}
}

// setFlag is the choice to set a flag.
func setFlag(label, field string) Choice {
	var w plain.Writer
	w.Begin('{')
	w.Bool(field, true)
	w.End('}')
	return Choice{label, w.Bytes()}
}

// measured reads a field that is a figure kept in a unit. What cannot be read
// is asked about at that field, with what would be taken instead.
func (d *drafting) measured(name string, unit quantity.Unit) quantity.Measured {
	typed := d.text(name)
	if typed == "" {
		return quantity.Measured{}
	}
	r, err := quantity.Parse(typed, unit)
	if err == nil {
		return r.Measured
	}
	a := Ask{Field: name, Strength: Impossible, Code: "unread", Words: err.Error()}
	if refused, ok := err.(*quantity.Refusal); ok {
		a.Code = string(refused.Why)
		for _, instead := range refused.Instead {
			a.Choices = append(a.Choices, setText(instead, name, instead))
		}
	}
	d.ask(a)
	return quantity.Measured{}
}

// need asks for a field that must be there.
func (d *drafting) need(name string, given bool, words string) {
	if !given && !d.askedAbout(name) {
		d.ask(Ask{Field: name, Strength: Impossible, Code: "empty", Words: words})
	}
}

func (d *drafting) askedAbout(name string) bool {
	for _, a := range d.asks {
		if a.Field == name && a.Strength == Impossible {
			return true
		}
	}
	return false
}

// choice reads a field that is one of a few words.
func (d *drafting) choice(name string, words map[string]string) string {
	v := d.text(name)
	if _, ok := words[v]; v != "" && !ok {
		d.ask(Ask{Field: name, Strength: Impossible, Code: "choice", Words: "“" + v + "” is not one of the choices here."})
		return ""
	}
	return v
}

// stamp is who and when. What is written now carries the time; another day
// carries only what the person says.
func (d *drafting) stamp() Stamp {
	s := Stamp{Day: d.text("day"), Clock: d.text("clock"), By: d.me}
	if s.Day == "" && !d.flag("late") {
		s.Day = d.now.Day
		if s.Clock == "" {
			s.Clock = d.now.Clock
		}
	}
	if err := s.check(); err != nil {
		field := "day"
		if _, ok := parseDay(s.Day); ok || s.Day == "" {
			field = "clock"
		}
		d.ask(Ask{Field: field, Strength: Impossible, Code: "day", Words: err.Error()})
		return Stamp{By: d.me}
	}
	if d.now.Day != "" && s.Day > d.now.Day {
		d.ask(Ask{Field: "day", Strength: Unlikely, Code: "day_ahead", Words: longDay(s.Day) + " is still to come. Today is " + longDay(d.now.Day) + ".",
			Choices: []Choice{setText("Today", "day", d.now.Day), d.leave("Leave it", "day_ahead")}})
	}
	return s
}

// hours reads the meter, whole or by its last digits.
func (d *drafting) hours(name string) quantity.Measured {
	tail := d.text("tail")
	if d.text(name) != "" || tail == "" || name != "hours" {
		m := d.measured(name, quantity.UnitH)
		d.need(name, m.Given(), "What does the meter read?")
		return m
	}
	options := d.book.Tail(tail, d.daysSince())
	switch len(options) {
	case 0:
		d.ask(Ask{Field: "hours", Strength: Impossible, Code: "tail", Words: "The last digits alone do not tell the hours here. Type the whole reading."})
	case 1:
		m, err := quantity.Parse(options[0], quantity.UnitH)
		if err == nil {
			return m.Measured
		}
	default:
		a := Ask{Field: "hours", Strength: Impossible, Code: "tail",
			Words: list(options, "or") + "? The drum has gone round more than once."}
		for _, o := range options {
			a.Choices = append(a.Choices, setText(o, "hours", o))
		}
		d.ask(a)
	}
	return quantity.Measured{}
}

// daysSince is the days since the meter was last seen to move, -1 if not known.
func (d *drafting) daysSince() int { return d.book.standing(d.now).days }

func (d *drafting) note() Body {
	n := &Note{Text: d.text("text"), Stamp: d.stamp()}
	if d.text("hours") != "" {
		if n.Hours = d.hours("hours"); n.Hours.Given() {
			d.hoursJump("hours", n.Hours)
		}
	}
	d.need("text", n.Text != "", "The note is empty. Write what was seen or done.")
	d.legal("text", n.Text)
	return n
}

func (d *drafting) strike() Body {
	s := &Strike{Reason: d.text("reason"), By: d.me}
	d.plan.Kind = "strike"
	d.need("reason", s.Reason != "", "Why is it struck out? The reason stays with the line.")
	for key, l := range d.book.byKey {
		if key.String() == d.text("key") {
			switch {
			case l.struck != nil:
				d.ask(Ask{Field: "key", Strength: Impossible, Code: "struck", Words: "This line is struck out already."})
			case !l.strikable():
				d.ask(Ask{Field: "key", Strength: Impossible, Code: "stands", Words: "This line cannot be struck out."})
			}
			d.plan.Refs = []Key{key}
			return s
		}
	}
	d.ask(Ask{Field: "key", Strength: Impossible, Code: "no-line", Words: "There is no such line in this book."})
	return s
}

func (d *drafting) meter() Body {
	m := &MeterChange{Out: d.hours("out"), In: d.measured("in", quantity.UnitH), Stamp: d.stamp()}
	d.need("in", m.In.Given(), "What does the new meter read?")
	if m.Out.Given() {
		d.hoursBack("out", m.Out)
	}
	return m
}

// Write writes the result as the screens get it: body only when it can be
// saved.
func (r Drafted) Write(w *plain.Writer) {
	w.Begin('{')
	if r.Entry.Body != nil {
		w.Raw("body", r.Entry.Body)
		w.Open("envelope", '{')
		r.Entry.writeEnvelope(w)
		w.End('}')
	}
	w.Text("echo", r.Echo)
	w.Text("foretold", r.Foretold)
	writeAsks(w, r.Asks)
	w.End('}')
}

func writeAsks(w *plain.Writer, asks []Ask) {
	w.Open("asks", '[')
	for _, a := range asks {
		w.Begin('{')
		w.Text("field", a.Field)
		w.Text("strength", string(a.Strength))
		w.Text("code", a.Code)
		w.Text("words", a.Words)
		w.Open("choices", '[')
		for _, c := range a.Choices {
			w.Begin('{')
			w.Text("label", c.Label)
			w.Raw("set", c.Set)
			w.End('}')
		}
		w.End(']')
		w.End('}')
	}
	w.End(']')
}
