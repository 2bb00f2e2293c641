package card

import (
	"strings"

	"linkrod/sync/plain"
)

// WriteList writes a card as a line of a list: {shelf, card, version, title, kind, hash,
// kind_words, summary, group, demo, banner, applies, checked, for}.
func (c Card) WriteList(w *plain.Writer, fits string) {
	w.Begin('{')
	c.fields(w)
	w.Text("kind_words", KindWords(c.Kind))
	w.Text("summary", c.Summary)
	group := c.Group
	if group == "" {
		group = KindWords(c.Kind) + "s"
	}
	w.Text("group", group)
	w.Bool("demo", c.Demo)
	banner := ""
	if c.State == "withdrawn" {
		banner = "Withdrawn"
	}
	w.Text("banner", banner)
	w.Texts("applies", c.Applies.Words())
	checked := true
	for _, s := range c.Sources {
		checked = checked && s.Checked()
	}
	w.Bool("checked", checked)
	w.Text("for", fits)
	w.End('}')
}

// WriteText writes a card as a search looks at it: {shelf, card, title, kind, group, words,
// text}. Marks are left out.
func (c Card) WriteText(w *plain.Writer) {
	w.Begin('{')
	w.Text("shelf", c.Shelf)
	w.Text("card", c.ID)
	w.Text("title", c.Title)
	w.Text("kind", c.Kind)
	w.Text("group", c.Group)
	w.Text("words", strings.Join(append(texts(c.JSON.Get("words")), c.Applies.Models...), " "))
	text, _ := unmark(c.Summary + "\n" + strings.Join(c.Cautions, "\n") + "\n" + said(c.Body))
	w.Text("text", text)
	w.End('}')
}

// said is what a body says, a line each: its texts, and what its numbers are about.
func said(v plain.Value) string {
	if v.Kind() == plain.Text {
		return v.Text() + "\n"
	}
	var all strings.Builder
	if isFigure(v) {
		all.WriteString(readFigure(v, "").Digits() + "\n")
	}
	if id := v.Get("id").Text(); id != "" {
		all.WriteString(labelOf(v.Get("label").Text(), id) + "\n")
	}
	for i, e := range v.Items() {
		if v.Kind() == plain.Object {
			switch n := v.Names()[i]; n {
			case "id", "src", "u", "label":
				continue
			default:
				if partIndex(n) >= 0 && e.Kind() == plain.Text {
					continue
				}
			}
		}
		all.WriteString(said(e))
	}
	return all.String()
}

// WriteFigures writes every number of a card by where it stands, for a second person to
// hold against the page and for a reading to be compared with: [{label, digits, words,
// src}].
func (c Card) WriteFigures(w *plain.Writer) {
	w.Begin('[')
	figures(w, c.Body, "", c.Body.Get("src").Text())
	w.End(']')
}

func figures(w *plain.Writer, v plain.Value, of, src string) {
	src = inner(v, src)
	if id := v.Get("id").Text(); id != "" {
		of = labelOf(v.Get("label").Text(), id)
	}
	if isFigure(v) {
		f := readFigure(v, src)
		w.Begin('{')
		w.Text("label", capital(of))
		w.Text("digits", f.Digits())
		putText(w, "words", f.Words())
		w.Text("src", f.Src)
		w.End('}')
	}
	for i, e := range v.Items() {
		in := of
		if v.Kind() == plain.Object && isFigure(e) && e.Get("id").Text() == "" {
			in = strings.TrimPrefix(of+", "+labelOf("", v.Names()[i]), ", ")
		}
		if e.Kind() != plain.Text {
			figures(w, e, in, src)
		}
	}
}
