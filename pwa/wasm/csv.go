package main

import (
	"linkrod/radial/book"
	"linkrod/sync/plain"
)

// csvRead {book | entries, text, kind?} -> {columns, rows: [{line, body?, words,
// problem?, already}], problems: [{line, words}], summary}: what of an oil log
// can be taken, or of a file of one kind of entry.
func csvRead(args plain.Value, w *plain.Writer) error {
	b, err := open(args)
	if err != nil {
		return err
	}
	text := args.Get("text").Text()
	im := book.Import{}
	if kind := args.Get("kind").Text(); kind != "" && kind != "oil" {
		im = b.ReadCSVOf(kind, text)
	} else {
		im = b.ReadCSV(text)
	}
	im.Write(w)
	return nil
}

// csvWrite {book | entries} -> {text}: the oil log of the book.
func csvWrite(args plain.Value, w *plain.Writer) error {
	b, err := open(args)
	if err != nil {
		return err
	}
	w.Begin('{')
	w.Text("text", b.WriteCSV())
	w.End('}')
	return nil
}
