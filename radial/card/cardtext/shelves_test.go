package cardtext_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"linkrod/radial/card"
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
		// Nothing ships that could be taken for a real engine's numbers: a shelf is general, and
		// then its rules let no limit in, or invented, and then every card of it says so.
		if d.Rules.General == d.Rules.Demo {
			t.Errorf("%s is neither general nor invented, or both", d.Name)
		}
	}
}

// The general shelf: at least twenty-five cards, each with its sources, each source used.
func TestTheGeneralShelf(t *testing.T) {
	d := folder(t, "general")
	if len(d.Files) < 25 {
		t.Errorf("%d general cards", len(d.Files))
	}
	for _, f := range d.Files {
		c := f.Read.Card
		if len(c.Sources) == 0 {
			t.Errorf("%s has no sources", f.Name)
		}
		for _, s := range c.Sources {
			if !slices.Contains(card.Marks(string(f.Text)), s.Key) && !strings.Contains(string(f.Text), "src: "+s.Key) {
				t.Errorf("%s: nothing is from %s", f.Name, s.Key)
			}
		}
	}
}
