package sync

// Heard is what the answer to a push means for the phone that sent it. The
// phone does these things in one transaction of its storage.
type Heard struct {
	Done   []Done   // these entries have arrived, each at its seq
	Tray   []Parked // these never will by themselves; show them with the words
	Wait   bool     // some of the batch is still to go: send it again, later
	From   uint64   // not 0: send again from this number on, also what had arrived once
	Forked bool     // go on under a new device id; what has not arrived is written anew under it
	Words  string   // of a gap or a fork, for the person
}

// Done is an own entry and its place in the ledger.
type Done struct {
	N   uint64
	Seq uint64
}

// Parked is an own entry that was set aside, with the reason.
type Parked struct {
	N     uint64
	State State
	Words string
}

// Hear reads the results of a push of the entries numbered sent. Entries without a result, and
// results in a state this version does not know, are still to go. A result for
// something that was not sent is passed over.
func Hear(sent []uint64, results []Result) Heard {
	var h Heard
	byN := make(map[uint64]Result, len(results))
	for _, r := range results {
		byN[r.N] = r
	}
	for _, n := range sent {
		switch r := byN[n]; {
		case (r.State == OK || r.State == Dup) && r.Seq > 0:
			h.Done = append(h.Done, Done{N: n, Seq: r.Seq})
		case r.State == Rejected || r.State == Held:
			h.Tray = append(h.Tray, Parked{N: n, State: r.State, Words: r.Words})
		case r.State == Fork:
			h.Forked, h.Words = true, r.Words
		case r.State == Gap:
			h.From, h.Words = r.From, r.Words
			h.Wait = true
		default:
			h.Wait = true
		}
	}
	return h
}
