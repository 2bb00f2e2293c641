package main

import (
	"linkrod/radial/book"
	"linkrod/radial/sums"
	"linkrod/sync/plain"
)

// The sums are a program of their own (pwa/sums-wasm); tests that go on from a card to a sum
// have both here.
func init() {
	table["sums.work"] = func(args plain.Value, w *plain.Writer) error {
		p, ok := sums.Work(args.Get("id").Text(), sums.ReadTyped(args))
		if !ok {
			return book.Wrong("There is no such sum.")
		}
		p.Write(w)
		return nil
	}
}
