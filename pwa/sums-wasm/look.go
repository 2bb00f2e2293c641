package main

import (
	"linkrod/radial/card"
	"linkrod/sync/plain"
)

// identifyLook {family, looked: [{feature, state, values, evidence, approval}]} -> what it has
// come to, what to look at next, and what a book would keep of it; see card.WriteLook. The
// family is what the core says to cards.family.
func identifyLook(args plain.Value, w *plain.Writer) error {
	s, err := card.ReadBundle(args.Get("family"))
	if err != nil {
		return err
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
