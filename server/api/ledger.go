package api

import (
	"context"

	"linkrod/server/people"
	"linkrod/server/photo"
	"linkrod/sync"
)

// Ledger is what the API needs kept, beside what package auth does. Every
// method reads the caller's rights (people.May) in the transaction that uses
// them. A book that isn't the caller's is NotFound, as if it did not exist;
// Refused is for somebody who belongs to it and may not; Busy means that
// nothing was taken.
//
// Nothing here leans on one process having the data: what one writes, the
// next reads, and [Ledger.Watch] may come late.
type Ledger interface {
	// OpenBook makes a book of the account's own, or finds what they are in it.
	OpenBook(ctx context.Context, book, account sync.ID, of people.Of, now int64) (people.Membership, error)
	// Member is what the account is in a book, and where its ledger stands.
	Member(ctx context.Context, book, account sync.ID) (people.Membership, error)
	// Books lists what the account belongs to.
	Books(ctx context.Context, account sync.ID) ([]people.Membership, error)
	// Restored is when the data was last put back from a backup; 0: never.
	Restored(ctx context.Context) (int64, error)

	// Append takes one batch of one device, whole or not at all, and returns
	// only when it is on disk. Refused when the device is another account's,
	// Revoked when it was removed. What is sent by somebody who may not write,
	// or does not any more, is held.
	Append(ctx context.Context, book, account sync.ID, push sync.Push, received int64, check func(sync.Entry) *sync.Fault) ([]sync.Result, sync.Head, error)
	// Read returns at most limit records after a position, and where the
	// ledger stands; Rewound when it never passed through that position.
	Read(ctx context.Context, book, account sync.ID, after sync.Head, limit int) ([]sync.Record, sync.Head, error)
	// ChainAt tells the heads at some positions; those beyond the end are left out.
	ChainAt(ctx context.Context, book, account sync.ID, at []uint64) ([]sync.Head, error)
	// Salvage puts back what a restored ledger lost. proven says that the
	// receipt it came with is this server's own.
	Salvage(ctx context.Context, book, account sync.ID, s sync.Salvage, proven bool, received int64) ([]sync.SalvageResult, sync.Head, error)
	// Watch tells of books that moved; see [events].
	Watch(ctx context.Context) <-chan map[sync.ID]uint64

	// Asides lists what was set aside: the account's own, or everybody's when
	// they may see that.
	Asides(ctx context.Context, book, account sync.ID) ([]people.Aside, error)
	// Waiting lists the books that something waits beside, for the host.
	Waiting(ctx context.Context, account sync.ID) ([]people.Waiting, error)
	// Admit takes one of them into the ledger and returns its place. hash says
	// which when several wait under one number; zero otherwise.
	Admit(ctx context.Context, book, by, device sync.ID, n uint64, hash sync.Hash, reason string, now int64) (uint64, error)

	Members(ctx context.Context, book, account sync.ID) ([]people.Member, error)
	// SetMember and RemoveMember are Conflict when the book would be left
	// without an owner.
	SetMember(ctx context.Context, book, by, account sync.ID, change people.Change, now int64) (people.Member, error)
	RemoveMember(ctx context.Context, book, by, account sync.ID, now int64) error
	// Invitations lists those nobody has used yet.
	Invitations(ctx context.Context, book, account sync.ID, now int64) ([]people.Invitation, error)
	DropInvitation(ctx context.Context, book, account, invitation sync.ID, now int64) error

	Devices(ctx context.Context, account sync.ID) ([]people.Device, error)
	// RemoveDevice and LastFrom are NotFound for devices of others.
	RemoveDevice(ctx context.Context, account, device sync.ID, now int64) error
	LastFrom(ctx context.Context, account, device sync.ID) ([]people.Last, error)

	// BeginPhoto, AddToPhoto: see package store. Conflict when a piece begins
	// elsewhere than the photograph stands, Damaged when the whole is not what
	// its name says.
	BeginPhoto(ctx context.Context, book, account sync.ID, sum sync.Hash, length, now int64) (photo.State, error)
	AddToPhoto(ctx context.Context, book, account sync.ID, sum sync.Hash, offset int64, piece []byte, now int64) (photo.State, error)
	Photo(ctx context.Context, book, account sync.ID, sum sync.Hash) (photo.State, error)
	// PhotoPiece is the piece that begins at offset; nil at the end.
	PhotoPiece(ctx context.Context, book, account sync.ID, sum sync.Hash, offset int64) ([]byte, error)

	// People, RemoveAccount and Journal are the host's; NotFound to others.
	People(ctx context.Context, account sync.ID) ([]people.Account, error)
	RemoveAccount(ctx context.Context, by, account sync.ID, now int64) error
	Journal(ctx context.Context, account sync.ID, before uint64, limit int) ([]people.Line, error)
}
