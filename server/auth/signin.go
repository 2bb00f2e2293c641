package auth

import (
	"context"
	"log/slog"
	"strings"

	"linkrod/server/fault"
	"linkrod/server/people"
)

// SignIn lets an account in by name and passphrase. A wrong name and a wrong
// passphrase get the same answer after the same work (A4).
func (a *Auth) SignIn(ctx context.Context, from, name, passphrase string, phone Phone) (Session, error) {
	phone, err := phone.checked()
	if err != nil {
		return Session{}, err
	}
	if len(name) > 4*lineMax || len(passphrase) > passphraseMax {
		return Session{}, wrongPair()
	}
	if err := a.brake.signIn.take(from); err != nil {
		return Session{}, err
	}
	if err := a.brake.name.take(strings.ToLower(strings.Join(strings.Fields(name), " "))); err != nil {
		return Session{}, err
	}
	account, err := a.store.AccountByName(ctx, name)
	if err != nil && fault.CodeOf(err) != fault.NotFound {
		return Session{}, err
	}
	known := err == nil // a removed account has no passphrase, and so is never right
	right, stale, err := a.hasher.verify(ctx, account.Passphrase, passphrase)
	if err != nil {
		return Session{}, err
	}
	if !known || !right {
		a.log.LogAttrs(ctx, slog.LevelWarn, "sign-in refused", slog.String("from", from), slog.Bool("known", known))
		return Session{}, wrongPair()
	}
	if stale {
		if err := a.rehash(ctx, account, passphrase); err != nil {
			return Session{}, err
		}
	}
	if err := a.enrol(ctx, account.ID, phone); err != nil {
		return Session{}, err
	}
	a.log.LogAttrs(ctx, slog.LevelInfo, "signed in", slog.String("account", account.ID.String()), slog.String("device", phone.Device.String()))
	return a.admit(ctx, account, phone.Device)
}

// rehash brings a passphrase that was hashed by an older rule up to date, at
// the one moment it is known.
func (a *Auth) rehash(ctx context.Context, account people.Account, passphrase string) error {
	phc, err := a.hasher.hash(ctx, passphrase)
	if err != nil {
		return err
	}
	account.Passphrase = phc
	return a.store.PutAccount(ctx, account)
}

func wrongPair() error {
	return fault.New(fault.Refused, "Name and passphrase don't go together. Check both; capital letters count in the passphrase.")
}
