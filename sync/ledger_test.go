package sync

import (
	"errors"
	"testing"
)

// Ensure that a ledger with any one thing changed is noticed at that place
// (L1, L2), and what came before is kept.
func TestFollowNotices(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func([]Record) []Record
		code   string
		good   uint64
	}{
		{"a record left out", func(r []Record) []Record { return append(r[:1], r[2]) }, CodeChain, 1},
		{"two records swapped", func(r []Record) []Record { r[1], r[2] = r[2], r[1]; return r }, CodeChain, 1},
		{"a record twice", func(r []Record) []Record { return []Record{r[0], r[0]} }, CodeChain, 1},
		{"another number on it", func(r []Record) []Record { r[1].Seq = 3; return r }, CodeChain, 1},
		{"another author", func(r []Record) []Record { r[1].Account[0]++; return r }, CodeChain, 1},
		{"another time", func(r []Record) []Record { r[0].Received++; return r }, CodeChain, 0},
		{"another hash", func(r []Record) []Record { r[2].Entry.Hash[0]++; return r }, CodeChain, 2},
		{"another body under the old hash", func(r []Record) []Record { r[1].Entry.Body = []byte("{}"); return r }, CodeHash, 1},
	} {
		records := test.change(wireVectors(t).Records)
		head, err := Follow(Head{}, records)
		var f *Fault
		if !errors.As(err, &f) || f.Code != test.code || head.Seq != test.good {
			t.Errorf("%s: %v at %d, want code %q at %d", test.name, err, head.Seq, test.code, test.good)
		}
	}
}

// Ensure following in pieces is following at once.
func TestFollowInPieces(t *testing.T) {
	records := wireVectors(t).Records
	var head Head
	for i := range records {
		var err error
		if head, err = Follow(head, records[i:i+1]); err != nil {
			t.Fatal(err)
		}
	}
	whole, _ := Follow(Head{}, records)
	if head != whole {
		t.Errorf("in pieces %+v, at once %+v", head, whole)
	}
	if none, err := Follow(whole, nil); none != whole || err != nil {
		t.Errorf("nothing new: %+v, %v", none, err)
	}
}
