package sync

import (
	"encoding/json"
	"errors"
	"os"
	"strings"
	"testing"
)

type vectors struct {
	Comment string   `json:"comment"`
	Entries []Entry  `json:"entries"`
	Records []Record `json:"records"`
}

func wireVectors(tb testing.TB) vectors {
	tb.Helper()
	data, err := os.ReadFile("../testdata/wire/entry-1.json")
	if err != nil {
		tb.Fatal(err)
	}
	var v vectors
	if err := json.Unmarshal(data, &v); err != nil {
		tb.Fatal(err)
	}
	return v
}

// Ensure hash and chain are those that Python's hashlib gives for the layout
// in words (testdata/wire/vectors.py).
func TestHashesAgreeWithAnotherProgram(t *testing.T) {
	v := wireVectors(t)
	if len(v.Entries) != 5 || len(v.Records) != 3 {
		t.Fatalf("%d entries and %d records, want 5 and 3", len(v.Entries), len(v.Records))
	}
	for i, e := range v.Entries {
		if got := e.Sum(); got != e.Hash {
			t.Errorf("entry %d: Sum() = %v, want %v", i+1, got, e.Hash)
		}
		if err := e.Verify(); err != nil {
			t.Errorf("entry %d: %v", i+1, err)
		}
	}
	head, err := Follow(Head{}, v.Records)
	if err != nil || head.Seq != 3 || head.Chain != v.Records[2].Chain {
		t.Errorf("Follow = %+v, %v; want the chain of record 3", head, err)
	}
}

// Ensure the hash covers what E3 says and nothing else (E4).
func TestWhatTheHashCovers(t *testing.T) {
	base := wireVectors(t).Entries[2] // a strike: it has everything
	for name, change := range map[string]func(*Entry){
		"device":   func(e *Entry) { e.Device[15]++ },
		"n":        func(e *Entry) { e.N++ },
		"book":     func(e *Entry) { e.Book[0]++ },
		"prev":     func(e *Entry) { e.Prev[31]++ },
		"kind":     func(e *Entry) { e.Kind = Sign },
		"ref n":    func(e *Entry) { e.Refs = []Ref{{e.Refs[0].Device, 1}} },
		"ref more": func(e *Entry) { e.Refs = append([]Ref{{e.Book, 7}}, e.Refs...) },
		"body":     func(e *Entry) { e.Body = append([]byte(" "), e.Body...) },
	} {
		e := base
		change(&e)
		if e.Sum() == base.Hash {
			t.Errorf("%s is not covered by the hash", name)
		}
	}
	for name, change := range map[string]func(*Entry){
		"seen":   func(e *Entry) { e.Seen++ },
		"schema": func(e *Entry) { e.Schema++ },
		"clock":  func(e *Entry) { e.Clock = Clock{Wall: 5, Zone: 5} },
	} {
		e := base
		change(&e)
		if e.Sum() != base.Hash {
			t.Errorf("%s changes the hash; it must not (E4)", name)
		}
	}
}

// Ensure an entry's JSON is read back as the same entry, and that the form
// does not depend on how an empty list or body is held.
func TestEntryJSONRoundTrip(t *testing.T) {
	for i, e := range wireVectors(t).Entries {
		text, err := json.Marshal(e)
		if err != nil {
			t.Fatal(err)
		}
		var back Entry
		if err := json.Unmarshal(text, &back); err != nil {
			t.Fatalf("entry %d: %v", i+1, err)
		}
		if again, _ := json.Marshal(back); string(again) != string(text) || back.Verify() != nil {
			t.Errorf("entry %d changed on its way:\n%s\n%s", i+1, text, again)
		}
	}
	none, _ := json.Marshal(Entry{})
	if s := string(none); !strings.Contains(s, `"refs":[]`) || !strings.Contains(s, `"body":""`) {
		t.Errorf("an empty list and body must not be null: %s", s)
	}
}

// Ensure a phone can't seal what the ledger would set aside.
func TestSeal(t *testing.T) {
	good := Entry{Device: ID{1}, N: 1, Book: ID{2}, Kind: Fact, Body: []byte("{}")}
	sealed, err := Seal(good)
	if err != nil || sealed.Verify() != nil {
		t.Fatalf("Seal = %v", err)
	}
	for _, test := range []struct {
		name   string
		change func(*Entry)
		code   string
	}{
		{"no device", func(e *Entry) { e.Device = ID{} }, CodeShape},
		{"no book", func(e *Entry) { e.Book = ID{} }, CodeShape},
		{"no number", func(e *Entry) { e.N = 0 }, CodeShape},
		{"number beyond what JavaScript counts", func(e *Entry) { e.N = MaxNumber + 1 }, CodeShape},
		{"first with a predecessor", func(e *Entry) { e.Prev = Hash{1} }, CodeShape},
		{"second without one", func(e *Entry) { e.N = 2 }, CodeShape},
		{"unknown kind", func(e *Entry) { e.Kind = "guess" }, CodeKind},
		{"body too long", func(e *Entry) { e.Body = make([]byte, MaxBody+1) }, CodeSize},
		{"fact with refs", func(e *Entry) { e.Refs = []Ref{{ID{9}, 1}} }, CodeRefs},
		{"strike without a ref", func(e *Entry) { e.Kind = Strike }, CodeRefs},
		{"strike of two", func(e *Entry) { e.Kind, e.Refs = Strike, []Ref{{ID{9}, 1}, {ID{9}, 2}} }, CodeRefs},
		{"settle of nothing", func(e *Entry) { e.Kind = Settle }, CodeRefs},
		{"same ref twice", func(e *Entry) { e.Kind, e.Refs = Sign, []Ref{{ID{9}, 1}, {ID{9}, 1}} }, CodeRefs},
		{"ref to itself", func(e *Entry) { e.Kind, e.Refs = Sign, []Ref{{ID{1}, 1}} }, CodeRefs},
		{"too many refs", func(e *Entry) { e.Kind, e.Refs = Sign, make([]Ref, MaxRefs+1) }, CodeRefs},
	} {
		e := good
		test.change(&e)
		_, err := Seal(e)
		var f *Fault
		if !errors.As(err, &f) || f.Code != test.code || !strings.HasSuffix(f.Words, ".") {
			t.Errorf("%s: %v, want code %q and a sentence", test.name, err, test.code)
		}
	}
}
