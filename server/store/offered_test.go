package store

import (
	"testing"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/sync"
)

// Somebody who hands in more than anybody lost is stopped, and nobody else with them. What
// was handed in once counts once.
func TestTooMuchHandedInIsOnesOwn(t *testing.T) {
	db := Memory()
	defer db.Close()
	book, ann, ben := sync.ID{0xb0}, sync.ID{1}, sync.ID{2}
	for i, who := range []sync.ID{ann, ben} {
		if err := db.PutAccount(t.Context(), people.Account{ID: who, Name: string(rune('A' + i))}); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := db.OpenBook(t.Context(), book, ann, people.Engine, 1); err != nil {
		t.Fatal(err)
	}
	err := db.engine.update(t.Context(), func(tx tx) error {
		for n := range uint64(maxOffered - 1) {
			a := sync.Aside{Device: sync.ID{9}, N: n + 1, Hash: sync.Hash{1}, State: sync.Held}
			if err := write(tx, tableOffered, offeredKey(book, a.Device, a.N, a.Hash), offered{a, ben}); err != nil {
				return err
			}
		}
		return putMember(tx, book, ben, member{Role: people.Reader, Added: 1, By: ann})
	})
	if err != nil {
		t.Fatal(err)
	}
	lost := func(n uint64) sync.Salvage {
		e, err := sync.Seal(sync.Entry{Device: sync.ID{8}, N: n, Book: book, Prev: sync.Hash{byte(n - 1)}, Kind: sync.Fact, Body: []byte("{}")})
		if err != nil {
			t.Fatal(err)
		}
		return sync.Salvage{Records: []sync.Record{{Account: ann, Entry: e}}}
	}
	for _, tt := range []struct {
		who  sync.ID
		n    uint64
		want fault.Code
	}{{ben, 1, ""}, {ben, 1, ""}, {ben, 2, fault.Busy}, {ann, 2, ""}, {ben, 2, ""}} {
		if _, _, err := db.Salvage(t.Context(), book, tt.who, lost(tt.n), false, 2); fault.CodeOf(err) != tt.want {
			t.Errorf("%d by %v: %v, want %q", tt.n, tt.who, err, tt.want)
		}
	}
}
