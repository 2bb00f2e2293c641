package sync

import (
	"bytes"
	"crypto/ed25519"
	hexes "encoding/hex"
	"encoding/json"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"
)

func wireFile(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile("../testdata/wire/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// The bytes signed are those of testdata/wire/ledger.py, and OpenSSL's signature
// under them is good by the key of RFC 8032, section 7.1.
func TestReceiptIsWhatAnotherProgramSigned(t *testing.T) {
	var file struct {
		Receipt         Receipt
		Message, Public string
	}
	if err := json.Unmarshal(wireFile(t, "receipt-1.json"), &file); err != nil {
		t.Fatal(err)
	}
	if got := hexes.EncodeToString(file.Receipt.Message()); got != file.Message {
		t.Errorf("signed are\n%s\nwant\n%s", got, file.Message)
	}
	public, _ := hexes.DecodeString(file.Public)
	if !ed25519.Verify(public, file.Receipt.Message(), file.Receipt.Sig) {
		t.Error("the signature is not good")
	}
	read, err := ReadReceipt(parsed(t, file.Receipt))
	if err != nil || !reflect.DeepEqual(read, file.Receipt) {
		t.Errorf("read as %+v, %v", read, err)
	}
	for _, change := range []func(*Receipt){
		func(r *Receipt) { r.Seq++ }, func(r *Receipt) { r.Received-- }, func(r *Receipt) { r.Chain[0] ^= 1 }, func(r *Receipt) { r.Book[15] ^= 1 },
	} {
		other := file.Receipt
		change(&other)
		if ed25519.Verify(public, other.Message(), other.Sig) {
			t.Errorf("%+v is signed too", other)
		}
	}
}

func TestDecodeSalvage(t *testing.T) {
	v := wireVectors(t)
	data := wireFile(t, "salvage-1.json")
	s, err := DecodeSalvage(data, v.Entries[0].Book)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(s.Records, v.Records[1:]) || s.After.Chain != v.Records[0].Chain || !s.reaches() {
		t.Errorf("read as %+v", s)
	}
	for _, c := range []struct{ story, old, new, words string }{
		{"cut short", `}`, ``, "not whole"},
		{"of another book", `"book": "0011`, `"book": "1111`, "checksum"},
		{"a damaged body", `"body": "ey`, `"body": "fy`, "checksum"},
		{"no list", `"records": [`, `"records": 7, "x": [`, "must be a list"},
		{"a receipt that is none", `"seq": 3`, `"seq": "3"`, "receipt"},
		{"no position", `"after"`, `"before"`, "position"},
	} {
		text := strings.Replace(string(data), c.old, c.new, 1)
		if c.story == "of another book" {
			text = strings.ReplaceAll(string(data), c.old, c.new)
		}
		if _, err := DecodeSalvage([]byte(text), v.Entries[0].Book); err == nil || !strings.Contains(err.Error(), c.words) {
			t.Errorf("%s: %v, want words with %q", c.story, err, c.words)
		}
	}
	if _, err := DecodeSalvage(data, ID{9}); err == nil {
		t.Error("records of another book were taken")
	}
	if _, err := DecodeSalvage(bytes.Repeat([]byte(" "), MaxSalvageBytes+1), ID{9}); err == nil || !strings.Contains(err.Error(), "at most") {
		t.Errorf("a body too long: %v", err)
	}
}

// shelved is a ledger of two devices, by turns.
func shelved(n int) (records []Record, head Head) {
	a, b := written(ID{1}, 1, uint64(n), Hash{}, "a"), written(ID{2}, 1, uint64(n), Hash{}, "b")
	for i := range n {
		for _, e := range []Entry{a[i], b[i]} {
			head = head.Next(e.Hash, ID{0xac}, int64(100*head.Seq))
			records = append(records, Record{Seq: head.Seq, Received: int64(100 * (head.Seq - 1)), Account: ID{0xac}, Author: "A", Chain: head.Chain, Entry: e})
		}
	}
	return records, head
}

func given(t *testing.T, records []Record, from int) Salvage {
	t.Helper()
	s := Salvage{Records: records[from:]}
	if from > 0 {
		s.After = Head{records[from-1].Seq, records[from-1].Chain}
	}
	last := records[len(records)-1]
	s.Receipt = &Receipt{Book: ID{0xb0}, Seq: last.Seq, Chain: last.Chain}
	return s
}

func outcomes(results []SalvageResult) string {
	var list []string
	for _, r := range results {
		list = append(list, states([]Result{{N: r.N, State: r.State, Seq: r.Seq}}))
	}
	return strings.Join(list, ", ")
}

// A ledger that lost its end and gets it back has the same chain (R2), also when
// the page begins with what it never lost (R3).
func TestSalvagePutsTheSameChainBack(t *testing.T) {
	records, head := shelved(3)
	for kept := range len(records) {
		for from := 0; from <= kept; from++ {
			desk := SalvageDesk{Proven: true, Last: map[ID]uint64{}, Turns: map[Ref]Turn{}}
			for _, r := range records[:kept] {
				desk.Head = Head{r.Seq, r.Chain}
				desk.Last[r.Entry.Device] = r.Entry.N
				desk.Turns[Ref{r.Entry.Device, r.Entry.N}] = Turn{Hash: r.Entry.Hash, Seq: r.Seq}
			}
			out := desk.Take(given(t, records, from))
			if out.Head != head || len(out.Records) != len(records)-kept || len(out.Offered)+len(out.Missing) > 0 {
				t.Errorf("kept %d, given from %d: %s", kept, from, outcomes(out.Results))
			}
			if !reflect.DeepEqual(slices.Concat(records[:kept], out.Records), records) {
				t.Errorf("kept %d, given from %d: the records differ", kept, from)
			}
		}
	}
}

func TestSalvage(t *testing.T) {
	records, _ := shelved(2)
	a1, b1, a2 := records[0].Entry, records[1].Entry, records[2].Entry
	key := func(e Entry) Ref { return Ref{e.Device, e.N} }
	for _, c := range []struct {
		story   string
		desk    SalvageDesk
		change  func(*Salvage)
		want    string
		offered int
		missing []uint64
	}{
		{"R1: without a receipt", SalvageDesk{Proven: true}, func(s *Salvage) { s.Receipt = nil }, "1 held, 1 held, 2 held, 2 held", 4, nil},
		{"R1: with a forged one", SalvageDesk{}, nil, "1 held, 1 held, 2 held, 2 held", 4, nil},
		{"R1: with one of another position", SalvageDesk{Proven: true}, func(s *Salvage) { s.Receipt.Seq-- }, "1 held, 1 held, 2 held, 2 held", 4, nil},
		{"R1: with one record exchanged", SalvageDesk{Proven: true}, func(s *Salvage) {
			s.Records = slices.Clone(s.Records)
			s.Records[3].Chain[0] ^= 1
		}, "1 held, 1 held, 2 held, 2 held", 4, nil},
		{"R4: another entry has the number by now", SalvageDesk{Proven: true, Turns: map[Ref]Turn{key(b1): {Hash: Hash{1}, Seq: 9}}, Last: map[ID]uint64{{2}: 1}},
			nil, "1 ok@1, 1 held, 2 ok@2, 2 held", 2, nil},
		{"R4: another entry has the number before it", SalvageDesk{Proven: true, Turns: map[Ref]Turn{key(a1): {Hash: Hash{1}, Seq: 9}}, Last: map[ID]uint64{{1}: 1}},
			func(s *Salvage) { *s = given(t, records, 1) }, "1 ok@1, 2 held, 2 ok@2", 1, nil},
		{"R4: an earlier page found that", SalvageDesk{Proven: true, Apart: map[ID]bool{{2}: true}}, nil, "1 ok@1, 1 held, 2 ok@2, 2 held", 2, nil},
		{"a set-aside entry that was in the ledger once comes back", SalvageDesk{Proven: true,
			Turns: map[Ref]Turn{key(a2): {Hash: a2.Hash, State: Held}}, Last: map[ID]uint64{{1}: 2}}, nil, "1 ok@1, 1 ok@2, 2 ok@3, 2 ok@4", 0, nil},
		{"what it comes past is missing", SalvageDesk{Proven: true}, func(s *Salvage) {
			*s = given(t, records, 2)
		}, "2 ok@1, 2 ok@2", 0, []uint64{1, 1}},
		{"a missing one is filled by what fits", SalvageDesk{Proven: true, Last: map[ID]uint64{{1}: 5},
			Turns: map[Ref]Turn{key(a1): {State: Missing}, key(a2): {State: Missing, Hash: Hash{1}}}}, nil, "1 ok@1, 1 ok@2, 2 held, 2 ok@3", 1, nil},
	} {
		s := given(t, records, 0)
		if c.change != nil {
			c.change(&s)
		}
		out := c.desk.Take(s)
		var missing []uint64
		for _, a := range out.Missing {
			missing = append(missing, a.N)
			if a.State != Missing || a.Hash != a1.Hash && a.Hash != b1.Hash {
				t.Errorf("%s: %+v is not what the next one names", c.story, a)
			}
		}
		if got := outcomes(out.Results); got != c.want || len(out.Offered) != c.offered || !slices.Equal(missing, c.missing) {
			t.Errorf("%s: %s; %d offered, missing %v, want %s; %d, %v", c.story, got, len(out.Offered), missing, c.want, c.offered, c.missing)
		}
		for _, a := range out.Offered {
			var e Entry
			if err := e.UnmarshalJSON(a.Raw); err != nil || e.Hash != a.Hash || a.Fault.Words == "" {
				t.Errorf("%s: offered %+v, %v", c.story, a, err)
			}
		}
	}
}

// D5: a missing number takes the entry that fits it, in its turn or late, and the
// numbers behind it stay as they are.
func TestMissingNumber(t *testing.T) {
	five := written(ID{1}, 1, 5, Hash{}, "five")
	other := written(ID{1}, 1, 2, Hash{}, "other")
	turns := func() map[uint64]Turn {
		return map[uint64]Turn{1: {Hash: five[0].Hash, Seq: 1}, 2: {State: Missing}, 3: {State: Missing, Hash: five[2].Hash}, 4: {Hash: five[3].Hash, Seq: 2}}
	}
	for _, c := range []struct {
		story string
		sent  []Sent
		want  string
	}{
		{"both come", sent(five[1], five[2], five[4]), "2 ok@3, 3 ok@4, 5 ok@5"},
		{"the known one alone", sent(five[2]), "3 ok@3"},
		{"one that does not fit", sent(written(ID{1}, 3, 3, five[1].Hash, "twin")...), "3 fork"},
		{"any, where nothing is known", sent(other[1]), "2 ok@3"},
	} {
		out := Desk{Head: Head{Seq: 2}, Last: 4, LastHash: five[3].Hash, Turns: turns()}.Take(c.sent)
		if got := states(out.Results); got != c.want {
			t.Errorf("%s: %s, want %s", c.story, got, c.want)
		}
	}
	if got := states(Desk{Last: 4, LastHash: five[3].Hash, Turns: turns(), Hold: &Fault{"role", "No."}}.Take(sent(five[1], five[4])).Results); got != "2 held, 5 held" {
		t.Errorf("held in their turn: %s", got)
	}
}

func FuzzDecodeSalvage(f *testing.F) {
	book := wireVectors(f).Entries[0].Book
	f.Add(wireFile(f, "salvage-1.json"))
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := DecodeSalvage(data, book)
		if err != nil {
			return
		}
		if head, err := Follow(s.After, s.Records); err != nil || len(s.Records) > 0 && head.Seq != s.Records[len(s.Records)-1].Seq {
			t.Errorf("what was read does not follow: %v", err)
		}
		if out := (SalvageDesk{Proven: s.Receipt == nil}).Take(s); len(out.Records) > 0 {
			t.Error("R1: taken without a receipt")
		}
	})
}
