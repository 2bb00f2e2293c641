package auth

import (
	"context"
	"log/slog"
	"time"

	"linkrod/server/fault"
	"linkrod/server/people"
)

// SetupToken makes the token of a new set-up link, good for half an hour and
// one use; the one before is worthless from then on. Conflict: the instance
// is set up, there is nothing to make.
func (a *Auth) SetupToken(ctx context.Context) (string, error) {
	token := newSecret()
	if err := a.store.SetSetupToken(ctx, token.sum(), time.Now().Add(SetupLife).UnixMilli()); err != nil {
		return "", err
	}
	return token.text(), nil
}

// Founding is what the first person types.
type Founding struct {
	Token      string // from the link
	Shop       string
	Telephone  string // may be empty
	Name       string
	Role       string // in their own words; may be empty
	Passphrase string
}

// SetUp makes the shop and its first account and signs it in. NotFound once
// that has happened. Invalid faults name their field.
func (a *Auth) SetUp(ctx context.Context, from string, f Founding, phone Phone) (Session, error) {
	if state, err := a.State(ctx); err != nil {
		return Session{}, err
	} else if state.SetUp {
		return Session{}, fault.New(fault.NotFound, "This Linkrod is set up already. Sign in instead.")
	}
	if err := a.brake.setup.take(from); err != nil {
		return Session{}, err
	}
	token, ok := readSecret(f.Token)
	if !ok {
		return Session{}, fault.At("token", "This set-up link is not whole. Copy all of it, with the part after the #.")
	}
	account := people.Account{ID: newID(), Host: true, Created: time.Now().UnixMilli()}
	shop := people.Shop{Created: account.Created}
	var err error
	if shop.Name, err = line("shop", "name for the shop", f.Shop, true); err != nil {
		return Session{}, err
	}
	if shop.Telephone, err = line("telephone", "telephone number", f.Telephone, false); err != nil {
		return Session{}, err
	}
	if account.Name, err = line("name", "name", f.Name, true); err != nil {
		return Session{}, err
	}
	if account.Role, err = line("role", "role", f.Role, false); err != nil {
		return Session{}, err
	}
	if err := checkPassphrase(f.Passphrase, account.Name, shop.Name); err != nil {
		return Session{}, err
	}
	if phone, err = phone.checked(); err != nil {
		return Session{}, err
	}
	if account.Passphrase, err = a.hasher.hash(ctx, f.Passphrase); err != nil {
		return Session{}, err
	}
	device := people.Device{ID: phone.Device, Account: account.ID, Label: phone.Label, Created: account.Created}
	if err := a.store.SetUp(ctx, token.sum(), time.Now().UnixMilli(), shop, account, device); err != nil {
		return Session{}, err
	}
	a.log.LogAttrs(ctx, slog.LevelInfo, "set up", slog.String("account", account.ID.String()))
	return a.admit(ctx, account, phone.Device)
}
