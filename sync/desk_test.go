package sync

import (
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

var seedFlag = flag.Uint64("seed", 0, "run the random tests with this one seed (0: a fixed set)")

// seeds gives the seeds a random test runs with. Each runs as a subtest named
// after it, so a failure prints the seed.
func seeds(n uint64) []uint64 {
	if *seedFlag != 0 {
		return []uint64{*seedFlag}
	}
	var all []uint64
	for s := range n {
		all = append(all, s+1)
	}
	return all
}

// ledger is the dumbest store there is: it gives the desk what it needs for
// one device and keeps what comes out.
type ledger struct {
	head    Head
	records []Record
	turns   map[ID]map[uint64]Turn
	last    map[ID]uint64
	check_  func(Entry) *Fault
	hold    *Fault
	clock   int64
}

func newLedger() *ledger {
	return &ledger{turns: map[ID]map[uint64]Turn{}, last: map[ID]uint64{}}
}

func (l *ledger) push(sent []Sent) []Result {
	if len(sent) == 0 {
		return nil
	}
	device := sent[0].Entry.Device
	turns := l.turns[device]
	if turns == nil {
		turns = map[uint64]Turn{}
		l.turns[device] = turns
	}
	out := Desk{Account: ID{0xac}, Author: "A. Mechanic", Received: l.clock, Head: l.head,
		Last: l.last[device], LastHash: turns[l.last[device]].Hash, Turns: turns,
		Check: l.check_, Hold: l.hold}.Take(sent)
	l.records = append(l.records, out.Records...)
	l.head = out.Head
	for _, r := range out.Records {
		turns[r.Entry.N] = Turn{Hash: r.Entry.Hash, Seq: r.Seq}
		l.last[device] = max(l.last[device], r.Entry.N)
	}
	for _, a := range out.Aside {
		turns[a.N] = Turn{Hash: a.Hash, State: a.State, Fault: a.Fault}
		l.last[device] = max(l.last[device], a.N)
	}
	return out.Results
}

// check asserts L1 to L4.
func (l *ledger) check(t *testing.T) {
	t.Helper()
	if head, err := Follow(Head{}, l.records); err != nil || head != l.head {
		t.Errorf("L1, L2: %v; head %+v, want %+v", err, head, l.head)
	}
	seen := map[Ref]uint64{}
	last := map[ID]uint64{}
	for _, r := range l.records {
		key := Ref{r.Entry.Device, r.Entry.N}
		if at, twice := seen[key]; twice {
			t.Errorf("L3: entry %d stands at %d and at %d", key.N, at, r.Seq)
		}
		seen[key] = r.Seq
		for n := last[key.Device] + 1; n < key.N; n++ {
			if turn := l.turns[key.Device][n]; turn.Seq != 0 || turn.State == "" {
				t.Errorf("L4: entry %d is in the ledger and %d is neither there nor set aside", key.N, n)
			}
		}
		if key.N <= last[key.Device] {
			t.Errorf("L4: entry %d came after %d", key.N, last[key.Device])
		}
		last[key.Device] = key.N
	}
}

// written makes the first entries of a device, as its phone would.
func written(device ID, from, to uint64, prev Hash, body string) []Entry {
	var list []Entry
	for n := from; n <= to; n++ {
		e, err := Seal(Entry{Device: device, N: n, Book: ID{0xb0}, Prev: prev, Kind: Fact,
			Body: fmt.Appendf(nil, `{"type":"note","text":"%s %d"}`, body, n)})
		if err != nil {
			panic(err)
		}
		list, prev = append(list, e), e.Hash
	}
	return list
}

func sent(entries ...Entry) []Sent {
	var list []Sent
	for _, e := range entries {
		raw, _ := json.Marshal(e)
		s := Sent{Entry: e, Raw: raw}
		if f, bad := e.Verify().(*Fault); bad {
			s.Fault = f
		}
		list = append(list, s)
	}
	return list
}

func states(results []Result) string {
	var list []string
	for _, r := range results {
		s := fmt.Sprintf("%d %s", r.N, r.State)
		if r.Seq > 0 {
			s += fmt.Sprintf("@%d", r.Seq)
		}
		if r.From > 0 {
			s += fmt.Sprintf(" from %d", r.From)
		}
		list = append(list, s)
	}
	return strings.Join(list, ", ")
}

// The adversities one device can bring, each with a sentence for a name.
func TestTake(t *testing.T) {
	phone := ID{1}
	five := written(phone, 1, 5, Hash{}, "five")
	damaged := five[2]
	damaged.Body = []byte("{}")
	copied := written(phone, 3, 4, five[1].Hash, "the copy's")
	orphan := written(phone, 6, 6, Hash{9}, "follows something else")

	for _, test := range []struct {
		name    string
		check   func(Entry) *Fault
		hold    *Fault
		batches [][]Sent
		want    []string
	}{
		{name: "a batch in order is taken",
			batches: [][]Sent{sent(five[:3]...)}, want: []string{"1 ok@1, 2 ok@2, 3 ok@3"}},
		{name: "a lost reply: the same batch again is answered as before",
			batches: [][]Sent{sent(five[:2]...), sent(five[:3]...)}, want: []string{"1 ok@1, 2 ok@2", "1 dup@1, 2 dup@2, 3 ok@3"}},
		{name: "one entry twice in one batch",
			batches: [][]Sent{sent(five[0], five[0], five[1], five[0])}, want: []string{"1 ok@1, 1 dup@1, 2 ok@2, 1 dup@1"}},
		{name: "a gap stops the batch and says where to go on",
			batches: [][]Sent{sent(five[0]), sent(five[3], five[4])}, want: []string{"1 ok@1", "4 gap from 2, 5 later"}},
		{name: "a batch in the wrong order stops at its first gap",
			batches: [][]Sent{sent(five[0], five[2], five[1])}, want: []string{"1 ok@1, 3 gap from 2, 2 later"}},
		{name: "a copied phone: same number, other entry",
			batches: [][]Sent{sent(five[:3]...), sent(copied...)}, want: []string{"1 ok@1, 2 ok@2, 3 ok@3", "3 fork, 4 later"}},
		{name: "a copied phone whose next number is free, on another past",
			batches: [][]Sent{sent(five...), sent(orphan...)}, want: []string{"1 ok@1, 2 ok@2, 3 ok@3, 4 ok@4, 5 ok@5", "6 fork"}},
		{name: "an entry damaged on its way is set aside and those behind it arrive",
			batches: [][]Sent{sent(five[0], five[1], damaged, five[3], five[4])}, want: []string{"1 ok@1, 2 ok@2, 3 rejected, 4 ok@3, 5 ok@4"}},
		{name: "a number set aside answers the same way for ever",
			batches: [][]Sent{sent(five[0], five[1], damaged), sent(five[2], five[3])}, want: []string{"1 ok@1, 2 ok@2, 3 rejected", "3 rejected, 4 ok@3"}},
		{name: "a damaged copy of what arrived is still a duplicate",
			batches: [][]Sent{sent(five[:3]...), sent(damaged)}, want: []string{"1 ok@1, 2 ok@2, 3 ok@3", "3 dup@3"}},
		{name: "a body the book can't read",
			check: func(e Entry) *Fault {
				if e.N == 2 {
					return &Fault{Code: CodeBody, Words: "It is no JSON."}
				}
				return nil
			},
			batches: [][]Sent{sent(five[:3]...)}, want: []string{"1 ok@1, 2 rejected, 3 ok@2"}},
		{name: "an author who may only read",
			hold:    &Fault{Code: CodeRole, Words: "You may read this book."},
			batches: [][]Sent{sent(five[:2]...), sent(five[:2]...)}, want: []string{"1 held, 2 held", "1 held, 2 held"}},
		{name: "a fork writes nothing behind it",
			batches: [][]Sent{sent(five[:2]...), sent(copied[1], five[2])}, want: []string{"1 ok@1, 2 ok@2", "4 gap from 3, 3 later"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			l := newLedger()
			l.check_, l.hold = test.check, test.hold
			for i, b := range test.batches {
				results := l.push(b)
				if got := states(results); got != test.want[i] {
					t.Errorf("batch %d: %s\nwant     %s", i+1, got, test.want[i])
				}
				for _, r := range results {
					if done := r.State == OK || r.State == Dup; !done && !strings.HasSuffix(r.Words, ".") {
						t.Errorf("entry %d is %s and no sentence says why: %q", r.N, r.State, r.Words)
					}
				}
			}
			l.check(t)
		})
	}
}

// A hundred entries, one of them poisoned in the middle: ninety-nine arrive,
// one is in the tray with its words (D4).
func TestOnePoisonedEntryInAHundred(t *testing.T) {
	hundred := written(ID{1}, 1, 100, Hash{}, "n")
	batch := sent(hundred...)
	batch[49].Fault = &Fault{Code: CodeShape, Words: "The entry's field \"refs\" can't be read."}
	l := newLedger()
	results := l.push(batch)
	l.check(t)
	done := 0
	for _, r := range results {
		if r.State == OK {
			done++
		} else if r.N != 50 || r.State != Rejected || r.Words == "" {
			t.Errorf("answered %+v, want entry 50 alone set aside, with words", r)
		}
	}
	if len(l.records) != 99 || done != 99 {
		t.Errorf("%d in the ledger and %d done, want 99", len(l.records), done)
	}
}

// Three phones send what they wrote in random pieces, again and again, some
// replies and some requests get lost, some entries are poisoned. Whatever
// happened on the way, the ledger of each phone's entries is that of a phone
// that sent everything once (D1), and every phone believes exactly what the
// ledger holds.
func TestAnySplitAnyRepetitionSameLedger(t *testing.T) {
	for _, seed := range seeds(100) {
		t.Run(fmt.Sprint("seed=", seed), func(t *testing.T) {
			rnd := rand.New(rand.NewPCG(seed, 1))
			poisoned := map[Hash]bool{}
			check := func(e Entry) *Fault {
				if poisoned[e.Hash] {
					return &Fault{Code: CodeBody, Words: "Poisoned."}
				}
				return nil
			}
			phones := make([]*phone, 3)
			for i := range phones {
				p := &phone{id: ID{byte(i + 1)}, state: map[uint64]State{}}
				p.wrote = written(p.id, 1, uint64(1+rnd.IntN(30)), Hash{}, "r")
				for _, e := range p.wrote {
					poisoned[e.Hash] = rnd.IntN(8) == 0
				}
				phones[i] = p
			}
			l := newLedger()
			l.check_ = check
			for step := 0; step < 10_000 && !allDone(phones); step++ {
				l.clock = int64(step)
				phones[rnd.IntN(len(phones))].send(t, l, rnd)
				if step%20 == 0 {
					l.check(t)
				}
			}
			l.check(t)
			if !allDone(phones) {
				t.Fatal("not everything arrived in 10,000 steps")
			}
			for _, p := range phones {
				straight := newLedger()
				straight.check_ = check
				straight.push(sent(p.wrote...))
				var got, want []Hash
				for _, r := range l.records {
					if r.Entry.Device == p.id {
						got = append(got, r.Entry.Hash)
					}
				}
				for _, r := range straight.records {
					want = append(want, r.Entry.Hash)
				}
				if !slices.Equal(got, want) {
					t.Errorf("phone %v: %d entries in the ledger, %d when sent once", p.id[0], len(got), len(want))
				}
				for _, e := range p.wrote {
					if turn := l.turns[p.id][e.N]; (turn.Seq > 0) != (p.state[e.N] == OK) {
						t.Errorf("phone %v believes entry %d is %q, the ledger has seq %d", p.id[0], e.N, p.state[e.N], turn.Seq)
					}
				}
			}
		})
	}
}

// phone is a device side with nothing but what it wrote and what it heard.
type phone struct {
	id    ID
	wrote []Entry
	state map[uint64]State // OK, Rejected; absent: still to go
}

// send pushes a random piece of what is still to go (sometimes with things
// that have long arrived, sometimes not from the start), and loses one
// message in four: the request or the reply.
func (p *phone) send(t *testing.T, l *ledger, rnd *rand.Rand) {
	first := 0
	for first < len(p.wrote) && p.state[uint64(first+1)] != "" {
		first++
	}
	from := max(0, first-rnd.IntN(4)+rnd.IntN(2))
	if from >= len(p.wrote) {
		return
	}
	piece := p.wrote[from : from+1+rnd.IntN(len(p.wrote)-from)]
	if rnd.IntN(8) == 0 {
		return // the request is lost
	}
	results := l.push(sent(piece...))
	if rnd.IntN(8) == 0 {
		return // the reply is lost
	}
	for _, r := range results {
		switch r.State {
		case OK, Dup:
			p.state[r.N] = OK
			if turn := l.turns[p.id][r.N]; turn.Seq != r.Seq {
				t.Errorf("phone %v was told seq %d for entry %d, the ledger has %d", p.id[0], r.Seq, r.N, turn.Seq)
			}
		case Rejected, Held:
			p.state[r.N] = r.State
		case Fork:
			t.Fatalf("phone %v was told it is a copy: %s", p.id[0], r.Words)
		case Gap:
			if r.From != uint64(first+1) && p.state[r.From] != "" {
				t.Errorf("phone %v is asked for entry %d, which it was told is settled", p.id[0], r.From)
			}
		}
	}
}

func allDone(phones []*phone) bool {
	for _, p := range phones {
		if len(p.state) < len(p.wrote) {
			return false
		}
	}
	return true
}
