package main

import (
	"encoding/json"

	"linkrod/radial/book"
)

// loaded are the books the worker has open, so that a view needs no sending of
// every entry again.
var loaded = map[string]*shelf{}

// shelf is a loaded book: its entries, and what they add up to, once asked.
type shelf struct {
	records []book.Record
	sum     *book.Book
}

// which says which book a call is about: one that is loaded, or one whose
// entries come along.
type which struct {
	Book    string          `json:"book"`
	Entries []book.Record   `json:"entries"`
	Fixture json.RawMessage `json:"fixture"` // a demo engine, its entries before the others
}

func (w which) records() ([]book.Record, error) {
	if len(w.Fixture) == 0 || string(w.Fixture) == "null" {
		return w.Entries, nil
	}
	f, err := book.ReadFixture(w.Fixture)
	return append(f.Records(), w.Entries...), err
}

// open is what the book adds up to.
func (w which) open() (*book.Book, error) {
	if s := loaded[w.Book]; s != nil && w.Entries == nil && w.Fixture == nil {
		if s.sum == nil {
			s.sum = book.Open(s.records)
		}
		return s.sum, nil
	}
	if w.Entries == nil && w.Fixture == nil {
		return nil, book.Wrong("This engine's entries are not loaded. Open it again.")
	}
	records, err := w.records()
	return book.Open(records), err
}

// bookLoad {book, entries, fixture?} keeps a book open.
func bookLoad(args []byte) (any, error) {
	w, err := unpack[which](args)
	if err != nil {
		return nil, err
	}
	records, err := w.records()
	if err != nil {
		return nil, err
	}
	loaded[w.Book] = &shelf{records: records}
	return struct {
		Entries int `json:"entries"`
	}{len(records)}, nil
}

// bookAdd {book, entry, seq, author?} adds one entry to a loaded book, or says
// what number the ledger gave to one that is there.
func bookAdd(args []byte) (any, error) {
	a, err := unpack[struct {
		Book string `json:"book"`
		book.Record
	}](args)
	if err != nil {
		return nil, err
	}
	s := loaded[a.Book]
	if s == nil {
		return nil, book.Wrong("This engine's entries are not loaded. Open it again.")
	}
	s.sum = nil
	for i, r := range s.records {
		if r.Entry.Key() == a.Entry.Key() {
			s.records[i] = a.Record
			return nil, nil
		}
	}
	s.records = append(s.records, a.Record)
	return nil, nil
}

// bookDrop {book} lets go of a loaded book.
func bookDrop(args []byte) (any, error) {
	w, err := unpack[which](args)
	delete(loaded, w.Book)
	return nil, err
}

// bookView {book | entries, now} is what the screens show.
func bookView(args []byte) (any, error) {
	a, err := unpack[struct {
		which
		Now book.Now `json:"now"`
	}](args)
	if err != nil {
		return nil, err
	}
	b, err := a.open()
	if err != nil {
		return nil, err
	}
	return b.View(a.Book, a.Now), nil
}
