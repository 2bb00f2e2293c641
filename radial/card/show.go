package card

import "linkrod/sync/plain"

// Shown is a card in one version with what a reader of it must know beside it.
type Shown struct {
	Card
	Newer int    // the newest version that is out, 0 when this is it
	Since string // why the newest was published
	Gone  string // why it was withdrawn, "" when it wasn't
}

// Write writes a card as it stands on its shelf: {"shelf","card","version","title","kind",
// "hash","demo","state","banner","newer"?,"says":[sentence],"sources":[{"key","line",
// "checked"}],"see":[{"card","title"}],"loans":[{"words","out"}],"json"}. The banner is the
// word across it. json is the card, prepared when it was published (Prepare).
func (s Shown) Write(w *plain.Writer, on *Shelf) {
	w.Begin('{')
	s.fields(w)
	w.Bool("demo", s.Demo)
	w.Text("state", s.State)
	banner := ""
	var says []string
	switch {
	case s.State == "withdrawn":
		banner = "Withdrawn"
		if s.Gone != "" {
			says = append(says, "This card was withdrawn: "+s.Gone+".")
		}
	case s.State == "draft":
		banner = "Draft"
	case s.Newer > s.Version || s.State == "superseded":
		banner = "Superseded"
	}
	w.Text("banner", banner)
	if s.Newer > s.Version {
		w.Int("newer", int64(s.Newer))
		line := "Version " + itoa(s.Newer) + " is out"
		if s.Since != "" {
			line += ": " + s.Since
		}
		says = append(says, line+".")
	}
	if !s.checked() {
		says = append(says, "Not every number has been held against its page by a second person.")
	}
	w.Texts("says", says)
	w.Open("sources", '[')
	for i := range s.Sources {
		src := &s.Sources[i]
		w.Begin('{')
		w.Text("key", src.Key)
		w.Text("line", s.JSON.Get("sources").Get(src.Key).Get("line").Text()+src.people())
		w.Bool("checked", src.Checked())
		w.End('}')
	}
	w.End(']')
	w.Open("see", '[')
	for _, id := range texts(s.JSON.Get("see")) {
		w.Begin('{')
		w.Text("card", id)
		w.Text("title", on.title(id))
		w.End('}')
	}
	w.End(']')
	on.writeLoans(w, s.ID)
	w.Raw("json", s.JSON.Raw())
	w.End('}')
}

// checked reports that every source of the card was held against its page by two people.
func (c Card) checked() bool {
	for i := range c.Sources {
		if !c.Sources[i].Checked() {
			return false
		}
	}
	return true
}
