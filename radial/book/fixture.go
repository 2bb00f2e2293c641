package book

import "linkrod/sync/plain"

// Fixture is a book told as a list of bodies: the form of the demo engines in
// testdata/demo.
//
//	{"format":"linkrod-demo","version":1,"say":"DEMO…","book":"32 hex digits",
//	 "entries":[{"kind":"fact","author":"…","body":{…}}]}
//
// An entry's "refs" are the places, from 1, of the entries it strikes, replaces or signs. What
// happened next is a second chapter: a fixture of the same book that goes on where the first
// ended, with an "engine" body that says its own day.
type Fixture struct {
	Book    string
	Entries []Telling
}

// Telling is one entry of a fixture.
type Telling struct {
	Kind   string
	Refs   []int
	Author string
	Body   []byte
}

// ReadFixture reads a demo engine.
func ReadFixture(data []byte) (Fixture, error) {
	v, err := plain.Parse(data)
	if err != nil {
		return Fixture{}, Wrong("This is not a demo engine: it is " + err.Error() + ".")
	}
	version, _ := v.Get("version").Int()
	if v.Get("format").Text() != "linkrod-demo" || version != 1 {
		return Fixture{}, Wrong("This is not a demo engine that this Linkrod can read.")
	}
	f := Fixture{Book: v.Get("book").Text()}
	for _, e := range v.Get("entries").Items() {
		t := Telling{Kind: e.Get("kind").Text(), Author: e.Get("author").Text(), Body: e.Get("body").Raw()}
		for _, ref := range e.Get("refs").Items() {
			n, _ := ref.Int()
			t.Refs = append(t.Refs, int(n))
		}
		f.Entries = append(f.Entries, t)
	}
	return f, nil
}

// Records are the fixture's entries, and those of the chapters after it, as one device would
// have written them.
func (f Fixture) Records(next ...Fixture) []Record {
	told := f.Entries
	for _, n := range next {
		told = append(told[:len(told):len(told)], n.Entries...)
	}
	rs := make([]Record, 0, len(told))
	for i, t := range told {
		e := Entry{Device: f.Book, N: i + 1, Kind: t.Kind, Body: t.Body, Seen: i}
		for _, ref := range t.Refs {
			e.Refs = append(e.Refs, Key{f.Book, ref})
		}
		rs = append(rs, Record{e, i + 1, t.Author})
	}
	return rs
}
