package main

import (
	"sort"

	"linkrod/radial/book"
	"linkrod/sync/plain"
)

// bookKinds {} -> [{kind, title}]: the kinds of entry that have a form.
func bookKinds(_ plain.Value, w *plain.Writer) error {
	w.Begin('[')
	for _, k := range book.Kinds() {
		w.Begin('{')
		w.Text("kind", k.Type)
		w.Text("title", k.Title)
		w.End('}')
	}
	w.End(']')
	return nil
}

// bookForm {book | entries, kind, typed, me, now} -> the page of a kind as it stands; see
// book.Form.Write.
func bookForm(args plain.Value, w *plain.Writer) error {
	b, err := open(args)
	if err != nil {
		return err
	}
	f, err := b.Form(args.Get("kind").Text(), args.Get("typed"), args.Get("me").Text(), book.ReadNow(args.Get("now")))
	if err != nil {
		return err
	}
	f.Write(w)
	return nil
}

// bookRing {book | entries, measure, now} -> the engine drawn by a measure of View.measures.
func bookRing(args plain.Value, w *plain.Writer) error {
	b, err := open(args)
	if err != nil {
		return err
	}
	r := b.Ring(args.Get("measure").Text(), book.ReadNow(args.Get("now")))
	r.Write(w)
	return nil
}

// bookLog {book | entries, kinds?, cyl?, text?, from, count} -> {total, lines}: a stretch of
// the log, the newest first.
func bookLog(args plain.Value, w *plain.Writer) error {
	b, err := open(args)
	if err != nil {
		return err
	}
	var f book.Filter
	for _, k := range args.Get("kinds").Items() {
		f.Kinds = append(f.Kinds, k.Text())
	}
	number := func(name string) int { n, _ := args.Get(name).Int(); return int(n) }
	f.Cyl, f.Text = number("cyl"), args.Get("text").Text()
	b.LogJSON(w, f, number("from"), number("count"))
	return nil
}

// bookCylinder {book, cyl, now} -> the story of a position, with what the other loaded books
// know of its cylinder; see book.WriteCylinder.
func bookCylinder(args plain.Value, w *plain.Writer) error {
	b, err := open(args)
	if err != nil {
		return err
	}
	var ids []string
	for id := range loaded {
		if id != args.Get("book").Text() {
			ids = append(ids, id)
		}
	}
	sort.Strings(ids) // stays are listed alike each time
	var others []*book.Book
	for _, id := range ids {
		others = append(others, loaded[id].opened())
	}
	k, _ := args.Get("cyl").Int()
	b.WriteCylinder(w, int(k), book.ReadNow(args.Get("now")), others)
	return nil
}
