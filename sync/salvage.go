package sync

import (
	"maps"

	"linkrod/sync/plain"
)

// Salvage is a stretch of a ledger that a phone still has and the server, put
// back from a backup, perhaps no longer: the records after a position, and the
// receipt that proves where they led.
type Salvage struct {
	After   Head
	Records []Record // chained anew from After
	Receipt *Receipt // nil: nothing proves them
}

// SalvageResult answers one record of a salvage. The states are OK (put back at
// Seq), Dup (never lost, at Seq) and Held (beside the ledger, for the host).
type SalvageResult struct {
	Device ID     `json:"device"`
	N      uint64 `json:"n"`
	State  State  `json:"state"`
	Seq    uint64 `json:"seq,omitempty"`
	Code   string `json:"code,omitempty"`
	Words  string `json:"words,omitempty"`
}

// SalvageDesk is where a ledger takes back what it lost: all that is known
// about it and the keys of one salvage.
//
// Invariants of [SalvageDesk.Take]:
//
//	R1  Nothing enters the ledger that a receipt does not prove was in it once;
//	    who hands it back adds nothing and changes nothing that a hash or the
//	    chain covers. The author's name, and of the entry what E4 names, are
//	    not covered: the store takes the name from the account.
//	R2  An entry comes back with its account and time. So a ledger that only
//	    lost its end has the same chain again once the end is back.
//	R3  Two phones that put back the same records do it once.
//	R4  What can't come back (unproven, or its key or the one before holds
//	    another entry by now, so that E2 would break) is kept beside the ledger,
//	    and uses up no number: its author may still send it.
type SalvageDesk struct {
	Account  ID    // who hands it back
	Received int64 // milliseconds since 1970

	Head   Head
	Proven bool          // the receipt is for this book and signed by this server
	Last   map[ID]uint64 // of each device in the salvage: its highest number used
	Turns  map[Ref]Turn  // of the keys in the salvage, and the keys before them, that were used
	Apart  map[ID]bool   // devices of which something lies beside the ledger with CodeFork
}

// SalvageOutcome is what a salvage changes and what is answered.
type SalvageOutcome struct {
	Results []SalvageResult
	Records []Record // to append, in order
	Missing []Aside  // numbers below those put back of which nothing is known now
	Offered []Aside  // to keep beside the ledger, by device, number and hash
	Head    Head     // afterwards
}

// Take decides about a salvage, record by record.
func (d SalvageDesk) Take(s Salvage) SalvageOutcome {
	out := SalvageOutcome{Head: d.Head}
	last, turns := make(map[ID]uint64, len(d.Last)), make(map[Ref]Turn, len(d.Turns)) // the maps given stay the caller's
	maps.Copy(last, d.Last)
	maps.Copy(turns, d.Turns)
	proven := d.Proven && s.reaches()
	apart := make(map[ID]bool, len(d.Apart)) // devices whose entries here and there part
	maps.Copy(apart, d.Apart)
	for _, r := range s.Records {
		e := r.Entry
		key := Ref{e.Device, e.N}
		turn, used := turns[key]
		before := turns[Ref{e.Device, e.N - 1}]
		result := SalvageResult{Device: e.Device, N: e.N}
		switch {
		case used && turn.Seq > 0 && turn.Hash == e.Hash: // R3
			result.State, result.Seq = Dup, turn.Seq
		case !proven:
			d.offer(&out, &result, r, say(CodeSalvage, "Nothing proves that this entry was in the book before the server was put back. The host can admit it."))
		case used && !turn.fits(e.Hash), !before.Hash.IsZero() && before.Hash != e.Prev, apart[e.Device]:
			apart[e.Device] = true
			d.offer(&out, &result, r, say(CodeFork, "Another entry stands under this number since the server was put back. The host can see this one beside the book."))
		default:
			out.Head = out.Head.Next(e.Hash, r.Account, r.Received)
			r.Seq, r.Chain = out.Head.Seq, out.Head.Chain
			out.Records = append(out.Records, r)
			result.State, result.Seq = OK, r.Seq
			for n := last[e.Device] + 1; n < e.N; n++ {
				hole := Aside{Device: e.Device, N: n, State: Missing, Received: d.Received, Account: r.Account}
				if n == e.N-1 {
					hole.Hash = e.Prev
				}
				out.Missing = append(out.Missing, hole)
			}
			last[e.Device] = max(last[e.Device], e.N)
			turns[key] = Turn{Hash: e.Hash, Seq: r.Seq}
			out.fill(key)
		}
		out.Results = append(out.Results, result)
	}
	return out
}

// fill: a number thought missing has come, out of its order.
func (out *SalvageOutcome) fill(key Ref) {
	for i, a := range out.Missing {
		if key == (Ref{a.Device, a.N}) {
			out.Missing = append(out.Missing[:i], out.Missing[i+1:]...)
			return
		}
	}
}

func (d SalvageDesk) offer(out *SalvageOutcome, result *SalvageResult, r Record, f *Fault) {
	result.State, result.Code, result.Words = Held, f.Code, f.Words
	raw, _ := r.Entry.MarshalJSON() // never fails
	out.Offered = append(out.Offered, Aside{Device: r.Entry.Device, N: r.Entry.N, Hash: r.Entry.Hash, State: Held,
		Fault: *f, Received: d.Received, Account: r.Account, Raw: raw})
}

// reaches reports that the records lead to what the receipt says.
func (s Salvage) reaches() bool {
	end := s.After
	if n := len(s.Records); n > 0 {
		end = Head{s.Records[n-1].Seq, s.Records[n-1].Chain}
	}
	return s.Receipt != nil && end == Head{s.Receipt.Seq, s.Receipt.Chain}
}

// Admit is the record of an entry that was set aside and that a person lets in:
// under the account that handed it in, at the time it was let in.
func Admit(head Head, e Entry, account ID, author string, received int64) Record {
	head = head.Next(e.Hash, account, received)
	return Record{Seq: head.Seq, Received: received, Account: account, Author: author, Chain: head.Chain, Entry: e}
}

// The limits of one salvage: a page of a pull with room to spare.
const (
	MaxSalvageRecords = 1000
	MaxSalvageBytes   = 3 << 20
)

// DecodeSalvage reads the body of a salvage for a book: {"after", "records",
// "receipt"}. It is taken whole or not at all; the error is a *Fault.
func DecodeSalvage(data []byte, book ID) (s Salvage, err error) {
	if len(data) > MaxSalvageBytes {
		return Salvage{}, say(CodeSize, "These records are ", len(data), " bytes long; at most ", MaxSalvageBytes, " are taken at once.")
	}
	v, err := plain.Parse(data)
	if err != nil {
		return Salvage{}, torn()
	}
	if s.After, err = ReadHead(v.Get("after")); err != nil {
		return Salvage{}, err
	}
	if v.Get("receipt").Given() {
		r, err := ReadReceipt(v.Get("receipt"))
		if err != nil {
			return Salvage{}, err
		}
		s.Receipt = &r
	}
	records := v.Get("records")
	if n := len(records.Items()); records.Kind() != plain.List || n > MaxSalvageRecords {
		return Salvage{}, say(CodeSize, "At most ", MaxSalvageRecords, " records are put back at once, and they must be a list.")
	}
	head := s.After
	for _, item := range records.Items() {
		r, err := readRecord(item, false)
		if err != nil {
			return Salvage{}, err
		}
		if err := r.Entry.intact(); err != nil {
			return Salvage{}, err
		}
		if r.Entry.Book != book {
			return Salvage{}, say(CodeShape, "Record ", r.Seq, " belongs to another book.")
		}
		head = head.Next(r.Entry.Hash, r.Account, r.Received)
		r.Seq, r.Chain = head.Seq, head.Chain
		s.Records = append(s.Records, r)
	}
	return s, nil
}
