package book

import "linkrod/sync/plain"

// Fixture is a book told as a list of bodies: the form of the demo engines in
// testdata/demo.
//
//	{"format":"linkrod-demo","version":1,"say":"DEMO…","book":"32 hex digits",
//	 "entries":[{"kind":"fact","author":"…","body":{…}}]}
//
// All of it are plain facts, so that a phone can lay them under its own device.
type Fixture struct {
	Book    string
	Entries []Telling
}

// Telling is one entry of a fixture.
type Telling struct {
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
		f.Entries = append(f.Entries, Telling{e.Get("author").Text(), e.Get("body").Raw()})
	}
	return f, nil
}

// Records are the fixture's entries as one device would have written them.
func (f Fixture) Records() []Record {
	rs := make([]Record, 0, len(f.Entries))
	for i, t := range f.Entries {
		rs = append(rs, Record{Entry{Device: f.Book, N: i + 1, Kind: "fact", Body: t.Body, Seen: i}, i + 1, t.Author})
	}
	return rs
}
