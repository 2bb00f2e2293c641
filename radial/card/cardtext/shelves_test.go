package cardtext_test

import (
	"os"
	"path/filepath"
	"testing"

	"linkrod/radial/card/cardtext"
)

const shelves = "../../../testdata/shelves"

// folder reads one of the shelves that ship.
func folder(t testing.TB, name string) cardtext.Folder {
	t.Helper()
	dir := filepath.Join(shelves, name)
	d, err := cardtext.ReadFolder(os.DirFS(dir), dir)
	if err != nil {
		t.Fatal(err)
	}
	if len(d.Files) == 0 {
		t.Fatalf("no card in %s", dir)
	}
	return d
}

// Every card that ships is sound: a number without a source, a limit of a real engine, a
// caution that is missing is a fault.
func TestTheShelvesThatShip(t *testing.T) {
	dirs, err := filepath.Glob(shelves + "/*/shelf.yaml")
	if err != nil || len(dirs) == 0 {
		t.Fatal("no shelf", err)
	}
	for _, dir := range dirs {
		d := folder(t, filepath.Base(filepath.Dir(dir)))
		for _, f := range d.Faults {
			t.Error(f)
		}
	}
}
