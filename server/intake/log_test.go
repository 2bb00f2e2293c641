package intake

import (
	"os"
	"strings"
	"testing"

	"linkrod/radial/book"
	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/server/store"
	"linkrod/sync"
	"linkrod/sync/plain"
)

var (
	engine = sync.ID{0xe2}
	phone  = sync.ID{0x0a}
)

// begun is a book as a phone starts it, named E2.
func begun(t *testing.T, db *store.DB, id sync.ID, name string) {
	t.Helper()
	answers, err := plain.Parse([]byte(`{"cylinders":"7","view":"cockpit","oil_unit":"qt","meter":{"which":"tach","reading":"500.0"},"name":"` + name + `"}`))
	if err != nil {
		t.Fatal(err)
	}
	plan, err := book.Begin(answers, "DEMO mechanic", book.Now{Day: "2025-10-01"})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := db.OpenBook(t.Context(), id, ann, people.Engine, 1); err != nil {
		t.Fatal(err)
	}
	push := sync.Push{Device: phone}
	var prev sync.Hash
	for i, p := range plan {
		e, err := sync.Seal(sync.Entry{Device: phone, N: uint64(i + 1), Book: id, Prev: prev, Kind: sync.Kind(p.Kind), Body: p.Body, Schema: 1})
		if err != nil {
			t.Fatal(err)
		}
		prev = e.Hash
		push.Sent = append(push.Sent, sync.Sent{Entry: e})
	}
	if _, _, err := db.Append(t.Context(), id, ann, push, 1, nil); err != nil {
		t.Fatal(err)
	}
}

// Ensure a paper log is only looked at until it is taken, arrives line by
// line, and taken twice changes nothing.
func TestTakeLog(t *testing.T) {
	db := MustOpen(t)
	begun(t, db, engine, "E2")
	text, err := os.ReadFile("../../testdata/csv/series_a.csv")
	if err != nil {
		t.Fatal(err)
	}
	lines := len(strings.Split(strings.TrimSpace(string(text)), "\n")) - 1
	d := desk(db, ann)
	for range 2 {
		read, err := d.LookAtLog(t.Context(), engine, string(text))
		if err != nil || len(read.Rows) != lines || !strings.Contains(read.Summary, "Nothing is taken until you say so") {
			t.Fatalf("looked: %d rows, %q, %v", len(read.Rows), read.Summary, err)
		}
	}
	before := head(t, db)
	for turn, want := range []int{lines, 0} {
		_, took, err := d.TakeLog(t.Context(), engine, sync.ID{0x1c, byte(turn)}, string(text))
		if err != nil || took.Fresh != want || took.Aside != 0 || len(took.Words) != 0 {
			t.Errorf("turn %d: %+v, %v; want %d taken", turn+1, took, err, want)
		}
	}
	if got := head(t, db) - before; got != uint64(lines) {
		t.Errorf("the ledger grew by %d, want %d", got, lines)
	}
	read, err := d.LookAtLog(t.Context(), engine, string(text))
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range read.Rows {
		if !row.Already {
			t.Errorf("line %d is new again: %s", row.Line, row.Words)
		}
	}
}

// Ensure a line that can't be read is named and the others are taken.
func TestTakeLogWithABadLine(t *testing.T) {
	db := MustOpen(t)
	begun(t, db, engine, "E2")
	const text = "hours [h],level before [qt],added [qt]\n510.0,15,1\n512.0,many,1\n514.0,14.5,1\n"
	read, took, err := desk(db, ann).TakeLog(t.Context(), engine, sync.ID{0x1c}, text)
	if err != nil || took.Fresh != 2 || len(read.Problems) != 1 || read.Problems[0].Line != 3 || read.Problems[0].Words == "" {
		t.Errorf("%+v %+v, %v", took, read.Problems, err)
	}
}

// Ensure an engine is found by name and by number, and what there is is said.
func TestFind(t *testing.T) {
	db := MustOpen(t)
	d := desk(db, ann)
	_, err := d.Find(t.Context(), "E2")
	wantFault(t, "no engine yet", err, fault.NotFound, "Start it in the app")
	begun(t, db, engine, "E2")
	for _, name := range []string{"E2", "e2", engine.String()} {
		if id, err := d.Find(t.Context(), name); err != nil || id != engine {
			t.Errorf("Find(%q) = %v, %v", name, id, err)
		}
	}
	_, err = d.Find(t.Context(), "E9")
	wantFault(t, "another name", err, fault.NotFound, "“E2” ("+engine.String()+")")
	begun(t, db, sync.ID{0xe3}, "E2")
	_, err = d.Find(t.Context(), "E2")
	wantFault(t, "two of a name", err, fault.Conflict, "in brackets")
	_, err = desk(db, ben).Find(t.Context(), "E2")
	wantFault(t, "somebody else's", err, fault.NotFound, "no engine here yet")
	_, err = desk(db, ben).LookAtLog(t.Context(), engine, "")
	wantFault(t, "looking into somebody else's", err, fault.NotFound, "no such book")
}

func head(t *testing.T, db *store.DB) uint64 {
	t.Helper()
	_, h, err := db.Read(t.Context(), engine, ann, sync.Head{}, 1)
	if err != nil {
		t.Fatal(err)
	}
	return h.Seq
}

func wantFault(t *testing.T, what string, err error, code fault.Code, words string) {
	t.Helper()
	if fault.CodeOf(err) != code || !strings.Contains(fault.From(err).Words, words) {
		t.Errorf("%s: %v, want code %q and words with %q", what, err, code, words)
	}
}
