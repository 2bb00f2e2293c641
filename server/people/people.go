// Package people holds what the server knows about who is who: accounts,
// their devices, their sign-ins, and which books they belong to. Types only:
// package store keeps them, package auth decides with them, package api
// answers with them.
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
}

// Pairing is a short-lived permission to enrol one more device, found by the
// keyed SHA-256 (HMAC) of its code and good for one use.
type Pairing struct {
	Code    sync.Hash `json:"code"`
	Account sync.ID   `json:"account"`
	Expires int64     `json:"expires"`
}

// Role is what an account may do in a book.
type Role string

const (
	Owner    Role = "owner"    // everything, also who else belongs
	Mechanic Role = "mechanic" // reads and writes
	Helper   Role = "helper"   // reads and writes
	Reader   Role = "reader"   // reads
)

// MayWrite reports whether entries by r are taken into the ledger. Those of
// anyone else who belongs to the book are set aside, not dropped.
func (r Role) MayWrite() bool { return r == Owner || r == Mechanic || r == Helper }

// Membership is one book an account belongs to: as what, and where its ledger
// stands.
type Membership struct {
	Book sync.ID
	Role Role
	Head sync.Head
}
