package auth

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"
	"log/slog"
	"time"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/sync"
)

// invitationSecret is the 128 bits of an invitation's link. It can't be
// guessed, so a plain hash of it is kept (A1).
type invitationSecret [16]byte

func (s invitationSecret) sum() sync.Hash { return sync.Hash(sha256.Sum256(s[:])) }

func (s invitationSecret) text() string { return base64.RawURLEncoding.EncodeToString(s[:]) }

// readInvitation reads the text of a secret, in its one spelling.
func readInvitation(text string) (s invitationSecret, err error) {
	b, err := base64.RawURLEncoding.Strict().DecodeString(text)
	if err != nil || len(b) != len(s) || len(text) != base64.RawURLEncoding.EncodedLen(len(s)) { // the decoder passes over line ends
		return s, fault.At("secret", "This invitation link is not whole. Copy all of it, with the part after the #.")
	}
	return invitationSecret(b), nil
}

// Invite makes an invitation to a book in one role, good for one person and
// seven days. The secret is returned here and never again. signs nil: as the
// role does.
func (a *Auth) Invite(ctx context.Context, caller Caller, book sync.ID, role people.Role, signs *bool) (secret string, inv people.Invitation, err error) {
	if err := a.brake.invite.take(caller.Account.ID.String()); err != nil {
		return "", inv, err
	}
	var s invitationSecret
	rand.Read(s[:])
	now := time.Now()
	inv = people.Invitation{
		ID:      newID(),
		Secret:  s.sum(),
		Book:    book,
		Role:    role,
		Signs:   role.Signs(),
		By:      caller.Account.ID,
		Created: now.UnixMilli(),
		Expires: now.Add(InviteLife).UnixMilli(),
	}
	if signs != nil {
		inv.Signs = *signs
	}
	return s.text(), inv, a.store.PutInvitation(ctx, inv)
}

// LookAt says what an invitation's secret invites to. NotFound when it was
// used, withdrawn or is over.
func (a *Auth) LookAt(ctx context.Context, from, secret string) (people.Invited, error) {
	s, err := a.invited(from, secret)
	if err != nil {
		return people.Invited{}, err
	}
	return a.store.LookInvitation(ctx, s.sum(), time.Now().UnixMilli())
}

// Join spends an invitation for somebody who has an account here. Asked again
// by the same account it answers the same.
func (a *Auth) Join(ctx context.Context, from, secret string, caller Caller) (people.Membership, error) {
	s, err := a.invited(from, secret)
	if err != nil {
		return people.Membership{}, err
	}
	return a.store.Join(ctx, s.sum(), caller.Account, nil, time.Now().UnixMilli())
}

// Joining is what somebody new types.
type Joining struct {
	Name       string
	Role       string // in their own words; may be empty
	Passphrase string
}

// JoinNew makes an account by an invitation and signs it in. What is wrong
// with the answers is said with its field, and spends nothing.
func (a *Auth) JoinNew(ctx context.Context, from, secret string, j Joining, phone Phone) (Session, people.Membership, error) {
	none := people.Membership{}
	s, err := a.invited(from, secret)
	if err != nil {
		return Session{}, none, err
	}
	in, err := a.store.LookInvitation(ctx, s.sum(), time.Now().UnixMilli())
	if err != nil {
		return Session{}, none, err
	}
	account := people.Account{ID: newID(), Created: time.Now().UnixMilli()}
	if account.Name, err = line("name", "name", j.Name, true); err != nil {
		return Session{}, none, err
	}
	if account.Role, err = line("role", "role", j.Role, false); err != nil {
		return Session{}, none, err
	}
	if err := checkPassphrase(j.Passphrase, account.Name, in.Shop); err != nil {
		return Session{}, none, err
	}
	if phone, err = phone.checked(); err != nil {
		return Session{}, none, err
	}
	if account.Passphrase, err = a.hasher.hash(ctx, j.Passphrase); err != nil {
		return Session{}, none, err
	}
	device := people.Device{ID: phone.Device, Account: account.ID, Label: phone.Label, Created: account.Created}
	membership, err := a.store.Join(ctx, s.sum(), account, &device, account.Created)
	if err != nil {
		return Session{}, none, err
	}
	a.log.LogAttrs(ctx, slog.LevelInfo, "joined", slog.String("account", account.ID.String()), slog.String("book", membership.Book.String()))
	session, err := a.admit(ctx, account, phone.Device)
	return session, membership, err
}

// invited reads a secret. Every try counts, right or wrong, by address.
func (a *Auth) invited(from, secret string) (invitationSecret, error) {
	if err := a.brake.invited.take(from); err != nil {
		return invitationSecret{}, err
	}
	return readInvitation(secret)
}
