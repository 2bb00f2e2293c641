package simulate

import (
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"slices"

	"linkrod/sync"
	"linkrod/sync/plain"
)

// phone is a browser with one database and one tab or two.
type phone struct {
	name    string
	account sync.ID
	store   *storage
	skew    int64 // what its clock is off
	tabs    []*tab
	world   *world
	gone    bool // for good
	shown   []sync.Effect
}

// tab runs rounds: hello, then each book in turn, one request at a time.
type tab struct {
	phone    *phone
	life     int // grows with every crash: what was asked before is nobody's any more
	asked    int // the number of the request that is out; 0: none
	books    []sync.ID
	hello    bool // the request that is out
	requests int  // of this round
	out      sync.Errand
	limit    plain.Value
}

var errStorage = errors.New("the storage failed")

// write runs a change in one transaction. It may fail, or the phone may die
// before it is done or right after.
func (p *phone) write(change func(*storage) error) error {
	s := p.store.copy()
	if err := change(s); err != nil {
		return err
	}
	if p.world.chance(p.world.faults.storage) {
		return errStorage
	}
	if p.world.chance(p.world.faults.crash) { // before the commit
		p.crash()
		return errStorage
	}
	p.world.committed(p, s)
	if s.mine != p.store.mine {
		p.world.checkCopied(p, s)
	}
	if p.world.log != nil {
		p.world.tell(p, s)
	}
	p.store = s
	if p.world.chance(p.world.faults.crash) { // after it
		p.crash()
		return errStorage
	}
	return nil
}

// crash: the browser is killed. What it had committed is what there is.
func (p *phone) crash() {
	for _, t := range p.tabs {
		t.life++
		t.asked = 0
	}
	p.world.logf("%s dies", p.name)
}

func (p *phone) fresh() sync.ID { return p.world.id(0xd0) }

// save writes entries, as a person does who touched Save.
func (p *phone) save(book sync.ID, fresh ...sync.Fresh) error {
	now := p.world.server.now + p.skew
	err := p.write(func(s *storage) error {
		b := s.book(book)
		d := b.device(book)
		effects, err := d.Wrote(sync.Wrote{Mine: s.mine, Last: b.last(s.mine), Fresh: fresh, Clock: sync.Clock{Wall: now}})
		if err != nil {
			return err
		}
		s.perform(book, d, effects, p.fresh)
		return nil
	})
	return err
}

// begin starts a round.
func (t *tab) begin() {
	t.books, t.requests = nil, 0
	t.hello = true
	t.ask("GET", "hello", nil)
}

func (t *tab) ask(method, path string, body []byte) {
	if t.requests++; t.requests > 500 {
		t.phone.world.wrong("P9: a round of %s does not end: %s %.80s", t.phone.name, method, path)
		return
	}
	t.asked = t.phone.world.ask(t, request{account: t.phone.account, device: t.phone.store.mine, method: method, path: path, body: body})
}

// heard takes an answer, or none (nil), to the request that is out.
func (t *tab) heard(a *answer) {
	t.asked = 0
	var body plain.Value
	ok := a != nil
	if ok {
		v, err := plain.Parse(a.body)
		ok = err == nil && v.Get("proto").Given()
		body = v
	}
	if t.hello {
		if ok && a.status == 200 {
			t.greeted(body)
		}
		return
	}
	book := t.books[0]
	var after []sync.Effect
	life := t.life
	err := t.phone.write(func(s *storage) error {
		b := s.book(book)
		d := b.device(book)
		var effects []sync.Effect
		if !ok {
			effects = d.Silence(t.out)
		} else {
			effects = d.Reply(sync.Reply{Errand: t.out, Mine: s.mine, Status: a.status, Body: body, Rows: rowsFor(b, t.out, body)})
		}
		after = s.perform(book, d, effects, t.phone.fresh)
		return nil
	})
	if err != nil || life != t.life {
		return // not saved: the round ends, another will come
	}
	if !ok {
		t.done(after)
		return
	}
	if t.done(after) {
		t.books = t.books[1:]
	}
	t.next()
}

// greeted gives every book what hello says of it, and begins with the first.
func (t *tab) greeted(reply plain.Value) {
	t.hello = false
	t.limit = reply.Get("limits")
	listed := map[sync.ID]plain.Value{}
	for _, v := range reply.Get("books").Items() {
		id, _ := sync.ParseID(v.Get("book").Text())
		listed[id] = v
	}
	var after []sync.Effect
	life := t.life
	err := t.phone.write(func(s *storage) error {
		ids := maps.Clone(listed)
		for id := range s.books {
			ids[id] = listed[id]
		}
		t.books = slices.SortedFunc(maps.Keys(ids), compare)
		for _, id := range t.books {
			d := s.book(id).device(id)
			v := ids[id]
			h := sync.Hello{Mine: s.mine, Listed: v.Given(), Role: v.Get("role").Text(), MinSchema: 1, MaxSchema: 1}
			h.Restored, _ = reply.Get("restored").Int()
			if h.Listed {
				n, _ := v.Get("head").Int()
				h.There.Seq = uint64(n)
				h.There.Chain, _ = sync.ParseHash(v.Get("chain").Text())
			}
			after = append(after, s.perform(id, d, d.Hello(h), t.phone.fresh)...)
		}
		return nil
	})
	if err != nil || life != t.life {
		return
	}
	t.done(after)
	t.next()
}

// next asks the machine of the book in turn what to send.
func (t *tab) next() {
	for len(t.books) > 0 {
		book := t.books[0]
		var after []sync.Effect
		life := t.life
		err := t.phone.write(func(s *storage) error {
			b := s.book(book)
			d := b.device(book)
			n, _ := t.limit.Get("batch_entries").Int()
			over, _ := t.limit.Get("snapshot_after").Int()
			q := sync.Queue{BatchEntries: int(n), SnapshotAfter: int(over)}
			for _, r := range b.sorted() {
				if r.Own && r.At == sync.AtWaiting {
					q.Waiting = append(q.Waiting, sync.Queued{Ref: r.Ref, Bytes: 400 + len(r.entry.Body)*4/3})
				}
			}
			after = s.perform(book, d, d.Line(q), t.phone.fresh)
			return nil
		})
		if err != nil || life != t.life {
			return
		}
		for _, e := range after {
			if e.Do == sync.DoSend {
				t.send(book, e.Errand)
				return
			}
		}
		if !t.done(after) {
			panic("a line that neither sends nor rests")
		}
		t.books = t.books[1:]
	}
}

// done notes what was shown and says whether the book rests.
func (t *tab) done(after []sync.Effect) (rests bool) {
	for _, e := range after {
		switch e.Do {
		case sync.DoShow:
			t.phone.shown = append(t.phone.shown, e)
			t.phone.world.logf("%s shows %s %d %d", t.phone.name, e.Code, e.Lost.Own, e.Lost.Others)
		case sync.DoRest:
			rests = true
		}
	}
	return rests
}

// send makes the request an errand is. It goes through the JSON the worker gets.
func (t *tab) send(book sync.ID, e sync.Errand) {
	b := t.phone.store.book(book)
	d := b.device(book)
	var w plain.Writer
	w.Begin('{')
	d.WriteRequest(&w, e)
	w.End('}')
	r, err := plain.Parse(w.Bytes())
	if err != nil {
		panic(err)
	}
	var body []byte
	switch r.Get("fill").Text() {
	case "push":
		type push struct {
			Device  sync.ID      `json:"device"`
			Entries []sync.Entry `json:"entries"`
		}
		p := push{Device: e.Device}
		for _, n := range e.Numbers {
			p.Entries = append(p.Entries, b.rows[place{Ref: sync.Ref{Device: e.Device, N: n}}].entry)
		}
		body, _ = json.Marshal(p)
	case "salvage":
		var m map[string]json.RawMessage
		var records []map[string]any
		must(json.Unmarshal(r.Get("body").Raw(), &m))
		must(json.Unmarshal(m["records"], &records))
		for _, rec := range records {
			device, _ := sync.ParseID(rec["device"].(string))
			key := sync.Ref{Device: device, N: uint64(rec["n"].(float64))}
			found := b.rows[place{Ref: key}].entry
			if shelved, ok := b.rows[place{key, true}]; ok {
				found = shelved.entry
			}
			rec["entry"] = found
		}
		m["records"], _ = json.Marshal(records)
		body, _ = json.Marshal(m)
	}
	t.out = e
	t.ask(r.Get("method").Text(), r.Get("path").Text(), body)
}

func must(err error) {
	if err != nil {
		panic(fmt.Sprint(err))
	}
}

// rowsFor looks up the rows an answer may be about.
func rowsFor(b *shelf, e sync.Errand, reply plain.Value) (list []sync.Row) {
	switch e.To {
	case "push":
		for _, n := range e.Numbers {
			if r, ok := b.rows[place{Ref: sync.Ref{Device: e.Device, N: n}}]; ok {
				list = append(list, r.Row)
			}
		}
	case "pull":
		for _, v := range reply.Get("records").Items() {
			if rec, err := sync.ReadRecord(v); err == nil {
				if r, ok := b.rows[place{Ref: sync.Ref{Device: rec.Entry.Device, N: rec.Entry.N}}]; ok {
					list = append(list, r.Row)
				}
			}
		}
	case "snapshot", "chain":
		for at, r := range b.rows {
			if !at.shelved {
				list = append(list, r.Row)
			}
		}
		slices.SortFunc(list, func(x, y sync.Row) int {
			if c := compare(x.Device, y.Device); c != 0 {
				return c
			}
			return int(x.N) - int(y.N)
		})
	}
	return list
}
