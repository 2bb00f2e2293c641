package store

import (
	"bytes"
	"cmp"
	"context"
	"slices"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/sync"
)

var errHostStays = fault.New(fault.Conflict, "Whoever runs this server can't be removed from it.")

// RemoveDevice locks a device of account's own out for good and ends its
// sign-ins. What it sent stays; what it holds stays on it.
func (d *DB) RemoveDevice(ctx context.Context, account, device sync.ID, now int64) error {
	return d.engine.update(ctx, func(t tx) error {
		var known people.Device
		ok, err := read(t, tableDevices, device[:], &known)
		if err != nil {
			return err
		}
		if !ok || known.Account != account {
			return errNoDevice
		}
		if known.Revoked != 0 {
			return nil
		}
		known.Revoked = now
		if err := write(t, tableDevices, device[:], known); err != nil {
			return err
		}
		if err := endSessions(t, now, people.DeviceRemoved, func(s people.Session) bool { return s.Device == device }); err != nil {
			return err
		}
		return note(t, people.Event{At: now, What: people.DeviceRemoved, By: account, Account: account, Device: device})
	})
}

// LastFrom is what the ledgers of account's books last had from one of its
// devices: what a phone whose storage was emptied is told. NotFound when the
// device is somebody else's.
func (d *DB) LastFrom(ctx context.Context, account, device sync.ID) (list []people.Last, err error) {
	err = d.engine.view(func(t tx) error {
		var known people.Device
		if ok, err := read(t, tableDevices, device[:], &known); err != nil {
			return err
		} else if !ok || known.Account != account {
			return errNoDevice
		}
		return t.scan(tableMembers, account[:], nil, func(key, _ []byte) (bool, error) {
			book := sync.ID(key[16:])
			last, seq := t.last(tableTurns, turnPrefix(book, device))
			if last == nil {
				return true, nil
			}
			l := people.Last{Book: book, N: lastNumber(last)}
			if n := lastNumber(seq); n > 0 {
				r, err := recordAt(t, book, n)
				l.Received = r.Received
				list = append(list, l)
				return true, err
			}
			var a sync.Aside
			_, err := read(t, tableAside, last, &a)
			l.Received = a.Received
			list = append(list, l)
			return true, err
		})
	})
	return list, err
}

// People lists all accounts, in the order they came, for the host.
func (d *DB) People(ctx context.Context, who sync.ID) (list []people.Account, err error) {
	err = d.engine.view(func(t tx) error {
		if err := onInstance(t, who, people.SeePeople); err != nil {
			return err
		}
		return t.scan(tableAccounts, nil, nil, func(key, value []byte) (bool, error) {
			var a people.Account
			err := decode(tableAccounts, key, value, &a)
			list = append(list, a)
			return true, err
		})
	})
	slices.SortFunc(list, func(a, b people.Account) int { return cmp.Compare(a.Created, b.Created) })
	return list, err
}

// RemoveAccount signs a person out everywhere for good and ends what they
// belong to. What they wrote stays, under their name, which nobody else gets.
// A book left without an owner becomes the host's; the journal says so.
func (d *DB) RemoveAccount(ctx context.Context, by, account sync.ID, now int64) error {
	return d.engine.update(ctx, func(t tx) error {
		if err := onInstance(t, by, people.Remove); err != nil {
			return err
		}
		var a people.Account
		ok, err := read(t, tableAccounts, account[:], &a)
		switch {
		case err != nil:
			return err
		case !ok:
			return errNobody
		case a.Host:
			return errHostStays
		case a.Removed != 0:
			return nil
		}
		a.Removed, a.Passphrase = now, ""
		if err := write(t, tableAccounts, account[:], a); err != nil {
			return err
		}
		if err := endSessions(t, now, people.AccountRemoved, func(s people.Session) bool { return s.Account == account }); err != nil {
			return err
		}
		if err := note(t, people.Event{At: now, What: people.AccountRemoved, By: by, Account: account}); err != nil {
			return err
		}
		var keys [][]byte
		err = t.scan(tableMembers, account[:], nil, func(key, value []byte) (bool, error) {
			var m member
			err := decode(tableMembers, key, value, &m)
			if m.Role != "" {
				keys = append(keys, bytes.Clone(key))
			}
			return true, err
		})
		if err != nil {
			return err
		}
		for _, key := range keys {
			if err := leave(t, sync.ID(key[16:]), account, by, now); err != nil {
				return err
			}
		}
		return nil
	})
}

// leave ends a membership, and passes the book on when nobody else owns it.
func leave(t tx, book, account, heir sync.ID, now int64) error {
	m, err := memberOf(t, book, account)
	if err != nil {
		return err
	}
	last := notLast(t, book, account, m.Role)
	if last != nil && last != error(errLastOwner) {
		return last
	}
	if err := dropMember(t, book, account, now); err != nil || last == nil {
		return err
	}
	of, err := ofBook(t, book)
	if err != nil {
		return err
	}
	owner := of.Roles()[0]
	if err := putMember(t, book, heir, member{Role: owner, Signs: owner.Signs(), Added: now, By: heir}); err != nil {
		return err
	}
	return note(t, people.Event{At: now, What: people.Inherited, By: heir, Account: heir, Book: book})
}

// endSessions ends the sign-ins that match.
func endSessions(t tx, now int64, why people.What, match func(people.Session) bool) error {
	var ended []people.Session
	err := t.scan(tableSessions, nil, nil, func(key, value []byte) (bool, error) {
		var s people.Session
		if err := decode(tableSessions, key, value, &s); err != nil {
			return false, err
		}
		if s.Revoked == 0 && match(s) {
			s.Revoked, s.Ended = now, why
			ended = append(ended, s)
		}
		return true, nil
	})
	if err != nil {
		return err
	}
	for _, s := range ended {
		if err := write(t, tableSessions, s.ID[:], s); err != nil {
			return err
		}
	}
	return nil
}
