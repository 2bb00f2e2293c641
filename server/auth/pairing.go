package auth

import (
	"context"
	"crypto/rand"
	"fmt"
	"log/slog"
	"strings"
	"time"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/sync"
)

// pairingLetters leaves out what looks alike on a screen in the sun or sounds
// like a word: no vowels, none of I L, O Q, U V, and none that passes for a
// digit (B 8, S 5, Z 2).
const pairingLetters = "CDFGHJKMNPRTWXY"

// pairingLength letters are 15^6 = 11.4 million codes. At the 30 tries a
// minute that [brakes] let through in all, ten minutes hit one given code with
// a chance of 1 in 38,000.
const pairingLength = 6

// Pair makes a code by which one more phone joins the caller's account, once,
// within ten minutes. A new code replaces the one before.
func (a *Auth) Pair(ctx context.Context, caller Caller) (code string, expires time.Time, err error) {
	if err := a.brake.pair.take(caller.Account.ID.String()); err != nil {
		return "", time.Time{}, err
	}
	code = newPairingCode()
	expires = time.Now().Add(PairingLife)
	err = a.store.PutPairing(ctx, people.Pairing{
		Code:    a.key.pairingSum(code),
		Account: caller.Account.ID,
		Expires: expires.UnixMilli(),
	})
	return code, expires, err
}

// Claim lets phone into the account that made the code. Every try counts,
// right or wrong, by address and in all.
func (a *Auth) Claim(ctx context.Context, from, code string, phone Phone) (Session, error) {
	phone, err := phone.checked()
	if err != nil {
		return Session{}, err
	}
	code, err = readPairingCode(code)
	if err != nil {
		return Session{}, err
	}
	if err := a.brake.claim.take(from); err != nil {
		return Session{}, err
	}
	if err := a.brake.claimAll.take(""); err != nil {
		return Session{}, err
	}
	pairing, err := a.store.TakePairing(ctx, a.key.pairingSum(code), time.Now().UnixMilli())
	if fault.CodeOf(err) == fault.NotFound {
		a.log.LogAttrs(ctx, slog.LevelWarn, "pairing refused", slog.String("from", from))
		return Session{}, fault.At("code", "This code is not valid, not any more or not yet. It holds ten minutes and works once: make a new one on the other phone.")
	}
	if err != nil {
		return Session{}, err
	}
	account, err := a.store.Account(ctx, pairing.Account)
	if err != nil {
		return Session{}, err
	}
	if err := a.enrol(ctx, account.ID, phone); err != nil {
		return Session{}, err
	}
	a.log.LogAttrs(ctx, slog.LevelInfo, "paired", slog.String("account", account.ID.String()), slog.String("device", phone.Device.String()))
	return a.admit(ctx, account, phone.Device)
}

// pairingSum is keyed: a bare hash of so short a code could be tried out.
func (k Key) pairingSum(code string) sync.Hash { return sync.Hash(mac(k.pairing, []byte(code))) }

func newPairingCode() string {
	var code [pairingLength]byte
	for i := range code {
		code[i] = pairingLetters[below(byte(len(pairingLetters)))]
	}
	return string(code[:])
}

// below returns a random number under n, every one equally likely: bytes of
// the last, incomplete run of n are drawn again.
func below(n byte) byte {
	for {
		var b [1]byte
		rand.Read(b[:])
		if int(b[0]) < 256/int(n)*int(n) {
			return b[0] % n
		}
	}
}

// readPairingCode takes what people make of a code: small letters, spaces,
// a dash in the middle.
func readPairingCode(typed string) (string, error) {
	code := strings.Map(func(r rune) rune {
		if r == ' ' || r == '-' {
			return -1
		}
		return r
	}, strings.ToUpper(typed))
	if len(code) != pairingLength {
		return "", fault.At("code", fmt.Sprintf("A code has %d letters. Look again and type all of them.", pairingLength))
	}
	for _, r := range code {
		if !strings.ContainsRune(pairingLetters, r) {
			return "", fault.At("code", fmt.Sprintf("%q is in no code; they are made of %s only.", r, pairingLetters))
		}
	}
	return code, nil
}
