package store

import (
	"bytes"
	"context"
	"slices"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/sync"
)

// maxInvitations is how many may be open for one book: enough for a club, and
// an end to a loop that went wrong.
const maxInvitations = 50

var (
	errNoInvitation = fault.New(fault.NotFound, "This invitation is not valid: it was used, withdrawn, or its seven days are over. Ask for a new one.")
	errManyInvited  = fault.New(fault.Conflict, "Fifty invitations to this book are open. Withdraw some first.")
	errJoined       = fault.New(fault.Conflict, "You belong to this book already. The owner can change what you are in it.")
)

// PutInvitation keeps an invitation made by somebody who may share the book,
// and forgets those that are over.
func (d *DB) PutInvitation(ctx context.Context, inv people.Invitation) error {
	return d.engine.update(ctx, func(t tx) error {
		if _, err := inBook(t, inv.Book, inv.By, people.Share); err != nil {
			return err
		}
		of, err := ofBook(t, inv.Book)
		if err != nil {
			return err
		}
		if !slices.Contains(of.Roles(), inv.Role) {
			return errRole
		}
		var over [][]byte
		open := 0
		err = t.scan(tableInvitations, nil, nil, func(key, value []byte) (bool, error) {
			var other people.Invitation
			if err := decode(tableInvitations, key, value, &other); err != nil {
				return false, err
			}
			switch {
			case other.Expires < inv.Created:
				over = append(over, bytes.Clone(key))
			case other.Book == inv.Book && other.Used.IsZero():
				open++
			}
			return true, nil
		})
		if err != nil {
			return err
		}
		for _, key := range over {
			if err := t.remove(tableInvitations, key); err != nil {
				return err
			}
		}
		if open >= maxInvitations {
			return errManyInvited
		}
		if err := write(t, tableInvitations, inv.Secret[:], inv); err != nil {
			return err
		}
		m := member{Role: inv.Role, Signs: inv.Signs}
		return note(t, people.Event{At: inv.Created, What: people.InvitedTo, By: inv.By, Book: inv.Book, Words: m.words()})
	})
}

// Invitations lists the open invitations to a book, oldest first.
func (d *DB) Invitations(ctx context.Context, book, who sync.ID, now int64) (list []people.Invitation, err error) {
	err = d.engine.view(func(t tx) error {
		if _, err := inBook(t, book, who, people.Share); err != nil {
			return err
		}
		return t.scan(tableInvitations, nil, nil, func(key, value []byte) (bool, error) {
			var inv people.Invitation
			if err := decode(tableInvitations, key, value, &inv); err != nil {
				return false, err
			}
			if inv.Book == book && inv.Used.IsZero() && inv.Expires >= now {
				list = append(list, inv)
			}
			return true, nil
		})
	})
	slices.SortFunc(list, func(a, b people.Invitation) int { return int(a.Created - b.Created) })
	return list, err
}

// DropInvitation withdraws an open invitation; NotFound when there is none of
// that id to this book.
func (d *DB) DropInvitation(ctx context.Context, book, who, id sync.ID, now int64) error {
	return d.engine.update(ctx, func(t tx) error {
		if _, err := inBook(t, book, who, people.Share); err != nil {
			return err
		}
		var found []byte
		err := t.scan(tableInvitations, nil, nil, func(key, value []byte) (bool, error) {
			var inv people.Invitation
			if err := decode(tableInvitations, key, value, &inv); err != nil {
				return false, err
			}
			if inv.Book == book && inv.ID == id && inv.Used.IsZero() {
				found = bytes.Clone(key)
			}
			return found == nil, nil
		})
		if err != nil {
			return err
		}
		if found == nil {
			return errNoInvitation
		}
		if err := t.remove(tableInvitations, found); err != nil {
			return err
		}
		return note(t, people.Event{At: now, What: people.Withdrawn, By: who, Book: book})
	})
}

// LookInvitation says what a secret invites to; NotFound when to nothing, or
// nothing any more.
func (d *DB) LookInvitation(ctx context.Context, secret sync.Hash, now int64) (in people.Invited, err error) {
	err = d.engine.view(func(t tx) error {
		if in.Invitation, err = invitation(t, secret, now); err != nil {
			return err
		}
		if !in.Used.IsZero() {
			return errNoInvitation
		}
		if in.Of, err = ofBook(t, in.Book); err != nil {
			return err
		}
		var by people.Account
		var shop people.Shop
		if _, err := read(t, tableAccounts, in.By[:], &by); err != nil {
			return err
		}
		if _, err := read(t, tableMeta, keyShop, &shop); err != nil {
			return err
		}
		in.Name, in.Shop = by.Name, shop.Name
		return nil
	})
	if err != nil {
		return people.Invited{}, err
	}
	return in, nil
}

// invitation is one that is not over. Whoever made it must still be somebody
// who may share the book.
func invitation(t tx, secret sync.Hash, now int64) (inv people.Invitation, err error) {
	ok, err := read(t, tableInvitations, secret[:], &inv)
	if err != nil {
		return inv, err
	}
	if !ok || inv.Expires < now {
		return inv, errNoInvitation
	}
	if _, err := inBook(t, inv.Book, inv.By, people.Share); err != nil {
		return inv, errNoInvitation
	}
	return inv, nil
}

// Join spends an invitation: account becomes a member. When it is a new one
// (its row is not here yet), it and its device are made in the same
// transaction. An account that joined by this very invitation gets the same
// answer again, for its first may have been lost.
func (d *DB) Join(ctx context.Context, secret sync.Hash, account people.Account, device *people.Device, now int64) (in people.Membership, err error) {
	err = d.engine.update(ctx, func(t tx) error {
		inv, err := invitation(t, secret, now)
		if err != nil {
			return err
		}
		of, err := ofBook(t, inv.Book)
		if err != nil {
			return err
		}
		m, err := memberOf(t, inv.Book, account.ID)
		if err != nil {
			return err
		}
		in = people.Membership{Book: inv.Book, Of: of, Role: inv.Role, Signs: inv.Signs}
		switch {
		case inv.Used == account.ID && m.Role != "":
			in.Role, in.Signs = m.Role, m.Signs
			return nil
		case !inv.Used.IsZero():
			return errNoInvitation
		case m.Role != "":
			return errJoined
		}
		if device != nil {
			if err := putAccount(t, account); err != nil {
				return err
			}
			if err := putDevice(t, *device); err != nil {
				return err
			}
		}
		m = member{Role: inv.Role, Signs: inv.Signs, Added: now, By: inv.By}
		if err := putMember(t, inv.Book, account.ID, m); err != nil {
			return err
		}
		inv.Used = account.ID
		if err := write(t, tableInvitations, secret[:], inv); err != nil {
			return err
		}
		return note(t, people.Event{At: now, What: people.Joined, By: inv.By, Account: account.ID, Book: inv.Book, Words: m.words()})
	})
	return in, err
}
