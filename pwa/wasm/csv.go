package main

import "linkrod/sync/plain"

// csvRead {book | entries, text} -> {columns, rows: [{line, body?, words,
// problem?, already}], problems: [{line, words}], summary}: what of an oil log
// can be taken.
func csvRead(args plain.Value, w *plain.Writer) error {
	b, err := open(args)
	if err != nil {
		return err
	}
	im := b.ReadCSV(args.Get("text").Text())
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
