package people

import "slices"

// Of is what a book is about, fixed when it is opened.
type Of string

const (
	Engine Of = "engine"
	Shelf  Of = "shelf" // published cards
)

// Known reports whether o is one of them.
func (o Of) Known() bool { return o == Engine || o == Shelf }

// Role is what an account is in a book. The zero Role is a stranger.
type Role string

const (
	Owner      Role = "owner"    // brought the book, or was made one
	Mechanic   Role = "mechanic" // works on the engine
	Helper     Role = "helper"   // writes readings down
	Specialist Role = "shop"     // the shop that is called: reads, answers, signs
	Reader     Role = "reader"   // looks on; also of a shelf
	Curator    Role = "curator"  // publishes on a shelf
)

// Roles lists the roles of a book, most rights first. The first is its
// creator's, and a book always keeps one.
func (o Of) Roles() []Role {
	if o == Shelf {
		return []Role{Curator, Reader}
	}
	return []Role{Owner, Mechanic, Helper, Specialist, Reader}
}

// Act is something that can be done to a book, or to the instance.
type Act string

const (
	Read      Act = "read"              // its ledger, members and photographs
	Write     Act = "write"             // into its ledger; who only reads may send, to be held
	Share     Act = "share"             // say who belongs, and as what
	SeeAside  Act = "see aside"         // what one sent that was set aside
	SeeAsides Act = "see all set aside" // also what others sent
	Admit     Act = "admit"             // take what was set aside into the ledger
	SeeBooks  Act = "see books"         // which books of the instance something waits beside
	SeePeople Act = "see people"        // all accounts of the instance, and its journal
	Remove    Act = "remove"            // an account from the instance
)

// rights is who may do what: the only such list. The host runs the instance
// and is in no book by that: may see and admit what was set aside, and neither
// read nor alter what is in the ledger.
var rights = map[Act]struct {
	roles []Role
	host  bool
}{
	Read:      {roles: []Role{Owner, Mechanic, Helper, Specialist, Reader, Curator}},
	Write:     {roles: []Role{Owner, Mechanic, Helper, Specialist, Curator}},
	Share:     {roles: []Role{Owner, Curator}},
	SeeAside:  {roles: []Role{Owner, Mechanic, Helper, Specialist, Reader, Curator}, host: true},
	SeeAsides: {roles: []Role{Owner, Curator}, host: true},
	Admit:     {host: true},
	SeeBooks:  {host: true},
	SeePeople: {host: true},
	Remove:    {host: true},
}

// May reports whether somebody who is r in a book, and perhaps the host, may do
// act there. For acts on the instance r is empty.
func May(r Role, host bool, act Act) bool {
	who := rights[act]
	return slices.Contains(who.roles, r) || host && who.host
}

// Signs reports whether a role signs unless the owner says otherwise.
func (r Role) Signs() bool { return r == Owner || r == Mechanic || r == Specialist || r == Curator }
