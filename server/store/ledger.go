package store

import (
	"context"
	"encoding/json"
	"fmt"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/sync"
)

// bookMade is who first brought a book here.
type bookMade struct {
	Account sync.ID `json:"account"`
	Created int64   `json:"created"`
}

var (
	errNoBook  = fault.New(fault.NotFound, "There is no such book here, or it isn't shared with you.")
	errForeign = fault.New(fault.Refused, "This device belongs to another account here. Sign in as that account, or save everything to one file and open it on a device of yours.")
	errRevoked = fault.New(fault.Refused, "This device was removed from the account. What it holds stays on it: save it to one file, or enrol the device anew.")
	errRewound = fault.New(fault.Rewound, "The ledger here is not the one this phone last saw: the server was put back from a backup. The phone goes through it and puts back what is missing.")
	onlyReads  = &sync.Fault{Code: sync.CodeRole, Words: "You may read this book, not write in it. The entry is kept beside it; ask the owner."}
)

// OpenBook makes a book for account, who becomes its owner, or finds the role
// they have in it. NotFound when it is somebody else's.
func (d *DB) OpenBook(ctx context.Context, book, account sync.ID, now int64) (role people.Role, err error) {
	err = d.engine.update(ctx, func(t tx) error {
		if role = roleOf(t, book, account); role != "" {
			return nil
		}
		if t.get(tableBooks, book[:]) != nil {
			return errNoBook
		}
		if err := write(t, tableBooks, book[:], bookMade{Account: account, Created: now}); err != nil {
			return err
		}
		role = people.Owner
		return t.put(tableMembers, memberKey(account, book), []byte(role))
	})
	return role, err
}

// Role is what account may do in book; NotFound when it isn't theirs.
func (d *DB) Role(ctx context.Context, book, account sync.ID) (role people.Role, err error) {
	err = d.engine.view(func(t tx) error {
		if role = roleOf(t, book, account); role == "" {
			return errNoBook
		}
		return nil
	})
	return role, err
}

// Books lists what account belongs to, in the order of the book ids.
func (d *DB) Books(ctx context.Context, account sync.ID) (books []people.Membership, err error) {
	err = d.engine.view(func(t tx) error {
		return t.scan(tableMembers, account[:], nil, func(key, role []byte) (bool, error) {
			book := sync.ID(key[len(account):])
			head, err := headOf(t, book)
			books = append(books, people.Membership{Book: book, Role: people.Role(role), Head: head})
			return true, err
		})
	})
	return books, err
}

// Append takes one batch of one device into a book's ledger, handed in by
// account and received at a time (ms by the server's clock): rights, what
// became of each entry, and the records, all in one transaction. check is what
// the book says of an entry; nil takes all. A device the server has not met
// becomes account's.
//
// It returns a result for each entry and where the ledger stands. NotFound
// when the book isn't account's, Refused when the device is another account's
// or was removed.
func (d *DB) Append(ctx context.Context, book, account sync.ID, push sync.Push, received int64, check func(sync.Entry) *sync.Fault) ([]sync.Result, sync.Head, error) {
	var out sync.Outcome
	err := d.engine.update(ctx, func(t tx) error {
		role := roleOf(t, book, account)
		if role == "" {
			return errNoBook
		}
		if err := claim(t, push.Device, account, received); err != nil {
			return err
		}
		desk, err := deskFor(t, book, account, push)
		if err != nil {
			return err
		}
		desk.Received, desk.Check = received, check
		if !role.MayWrite() {
			desk.Hold = onlyReads
		}
		out = desk.Take(push.Sent)
		return keep(t, book, push.Device, out)
	})
	if err != nil {
		return nil, sync.Head{}, err
	}
	return out.Results, out.Head, nil
}

// keep writes what a desk decided.
func keep(t tx, book, device sync.ID, out sync.Outcome) error {
	for _, r := range out.Records {
		if err := write(t, tableLedger, seqKey(book, r.Seq), r); err != nil {
			return err
		}
		if err := t.put(tableTurns, turnKey(book, device, r.Entry.N), putNumber(r.Seq)); err != nil {
			return err
		}
	}
	for _, a := range out.Aside {
		key := turnKey(book, device, a.N)
		if err := write(t, tableAside, key, a); err != nil {
			return err
		}
		if err := t.put(tableTurns, key, putNumber(0)); err != nil {
			return err
		}
	}
	return nil
}

// pageBytes ends a page early: 32 KiB bodies by the thousand are too much for
// one answer over a bad line.
const pageBytes = 1 << 20

// Read returns up to limit records after a position the caller has, and where
// the whole ledger stands; records that stop short of that leave more to read.
// Rewound when the ledger never passed through that position; NotFound when
// the book isn't account's.
func (d *DB) Read(ctx context.Context, book, account sync.ID, after sync.Head, limit int) (records []sync.Record, head sync.Head, err error) {
	err = d.engine.view(func(t tx) (err error) {
		if roleOf(t, book, account) == "" {
			return errNoBook
		}
		if head, err = headOf(t, book); err != nil {
			return err
		}
		if at, err := headAt(t, book, after.Seq); err != nil {
			return err
		} else if at != after {
			return errRewound
		}
		bytes := 0
		return t.scan(tableLedger, book[:], seqKey(book, after.Seq+1), func(_, value []byte) (bool, error) {
			var r sync.Record
			if err := json.Unmarshal(value, &r); err != nil {
				return false, fmt.Errorf("store: book %v: %w", book, err)
			}
			records = append(records, r)
			bytes += len(value)
			return len(records) < limit && bytes < pageBytes, nil
		})
	})
	if err != nil {
		return nil, sync.Head{}, err
	}
	return records, head, nil
}

// deskFor gathers what the ledger knows about the book and the device.
func deskFor(t tx, book, account sync.ID, push sync.Push) (sync.Desk, error) {
	var author people.Account
	if _, err := read(t, tableAccounts, account[:], &author); err != nil {
		return sync.Desk{}, err
	}
	head, err := headOf(t, book)
	if err != nil {
		return sync.Desk{}, err
	}
	desk := sync.Desk{Account: account, Author: author.Name, Head: head, Turns: make(map[uint64]sync.Turn)}
	if key, _ := t.last(tableTurns, turnPrefix(book, push.Device)); key != nil {
		desk.Last = lastNumber(key)
		turn, err := turnOf(t, book, push.Device, desk.Last)
		if err != nil {
			return sync.Desk{}, err
		}
		desk.LastHash = turn.Hash
		desk.Turns[desk.Last] = turn
	}
	for _, s := range push.Sent {
		n := s.Entry.N
		if _, have := desk.Turns[n]; have || n > desk.Last {
			continue
		}
		turn, err := turnOf(t, book, push.Device, n)
		if err != nil {
			return sync.Desk{}, err
		}
		desk.Turns[n] = turn
	}
	return desk, nil
}

// turnOf is what became of number n, which is used.
func turnOf(t tx, book, device sync.ID, n uint64) (sync.Turn, error) {
	key := turnKey(book, device, n)
	value := t.get(tableTurns, key)
	if value == nil {
		return sync.Turn{}, fmt.Errorf("store: book %v, device %v: number %d is missing below the last one", book, device, n)
	}
	seq := lastNumber(value)
	if seq == 0 {
		var a sync.Aside
		if ok, err := read(t, tableAside, key, &a); err != nil || !ok {
			return sync.Turn{}, fmt.Errorf("store: book %v, device %v: number %d was set aside and is not there: %w", book, device, n, err)
		}
		return sync.Turn{Hash: a.Hash, State: a.State, Fault: a.Fault}, nil
	}
	r, err := recordAt(t, book, seq)
	return sync.Turn{Hash: r.Entry.Hash, Seq: seq}, err
}

// claim gives a device the server has not met to account.
func claim(t tx, device, account sync.ID, now int64) error {
	var known people.Device
	met, err := read(t, tableDevices, device[:], &known)
	switch {
	case err != nil:
		return err
	case !met:
		return write(t, tableDevices, device[:], people.Device{ID: device, Account: account, Created: now})
	case known.Account != account:
		return errForeign
	case known.Revoked != 0:
		return errRevoked
	}
	return nil
}

func roleOf(t tx, book, account sync.ID) people.Role {
	return people.Role(t.get(tableMembers, memberKey(account, book)))
}

func headOf(t tx, book sync.ID) (sync.Head, error) {
	key, value := t.last(tableLedger, book[:])
	if key == nil {
		return sync.Head{}, nil
	}
	var r sync.Record
	if err := json.Unmarshal(value, &r); err != nil {
		return sync.Head{}, fmt.Errorf("store: book %v, record %d: %w", book, lastNumber(key), err)
	}
	return sync.Head{Seq: r.Seq, Chain: r.Chain}, nil
}

// headAt is the ledger's head when it had seq records; beyond its end it is
// a position no caller can have.
func headAt(t tx, book sync.ID, seq uint64) (sync.Head, error) {
	if seq == 0 {
		return sync.Head{}, nil
	}
	if t.get(tableLedger, seqKey(book, seq)) == nil {
		return sync.Head{}, nil
	}
	r, err := recordAt(t, book, seq)
	return sync.Head{Seq: r.Seq, Chain: r.Chain}, err
}

func recordAt(t tx, book sync.ID, seq uint64) (sync.Record, error) {
	var r sync.Record
	ok, err := read(t, tableLedger, seqKey(book, seq), &r)
	if err == nil && !ok {
		err = fmt.Errorf("store: book %v: no record %d", book, seq)
	}
	return r, err
}
