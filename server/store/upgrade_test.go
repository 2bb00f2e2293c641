package store_test

import (
	"bytes"
	"compress/gzip"
	"io"
	"os"
	"path/filepath"
	"testing"
	"time"

	"linkrod/server/people"
	"linkrod/server/store"
	"linkrod/server/store/storetest"
	"linkrod/sync"
)

// first writes the file of format 1 that the first version left: Ann the host,
// Ben, one sign-in, two books, eleven records and one set aside.
func first(t *testing.T, path string) []byte {
	t.Helper()
	packed, err := os.ReadFile("testdata/format-1.db.gz")
	if err != nil {
		t.Fatal(err)
	}
	r, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	data, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return data
}

// Ensure a file of the first version is checked as it is, taken over when it
// is opened, and can be restored from, with everything that was in it.
func TestFormat1(t *testing.T) {
	dir := t.TempDir()
	old, path := filepath.Join(dir, "backup.db"), filepath.Join(dir, store.FileName)
	data := first(t, old)
	want := store.Report{Accounts: 2, Devices: 1, Books: 2, Records: 11, Aside: 1}
	same := func(what string, r store.Report, err error) {
		t.Helper()
		r.Journal = 0
		if err != nil || len(r.Problems) > 0 || r.Accounts != want.Accounts || r.Devices != want.Devices || r.Books != want.Books || r.Records != want.Records || r.Aside != want.Aside {
			t.Errorf("%s: %+v, %v", what, r, err)
		}
	}
	r, err := store.Check(old)
	same("checked", r, err)
	if now, _ := os.ReadFile(old); !bytes.Equal(now, data) {
		t.Error("checking changed it")
	}
	_, r, err = store.Restore(path, old, time.UnixMilli(99))
	same("restored", r, err)
	for range 2 { // taken over, and then as any other
		db := mustOpenOnly(t, path)
		r, err := db.Verify()
		same("opened", r, err)
		in, err := db.Member(ctx, book, ann.ID)
		if err != nil || in.Role != people.Owner || !in.Signs || in.Of != people.Engine || in.Head.Seq != 11 {
			t.Errorf("Ann in her book: %+v, %v", in, err)
		}
		list, err := db.Members(ctx, book, ann.ID)
		if err != nil || len(list) != 1 || list[0].Added != 7 {
			t.Errorf("members: %+v, %v", list, err)
		}
		if at, err := db.Restored(ctx); err != nil || at != 99 {
			t.Errorf("restored at %d, %v", at, err)
		}
		lines, err := db.Journal(ctx, ann.ID, 0, 10)
		if err != nil || len(lines) != 1 || lines[0].What != people.PutBack {
			t.Errorf("journal: %+v, %v", lines, err)
		}
		if err := db.Close(); err != nil {
			t.Fatal(err)
		}
	}
	db := mustOpen(t, path, store.Options{})
	five := storetest.Written(phone, book, 1, 13, sync.Hash{})
	results, _, err := push(db, five)
	if err != nil || results[3].State != sync.Dup || results[4].State != sync.Rejected || results[12].State != sync.OK {
		t.Errorf("its phone goes on: %+v, %v", results, err)
	}
	if seq, err := db.Admit(ctx, book, ann.ID, phone, 5, sync.Hash{}, "DEMO", 100); err != nil || seq != 13 {
		t.Errorf("what was set aside then, admitted: %d, %v", seq, err)
	}
}
