package card

import (
	"strconv"
	"strings"

	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// Diff is what changed from one version of a card to another, a sentence each, in the
// order of the card: "exhaust stem in guide: new maximum 4.5 to 5.0 thou". It is empty when
// a reader would see no difference. Both are cards as they were written, not prepared.
func Diff(before, after Card) []string {
	d := differ{}
	for _, name := range []string{"title", "summary", "kind", "applies", "cautions", "disputes", "defers", "body", "sources"} {
		d.compare(trail{}.into(name), before.JSON.Get(name), after.JSON.Get(name), "")
	}
	return d.said
}

type differ struct{ said []string }

// trail is how a sentence calls the place.
type trail struct {
	item, field string
	number      bool // field is a part of a number
}

func (t trail) into(name string) trail { return trail{t.item, name, false} }

func (t trail) words() string {
	field := t.field
	if i := partIndex(field); i >= 0 && t.number {
		field = parts[i][1]
	} else {
		field = strings.ReplaceAll(field, "_", " ")
	}
	if field == "value" || field == "words" || field == "list" {
		field = ""
	}
	switch {
	case t.item == "":
		return field
	case field == "":
		return t.item
	}
	return t.item + ": " + field
}

func (d *differ) say(s string) { d.said = append(d.said, s) }

// compare says how a differs from b. unit is the unit both are in.
func (d *differ) compare(t trail, a, b plain.Value, unit string) {
	switch {
	case string(a.Raw()) == string(b.Raw()):
	case !a.Given():
		d.say(t.words() + " added: " + brief(b))
	case !b.Given():
		d.say(t.words() + " taken out: " + brief(a))
	case a.Kind() != b.Kind():
		d.say(t.words() + " changed: " + brief(a) + " to " + brief(b))
	case a.Kind() == plain.Object:
		d.objects(t, a, b)
	case a.Kind() == plain.List:
		d.lists(t, a, b, unit)
	case t.number && t.field != "says":
		d.say(strings.TrimSpace(t.words()+" "+a.Text()+" to "+b.Text()) + symbol(unit))
	default:
		d.say(t.words() + ": " + quoted(show(a)) + " to " + quoted(show(b)))
	}
}

func symbol(unit string) string {
	if unit == "" {
		return ""
	}
	f := Figure{Unit: quantity.Unit(unit)}
	return " " + f.Unit.Symbol()
}

func (d *differ) objects(t trail, a, b plain.Value) {
	unit := b.Get("u").Text()
	if isFigure(b) && a.Get("u").Text() != unit {
		d.say(t.words() + " " + readFigure(a, "").Digits() + " to " + readFigure(b, "").Digits())
		return
	}
	if t.field != "" && partIndex(t.field) < 0 && t.field != "body" && t.item == "" {
		t.item = strings.ReplaceAll(t.field, "_", " ")
	} else if t.item != "" && t.field != "" && (isFigure(a) || isFigure(b) || t.item == "sources") {
		t.item += ", " + strings.ReplaceAll(t.field, "_", " ")
	}
	number := isFigure(b) && t.item != "applies, serials"
	in := func(name string) trail {
		u := t.into(name)
		u.number = number && (partIndex(name) >= 0 || name == "list")
		return u
	}
	for _, n := range a.Names() {
		d.compare(in(n), a.Get(n), b.Get(n), unit)
	}
	for _, n := range b.Names() {
		if !a.Get(n).Given() {
			d.compare(in(n), plain.Value{}, b.Get(n), unit)
		}
	}
}

// lists compares items that have an id by it, others by their place.
func (d *differ) lists(t trail, a, b plain.Value, unit string) {
	idOf := func(v plain.Value, i int) string {
		if id := v.Get("id").Text(); id != "" {
			return id
		}
		return strconv.Itoa(i + 1)
	}
	for i, x := range a.Items() {
		id := idOf(x, i)
		var y plain.Value
		for j, e := range b.Items() {
			if idOf(e, j) == id {
				y = e
			}
		}
		d.compare(t.itemOf(x, id), x, y, unit)
	}
	for j, y := range b.Items() {
		id, there := idOf(y, j), false
		for i, e := range a.Items() {
			there = there || idOf(e, i) == id
		}
		if !there {
			d.compare(t.itemOf(y, id), plain.Value{}, y, unit)
		}
	}
}

// itemOf is the trail into an item of a list.
func (t trail) itemOf(v plain.Value, id string) trail {
	switch {
	case v.Kind() != plain.Object:
		return t
	case v.Get("id").Given():
		return trail{item: labelOf(v.Get("label").Text(), id)}
	case v.Get("title").Given():
		return trail{item: v.Get("title").Text()}
	}
	one := strings.TrimSuffix(strings.ReplaceAll(t.field, "_", " "), "s")
	return trail{item: strings.TrimSpace(t.item + " " + one + " " + id)}
}

// show is a value as a sentence has it.
func show(v plain.Value) string {
	if v.Kind() == plain.Text {
		return v.Text()
	}
	return string(v.Raw())
}

// brief is a whole thing in a few words.
func brief(v plain.Value) string {
	switch {
	case v.Kind() == plain.Text:
		return quoted(v.Text())
	case isFigure(v):
		return readFigure(v, "").Digits()
	case isFigure(v.Get("final")):
		return readFigure(v.Get("final"), "").Digits()
	}
	for _, name := range []string{"do", "words", "title", "question", "document", "says", "p", "h"} {
		if s := v.Get(name).Text(); s != "" {
			return quoted(s)
		}
	}
	if v.Kind() == plain.List {
		var all []string
		for _, e := range v.Items() {
			all = append(all, brief(e))
		}
		return list(all, "and")
	}
	return strconv.Itoa(len(v.Names())) + " fields"
}
