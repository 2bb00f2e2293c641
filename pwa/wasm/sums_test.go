package main

import (
	"linkrod/radial/book"
	"linkrod/radial/card"
	"linkrod/radial/sums"
	"linkrod/sync/plain"
)

// The sums and the guided look are a program of their own (pwa/sums-wasm); tests that go on
// from a card to them have both here.
func init() {
	table["identify.look"] = func(args plain.Value, w *plain.Writer) error {
		s := shelfOf(args.Get("shelf").Text())
		if s == nil {
			return noShelf
		}
		family, err := card.Family(s.Current())
		if err != nil {
			return err
		}
		r, err := family.Identify(card.ReadLooked(args.Get("looked")))
		if err == nil {
			card.WriteLook(w, s.ID, args.Get("looked"), r)
		}
		return err
	}
	table["sums.work"] = func(args plain.Value, w *plain.Writer) error {
		p, ok := sums.Work(args.Get("id").Text(), sums.ReadTyped(args))
		if !ok {
			return book.Wrong("There is no such sum.")
		}
		p.Write(w)
		return nil
	}
}
