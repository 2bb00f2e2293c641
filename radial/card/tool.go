package card

import (
	"linkrod/radial/quantity"
	"linkrod/radial/torque"
	"linkrod/sync/plain"
)

// Tool is what a tool card says of a special or home-made tool.
type Tool struct {
	Card, Mark, Is string
	Length         quantity.Measured // from the centre of the drive to the centre of the nut
	Lever          quantity.Measured // of the wrench it was proved with
	Angle          quantity.Measured
	Joints         []string // it is used on
	Fits, NotFits  []string // models it is proved for, and those it no longer fits
	Demo           bool
}

// ReadTool is the tool of a tool card.
func ReadTool(c Card) (Tool, bool) {
	if c.Kind != "tool" {
		return Tool{}, false
	}
	b := c.Body
	v := func(name string) quantity.Measured { return readFigure(b.Get(name), "").Part("v") }
	return Tool{Card: c.ID, Mark: b.Get("mark").Text(), Is: b.Get("is").Text(), Length: v("effective_length"), Lever: v("lever"), Angle: v("angle"),
		Joints: texts(b.Get("joints")), Fits: texts(b.Get("fits")), NotFits: texts(b.Get("not_fits")), Demo: c.Demo}, true
}

// Proved is "" for a tool that is proved for every one of the models, else the warning.
func (t Tool) Proved(models []string) string {
	for _, m := range models {
		if has(t.NotFits, m) {
			return t.Mark + " does not fit the " + m + " any more."
		}
	}
	for _, m := range models {
		if !has(t.Fits, m) {
			return "Not proved for this model: " + t.Mark + " is proved for " + list(t.Fits, "and") + "."
		}
	}
	return ""
}

// setting writes what the wrench is set to with the tool in hand, as a field of a joint:
// {tool, mark, proof, work, of, digits, unit, words, maths} or, where it can't be worked
// out, waits.
func (t *Tool) setting(w *plain.Writer, aimed quantity.Measured, joint plain.Value, models []string) {
	w.Open("setting", '{')
	w.Text("tool", t.Card)
	w.Text("mark", t.Mark)
	w.Text("proof", t.Proved(models))
	w.Text("work", workLink(aimed, joint, t))
	if waits := t.set(w, aimed); waits != "" {
		w.Text("waits", waits)
	}
	w.End('}')
}

func (t *Tool) set(w *plain.Writer, aimed quantity.Measured) (waits string) {
	switch {
	case !aimed.Given():
		return "The sheet gives a range. Choose the torque to pull to."
	case !t.Length.Given():
		return "The tool’s card doesn’t say its effective length."
	case !t.Lever.Given():
		return "The wrench’s lever is still to come."
	}
	wanted, err := aimed.Torque()
	if err != nil {
		return err.Error()
	}
	lever, err1 := t.Lever.Length()
	length, err2 := t.Length.Length()
	s := torque.Setup{Lever: lever, Adapter: length}
	if t.Angle.Given() {
		s.Angle, err = t.Angle.Angle()
	}
	for _, e := range []error{err, err1, err2} {
		if e != nil {
			return e.Error()
		}
	}
	set, err := s.Setting(wanted)
	if err != nil {
		return err.Error()
	}
	said, _ := s.Say(wanted) // there is a setting
	w.Text("of", aimed.Value.Show()+"\u2009"+aimed.Unit.Symbol())
	w.Text("digits", quantity.Figure(set.InchPounds(), 1))
	w.Text("unit", quantity.UnitInLb.Symbol())
	w.Text("words", torque.Spoken(set))
	w.Text("maths", said)
	w.Number("L", lever.Inches())
	w.Number("E", length.Inches())
	w.Number("angle", s.Angle.Degrees())
	return ""
}

// toolRows is a tool card's body.
func (s Shown) toolRows(w *plain.Writer, b plain.Value, src string) {
	w.Begin('{')
	w.Text("title", "")
	w.Open("rows", '[')
	say := func(label, words string) {
		if words == "" {
			return
		}
		row(w, "figure")
		w.Text("id", "")
		w.Text("label", label)
		text, marks := unmark(words)
		w.Text("digits", text)
		w.Bool("limit", false)
		w.Open("parts", '{')
		w.End('}')
		sourced(w, marks, src)
		w.End('}')
	}
	say("Stamped", b.Get("mark").Text())
	say("What it is", b.Get("is").Text())
	for _, id := range []string{"effective_length", "lever", "angle", "proof"} {
		if f := b.Get(id); f.Given() {
			figureNamed(w, f, id, inner(f, src))
		}
	}
	var on []string
	for _, id := range texts(b.Get("joints")) {
		on = append(on, labelOf("", id))
	}
	say("Used on", list(on, "and"))
	say("What was changed", b.Get("modification").Text())
	say("Look before use", b.Get("check").Text())
	say("Proved for", list(texts(b.Get("fits")), "and"))
	say("No longer fits", list(texts(b.Get("not_fits")), "and"))
	say("Passed by", b.Get("passed_by").Text())
	say("Looked at again by", longDate(b.Get("next_check").Text()))
	w.End(']')
	w.End('}')
}

// loans writes who has had a tool, the last first.
func loans(w *plain.Writer, on *Shelf, id string) {
	last, out := on.Out(id)
	if out {
		w.Text("with", last.Who)
	}
	w.Open("loans", '[')
	for _, l := range on.Loans(id) {
		words := "Out to " + l.Who
		if !l.Out {
			words = "Back from " + l.Who
		}
		if l.Day != "" {
			words += ", " + longDate(l.Day)
		}
		if l.Condition != "" {
			words += ". " + capital(l.Condition)
		}
		w.Text("", words+".")
	}
	w.End(']')
}
