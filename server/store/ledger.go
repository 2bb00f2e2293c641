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
	Account sync.ID   `json:"account"`
	Created int64     `json:"created"`
	Of      people.Of `json:"of,omitempty"` // empty: an engine, from before there were shelves
}

var (
	errNoBook  = fault.New(fault.NotFound, "There is no such book here, or it isn't shared with you.")
	errForeign = fault.New(fault.Refused, "This device belongs to another account here. Sign in as that account, or save everything to one file and open it on a device of yours.")
	errRevoked = fault.New(fault.Revoked, "This device was removed from the account. What it holds stays on it: save it to one file, or enrol the device anew.")
	errRewound = fault.New(fault.Rewound, "The ledger here is not the one this phone last saw: the server was put back from a backup. The phone goes through it and puts back what is missing.")
	onlyReads  = &sync.Fault{Code: sync.CodeRole, Words: "You may read this book, not write in it. The entry is kept beside it; ask the owner."}
	noLonger   = &sync.Fault{Code: sync.CodeRole, Words: "You don't belong to this book any more. The entry is kept beside it, for the owner and the host to see."}
	noSigning  = &sync.Fault{Code: sync.CodeRole, Words: "You may write in this book, not sign. The signature is kept beside it; ask the owner."}
)

// OpenBook makes a book for account, who becomes its owner, or finds what they
// are in it (of is not looked at then). NotFound when it is somebody else's.
func (d *DB) OpenBook(ctx context.Context, book, account sync.ID, of people.Of, now int64) (in people.Membership, err error) {
	err = d.engine.update(ctx, func(t tx) error {
		m, err := memberOf(t, book, account)
		if err != nil {
			return err
		}
		if m.Role != "" {
			in, err = membership(t, book, m)
			return err
		}
		if t.get(tableBooks, book[:]) != nil {
			return errNoBook
		}
		if err := write(t, tableBooks, book[:], bookMade{Account: account, Created: now, Of: of}); err != nil {
			return err
		}
		owner := of.Roles()[0]
		m = member{Role: owner, Signs: owner.Signs(), Added: now, By: account}
		if err := putMember(t, book, account, m); err != nil {
			return err
		}
		if in, err = membership(t, book, m); err != nil {
			return err
		}
		return note(t, people.Event{At: now, What: people.BookOpened, By: account, Account: account, Book: book, Words: m.words()})
	})
	return in, err
}

// Member is what account is in book; NotFound when it isn't theirs.
func (d *DB) Member(ctx context.Context, book, account sync.ID) (in people.Membership, err error) {
	err = d.engine.view(func(t tx) error {
		m, err := inBook(t, book, account, people.Read)
		if err != nil {
			return err
		}
		in, err = membership(t, book, m)
		return err
	})
	return in, err
}

// Books lists what account belongs to, in the order of the book ids.
func (d *DB) Books(ctx context.Context, account sync.ID) (books []people.Membership, err error) {
	err = d.engine.view(func(t tx) error {
		return t.scan(tableMembers, account[:], nil, func(key, value []byte) (bool, error) {
			var m member
			if err := decode(tableMembers, key, value, &m); err != nil {
				return false, err
			}
			if m.Role == "" {
				return true, nil // left
			}
			in, err := membership(t, sync.ID(key[len(account):]), m)
			books = append(books, in)
			return true, err
		})
	})
	return books, err
}

func membership(t tx, book sync.ID, m member) (in people.Membership, err error) {
	in = people.Membership{Book: book, Role: m.Role, Signs: m.Signs}
	if in.Of, err = ofBook(t, book); err != nil {
		return in, err
	}
	in.Head, err = headOf(t, book)
	return in, err
}

// Append takes one batch of one device into a book's ledger, handed in by
// account and received at a time (ms by the server's clock): rights, what
// became of each entry, and the records, all in one transaction. check is what
// the book says of an entry; nil takes all. A device the server has not met
// becomes account's.
//
// It returns a result for each entry and where the ledger stands, which who
// left the book is not told. NotFound when the book was never account's,
// Refused when the device is another account's, Revoked when it was removed.
func (d *DB) Append(ctx context.Context, book, account sync.ID, push sync.Push, received int64, check func(sync.Entry) *sync.Fault) ([]sync.Result, sync.Head, error) {
	var out sync.Outcome
	var left bool
	err := d.engine.update(ctx, func(t tx) error {
		m, err := sender(t, book, account)
		if err != nil {
			return err
		}
		left = m.Role == ""
		if err := claim(t, push.Device, account, received); err != nil {
			return err
		}
		desk, err := deskFor(t, book, account, push)
		if err != nil {
			return err
		}
		desk.Received, desk.Check = received, check
		switch {
		case m.Role == "":
			desk.Hold = noLonger
		case !people.May(m.Role, false, people.Write):
			desk.Hold = onlyReads
		case !m.Signs:
			desk.HoldSigns = noSigning
		}
		out = desk.Take(push.Sent)
		return keep(t, book, out.Records, out.Aside)
	})
	if err != nil {
		return nil, sync.Head{}, err
	}
	if len(out.Records) > 0 {
		d.news.tell(book, out.Head.Seq)
	}
	if left {
		out.Head = sync.Head{}
	}
	return out.Results, out.Head, nil
}

// How many entries one account may have set aside beside a book: one who left,
// more than anybody writes before they know; one who only reads.
const maxLate, maxAside = 500, 5000

var errManyAside = fault.New(fault.Busy, "Too much of yours waits beside this book. Nothing is lost; ask its owner to look through it.")

// sender is what account is in book, when it may send: a member, or one who
// left, whose entries are held.
func sender(t tx, book, account sync.ID) (member, error) {
	m, err := memberOf(t, book, account)
	switch {
	case err != nil:
		return m, err
	case m.Role == "" && m.Left == 0:
		return m, errNoBook
	case people.May(m.Role, false, people.Write):
		return m, nil
	}
	own := 0
	err = t.scan(tableAside, book[:], nil, func(key, value []byte) (bool, error) {
		var a sync.Aside
		err := decode(tableAside, key, value, &a)
		if a.Account == account && a.State != sync.Missing {
			own++
		}
		return true, err
	})
	switch {
	case err != nil:
	case m.Role == "" && own >= maxLate:
		err = errNoBook
	case own >= maxAside:
		err = errManyAside
	}
	return m, err
}

// keep writes what a desk decided.
func keep(t tx, book sync.ID, records []sync.Record, aside []sync.Aside) error {
	for _, r := range records {
		if err := enter(t, book, r); err != nil {
			return err
		}
	}
	for _, a := range aside {
		key := turnKey(book, a.Device, a.N)
		if err := write(t, tableAside, key, a); err != nil {
			return err
		}
		if err := t.put(tableTurns, key, putNumber(0)); err != nil {
			return err
		}
	}
	return nil
}

// enter puts one record into the ledger. What waited beside it under the same
// number and hash, or what was known to be missing there, waits no more.
func enter(t tx, book sync.ID, r sync.Record) error {
	e := r.Entry
	key := turnKey(book, e.Device, e.N)
	if err := write(t, tableLedger, seqKey(book, r.Seq), r); err != nil {
		return err
	}
	if err := t.put(tableTurns, key, putNumber(r.Seq)); err != nil {
		return err
	}
	if err := t.remove(tableAside, key); err != nil {
		return err
	}
	return t.remove(tableOffered, offeredKey(book, e.Device, e.N, e.Hash))
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
		if _, err := inBook(t, book, account, people.Read); err != nil {
			return err
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
		return putDevice(t, people.Device{ID: device, Account: account, Created: now})
	case known.Account != account:
		return errForeign
	case known.Revoked != 0:
		return errRevoked
	}
	return nil
}

func headOf(t tx, book sync.ID) (sync.Head, error) {
	key, value := t.last(tableLedger, book[:])
	if key == nil {
		return sync.Head{}, nil
	}
	var r sync.Record
	if err := decode(tableLedger, key, value, &r); err != nil {
		return sync.Head{}, err
	}
	return sync.Head{Seq: r.Seq, Chain: r.Chain}, nil
}

// ChainAt tells where the ledger stood at some positions. Those it hasn't
// reached are left out.
func (d *DB) ChainAt(ctx context.Context, book, account sync.ID, at []uint64) (heads []sync.Head, err error) {
	err = d.engine.view(func(t tx) error {
		if _, err := inBook(t, book, account, people.Read); err != nil {
			return err
		}
		for _, seq := range at {
			head, err := headAt(t, book, seq)
			if err != nil {
				return err
			}
			if head.Seq == seq {
				heads = append(heads, head)
			}
		}
		return nil
	})
	return heads, err
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
