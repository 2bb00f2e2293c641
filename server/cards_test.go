package main

import (
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"linkrod/server/api"
	"linkrod/server/people"
	"linkrod/server/store"
	"linkrod/sync"
)

const demoShelf = "../testdata/shelves/demo"

// curator is a data folder with one account.
func curator(t *testing.T) string {
	t.Helper()
	data := t.TempDir()
	db, err := store.Open(filepath.Join(data, store.FileName), store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	token, who := sync.Hash{1}, sync.ID{1}
	if err := db.SetSetupToken(t.Context(), token, 1); err != nil {
		t.Fatal(err)
	}
	if err := db.SetUp(t.Context(), token, 0, people.Shop{Name: "Fellside"}, people.Account{ID: who, Name: "Ilse Varnham", Host: true}, people.Device{ID: sync.ID{2}, Account: who}); err != nil {
		t.Fatal(err)
	}
	return data
}

func said(t *testing.T, args ...string) (out string, code int) {
	t.Helper()
	var o, e strings.Builder
	code = run(context.Background(), args, world{env: func(string) string { return "" }, out: &o, err: &e})
	return o.String() + e.String(), code
}

// copied is a copy of a folder, to be changed.
func copied(t *testing.T, from string) string {
	t.Helper()
	to := t.TempDir()
	if err := os.CopyFS(to, os.DirFS(from)); err != nil {
		t.Fatal(err)
	}
	return to
}

func edit(t *testing.T, file, old, with string) {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil || !strings.Contains(string(text), old) {
		t.Fatalf("%s has no %q (%v)", file, old, err)
	}
	if err := os.WriteFile(file, []byte(strings.Replace(string(text), old, with, 1)), 0o600); err != nil {
		t.Fatal(err)
	}
}

// A shelf's folder goes onto a shelf and comes back byte for byte, also the second time.
func TestAShelfComesBackAsItWasWritten(t *testing.T) {
	data := curator(t)
	flags := []string{"-data", data, "-as", "ilse varnham", "-shelf", "Demo"}
	args := func(do string, more ...string) []string {
		return append(append([]string{"cards", do}, flags...), more...)
	}
	if out, code := said(t, args("import", demoShelf)...); code != 0 || !strings.Contains(out, "Nothing was taken yet") {
		t.Fatal(code, out)
	}
	if out, code := said(t, args("export", t.TempDir())...); code != 1 || !strings.Contains(out, "There is no shelf “Demo”") {
		t.Error("a look put something there", code, out)
	}
	from := demoShelf
	for range 2 {
		if out, code := said(t, args("import", "-take", from)...); code != 0 {
			t.Fatal(code, out)
		}
		to := filepath.Join(t.TempDir(), "out")
		if out, code := said(t, args("export", to)...); code != 0 {
			t.Fatal(code, out)
		}
		same(t, demoShelf, to)
		from = to
	}
	out, _ := said(t, args("import", "-take", from)...)
	if !regexp.MustCompile(`0 cards put on the shelf "Demo", \d+ there already`).MatchString(out) {
		t.Errorf("a third time: %s", out)
	}
}

// While the server runs the same commands go through it, and the shelf is there for
// everybody at once.
func TestAShelfGoesThroughTheRunningServer(t *testing.T) {
	data := curator(t)
	MustRun(t, Config{Data: data, Addr: "localhost:0", TLS: "off"})
	flags := []string{"-data", data, "-as", "Ilse Varnham", "-shelf", "Demo"}
	if out, code := said(t, append(append([]string{"cards", "import"}, flags...), "-take", demoShelf)...); code != 0 {
		t.Fatal(code, out)
	}
	to := filepath.Join(t.TempDir(), "out")
	if out, code := said(t, append(append([]string{"cards", "export"}, flags...), to)...); code != 0 {
		t.Fatal(code, out)
	}
	same(t, demoShelf, to)
	flags[3] = "Nobody"
	if out, code := said(t, append(append([]string{"cards", "export"}, flags...), t.TempDir())...); code != 1 || !strings.Contains(out, "There is no account named \"Nobody\" on this server.") {
		t.Error(code, out)
	}
}

// same holds two folders against each other, every file and byte.
func same(t *testing.T, a, b string) {
	t.Helper()
	left, err1 := os.ReadDir(a)
	right, err2 := os.ReadDir(b)
	if err1 != nil || err2 != nil || len(left) != len(right) || len(left) == 0 {
		t.Fatal(err1, err2, len(left), len(right))
	}
	for _, f := range left {
		x, _ := os.ReadFile(filepath.Join(a, f.Name()))
		y, err := os.ReadFile(filepath.Join(b, f.Name()))
		if err != nil || string(x) != string(y) {
			t.Errorf("%s came back changed (%v)", f.Name(), err)
		}
	}
}

// One broken card keeps the whole folder out, and is told with its line and column.
func TestABrokenCardKeepsTheFolderOut(t *testing.T) {
	data := curator(t)
	dir := copied(t, demoShelf)
	edit(t, filepath.Join(dir, "torque-t9c.yaml"), "  src: fw\n", "  src: fv\n")
	args := []string{"-data", data, "-as", "Ilse Varnham", "-shelf", "Demo"}
	out, code := said(t, append(append([]string{"cards", "import"}, args...), "-take", dir)...)
	if code != 1 || !strings.Contains(out, "torque-t9c.yaml:19:3: There is no source “fv”. This card’s are: fw.\n") || !strings.Contains(out, "Nothing was taken.") {
		t.Error(code, out)
	}
	if out, code := said(t, append(append([]string{"cards", "export"}, args...), t.TempDir())...); code != 1 || !strings.Contains(out, "There is no shelf") {
		t.Error("something was taken", code, out)
	}
}

// A published version never changes: the same number with another text is refused, at its
// number, and takes the whole folder with it; with the next number the difference is told.
func TestAPublishedVersionNeverChanges(t *testing.T) {
	data := curator(t)
	dir := copied(t, demoShelf)
	args := []string{"cards", "import", "-data", data, "-as", "Ilse Varnham", "-shelf", "Demo", "-take", dir}
	if out, code := said(t, args...); code != 0 {
		t.Fatal(code, out)
	}
	file := filepath.Join(dir, "limits-t7b.yaml")
	edit(t, file, `{id: exhaust_stem, new_min: "3.5", new_max: "5",`, `{id: exhaust_stem, new_min: "3.5", new_max: "5.5",`)
	edit(t, filepath.Join(dir, "note-t7b-serials.yaml"), "version: 1", "version: 2")
	out, code := said(t, args...)
	if code != 1 || !strings.Contains(out, "limits-t7b.yaml:7:1: Version 2 of this card is published with another text, and a published version never changes. Give this one version 3.") {
		t.Error(code, out)
	}
	edit(t, file, "version: 2\nstate", "version: 3\nstate")
	out, code = said(t, append(args[:len(args)-1], "-reason", "Sheet D", dir)...)
	if code != 0 || !strings.Contains(out, "T7-B clearances and limits: exhaust stem in guide: new maximum 5 to 5.5 thou\n") {
		t.Error(code, out)
	}
}

// A card that a newer Linkrod, or somebody by hand, called after a file elsewhere is written
// nowhere: export makes files in its folder only, and one of them is shelf.yaml.
func TestAnExportStaysInItsFolder(t *testing.T) {
	for _, id := range []string{"../out", "a/b", "shelf", "/tmp/x"} {
		data := curator(t)
		db, err := store.Open(filepath.Join(data, store.FileName), store.Options{})
		if err != nil {
			t.Fatal(err)
		}
		book, who := sync.ID{7}, sync.ID{1}
		if _, err := db.OpenBook(t.Context(), book, who, people.Shelf, 1); err != nil {
			t.Fatal(err)
		}
		push := sync.Push{Device: sync.ID{9}}
		var prev sync.Hash
		for i, body := range []string{`{"type":"shelf","title":"Demo"}`,
			`{"type":"card","text":"x","hash":"h","json":{"card":"` + id + `","kind":"note","title":"DEMO","version":1,"state":"published"}}`} {
			e, err := sync.Seal(sync.Entry{Device: push.Device, N: uint64(i + 1), Book: book, Prev: prev, Kind: sync.Fact, Schema: 2, Body: []byte(body)})
			if err != nil {
				t.Fatal(err)
			}
			prev, push.Sent = e.Hash, append(push.Sent, sync.Sent{Entry: e})
		}
		if _, _, err := db.Append(t.Context(), book, who, push, 2, api.Readable); err != nil {
			t.Fatal(err)
		}
		if err := db.Close(); err != nil {
			t.Fatal(err)
		}
		around := t.TempDir()
		out, code := said(t, "cards", "export", "-data", data, "-as", "Ilse Varnham", "-shelf", "Demo", filepath.Join(around, "in", "to"))
		if code != 1 || !strings.Contains(out, "No file can be called after the card “"+id+"”") {
			t.Error(code, out)
		}
		if err := filepath.WalkDir(around, func(path string, d os.DirEntry, err error) error {
			if !d.IsDir() {
				t.Errorf("%s was written", path)
			}
			return err
		}); err != nil {
			t.Fatal(err)
		}
	}
}

// check tells every fault and reads single files by the rules of their shelf.
func TestCardsCheck(t *testing.T) {
	if out, code := said(t, "cards", "check", demoShelf, "../testdata/shelves/general"); code != 0 || !strings.HasSuffix(out, "nothing found.\n") {
		t.Error(code, out)
	}
	if out, code := said(t, "cards", "check", demoShelf+"/limits-t7a.yaml"); code != 0 || out != "1 card looked at, nothing found.\n" {
		t.Error(code, out)
	}
	dir := copied(t, demoShelf)
	edit(t, filepath.Join(dir, "limits-t7a.yaml"), "demo: true", "demo: false")
	if out, code := said(t, "cards", "check", filepath.Join(dir, "limits-t7a.yaml")); code != 1 || !strings.Contains(out, "limits-t7a.yaml:9:1: This shelf is invented, and the card doesn’t say so. Write demo: true.\n") {
		t.Error(code, out)
	}
	for _, args := range [][]string{{"cards"}, {"cards", "fly"}, {"cards", "check"}, {"cards", "json"}, {"cards", "import", demoShelf}, {"cards", "import", "-as", "a", "-shelf", "b"}} {
		if out, code := said(t, args...); code != 2 {
			t.Errorf("%q: %d %s", args, code, out)
		}
	}
}
