package main

import (
	"linkrod/radial/book"
	"linkrod/radial/sums"
	"linkrod/sync/plain"
)

// sumsList {} -> {groups: [{title, sums: [{id, title, what, drawing}]}]}: what there is
// to work out.
func sumsList(_ plain.Value, w *plain.Writer) error {
	sums.List(w)
	return nil
}

// sumsWork {id, typed, units?, checked?, now?, demo?} -> the whole page of a sum, worked
// out as far as what is typed allows.
func sumsWork(args plain.Value, w *plain.Writer) error {
	p, ok := sums.Work(args.Get("id").Text(), sums.ReadTyped(args))
	if !ok {
		return book.Wrong("There is no such sum. Look for it in the list.")
	}
	p.Write(w)
	return nil
}
