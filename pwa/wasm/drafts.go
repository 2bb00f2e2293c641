package main

import (
	"linkrod/radial/book"
	"linkrod/sync/plain"
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

// bookDraft {book | entries, kind, draft, me, now} -> {body?, envelope?, echo,
// asks}: what a form would save, or what is in its way.
func bookDraft(args plain.Value, w *plain.Writer) error {
	b, err := open(args)
	if err != nil {
		return err
	}
	d := b.Draft(args.Get("kind").Text(), args.Get("draft"), args.Get("me").Text(), book.ReadNow(args.Get("now")))
	d.Write(w)
	return nil
}

// bookPaper {book | entries, text} -> {draft, chips, rest?, words?}: a reading
// written in one line.
func bookPaper(args plain.Value, w *plain.Writer) error {
	b, err := open(args)
	if err != nil {
		return err
	}
	p := b.ReadPaper(args.Get("text").Text())
	p.Write(w)
	return nil
}

// bookTail {last, digits, days?} -> {options}: the meter readings that end in
// these digits.
func bookTail(args plain.Value, w *plain.Writer) error {
	days, known := args.Get("days").Int()
	if !known {
		days = -1
	}
	w.Begin('{')
	w.Texts("options", book.TailHours(args.Get("last").Text(), args.Get("digits").Text(), int(days)))
	w.End('}')
	return nil
}
