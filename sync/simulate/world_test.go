package simulate

import (
	"encoding/json"
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"

	"linkrod/sync"
)

// world is everything: one server, its phones, and what is on its way.
type world struct {
	seed     uint64
	dice     *rand.Rand // of what happens
	clocks   *rand.Rand // of how wrong the phones' clocks are, and of nothing else
	right    bool       // S10: the clocks are right, everything else is the same
	faults   faults
	server   *server
	phones   []*phone
	books    []sync.ID
	backups  []data
	net      []*packet
	roles    map[sync.ID]map[sync.ID]string // what the owner wants: book, account
	ids      int
	asked    int
	wrote    int
	restores int

	texts   map[string]bool        // everything ever saved; true: the only place it was in was wiped
	acked   map[string]bool        // everything that ever was in the ledger
	twice   map[string]bool        // what can come twice: see copyOf and stray
	named   map[string][]string    // the words an entry names, by its own
	keys    map[sync.Ref]sync.Hash // of every ledger there was
	reused  map[sync.Ref]bool      // a key that two entries had, before and after a restore
	checked map[sync.ID]sync.Head
	trouble []string
	steps   int
	log     func(string)

	meddle func(request) string           // a story says what goes wrong; "" nothing
	watch  func(*phone, request, *answer) // and tells what is asked and answered
}

// faults are chances.
type faults struct {
	drop, double, tear, portal float64 // of one request or answer
	storage, crash             float64 // of one transaction
}

// packet is a request or an answer on its way.
type packet struct {
	tab    *tab
	life   int
	number int
	in     request
	out    *answer
	back   bool // an answer; out nil: none will come
}

func newWorld(seed uint64, right bool) *world {
	w := &world{seed: seed, dice: rand.New(rand.NewPCG(seed, 1)), clocks: rand.New(rand.NewPCG(seed, 2)), right: right,
		roles: map[sync.ID]map[sync.ID]string{}, texts: map[string]bool{}, acked: map[string]bool{}, twice: map[string]bool{},
		named: map[string][]string{}, keys: map[sync.Ref]sync.Hash{}, reused: map[sync.Ref]bool{}, checked: map[sync.ID]sync.Head{}}
	w.server = &server{now: 1_762_700_000_000, data: newData(), page: 2 + w.dice.IntN(8), snapshot: 3 + w.dice.IntN(30), knows: w.chance(0.3)}
	wild := 0.12
	if w.chance(0.2) {
		wild = 0
	}
	w.faults = faults{drop: wild, double: wild / 2, tear: wild / 2, portal: wild / 4, storage: wild / 8, crash: wild / 16}
	for range 1 + w.dice.IntN(2) {
		book := w.id(0xb0)
		w.books = append(w.books, book)
		w.roles[book] = map[sync.ID]string{}
	}
	for i := range 2 + w.dice.IntN(3) {
		account := sync.ID{byte(1 + i)}
		if i > 1 && w.chance(0.3) {
			account = sync.ID{1}
		}
		w.phone(account, w.empty())
		for _, book := range w.books {
			w.roles[book][account] = "mechanic"
			w.roles[book][sync.ID{1}] = "owner"
		}
	}
	return w
}

func (w *world) phone(account sync.ID, store *storage) *phone {
	p := &phone{name: string(rune('a' + len(w.phones))), account: account, store: store, world: w}
	p.tabs = []*tab{{phone: p}}
	if w.chance(0.3) {
		p.tabs = append(p.tabs, &tab{phone: p})
	}
	w.phones = append(w.phones, p)
	w.wind(p)
	return p
}

func (w *world) empty() *storage {
	return &storage{mine: w.id(0xd0), plain: w.seed%4 == 0, books: map[sync.ID]*shelf{}}
}

// wind sets a phone's clock: right, or minutes or years off.
func (w *world) wind(p *phone) {
	off := []int64{0, 0, 0, 60_000, 3_600_000, 315_360_000_000}[w.clocks.IntN(6)]
	if w.clocks.IntN(2) == 0 {
		off = -off
	}
	if !w.right {
		p.skew = off
	}
}

func (w *world) chance(p float64) bool { return p > 0 && w.dice.Float64() < p }

// id makes an id never used before.
func (w *world) id(kind byte) (id sync.ID) {
	w.ids++
	id[0], id[1], id[2] = kind, byte(w.dice.IntN(256)), byte(w.ids>>8)
	id[3] = byte(w.ids)
	return id
}

func (w *world) logf(format string, args ...any) {
	if w.log != nil {
		w.log(fmt.Sprintf(format, args...))
	}
}

func (w *world) wrong(format string, args ...any) {
	w.trouble = append(w.trouble, fmt.Sprintf(format, args...))
	w.logf("WRONG "+format, args...)
}

func (w *world) ask(t *tab, in request) int {
	w.asked++
	w.net = append(w.net, &packet{tab: t, life: t.life, number: w.asked, in: in})
	return w.asked
}

// deliver lets one packet arrive, or not.
func (w *world) deliver(i int) {
	p := w.net[i]
	w.net = slices.Delete(w.net, i, i+1)
	if p.back {
		if p.tab.life == p.life && p.tab.asked == p.number {
			w.logf("%s hears %s", p.tab.phone.name, said(p.out))
			p.tab.heard(p.out)
		}
		return
	}
	told := ""
	if w.meddle != nil {
		told = w.meddle(p.in)
	}
	if told != "request lost" && !w.chance(w.faults.drop) {
		if told == "request torn" {
			p.in.body = p.in.body[:len(p.in.body)/2]
		}
		a := w.handle(p.in)
		if w.chance(w.faults.double) { // it arrives twice
			w.handle(p.in)
		}
		switch {
		case told == "answer lost" || w.chance(w.faults.drop):
			w.logf("the answer is lost")
		case told == "answer torn":
			p.out = &answer{a.status, a.body[:len(a.body)/2]}
		case w.chance(w.faults.tear):
			p.out = &answer{a.status, a.body[:w.dice.IntN(len(a.body))]}
		case told == "portal" || w.chance(w.faults.portal):
			p.out = &answer{200, []byte(`<!doctype html><title>Log in to the airfield's network</title>`)}
		default:
			p.out = &a
		}
	}
	p.back = true
	w.net = append(w.net, p)
	if w.watch != nil {
		w.watch(p.tab.phone, p.in, p.out)
	}
}

func said(a *answer) string {
	if a == nil {
		return "nothing"
	}
	return fmt.Sprintf("%d %.300s", a.status, a.body)
}

func (w *world) handle(in request) answer {
	w.logf("server gets %s %s of %x: %.200s", in.method, in.path, in.account[:1], in.body)
	a := w.server.handle(in)
	w.checkLedgers()
	return a
}

// step lets one thing happen.
func (w *world) step() {
	w.steps++
	w.server.now += int64(w.dice.IntN(3)) * int64(w.dice.IntN(100_000))
	p := w.phones[w.dice.IntN(len(w.phones))]
	for p.gone {
		p = w.phones[w.dice.IntN(len(w.phones))]
	}
	switch n := w.dice.IntN(100); {
	case n < 14:
		w.save(p)
	case n < 34:
		if t := p.tabs[w.dice.IntN(len(p.tabs))]; t.asked == 0 {
			t.begin()
		}
	case n < 84:
		if len(w.net) > 0 {
			w.deliver(w.dice.IntN(len(w.net)))
		}
	case n < 86: // patience ends; the request may still arrive
		for _, t := range p.tabs {
			if t.asked != 0 {
				t.heard(nil)
			}
		}
	case n < 87:
		p.crash()
	case n < 88:
		w.wind(p)
	default:
		w.upset(p, w.dice.IntN(24))
	}
}

// upset is one of the worse things.
func (w *world) upset(p *phone, what int) {
	account := sync.ID{byte(2 + w.dice.IntN(4))}
	book := w.books[w.dice.IntN(len(w.books))]
	b := w.server.data.books[book]
	switch {
	case what < 4:
		w.backups = append(w.backups, w.server.data.copy())
		w.logf("server backs up")
	case what < 7 && len(w.backups) > 0:
		from := w.backups[w.dice.IntN(len(w.backups))]
		told := w.chance(0.5)
		for _, p := range w.net {
			w.stray(p)
		}
		w.restores++
		w.lose("server is put back", func() {
			w.server.data = from.copy()
			if told {
				w.server.restored = w.server.now
			}
			w.checked = map[sync.ID]sync.Head{}
		})
	case what < 8 && len(w.phones) < 7:
		c := w.phone(p.account, w.copyOf(p))
		w.logf("%s is copied to %s", p.name, c.name)
	case what < 9:
		kept := w.copyOf(p)
		w.save(p)
		w.save(p)
		w.lose(p.name+" is put back from its copy", func() { p.store = kept })
		p.crash()
	case what < 10 && w.chance(0.4):
		w.lose(p.name+" is emptied by its browser", func() { p.store = w.empty() })
		p.crash()
	case what < 12:
		w.server.full = !w.server.full
	case what < 15 && b != nil && b.roles[account] != "":
		role := []string{"reader", "mechanic", ""}[w.dice.IntN(3)]
		w.roles[book][account] = role
		b.roles[account] = role
		w.logf("%x is now %q", account[:1], role)
	case what < 16 && w.chance(0.3):
		if o, ok := w.server.data.devices[p.store.mine]; ok {
			o.revoked = true
			w.server.data.devices[p.store.mine] = o
			w.logf("the device of %s is revoked", p.name)
		}
	case what < 18 && b != nil:
		w.admit(b, 1)
	case what < 19 && b != nil:
		w.forge(p, book, b)
	case what < 20 && w.chance(0.3) && p != w.phones[0]:
		w.lose(p.name+" falls into the sea", func() { p.gone = true })
		p.crash()
	default:
		w.invite()
	}
}

// copyOf copies a phone's storage. What was written on it is in two places now;
// when both must write it anew under ids of their own, it is in the book twice,
// for nothing tells the two apart.
func (w *world) copyOf(p *phone) *storage {
	for _, b := range p.store.books {
		for _, r := range b.rows {
			if r.Own {
				w.twice[string(r.entry.Body)] = true
			}
		}
	}
	return p.store.copy()
}

// stray notes a push that is on its way while the server is put back: arriving
// late it can be taken under a number that its phone has given up meanwhile.
func (w *world) stray(p *packet) {
	push, err := sync.DecodePush(p.in.body, w.books[0])
	if err != nil && len(w.books) > 1 {
		push, _ = sync.DecodePush(p.in.body, w.books[1])
	}
	for _, s := range push.Sent {
		w.twice[string(s.Entry.Body)] = true
	}
}

// tell logs what a transaction changed in the rows.
func (w *world) tell(p *phone, s *storage) {
	for id, b := range s.books {
		var before map[place]row
		if old := p.store.books[id]; old != nil {
			before = old.rows
		}
		for _, r := range b.sorted() {
			if was := before[place{Ref: r.Ref}]; was.At != r.At || was.Seq != r.Seq || was.Hash != r.Hash {
				w.logf("   %s: %x:%d %s %d -> %s %d own %v %s", p.name, r.Device[:4], r.N, was.At, was.Seq, r.At, r.Seq, r.Own, r.entry.Body)
			}
		}
	}
}

// invite lets everybody in as the owner wants it, where there is a book.
func (w *world) invite() {
	for _, id := range w.books {
		if b := w.server.data.books[id]; b != nil {
			for account, role := range w.roles[id] {
				b.roles[account] = role
			}
		}
	}
}

// admit lets in some of what was set aside.
func (w *world) admit(b *book, most int) {
	list := slices.Concat(slices.Collect(maps.Values(b.aside)), slices.Collect(maps.Values(b.offered)))
	slices.SortFunc(list, func(x, y sync.Aside) int { return strings.Compare(x.Hash.String(), y.Hash.String()) })
	for _, a := range list {
		if most > 0 && a.State == sync.Held && !strings.Contains(wordsIn(a.Raw), "forged") && w.server.admit(b, a) {
			most--
			w.logf("the host admits %d of %x", a.N, a.Device[:4])
		}
	}
	w.checkLedgers()
}

// forge: a member hands in as lost what nobody wrote, with a receipt that proves
// something else.
func (w *world) forge(p *phone, id sync.ID, b *book) {
	e := sync.Entry{Device: w.id(0xdf), N: 1, Book: id, Kind: sync.Fact, Body: []byte(`{"t":"forged"}`)}
	e.Hash = e.Sum()
	body, _ := json.Marshal(map[string]any{"after": b.head(), "receipt": w.server.receipt(id, b.head()),
		"records": []any{map[string]any{"seq": 1, "received": 1, "account": sync.ID{1}, "author": "x", "entry": e}}})
	w.handle(request{account: p.account, method: "POST", path: "books/" + id.String() + "/salvage", body: body})
}

// body is what the entries of this world say.
type body struct {
	Text   string `json:"t"`
	Value  string `json:"v,omitempty"`
	Field  string `json:"f,omitempty"`
	Covers string `json:"covers,omitempty"`
}

// save lets a person write something on a phone.
func (w *world) save(p *phone) {
	book := w.books[w.dice.IntN(len(w.books))]
	w.wrote++
	text := fmt.Sprintf("%s-%d", p.name, w.wrote)
	f := sync.Fresh{Kind: sync.Fact}
	say := body{Text: text}
	view := viewOf(p.store.book(book).records())
	n := w.dice.IntN(100)
	field := []string{"name", "ceiling"}[w.dice.IntN(2)]
	switch {
	case n < 40:
	case n < 75:
		say.Field, say.Value = field, fmt.Sprint(w.dice.IntN(3))
		f.Refs = view.heads[field]
		switch {
		case len(f.Refs) == 1:
			f.Kind = sync.Replace
		case len(f.Refs) > 1:
			f.Kind = sync.Settle
		}
	case n < 82 && len(view.keys) > 0:
		f.Kind, f.Refs = sync.Strike, []sync.Ref{view.keys[w.dice.IntN(len(view.keys))]}
	case n < 90 && len(view.keys) > 0:
		key := view.keys[w.dice.IntN(len(view.keys))]
		f.Kind, f.Refs = sync.Sign, []sync.Ref{key}
		say.Covers = sync.Cover([]sync.Entry{view.entries[key]}).String()
	case n < 93:
		w.weave(p, book, text)
		return
	}
	f.Body, _ = json.Marshal(say)
	if n > 97 {
		f.Body = []byte(text + " and half of somethi") // no version can read it
	}
	w.named[string(f.Body)] = nil
	for _, ref := range f.Refs {
		w.named[string(f.Body)] = append(w.named[string(f.Body)], string(view.entries[ref].Body))
	}
	if err := p.save(book, f); err == nil {
		w.saved(p, f.Body)
		w.logf("%s writes %s %s %v", p.name, f.Kind, f.Body, f.Refs)
	}
}

// weave writes a kind that only a newer program knows.
func (w *world) weave(p *phone, id sync.ID, text string) {
	data, _ := json.Marshal(body{Text: text})
	err := p.write(func(s *storage) error {
		b := s.book(id)
		d := b.device(id)
		last := b.last(s.mine)
		e := sync.Entry{Device: s.mine, N: last.N + 1, Book: id, Prev: last.Hash, Kind: "weave", Body: data, Seen: d.Head.Seq, Schema: 1,
			Clock: sync.Clock{Wall: w.server.now + p.skew}}
		e.Hash = e.Sum()
		b.rows[place{Ref: sync.Ref{Device: e.Device, N: e.N}}] = row{entry: e,
			Row: sync.Row{Ref: sync.Ref{Device: e.Device, N: e.N}, Hash: e.Hash, At: sync.AtWaiting, Own: true}}
		return nil
	})
	if err == nil {
		w.saved(p, data)
		w.logf("%s weaves %s", p.name, data)
	}
}

func (w *world) saved(_ *phone, text []byte) { w.texts[string(text)] = false }

// records are the rows of a book in the ledger's order, what is not in it last.
func (b *shelf) records() (list []sync.Record) {
	rows := b.sorted()
	slices.SortStableFunc(rows, func(x, y row) int {
		if a, b := x.At == sync.AtSent, y.At == sync.AtSent; a != b {
			if a {
				return -1
			}
			return 1
		}
		return int(x.Seq) - int(y.Seq)
	})
	for _, r := range rows {
		list = append(list, sync.Record{Seq: r.Seq, Received: r.Received, Account: r.Account, Author: r.Author, Entry: r.entry})
	}
	return list
}
