package main

import (
	"linkrod/radial/book"
	"linkrod/radial/card"
	"linkrod/sync/plain"
)

// shelves are the shelves the worker has open, in the order they were loaded.
var shelves []*card.Shelf

// shelvesChanged counts the changes of shelves, so that a book knows when to be laid beside
// them again.
var shelvesChanged int

const noShelf = book.Wrong("This shelf is not on the phone yet.")
const noCard = book.Wrong("This card is not on the phone. Its shelf may have come without it, or is still to come.")

// shelfOf is the loaded shelf of an id, nil for none.
func shelfOf(id string) *card.Shelf {
	for _, s := range shelves {
		if s.ID == id {
			return s
		}
	}
	return nil
}

// cardsLoad {shelf, bundle} or {shelf, records: [{seq, author, body}]} keeps a shelf open, in
// place of what was there -> {shelf, title, demo, general, cards, problems}. A record's
// body is the entry's text, as JSON text.
func cardsLoad(args plain.Value, w *plain.Writer) error {
	s, err := card.Load(args)
	if err != nil {
		return err
	}
	id := s.ID
	shelvesChanged++
	if at := shelfOf(id); at != nil {
		*at = s
	} else {
		shelves = append(shelves, &s)
	}
	w.Begin('{')
	w.Text("shelf", id)
	w.Text("title", s.Title)
	w.Bool("demo", s.Demo)
	w.Bool("general", s.General)
	w.Int("cards", int64(len(s.Current())))
	w.Texts("problems", s.Problems)
	w.End('}')
	return nil
}

// cardsDrop {shelf} lets go of a shelf -> null.
func cardsDrop(args plain.Value, w *plain.Writer) error {
	id := args.Get("shelf").Text()
	shelvesChanged++
	for i, s := range shelves {
		if s.ID == id {
			shelves = append(shelves[:i], shelves[i+1:]...)
			break
		}
	}
	w.Null("")
	return nil
}

// every is the newest version of every card of every shelf.
func every() []card.Card {
	var all []card.Card
	for _, s := range shelves {
		all = append(all, s.Current()...)
	}
	return all
}

// cardsList {book?} -> {shelves: [{shelf, title, demo, general, cards}], cards: [line]}. With
// a book the cards that are for its engine, and those for every engine, say so in "for".
func cardsList(args plain.Value, w *plain.Writer) error {
	e, chosen, err := engineOf(args)
	if err != nil {
		return err
	}
	w.Begin('{')
	w.Open("shelves", '[')
	for _, s := range shelves {
		w.Begin('{')
		w.Text("shelf", s.ID)
		w.Text("title", s.Title)
		w.Bool("demo", s.Demo)
		w.Bool("general", s.General)
		w.Int("cards", int64(len(s.Current())))
		w.End('}')
	}
	w.End(']')
	w.Open("cards", '[')
	for _, c := range every() {
		fits := ""
		if chosen {
			fits = c.For(e)
		}
		c.WriteList(w, fits)
	}
	w.End(']')
	w.End('}')
	return nil
}

// cardsShow {shelf, card, version?, hash?} -> a card as it stands on its shelf, ready to draw; see
// card.Shown. Without a version it is the newest.
func cardsShow(args plain.Value, w *plain.Writer) error {
	s := shelfOf(args.Get("shelf").Text())
	if s == nil {
		return noShelf
	}
	n, _ := args.Get("version").Int()
	shown, ok := s.Find(args.Get("card").Text(), int(n))
	if hash := args.Get("hash").Text(); !ok || hash != "" && hash != shown.Hash {
		return noCard
	}
	shown.Write(w, s)
	return nil
}

// cardsUse {shelf, card, joint, tools?, tool?, model} -> {tool, mark, proof, typed}: what a torque
// screen takes from a joint of a torque card and a tool card of the shelf tools; see
// card.Use.
func cardsUse(args plain.Value, w *plain.Writer) error {
	var found [2]card.Card
	for i, names := range [2][2]string{{"shelf", "card"}, {"tools", "tool"}} {
		id := args.Get(names[1]).Text()
		if id == "" {
			continue
		}
		s := shelfOf(args.Get(names[0]).Text())
		if s == nil {
			return noShelf
		}
		shown, ok := s.Find(id, 0)
		if !ok {
			return noCard
		}
		found[i] = shown.Card
	}
	var joint plain.Value
	for _, j := range found[0].Body.Get("joints").Items() {
		if j.Get("id").Text() == args.Get("joint").Text() {
			joint = j
		}
	}
	card.Use(w, joint, found[1], args.Get("model").Text())
	return nil
}

// cardsChanges {shelf, after} -> [{seq, card, words, what, by}]: what happened on a shelf
// since a ledger's number, the latest first.
func cardsChanges(args plain.Value, w *plain.Writer) error {
	s := shelfOf(args.Get("shelf").Text())
	if s == nil {
		return noShelf
	}
	after, _ := args.Get("after").Int()
	w.Begin('[')
	for i := len(s.Changes) - 1; i >= 0; i-- {
		if c := s.Changes[i]; c.Seq == 0 || c.Seq > int(after) {
			w.Begin('{')
			w.Int("seq", int64(c.Seq))
			w.Text("card", c.Card)
			w.Text("words", c.Words)
			w.Texts("what", c.What)
			w.Text("by", c.By)
			w.End('}')
		}
	}
	w.End(']')
	return nil
}

// cardsWhich {book, kind, topic?, part?} -> {found: "one|none|cant", card?, cards, why,
// settle}: which card of a kind applies to the engine, and how that was found.
func cardsWhich(args plain.Value, w *plain.Writer) error {
	e, _, err := engineOf(args)
	if err != nil {
		return err
	}
	card.Which(e, card.Want{Kind: args.Get("kind").Text(), Topic: args.Get("topic").Text(), Part: args.Get("part").Text()}, every()).Write(w, "")
	return nil
}

// engineOf is the engine asked for: of a book, if one is given.
func engineOf(args plain.Value) (e card.Engine, chosen bool, err error) {
	if !args.Get("book").Given() && !args.Get("entries").Given() && !args.Get("fixture").Given() {
		return card.Engine{}, false, nil
	}
	b, err := open(args)
	if err != nil {
		return card.Engine{}, false, err
	}
	return b.ForCards(), true, nil
}

// cardsFamily {shelf} -> {shelf, title, demo, cards: [{hash, json}]}: the engine cards of a
// shelf, by which the guided look (pwa/sums-wasm, identify.look) tells engines apart.
func cardsFamily(args plain.Value, w *plain.Writer) error {
	s := shelfOf(args.Get("shelf").Text())
	if s == nil {
		return noShelf
	}
	w.Begin('{')
	w.Text("shelf", s.ID)
	w.Text("title", s.Title)
	w.Bool("demo", s.Demo)
	w.Open("cards", '[')
	for _, c := range s.Current() {
		if c.Kind != "engine" {
			continue
		}
		w.Begin('{')
		w.Text("hash", c.Hash)
		w.Raw("json", c.JSON.Raw())
		w.End('}')
	}
	w.End(']')
	w.End('}')
	return nil
}
