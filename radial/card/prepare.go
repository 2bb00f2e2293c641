package card

import "linkrod/sync/plain"

// Prepare is a card's JSON with everything beside it that a screen says, so that the phone
// has only to draw it: the words are made once, when the card is published, and stay as
// they were. Beside the card's own fields it has
//
//	"kind_words", "applies_words": [line], "history_words": [line]
//	sources.KEY.line                  the source line, who typed and who checked left off
//	"label"                           of everything that has an id
//	"digits", "other", "words", "unit", "limit", "of"   of every number: as a sheet has it, in the
//	                                  unit it is confused with, as on the telephone, its
//	                                  unit's symbol, whether it is a limit, and its source
//	"seen": [{"id","label","digits"}] of an engine card's features
//
// Texts keep their source marks; whoever draws them takes [key] out and shows the source.
func Prepare(v plain.Value) []byte {
	c, err := Read(v)
	if err != nil {
		return v.Raw()
	}
	var w plain.Writer
	w.Begin('{')
	for i, n := range v.Names() {
		e := v.Items()[i]
		switch n {
		case "sources":
			c.prepareSources(&w, e)
		case "body":
			prepare(&w, n, e, n, "")
		default:
			w.Raw(n, e.Raw())
		}
	}
	w.Text("kind_words", KindWords(c.Kind))
	w.Texts("applies_words", c.Applies.Words())
	var lines []string
	for _, h := range v.Get("history").Items() {
		line := "Version " + string(h.Get("version").Raw())
		if d := h.Get("date").Text(); d != "" {
			line += ", " + longDate(d)
		}
		lines = append(lines, line+": "+h.Get("reason").Text())
	}
	w.Texts("history_words", lines)
	w.End('}')
	return w.Bytes()
}

func (c Card) prepareSources(w *plain.Writer, v plain.Value) {
	w.Open("sources", '{')
	for i, key := range v.Names() {
		e := v.Items()[i]
		w.Open(key, '{')
		for j, n := range e.Names() {
			w.Raw(n, e.Items()[j].Raw())
		}
		s, _ := c.Source(key)
		w.Text("line", s.paper())
		w.End('}')
	}
	w.End('}')
}

// prepare writes a part of a card's body. src is the source of what it stands in.
func prepare(w *plain.Writer, name string, v plain.Value, field, src string) {
	switch v.Kind() {
	case plain.List:
		w.Open(name, '[')
		for _, e := range v.Items() {
			prepare(w, "", e, field, src)
		}
		w.End(']')
	case plain.Object:
		src = inner(v, src)
		w.Open(name, '{')
		for i, n := range v.Names() {
			if e := v.Items()[i]; n != "label" {
				prepare(w, n, e, n, src)
			}
		}
		id := v.Get("id").Text()
		number := isFigure(v)
		if number && id == "" {
			id = field
		}
		if id != "" {
			w.Text("label", capital(labelOf(v.Get("label").Text(), id)))
		}
		if number {
			f := readFigure(v, src)
			w.Text("digits", f.Digits())
			w.Text("other", f.Other())
			w.Text("words", f.Words())
			w.Text("unit", f.Unit.Symbol())
			w.Bool("limit", f.Limit())
			w.Text("of", f.Src)
		}
		if f := v.Get("features"); f.Given() {
			seenWords(w, f)
		}
		if j := v.Get("joints"); field == "body" && j.Given() && j.Items() != nil && j.Items()[0].Kind() == plain.Text {
			var on []string
			for _, id := range texts(j) {
				on = append(on, labelOf("", id))
			}
			w.Texts("joint_words", on)
		}
		w.End('}')
	default:
		w.Raw(name, v.Raw())
	}
}

// seenWords writes what can be seen on a model.
func seenWords(w *plain.Writer, v plain.Value) {
	w.Open("seen", '[')
	for i, key := range v.Names() {
		one := v.Items()[i]
		is := []string{one.Text()}
		if one.Kind() == plain.List {
			is = nil
			for _, e := range one.Items() {
				said := e.Get("is").Text() + e.Text()
				if s := e.Get("serials").Text(); s != "" {
					said += " (" + s + ")"
				}
				is = append(is, said)
			}
		}
		w.Begin('{')
		w.Text("id", key)
		w.Text("label", capital(FeatureName(key)))
		w.Text("digits", list(is, "or"))
		w.End('}')
	}
	w.End(']')
}

// inner is the source of what stands inside v.
func inner(v plain.Value, src string) string {
	if own := v.Get("src").Text(); own != "" {
		return own
	}
	return src
}
