package simulate

import (
	"encoding/json"
	"reflect"
	"slices"
	"strings"

	"linkrod/sync"
)

// checkLedgers asserts S1 of what was added since it last looked.
func (w *world) checkLedgers() {
	for id, b := range w.server.data.books {
		from := w.checked[id]
		if from.Seq > uint64(len(b.records)) {
			w.wrong("S1: the ledger lost %d records by itself", from.Seq-uint64(len(b.records)))
			from = sync.Head{}
		}
		for _, r := range b.records[from.Seq:] {
			w.acked[string(r.Entry.Body)] = true
			key := sync.Ref{Device: r.Entry.Device, N: r.Entry.N}
			if h, known := w.keys[key]; known && h != r.Entry.Hash {
				w.reused[key] = true
			}
			w.keys[key] = r.Entry.Hash
			if strings.Contains(string(r.Entry.Body), "forged") {
				w.wrong("R1: record %d is forged", r.Seq)
			}
			if r.Entry.Kind.Known() && r.Entry.Verify() != nil {
				w.wrong("S1: record %d is not what its hash says", r.Seq)
			}
			if t := b.turns[sync.Ref{Device: r.Entry.Device, N: r.Entry.N}]; t.Seq != r.Seq || t.Hash != r.Entry.Hash {
				w.wrong("S7: %d of %x stands at %d and its turn says %d", r.Entry.N, r.Entry.Device[:4], r.Seq, t.Seq)
			}
		}
		head, err := sync.Follow(from, b.records[from.Seq:])
		if err != nil || head != b.head() {
			w.wrong("S1: %v", err)
		}
		w.checked[id] = head
	}
}

// committed asserts S2 to S4 of a transaction that went through.
func (w *world) committed(p *phone, s *storage) {
	for id, b := range s.books {
		before := p.store.books[id]
		if before != nil && before.state == b.state && len(before.rows) == len(b.rows) {
			continue // rows only change together with the state, or by one more
		}
		w.checkShelf(p, id, before, b)
	}
}

func (w *world) checkShelf(p *phone, id sync.ID, before, b *shelf) {
	d := b.device(id)
	words := make(map[string]bool, len(b.rows))
	bySeq := make([]*row, d.Head.Seq)
	for at, r := range b.rows {
		words[string(r.entry.Body)] = true
		if r.Hash != r.entry.Hash || r.Ref != (sync.Ref{Device: r.entry.Device, N: r.entry.N}) {
			w.wrong("P5: %s has a row that is not its entry's", p.name)
		}
		if (r.At == sync.AtRefused || r.At == sync.AtHeld) && r.words == "" {
			w.wrong("S4: %s has %d in the tray without a reason", p.name, r.N)
		}
		if r.At == sync.AtSent && r.Seq == 0 || r.At == sync.AtWaiting && (r.Seq != 0 || !r.Own) || r.At == sync.AtLost && r.Seq != 0 && !at.shelved {
			w.wrong("P3: %s has a row %s at %d", p.name, r.At, r.Seq)
		}
		if r.At == sync.AtSent && r.Seq <= d.Head.Seq && !at.shelved {
			if bySeq[r.Seq-1] != nil {
				w.wrong("P2: %s has two rows at %d", p.name, r.Seq)
			}
			bySeq[r.Seq-1] = &r
		}
	}
	if before != nil {
		for _, r := range before.rows {
			if _, here := b.rows[place{Ref: r.Ref}]; !here && w.acked[string(r.entry.Body)] {
				w.twice[string(r.entry.Body)] = true // a ledger had it under the number it leaves, and may again
			}
			if !words[string(r.entry.Body)] {
				w.wrong("P1: %s dropped the words %s", p.name, r.entry.Body)
			}
		}
	}
	moved := before == nil || before.device(id).Head != d.Head
	var head sync.Head
	for i, r := range bySeq {
		if r == nil {
			w.wrong("P2: %s has no row at %d of %d", p.name, i+1, d.Head.Seq)
			return
		}
		if moved {
			head = head.Next(r.Hash, r.Account, r.Received)
		}
	}
	if moved && head != d.Head {
		w.wrong("P2: %s's rows lead elsewhere than its head %d", p.name, d.Head.Seq)
	}
	for i, m := range d.Marks {
		if i > 0 && m.Seq <= d.Marks[i-1].Seq || m.Seq > d.Head.Seq || i == len(d.Marks)-1 && m.Head != d.Head {
			w.wrong("P4: %s's marks", p.name)
		}
	}
}

// checkCopied asserts that a phone goes on under a new id only when its number
// has been used by another entry, or what came before it is not there any more;
// and that it takes nothing along that the ledger has. (Two restores can give one
// number to two entries; then the ledger may hold some of either line, and people
// see both.)
func (w *world) checkCopied(p *phone, s *storage) {
	for id, b := range p.store.books {
		for at, r := range b.rows {
			ledger := w.server.data.books[id]
			if _, stays := s.books[id].rows[at]; !stays && ledger != nil && ledger.turns[at.Ref].Hash == r.Hash && ledger.turns[at.Ref].Seq > 0 && w.restores < 2 {
				w.wrong("S7: %s writes %s anew, which the ledger has", p.name, r.entry.Body)
			}
		}
	}
	for _, from := range s.moved {
		for _, b := range p.store.books {
			if r, here := b.rows[from]; !here || !r.Own {
				continue
			}
			twin := false // or of a number before it, which the chain of the device tells
			for n := uint64(1); n <= from.N; n++ {
				at := sync.Ref{Device: from.Device, N: n}
				for _, used := range w.server.used[at] {
					twin = twin || used != b.rows[place{Ref: at}].Hash
				}
			}
			if !twin {
				w.wrong("S9: %s takes itself for a copy at %d of %x, and is none", p.name, from.N, from.Device[:4])
			}
		}
	}
}

// holders are the words that somebody still has.
func (w *world) holders() map[string]bool {
	have := map[string]bool{}
	for _, p := range w.phones {
		if p.gone {
			continue
		}
		for _, b := range p.store.books {
			for _, r := range b.rows {
				have[string(r.entry.Body)] = true
			}
		}
	}
	for words := range w.onServer() {
		have[words] = true
	}
	return have
}

// onServer are the words in a ledger or beside one.
func (w *world) onServer() map[string]bool {
	have := map[string]bool{}
	for _, b := range w.server.data.books {
		for _, r := range b.records {
			have[string(r.Entry.Body)] = true
		}
		for _, a := range b.aside {
			have[wordsIn(a.Raw)] = true
		}
		for _, a := range b.offered {
			have[wordsIn(a.Raw)] = true
		}
	}
	return have
}

func wordsIn(raw []byte) string {
	var e struct {
		Body []byte `json:"body"`
	}
	_ = json.Unmarshal(raw, &e)
	return string(e.Body)
}

// lose does something that may take the last copy of words with it; those are
// given up, and no others (S3).
func (w *world) lose(what string, act func()) {
	w.logf("%s", what)
	before := w.holders()
	act()
	after := w.holders()
	for words := range before {
		if !after[words] {
			w.texts[words] = true
		}
	}
}

// checkWords asserts S3.
func (w *world) checkWords() {
	have := w.holders()
	for words, given := range w.texts {
		if !given && !have[words] {
			w.wrong("S3: %s is nowhere", words)
		}
	}
}

// checkQuiet asserts S5 to S9 once everybody has talked.
func (w *world) checkQuiet() {
	w.checkWords()
	for _, id := range w.books {
		b := w.server.data.books[id]
		if b == nil {
			w.wrong("S6: the book %x is not on the server", id[:2])
			continue
		}
		w.checkBook(id, b)
		for _, p := range w.phones {
			if p.gone || b.roles[p.account] == "" {
				continue
			}
			w.checkMember(p, id, b)
		}
	}
	w.checkHeld()
}

// checkBook asserts S7, S8 and that a snapshot and its tail are the ledger.
func (w *world) checkBook(id sync.ID, b *book) {
	keys, words := map[sync.Ref]bool{}, map[string]bool{}
	for _, r := range b.records {
		key := sync.Ref{Device: r.Entry.Device, N: r.Entry.N}
		if keys[key] {
			w.wrong("S7: %d of %x stands twice", key.N, key.Device[:4])
		}
		if words[string(r.Entry.Body)] && !w.twice[string(r.Entry.Body)] {
			w.wrong("S7: %s stands twice", r.Entry.Body)
		}
		keys[key], words[string(r.Entry.Body)] = true, true
	}
	v := viewOf(b.records)
	for _, r := range b.records {
		for _, ref := range r.Entry.Refs {
			if e, here := v.entries[ref]; here && !w.reused[ref] && !slices.Contains(w.named[string(r.Entry.Body)], string(e.Body)) {
				w.wrong("S8: %s names %s, which its author did not mean", r.Entry.Body, e.Body)
			}
		}
	}
	for _, field := range []string{"name", "ceiling"} {
		if left := slow(b.records, field); !slices.Equal(left, v.heads[field]) {
			w.wrong("S8: the heads of %s are %v, and by the pencil %v", field, v.heads[field], left)
		}
		if len(v.heads[field]) == 0 && slices.ContainsFunc(b.records, func(r sync.Record) bool {
			var say body
			_ = json.Unmarshal(r.Entry.Body, &say)
			return say.Field == field
		}) {
			w.wrong("S8: %s has values and none is reached", field)
		}
	}
	cut := int(w.seed % uint64(len(b.records)+1))
	var receipts []sync.Receipt
	for _, h := range sync.PageEnds(b.records[:cut]) {
		receipts = append(receipts, w.server.receipt(id, h))
	}
	s, err := sync.DecodeSnapshot(sync.EncodeSnapshot(id, b.records[:cut], receipts, 0), id)
	if err != nil {
		w.wrong("S5: the snapshot: %v", err)
		return
	}
	if all := append(s.Records, b.records[cut:]...); len(all) != len(b.records) || len(all) > 0 && !reflect.DeepEqual(all, b.records) {
		w.wrong("S5: snapshot and tail are not the ledger")
	}
}

// checkMember asserts S5 and S9 of one phone.
func (w *world) checkMember(p *phone, id sync.ID, b *book) {
	shelf := p.store.book(id)
	d := shelf.device(id)
	if d.Head != b.head() {
		w.wrong("S5: %s stands at %d and the ledger at %d", p.name, d.Head.Seq, b.head().Seq)
		return
	}
	var sent []sync.Record
	for _, r := range shelf.records() {
		if row := shelf.rows[place{Ref: sync.Ref{Device: r.Entry.Device, N: r.Entry.N}}]; row.At == sync.AtSent && row.Hash == r.Entry.Hash {
			sent = append(sent, r)
		}
	}
	if mine, theirs := viewOf(sent), viewOf(b.records); mine.text != theirs.text || !slices.Equal(mine.disagreements(), theirs.disagreements()) {
		w.wrong("S5: %s sees\n%sand the ledger is\n%s", p.name, mine.text, theirs.text)
	}
	if d.ToHand() > 0 || d.Finding || len(d.Acked) > 0 {
		w.wrong("S9: %s is not done: %d pages, finding %v, %d acked", p.name, d.ToHand(), d.Finding, len(d.Acked))
	}
	for at, r := range shelf.rows {
		if ahead := r.entry.Clock.Wall > r.Received+300_000; r.At == sync.AtSent && !at.shelved && (ahead || w.right) && ahead != (r.clock != sync.Span{}) {
			w.wrong("S10: %s flags the clock of %s: %v; received %d", p.name, r.entry.Body, r.clock, r.Received)
		}
		if r.At == sync.AtWaiting && !w.server.data.devices[r.Device].revoked {
			w.wrong("S9: %s still has %s waiting", p.name, r.entry.Body)
		}
	}
}

// checkHeld asserts S6.
func (w *world) checkHeld() {
	server := w.onServer()
	for _, p := range w.phones {
		if p.gone {
			continue
		}
		for id, shelf := range p.store.books {
			b := w.server.data.books[id]
			if b == nil || b.roles[p.account] == "" {
				continue
			}
			inLedger := map[string]bool{}
			for _, a := range b.offered {
				inLedger[wordsIn(a.Raw)] = true // its number is another's by now: the host has it to admit
			}
			for _, r := range b.records {
				inLedger[string(r.Entry.Body)] = true
			}
			for _, r := range shelf.rows {
				words := string(r.entry.Body)
				revoked := w.server.data.devices[r.Device].revoked
				switch {
				case r.At == sync.AtRefused || r.At == sync.AtHeld: // in the tray, where it can be read and exported
				case !server[words] && !(r.At == sync.AtWaiting && revoked):
					w.wrong("S6: %s holds %s (%s), and the server has it nowhere", p.name, words, r.At)
				case w.acked[words] && !inLedger[words] && !revoked && b.turns[r.Ref].Hash == r.Hash:
					w.wrong("S6: %s was acknowledged, %s holds it (%s), and it is not in the ledger", words, p.name, r.At)
				}
			}
		}
	}
}
