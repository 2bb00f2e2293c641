package intake

import (
	"os"
	"slices"
	"strings"
	"testing"

	"linkrod/server/people"
	"linkrod/server/store"
	"linkrod/sync"
)

var (
	ann = sync.ID{0xa1}
	ben = sync.ID{0xbe}
)

func MustOpen(tb testing.TB) *store.DB {
	tb.Helper()
	db := store.Memory()
	for id, name := range map[sync.ID]string{ann: "Ann Example", ben: "Ben Example"} {
		if err := db.PutAccount(tb.Context(), people.Account{ID: id, Name: name}); err != nil {
			tb.Fatal(err)
		}
	}
	return db
}

// example is the file of testdata/wire, which any version must go on reading.
func example(tb testing.TB) sync.File {
	tb.Helper()
	text, err := os.ReadFile("../../testdata/wire/file-1.json")
	if err != nil {
		tb.Fatal(err)
	}
	file, problems, err := sync.DecodeFile(text)
	if err != nil || len(problems) > 0 {
		tb.Fatal(problems, err)
	}
	return file
}

func desk(db *store.DB, account sync.ID) Desk { return Desk{Ledger: db, Account: account, Now: 1} }

// everything counts and gathers what was said of all books.
func everything(tb testing.TB, books []Book, err error) (entries, fresh, aside int, words string) {
	tb.Helper()
	if err != nil {
		tb.Fatal(err)
	}
	for _, b := range books {
		entries, fresh, aside = entries+b.Entries, fresh+b.Fresh, aside+b.Aside
		words += strings.Join(b.Words, "\n")
	}
	return entries, fresh, aside, words
}

// Ensure a file is only looked at until it is taken, all of it arrives under
// its own keys, and twice is as good as once.
func TestTake(t *testing.T) {
	db, file := MustOpen(t), example(t)
	look := func() int {
		books, err := desk(db, ann).Look(t.Context(), file)
		_, fresh, _, _ := everything(t, books, err)
		return fresh
	}
	for range 2 {
		if got := look(); got != 3 {
			t.Errorf("%d of 3 would be new: looking must change nothing", got)
		}
	}
	for turn, want := range []int{3, 0} {
		books, err := desk(db, ann).Take(t.Context(), file)
		entries, fresh, aside, words := everything(t, books, err)
		if entries != 3 || fresh != want || aside != 0 || words != "" {
			t.Errorf("turn %d: %d entries, %d fresh, %d aside, %q; want %d fresh", turn+1, entries, fresh, aside, words, want)
		}
	}
	if got := look(); got != 0 {
		t.Errorf("%d are still new", got)
	}
	b := file.Books[0]
	records, _, err := db.Read(t.Context(), b.Book, ann, sync.Head{}, 100)
	if err != nil || len(records) != len(b.Entries) {
		t.Fatalf("%d records, %v", len(records), err)
	}
	for i, r := range records {
		if r.Entry.Hash != b.Entries[i].Entry.Hash || r.Account != ann {
			t.Errorf("record %d is another entry", r.Seq)
		}
	}
	if r, err := db.Verify(); err != nil || len(r.Problems) > 0 {
		t.Errorf("the store says: %v, %v", r.Problems, err)
	}
}

// Ensure nobody takes in what is somebody else's, and learns no more of it
// than that.
func TestTakeForeign(t *testing.T) {
	db, file := MustOpen(t), example(t)
	if _, err := desk(db, ann).Take(t.Context(), file); err != nil {
		t.Fatal(err)
	}
	books, err := desk(db, ben).Take(t.Context(), file)
	_, fresh, _, words := everything(t, books, err)
	if fresh != 0 || !strings.Contains(words, "another account") {
		t.Errorf("somebody else's book: %d fresh, %q", fresh, words)
	}

	// Ben's own book, with entries of a device that is Ann's.
	mine := sync.ID{0xb0}
	e, err := sync.Seal(sync.Entry{Device: file.Books[0].Entries[0].Entry.Device, N: 1, Book: mine, Kind: sync.Fact, Body: []byte(`{"type":"engine"}`)})
	if err != nil {
		t.Fatal(err)
	}
	books, err = desk(db, ben).Take(t.Context(), sync.File{Books: []sync.FileBook{{Book: mine, Entries: []sync.Kept{{Entry: e}}}}})
	_, fresh, _, words = everything(t, books, err)
	if fresh != 0 || !strings.Contains(words, "belongs to another account") {
		t.Errorf("somebody else's device: %d fresh, %q", fresh, words)
	}
}

// Ensure entries that can't stand are told of one by one, and keep none of
// the others out.
func TestTakeImperfect(t *testing.T) {
	db, book, device := MustOpen(t), sync.ID{0xb0}, sync.ID{0x0d}
	var kept []sync.Kept
	var prev sync.Hash
	for n := range uint64(1200) { // more than two batches
		e, err := sync.Seal(sync.Entry{Device: device, N: n + 1, Book: book, Prev: prev, Kind: sync.Fact, Body: []byte(`{"type":"note"}`)})
		if err != nil {
			t.Fatal(err)
		}
		prev = e.Hash
		kept = append(kept, sync.Kept{Entry: e})
	}
	refuse := func(e sync.Entry) *sync.Fault {
		if e.N == 7 {
			return &sync.Fault{Code: sync.CodeBody, Words: "Nobody can read it."}
		}
		return nil
	}
	d := Desk{Ledger: db, Account: ann, Now: 1, Check: refuse}
	file := sync.File{Books: []sync.FileBook{{Book: book, Entries: kept}}}
	late := slices.Clone(kept[3:5])
	slices.Reverse(kept) // a file may have any order
	for _, p := range pushes(kept) {
		if len(p.Sent) > sync.MaxBatchEntries {
			t.Errorf("a batch of %d", len(p.Sent))
		}
	}
	for _, want := range []int{1199, 0} {
		books, err := d.Take(t.Context(), file)
		_, fresh, aside, words := everything(t, books, err)
		if fresh != want || aside != 1 || words != "Entry 7 was set aside: Nobody can read it." {
			t.Errorf("%d fresh, %d aside, %q; want %d fresh and one aside", fresh, aside, words, want)
		}
	}

	// A file that begins in the middle.
	for i := range late {
		late[i].Entry.Book = sync.ID{0xb9}
	}
	books, err := d.Take(t.Context(), sync.File{Books: []sync.FileBook{{Book: sync.ID{0xb9}, Entries: late}}})
	if _, fresh, _, words := everything(t, books, err); fresh != 0 || !strings.Contains(words, "was not taken") {
		t.Errorf("a gap: %d fresh, %q", fresh, words)
	}
}
