package auth

import (
	"context"
	"encoding/base64"
	"log/slog"
	"time"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/sync"
)

// Refresh trades a refresh token for the next pair.
//
// nonce is the phone's own random text for this one exchange, before that of
// the exchange it had an answer to last, "" if none. The phone keeps both on
// disk. With either, the token just retired gets the same successor again
// within Grace (A2): with nonce after a lost answer, with before when the
// browser was killed before it had written the new cookie. Any other use of a
// token that is no longer the newest ends the sign-in (A3), because two holders
// of one token can't be told from a thief and an owner (RFC 9700, section
// 4.14.2).
func (a *Auth) Refresh(ctx context.Context, token, nonce, before string) (Session, error) {
	if len(nonce) < 16 || len(nonce) > 64 {
		return Session{}, fault.At("nonce", "The nonce of a refresh is 16 to 64 characters, made anew for each.")
	}
	id, old, ok := readRefresh(token)
	if !ok {
		return Session{}, signedOut(nil)
	}
	next, lost := a.key.successor(id, old, nonce), a.key.successor(id, old, before)
	now := time.Now()

	var session people.Session
	reused, proven := false, false
	err := a.store.UpdateSession(ctx, id, func(s *people.Session) error {
		reused = false // a store may run this more than once
		session, proven = *s, same(old.sum(), s.Live) || same(old.sum(), s.Retired)
		switch {
		case over(*s, now):
			return signedOut(nil)
		case same(old.sum(), s.Live):
			s.Retired, s.Live = s.Live, next.sum()
			s.Rotated = now.UnixMilli()
			s.Expires = now.Add(RefreshLife).UnixMilli()
		case same(old.sum(), s.Retired) && now.UnixMilli() <= s.Rotated+Grace.Milliseconds() &&
			(same(next.sum(), s.Live) || same(lost.sum(), s.Live)):
			// The answer or the cookie was lost. Nothing changes; it is given again.
			if same(lost.sum(), s.Live) {
				next = lost
			}
		default:
			s.Revoked, s.Ended = now.UnixMilli(), people.UsedTwice
			reused = true
		}
		session = *s
		return nil
	})
	if err != nil && proven { // a removed phone or person is told so, not asked to sign in
		if _, gone := a.caller(ctx, session); fault.CodeOf(gone) == fault.Revoked {
			return Session{}, gone
		}
	}
	if err != nil {
		return Session{}, signedOut(err)
	}
	if reused {
		a.log.LogAttrs(ctx, slog.LevelWarn, "refresh token used again: sign-in ended",
			slog.String("session", id.String()), slog.String("account", session.Account.String()), slog.String("device", session.Device.String()))
		return Session{}, fault.New(fault.SignIn, "This sign-in was used from two places and is closed for safety. Sign in again; everything on this phone is kept.")
	}
	caller, err := a.caller(ctx, session)
	if err != nil {
		return Session{}, err
	}
	shop, err := a.store.Shop(ctx)
	if err != nil {
		return Session{}, err
	}
	return a.issue(session, next, caller.Account, shop)
}

// SignOut ends the sign-in a refresh token belongs to. A token that proves
// nothing changes nothing: signing out twice is no error.
func (a *Auth) SignOut(ctx context.Context, token string) error {
	id, secret, ok := readRefresh(token)
	if !ok {
		return nil
	}
	err := a.store.UpdateSession(ctx, id, func(s *people.Session) error {
		if s.Revoked == 0 && (same(secret.sum(), s.Live) || same(secret.sum(), s.Retired)) {
			s.Revoked, s.Ended = time.Now().UnixMilli(), people.SignedOut
		}
		return nil
	})
	if fault.CodeOf(err) == fault.NotFound {
		return nil
	}
	return err
}

// successor computes the secret that follows old. Same token and nonce, same
// successor, so that an answer can be given twice without being kept; the key
// makes it unknown to whoever has an old token and a guessed nonce.
func (k Key) successor(id sync.ID, old secret, nonce string) secret {
	return secret(mac(k.refresh, id[:], old[:], []byte(nonce)))
}

// A refresh token is the session's id and the secret, base64url.
func writeRefresh(id sync.ID, s secret) string {
	return base64.RawURLEncoding.EncodeToString(append(id[:], s[:]...))
}

func readRefresh(token string) (id sync.ID, s secret, ok bool) {
	if len(token) != base64.RawURLEncoding.EncodedLen(len(id)+len(s)) {
		return id, s, false
	}
	b, err := base64.RawURLEncoding.Strict().DecodeString(token)
	if err != nil {
		return id, s, false
	}
	return sync.ID(b[:len(id)]), secret(b[len(id):]), true
}
