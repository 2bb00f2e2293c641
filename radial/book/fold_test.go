package book

import (
	"math/rand/v2"
	"os"
	"strings"
	"testing"
)

// A book that takes its entries one by one says what one says that is opened with all of them:
// at every step, for the demo engines with both chapters, and for a made-up book.
func TestFoldingSaysTheSame(t *testing.T) {
	books := map[string][]Record{"long": longBook(400)}
	for _, name := range []string{"e1", "e2", "e3"} {
		_, f := demo(t, name)
		data, err := os.ReadFile("../../testdata/demo/next/" + name + ".json")
		if err != nil {
			t.Fatal(err)
		}
		next, err := ReadFixture(data)
		if err != nil {
			t.Fatal(err)
		}
		books[name] = f.Records(next)
	}
	for name, rs := range books {
		b, folded := Open(rs[:1]), 0
		for i, r := range rs[1:] {
			was := b
			if b = b.With(r); b == was {
				folded++
			}
			if i%7 != 0 && i < len(rs)-2 {
				continue
			}
			now := Now{Day: "2026-03-01"}
			want := Open(rs[:i+2])
			one, all := b.View("x", now), want.View("x", now)
			if string(one.JSON()) != string(all.JSON()) {
				t.Fatalf("%s, entry %d: %s", name, i+2, difference(string(one.JSON()), string(all.JSON())))
			}
		}
		t.Logf("%s: %d of %d entries folded in", name, folded, len(rs)-1)
		if folded < len(rs)/2 {
			t.Errorf("%s: only %d of %d were folded in", name, folded, len(rs))
		}
	}
}

// Two phones write, their entries are numbered later, in any order the ledger may take them: the
// same book comes out as of the same records opened at once.
func TestFoldingAndNumbering(t *testing.T) {
	base := longBook(40)
	more := longBook(52)[40:]
	rnd := rand.New(rand.NewPCG(7, 7))
	for range 60 {
		b := Open(base)
		have := append([]Record(nil), base...)
		n := map[string]int{}
		seq := len(base)
		for _, r := range more {
			device := []string{"aa", "bb"}[rnd.IntN(2)]
			n[device]++
			r.Entry.Device, r.Entry.N, r.Entry.Seen, r.Seq = device, n[device], seq, 0
			have = append(have, r)
			b = b.With(r)
			if rnd.IntN(2) == 0 { // the ledger takes one that waits
				var waiting []int
				for i, h := range have {
					if h.Seq == 0 && (i == len(have)-1 || true) {
						waiting = append(waiting, i)
					}
				}
				for _, i := range waiting {
					first := true // of its device
					for _, j := range waiting {
						first = first && !(have[j].Entry.Device == have[i].Entry.Device && have[j].Entry.N < have[i].Entry.N)
					}
					if first && rnd.IntN(2) == 0 {
						seq++
						have[i].Seq = seq
						b = b.With(have[i])
						break
					}
				}
			}
			want := Open(have)
			one, all := b.View("x", Now{Day: "2006-01-01"}), want.View("x", Now{Day: "2006-01-01"})
			if string(one.JSON()) != string(all.JSON()) {
				t.Fatalf("after %d entries: %s", len(have), difference(string(one.JSON()), string(all.JSON())))
			}
		}
	}
}

// A look at what would be leaves the book as it is.
func TestThenChangesNothing(t *testing.T) {
	b, f := demo(t, "e2")
	v := b.View(f.Book, Now{})
	before := string(v.JSON())
	for range 3 {
		then, lines := b.then([]byte(`{"type":"oil","hours":{"v":"543.0","u":"h"},"level":{"v":"14","u":"qt"},"day":"2025-11-10"}`),
			[]byte(`{"type":"oil","hours":{"v":"544.0","u":"h"},"level":{"v":"13.5","u":"qt"},"day":"2025-11-11"}`))
		if len(then.lines) != len(b.lines)+2 || lines[1].answer != len(then.answers.all)-1 {
			t.Fatalf("%d lines, answer %d of %d", len(then.lines), lines[1].answer, len(then.answers.all))
		}
	}
	v = b.View(f.Book, Now{})
	if after := string(v.JSON()); after != before {
		t.Error(difference(after, before))
	}
}

func difference(a, b string) string {
	i := 0
	for i < len(a) && i < len(b) && a[i] == b[i] {
		i++
	}
	from := max(0, i-80)
	return "…" + strings.TrimSpace(a[from:min(len(a), i+80)]) + "… against …" + b[from:min(len(b), i+80)] + "…"
}
