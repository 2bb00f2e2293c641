// Package main is the card editor's Go program: it reads a card's text as a curator types
// it, with every fault at its line and column, and makes what is published. The page loads
// it when the editor is opened; the phone's core (pwa/wasm) does without it, since a YAML
// and a JSON Schema library are as large as the core itself.
package main

import (
	"linkrod/pwa/seam"
	"linkrod/radial/card"
	"linkrod/radial/card/cardtext"
	"linkrod/sync/plain"
)

func main() { program.Run() }

var program = seam.Program{
	Calls: map[string]seam.Call{
		"card.read":    cardRead,
		"card.diff":    cardDiff,
		"card.figures": cardFigures,
		"card.publish": cardPublish,
		"card.schema":  cardSchema,
	},
	Explain: func(err error) (string, string) { return "wrong", err.Error() },
}

// rules are those of the shelf the card is for: {general?, demo?}.
func rules(args plain.Value) card.Rules {
	return card.Rules{General: args.Get("general").Bool(), Demo: args.Get("demo").Bool()}
}

func read(args plain.Value, field string) cardtext.Text {
	return cardtext.Read("card", []byte(args.Get(field).Text()), rules(args))
}

// cardRead {text, general?, demo?} -> {faults: [{line, column, at, words}], hash?, card?, version?,
// json?}: what is wrong with a text and where, or the card as the phone draws it.
func cardRead(args plain.Value, w *plain.Writer) error {
	t := read(args, "text")
	w.Begin('{')
	w.Open("faults", '[')
	for _, f := range t.Faults {
		w.Begin('{')
		w.Int("line", int64(f.Line))
		w.Int("column", int64(f.Column))
		w.Text("at", f.At)
		w.Text("words", f.Words)
		w.End('}')
	}
	w.End(']')
	if len(t.Faults) == 0 {
		w.Text("hash", t.Card.Hash)
		w.Text("card", t.Card.ID)
		w.Int("version", int64(t.Card.Version))
		w.Raw("json", card.Prepare(t.Card.JSON))
	}
	w.End('}')
	return nil
}

// cardDiff {before, after: texts} -> {what: [sentence]}: what changed, in words. A text that is no
// card yet differs in nothing that could be said.
func cardDiff(args plain.Value, w *plain.Writer) error {
	before, after := read(args, "before"), read(args, "after")
	w.Begin('{')
	var what []string
	if len(before.Faults)+len(after.Faults) == 0 {
		what = card.Diff(before.Card, after.Card)
	}
	w.Texts("what", what)
	w.End('}')
	return nil
}

// cardFigures {text} -> [{at, label, digits, words, src}]: every number, for a second person to
// hold against the page one by one.
func cardFigures(args plain.Value, w *plain.Writer) error {
	t := read(args, "text")
	w.Begin('[')
	for _, f := range card.Figures(t.Card) {
		w.Begin('{')
		w.Text("at", f.At)
		w.Text("label", f.Label)
		w.Text("digits", f.Digits())
		w.Text("words", f.Words())
		w.Text("src", f.Src)
		w.End('}')
	}
	w.End(']')
	return nil
}

// cardPublish {text, before?: text, reason, me, day} -> {body}: the entry's body that puts the card
// on a shelf.
func cardPublish(args plain.Value, w *plain.Writer) error {
	t := read(args, "text")
	var before *card.Card
	if args.Get("before").Given() {
		b := read(args, "before")
		if before = &b.Card; b.Card.ID == "" {
			before = nil
		} else if no := t.Next("card", b.Card); no != nil && len(t.Faults) == 0 {
			return card.Wrong(no.Words)
		}
	}
	body, err := t.Publish(before, args.Get("reason").Text(), args.Get("me").Text(), args.Get("day").Text())
	if err != nil {
		return err
	}
	w.Begin('{')
	w.Raw("body", body)
	w.End('}')
	return nil
}

// cardSchema {} -> the JSON Schema of a card.
func cardSchema(_ plain.Value, w *plain.Writer) error {
	w.Raw("", cardtext.Schema)
	return nil
}
