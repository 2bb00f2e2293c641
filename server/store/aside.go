package store

import (
	"bytes"
	"context"
	"fmt"
	"slices"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/sync"
)

// maxOffered is how many entries one account may have waiting beside a book that nothing
// proves. It is each one's own, so that nobody can keep the others from handing back.
const maxOffered = 10_000

var (
	errNotWaiting = fault.New(fault.NotFound, "Nothing waits under that number.")
	errTaken      = fault.New(fault.Conflict, "Another entry stands in the book under that number, so this one can't. Its words can be written anew.")
	errUnreadable = fault.New(fault.Conflict, "What waits there is damaged: it is not the entry its checksum says. It can be saved to a file, not admitted.")
	errOffered    = fault.New(fault.Busy, "Too much that you handed in waits beside this book. The host must look through it first.")
)

// Salvage takes back what a ledger lost when it was put back from a backup:
// records somebody still has, with proven saying that a receipt of this
// server's own leads to their end.
func (d *DB) Salvage(ctx context.Context, book, account sync.ID, s sync.Salvage, proven bool, received int64) (results []sync.SalvageResult, head sync.Head, err error) {
	var out sync.SalvageOutcome
	err = d.engine.update(ctx, func(t tx) error {
		if _, err := inBook(t, book, account, people.Read); err != nil {
			return err
		}
		desk := sync.SalvageDesk{Account: account, Received: received, Proven: proven, Last: map[sync.ID]uint64{}, Turns: map[sync.Ref]sync.Turn{}, Apart: map[sync.ID]bool{}}
		var err error
		if desk.Head, err = headOf(t, book); err != nil {
			return err
		}
		for _, r := range s.Records {
			e := r.Entry
			if _, seen := desk.Last[e.Device]; !seen {
				desk.Last[e.Device] = lastOf(t, book, e.Device)
				if desk.Apart[e.Device], err = parted(t, book, e.Device); err != nil {
					return err
				}
			}
			for n := max(1, e.N-1); n <= min(e.N, desk.Last[e.Device]); n++ {
				turn, err := turnOf(t, book, e.Device, n)
				if err != nil {
					return err
				}
				desk.Turns[sync.Ref{Device: e.Device, N: n}] = turn
			}
		}
		out = desk.Take(s)
		names := names{t, map[sync.ID]string{}}
		for i, r := range out.Records { // no chain covers a name, so it is the account's and not the phone's word
			name, err := names.of(r.Account)
			if err != nil {
				return err
			}
			if name != "" { // else the account is from after the backup
				out.Records[i].Author = name
			}
		}
		if err := keep(t, book, out.Records, out.Missing); err != nil {
			return err
		}
		return keepOffered(t, book, account, out.Offered)
	})
	if err != nil {
		return nil, sync.Head{}, err
	}
	if len(out.Records) > 0 {
		d.news.tell(book, out.Head.Seq)
	}
	return out.Results, out.Head, nil
}

// offered is an entry beside the ledger that nothing proves: under the account
// it claims, and with the account that handed it in.
type offered struct {
	sync.Aside
	By sync.ID `json:"by"`
}

func keepOffered(t tx, book, by sync.ID, list []sync.Aside) error {
	if len(list) == 0 {
		return nil
	}
	waiting := 0
	err := t.scan(tableOffered, book[:], nil, func(key, value []byte) (bool, error) {
		var o offered
		err := decode(tableOffered, key, value, &o)
		if o.By == by {
			waiting++
		}
		return true, err
	})
	for _, a := range list {
		key := offeredKey(book, a.Device, a.N, a.Hash)
		if t.get(tableOffered, key) != nil {
			continue // handed in already, and stays who handed it in first
		}
		if waiting++; err == nil && waiting > maxOffered {
			err = errOffered
		}
		if err == nil {
			err = write(t, tableOffered, key, offered{a, by})
		}
	}
	return err
}

// parted reports that an entry of the device lies beside the ledger because
// another one stands under its number.
func parted(t tx, book, device sync.ID) (apart bool, err error) {
	err = t.scan(tableOffered, turnPrefix(book, device), nil, func(key, value []byte) (bool, error) {
		var o offered
		err := decode(tableOffered, key, value, &o)
		apart = apart || o.Fault.Code == sync.CodeFork
		return !apart, err
	})
	return apart, err
}

// lastOf is the highest number of a device that is used up; 0: none.
func lastOf(t tx, book, device sync.ID) uint64 {
	key, _ := t.last(tableTurns, turnPrefix(book, device))
	if key == nil {
		return 0
	}
	return lastNumber(key)
}

// Asides lists what was set aside of a book: what account sent itself, or
// everything when they may see it.
func (d *DB) Asides(ctx context.Context, book, account sync.ID) (list []people.Aside, err error) {
	err = d.engine.view(func(t tx) error {
		if _, err := inBook(t, book, account, people.SeeAside); err != nil {
			return err
		}
		_, err := inBook(t, book, account, people.SeeAsides)
		all := err == nil
		names := names{t, map[sync.ID]string{}}
		for _, table := range []string{tableAside, tableOffered} {
			err := t.scan(table, book[:], nil, func(key, value []byte) (bool, error) {
				var o offered
				if err := decode(table, key, value, &o); err != nil {
					return false, err
				}
				if o.By.IsZero() {
					o.By = o.Account
				}
				if o.State == sync.Missing || !all && o.By != account {
					return true, nil
				}
				o.Device = sync.ID(key[16:32])
				author, err := names.of(o.Account)
				if err != nil {
					return false, err
				}
				by, err := names.of(o.By)
				list = append(list, people.Aside{Aside: o.Aside, Author: author, By: o.By, ByName: by, Proven: table == tableAside})
				return true, err
			})
			if err != nil {
				return err
			}
		}
		return nil
	})
	return list, err
}

// Waiting lists the books that something waits beside, for the host.
func (d *DB) Waiting(ctx context.Context, who sync.ID) (list []people.Waiting, err error) {
	err = d.engine.view(func(t tx) error {
		if err := onInstance(t, who, people.SeeBooks); err != nil {
			return err
		}
		counts := map[sync.ID]int{}
		for _, table := range []string{tableAside, tableOffered} {
			err := t.scan(table, nil, nil, func(key, value []byte) (bool, error) {
				var a sync.Aside
				err := decode(table, key, value, &a)
				if a.State != sync.Missing {
					counts[sync.ID(key[:16])]++
				}
				return true, err
			})
			if err != nil {
				return err
			}
		}
		for book, n := range counts {
			of, err := ofBook(t, book)
			if err != nil {
				return err
			}
			if n > 0 {
				list = append(list, people.Waiting{Book: book, Of: of, Count: n})
			}
		}
		return nil
	})
	slices.SortFunc(list, func(a, b people.Waiting) int { return bytes.Compare(a.Book[:], b.Book[:]) })
	return list, err
}

// names looks up what accounts are called, each once.
type names struct {
	t     tx
	known map[sync.ID]string
}

func (n names) of(account sync.ID) (string, error) {
	if name, ok := n.known[account]; ok {
		return name, nil
	}
	var a people.Account
	_, err := read(n.t, tableAccounts, account[:], &a)
	n.known[account] = a.Name
	return a.Name, err
}

// Admit takes an entry that was set aside into the ledger, as its account's,
// and returns its place. (Of one that nothing proves, the account is what it
// claims: [DB.Asides] says who handed it in, and the host decides.) hash names one of several that wait
// under a number; the zero hash is the one that used it up. The reason stays
// in the journal, with who handed it in where that is somebody else.
func (d *DB) Admit(ctx context.Context, book, by, device sync.ID, n uint64, hash sync.Hash, reason string, now int64) (seq uint64, err error) {
	err = d.engine.update(ctx, func(t tx) error {
		if _, err := inBook(t, book, by, people.Admit); err != nil {
			return err
		}
		a, err := waiting(t, book, device, n, hash)
		if err != nil {
			return err
		}
		if err := free(t, book, device, n, a.Hash); err != nil {
			return err
		}
		var e sync.Entry
		if e.UnmarshalJSON(a.Raw) != nil || e.Verify() != nil || e.Hash != a.Hash || e.Book != book || e.Device != device || e.N != n {
			return errUnreadable
		}
		if err := holes(t, book, e, now); err != nil {
			return err
		}
		head, err := headOf(t, book)
		if err != nil {
			return err
		}
		var author people.Account
		if _, err := read(t, tableAccounts, a.Account[:], &author); err != nil {
			return err
		}
		r := sync.Admit(head, e, a.Account, author.Name, now)
		seq = r.Seq
		if err := enter(t, book, r); err != nil {
			return err
		}
		which := fmt.Sprintf("entry %d", n)
		if !a.By.IsZero() && a.By != a.Account { // nothing proves whose it is, so who said so stays on record
			var handed people.Account
			if _, err := read(t, tableAccounts, a.By[:], &handed); err != nil {
				return err
			}
			which += ", handed in by " + handed.Name
		}
		return note(t, people.Event{At: now, What: people.Admitted, By: by, Account: a.Account, Device: device, Book: book,
			Words: which + ": " + reason})
	})
	if err != nil {
		return 0, err
	}
	d.news.tell(book, seq)
	return seq, nil
}

// waiting is what waits beside the ledger under a number.
func waiting(t tx, book, device sync.ID, n uint64, hash sync.Hash) (a offered, err error) {
	ok := false
	if hash.IsZero() {
		ok, err = read(t, tableAside, turnKey(book, device, n), &a)
	} else if ok, err = read(t, tableOffered, offeredKey(book, device, n, hash), &a); err == nil && !ok {
		ok, err = read(t, tableAside, turnKey(book, device, n), &a)
		ok = ok && a.Hash == hash
	}
	if err == nil && (!ok || a.State == sync.Missing) {
		err = errNotWaiting
	}
	return a, err
}

// free is the fault of a number that holds another entry than hash.
func free(t tx, book, device sync.ID, n uint64, hash sync.Hash) error {
	if n > lastOf(t, book, device) {
		return nil
	}
	turn, err := turnOf(t, book, device, n)
	if err == nil && turn.Hash != hash && !(turn.State == sync.Missing && turn.Hash.IsZero()) {
		err = errTaken
	}
	return err
}

// holes marks the numbers below e that the ledger knows nothing of.
func holes(t tx, book sync.ID, e sync.Entry, now int64) error {
	var missing []sync.Aside
	for n := lastOf(t, book, e.Device) + 1; n < e.N; n++ {
		if len(missing) > maxOffered {
			return errUnreadable
		}
		missing = append(missing, sync.Aside{Device: e.Device, N: n, State: sync.Missing, Received: now})
	}
	if len(missing) > 0 {
		missing[len(missing)-1].Hash = e.Prev
	}
	return keep(t, book, nil, missing)
}
