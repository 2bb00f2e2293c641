package store

import (
	"context"
	"encoding/json"
	"strings"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/sync"
)

// setupToken is the one token that may make the first account.
type setupToken struct {
	Token   sync.Hash `json:"token"`
	Expires int64     `json:"expires"` // ms
}

var (
	errNotMade    = fault.New(fault.NotFound, "This store was never a file.")
	errNotSetUp   = fault.New(fault.NotFound, "This server is not set up yet.")
	errSetUp      = fault.New(fault.NotFound, "This server is set up already. Sign in instead.")
	errSetUpTwice = fault.New(fault.Conflict, "This server is set up already.")
	errSetupToken = fault.New(fault.Refused, "This set-up link is not valid any more. Start the server again: it prints a new one.")
	errNobody     = fault.New(fault.NotFound, "There is no such account.")
	errNameTaken  = fault.New(fault.Conflict, "There is an account with this name already. Add an initial, or another name.")
	errNoDevice   = fault.New(fault.NotFound, "There is no such device.")
	errNoSession  = fault.New(fault.NotFound, "There is no such sign-in.")
	errNoPairing  = fault.New(fault.NotFound, "This code is not valid any more. Make a new one on the phone that is signed in.")
)

// Shop returns the instance; NotFound before set-up.
func (d *DB) Shop(ctx context.Context) (people.Shop, error) {
	return one[people.Shop](d, tableMeta, keyShop, errNotSetUp)
}

// SetSetupToken replaces the one token that SetUp accepts until expires (ms);
// Conflict once set up.
func (d *DB) SetSetupToken(ctx context.Context, token sync.Hash, expires int64) error {
	return d.engine.update(ctx, func(t tx) error {
		if t.get(tableMeta, keyShop) != nil {
			return errSetUpTwice
		}
		return write(t, tableMeta, keySetup, setupToken{Token: token, Expires: expires})
	})
}

// SetUp makes the shop, its first account and that account's device, and
// forgets the token. NotFound once set up; Refused when the token is another
// or expired before now (ms).
func (d *DB) SetUp(ctx context.Context, token sync.Hash, now int64, shop people.Shop, account people.Account, device people.Device) error {
	return d.engine.update(ctx, func(t tx) error {
		if t.get(tableMeta, keyShop) != nil {
			return errSetUp
		}
		var want setupToken
		if ok, err := read(t, tableMeta, keySetup, &want); err != nil {
			return err
		} else if !ok || want.Token != token || want.Expires < now {
			return errSetupToken
		}
		if err := write(t, tableMeta, keyShop, shop); err != nil {
			return err
		}
		if err := putAccount(t, account); err != nil {
			return err
		}
		if err := note(t, people.Event{At: now, What: people.SetUp, By: account.ID, Account: account.ID, Words: account.Name}); err != nil {
			return err
		}
		if err := putDevice(t, device); err != nil {
			return err
		}
		return t.remove(tableMeta, keySetup)
	})
}

// Account returns NotFound for nobody.
func (d *DB) Account(ctx context.Context, id sync.ID) (people.Account, error) {
	return one[people.Account](d, tableAccounts, id[:], errNobody)
}

// AccountByName finds an account without regard to case and spacing.
func (d *DB) AccountByName(ctx context.Context, name string) (account people.Account, err error) {
	err = d.engine.view(func(t tx) error {
		id := t.get(tableNames, foldName(name))
		if id == nil {
			return errNobody
		}
		ok, err := read(t, tableAccounts, id, &account)
		if err == nil && !ok {
			err = errNobody
		}
		return err
	})
	return account, err
}

// PutAccount keeps an account, new or changed; Conflict when another has the
// name.
func (d *DB) PutAccount(ctx context.Context, account people.Account) error {
	return d.engine.update(ctx, func(t tx) error { return putAccount(t, account) })
}

func putAccount(t tx, account people.Account) error {
	name := foldName(account.Name)
	if id := t.get(tableNames, name); id != nil && sync.ID(id) != account.ID {
		return errNameTaken
	}
	var before people.Account
	if ok, err := read(t, tableAccounts, account.ID[:], &before); err != nil {
		return err
	} else if ok {
		if err := t.remove(tableNames, foldName(before.Name)); err != nil {
			return err
		}
	}
	if err := t.put(tableNames, name, account.ID[:]); err != nil {
		return err
	}
	return write(t, tableAccounts, account.ID[:], account)
}

// SetPassphrase replaces the passphrase (in PHC form) of an account, and with
// out ends its sign-ins on all devices. Only the host does that, at the machine.
func (d *DB) SetPassphrase(ctx context.Context, id sync.ID, phc string, out bool, now int64) error {
	return d.engine.update(ctx, func(t tx) error {
		var a people.Account
		if ok, err := read(t, tableAccounts, id[:], &a); err != nil {
			return err
		} else if !ok || a.Removed != 0 {
			return errNobody
		}
		a.Passphrase = phc
		if err := write(t, tableAccounts, id[:], a); err != nil {
			return err
		}
		if out {
			if err := endSessions(t, now, people.NewPassphrase, func(s people.Session) bool { return s.Account == id }); err != nil {
				return err
			}
		}
		return note(t, people.Event{At: now, What: people.NewPassphrase, Account: id})
	})
}

// PutDevice enrols a device or renames one; Conflict when it is another
// account's, Revoked when it was removed.
func (d *DB) PutDevice(ctx context.Context, device people.Device) error {
	return d.engine.update(ctx, func(t tx) error { return putDevice(t, device) })
}

func putDevice(t tx, device people.Device) error {
	var known people.Device
	met, err := read(t, tableDevices, device.ID[:], &known)
	switch {
	case err != nil:
		return err
	case met && known.Account != device.Account:
		return fault.New(fault.Conflict, errForeign.Words)
	case met && known.Revoked != 0:
		return errRevoked
	case met:
		device.Created = known.Created
	default:
		if err := note(t, people.Event{At: device.Created, What: people.Enrolled, By: device.Account, Account: device.Account, Device: device.ID, Words: device.Label}); err != nil {
			return err
		}
	}
	return write(t, tableDevices, device.ID[:], device)
}

// Device returns NotFound for one never met.
func (d *DB) Device(ctx context.Context, id sync.ID) (people.Device, error) {
	return one[people.Device](d, tableDevices, id[:], errNoDevice)
}

// Devices lists an account's devices in the order of their ids.
func (d *DB) Devices(ctx context.Context, account sync.ID) (list []people.Device, err error) {
	err = d.engine.view(func(t tx) error {
		return t.scan(tableDevices, nil, nil, func(_, value []byte) (bool, error) {
			var v people.Device
			if err := json.Unmarshal(value, &v); err != nil {
				return false, err
			}
			if v.Account == account {
				list = append(list, v)
			}
			return true, nil
		})
	})
	return list, err
}

// PutSession keeps a sign-in, and forgets those that were over when it began.
func (d *DB) PutSession(ctx context.Context, session people.Session) error {
	return d.engine.update(ctx, func(t tx) error {
		var over [][]byte
		err := t.scan(tableSessions, nil, nil, func(key, value []byte) (bool, error) {
			var s people.Session
			if err := json.Unmarshal(value, &s); err != nil {
				return false, err
			}
			if s.Expires < session.Created {
				over = append(over, append([]byte(nil), key...))
			}
			return true, nil
		})
		if err != nil {
			return err
		}
		for _, key := range over {
			if err := t.remove(tableSessions, key); err != nil {
				return err
			}
		}
		if err := write(t, tableSessions, session.ID[:], session); err != nil {
			return err
		}
		return note(t, people.Event{At: session.Created, What: people.SignedIn, By: session.Account, Account: session.Account, Device: session.Device})
	})
}

// Session returns NotFound for one that was never made or is long over.
func (d *DB) Session(ctx context.Context, id sync.ID) (people.Session, error) {
	return one[people.Session](d, tableSessions, id[:], errNoSession)
}

// UpdateSession changes one sign-in in one transaction. When change returns
// an error nothing is kept and that error comes back. change may be called
// more than once, each time with what is kept.
func (d *DB) UpdateSession(ctx context.Context, id sync.ID, change func(*people.Session) error) error {
	return d.engine.update(ctx, func(t tx) error {
		var s people.Session
		if ok, err := read(t, tableSessions, id[:], &s); err != nil {
			return err
		} else if !ok {
			return errNoSession
		}
		was := s.Revoked
		if err := change(&s); err != nil {
			return err
		}
		if was == 0 && s.Revoked != 0 {
			if err := note(t, people.Event{At: s.Revoked, What: s.Ended, By: s.Account, Account: s.Account, Device: s.Device}); err != nil {
				return err
			}
		}
		return write(t, tableSessions, id[:], s)
	})
}

// PutPairing keeps a code; an account has one at a time.
func (d *DB) PutPairing(ctx context.Context, pairing people.Pairing) error {
	return d.engine.update(ctx, func(t tx) error {
		var old [][]byte
		err := t.scan(tablePairings, nil, nil, func(key, value []byte) (bool, error) {
			var p people.Pairing
			if err := json.Unmarshal(value, &p); err != nil {
				return false, err
			}
			if p.Account == pairing.Account {
				old = append(old, append([]byte(nil), key...))
			}
			return true, nil
		})
		if err != nil {
			return err
		}
		for _, key := range old {
			if err := t.remove(tablePairings, key); err != nil {
				return err
			}
		}
		return write(t, tablePairings, pairing.Code[:], pairing)
	})
}

// TakePairing returns a code's pairing and forgets it; NotFound when there is
// none or it expired before now (ms).
func (d *DB) TakePairing(ctx context.Context, code sync.Hash, now int64) (pairing people.Pairing, err error) {
	err = d.engine.update(ctx, func(t tx) error {
		pairing = people.Pairing{}
		if ok, err := read(t, tablePairings, code[:], &pairing); err != nil {
			return err
		} else if !ok || pairing.Expires < now {
			return errNoPairing
		}
		return t.remove(tablePairings, code[:])
	})
	if err != nil {
		return people.Pairing{}, err
	}
	return pairing, nil
}

// one reads a single value, or returns missing.
func one[T any](d *DB, table string, key []byte, missing error) (v T, err error) {
	err = d.engine.view(func(t tx) error {
		ok, err := read(t, table, key, &v)
		if err == nil && !ok {
			err = missing
		}
		return err
	})
	return v, err
}

// foldName makes names that people would take for one the same: letter case
// and spacing do not count.
func foldName(name string) []byte {
	return []byte(strings.ToLower(strings.Join(strings.Fields(name), " ")))
}
