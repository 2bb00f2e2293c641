package store

import (
	"testing"

	"linkrod/server/people"
	"linkrod/sync"
)

// Ensure what somebody writes who may only read is kept beside the book, with
// the reason, and what they may read they do. (Nobody can be made a reader
// yet; the role is put in by hand.)
func TestAReadersEntriesAreHeld(t *testing.T) {
	db := Memory()
	book, owner, reader, phone := sync.ID{0xb0}, sync.ID{0xa1}, sync.ID{0xa2}, sync.ID{2}
	for _, a := range []people.Account{{ID: owner, Name: "Ann"}, {ID: reader, Name: "Ben"}} {
		if err := db.PutAccount(t.Context(), a); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := db.OpenBook(t.Context(), book, owner, 1); err != nil {
		t.Fatal(err)
	}
	err := db.engine.update(t.Context(), func(t tx) error {
		return t.put(tableMembers, memberKey(reader, book), []byte(people.Reader))
	})
	if err != nil {
		t.Fatal(err)
	}
	e, err := sync.Seal(sync.Entry{Device: phone, N: 1, Book: book, Kind: sync.Fact, Body: []byte("{}")})
	if err != nil {
		t.Fatal(err)
	}
	push := sync.Push{Device: phone, Sent: []sync.Sent{{Entry: e, Raw: []byte("as it came")}}}
	for range 2 {
		results, head, err := db.Append(t.Context(), book, reader, push, 5, nil)
		if err != nil || results[0].State != sync.Held || results[0].Code != sync.CodeRole || head.Seq != 0 {
			t.Errorf("%+v, head %d, %v; want it held", results, head.Seq, err)
		}
	}
	if _, _, err := db.Read(t.Context(), book, reader, sync.Head{}, 10); err != nil {
		t.Errorf("a reader reads: %v", err)
	}
	var kept sync.Aside
	err = db.engine.view(func(t tx) error {
		_, err := read(t, tableAside, turnKey(book, phone, 1), &kept)
		return err
	})
	if err != nil || string(kept.Raw) != "as it came" || kept.Account != reader || kept.Received != 5 {
		t.Errorf("kept as %+v, %v", kept, err)
	}
	if r, err := db.Verify(); err != nil || len(r.Problems) > 0 || r.Aside != 1 {
		t.Errorf("%+v, %v", r, err)
	}
}
