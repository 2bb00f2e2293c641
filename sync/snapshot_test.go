package sync

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
)

// The snapshot that testdata/wire/ledger.py wrote is the ledger that vectors.py
// wrote, record for record.
func TestSnapshotOfAnotherProgram(t *testing.T) {
	v := wireVectors(t)
	s, err := DecodeSnapshot(wireFile(t, "snapshot-1.json"), v.Entries[0].Book)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(s.Records, v.Records) {
		t.Errorf("read as %+v", s.Records)
	}
	if len(s.Receipts) != 1 || s.Receipts[0].Chain != s.Head.Chain {
		t.Errorf("receipts %+v", s.Receipts)
	}
}

// anyLedger is a ledger as odd as it may be: gaps and late numbers, bytes that
// are no text, kinds of the future, clocks before the flood.
func anyLedger(seed uint64, n int) (records []Record) {
	r := rand.New(rand.NewPCG(seed, 7))
	last := map[ID]uint64{}
	var head Head
	for range n {
		device := ID{byte(1 + r.IntN(3))}
		last[device] += uint64(1 + r.IntN(2)*r.IntN(4))
		e := Entry{Device: device, N: last[device], Book: ID{0xb0}, Kind: []Kind{Fact, Fact, Strike, Settle, "weave"}[r.IntN(5)],
			Body: []byte([]string{`{"type":"note"}`, "", "\xff\x00", "“é”\u2028\n"}[r.IntN(4)]), Seen: uint64(r.IntN(n)), Schema: r.IntN(3),
			Clock: Clock{Wall: r.Int64N(MaxNumber) - MaxNumber/2, Zone: r.IntN(1500) - 700}}
		if r.IntN(3) == 0 {
			e.Prev = Hash{byte(r.IntN(256))}
		} else if len(records) > 0 {
			e.Prev = records[len(records)-1].Entry.Hash
		}
		if e.Kind != Fact && e.Kind != "weave" {
			e.Refs = []Ref{{ID{9}, uint64(1 + r.IntN(5))}}
		}
		e.Hash = e.Sum()
		account, received := ID{0xac, byte(r.IntN(2))}, r.Int64N(MaxNumber)-MaxNumber/2
		head = head.Next(e.Hash, account, received)
		records = append(records, Record{Seq: head.Seq, Received: received, Account: account, Author: fmt.Sprint("A ", r.IntN(3)), Chain: head.Chain, Entry: e})
	}
	return records
}

// Snapshot and tail are the full replay, cut anywhere.
func TestSnapshotAndTail(t *testing.T) {
	for _, seed := range seeds(60) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			records := anyLedger(seed, int(seed%40))
			cut := int(seed*7) % (len(records) + 1)
			s, err := DecodeSnapshot(EncodeSnapshot(ID{0xb0}, records[:cut], nil, 0), ID{0xb0})
			if err != nil {
				t.Fatal(err)
			}
			if got := append(s.Records, records[cut:]...); len(got) != len(records) || len(got) > 0 && !reflect.DeepEqual(got, records) {
				t.Errorf("cut at %d of %d: %+v\nwant %+v", cut, len(records), got, records)
			}
			if head, err := Follow(s.Head, records[cut:]); err != nil || len(records) > 0 && head.Chain != records[len(records)-1].Chain {
				t.Errorf("the tail does not follow: %v", err)
			}
		})
	}
}

// Nothing in a snapshot is trusted: whatever is changed, it does not lead where
// it says.
func TestSnapshotRefuses(t *testing.T) {
	book := ID{0xb0}
	good := string(EncodeSnapshot(book, anyLedger(3, 9), nil, 0))
	for _, c := range []struct{ story, old, new, words string }{
		{"cut short", `}`, ``, "not whole"},
		{"of another kind", `"snapshot"`, `"everything"`, "not a snapshot"},
		{"of a newer version", `"version":1`, `"version":2`, "version 2"},
		{"of another book", `"book":"b0`, `"book":"b1`, "not a snapshot of this book"},
		{"a body changed", `é`, `è`, "not where it says"},
		{"a column missing", `"schema":`, `"skema":`, "can't be read"},
		{"an index beyond the table", `"account":[`, `"account":[7,`, "can't be read"},
		{"a head that says more", `"seq":9`, `"seq":8`, "not where it says"},
		{"an id that is none", `"devices":["`, `"devices":["x`, "id in the snapshot"},
	} {
		text := strings.Replace(good, c.old, c.new, 1)
		if text == good {
			t.Fatalf("%s: nothing to replace in %s", c.story, good)
		}
		if _, err := DecodeSnapshot([]byte(text), book); err == nil || !strings.Contains(err.Error(), c.words) {
			t.Errorf("%s: %v, want words with %q", c.story, err, c.words)
		}
	}
}

// Between two receipts lies never more than one salvage may hold, and the last
// is of the end.
func TestPageEnds(t *testing.T) {
	if ends := PageEnds(nil); ends != nil {
		t.Errorf("of nothing: %v", ends)
	}
	small, _ := shelved(pageRecords)
	large := make([]Record, 100)
	for i := range large {
		large[i] = Record{Seq: uint64(i + 1), Entry: Entry{Body: make([]byte, MaxBody)}}
	}
	for _, c := range []struct {
		story   string
		records []Record
		ends    int
	}{{"many", small, 2}, {"large", large, 5}, {"one", small[:1], 1}} {
		ends := PageEnds(c.records)
		if len(ends) != c.ends || ends[len(ends)-1].Seq != uint64(len(c.records)) {
			t.Errorf("%s: %v, want %d", c.story, ends, c.ends)
		}
		from := uint64(0)
		for _, h := range ends {
			bytes := 0
			for _, r := range c.records[from:h.Seq] {
				bytes += weight(r)
			}
			if h.Seq-from > pageRecords || bytes > pageBytes {
				t.Errorf("%s: %d records, %d bytes", c.story, h.Seq-from, bytes)
			}
			from = h.Seq
		}
	}
}

func FuzzDecodeSnapshot(f *testing.F) {
	book := wireVectors(f).Entries[0].Book
	f.Add(wireFile(f, "snapshot-1.json"))
	for seed := range uint64(4) {
		f.Add(EncodeSnapshot(ID{0xb0}, anyLedger(seed, 5), nil, 0))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		for _, book := range []ID{book, {0xb0}} {
			s, err := DecodeSnapshot(data, book)
			if err != nil {
				continue
			}
			if head, err := Follow(Head{}, s.Records); err != nil || head != s.Head {
				t.Errorf("read, and it does not follow: %v", err)
			}
			again, err := DecodeSnapshot(EncodeSnapshot(book, s.Records, s.Receipts, 0), book)
			if err != nil || len(s.Records) > 0 && !reflect.DeepEqual(again.Records, s.Records) {
				t.Errorf("written again it is another: %v", err)
			}
		}
	})
}
