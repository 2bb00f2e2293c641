package auth

import (
	"context"
	"log/slog"
	"time"
)

// NewPassphrase replaces a lost passphrase. It is for the host, at the
// machine: nobody can do it from elsewhere. out ends every sign-in of the
// account, for when the old one may be in somebody else's hands.
func (a *Auth) NewPassphrase(ctx context.Context, name, passphrase string, out bool) error {
	account, err := a.store.AccountByName(ctx, name)
	if err != nil {
		return err
	}
	shop, err := a.store.Shop(ctx)
	if err != nil {
		return err
	}
	if err := checkPassphrase(passphrase, account.Name, shop.Name); err != nil {
		return err
	}
	phc, err := a.hasher.hash(ctx, passphrase)
	if err != nil {
		return err
	}
	a.log.LogAttrs(ctx, slog.LevelInfo, "new passphrase", slog.String("account", account.ID.String()))
	return a.store.SetPassphrase(ctx, account.ID, phc, out, time.Now().UnixMilli())
}
