package people

import (
	"crypto/sha256"
	"encoding/binary"

	"linkrod/sync"
)

// What happened, in the journal. Words are part of the file format and only
// ever added to.
type What string

const (
	SetUp          What = "set up"
	SignedIn       What = "signed in"
	SignedOut      What = "signed out"
	UsedTwice      What = "sign-in closed: used from two places"
	Enrolled       What = "device enrolled"
	DeviceRemoved  What = "device removed"
	NewPassphrase  What = "new passphrase"
	BookOpened     What = "book opened"
	InvitedTo      What = "invited"
	Withdrawn      What = "invitation withdrawn"
	Joined         What = "joined"
	Changed        What = "role changed"
	MemberRemoved  What = "removed from book"
	Inherited      What = "book passed on" // its only owner was removed
	AccountRemoved What = "account removed"
	Admitted       What = "entry admitted"
	PutBack        What = "put back from a backup"
)

// Event is one line of the journal: what happened to whom, and who did it.
// Fields that don't apply are zero.
type Event struct {
	At      int64   `json:"at"`
	What    What    `json:"what"`
	By      sync.ID `json:"by"`      // who did it; zero: the host, by a command on the server
	Account sync.ID `json:"account"` // to whom
	Device  sync.ID `json:"device"`
	Book    sync.ID `json:"book"`
	Words   string  `json:"words"` // the role given, the reason typed
}

// Line is an event with its place in the journal.
//
// Invariants:
//
//	J1  Seq counts from 1 without gaps.
//	J2  Chain is what [Line.Next] makes of the line before, so that none can
//	    be changed, left out or moved without changing every one after it.
//	J3  An event is written in the transaction that makes it true.
type Line struct {
	Seq uint64 `json:"seq"`
	Event
	Chain sync.Hash `json:"chain"`
}

// Next is the line that e becomes after the line before (zero: the first).
//
// The chain is SHA-256 over nine fields, each preceded by its length in bytes
// as a big-endian uint32: the chain before (32 bytes, zeros at first), seq (8,
// big-endian), at (8, big-endian, two's complement), what, by (16), account
// (16), device (16), book (16), words.
func (l Line) Next(e Event) Line {
	next := Line{Seq: l.Seq + 1, Event: e}
	h := sha256.New()
	for _, field := range [][]byte{
		l.Chain[:], number(next.Seq), number(uint64(e.At)), []byte(e.What),
		e.By[:], e.Account[:], e.Device[:], e.Book[:], []byte(e.Words),
	} {
		h.Write(binary.BigEndian.AppendUint32(nil, uint32(len(field))))
		h.Write(field)
	}
	next.Chain = sync.Hash(h.Sum(nil))
	return next
}

func number(n uint64) []byte { return binary.BigEndian.AppendUint64(nil, n) }
