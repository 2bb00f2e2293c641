package book

import (
	"os"
	"path/filepath"
	"testing"

	"linkrod/sync/plain"
)

// Whatever a body holds, it is refused with a sentence or it is kept: it comes back as it was
// read, reads aloud, and the book with it can be shown, drawn and judged.
func FuzzFacts(f *testing.F) {
	files, _ := filepath.Glob("../../testdata/wire/book-*.json")
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	if len(files) < 30 {
		f.Fatalf("%d examples", len(files))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		body, err := Decode(data)
		if err == nil {
			if again, err2 := Decode(Encode(body)); err2 != nil || again.Say() != body.Say() {
				t.Errorf("%q came back as %v, %v", data, again, err2)
			}
		}
		p := &phone{t: t, device: "aa"}
		p.setting("cylinders", `"7"`)
		p.setting("master", `"1"`)
		p.setting("model", `"T7-B"`)
		records := append(p.records, Record{Entry: Entry{Device: "aa", N: 4, Kind: "fact", Body: data}})
		b := Open(records)
		laid(t, b)
		v := b.View("x", Now{Day: "2025-11-09"})
		if _, err := plain.Parse(v.JSON()); err != nil {
			t.Errorf("%q: the view is %v", data, err)
		}
		for _, m := range []string{"clearances", "hours", "drained", "plugs", "findings"} {
			b.Ring(m, Now{Day: "2025-11-09"})
		}
		var w plain.Writer
		b.WriteCylinder(&w, 6, Now{}, []*Book{b})
	})
}

// A form takes whatever is typed into it.
func FuzzForm(f *testing.F) {
	for _, c := range wrongs {
		f.Add(c.kind, c.typed)
	}
	b, _ := demo(f, "e2")
	laid(f, b)
	f.Fuzz(func(t *testing.T, kind, typed string) {
		v, err := plain.Parse([]byte(typed))
		if err != nil {
			return
		}
		form, err := b.Form(kind, v, "Ann", Now{Day: "2025-11-09"})
		if err != nil {
			return
		}
		var w plain.Writer
		form.Write(&w)
		if _, err := plain.Parse(w.Bytes()); err != nil {
			t.Errorf("%s %q: %v", kind, typed, err)
		}
		if body := form.out.Entry.Body; body != nil {
			if _, err := Decode(body); err != nil {
				t.Errorf("%s %q is saved as %s: %v", kind, typed, body, err)
			}
		}
	})
}
