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

// Push is one batch to be taken into a book's ledger.
type Push struct {
	Book     sync.ID
	Account  sync.ID // who hands it in
	Received int64   // ms by the server's clock
	sync.Push
	Check func(sync.Entry) *sync.Fault // what the book says of a body; nil: all are taken
}

// Taken is what became of it.
type Taken struct {
	Results []sync.Result
	Head    sync.Head // of the ledger afterwards
}

// Page is a piece of a ledger.
type Page struct {
	Records []sync.Record
	Head    sync.Head // of the whole ledger
	More    bool
}

// Shelf is a book as one account sees it.
type Shelf struct {
	Book sync.ID
	Role people.Role
	Head sync.Head
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
func (d *DB) Books(ctx context.Context, account sync.ID) (books []Shelf, err error) {
	err = d.engine.view(func(t tx) error {
		return t.scan(tableMembers, account[:], nil, func(key, role []byte) (bool, error) {
			book := sync.ID(key[len(account):])
			head, err := headOf(t, book)
			books = append(books, Shelf{Book: book, Role: people.Role(role), Head: head})
			return true, err
		})
	})
	return books, err
}

// Append takes one batch of one device into a book's ledger, all in one
// transaction: rights, what became of each entry (sync.Desk), and the records.
// A device the server has not met becomes account's.
//
// NotFound when the book isn't account's, Refused when the device is another
// account's or was removed.
func (d *DB) Append(ctx context.Context, p Push) (taken Taken, err error) {
	err = d.engine.update(ctx, func(t tx) error {
		role := roleOf(t, p.Book, p.Account)
		if role == "" {
			return errNoBook
		}
		if err := claim(t, p.Device, p.Account, p.Received); err != nil {
			return err
		}
		desk, err := deskFor(t, p)
		if err != nil {
			return err
		}
		if !role.MayWrite() {
			desk.Hold = onlyReads
		}
		out := desk.Take(p.Sent)
		for _, r := range out.Records {
			if err := write(t, tableLedger, seqKey(p.Book, r.Seq), r); err != nil {
				return err
			}
			if err := t.put(tableTurns, turnKey(p.Book, p.Device, r.Entry.N), putNumber(r.Seq)); err != nil {
				return err
			}
		}
		for _, a := range out.Aside {
			key := turnKey(p.Book, p.Device, a.N)
			if err := write(t, tableAside, key, a); err != nil {
				return err
			}
			if err := t.put(tableTurns, key, putNumber(0)); err != nil {
				return err
			}
		}
		taken = Taken{Results: out.Results, Head: out.Head}
		return nil
	})
	if err != nil {
		return Taken{}, err
	}
	return taken, nil
}

// pageBytes ends a page early: 32 KiB bodies by the thousand are too much for
// one answer over a bad line.
const pageBytes = 1 << 20

// Read returns up to limit records after a position the caller has, and where
// the ledger stands. Rewound when the ledger never passed through that
// position; NotFound when the book isn't account's.
func (d *DB) Read(ctx context.Context, book, account sync.ID, after sync.Head, limit int) (page Page, err error) {
	err = d.engine.view(func(t tx) error {
		if roleOf(t, book, account) == "" {
			return errNoBook
		}
		head, err := headOf(t, book)
		if err != nil {
			return err
		}
		at, err := headAt(t, book, after.Seq)
		if err != nil {
			return err
		}
		if at != after {
			return errRewound
		}
		page = Page{Head: head}
		bytes := 0
		return t.scan(tableLedger, book[:], seqKey(book, after.Seq+1), func(_, value []byte) (bool, error) {
			if len(page.Records) == limit || bytes > pageBytes {
				page.More = true
				return false, nil
			}
			var r sync.Record
			if err := json.Unmarshal(value, &r); err != nil {
				return false, fmt.Errorf("store: book %v: %w", book, err)
			}
			page.Records = append(page.Records, r)
			bytes += len(value)
			return true, nil
		})
	})
	return page, err
}

// deskFor gathers what the ledger knows about the book and the device.
func deskFor(t tx, p Push) (sync.Desk, error) {
	var author people.Account
	if _, err := read(t, tableAccounts, p.Account[:], &author); err != nil {
		return sync.Desk{}, err
	}
	head, err := headOf(t, p.Book)
	if err != nil {
		return sync.Desk{}, err
	}
	desk := sync.Desk{Account: p.Account, Author: author.Name, Received: p.Received,
		Head: head, Turns: make(map[uint64]sync.Turn), Check: p.Check}
	if key, _ := t.last(tableTurns, turnPrefix(p.Book, p.Device)); key != nil {
		desk.Last = lastNumber(key)
		turn, err := turnOf(t, p.Book, p.Device, desk.Last)
		if err != nil {
			return sync.Desk{}, err
		}
		desk.LastHash = turn.Hash
		desk.Turns[desk.Last] = turn
	}
	for _, s := range p.Sent {
		n := s.Entry.N
		if _, have := desk.Turns[n]; have || n > desk.Last {
			continue
		}
		turn, err := turnOf(t, p.Book, p.Device, n)
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
