package intake

import (
	"context"
	"encoding/json"
	"slices"
	"strings"

	"linkrod/radial/book"
	"linkrod/server/fault"
	"linkrod/sync"
	"linkrod/sync/plain"
)

// Find is the account's book with a name, or with an id. NotFound names those
// there are; Conflict when two engines have the name.
func (d Desk) Find(ctx context.Context, name string) (sync.ID, error) {
	mine, err := d.Ledger.Books(ctx, d.Account)
	if err != nil {
		return sync.ID{}, err
	}
	var found []sync.ID
	var names []string
	for _, m := range mine {
		b, _, err := d.open(ctx, m.Book)
		if err != nil {
			return sync.ID{}, err
		}
		called := b.View(m.Book.String(), book.Now{}).Name
		if strings.EqualFold(called, name) || m.Book.String() == name {
			found = append(found, m.Book)
		}
		names = append(names, "“"+called+"” ("+m.Book.String()+")")
	}
	slices.Sort(names)
	switch {
	case len(mine) == 0:
		return sync.ID{}, fault.New(fault.NotFound, "This account has no engine here yet. Start it in the app, which asks what a log alone does not say: cylinders, oil unit, meter.")
	case len(found) == 0:
		return sync.ID{}, fault.New(fault.NotFound, "There is no engine “"+name+"” here. There are: "+strings.Join(names, ", ")+".")
	case len(found) > 1:
		return sync.ID{}, fault.New(fault.Conflict, "Several engines are called “"+name+"”. Give the number in brackets instead: "+strings.Join(names, ", ")+".")
	}
	return found[0], nil
}

// LookAtLog says what a paper log typed into CSV would bring into a book, line
// by line, and does nothing.
func (d Desk) LookAtLog(ctx context.Context, id sync.ID, csv string) (book.Import, error) {
	b, _, err := d.open(ctx, id)
	if err != nil {
		return book.Import{}, err
	}
	return b.ReadCSV(csv), nil
}

// TakeLog takes those lines in that can be read and that the book hasn't yet,
// written by device, which must be new: an import is an author of its own.
// Taking the same log twice changes nothing.
func (d Desk) TakeLog(ctx context.Context, id, device sync.ID, csv string) (book.Import, Book, error) {
	b, head, err := d.open(ctx, id)
	if err != nil {
		return book.Import{}, Book{}, err
	}
	read := b.ReadCSV(csv)
	took := Book{Book: id}
	push := sync.Push{Device: device}
	var prev sync.Hash
	for _, row := range read.Rows {
		if row.Body == nil || row.Already {
			continue
		}
		took.Entries++
		e, err := sync.Seal(sync.Entry{Device: device, N: uint64(took.Entries), Book: id, Prev: prev, Kind: sync.Fact, Body: row.Body,
			Seen: head.Seq, Schema: 1, Clock: sync.Clock{Wall: d.Now}})
		if err != nil {
			return read, took, err
		}
		prev = e.Hash
		push.Sent = append(push.Sent, sync.Sent{Entry: e})
	}
	if took.Entries == 0 {
		return read, took, nil
	}
	results, _, err := d.Ledger.Append(ctx, id, d.Account, push, d.Now, d.Check)
	if err != nil {
		return read, took, err
	}
	took.count(results)
	return read, took, nil
}

// open is what the ledger of a book adds up to, and where it stands.
func (d Desk) open(ctx context.Context, id sync.ID) (*book.Book, sync.Head, error) {
	var kept []book.Record
	var at sync.Head
	for {
		records, head, err := d.Ledger.Read(ctx, id, d.Account, at, 1000)
		if err != nil {
			return nil, sync.Head{}, err
		}
		for _, r := range records {
			one, err := translate(r)
			if err != nil {
				return nil, sync.Head{}, err
			}
			kept = append(kept, one)
			at = sync.Head{Seq: r.Seq, Chain: r.Chain}
		}
		if at == head || len(records) == 0 {
			return book.Open(kept), at, nil
		}
	}
}

// translate hands a record of package sync to package book, which know nothing
// of each other, by what both read: JSON.
func translate(r sync.Record) (book.Record, error) {
	text, err := json.Marshal(r)
	if err != nil {
		return book.Record{}, err
	}
	v, err := plain.Parse(text)
	if err != nil {
		return book.Record{}, err
	}
	return book.ReadRecord(v)
}
