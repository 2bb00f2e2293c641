package intake

import (
	"context"
	"crypto/rand"
	"fmt"
	"path"
	"path/filepath"
	"strings"

	"linkrod/radial/card"
	"linkrod/radial/card/cardtext"
	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/sync"
	"linkrod/sync/plain"
)

// shelf is a shelf of the account as its ledger has it.
type shelf struct {
	id    sync.ID
	head  sync.Head
	card  card.Shelf
	texts map[string]string // by hash
	file  string            // shelf.yaml, "" for none
}

// shelves are the account's shelves.
func (d Desk) shelves(ctx context.Context) ([]shelf, error) {
	mine, err := d.Ledger.Books(ctx, d.Account)
	if err != nil {
		return nil, err
	}
	var all []shelf
	for _, m := range mine {
		if m.Of != people.Shelf {
			continue
		}
		s := shelf{id: m.Book, texts: map[string]string{}}
		var kept []card.Record
		for {
			records, head, err := d.Ledger.Read(ctx, m.Book, d.Account, s.head, 1000)
			if err != nil {
				return nil, err
			}
			for _, r := range records {
				s.head = sync.Head{Seq: r.Seq, Chain: r.Chain}
				body, err := plain.Parse(r.Entry.Body)
				if err != nil {
					continue
				}
				s.texts[body.Get("hash").Text()] = body.Get("text").Text()
				if body.Get("type").Text() == "shelf" {
					s.file = body.Get("text").Text()
				}
				// Without the version: what a newer Linkrod published goes out again as it came.
				kept = append(kept, card.Record{Seq: int(r.Seq), Author: r.Author, Body: body})
			}
			if s.head == head || len(records) == 0 {
				break
			}
		}
		s.card = card.Open(m.Book.String(), kept)
		all = append(all, s)
	}
	return all, nil
}

// findShelf is the account's shelf with a title, or with an id; nil for none.
func (d Desk) findShelf(ctx context.Context, title string) (*shelf, error) {
	all, err := d.shelves(ctx)
	if err != nil {
		return nil, err
	}
	var found *shelf
	for i, s := range all {
		if s.id.String() != title && !strings.EqualFold(s.card.Title, title) {
			continue
		}
		if found != nil {
			return nil, fault.New(fault.Conflict, "Two shelves are called “"+title+"”. Give the number of one: "+found.id.String()+" or "+s.id.String()+".")
		}
		found = &all[i]
	}
	return found, nil
}

// Shelved is what a folder brings, or brought, to a shelf.
type Shelved struct {
	Shelf  sync.ID
	New    bool     // the shelf itself
	Cards  []string // what is put on it, a line each
	Same   int      // cards that are there as they are
	Faults []cardtext.Fault
}

// Shelve puts a folder's cards on a shelf, which it makes when there is none: all of them
// in one transaction, or none. Without take it says what it would do. The folder must be
// sound; what stands against what is on the shelf already comes back as faults.
func (d Desk) Shelve(ctx context.Context, title string, from cardtext.Folder, shown, by, day, reason string, take bool) (Shelved, error) {
	s, err := d.findShelf(ctx, title)
	if err != nil {
		return Shelved{}, err
	}
	var bodies [][]byte
	out := Shelved{}
	if s == nil {
		out.New, s = true, &shelf{}
		rand.Read(s.id[:])
		bodies = append(bodies, shelfBody(title, from))
	}
	out.Shelf = s.id
	for _, f := range from.Files {
		c := f.Read.Card
		newest, _ := s.card.Find(c.ID, 0)
		if no := f.Read.Next(path.Join(shown, f.Name), newest.Card); no != nil {
			out.Faults = append(out.Faults, *no)
			continue
		}
		if newest.ID != "" && newest.Hash == c.Hash {
			out.Same++
			continue
		}
		var before *card.Card
		if newest.ID != "" {
			written := cardtext.Read(c.ID, []byte(s.texts[newest.Hash]), from.Rules).Card
			before = &written
		}
		body, err := f.Read.Publish(before, reason, by, day)
		if err != nil {
			out.Faults = append(out.Faults, cardtext.Fault{File: path.Join(shown, f.Name), Line: 1, Column: 1, Words: err.Error()})
			continue
		}
		bodies = append(bodies, body)
		line := c.Title
		if before != nil {
			line += ": " + strings.Join(card.Diff(*before, c), "; ")
		}
		out.Cards = append(out.Cards, line)
	}
	if !take || len(out.Faults) > 0 || len(bodies) == 0 {
		return out, nil
	}
	return out, d.put(ctx, s, bodies)
}

func shelfBody(title string, from cardtext.Folder) []byte {
	var w plain.Writer
	w.Begin('{')
	w.Text("type", "shelf")
	w.Text("title", title)
	w.Bool("demo", from.Rules.Demo)
	w.Bool("general", from.Rules.General)
	w.Text("text", string(from.Head))
	w.End('}')
	return w.Bytes()
}

// put writes the bodies as entries of a device of their own, in one transaction.
func (d Desk) put(ctx context.Context, s *shelf, bodies [][]byte) error {
	if _, err := d.Ledger.OpenBook(ctx, s.id, d.Account, people.Shelf, d.Now); err != nil {
		return err
	}
	push := sync.Push{}
	rand.Read(push.Device[:])
	var prev sync.Hash
	for i, body := range bodies {
		e, err := sync.Seal(sync.Entry{Device: push.Device, N: uint64(i + 1), Book: s.id, Prev: prev, Kind: sync.Fact, Body: body, Seen: s.head.Seq, Schema: 1, Clock: sync.Clock{Wall: d.Now}})
		if err != nil {
			return err
		}
		prev = e.Hash
		push.Sent = append(push.Sent, sync.Sent{Entry: e})
	}
	results, _, err := d.Ledger.Append(ctx, s.id, d.Account, push, d.Now, d.Check)
	if err != nil {
		return err
	}
	for _, r := range results {
		if r.State != sync.OK {
			return fault.New(fault.Conflict, fmt.Sprintf("Entry %d of the import was not taken: %s", r.N, r.Words))
		}
	}
	return nil
}

// Unshelve is a shelf as a folder, by the names of its files: the newest text of every card
// that is out, byte for byte as it was written, and shelf.yaml. Conflict when a card's name
// is no file's of that folder.
func (d Desk) Unshelve(ctx context.Context, title string) (map[string]string, error) {
	s, err := d.findShelf(ctx, title)
	if err != nil {
		return nil, err
	}
	if s == nil {
		return nil, fault.New(fault.NotFound, "There is no shelf “"+title+"” of this account here.")
	}
	files := map[string]string{}
	if s.file != "" {
		files[cardtext.ShelfFile] = s.file
	}
	for _, c := range s.card.Current() {
		name := c.ID + ".yaml"
		if filepath.Base(name) != name || name == cardtext.ShelfFile { // by a newer Linkrod, or made by hand
			return nil, fault.New(fault.Conflict, "No file can be called after the card “"+c.ID+"”, so nothing was written. Ask who published it to withdraw it and give it another name.")
		}
		files[name] = s.texts[c.Hash]
	}
	return files, nil
}
