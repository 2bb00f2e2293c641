package main

import (
	"strconv"
	"strings"

	"linkrod/radial/book"
	"linkrod/sync"
	"linkrod/sync/plain"
)

// fileWrite {books: [{book, entries: [{entry, seq, author}]}], prefs} makes the
// one file of everything on this phone -> {text}.
func fileWrite(args plain.Value, w *plain.Writer) error {
	var books [][]byte
	for _, b := range args.Get("books").Items() {
		books = append(books, b.Raw())
	}
	w.Begin('{')
	w.Text("text", string(sync.EncodeFile(args.Get("prefs").Raw(), books)))
	w.End('}')
	return nil
}

// fileRead {text} says what such a file holds, each book with the name its
// entries give it; what had to be left out is in the summary -> {books:
// [{book, name, entries}], prefs, summary}.
func fileRead(args plain.Value, w *plain.Writer) error {
	file, problems, err := sync.DecodeFile([]byte(args.Get("text").Text()))
	if err != nil {
		return err
	}
	lines := 0
	w.Begin('{')
	w.Open("books", '[')
	for _, b := range file.Books {
		lines += len(b.Entries)
		w.Begin('{')
		w.Text("book", b.Book.String())
		w.Text("name", nameOf(b))
		w.Open("entries", '[')
		for _, k := range b.Entries {
			k.Write(w, "")
		}
		w.End(']')
		w.End('}')
	}
	w.End(']')
	if file.Prefs != nil {
		w.Raw("prefs", file.Prefs)
	}
	summary := some(len(file.Books), "engine") + " with " + some(lines, "line") + "."
	w.Text("summary", strings.Join(append([]string{summary}, problems...), "\n"))
	w.End('}')
	return nil
}

// nameOf is what the entries of a book call the engine.
func nameOf(b sync.FileBook) string {
	var records []book.Record
	for _, k := range b.Entries {
		var w plain.Writer
		k.Write(&w, "")
		v, err := plain.Parse(w.Bytes())
		if err != nil {
			continue // not of what was just written
		}
		if r, err := book.ReadRecord(v); err == nil {
			records = append(records, r)
		}
	}
	return book.Open(records).View(b.Book.String(), book.Now{}).Name
}

func some(n int, what string) string {
	if n != 1 {
		what += "s"
	}
	return strconv.Itoa(n) + " " + what
}
