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

// CheckFounding says what is wrong with the answers so far, so that it is said
// where it was typed. It takes nothing; SetUp looks at them all again. NotFound
// once the instance is set up.
func (a *Auth) CheckFounding(ctx context.Context, f Founding) error {
	if state, err := a.State(ctx); err != nil {
		return err
	} else if state.SetUp {
		return setUpAlready()
	}
	_, _, err := f.checked()
	return err
}

func setUpAlready() error {
	return fault.New(fault.NotFound, "This Linkrod is set up already. Sign in instead.")
}

// checked is the shop and the account as they will be kept, in the order of the
// form: the first thing wrong is what is said.
func (f Founding) checked() (shop people.Shop, account people.Account, err error) {
	for _, l := range []struct {
		field, what, typed string
		needed             bool
		into               *string
	}{
		{"shop", "name for the shop", f.Shop, true, &shop.Name},
		{"telephone", "telephone number", f.Telephone, false, &shop.Telephone},
		{"name", "name", f.Name, true, &account.Name},
		{"role", "role", f.Role, false, &account.Role},
	} {
		if *l.into, err = line(l.field, l.what, l.typed, l.needed); err != nil {
			return shop, account, err
		}
	}
	return shop, account, checkPassphrase(f.Passphrase, account.Name, shop.Name)
}

// SetUp makes the shop and its first account and signs it in. NotFound once
// that has happened. Invalid faults name their field.
func (a *Auth) SetUp(ctx context.Context, from string, f Founding, phone Phone) (Session, error) {
	if state, err := a.State(ctx); err != nil {
		return Session{}, err
	} else if state.SetUp {
		return Session{}, setUpAlready()
	}
	if err := a.brake.setup.take(from); err != nil {
		return Session{}, err
	}
	token, ok := readSecret(f.Token)
	if !ok {
		return Session{}, fault.At("token", "This set-up link is not whole. Copy all of it, with the part after the #.")
	}
	shop, account, err := f.checked()
	if err != nil {
		return Session{}, err
	}
	if phone, err = phone.checked(); err != nil {
		return Session{}, err
	}
	if account.Passphrase, err = a.hasher.hash(ctx, f.Passphrase); err != nil {
		return Session{}, err
	}
	account.ID, account.Host, account.Created = newID(), true, time.Now().UnixMilli()
	shop.Created = account.Created
	device := people.Device{ID: phone.Device, Account: account.ID, Label: phone.Label, Created: account.Created}
	if err := a.store.SetUp(ctx, token.sum(), time.Now().UnixMilli(), shop, account, device); err != nil {
		return Session{}, err
	}
	a.log.LogAttrs(ctx, slog.LevelInfo, "set up", slog.String("account", account.ID.String()))
	return a.admit(ctx, account, phone.Device)
}
