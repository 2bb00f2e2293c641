package main

import (
	"linkrod/plain"
	"linkrod/radial/book"
)

// bookOpen {answers, me, now} -> {bodies: [{kind, refs, body}]}, the first
// entries of a new book.
func bookOpen(args plain.Value, w *plain.Writer) error {
	plan, err := book.Begin(args.Get("answers"), args.Get("me").Text(), book.ReadNow(args.Get("now")))
	if err != nil {
		return err
	}
	w.Begin('{')
	w.Open("bodies", '[')
	for _, p := range plan {
		p.Write(w)
	}
	w.End(']')
	w.End('}')
	return nil
}
