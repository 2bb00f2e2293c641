package main

import (
	"linkrod/radial/book"
	"linkrod/radial/card"
	"linkrod/radial/identify"
	"linkrod/sync/plain"
)

// shelves are the shelves the worker has open, in the order they were loaded.
var shelves []*card.Shelf

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

// cardsLoad {shelf, bundle} or {shelf, records: [{seq, author, entry, body}]} keeps a shelf open,
// in place of what was there -> {shelf, title, demo, general, cards, problems}. A record's
// body is the entry's text, as JSON text.
func cardsLoad(args plain.Value, w *plain.Writer) error {
	id := args.Get("shelf").Text()
	var s card.Shelf
	if b := args.Get("bundle"); b.Given() {
		var err error
		if s, err = card.ReadBundle(b); err != nil {
			return err
		}
		id = s.ID
	} else {
		var records []card.Record
		for _, v := range args.Get("records").Items() {
			r, err := book.ReadRecord(v)
			if err != nil {
				return err
			}
			body, err := plain.Parse(r.Entry.Body)
			if err != nil {
				continue // kept, and no card
			}
			records = append(records, card.Record{Seq: r.Seq, Author: r.Author, Body: body})
		}
		s = card.Open(id, records)
	}
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

// cardsTexts {} -> [{shelf, card, title, kind, group, words, text}], for the search.
func cardsTexts(_ plain.Value, w *plain.Writer) error {
	w.Begin('[')
	for _, c := range every() {
		c.WriteText(w)
	}
	w.End(']')
	return nil
}

// cardsShow {shelf, card, version?, hash?, tool?, book?} -> a card ready to draw.
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
	e, _, err := engineOf(args)
	if err != nil {
		return err
	}
	shown.Model = e.Model
	for _, other := range shelves {
		for _, t := range other.Tools() {
			if t.Demo != shown.Demo {
				continue
			}
			shown.Tools = append(shown.Tools, t)
			if t.Card == args.Get("tool").Text() {
				shown.Tool = &t
			}
		}
	}
	if t := args.Get("tool").Text(); t != "" && shown.Tool == nil {
		return book.Wrong("There is no card of that tool on the phone.")
	}
	shown.Write(w, s)
	return nil
}

// cardsFigures {shelf, card, version?} -> [{label, digits, words, src}]: every number of a
// card, to be held against the page one by one.
func cardsFigures(args plain.Value, w *plain.Writer) error {
	s := shelfOf(args.Get("shelf").Text())
	if s == nil {
		return noShelf
	}
	n, _ := args.Get("version").Int()
	shown, ok := s.Find(args.Get("card").Text(), int(n))
	if !ok {
		return noCard
	}
	shown.WriteFigures(w)
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

// cardsWhich {book | engine, kind, topic?, part?} -> {found: "one|none|cant", card?, cards, why,
// settle}: which card of a kind applies to the engine, and how that was found.
func cardsWhich(args plain.Value, w *plain.Writer) error {
	e, _, err := engineOf(args)
	if err != nil {
		return err
	}
	card.Which(e, card.Want{Kind: args.Get("kind").Text(), Topic: args.Get("topic").Text(), Part: args.Get("part").Text()}, every()).Write(w, "")
	return nil
}

// cardsDiff {before, after: JSON of two cards} -> [sentence].
func cardsDiff(args plain.Value, w *plain.Writer) error {
	before, err := card.Read(args.Get("before"))
	if err != nil {
		return err
	}
	after, err := card.Read(args.Get("after"))
	if err != nil {
		return err
	}
	w.Texts("", card.Diff(before, after))
	return nil
}

// engineOf is the engine asked for: of a book, or as it is given.
func engineOf(args plain.Value) (e card.Engine, chosen bool, err error) {
	if v := args.Get("engine"); v.Given() {
		return card.ReadEngine(v), true, nil
	}
	if !args.Get("book").Given() && !args.Get("entries").Given() && !args.Get("fixture").Given() {
		return card.Engine{}, false, nil
	}
	b, err := open(args)
	if err != nil {
		return card.Engine{}, false, err
	}
	return b.ForCards(), true, nil
}

// looked is what a look at an engine by a shelf's engine cards comes to.
func looked(args plain.Value) ([]identify.Observation, identify.Result, error) {
	s := shelfOf(args.Get("shelf").Text())
	if s == nil {
		return nil, identify.Result{}, noShelf
	}
	family, err := card.Family(s.Current())
	if err != nil {
		return nil, identify.Result{}, err
	}
	seen := card.ReadLooked(args.Get("looked"))
	r, err := family.Identify(seen)
	return seen, r, err
}

// identifyLook {shelf, looked: [{feature, state, values, evidence, approval}]} -> what it has
// come to and what to look at next; see card.WriteLook.
func identifyLook(args plain.Value, w *plain.Writer) error {
	_, r, err := looked(args)
	if err == nil {
		card.WriteLook(w, r)
	}
	return err
}

// identifySave {book, shelf, looked, me, now} -> {bodies: [{kind, refs, body}]}: the entries of a
// look, the look itself and a deviation for each part from elsewhere.
func identifySave(args plain.Value, w *plain.Writer) error {
	b, err := open(args)
	if err != nil {
		return err
	}
	seen, r, err := looked(args)
	if err != nil {
		return err
	}
	w.Begin('{')
	w.Open("bodies", '[')
	for _, p := range b.Identified(args.Get("shelf").Text(), seen, r, args.Get("me").Text(), book.ReadNow(args.Get("now"))) {
		p.Write(w)
	}
	w.End(']')
	w.End('}')
	return nil
}
