// Package auth decides who is at the other end: the first account, signing
// in, staying signed in over a bad line, enrolling one more phone, signing
// out.
//
// A signed-in phone holds two things. An access token: a JWT of ten minutes,
// kept in the page's memory, sent with each request. A refresh token: a
// random secret in a cookie no script can read, which buys the next access
// token and is replaced each time. What a person may do is never read from a
// token but from the store, at each request ([Auth.Check]).
//
// Promises:
//
//	A1  A secret is kept as a hash; what the data folder holds signs nobody in
//	    without the secret itself. The one exception is the key file, 0600.
//	A2  A reply lost on the way, or a cookie lost with a killed browser, signs
//	    nobody out: the same refresh token with the same nonce gets the same
//	    successor within the grace.
//	A3  A refresh token used again otherwise ends that sign-in on all copies.
//	A4  An unknown name costs the same work as a wrong passphrase.
//	A5  Nothing here ever touches an entry. Expiry, sign-out and revocation
//	    close the door; what the phone holds stays on the phone.
package auth

import (
	"context"
	"log/slog"
	"time"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/sync"
)

// How long things hold.
const (
	AccessLife  = 10 * time.Minute     // of an access token
	RefreshLife = 180 * 24 * time.Hour // of a sign-in that isn't used: a winter in the hangar
	Grace       = 30 * 24 * time.Hour  // for a lost reply (A2): the nonce proves who asks, and the next signal may be weeks off
	SetupLife   = 30 * time.Minute     // of the set-up link
	PairingLife = 10 * time.Minute     // of the six letters
	InviteLife  = 7 * 24 * time.Hour   // of an invitation
)

// Auth is the whole of it. It is safe for concurrent use.
type Auth struct {
	store  Store
	key    Key
	log    *slog.Logger
	hasher *hasher
	brake  brakes
}

// New makes an Auth that keeps its records in store and signs with key.
func New(store Store, key Key, log *slog.Logger) *Auth {
	return &Auth{store: store, key: key, log: log, hasher: newHasher(), brake: newBrakes()}
}

// Phone is the browser that asks: its own id, and a label for people.
type Phone struct {
	Device sync.ID
	Label  string
}

// Session is what a phone gets when it is let in.
type Session struct {
	Access         string // for the Authorization header
	AccessExpires  time.Time
	Refresh        string // for the cookie, nowhere else
	RefreshExpires time.Time
	Account        people.Account
	Shop           people.Shop
	Device         sync.ID
}

// Caller is who a request comes from, as the store has them now.
type Caller struct {
	Account people.Account
	Device  sync.ID // the device that signed in
	Session sync.ID
}

// State is what anybody may know about this instance.
type State struct {
	SetUp bool
	Shop  string // empty before set-up
}

// State says whether the instance has its first account, and its shop's name.
func (a *Auth) State(ctx context.Context) (State, error) {
	shop, err := a.store.Shop(ctx)
	switch fault.CodeOf(err) {
	case "":
		return State{SetUp: true, Shop: shop.Name}, nil
	case fault.NotFound:
		return State{}, nil
	}
	return State{}, err
}

// Check returns who holds the access token. SignIn: there is no valid token
// or the sign-in is over. Revoked: the phone or the account was removed.
func (a *Auth) Check(ctx context.Context, access string) (Caller, error) {
	holder, err := a.key.readAccess(access)
	if err != nil {
		return Caller{}, fault.Wrap(fault.SignIn, "This phone needs a new sign-in. Everything on it is kept.", err)
	}
	session, err := a.store.Session(ctx, holder.session)
	if err != nil {
		return Caller{}, signedOut(err)
	}
	if session.Account != holder.account {
		return Caller{}, signedOut(nil)
	}
	caller, err := a.caller(ctx, session)
	if err == nil && over(session, time.Now()) {
		err = signedOut(nil)
	}
	return caller, err
}

// caller reads account and device of a session that is not over.
func (a *Auth) caller(ctx context.Context, session people.Session) (Caller, error) {
	device, err := a.store.Device(ctx, session.Device)
	if err != nil {
		return Caller{}, signedOut(err)
	}
	if device.Revoked != 0 {
		return Caller{}, fault.New(fault.Revoked, "This phone was locked out of the shop's books. What it holds is kept and can be exported; ask the host.")
	}
	account, err := a.store.Account(ctx, session.Account)
	if err != nil {
		return Caller{}, signedOut(err)
	}
	if account.Removed != 0 {
		return Caller{}, fault.New(fault.Revoked, "This account was removed from the shop. What the phone holds is kept and can be exported; ask the host.")
	}
	return Caller{Account: account, Device: session.Device, Session: session.ID}, nil
}

// admit signs account in on phone, whose device is enrolled already.
func (a *Auth) admit(ctx context.Context, account people.Account, device sync.ID) (Session, error) {
	shop, err := a.store.Shop(ctx)
	if err != nil {
		return Session{}, err
	}
	now := time.Now()
	secret := newSecret()
	session := people.Session{
		ID:      newID(),
		Account: account.ID,
		Device:  device,
		Live:    secret.sum(),
		Created: now.UnixMilli(),
		Expires: now.Add(RefreshLife).UnixMilli(),
	}
	if err := a.store.PutSession(ctx, session); err != nil {
		return Session{}, err
	}
	return a.issue(session, secret, account, shop)
}

// issue writes the two tokens of a session.
func (a *Auth) issue(session people.Session, secret secret, account people.Account, shop people.Shop) (Session, error) {
	expires := time.Now().Add(AccessLife)
	access, err := a.key.writeAccess(holder{account: session.Account, session: session.ID}, expires)
	if err != nil {
		return Session{}, err
	}
	return Session{
		Access:         access,
		AccessExpires:  expires,
		Refresh:        writeRefresh(session.ID, secret),
		RefreshExpires: time.UnixMilli(session.Expires),
		Account:        account,
		Shop:           shop,
		Device:         session.Device,
	}, nil
}

// enrol makes phone the account's device.
func (a *Auth) enrol(ctx context.Context, account sync.ID, phone Phone) error {
	return a.store.PutDevice(ctx, people.Device{
		ID:      phone.Device,
		Account: account,
		Label:   phone.Label,
		Created: time.Now().UnixMilli(),
	})
}

// over reports whether a session no longer lets anybody in.
func over(s people.Session, now time.Time) bool {
	return s.Revoked != 0 || now.UnixMilli() >= s.Expires
}

// signedOut is the one answer to a sign-in that is over. A broken store is
// not a sign-in that is over: its error goes through.
func signedOut(err error) error {
	if err != nil && fault.CodeOf(err) != fault.NotFound {
		return err
	}
	return fault.Wrap(fault.SignIn, "This phone is signed out. Sign in again; everything on it is kept.", err)
}
