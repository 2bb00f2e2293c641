package main

import (
	"linkrod/radial/book"
	"linkrod/radial/card"
	"linkrod/sync/plain"
)

// loaded are the books the worker has open, so that a view needs no sending of
// every entry again.
var loaded = map[string]*shelf{}

// shelf is a loaded book: its entries, and once asked what they add up to.
type shelf struct {
	records []book.Record // until then
	sum     *book.Book
	laid    int // shelvesChanged when its sheets were laid
}

const notLoaded = book.Wrong("This engine's entries are not loaded. Open it again.")

// recordsIn reads {"entries":[…],"fixture":{…},"chapter":{…}}: the entries of a book, after
// those of a demo engine if there is one, and of its second chapter.
func recordsIn(args plain.Value) ([]book.Record, error) {
	var records []book.Record
	if fixture := args.Get("fixture"); fixture.Given() {
		f, err := book.ReadFixture(fixture.Raw())
		if err != nil {
			return nil, err
		}
		var next []book.Fixture
		if chapter := args.Get("chapter"); chapter.Given() {
			n, err := book.ReadFixture(chapter.Raw())
			if err != nil {
				return nil, err
			}
			next = append(next, n)
		}
		records = f.Records(next...)
	}
	for _, v := range args.Get("entries").Items() {
		r, err := book.ReadRecord(v)
		if err != nil {
			return nil, err
		}
		records = append(records, r)
	}
	return records, nil
}

// open is what a book adds up to: one whose entries come along, or one that is
// loaded.
func open(args plain.Value) (*book.Book, error) {
	if args.Get("entries").Given() || args.Get("fixture").Given() {
		records, err := recordsIn(args)
		b := book.Open(records)
		lay(b)
		return b, err
	}
	s := loaded[args.Get("book").Text()]
	if s == nil {
		return nil, notLoaded
	}
	s.opened()
	if s.laid != shelvesChanged {
		lay(s.sum)
		s.laid = shelvesChanged
	}
	return s.sum, nil
}

// opened is the book added up, once asked for.
func (s *shelf) opened() *book.Book {
	if s.sum == nil {
		s.sum, s.records, s.laid = book.Open(s.records), nil, -1
	}
	return s.sum
}

// lay puts the cards that apply beside a book.
func lay(b *book.Book) {
	var sheets, pins plain.Writer
	b.WritePins(&pins)
	p, _ := plain.Parse(pins.Bytes())
	card.WriteSheets(&sheets, b.ForCards(), shelves, p.Items())
	if v, err := plain.Parse(sheets.Bytes()); err == nil {
		b.Lay(v)
	}
}

// bookLoad {book, entries, fixture?} keeps a book open -> {entries}.
func bookLoad(args plain.Value, w *plain.Writer) error {
	records, err := recordsIn(args)
	if err != nil {
		return err
	}
	loaded[args.Get("book").Text()] = &shelf{records: records}
	w.Begin('{')
	w.Int("entries", int64(len(records)))
	w.End('}')
	return nil
}

// bookAdd {book, entry, seq, author?} adds one entry to a loaded book, or says
// what number the ledger gave to one that is there -> null.
func bookAdd(args plain.Value, w *plain.Writer) error {
	s := loaded[args.Get("book").Text()]
	if s == nil {
		return notLoaded
	}
	added, err := book.ReadRecord(args)
	if err != nil {
		return err
	}
	w.Null("")
	if s.sum != nil {
		sum := s.sum.With(added)
		if sum != s.sum || sum.Lacks() {
			s.laid = -1
		}
		s.sum = sum
		return nil
	}
	for i, r := range s.records {
		if r.Entry.Key() == added.Entry.Key() {
			s.records[i] = added
			return nil
		}
	}
	s.records = append(s.records, added)
	return nil
}

// bookDrop {book} lets go of a loaded book -> null.
func bookDrop(args plain.Value, w *plain.Writer) error {
	delete(loaded, args.Get("book").Text())
	w.Null("")
	return nil
}

// bookView {book | entries, now} -> what the screens show.
func bookView(args plain.Value, w *plain.Writer) error {
	b, err := open(args)
	if err != nil {
		return err
	}
	v := b.View(args.Get("book").Text(), book.ReadNow(args.Get("now")))
	w.Raw("", v.JSON())
	return nil
}
