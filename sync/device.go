package sync

// Device is one phone's side of one book: what it knows of the ledger and what
// it means to do about it. Its rows, the entries themselves, lie in the phone's
// storage; a Device says what becomes of them.
//
// Nothing happens here. An input goes in (a Wrote, Hello, Line, Reply, Silence
// or Anew), the Device changes, and effects come out. The caller performs the
// effects on rows and stores the Device in one transaction, and only then
// shows, sends or rests. A transaction that fails leaves both as they were, and
// the same input may come again, from another tab too.
//
// A round is: Hello with what the server says of the book; then Line, which
// gives one errand to send or a rest; then Reply or Silence; then Line again,
// until it rests.
//
// Invariants, whatever the network, the server and the other tabs do:
//
//	P1  An own entry lies in a row from the moment it was written. No input
//	    removes its words; only Anew moves them to another key.
//	P2  Head is where the chain followed from the very first record leads, and
//	    every record up to it lies in a row, unless a later restore took it
//	    from the ledger.
//	P3  An own row is Sent while the ledger is known to hold it: pulled at a seq
//	    up to Head, or in Acked and not yet passed by Head. Else it waits or
//	    lies in the tray.
//	P4  Marks ascend, the last is Head, and each receipt is of its mark.
//	P5  A row is never taken over by another entry of the same key. Own words
//	    go to a new key, other people's are shelved.
//	P6  An entry is sent after those written before it on this phone, under
//	    whatever device id.
//	P7  An answer that comes late, twice or from before a restore does no harm:
//	    it is about a position that has passed or rows that have settled, or the
//	    next pull corrects what it said.
//	P8  What somebody else wrote and the ledger lost is offered back with the
//	    receipt that proves it, in the words and order it had, until a pull
//	    brings it or the server has set it aside.
//	P9  A round ends: no errand comes twice in it without something having
//	    changed, and a page that can't be put back is not tried for ever.
type Device struct {
	Book      ID
	Joined    bool
	Role      string
	Signs     bool
	Away      bool   // the account was in the book and is not: what waits may still be handed in
	Shut      string // why the server lets nobody of this account in: CodeNotMine; "" it does
	Old       bool   // this program is older than what the server still talks to
	MaxSchema int    // the newest body the server takes; 0: not said
	Restored  int64  // when the server was last put back, by its own word

	Head  Head   // P2
	There Head   // the server's, as last heard
	Marks []Mark // P4
	Acked []Ack  // own entries a push was answered for and a pull has not brought yet, by Device

	Finding  bool   // the ledger is not the one followed: where do they part?
	Pages    []Page // lost by the ledger: to be handed back, or handed back and not seen in it yet
	Back     Lost   // what of them the ledger really lacked, so far
	Restarts int    // of them in this round

	IDs     []ID   // device ids written under here, oldest first (P6)
	Stopped []ID   // device ids that can't go on in this round
	Barred  []ID   // of them, those the server removed: others need not wait for them
	Gaps    []Stop // gaps answered in this round, by the number waited for
	Stuck   bool   // no sense in pulling again in this round
}

// Mark is a position of the ledger that was followed, and what proves it.
type Mark struct {
	Head
	Received int64  // of the record there
	Weight   int    // bytes, about, since the mark before
	Receipt  []byte // JSON as it came; nil: none came
}

// Ack is an own entry and the place in the ledger a push was told.
type Ack struct {
	Ref
	Seq uint64
}

// Stop names a device, with a number where one matters.
type Stop struct {
	Device ID
	N      uint64
}

// Page is a stretch of a lost ledger. The entries are in the rows.
type Page struct {
	After   Head
	Receipt []byte // JSON; nil: nothing proves it
	Handed  bool   // the server has it; whether it keeps it, a pull shows (P8)
	Lines   []Line
}

// Line is a record without its entry.
type Line struct {
	Ref
	Seq      uint64
	Received int64
	Account  ID
	Author   string
	Back     bool // the ledger has it again
	Held     bool // it lies beside the ledger, for the host
}

// Lost counts lines by who wrote them.
type Lost struct{ Own, Others int }

// At is where an entry is on its way, as its row says.
type At string

const (
	AtWaiting At = "waiting" // not in the ledger, as far as is known
	AtSent    At = "sent"    // in the ledger, at Seq (P3)
	AtRefused At = "refused" // the ledger never takes it: in the tray
	AtHeld    At = "held"    // a person must admit it: in the tray
	AtPutBy   At = "putBy"   // refused, and seen to
	AtLost    At = "lost"    // somebody else's, and the ledger lost it (P8)
)

// Row is an entry in the phone's storage, without the entry.
type Row struct {
	Ref
	Hash     Hash
	At       At
	Seq      uint64
	Own      bool
	Account  ID
	Author   string
	Received int64
}

// Do says what an effect is.
type Do string

// Effects on rows and on this phone's identity, inside the transaction.
const (
	DoPut     Do = "put"     // a new row, or Row and Entry over the one there
	DoPatch   Do = "patch"   // At, Seq and Words of a row; with Pulled, what the record says too
	DoDrop    Do = "drop"    // the row's words were put under a new key
	DoShelve  Do = "shelve"  // move the row aside, to -N, readable (P5)
	DoReoffer Do = "reoffer" // own rows refused or held wait again
	DoRevive  Do = "revive"  // own rows of Device from N on wait again, but for those sent at Seq or before
	DoDevice  Do = "device"  // this phone's device id is Device from now on
	DoAnew    Do = "anew"    // give the input Anew for Device from N on, in this transaction
	DoChanged Do = "changed" // what views rest on
)

// Effects after the transaction.
const (
	DoShow Do = "show" // tell the person: Code, Words, Lost
	DoSend Do = "send" // Errand, then Reply or Silence
	DoRest Do = "rest" // nothing to do; with Later, something is left for another time
)

// Effect is one thing to do. Which fields count depends on Do.
type Effect struct {
	Do  Do
	Row // put, patch; Ref of drop, shelve, revive, device, anew; Seq of revive

	Entry   Entry // put
	Words   string
	Pulled  bool  // patch: Author, Account and Received are the record's
	Written int64 // put: 0: now for an own row, Received else
	Clock   Span  // put, patch: the phone's clock was wrong; not zero: written between

	Code   string
	Lost   Lost
	Errand Errand
	Later  bool
}

// Codes of DoShow.
const (
	CodeCopied     = "copied"       // this phone was copied or put back; it goes on as a new one
	CodeSetBack    = "set-back"     // the server was put back; Lost lines were handed back
	CodeNotPutBack = "not-put-back" // the server would not have Lost lines back; they stay here
	CodeNotMine    = "not-mine"     // the book isn't this account's there
	CodeRevoked    = "revoked"      // the device was removed from the account
	CodeOldApp     = "old-app"      // the server asks for a newer program; writing and sending go on
	CodeRefused    = "refused"      // the server's words say why
	CodeNoProgress = "no-progress"  // the same answer again and again; later
	CodeDamaged    = "damaged"      // an answer that isn't what the chain says
)

// What an errand is about.
const (
	toJoin     = "join"
	toPull     = "pull"
	toSnapshot = "snapshot"
	toPush     = "push"
	toFind     = "chain"
	toSalvage  = "salvage"
)

// Errand is one request. The answer comes back with it.
type Errand struct {
	To      string
	After   Head     // pull, snapshot, salvage
	Device  ID       // push
	Numbers []uint64 // push
	Turn    int      // push: gaps of this round so far; salvage: pages left (P7)
}

// schema is the version of bodies this program writes.
const schema = 1

func patch(key Ref, at At, seq uint64, words string) Effect {
	return Effect{Do: DoPatch, Row: Row{Ref: key, At: at, Seq: seq}, Words: words}
}

func show(code string) Effect   { return Effect{Do: DoShow, Code: code} }
func rest(later bool) Effect    { return Effect{Do: DoRest, Later: later} }
func send(errand Errand) Effect { return Effect{Do: DoSend, Errand: errand} }

var changed = Effect{Do: DoChanged}

// known notes a device id this phone writes under.
func (d *Device) known(id ID) {
	if d.age(id) < 0 && !id.IsZero() {
		d.IDs = append(d.IDs, id)
	}
}

// age is where id stands among this phone's, -1 for a stranger.
func (d *Device) age(id ID) int {
	for i, known := range d.IDs {
		if known == id {
			return i
		}
	}
	return -1
}

func (d *Device) stopped(id ID) bool {
	return among(d.Stopped, id)
}

func among(list []ID, id ID) bool {
	for _, s := range list {
		if s == id {
			return true
		}
	}
	return false
}
