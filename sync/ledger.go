package sync

// Record is an entry with its place in the ledger of its book.
type Record struct {
	Seq      uint64 `json:"seq"`
	Received int64  `json:"received"` // milliseconds since 1970 by the server's clock
	Account  ID     `json:"account"`  // who handed it in
	Author   string `json:"author"`   // their name as shown then
	Chain    Hash   `json:"chain"`    // the ledger up to and including this record
	Entry    Entry  `json:"entry"`
}

// Head is a position in a ledger: how many records, and the chain up to there.
// The zero Head is an empty ledger. Two ledgers with equal Heads are equal.
//
// Invariants of a ledger:
//
//	L1  Seq counts from 1 without gaps.
//	L2  Each Chain is the digest of the Chain before it, Seq, the entry's
//	    hash, the account and the time received; so no record can be changed,
//	    left out or moved without changing every Chain after it.
//	L3  A key (device, n) has at most one Seq.
//	L4  The entries of one device stand in the order of their n. Numbers that
//	    were set aside are missing; no other is. One that was admitted or put
//	    back later stands where it came, after greater ones.
//	L5  A record once in the ledger is never changed or removed.
type Head struct {
	Seq   uint64 `json:"seq"`
	Chain Hash   `json:"chain"`
}

// Next is the Head after one more record (L1, L2).
//
// The chain is SHA-256 over five fields, each preceded by its length in bytes
// as a big-endian uint32: the chain before (32 bytes, zeros at first), seq
// (8, big-endian), the entry's hash (32), account (16), received (8,
// big-endian, two's complement).
func (h Head) Next(entry Hash, account ID, received int64) Head {
	seq := h.Seq + 1
	return Head{
		Seq:   seq,
		Chain: digest(h.Chain[:], number(seq), entry[:], account[:], number(uint64(received))),
	}
}

// Follow checks that records continue a ledger after the given position, each
// entry being what its hash says, and returns where they lead. The error is a
// *Fault with code "chain" or that of [Entry.Verify]; the Head then is the
// last good one.
func Follow(after Head, records []Record) (Head, error) {
	for _, r := range records {
		next := after.Next(r.Entry.Hash, r.Account, r.Received)
		switch {
		case r.Seq != next.Seq:
			return after, say(CodeChain, "Record ", next.Seq, " should come next and record ", r.Seq, " came.")
		case r.Chain != next.Chain:
			return after, say(CodeChain, "Record ", r.Seq, " does not continue the ledger this phone knows: its chain differs.")
		}
		if err := r.Entry.intact(); err != nil {
			return after, err
		}
		after = next
	}
	return after, nil
}
