package store_test

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"linkrod/server/fault"
	"linkrod/server/store"
	"linkrod/server/store/storetest"
	"linkrod/sync"
)

// Ensure a data file that may not grow takes nothing more, loses nothing of
// what it said it took, goes on reading, and writes again once it may
// (S1, S2, S5).
func TestFullByMaxSize(t *testing.T) {
	path := filepath.Join(t.TempDir(), store.FileName)
	writeUntilFull(t, path, store.Options{MaxSize: 1 << 20}, nil)
}

// The same on a disk that is really full, a tmpfs of 3 MB, and then has room
// again: no restart is needed.
func TestFullDisk(t *testing.T) {
	dir := t.TempDir()
	unmount, err := mountSmall(dir, "3m")
	if err != nil {
		// Only root may mount, and on Linux only.
		if os.Getuid() == 0 || os.Getenv("CI") != "" {
			t.Fatalf("a small disk can't be mounted, and a test run as root or in CI must: %v", err)
		}
		t.Skipf("NOT TESTED: a full disk. On %s a small one can be mounted by root only: %v", runtime.GOOS, err)
	}
	t.Cleanup(func() {
		if err := unmount(); err != nil {
			t.Error(err)
		}
	})
	// Something else fills the disk, and goes away again.
	filler := filepath.Join(dir, "photos")
	if err := os.WriteFile(filler, make([]byte, 1<<20), 0o600); err != nil {
		t.Fatal(err)
	}
	writeUntilFull(t, filepath.Join(dir, store.FileName), store.Options{}, func() {
		if err := os.Remove(filler); err != nil {
			t.Fatal(err)
		}
	})
}

func writeUntilFull(t *testing.T, path string, o store.Options, makeRoom func()) {
	t.Helper()
	db, err := store.Open(path, o)
	if err != nil {
		t.Fatal(err)
	}
	annsBook(t, db)
	entries := storetest.Written(phone, book, 1, 20_000, sync.Hash{})
	sum := sync.Hash{9}
	if _, err := db.BeginPhoto(ctx, book, ann.ID, sum, 1<<20, 1); err != nil {
		t.Fatal(err)
	}
	acknowledged := 0
	for ; acknowledged < len(entries); acknowledged += 20 {
		results, _, err := push(db, entries[acknowledged:acknowledged+20])
		if err != nil {
			wantFault(t, "writing to a full disk", err, fault.Busy, "disk is full")
			if results != nil {
				t.Errorf("and yet it answered %+v", results)
			}
			break
		}
	}
	if acknowledged < 100 || acknowledged == len(entries) {
		t.Fatalf("%d entries went in: the disk was too small or never full", acknowledged)
	}
	for range 3 { // it stays so, and says so each time
		_, _, err := push(db, entries[acknowledged:acknowledged+20])
		wantFault(t, "again", err, fault.Busy, "disk is full")
	}
	// A photograph stops where it is, and what is put back from a phone waits.
	_, err = db.AddToPhoto(ctx, book, ann.ID, sum, 0, make([]byte, 256<<10), 1)
	wantFault(t, "a photograph", err, fault.Busy, "disk is full")
	if state, err := db.Photo(ctx, book, ann.ID, sum); err != nil || state.Offset != 0 {
		t.Errorf("and it is at %+v, %v", state, err)
	}
	stray := storetest.Written(sync.ID{0x77}, book, 1, 200, sync.Hash{})
	var back sync.Salvage
	for _, e := range stray {
		back.Records = append(back.Records, sync.Record{Account: ann.ID, Entry: e})
	}
	_, _, err = db.Salvage(ctx, book, ann.ID, back, false, 1)
	wantFault(t, "putting back", err, fault.Busy, "disk is full")
	has := func(db *store.DB, when string) {
		t.Helper()
		var head sync.Head
		for more := true; more; {
			records, end, err := db.Read(ctx, book, ann.ID, head, 1000)
			if err != nil {
				t.Fatalf("%s: %v", when, err)
			}
			if head, err = sync.Follow(head, records); err != nil {
				t.Fatalf("%s: %v", when, err)
			}
			more = head != end
		}
		if head.Seq != uint64(acknowledged) {
			t.Errorf("%s: %d entries, %d were acknowledged", when, head.Seq, acknowledged)
		}
	}
	has(db, "on the full disk")
	if makeRoom != nil {
		makeRoom()
		if _, _, err := push(db, entries[acknowledged:acknowledged+20]); err != nil {
			t.Fatalf("with room, without a restart: %v", err)
		}
		acknowledged += 20
		has(db, "with room, without a restart")
	}
	if err := db.Close(); err != nil {
		t.Error(err)
	}
	report, err := store.Check(path)
	if err != nil || len(report.Problems) > 0 || report.Aside != 0 {
		t.Fatalf("afterwards: %+v, %v", report, err)
	}
	db = mustOpen(t, path, store.Options{})
	has(db, "opened again")
	if _, _, err := push(db, entries[acknowledged:acknowledged+20]); err != nil {
		t.Fatalf("opened again: %v", err)
	}
	acknowledged += 20
	has(db, "opened again and written to")
}
