package simulate

import (
	"flag"
	"fmt"
	"runtime"
	"testing"
	"time"

	"linkrod/sync"
)

var (
	seedFlag  = flag.Uint64("seed", 0, "run this one world, and with -v tell it step by step")
	seedsFlag = flag.Uint64("seeds", 0, "run this many worlds (0: a fixed set)")
	stopFlag  = flag.Int("stop", 5, "stop after so many that fail")
	fromFlag  = flag.Uint64("from", 1, "the first of them")
)

// slowly: built with the race detector, which costs ten times the time.
var slowly bool

// run lets a world happen: trouble, then peace.
func (w *world) run() {
	for range 80 + w.dice.IntN(140) {
		w.step()
		if len(w.trouble) > 0 {
			return
		}
	}
	w.heal()
	if len(w.trouble) == 0 {
		w.checkQuiet()
	}
}

// heal ends the faults and lets everybody talk until there is nothing to say.
func (w *world) heal() {
	w.logf("peace")
	w.faults = faults{}
	w.server.full = false
	for _, id := range w.books {
		if w.server.data.books[id] == nil && !w.ownerHas(id) {
			// Nobody's phone is left whose it was: the host makes it again.
			w.server.handle(request{account: sync.ID{1}, method: "PUT", path: "books/" + id.String()})
		}
	}
	for len(w.net) > 0 && len(w.trouble) == 0 { // what is still on its way
		w.deliver(0)
	}
	for i := range 12 {
		w.invite()
		before := w.fingerprint()
		for _, p := range w.phones {
			if p.gone {
				continue
			}
			p.tabs[0].begin()
			for len(w.net) > 0 {
				w.deliver(0)
				if len(w.trouble) > 0 {
					return
				}
			}
		}
		if w.fingerprint() == before {
			return
		}
		if i == 5 && w.dice.IntN(2) == 0 {
			for _, id := range w.books {
				if b := w.server.data.books[id]; b != nil {
					w.admit(b, 100)
				}
			}
		}
	}
	w.wrong("S9: twelve rounds in peace, and still something changes")
}

// ownerHas reports that a phone of the owner's has something of a book.
func (w *world) ownerHas(id sync.ID) bool {
	for _, p := range w.phones {
		if !p.gone && p.account == (sync.ID{1}) && p.store.books[id] != nil && len(p.store.books[id].rows) > 0 {
			return true
		}
	}
	return false
}

func (w *world) fingerprint() string {
	out := ""
	for _, id := range w.books {
		if b := w.server.data.books[id]; b != nil {
			out += b.head().Chain.String() + fmt.Sprint(len(b.aside), len(b.offered))
		}
		for _, p := range w.phones {
			for _, r := range p.store.book(id).sorted() {
				out += string(r.At) + r.Hash.String()[:8]
			}
			out += p.store.book(id).device(id).Head.Chain.String()
		}
	}
	return out
}

// result is what a world came to, for S10.
func (w *world) result() (out string) {
	for _, id := range w.books {
		if b := w.server.data.books[id]; b != nil {
			out += b.head().Chain.String() + "\n" + viewOf(b.records).text
		}
	}
	return out
}

// holds runs the world of a seed and says what went wrong.
func holds(seed uint64, log func(string)) (steps int, trouble []string) {
	w := newWorld(seed, false)
	w.log = log
	defer func() {
		if p := recover(); p != nil {
			w.wrong("panic: %v", p)
			trouble = w.trouble
			if log != nil {
				panic(p)
			}
		}
	}()
	w.run()
	if len(w.trouble) == 0 && seed%8 == 0 {
		twin := newWorld(seed, true)
		twin.run()
		w.trouble = append(w.trouble, twin.trouble...)
		if w.result() != twin.result() {
			w.wrong("S10: with right clocks the book is another")
		}
	}
	return w.steps, w.trouble
}

func TestWorld(t *testing.T) {
	if *seedFlag != 0 {
		_, trouble := holds(*seedFlag, func(s string) { t.Log(s) })
		for _, s := range trouble {
			t.Error(s)
		}
		return
	}
	n := *seedsFlag
	if n == 0 {
		n = 1500
		if runtime.GOARCH == "wasm" || slowly || testing.Short() {
			n = 100
		}
	}
	began, steps, failed := time.Now(), 0, 0
	for seed := *fromFlag; seed < *fromFlag+n; seed++ {
		ran, trouble := holds(seed, nil)
		steps += ran
		if len(trouble) > 0 {
			t.Errorf("seed %d: %s", seed, trouble[0])
			if failed++; failed >= *stopFlag {
				break
			}
		}
	}
	took := time.Since(began).Seconds()
	t.Logf("seeds %d to %d: %d steps in %.0f s, %.0f steps a second", *fromFlag, *fromFlag+n-1, steps, took, float64(steps)/took)
}

// One seed decides everything: the same world twice is the same world.
func TestSeedDecides(t *testing.T) {
	for seed := uint64(1); seed <= 5; seed++ {
		a, b := newWorld(seed, false), newWorld(seed, false)
		a.run()
		b.run()
		if a.result() != b.result() || a.steps != b.steps || a.fingerprint() != b.fingerprint() {
			t.Errorf("seed %d is two worlds", seed)
		}
	}
}
