package card

import "linkrod/sync/plain"

// WriteList writes a card as a line of a list: {shelf, card, version, title, kind, hash,
// summary, group, demo, banner, applies, checked, for}.
func (c Card) WriteList(w *plain.Writer, fits string) {
	w.Begin('{')
	c.fields(w)
	w.Text("kind_words", c.JSON.Get("kind_words").Text())
	w.Text("summary", c.JSON.Get("summary").Text())
	w.Text("group", c.JSON.Get("group").Text())
	w.Bool("demo", c.Demo)
	w.Bool("withdrawn", c.State == "withdrawn")
	w.Texts("applies", texts(c.JSON.Get("applies_words")))
	w.Bool("checked", c.checked())
	w.Text("for", fits)
	w.End('}')
}
