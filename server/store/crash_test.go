package store_test

import (
	"bytes"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"

	bolt "go.etcd.io/bbolt"

	"linkrod/server/people"
	"linkrod/server/store"
	"linkrod/server/store/storetest"
	"linkrod/sync"
)

// A disk writes sectors of 512 bytes whole and, until it is told to wait, in
// any order. So after a power cut in the middle of a transaction the file can
// be what it was before with any of the changed sectors in it; only the page
// that says which state counts comes after all others (bbolt waits for the
// disk before and after it). Each such file is made here and must open, sound,
// as the state before: nothing of the transaction, nothing lost. With a torn
// last page it must be one of the two states. This needs no privileges and no
// luck, unlike pulling plugs.
const (
	sector = 512
	page   = 4096
	everyS = 11  // all subsets are tried up to so many changed sectors
	some   = 120 // otherwise so many of them
)

func TestCrashImages(t *testing.T) {
	ben := people.Account{ID: sync.ID{0xb1}, Name: "Ben Example"}
	entries := storetest.Written(phone, book, 1, 1000, sync.Hash{})
	give := func(from, to int) func(db *store.DB) error {
		return func(db *store.DB) error { _, _, err := push(db, entries[from:to]); return err }
	}
	open := func(db *store.DB) error {
		if err := db.PutAccount(ctx, ann); err != nil {
			return err
		}
		_, err := db.OpenBook(ctx, book, ann.ID, people.Engine, 1)
		return err
	}
	for _, tt := range []struct {
		name   string
		before func(db *store.DB) error
		change func(db *store.DB) error
		all    bool // every subset must have been tried
	}{
		{"a set-up token in an empty file", nil, func(db *store.DB) error { return db.SetSetupToken(ctx, sync.Hash{1}, 10) }, true},
		{"another token", func(db *store.DB) error { return db.SetSetupToken(ctx, sync.Hash{1}, 10) },
			func(db *store.DB) error { return db.SetSetupToken(ctx, sync.Hash{2}, 10) }, true},
		{"an account", nil, func(db *store.DB) error { return db.PutAccount(ctx, ben) }, true},
		{"a book", func(db *store.DB) error { return db.PutAccount(ctx, ann) },
			func(db *store.DB) error { _, err := db.OpenBook(ctx, book, ann.ID, people.Engine, 1); return err }, false},
		{"the first entry", open, give(0, 1), false},
		{"one more entry", func(db *store.DB) error { return both(open(db), give(0, 40)(db)) }, give(40, 41), false},
		{"a batch that makes the file grow", func(db *store.DB) error { return both(open(db), give(0, 150)(db)) }, give(150, 450), false},
		{"a removal", func(db *store.DB) error { return both(open(db), db.PutAccount(ctx, ben), give(0, 20)(db)) },
			func(db *store.DB) error { return db.RemoveDevice(ctx, ann.ID, phone, 9) }, false},
	} {
		t.Run(tt.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), store.FileName)
			db := mustOpenOnly(t, path)
			if tt.before != nil {
				if err := tt.before(db); err != nil {
					t.Fatal(err)
				}
			}
			was := contents(t, path)
			if err := tt.change(db); err != nil {
				t.Fatal(err)
			}
			is := contents(t, path)
			if err := db.Close(); err != nil {
				t.Fatal(err)
			}
			crashImages(t, was, is, tt.all, tt.change)
		})
	}
	t.Run("a file of the first version taken over", func(t *testing.T) {
		path := filepath.Join(t.TempDir(), store.FileName)
		was := first(t, path)
		if err := mustOpenOnly(t, path).Close(); err != nil {
			t.Fatal(err)
		}
		crashImages(t, was, contents(t, path), true, func(*store.DB) error { return nil })
	})
}

func contents(t *testing.T, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// both is the first error.
func both(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// crashImages tries what a power cut can leave of the transaction that made is
// out of was; change makes it again.
func crashImages(t *testing.T, was, is []byte, all bool, change func(*store.DB) error) {
	dir := t.TempDir()
	old := append(bytes.Clone(was), make([]byte, len(is)-len(was))...)
	var data []int // changed sectors but for the two pages that say which state counts
	meta := -1
	for s := range len(is) / sector {
		if bytes.Equal(old[s*sector:(s+1)*sector], is[s*sector:(s+1)*sector]) {
			continue
		}
		if s >= 2*page/sector {
			data = append(data, s)
		} else if meta < 0 {
			meta = s
		} else {
			t.Fatalf("the last pages of two transactions changed: sectors %d and %d", meta, s)
		}
	}
	if len(data) == 0 || meta < 0 {
		t.Fatalf("%d sectors changed, the last page at %d: nothing is tried", len(data), meta)
	}
	image := filepath.Join(dir, "image.db")
	dumpWas, dumpIs := dump(t, image, was), dump(t, image, is)
	if maps.Equal(dumpWas, dumpIs) {
		t.Fatal("the transaction changed nothing")
	}

	tried := 0
	try := func(what string, file []byte, states ...map[string]string) {
		t.Helper()
		tried++
		got := dump(t, image, file)
		if !slices.ContainsFunc(states, func(want map[string]string) bool { return maps.Equal(got, want) }) {
			t.Fatalf("%s: the file opens as neither state", what)
		}
	}
	with := func(subset []int, size int) []byte {
		file := bytes.Clone(old)
		for _, s := range subset {
			copy(file[s*sector:(s+1)*sector], is[s*sector:])
		}
		return file[:size]
	}
	sizes := []int{len(is)}
	if len(was) < len(is) {
		sizes = append(sizes, len(was)) // cut before it grew
	}
	exhaustive := len(data) <= everyS
	if all && !exhaustive {
		t.Errorf("%d sectors changed: too many to try all", len(data))
	}
	for _, size := range sizes {
		for _, subset := range subsets(data, exhaustive) {
			try(fmt.Sprintf("%d bytes with sectors %v", size, subset), with(subset, size), dumpWas)
		}
	}
	// All of it is there, and the last page is cut after each byte of what
	// counts in it, or in either half.
	done := with(data, len(is))
	step := 1
	if !exhaustive {
		step = 8
	}
	for n := 0; n <= 96; n += step {
		torn := bytes.Clone(done)
		copy(torn[meta*sector:], is[meta*sector:meta*sector+n])
		try(fmt.Sprintf("last page cut after %d bytes", n), torn, dumpWas, dumpIs)
		torn = bytes.Clone(is)
		copy(torn[meta*sector:], old[meta*sector:meta*sector+n])
		try(fmt.Sprintf("last page without its first %d bytes", n), torn, dumpWas, dumpIs)
	}
	try("everything written", is, dumpIs)

	// What was opened as the state before takes the same again.
	if err := os.WriteFile(image, with(data[:len(data)/2], len(is)), 0o600); err != nil {
		t.Fatal(err)
	}
	again := mustOpenOnly(t, image)
	if err := change(again); err != nil {
		t.Errorf("the same again: %v", err)
	}
	if err := again.Close(); err != nil {
		t.Fatal(err)
	}
	if r, err := store.Check(image); err != nil || len(r.Problems) > 0 {
		t.Errorf("the same again: %+v, %v", r, err)
	}
	how := "sampled"
	if exhaustive {
		how = "all subsets"
	}
	t.Logf("%d sectors changed, %d files tried (%s)", len(data)+1, tried, how)
}

// subsets are all of them, or some: none, each alone, each missing, and others
// at random.
func subsets(of []int, all bool) (list [][]int) {
	if all {
		for bits := range 1 << len(of) {
			var s []int
			for i, n := range of {
				if bits>>i&1 == 1 {
					s = append(s, n)
				}
			}
			list = append(list, s)
		}
		return list
	}
	rnd := rand.New(rand.NewPCG(1, uint64(len(of))))
	list = append(list, nil, of)
	for i := range min(len(of), some/4) {
		list = append(list, []int{of[i]}, slices.Delete(slices.Clone(of), i, i+1))
	}
	for len(list) < some {
		share := rnd.Float64()
		var s []int
		for _, n := range of {
			if rnd.Float64() < share {
				s = append(s, n)
			}
		}
		list = append(list, s)
	}
	return list
}

// dump opens a file as the server would, wants it sound, and returns all that
// is in it.
func dump(t *testing.T, path string, file []byte) map[string]string {
	t.Helper()
	if err := os.WriteFile(path, file, 0o600); err != nil {
		t.Fatal(err)
	}
	if r, err := store.Check(path); err != nil || len(r.Problems) > 0 {
		t.Fatalf("not sound: %+v, %v", r, err)
	}
	db, err := bolt.Open(path, 0o600, &bolt.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	all := map[string]string{}
	err = db.View(func(tx *bolt.Tx) error {
		return tx.ForEach(func(table []byte, b *bolt.Bucket) error {
			return b.ForEach(func(key, value []byte) error {
				all[string(table)+"/"+string(key)] = string(value)
				return nil
			})
		})
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}
