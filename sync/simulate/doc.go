// Package simulate runs the two machines of package sync, the device's and the
// ledger's, as they ship, with clock, network and storage replaced: several
// phones and one server in a world where requests are late, lost, doubled and
// torn, phones crash, are copied, wiped and put back, clocks are years off, and
// the server is restored from old backups. It holds tests only.
//
// One seed drives everything. A failure prints it:
//
//	go test ./sync/simulate -run World -seed 4711 -v   that world, step by step
//	go test ./sync/simulate -run World -seeds 5000     more of them
//	go test ./sync/simulate -run Mutants               breaks the protocol on purpose
//	go test ./sync/simulate -run Story -update         writes the transcripts anew
//
// What must hold, after every step:
//
//	S1  The ledger keeps L1 to L3, and every record in it is what its hash says.
//	S2  A phone holds, up to Head, exactly the records of a ledger it followed.
//	S3  Words saved on a phone are on that phone, in the ledger, or set aside on
//	    the server, unless the only place they were in was wiped.
//	S4  A line in the tray has its reason in words.
//
// And when the faults have ended and everybody has talked to the server:
//
//	S5  Every member's phone has the same records as the ledger, and the same
//	    view; so does one that starts from a snapshot and pulls the tail.
//	S6  What anybody still held is in the ledger, or set aside with a reason.
//	    What was acknowledged is in the ledger; beside it only when restores
//	    gave its number to another entry.
//	S7  A key has one place in the ledger, and so has everything anybody wrote,
//	    but for what was on a phone when it was copied and what a restore made
//	    its phone write anew (world.twice): nothing tells such a pair apart.
//	S8  Disagreements are listed exactly where two heads differ, every value
//	    ever written can be reached, and an entry names what its author meant.
//	S9  Nothing waits on a phone that may send, the rounds came to rest, and no
//	    phone took itself for a copy that was none.
//	S10 Clocks decide nothing: the same world with right clocks has the same
//	    chain and view, and differs in the flags alone. (Every eighth world is
//	    run twice for this.)
package simulate
