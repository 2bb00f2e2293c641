package book

import (
	"encoding/json"
	"testing"
)

// phone writes entries of a book as one phone does, for tests.
type phone struct {
	t       testing.TB
	device  string
	n       int
	seen    int
	records []Record
}

// write adds an entry with this body and gives its key.
func (p *phone) write(kind string, body string, refs ...Key) Key {
	p.t.Helper()
	if !json.Valid([]byte(body)) {
		p.t.Fatalf("bad JSON in a test: %s", body)
	}
	p.n++
	p.records = append(p.records, Record{Entry: Entry{Device: p.device, N: p.n, Kind: kind, Refs: refs, Body: []byte(body), Seen: p.seen}})
	return Key{p.device, p.n}
}

func (p *phone) setting(field, value string, refs ...Key) Key {
	p.t.Helper()
	kind := "fact"
	if len(refs) > 0 {
		kind = "replace"
	}
	return p.write(kind, `{"type":"setting","field":"`+field+`","value":`+value+`,"by":"`+p.device+`"}`, refs...)
}

// oil writes a level with what was added, and more fields as JSON.
func (p *phone) oil(hours, level, added, more string) Key {
	p.t.Helper()
	b := `{"type":"oil","hours":{"v":"` + hours + `","u":"h"},"level":{"v":"` + level + `","u":"qt"}`
	if added != "" {
		b += `,"added":{"v":"` + added + `","u":"qt"}`
	}
	if more != "" {
		b += "," + more
	}
	return p.write("fact", b+"}")
}

// sent gives entries the ledger's numbers in this order, from the first on.
func sent(first int, records ...Record) []Record {
	for i := range records {
		records[i].Seq = first + i
	}
	return records
}

// disagreeing is a book in which two people edited the ceiling unseen by each
// other, and nothing is settled.
func disagreeing(t testing.TB) *Book {
	ceiling := func(v, by string) string {
		return `{"value":{"v":"` + v + `","u":"qt/h"},"source":{"document":"Fellside sheet T7-B","page":"2","typed_by":"` + by + `"}}`
	}
	a := &phone{t: t, device: "aa"}
	a.write("fact", `{"type":"engine"}`)
	first := a.setting("ceiling", ceiling("0.60", "Ann"))
	shared := sent(1, a.records...)
	b := &phone{t: t, device: "bb", seen: 2}
	a.records, a.seen = nil, 2
	a.setting("ceiling", ceiling("0.50", "Ann"), first)
	b.setting("ceiling", ceiling("0.70", "Ben"), first)
	return Open(append(shared, append(a.records, b.records...)...))
}
