// Package intake takes into the ledger what a person brings as a file:
// everything a phone without an account holds ([sync.File]), or an oil log
// from paper, typed into CSV (log.go).
//
// Nothing is taken before it was looked at: [Desk.Look] says what is new,
// [Desk.Take] takes exactly that. Entries come in as they were written, under their own
// keys, so that a file taken twice changes nothing, and the phone it came
// from can still send them itself.
package intake

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/sync"
)

// Ledger is what intake needs of the store, as package api does.
type Ledger interface {
	Books(ctx context.Context, account sync.ID) ([]people.Membership, error)
	OpenBook(ctx context.Context, book, account sync.ID, of people.Of, now int64) (people.Membership, error)
	Append(ctx context.Context, book, account sync.ID, push sync.Push, received int64, check func(sync.Entry) *sync.Fault) ([]sync.Result, sync.Head, error)
	Read(ctx context.Context, book, account sync.ID, after sync.Head, limit int) ([]sync.Record, sync.Head, error)
}

// Desk takes entries in for one account.
type Desk struct {
	Ledger  Ledger
	Account sync.ID
	Now     int64                        // ms
	Check   func(sync.Entry) *sync.Fault // what is set aside, as for entries a phone sends
}

// Book is what became, or would become, of one book of a file.
type Book struct {
	Book    sync.ID
	Entries int // in the file
	Fresh   int // of them, new in the ledger
	Aside   int // set aside: kept beside the book, with the reason in Words
	Words   []string
}

// Look says what Take would do, and does nothing.
func (d Desk) Look(ctx context.Context, file sync.File) ([]Book, error) {
	var seen []Book
	for _, b := range file.Books {
		known, err := d.known(ctx, b.Book)
		if err != nil {
			return nil, err
		}
		saw := Book{Book: b.Book, Entries: len(b.Entries)}
		for _, k := range b.Entries {
			if !known[k.Entry.Hash] {
				saw.Fresh++
			}
		}
		seen = append(seen, saw)
	}
	return seen, nil
}

// Take takes the file's books in, each made the account's own when nobody has
// it yet. A book or a device that is somebody else's is left out, with the
// words; the rest goes on.
func (d Desk) Take(ctx context.Context, file sync.File) ([]Book, error) {
	var taken []Book
	for _, b := range file.Books {
		took := Book{Book: b.Book, Entries: len(b.Entries)}
		if _, err := d.Ledger.OpenBook(ctx, b.Book, d.Account, people.Engine, d.Now); err != nil {
			if fault.CodeOf(err) != fault.NotFound {
				return taken, err
			}
			took.say("This book belongs to another account here.")
			taken = append(taken, took)
			continue
		}
		for _, push := range pushes(b.Entries) {
			results, _, err := d.Ledger.Append(ctx, b.Book, d.Account, push, d.Now, d.Check)
			if fault.CodeOf(err) == fault.Refused {
				took.say(fault.From(err).Words)
				continue
			}
			if err != nil {
				return taken, err
			}
			took.count(results)
		}
		taken = append(taken, took)
	}
	return taken, nil
}

// count adds what became of a push.
func (b *Book) count(results []sync.Result) {
	for _, r := range results {
		switch r.State {
		case sync.OK:
			b.Fresh++
		case sync.Dup:
		case sync.Rejected, sync.Held:
			b.Aside++
			b.say(fmt.Sprintf("Entry %d was set aside: %s", r.N, r.Words))
		default:
			b.say(fmt.Sprintf("Entry %d was not taken: %s", r.N, r.Words))
		}
	}
}

// say adds a sentence once.
func (b *Book) say(words string) {
	if !slices.Contains(b.Words, words) {
		b.Words = append(b.Words, words)
	}
}

// known is the hashes of what the ledger of a book has already; none when the
// book isn't the account's.
func (d Desk) known(ctx context.Context, book sync.ID) (map[sync.Hash]bool, error) {
	hashes := map[sync.Hash]bool{}
	var at sync.Head
	for {
		records, head, err := d.Ledger.Read(ctx, book, d.Account, at, 1000)
		if fault.CodeOf(err) == fault.NotFound {
			return hashes, nil
		}
		if err != nil {
			return nil, err
		}
		for _, r := range records {
			hashes[r.Entry.Hash] = true
			at = sync.Head{Seq: r.Seq, Chain: r.Chain}
		}
		if at == head || len(records) == 0 {
			return hashes, nil
		}
	}
}

// pushes cuts a book's entries into batches, each of one device and within
// the limits of a push. What another ledger had in order stays in that order,
// what was never sent comes after.
func pushes(entries []sync.Kept) []sync.Push {
	order := slices.Clone(entries)
	slices.SortStableFunc(order, func(a, b sync.Kept) int {
		sent := func(k sync.Kept) int {
			if k.Seq > 0 {
				return 0
			}
			return 1
		}
		return cmp.Or(cmp.Compare(sent(a), sent(b)), cmp.Compare(a.Seq, b.Seq),
			slices.Compare(a.Entry.Device[:], b.Entry.Device[:]), cmp.Compare(a.Entry.N, b.Entry.N))
	})
	var all []sync.Push
	for _, k := range order {
		last := len(all) - 1
		if last < 0 || all[last].Device != k.Entry.Device || len(all[last].Sent) == sync.MaxBatchEntries {
			all = append(all, sync.Push{Device: k.Entry.Device})
			last++
		}
		all[last].Sent = append(all[last].Sent, sync.Sent{Entry: k.Entry})
	}
	return all
}
