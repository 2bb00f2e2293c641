package sync

// Kind says what sort of change an entry is. It and the refs are all that
// this package understands of one.
type Kind string

const (
	Fact    Kind = "fact"    // something recorded; names no other entry
	Replace Kind = "replace" // a new value for an editable field; refs are the values it replaces
	Strike  Kind = "strike"  // one entry struck out with a reason; it stays readable
	Sign    Kind = "sign"    // a signature under the entries named
	Settle  Kind = "settle"  // an open disagreement closed; refs are all its sides
)

// Known reports whether this version knows what k means.
func (k Kind) Known() bool {
	switch k {
	case Fact, Replace, Strike, Sign, Settle:
		return true
	}
	return false
}

// Ref names another entry of the same book by its key.
type Ref struct {
	Device ID     `json:"device"`
	N      uint64 `json:"n"`
}

// Clock is what the phone's clock said when the entry was written. It is
// evidence shown to people; nothing is ever decided by it.
type Clock struct {
	Wall int64 `json:"wall"` // milliseconds since 1970-01-01 UTC
	Zone int   `json:"zone"` // minutes east of UTC
}

// Entry is one fact somebody recorded, never changed afterwards.
//
// Invariants of an entry that passes [Entry.Verify]:
//
//	E1  (Device, N) is its key within Book, and N counts from 1 without gaps.
//	E2  Prev is the Hash of the entry (Device, N-1) of the same book; the zero
//	    Hash for N = 1. So a device's entries form a chain of their own.
//	E3  Hash is the SHA-256 over Device, N, Book, Prev, Kind, Refs and Body.
//	    Same key and same Hash is the same entry; same key and another Hash
//	    means that two devices believe to be one.
//	E4  Seen, Schema and Clock are not hashed: they say how the entry came
//	    about, not what it says.
//	E5  Refs fit the kind: none for a fact, one for a strike, at least one
//	    otherwise; none twice, and none to itself or to a later own entry.
type Entry struct {
	Device ID
	N      uint64
	Book   ID
	Prev   Hash
	Kind   Kind
	Refs   []Ref
	Body   []byte // opaque here; the exact bytes that are hashed
	Hash   Hash

	Seen   uint64 // seq of the last record the author had when writing; 0: none
	Schema int    // version of the body's format
	Clock  Clock
}

// Sum computes what e.Hash must be (E3).
//
// SHA-256 over seven fields in this order, each preceded by its length in
// bytes as a big-endian uint32:
//
//	device  16 bytes
//	n        8 bytes, big-endian
//	book    16 bytes
//	prev    32 bytes
//	kind    its ASCII letters
//	refs    24 bytes each: device 16, n 8 big-endian; one field for all of them
//	body    as it is
//
// testdata/wire holds examples computed by another program.
func (e Entry) Sum() Hash {
	refs := make([]byte, 0, 24*len(e.Refs))
	for _, r := range e.Refs {
		refs = append(refs, r.Device[:]...)
		refs = appendUint64(refs, r.N)
	}
	return digest(e.Device[:], number(e.N), e.Book[:], e.Prev[:], []byte(e.Kind), refs, e.Body)
}

// Verify checks everything about e that can be told from e alone: size, E3
// and E5.
func (e Entry) Verify() error {
	if f := e.shape(); f != nil {
		return f
	}
	if e.Hash != e.Sum() {
		return damaged(e.N)
	}
	return nil
}

// intact checks what a ledger promises of an entry in it: Verify, and of a kind
// that only a newer version knows, that it is what its hash says. So an old
// phone carries and shows on what it can't read.
func (e Entry) intact() error {
	if e.Kind.Known() {
		return e.Verify()
	}
	if e.Hash != e.Sum() {
		return damaged(e.N)
	}
	return nil
}

func damaged(n uint64) *Fault {
	return say(CodeHash, "Entry ", n, " does not match its own checksum: it was damaged on the way or in storage.")
}

// Seal completes an entry on the phone that wrote it: checks it and sets its
// hash.
func Seal(e Entry) (Entry, error) {
	if e.Device.IsZero() || e.Book.IsZero() {
		return Entry{}, say(CodeShape, "An entry needs a device and a book.")
	}
	if f := e.shape(); f != nil {
		return Entry{}, f
	}
	if (e.N == 1) != e.Prev.IsZero() {
		return Entry{}, say(CodeShape, "Entry ", e.N, " must name the hash of the entry before it, and only the first has none.")
	}
	e.Hash = e.Sum()
	return e, nil
}

// shape checks size and E5. It returns a *Fault, or nil.
func (e Entry) shape() *Fault {
	switch {
	case e.N < 1 || e.N > MaxNumber:
		return say(CodeShape, "Entry numbers run from 1; ", e.N, " is none.")
	case !e.Kind.Known():
		return say(CodeKind, "Entry ", e.N, " is of the kind ", quoted(string(e.Kind)), ", which this version does not know. Update it, then send again.")
	case len(e.Body) > MaxBody:
		return say(CodeSize, "Entry ", e.N, " is ", len(e.Body), " bytes long; one entry holds at most ", MaxBody, ". Split it.")
	case len(e.Refs) > MaxRefs:
		return say(CodeRefs, "Entry ", e.N, " names ", len(e.Refs), " other entries; at most ", MaxRefs, " are allowed.")
	case e.Kind == Fact && len(e.Refs) != 0:
		return say(CodeRefs, "Entry ", e.N, " is a plain fact and yet names other entries.")
	case e.Kind == Strike && len(e.Refs) != 1:
		return say(CodeRefs, "Entry ", e.N, " strikes out ", len(e.Refs), " entries; it must name exactly one.")
	case e.Kind != Fact && len(e.Refs) == 0:
		return say(CodeRefs, "Entry ", e.N, " (", string(e.Kind), ") must name the entries it is about.")
	}
	for i, r := range e.Refs {
		if r.N < 1 || r.N > MaxNumber || (r.Device == e.Device && r.N >= e.N) {
			return say(CodeRefs, "Entry ", e.N, " names entry ", r.N, ", which cannot have been written before it.")
		}
		for _, other := range e.Refs[:i] {
			if other == r {
				return say(CodeRefs, "Entry ", e.N, " names the same entry twice.")
			}
		}
	}
	return nil
}

// digest is SHA-256 over fields.
func digest(list ...[]byte) Hash { return sum(fields(list...)) }

// fields are the fields one after the other, each preceded by its length as a
// big-endian uint32, so that no two lists of fields are the same bytes.
func fields(list ...[]byte) (message []byte) {
	for _, f := range list {
		n := len(f)
		message = append(message, byte(n>>24), byte(n>>16), byte(n>>8), byte(n))
		message = append(message, f...)
	}
	return message
}

func number(n uint64) []byte { return appendUint64(nil, n) }

// appendUint64 appends n, big-endian.
func appendUint64(b []byte, n uint64) []byte {
	for shift := 56; shift >= 0; shift -= 8 {
		b = append(b, byte(n>>shift))
	}
	return b
}
