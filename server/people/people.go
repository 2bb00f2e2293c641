// Package people holds what the server knows about who is who: accounts,
// their devices, their sign-ins, which books they belong to, and the journal
// of all that. Types, and the one table of rights (rights.go): package store
// keeps them and asks the table, package auth decides who is there, package
// api answers with them.
//
// All times are milliseconds since 1970-01-01 UTC, by the server's clock; a
// zero time means "not yet" or "never".
package people

import "linkrod/sync"

// Shop is the one instance this server is, made at set-up.
type Shop struct {
	Name      string `json:"name"`
	Telephone string `json:"telephone"`
	Created   int64  `json:"created"`
}

// Account is a person who signs in.
type Account struct {
	ID         sync.ID `json:"id"`
	Name       string  `json:"name"`       // as shown; unique without regard to case and spacing
	Role       string  `json:"role"`       // what they are in the shop, in their own words
	Passphrase string  `json:"passphrase"` // argon2id in PHC form, never the passphrase
	Host       bool    `json:"host"`       // runs this instance: the first account
	Created    int64   `json:"created"`
	Removed    int64   `json:"removed,omitempty"` // the name stays theirs: it stands at their entries
}

// Device is one browser's storage. It belongs to the account that first used
// it here, and stays theirs.
type Device struct {
	ID      sync.ID `json:"id"`
	Account sync.ID `json:"account"`
	Label   string  `json:"label"`
	Created int64   `json:"created"`
	Revoked int64   `json:"revoked,omitempty"`
}

// Session is one sign-in on one device: the family of refresh tokens that
// follow one another. Secrets are kept as SHA-256 only.
type Session struct {
	ID      sync.ID   `json:"id"` // in clear in the token, so that it can be looked up
	Account sync.ID   `json:"account"`
	Device  sync.ID   `json:"device"`
	Live    sync.Hash `json:"live"`    // of the secret that is valid now
	Retired sync.Hash `json:"retired"` // of the one before
	Rotated int64     `json:"rotated"` // when Retired gave way to Live
	Created int64     `json:"created"`
	Expires int64     `json:"expires"`
	Revoked int64     `json:"revoked,omitempty"`
	Ended   What      `json:"ended,omitempty"` // why, when revoked
}

// Pairing is a short-lived permission to enrol one more device, found by the
// keyed SHA-256 (HMAC) of its code and good for one use.
type Pairing struct {
	Code    sync.Hash `json:"code"`
	Account sync.ID   `json:"account"`
	Expires int64     `json:"expires"`
}

// Member is an account that belongs to a book.
type Member struct {
	Account sync.ID `json:"account"`
	Name    string  `json:"name"` // as the account has it now
	Role    Role    `json:"role"`
	Signs   bool    `json:"signs"` // may sign; apart from the right to write
	Added   int64   `json:"added"`
	By      sync.ID `json:"by"` // who let them in; themselves for who brought the book
}

// Membership is one book an account belongs to: as what, and where its ledger
// stands.
type Membership struct {
	Book  sync.ID
	Of    Of
	Role  Role
	Signs bool
	Head  sync.Head
}

// Invitation is a permission to join one book in one role, found by the
// SHA-256 of its 128-bit secret and good for one use.
type Invitation struct {
	ID      sync.ID   `json:"id"` // names it in lists; tells nothing about the secret
	Secret  sync.Hash `json:"secret"`
	Book    sync.ID   `json:"book"`
	Role    Role      `json:"role"`
	Signs   bool      `json:"signs"`
	By      sync.ID   `json:"by"`
	Created int64     `json:"created"`
	Expires int64     `json:"expires"`
	Used    sync.ID   `json:"used"` // the account that joined by it; kept until it expires, for a lost answer
}

// Invited is what the holder of an invitation may know before joining.
type Invited struct {
	Invitation
	Of   Of
	Shop string
	Name string // of who invites
}

// Aside is an entry that waits beside a book's ledger, and whose it is.
type Aside struct {
	sync.Aside
	Author string // name of the account that wrote it
	By     sync.ID
	ByName string // who handed it in
	Proven bool   // it came from the account that wrote it; else that is only claimed
}

// Waiting is a book that something waits beside.
type Waiting struct {
	Book  sync.ID `json:"book"`
	Of    Of      `json:"of"`
	Count int     `json:"count"`
}

// Last is what the server last had from a device in one book.
type Last struct {
	Book     sync.ID `json:"book"`
	N        uint64  `json:"n"`
	Received int64   `json:"received"`
}

// Change is what a member becomes. Fields left out stay.
type Change struct {
	Role  Role  `json:"role,omitempty"`
	Signs *bool `json:"signs,omitempty"`
}
