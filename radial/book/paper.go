package book

import (
	"strings"

	"linkrod/radial/oil"
	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// Paper is a reading written in one line, as on paper: "15 +1 541.6".
type Paper struct {
	Draft []byte   // fields of an oil draft, as JSON
	Chips []string // the parts, for a look before saving
	Rest  string   // what could not be read
	Words string   // about the rest
}

// paperOrder is the order the parts are shown in, as they are said.
var paperOrder = []string{"level", "added", "hours", "minutes", "temp"}

// ReadPaper takes a paper line apart. A figure with a plus is what was added;
// one with h, or the largest, is the meter; the other is the level. Figures may
// carry their unit: "14 l", "20 min", "150 F".
func (b *Book) ReadPaper(text string) Paper {
	parts := map[string]quantity.Measured{}
	var bare []quantity.Measured
	var rest []string
	for _, word := range joinUnits(strings.Fields(text)) {
		field, m, ok := b.paperPart(word)
		_, twice := parts[field]
		switch {
		case strings.EqualFold(word, "at"):
		case !ok || twice:
			rest = append(rest, word)
		case field == "":
			bare = append(bare, m)
		default:
			parts[field] = m
		}
	}
	for _, m := range b.sortBare(bare, parts) {
		rest = append(rest, m.Value.Text())
	}
	var p Paper
	var w plain.Writer
	w.Begin('{')
	for _, field := range paperOrder {
		m, ok := parts[field]
		if !ok {
			continue
		}
		chip := short(m)
		if field == "added" {
			chip = "+" + chip
		}
		w.Text(field, asTyped(m, b.paperUnit(field)))
		p.Chips = append(p.Chips, chip)
	}
	w.End('}')
	p.Draft = w.Bytes()
	if p.Rest = strings.Join(rest, " "); p.Rest != "" {
		p.Words = "Read " + orNot(list(p.Chips, "and"), "nothing") + ", but not the rest: “" + p.Rest + "”. Change it or tap the parts."
	}
	return p
}

// paperUnit is the unit a field of the form is kept in.
func (b *Book) paperUnit(field string) quantity.Unit {
	switch field {
	case "hours":
		return quantity.UnitH
	case "minutes":
		return quantity.UnitMin
	case "temp":
		return quantity.UnitF
	}
	return b.engine.unit
}

// asTyped is a value for a field that is kept in a unit: the figure alone where
// that says it.
func asTyped(m quantity.Measured, unit quantity.Unit) string {
	if m.Unit == unit {
		return typed(m)
	}
	return m.Text()
}

// joinUnits puts a unit that stands alone behind its figure: "14", "l" is "14 l".
func joinUnits(words []string) (out []string) {
	for _, word := range words {
		if n := len(out); n > 0 && strings.ContainsAny(out[n-1], "0123456789") && !strings.ContainsAny(word, "0123456789+") {
			if _, err := quantity.Parse("1 "+word, quantity.UnitQt); err == nil {
				out[n-1] += " " + word
				continue
			}
			if anyUnit(word) {
				out[n-1] += " " + word
				continue
			}
		}
		out = append(out, word)
	}
	return out
}

func anyUnit(word string) bool {
	for _, u := range []quantity.Unit{quantity.UnitH, quantity.UnitMin, quantity.UnitF} {
		if _, err := quantity.Parse("1 "+word, u); err == nil {
			return true
		}
	}
	return false
}

// paperPart is what one figure of the line means by itself. field is "" for a
// bare one.
func (b *Book) paperPart(word string) (field string, m quantity.Measured, ok bool) {
	if r, err := quantity.Parse(word, b.engine.unit); err == nil {
		switch {
		case r.Plus:
			return "added", r.Measured, true
		case strings.Trim(word, "0123456789.,½¼¾/-") == "":
			return "", r.Measured, true
		}
		return "level", r.Measured, true
	}
	if r, err := quantity.Parse(word, quantity.UnitH); err == nil {
		if r.Measured.Unit == quantity.UnitMin {
			return "minutes", r.Measured, true
		}
		return "hours", r.Measured, true
	}
	if r, err := quantity.Parse(word, quantity.UnitF); err == nil {
		return "temp", r.Measured, true
	}
	return "", m, false
}

// sortBare tells the meter from the level among figures without a unit: the
// larger is the meter, and one alone is the meter only when no tank holds it.
// What is left over comes back.
func (b *Book) sortBare(bare []quantity.Measured, parts map[string]quantity.Measured) (more []quantity.Measured) {
	most := 0
	for i, m := range bare {
		if m.Value.Compare(bare[most].Value) > 0 {
			most = i
		}
	}
	_, hours := parts["hours"]
	_, level := parts["level"]
	for i, m := range bare {
		switch {
		case i == most && !hours && (len(bare) > 1 || level || m.Value.Float64() > b.likelyCapacity()+overBrim):
			parts["hours"] = quantity.Measured{Value: m.Value, Unit: quantity.UnitH}
		case !level:
			parts["level"] = m
			level = true
		default:
			more = append(more, m)
		}
	}
	return more
}

// likelyCapacity is more than this tank holds, as far as the file tells: only to
// take a bare figure for a level or for the meter. The person looks at it before
// it is saved.
func (b *Book) likelyCapacity() float64 {
	e := b.engine
	if c := e.settings.Capacity; c.OK {
		return e.shown(c.V)
	}
	high := oil.Quarts(8)
	if e.full.OK {
		high = e.full.V + 2
	}
	for _, a := range b.answers.all {
		if top := a.reading.Level + a.reading.Added; a.Left == oil.Used && top+1 > high {
			high = top + 1
		}
	}
	return e.shown(high)
}

// Write writes {"draft","chips","rest","words"}.
func (p Paper) Write(w *plain.Writer) {
	w.Begin('{')
	w.Raw("draft", p.Draft)
	w.Texts("chips", p.Chips)
	if p.Rest != "" {
		w.Text("rest", p.Rest)
		w.Text("words", p.Words)
	}
	w.End('}')
}
