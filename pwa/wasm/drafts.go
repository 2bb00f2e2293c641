package main

import "linkrod/radial/book"

// writer is who asks and when, for calls that make an entry.
type writer struct {
	Me  string   `json:"me"`
	Now book.Now `json:"now"`
}

// bookOpen {answers, me, now} is the first entries of a new book.
func bookOpen(args []byte) (any, error) {
	a, err := unpack[struct {
		Answers book.Opening `json:"answers"`
		writer
	}](args)
	if err != nil {
		return nil, err
	}
	plan, err := book.Begin(a.Answers, a.Me, a.Now)
	return struct {
		Bodies []book.Planned `json:"bodies"`
	}{plan}, err
}
