package book

import "encoding/json"

// Fixture is a book told as a list of bodies: the form of the demo engines in
// testdata/demo. All of it are plain facts, so that a phone can lay them under
// its own device.
type Fixture struct {
	Format  string    `json:"format"` // "linkrod-demo"
	Version int       `json:"version"`
	Say     string    `json:"say"`
	Book    string    `json:"book"`
	Entries []Telling `json:"entries"`
}

// Telling is one entry of a fixture.
type Telling struct {
	Kind   string          `json:"kind"`
	Author string          `json:"author"`
	Body   json.RawMessage `json:"body"`
}

// ReadFixture reads a demo engine.
func ReadFixture(data []byte) (Fixture, error) {
	var f Fixture
	if err := json.Unmarshal(data, &f); err != nil {
		return f, Wrong("This is not a demo engine: " + err.Error() + ".")
	}
	if f.Format != "linkrod-demo" || f.Version != 1 {
		return f, Wrong("This is not a demo engine that this Linkrod can read.")
	}
	return f, nil
}

// Records are the fixture's entries as one device would have written them.
func (f Fixture) Records() []Record {
	rs := make([]Record, 0, len(f.Entries))
	for i, t := range f.Entries {
		rs = append(rs, Record{Entry{Device: f.Book, N: i + 1, Kind: t.Kind, Body: t.Body, Seen: i}, i + 1, t.Author})
	}
	return rs
}
