package card

import "linkrod/sync/plain"

// Tool is what a tool card says of a special or home-made tool, as far as it decides where
// it may be used.
type Tool struct {
	Mark          string
	Joints        []string // it is used on
	Fits, NotFits []string // models it is proved for, and those it no longer fits
}

// ReadTool is the tool of a tool card.
func ReadTool(c Card) Tool {
	b := c.Body
	return Tool{b.Get("mark").Text(), texts(b.Get("joints")), texts(b.Get("fits")), texts(b.Get("not_fits"))}
}

// Proved is "" for a tool that is proved for a model, else the warning.
func (t *Tool) Proved(model string) string {
	switch {
	case has(t.NotFits, model):
		return t.Mark + " does not fit the " + model + " any more."
	case !has(t.Fits, model):
		return "Not proved for this model: " + t.Mark + " is proved for " + list(t.Fits, "and") + "."
	}
	return ""
}

// Use writes what a torque screen takes from a tool for a joint of a torque card: {"tool",
// "mark","proof","typed":{name: text}}. proof is the warning where it isn't proved for the
// model; typed is what the torque sum is filled with. A joint whose sheet gives a range
// and nothing to aim at leaves the torque to the person; without a tool there is neither
// mark nor proof.
func Use(w *plain.Writer, joint plain.Value, tool Card, model string) {
	w.Begin('{')
	typed := func(name string, f plain.Value) {
		if v := f.Get("v").Text(); v != "" {
			w.Text(name, v)
			w.Text(name+".unit", f.Get("u").Text())
		}
	}
	if tool.ID != "" {
		t := ReadTool(tool)
		w.Text("tool", tool.ID)
		w.Text("mark", t.Mark)
		w.Text("proof", t.Proved(model))
	}
	w.Open("typed", '{')
	if aim := joint.Get("aim"); aim.Given() {
		typed("wanted", aim)
	} else {
		typed("wanted", joint.Get("final"))
	}
	if th := joint.Get("thread").Text(); th != "" {
		w.Text("thread", th)
	}
	switch l := joint.Get("lubrication").Text(); l {
	case "dry", "oiled", "anti-seize":
		w.Text("lube", l)
	}
	typed("lever", tool.Body.Get("lever"))
	typed("adapter", tool.Body.Get("effective_length"))
	typed("angle", tool.Body.Get("angle"))
	w.End('}')
	w.End('}')
}

// writeLoans writes who has a tool, as with, and who has had it, the last first, as loans.
// Of a card that nobody ever borrowed it writes no loans.
func (s *Shelf) writeLoans(w *plain.Writer, id string) {
	last := true
	w.Open("loans", '[')
	for i := len(s.loans) - 1; i >= 0; i-- {
		l := s.loans[i]
		if l.Card != id {
			continue
		}
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
		w.Begin('{')
		w.Text("words", words+".")
		w.Bool("out", l.Out && last)
		w.End('}')
		last = false
	}
	w.End(']')
}
