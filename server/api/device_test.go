package api_test

import (
	"crypto/rand"
	"encoding/json"
	"fmt"
	"maps"
	"net/http"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"linkrod/server/people"
	"linkrod/server/store"
	"linkrod/sync"
	"linkrod/sync/plain"
)

// pocket is a phone: the machine of package sync, driven as the app drives it,
// by JSON alone and over the real HTTP side. What the worker does with
// IndexedDB is done with maps here. The simulation in sync/simulate tries what
// can happen; this holds its server to the real one.
type pocket struct {
	caller
	t     *testing.T
	mine  sync.ID
	books map[sync.ID]*kept
	shown []string
}

type kept struct {
	state json.RawMessage
	rows  map[string]*row
}

// row is one row of a phone's storage.
type row struct {
	Device   sync.ID         `json:"device"`
	N        int64           `json:"n"`
	Hash     sync.Hash       `json:"hash"`
	State    string          `json:"state"`
	Seq      int64           `json:"seq"`
	Own      bool            `json:"own"`
	Author   string          `json:"author"`
	Account  sync.ID         `json:"account"`
	Received int64           `json:"received"`
	entry    json.RawMessage // as it was written
	words    string
}

// effect is what the machine wants done.
type effect struct {
	Do       string
	Entry    json.RawMessage
	Device   sync.ID
	ID       sync.ID
	N, Seq   int64
	From     int64
	Above    int64
	State    *string
	Words    string
	Own      any // of a put whether it is; of a show how many
	Author   *string
	Account  *sync.ID
	Received *int64
	Written  int64
	Code     string
	Method   string
	Path     string
	Body     json.RawMessage
	Fill     string
	Needs    string
	To       json.RawMessage
	Later    bool
}

func newPocket(t *testing.T, who caller) *pocket {
	p := &pocket{caller: who, t: t, books: map[sync.ID]*kept{}}
	rand.Read(p.mine[:])
	return p
}

func rowKey(device sync.ID, n int64) string { return fmt.Sprint(device, ":", n) }

func (p *pocket) book(id sync.ID) *kept {
	if p.books[id] == nil {
		p.books[id] = &kept{state: json.RawMessage("null"), rows: map[string]*row{}}
	}
	return p.books[id]
}

// sorted are rows by device and number, those that match.
func (k *kept) sorted(match func(*row) bool) (list []*row) {
	for _, key := range slices.Sorted(maps.Keys(k.rows)) {
		if r := k.rows[key]; match(r) {
			list = append(list, r)
		}
	}
	slices.SortStableFunc(list, func(a, b *row) int {
		if a.Device != b.Device {
			return strings.Compare(a.Device.String(), b.Device.String())
		}
		return int(a.N - b.N)
	})
	return list
}

func (p *pocket) last(k *kept) (last map[string]any) {
	for _, r := range k.sorted(func(r *row) bool { return r.Device == p.mine }) {
		last = map[string]any{"n": r.N, "hash": r.Hash}
	}
	return last
}

// step gives the machine of a book one input and does what it wants done with
// the rows. The rest is returned.
func (p *pocket) step(id sync.ID, input map[string]any) (after []effect) {
	p.t.Helper()
	k := p.book(id)
	args, err := json.Marshal(map[string]any{"state": k.state, "book": id, "mine": p.mine, "input": input})
	if err != nil {
		p.t.Fatal(err)
	}
	v, err := plain.Parse(args)
	if err != nil {
		p.t.Fatal(err)
	}
	var w plain.Writer
	if err := sync.Step(v, &w); err != nil {
		p.t.Fatalf("%s: %v", input["is"], err)
	}
	var out struct {
		State   json.RawMessage
		Effects []effect
	}
	if err := json.Unmarshal(w.Bytes(), &out); err != nil {
		p.t.Fatalf("%v in %s", err, w.Bytes())
	}
	k.state = out.State
	for _, e := range out.Effects {
		key := rowKey(e.Device, e.N)
		switch e.Do {
		case "put":
			var entry sync.Entry
			if err := json.Unmarshal(e.Entry, &entry); err != nil {
				p.t.Fatal(err)
			}
			r := &row{Device: entry.Device, N: int64(entry.N), Hash: entry.Hash, State: *e.State, Seq: e.Seq, Own: e.Own == true, entry: e.Entry, words: e.Words}
			if old := k.rows[rowKey(r.Device, r.N)]; old != nil && old.Hash != r.Hash {
				p.t.Fatalf("another entry is put over %s", rowKey(r.Device, r.N))
			}
			if e.Author != nil {
				r.Author = *e.Author
			}
			if e.Account != nil {
				r.Account = *e.Account
			}
			if e.Received != nil {
				r.Received = *e.Received
			}
			k.rows[rowKey(r.Device, r.N)] = r
		case "patch":
			r := k.rows[key]
			if r == nil {
				p.t.Fatalf("a patch of no row: %+v", e)
			}
			if e.State != nil {
				r.State, r.Seq, r.words = *e.State, e.Seq, e.Words
			}
			if e.Author != nil {
				r.Author = *e.Author
			}
			if e.Account != nil {
				r.Account = *e.Account
			}
			if e.Received != nil {
				r.Received = *e.Received
			}
		case "drop":
			delete(k.rows, key)
		case "shelve":
			r := k.rows[key]
			delete(k.rows, key)
			r.State, r.N = "lost", -e.N
			k.rows[rowKey(e.Device, r.N)] = r
		case "reoffer":
			for _, r := range k.rows {
				if r.Own && (r.State == "refused" || r.State == "held") {
					r.State, r.Seq = "waiting", 0
				}
			}
		case "revive":
			for _, r := range k.rows {
				if r.Own && r.Device == e.Device && r.N >= e.From && r.State != "waiting" && (r.State != "sent" || r.Seq > e.Above) {
					r.State, r.Seq = "waiting", 0
				}
			}
		case "device":
			p.mine = e.ID
		case "anew":
			in := map[string]any{"is": "anew", "device": e.Device, "from": e.From, "last": p.last(k)}
			var rows []any
			for _, r := range k.sorted(func(r *row) bool { return r.Own && r.State == "waiting" }) {
				rows = append(rows, map[string]any{"entry": r.entry, "written": r.Received})
			}
			var fresh sync.ID
			rand.Read(fresh[:])
			in["rows"], in["fresh"] = rows, fresh
			after = append(after, p.step(id, in)...)
		case "show":
			p.shown = append(p.shown, e.Code)
		case "send", "rest":
			after = append(after, e)
		case "changed":
		default:
			p.t.Fatalf("an effect nobody knows: %s", e.Do)
		}
	}
	return after
}

// save writes one line, as a person does.
func (p *pocket) save(id sync.ID, words string) {
	p.t.Helper()
	text, _ := json.Marshal(map[string]string{"type": "note", "text": words})
	p.step(id, map[string]any{"is": "wrote", "last": p.last(p.book(id)), "clock": map[string]any{"wall": time.Now().UnixMilli(), "zone": 60},
		"fresh": []any{map[string]any{"kind": "fact", "refs": []any{}, "text": string(text), "schema": 1}}})
}

// round is one round of the app: hello, then every book until it rests.
func (p *pocket) round() {
	p.t.Helper()
	status, text := p.do(p.t, "GET", "/api/v1/hello", nil)
	if status != http.StatusOK {
		p.shown = append(p.shown, fmt.Sprint("hello ", status))
		return
	}
	var hello struct {
		Books     []json.RawMessage
		Restored  int64
		MinSchema int `json:"min_schema"`
		MaxSchema int `json:"max_schema"`
		Limits    json.RawMessage
	}
	if err := json.Unmarshal([]byte(text), &hello); err != nil {
		p.t.Fatal(err)
	}
	listed := map[sync.ID]any{}
	for id := range p.books {
		listed[id] = nil
	}
	for _, b := range hello.Books {
		var is struct{ Book sync.ID }
		if err := json.Unmarshal(b, &is); err != nil {
			p.t.Fatal(err)
		}
		listed[is.Book] = b
	}
	for id, b := range listed {
		p.step(id, map[string]any{"is": "hello", "book": b, "min_schema": hello.MinSchema, "max_schema": hello.MaxSchema, "restored": hello.Restored})
		p.sync(id, hello.Limits)
	}
}

func (p *pocket) sync(id sync.ID, limits json.RawMessage) {
	p.t.Helper()
	k := p.book(id)
	for range 200 {
		var waiting []any
		for _, r := range k.sorted(func(r *row) bool { return r.Own && r.State == "waiting" }) {
			waiting = append(waiting, map[string]any{"device": r.Device, "n": r.N, "bytes": len(r.entry)})
		}
		var send *effect
		for _, e := range p.step(id, map[string]any{"is": "line", "waiting": waiting, "limits": limits}) {
			if e.Do == "send" {
				send = &e
			}
		}
		if send == nil {
			return
		}
		status, text := p.do(p.t, send.Method, "/api/v1/"+send.Path, p.fill(k, *send))
		if status >= 500 {
			p.t.Errorf("%s %s: %d %s", send.Method, send.Path, status, text)
		}
		rests := false
		for _, e := range p.step(id, map[string]any{"is": "reply", "to": send.To, "status": status, "reply": json.RawMessage(text), "rows": p.rows(k, *send, text)}) {
			rests = rests || e.Do == "rest"
		}
		if rests {
			return
		}
	}
	p.t.Errorf("a round of book %v does not end", id)
}

// fill completes the body of a request from the rows.
func (p *pocket) fill(k *kept, e effect) any {
	var to struct {
		Device sync.ID
		Ns     []int64
	}
	if err := json.Unmarshal(e.To, &to); err != nil {
		p.t.Fatal(err)
	}
	switch e.Fill {
	case "push":
		var entries []json.RawMessage
		for _, n := range to.Ns {
			entries = append(entries, k.rows[rowKey(to.Device, n)].entry)
		}
		return map[string]any{"device": to.Device, "entries": entries}
	case "salvage":
		var body map[string]any
		if err := json.Unmarshal(e.Body, &body); err != nil {
			p.t.Fatal(err)
		}
		for _, r := range body["records"].([]any) {
			record := r.(map[string]any)
			device, _ := sync.ParseID(record["device"].(string))
			n := int64(record["n"].(float64))
			r := k.rows[rowKey(device, -n)]
			if r == nil {
				r = k.rows[rowKey(device, n)]
			}
			record["entry"] = r.entry
		}
		return body
	}
	if e.Body == nil {
		return nil
	}
	return e.Body
}

// rows are what the machine needs beside an answer.
func (p *pocket) rows(k *kept, e effect, reply string) (list []*row) {
	switch e.Needs {
	case "all":
		return k.sorted(func(r *row) bool { return r.N > 0 })
	case "keys":
		var keys struct{ Records []struct{ Entry sync.Ref } }
		json.Unmarshal([]byte(reply), &keys) // an error has none
		var to struct {
			Device sync.ID
			Ns     []int64
		}
		if err := json.Unmarshal(e.To, &to); err != nil {
			p.t.Fatal(err)
		}
		for _, n := range to.Ns {
			if r := k.rows[rowKey(to.Device, n)]; r != nil {
				list = append(list, r)
			}
		}
		for _, r := range keys.Records {
			if known := k.rows[rowKey(r.Entry.Device, int64(r.Entry.N))]; known != nil {
				list = append(list, known)
			}
		}
	}
	return list
}

// ledger is what the phone has of a book, in order.
func (p *pocket) ledger(id sync.ID) (lines []string) {
	sent := p.book(id).sorted(func(r *row) bool { return r.State == "sent" })
	slices.SortFunc(sent, func(a, b *row) int { return int(a.Seq - b.Seq) })
	for _, r := range sent {
		lines = append(lines, fmt.Sprintf("%d %s %s", r.Seq, r.Author, p.text(r)))
	}
	return lines
}

func (p *pocket) text(r *row) string {
	var e sync.Entry
	var body struct{ Text string }
	if json.Unmarshal(r.entry, &e) != nil || json.Unmarshal(e.Body, &body) != nil {
		p.t.Fatalf("a row that can't be read: %s", r.entry)
	}
	return body.Text
}

// has are the words of every row, whatever its state.
func (p *pocket) has(id sync.ID) (words []string) {
	for _, r := range p.book(id).rows {
		words = append(words, p.text(r)+" "+r.State)
	}
	slices.Sort(words)
	return words
}

func (p *pocket) shut(id sync.ID) string {
	var s struct{ Shut string }
	json.Unmarshal(p.book(id).state, &s)
	return s.Shut
}

// The phone's machine against the real server: the restore of must-show 2.
func TestThePhoneAfterARestore(t *testing.T) {
	dir := t.TempDir()
	file, backup := filepath.Join(dir, store.FileName), filepath.Join(dir, "backup.db")
	db, err := store.Open(file, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	s := openShop(t, db)
	ann, ben := newPocket(t, s.ann), newPocket(t, s.ben)
	ann.save(book, "one")
	ann.round()
	s.benJoins(t, people.Mechanic)
	ben.round()
	ben.save(book, "two")
	ben.round()
	ann.round()
	if _, err := store.Backup(file, backup, db.Copy); err != nil {
		t.Fatal(err)
	}
	for _, words := range []string{"three", "four"} {
		ann.save(book, words)
		ben.save(book, words+" of Ben")
		ann.round()
		ben.round()
	}
	ann.round() // has all of Ben's; Ben's phone is not seen again
	if got := ann.ledger(book); len(got) != 6 {
		t.Fatalf("before: %q", got)
	}

	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	if _, _, err := store.Restore(file, backup, time.Now()); err != nil {
		t.Fatal(err)
	}
	if db, err = store.Open(file, store.Options{}); err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	s.reopen(t, db)
	other := newPocket(t, s.ann) // another phone of Ann's moves the ledger past where the first one was
	other.round()
	for i := range 9 {
		other.save(book, fmt.Sprint("meanwhile ", i))
	}
	other.round()
	if got := other.ledger(book); len(got) != 11 {
		t.Fatalf("meanwhile: %q", got)
	}

	ann.caller = s.ann
	ann.save(book, "after")
	for range 3 {
		ann.round()
		other.round()
	}
	a, o := ann.ledger(book), other.ledger(book)
	if len(a) != 16 || fmt.Sprint(a) != fmt.Sprint(o) {
		t.Errorf("Ann's phone has\n%q\nthe other\n%q\nwant both the same 16", a, o)
	}
	all := strings.Join(a, "\n")
	for _, words := range []string{"Ann Example one", "Ben Example two", "Ann Example three", "Ben Example three of Ben", "Ann Example four", "Ben Example four of Ben", "Ann Example after"} {
		if strings.Count(all, words+"\n")+strings.Count(all+"\n", words+"\n") == 0 {
			t.Errorf("%q is gone:\n%s", words, all)
		}
	}
	if !slices.Contains(ann.shown, "set-back") {
		t.Errorf("nobody told Ann: %q", ann.shown)
	}
	ben.caller = s.ben // and comes back after all
	ben.round()
	ben.round()
	if b := ben.ledger(book); fmt.Sprint(b) != fmt.Sprint(a) {
		t.Errorf("Ben's phone has\n%q", b)
	}
	if r, err := db.Verify(); err != nil || len(r.Problems) > 0 || r.Records != 16 || r.Aside != 0 {
		t.Errorf("the store: %+v, %v", r, err)
	}
}

// The phone's machine against the real server: a new phone starts from a
// snapshot, a copied one gets an id of its own, one that was removed and one
// whose owner left keep what they hold.
func TestThePhoneAndItsServer(t *testing.T) {
	s := openShop(t, store.Memory())
	ann := newPocket(t, s.ann)
	for i := range 620 {
		ann.save(book, fmt.Sprint("line ", i))
	}
	ann.round()
	if got := ann.ledger(book); len(got) != 620 || ann.shut(book) != "" {
		t.Fatalf("%d lines went up, shut %q, shown %q", len(got), ann.shut(book), ann.shown)
	}
	s.benJoins(t, people.Helper)
	ben := newPocket(t, s.ben)
	ben.round()
	if a, b := ann.ledger(book), ben.ledger(book); fmt.Sprint(a) != fmt.Sprint(b) {
		t.Errorf("by snapshot Ben's phone has %d lines, Ann's %d", len(b), len(a))
	}

	// A copy of Ann's phone: both write under one id.
	twin := newPocket(t, s.ann)
	twin.mine = ann.mine
	for id, k := range ann.books {
		c := &kept{state: k.state, rows: map[string]*row{}}
		for key, r := range k.rows {
			same := *r
			c.rows[key] = &same
		}
		twin.books[id] = c
	}
	ann.save(book, "of the first")
	twin.save(book, "of the copy")
	ann.round()
	twin.round()
	twin.round()
	ann.round()
	if ann.mine == twin.mine || fmt.Sprint(ann.ledger(book)) != fmt.Sprint(twin.ledger(book)) || len(ann.ledger(book)) != 622 {
		t.Errorf("the first has %d lines, the copy %d; ids %v, %v; shown %q", len(ann.ledger(book)), len(twin.ledger(book)), ann.mine, twin.mine, twin.shown)
	}

	// Ben is removed while he writes.
	ben.save(book, "before he knew")
	s.ann.want(t, http.StatusNoContent, "DELETE", path(book, "/members/"+s.ben.id.String()), nil, nil)
	ben.round()
	ben.round()
	held := strings.Join(ben.has(book), "\n")
	if !strings.Contains(held, "before he knew held") {
		t.Errorf("what Ben wrote is %.200s…, shown %q", held, ben.shown)
	}
	var tray struct{ Aside []struct{ N uint64 } }
	s.ann.want(t, http.StatusOK, "GET", path(book, "/aside"), nil, &tray)
	if len(tray.Aside) != 1 {
		t.Errorf("the owner sees %+v", tray)
	}

	// Ann's second phone is removed by her first.
	s.ann.want(t, http.StatusNoContent, "DELETE", "/api/v1/devices/"+twin.mine.String(), nil, nil)
	twin.save(book, "of the removed phone")
	twin.round()
	if !slices.Contains(twin.shown, "revoked") || !strings.Contains(strings.Join(twin.has(book), "\n"), "of the removed phone waiting") {
		t.Errorf("the removed phone: shown %q", twin.shown)
	}
	ann.round()
	if len(ann.ledger(book)) != 622 {
		t.Errorf("the other has %d lines", len(ann.ledger(book)))
	}
	if r, err := s.store.Verify(); err != nil || len(r.Problems) > 0 {
		t.Errorf("the store: %+v, %v", r, err)
	}
}
