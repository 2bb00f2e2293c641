package book

import (
	"os"
	"testing"

	"linkrod/radial/card"
	"linkrod/radial/card/cardtext"
	"linkrod/sync/plain"
)

var demoShelf *card.Shelf

// laid puts the demo shelf's cards beside a book, as the phone does it.
func laid(t testing.TB, b *Book) {
	t.Helper()
	if demoShelf == nil {
		d, err := cardtext.ReadFolder(os.DirFS("../../testdata/shelves/demo"), "demo")
		if err != nil {
			t.Fatal(err)
		}
		v, err := plain.Parse(d.Bundle())
		if err != nil {
			t.Fatal(err)
		}
		s, err := card.ReadBundle(v)
		if err != nil {
			t.Fatal(err)
		}
		demoShelf = &s
	}
	var pins, sheets plain.Writer
	b.WritePins(&pins)
	p, _ := plain.Parse(pins.Bytes())
	card.WriteSheets(&sheets, b.ForCards(), []*card.Shelf{demoShelf}, p.Items())
	v, err := plain.Parse(sheets.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	b.Lay(v)
}
