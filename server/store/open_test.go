package store_test

import (
	"bytes"
	"context"
	"crypto/sha256"
	"fmt"
	"image"
	"image/png"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/server/store"
	"linkrod/server/store/storetest"
	"linkrod/sync"
)

var (
	ctx   = context.Background()
	ann   = people.Account{ID: sync.ID{0xa1}, Name: "Ann Example"}
	book  = sync.ID{0xb0}
	phone = sync.ID{0x01}
)

// Ensure a new data file is there under its own name only, in a folder and
// file nobody else may read, and opens again.
func TestOpenMakesTheFile(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "made", "here")
	path := filepath.Join(dir, store.FileName)
	for range 2 {
		db, err := store.Open(path, store.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if err := db.Close(); err != nil {
			t.Fatal(err)
		}
	}
	names, _ := os.ReadDir(dir)
	if len(names) != 1 || names[0].Name() != store.FileName {
		t.Errorf("the folder holds %v, want the data file alone", names)
	}
	for _, p := range []string{dir, path} {
		info, err := os.Stat(p)
		if err != nil || info.Mode().Perm()&0o077 != 0 {
			t.Errorf("%s has mode %v: others may look in (%v)", p, info.Mode(), err)
		}
	}
}

// Ensure a half-made file of an earlier start is not taken for data.
func TestOpenAfterACutCreation(t *testing.T) {
	path := filepath.Join(t.TempDir(), store.FileName)
	if err := os.WriteFile(path+".new", []byte("cut short"), 0o600); err != nil {
		t.Fatal(err)
	}
	mustOpen(t, path, store.Options{})
}

// Ensure a second process is told so, soon, instead of waiting for ever.
func TestOpenWhenAnotherHasIt(t *testing.T) {
	path := filepath.Join(t.TempDir(), store.FileName)
	mustOpen(t, path, store.Options{})
	_, err := store.Open(path, store.Options{LockWait: 50 * time.Millisecond})
	wantFault(t, "opening twice", err, fault.Busy, "already running")
	_, err = store.Check(path)
	wantFault(t, "checking what a server has open", err, fault.Busy, "already running")
	_, _, err = store.Restore(path, path, time.Now())
	wantFault(t, "restoring over what a server has open", err, fault.Busy, "already running")
}

// Ensure damage is met with a sentence that says where the last backup is,
// whatever was damaged, and never with a crash or a silent new file.
func TestOpenDamaged(t *testing.T) {
	dir := t.TempDir()
	good := filepath.Join(dir, "good.db")
	fill(t, good, 200)
	sound, err := os.ReadFile(good)
	if err != nil {
		t.Fatal(err)
	}
	backup := filepath.Join(dir, "backup.db")
	if _, err := store.Backup(filepath.Join(dir, store.FileName), backup, func(w io.Writer) error {
		return store.CopyFile(good, w)
	}); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, store.FileName)
	for name, data := range map[string][]byte{
		"text":                []byte("this is a shopping list"),
		"cut after the first": sound[:4096],
		"cut in the middle":   sound[:len(sound)/2],
		"both heads zeroed":   append(make([]byte, 8192), sound[8192:]...),
	} {
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		_, err := store.Open(path, store.Options{})
		wantFault(t, name, err, fault.Conflict, "damaged")
		if err != nil && !strings.Contains(err.Error(), backup) {
			t.Errorf("%s: %v does not name the backup", name, err)
		}
		if now, _ := os.ReadFile(path); !bytes.Equal(now, data) {
			t.Errorf("%s: the damaged file was changed", name)
		}
	}

	other, err := bolt.Open(filepath.Join(dir, "other.db"), 0o600, nil)
	if err != nil {
		t.Fatal(err)
	}
	other.Close()
	_, err = store.Open(filepath.Join(dir, "other.db"), store.Options{})
	wantFault(t, "another program's file", err, fault.Conflict, "not one of Linkrod's")
}

// Ensure Check survives and reports any page of the file being overwritten
// with noise, and any single record being changed.
func TestCheckFindsDamage(t *testing.T) {
	path := filepath.Join(t.TempDir(), store.FileName)
	fill(t, path, 120)
	report, err := store.Check(path)
	if err != nil || len(report.Problems) > 0 || report.Records != 120 || report.Books != 1 || report.Accounts != 1 {
		t.Fatalf("the sound file: %+v, %v", report, err)
	}
	sound, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	rnd := rand.New(rand.NewPCG(1, 2))
	used := pagesInUse(t, path)
	for _, page := range used {
		damaged := bytes.Clone(sound)
		for i := range 4096 {
			damaged[page*4096+i] = byte(rnd.Uint32())
		}
		if !broken(t, path, damaged) {
			t.Errorf("page %d is noise and the check finds nothing", page)
		}
	}
	if len(used) < 20 {
		t.Errorf("only %d pages were tried", len(used))
	}

	// One number, one time, one letter; a line of the journal.
	for _, change := range []struct{ old, new string }{
		{`"seq":50,`, `"seq":51,`},
		{`"received":1762700000000`, `"received":1762700000001`},
		{`"schema":0`, `"schemA":0`},
		{`"what":"book opened"`, `"what":"role changed"`},
	} {
		if !broken(t, path, bytes.ReplaceAll(sound, []byte(change.old), []byte(change.new))) {
			t.Errorf("%s became %s and the check finds nothing", change.old, change.new)
		}
	}
}

// Ensure a photograph of which a byte changed on the disk is reported, and one
// that is still on its way is not.
func TestCheckLooksAtPhotographs(t *testing.T) {
	path := filepath.Join(t.TempDir(), store.FileName)
	db := mustOpenOnly(t, path)
	annsBook(t, db)
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 9, 9))); err != nil {
		t.Fatal(err)
	}
	data := append(b.Bytes(), "after the picture's end: DEMO"...)
	for _, n := range []int{len(data), 20} {
		sum := sync.Hash(sha256.Sum256(data[:n]))
		if n < len(data) {
			sum = sync.Hash{7}
		}
		if _, err := db.BeginPhoto(ctx, book, ann.ID, sum, int64(len(data)), 1); err != nil {
			t.Fatal(err)
		}
		if _, err := db.AddToPhoto(ctx, book, ann.ID, sum, 0, data[:n], 1); err != nil {
			t.Fatal(err)
		}
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	report, err := store.Check(path)
	if err != nil || len(report.Problems) > 0 || report.Photos != 2 {
		t.Fatalf("%+v, %v", report, err)
	}
	file, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !broken(t, path, bytes.ReplaceAll(file, []byte("end: DEMO"), []byte("end: demo"))) {
		t.Error("a photograph was changed and the check finds nothing")
	}
}

// pagesInUse asks bbolt which pages hold keys and values.
func pagesInUse(t *testing.T, path string) (used []int) {
	t.Helper()
	db, err := bolt.Open(path, 0o600, &bolt.Options{ReadOnly: true, PreLoadFreelist: true})
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	err = db.View(func(tx *bolt.Tx) error {
		for id := 2; ; {
			p, err := tx.Page(id)
			if err != nil || p == nil {
				return err
			}
			if p.Type == "leaf" || p.Type == "branch" {
				used = append(used, id)
			}
			id += 1 + p.OverflowCount
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	return used
}

func broken(t *testing.T, path string, data []byte) bool {
	t.Helper()
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	report, err := store.Check(path)
	return err != nil || len(report.Problems) > 0
}

// fill makes a data file with one account, one book and n entries.
func fill(tb testing.TB, path string, n uint64) {
	tb.Helper()
	db, err := store.Open(path, store.Options{})
	if err != nil {
		tb.Fatal(err)
	}
	annsBook(tb, db)
	entries := storetest.Written(phone, book, 1, n, sync.Hash{})
	for len(entries) > 0 {
		some := entries[:min(100, len(entries))]
		if _, _, err := push(db, some); err != nil {
			tb.Fatal(err)
		}
		entries = entries[len(some):]
	}
	if err := db.Close(); err != nil {
		tb.Fatal(err)
	}
}

func annsBook(tb testing.TB, db *store.DB) {
	tb.Helper()
	if err := db.PutAccount(ctx, ann); err != nil {
		tb.Fatal(err)
	}
	if _, err := db.OpenBook(ctx, book, ann.ID, people.Engine, 1); err != nil {
		tb.Fatal(err)
	}
}

func push(db *store.DB, entries []sync.Entry) ([]sync.Result, sync.Head, error) {
	return db.Append(ctx, book, ann.ID, storetest.Sent(entries), 1762700000000, nil)
}

func wantFault(t *testing.T, what string, err error, code fault.Code, words string) {
	t.Helper()
	if fault.CodeOf(err) != code || !strings.Contains(fmt.Sprint(err), words) {
		t.Errorf("%s: %v, want code %q and words with %q", what, err, code, words)
	}
}
