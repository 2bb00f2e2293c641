package card

import "linkrod/sync/plain"

// wanted is what a book of readings is judged by: kinds of card, for which part, on which
// topic.
var wanted = []Want{
	{Kind: "engine"},
	{Kind: "limits"}, {Kind: "limits", Part: "barrels"}, {Kind: "limits", Part: "pistons"}, {Kind: "limits", Part: "heads"},
	{Kind: "limits", Part: "ignition"}, {Kind: "limits", Part: "crankshaft"},
	{Kind: "torque"}, {Kind: "torque", Part: "barrels"},
	{Kind: "check"}, {Kind: "check", Topic: "25h"}, {Kind: "check", Topic: "rockers"},
}

// WriteSheets writes every card that applies to an engine, with the way it was found, and
// the versions that entries are pinned to:
//
//	{"cards":[{"shelf","card","version","hash","json"}],
//	 "sheets":[{"kind","part","topic","found","why","settle","card": which of cards, -1 for none}]}
//
// The book reads them and judges by them without this package.
func WriteSheets(w *plain.Writer, e Engine, shelves []*Shelf, pins []plain.Value) {
	var all, out []Card
	for _, s := range shelves {
		all = append(all, s.Current()...)
	}
	index := func(c Card) int64 {
		for i, o := range out {
			if o.Shelf == c.Shelf && o.ID == c.ID && o.Version == c.Version {
				return int64(i)
			}
		}
		out = append(out, c)
		return int64(len(out) - 1)
	}
	w.Begin('{')
	w.Open("sheets", '[')
	for _, want := range wanted {
		f := Which(e, want, all)
		at := int64(-1)
		if f.State == One {
			at = index(f.Card)
		}
		w.Begin('{')
		w.Text("kind", want.Kind)
		w.Text("part", want.Part)
		w.Text("topic", want.Topic)
		w.Text("found", f.State)
		w.Texts("why", f.Why)
		w.Texts("settle", f.Settle)
		w.Int("card", at)
		w.End('}')
	}
	w.End(']')
	for _, p := range pins {
		n, _ := p.Get("version").Int()
		for _, s := range shelves {
			if s.ID != p.Get("shelf").Text() {
				continue
			}
			if c, ok := s.Find(p.Get("card").Text(), int(n)); ok {
				index(c.Card)
			}
		}
	}
	w.Open("cards", '[')
	for _, c := range out {
		w.Begin('{')
		w.Text("shelf", c.Shelf)
		w.Text("card", c.ID)
		w.Int("version", int64(c.Version))
		w.Text("hash", c.Hash)
		w.Raw("json", c.JSON.Raw())
		w.End('}')
	}
	w.End(']')
	w.End('}')
}
