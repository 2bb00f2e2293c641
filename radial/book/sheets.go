package book

import (
	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// Sheets are the cards that apply to this engine, as package card found them. A book does
// not look for cards itself: it judges by what is laid beside it, and without any it can't.

// sheet is one card, and how it was found.
type sheet struct {
	kind, part  string
	found       string // one, none, cant
	why, settle []string
	Pin
	body, sources plain.Value
}

// Lay puts the sheets beside the book, for whatever it judges from now on; see
// card.WriteSheets for their form.
func (b *Book) Lay(v plain.Value) {
	b.sheets, b.papers = nil, nil
	for _, c := range v.Get("cards").Items() {
		n, _ := c.Get("version").Int()
		json := c.Get("json")
		b.papers = append(b.papers, sheet{Pin: Pin{c.Get("shelf").Text(), c.Get("card").Text(), int(n), c.Get("hash").Text()},
			body: json.Get("body"), sources: json.Get("sources")})
	}
	for _, s := range v.Get("sheets").Items() {
		var sh sheet
		if i, _ := s.Get("card").Int(); i >= 0 && int(i) < len(b.papers) {
			sh = b.papers[i]
		}
		in := &reader{Value: s}
		sh.kind, sh.part, sh.found, sh.why, sh.settle = in.text("kind"), in.text("part"), in.text("found"), in.texts("why"), in.texts("settle")
		b.sheets = append(b.sheets, sh)
	}
}

// sheet of a kind for a part of the engine.
func (b *Book) sheet(kind, part string) *sheet {
	for i := range b.sheets {
		if s := &b.sheets[i]; s.kind == kind && s.part == part {
			return s
		}
	}
	if part != "" {
		return b.sheet(kind, "")
	}
	return &sheet{found: "none"}
}

// pinned is the version of a card that an entry was judged by, nil where it is not here.
func (b *Book) pinned(p *Pin) *sheet {
	for i := range b.papers {
		if s := &b.papers[i]; s.Shelf == p.Shelf && s.Card == p.Card && s.Version == p.Version && (p.Hash == "" || p.Hash == s.Hash) {
			return s
		}
	}
	return nil
}

// outdated says that the card an entry was judged by has a newer version, "" when it hasn't.
func (b *Book) outdated(p *Pin) string {
	for i := range b.sheets {
		if s := &b.sheets[i]; p != nil && s.Shelf == p.Shelf && s.Card == p.Card && s.Version > p.Version {
			return "Judged by version " + itoa(p.Version) + " of its card, which counted when it was written. Version " + itoa(s.Version) + " is out."
		}
	}
	return ""
}

// WritePins writes the cards that entries were judged by: [{"shelf","card","version"}].
func (b *Book) WritePins(w *plain.Writer) {
	have := map[Pin]bool{}
	w.Begin('[')
	for _, l := range b.lines {
		if f, ok := l.body.(*Facts); ok && f.Card != nil && !have[*f.Card] {
			have[*f.Card] = true
			w.Begin('{')
			w.Text("shelf", f.Card.Shelf)
			w.Text("card", f.Card.Card)
			w.Int("version", int64(f.Card.Version))
			w.End('}')
		}
	}
	w.End(']')
}

// source is the paper of a part of a card.
func (s *sheet) source(at plain.Value) *SourceLine {
	key := at.Get("src").Text()
	if key == "" {
		key = s.body.Get("src").Text()
	}
	in := &reader{Value: s.sources.Get(key)}
	if !in.Given() {
		return nil
	}
	return sourceLine(&Source{in.text("document"), in.text("page"), in.text("revision"), in.text("date"), in.text("typed_by"), in.text("checked_by")})
}

// item is an item of a list of the card by its id.
func (s *sheet) item(list, id string) (held, bool) {
	for _, it := range s.body.Get(list).Items() {
		if it.Get("id").Text() == id {
			return held{item: it, u: quantity.Unit(it.Get("u").Text()), src: s.source(it)}, true
		}
	}
	return held{}, false
}

// held is what a figure is held against: the item of a card, or a setting of the engine's
// own sheet.
type held struct {
	item plain.Value
	u    quantity.Unit
	src  *SourceLine
	none string // why there is none
}

func (l *held) part(name string) quantity.Measured {
	if d, err := quantity.ParseDecimal(l.item.Get(name).Text()); err == nil && l.item.Get(name).Given() {
		return quantity.Measured{Value: d, Unit: l.u}
	}
	return quantity.Measured{}
}

// least is the figure of a single limit from below: a look, else a minimum.
func (l *held) least() quantity.Measured {
	if m := l.part("look"); m.Given() {
		return m
	}
	return l.part("min")
}

// pinFor is the card that an entry is judged by as it is written, which then stays its card
// whatever is published later; nil where none applies, where the engine's own sheet does, and
// on a mixed build, whose parts go by cards of their own.
func (b *Book) pinFor(f *Facts) *Pin {
	kind, part := "limits", ""
	switch f.Kind {
	case &clearances:
		part = "heads"
	case &dimensions:
		part = orNot(f.text("part"), "barrels")
	case &points, &plugs, &drops:
		part = "ignition"
	case &compressionSet:
		part = "barrels"
		if _, own := b.value("compression"); own {
			return nil
		}
	case &torqueDone:
		kind, part = "torque", partOf(f.text("joint"))
	case &beforeTakeoff, &run, &flight:
	default:
		return nil
	}
	s := b.sheet(kind, part)
	if s.found != "one" || len(b.ForCards().Deviations) > 0 {
		return nil
	}
	p := s.Pin
	return &p
}

// Lacks reports that the newest entry was judged by a card that is not laid beside the book.
func (b *Book) Lacks() bool {
	if len(b.lines) == 0 {
		return false
	}
	f, ok := b.lines[len(b.lines)-1].body.(*Facts)
	return ok && f.Card != nil && b.pinned(f.Card) == nil
}
