package sync

import "maps"

// State is what became of one entry of a push.
type State string

const (
	OK       State = "ok"       // it is in the ledger now, at Seq
	Dup      State = "dup"      // it was there already, at Seq; as good as OK
	Rejected State = "rejected" // set aside with the reason; its number is used up
	Held     State = "held"     // set aside until a person admits it; its number is used up
	Gap      State = "gap"      // earlier entries are missing: send again from From
	Fork     State = "fork"     // its number belongs to another entry: the phone was copied or put back
	Later    State = "later"    // not looked at; send it again

	Missing State = "missing" // of a turn only: the number is used, and what under it got lost
)

// Result answers one entry of a push.
type Result struct {
	N     uint64 `json:"n"`
	State State  `json:"state"`
	Seq   uint64 `json:"seq,omitempty"`
	From  uint64 `json:"from,omitempty"` // with Gap: the number the ledger waits for
	Code  string `json:"code,omitempty"`
	Words string `json:"words,omitempty"`
}

// Turn is what the ledger remembers about one number of one device.
type Turn struct {
	Hash  Hash
	Seq   uint64 // 0: set aside
	State State  // when set aside: Rejected or Held; or Missing
	Fault Fault  // when set aside: why
}

// Aside is an entry that used up its number without entering the ledger. What
// came is kept, so that it can be read, exported and perhaps admitted.
//
// With State Missing it is a gap in what the ledger knows, left by a restore:
// Hash is zero unless the entry after it is known, and there is no Raw.
type Aside struct {
	Device   ID     `json:"device,omitzero"`
	N        uint64 `json:"n"`
	Hash     Hash   `json:"hash"`
	State    State  `json:"state"`
	Fault    Fault  `json:"fault"`
	Received int64  `json:"received"`
	Account  ID     `json:"account"`
	Raw      []byte `json:"raw"`
}

// Desk is where a ledger takes in what one device sends: all that is known
// about device and book before the batch. The store fills it in and keeps what
// comes out, in one transaction.
//
// Invariants of [Desk.Take], for any batches of one device in any split, order
// and repetition:
//
//	D1  The ledger afterwards depends only on which entries got through, never
//	    on how often or in what company they were sent.
//	D2  A number once used answers the same hash in the same way for ever.
//	D3  Nothing enters behind a gap or a fork.
//	D4  An entry set aside changes nothing for those after it.
//	D5  A missing number takes the entry that fits it, and only that.
type Desk struct {
	Account  ID
	Author   string
	Received int64 // milliseconds since 1970, read once per batch

	Head     Head            // of the book's ledger
	Last     uint64          // the device's highest number used in this book; 0: none
	LastHash Hash            // of that number
	Turns    map[uint64]Turn // of the batch's numbers up to Last

	Check func(Entry) *Fault // what the book says of a body; nil: everything is taken
	Hold  *Fault             // set: the author may not write here, so all is held

	HoldSigns *Fault // set: the author may write and not sign, so signatures are held
}

// Outcome is what a batch changes and what is answered.
type Outcome struct {
	Results []Result
	Records []Record // to append, in order
	Aside   []Aside  // to keep beside the ledger
	Head    Head     // afterwards
}

// Take decides about a batch, entry by entry in the order sent. After a gap or
// a fork it looks at nothing more.
func (d Desk) Take(sent []Sent) Outcome {
	out := Outcome{Head: d.Head}
	turns := make(map[uint64]Turn, len(d.Turns)+len(sent)) // the map given stays the caller's
	maps.Copy(turns, d.Turns)
	d.Turns = turns
	for i, s := range sent {
		r := d.one(s, &out)
		out.Results = append(out.Results, r)
		if r.State == Gap || r.State == Fork {
			for _, rest := range sent[i+1:] {
				out.Results = append(out.Results, Result{N: rest.Entry.N, State: Later, Code: r.Code,
					Words: "Not looked at, because an earlier entry of the same batch could not be taken."})
			}
			break
		}
	}
	return out
}

func (d *Desk) one(s Sent, out *Outcome) Result {
	e := s.Entry
	switch {
	case e.N <= d.Last:
		turn, known := d.Turns[e.N]
		if !known || !turn.fits(e.Hash) {
			return forked(e.N)
		}
		if turn.State != Missing {
			return turn.again(e.N)
		}
	case e.N > d.Last+1:
		f := say(CodeGap, "Entry ", e.N, " can't be taken before entry ", d.Last+1, " of the same device.")
		return Result{N: e.N, State: Gap, From: d.Last + 1, Code: f.Code, Words: f.Words}
	case s.Fault == nil && e.Prev != d.LastHash:
		return forked(e.N)
	}
	return d.new(s, out)
}

// new gives an entry its turn: a place in the ledger, or beside it.
func (d *Desk) new(s Sent, out *Outcome) Result {
	e := s.Entry
	turn := Turn{Hash: e.Hash}
	if state, f := d.objection(s); f != nil {
		turn.State, turn.Fault = state, *f
		out.Aside = append(out.Aside, Aside{Device: e.Device, N: e.N, Hash: e.Hash, State: state, Fault: *f,
			Received: d.Received, Account: d.Account, Raw: s.Raw})
	} else {
		out.Head = out.Head.Next(e.Hash, d.Account, d.Received)
		turn.Seq = out.Head.Seq
		out.Records = append(out.Records, Record{Seq: out.Head.Seq, Received: d.Received,
			Account: d.Account, Author: d.Author, Chain: out.Head.Chain, Entry: e})
	}
	d.Turns[e.N] = turn
	if e.N > d.Last {
		d.Last, d.LastHash = e.N, e.Hash
	}
	if turn.Seq == 0 {
		return turn.again(e.N)
	}
	return Result{N: e.N, State: OK, Seq: turn.Seq}
}

// objection says why s must be set aside, or nil.
func (d *Desk) objection(s Sent) (State, *Fault) {
	if s.Fault != nil {
		return Rejected, s.Fault
	}
	if d.Check != nil {
		if f := d.Check(s.Entry); f != nil {
			return Rejected, f
		}
	}
	if d.Hold == nil && s.Entry.Kind == Sign {
		return Held, d.HoldSigns
	}
	return Held, d.Hold
}

// fits reports that an entry with this hash is the one the turn is about, or,
// of a missing one, may be.
func (t Turn) fits(hash Hash) bool {
	return t.Hash == hash || t.State == Missing && t.Hash.IsZero()
}

// again answers a number that is already used, with the hash it was used with.
func (t Turn) again(n uint64) Result {
	if t.Seq > 0 {
		return Result{N: n, State: Dup, Seq: t.Seq}
	}
	return Result{N: n, State: t.State, Code: t.Fault.Code, Words: t.Fault.Words}
}

func forked(n uint64) Result {
	f := say(CodeFork, "Entry ", n, " is not the one the server has under that number. This phone's storage was copied or put back from a copy; it goes on under a new device number and nothing is lost.")
	return Result{N: n, State: Fork, Code: f.Code, Words: f.Words}
}
