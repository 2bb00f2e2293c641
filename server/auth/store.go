package auth

import (
	"context"

	"linkrod/server/people"
	"linkrod/sync"
)

// Store is what auth needs kept. Package store has it; whoever gets no error
// from a method that writes may rely on it being on disk.
type Store interface {
	// Shop returns the instance; NotFound before set-up.
	Shop(ctx context.Context) (people.Shop, error)
	// SetSetupToken replaces the one token that SetUp will accept until
	// expires (ms); Conflict once set up.
	SetSetupToken(ctx context.Context, token sync.Hash, expires int64) error
	// SetUp makes the shop, its first account and that account's device in one
	// transaction, and forgets the token. NotFound once set up; Refused when
	// the token is another or expired before now (ms).
	SetUp(ctx context.Context, token sync.Hash, now int64, shop people.Shop, account people.Account, device people.Device) error

	// Account and AccountByName return NotFound for nobody; names are compared
	// without regard to case and spacing.
	Account(ctx context.Context, id sync.ID) (people.Account, error)
	AccountByName(ctx context.Context, name string) (people.Account, error)
	PutAccount(ctx context.Context, account people.Account) error

	// PutDevice enrols a device or renames one; Conflict when it is another
	// account's, Revoked when it was removed.
	PutDevice(ctx context.Context, device people.Device) error
	Device(ctx context.Context, id sync.ID) (people.Device, error)

	PutSession(ctx context.Context, session people.Session) error
	Session(ctx context.Context, id sync.ID) (people.Session, error)
	// UpdateSession changes one session in one transaction. When change returns
	// an error nothing is kept and the error is returned.
	UpdateSession(ctx context.Context, id sync.ID, change func(*people.Session) error) error

	// PutPairing keeps a code; an account has one at a time.
	PutPairing(ctx context.Context, pairing people.Pairing) error
	// TakePairing returns a code's pairing and forgets it; NotFound when there
	// is none or it expired before now (ms).
	TakePairing(ctx context.Context, code sync.Hash, now int64) (people.Pairing, error)

	// PutInvitation keeps an invitation. NotFound and Refused are about who
	// makes it and the book, Invalid about the role.
	PutInvitation(ctx context.Context, invitation people.Invitation) error
	// LookInvitation says what a secret invites to; NotFound when to nothing.
	LookInvitation(ctx context.Context, secret sync.Hash, now int64) (people.Invited, error)
	// Join spends an invitation for account, which it makes, with its device,
	// when device is not nil. Conflict: a member already, or the name is taken;
	// the invitation is not spent then.
	Join(ctx context.Context, secret sync.Hash, account people.Account, device *people.Device, now int64) (people.Membership, error)
	// SetPassphrase replaces a passphrase; out ends the account's sign-ins.
	SetPassphrase(ctx context.Context, account sync.ID, phc string, out bool, now int64) error
}
