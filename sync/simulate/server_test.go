package simulate

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"linkrod/sync"
)

// server is the dumbest host of a ledger there is: maps for a data file, and
// package sync for every rule.
type server struct {
	now      int64
	data     data
	restored int64
	knows    bool // a program newer than the phones': it takes kinds they don't know
	page     int  // records of one pull
	snapshot int  // a new phone starts from a snapshot above this
	full     bool // its disk: nothing can be taken

	used map[sync.Ref][]sync.Hash // every entry that ever used a number, restores or not
}

// data is what a backup holds. The key of the receipts is not in it.
type data struct {
	books   map[sync.ID]*book
	devices map[sync.ID]owned
}

type owned struct {
	account sync.ID
	revoked bool
}

type book struct {
	records []sync.Record
	turns   map[sync.Ref]sync.Turn
	last    map[sync.ID]uint64
	aside   map[sync.Ref]sync.Aside
	offered map[offer]sync.Aside
	roles   map[sync.ID]string // "" once a member
}

type offer struct {
	sync.Ref
	hash sync.Hash
}

func newData() data { return data{books: map[sync.ID]*book{}, devices: map[sync.ID]owned{}} }

func (d data) copy() data {
	out := data{books: map[sync.ID]*book{}, devices: maps.Clone(d.devices)}
	for id, b := range d.books {
		out.books[id] = &book{records: slices.Clone(b.records), turns: maps.Clone(b.turns), last: maps.Clone(b.last),
			aside: maps.Clone(b.aside), offered: maps.Clone(b.offered), roles: maps.Clone(b.roles)}
	}
	return out
}

func (b *book) head() sync.Head {
	if n := len(b.records); n > 0 {
		return sync.Head{Seq: uint64(n), Chain: b.records[n-1].Chain}
	}
	return sync.Head{}
}

func (b *book) at(seq uint64) (sync.Head, bool) {
	switch {
	case seq == 0:
		return sync.Head{}, true
	case seq > uint64(len(b.records)):
		return sync.Head{}, false
	}
	return sync.Head{Seq: seq, Chain: b.records[seq-1].Chain}, true
}

type request struct {
	account, device sync.ID
	method, path    string
	body            []byte
}

type answer struct {
	status int
	body   []byte
}

func say(status int, v any) answer {
	data, err := json.Marshal(v)
	if err != nil {
		panic(err)
	}
	// proto and now stand in every answer.
	return answer{status, append([]byte(`{"proto":1,"now":0,`), data[1:]...)}
}

func fail(status int, code, words string) answer {
	return say(status, map[string]any{"error": map[string]any{"code": code, "words": words}})
}

var notFound = fail(404, "not_found", "There is no such book here, or it isn't shared with you.")

func (s *server) receipt(id sync.ID, head sync.Head) sync.Receipt {
	r := sync.Receipt{Book: id, Seq: head.Seq, Chain: head.Chain, Received: s.now, Key: "k1"}
	r.Sig = s.sign(r)
	return r
}

// sign stands in for Ed25519: the phones have no key to forge it with.
func (s *server) sign(r sync.Receipt) []byte {
	h := sync.Cover([]sync.Entry{{Kind: "server's key", Body: r.Message()}})
	return h[:8]
}

func (s *server) handle(in request) answer {
	if in.path == "hello" {
		return s.hello(in)
	}
	path, query, _ := strings.Cut(in.path, "?")
	values, _ := url.ParseQuery(query)
	parts := strings.Split(path, "/")
	id, err := sync.ParseID(parts[1])
	if err != nil {
		return notFound
	}
	b := s.data.books[id]
	if in.method == "PUT" {
		if b == nil {
			if s.full {
				return fail(503, "busy", "No room.")
			}
			b = &book{turns: map[sync.Ref]sync.Turn{}, last: map[sync.ID]uint64{}, aside: map[sync.Ref]sync.Aside{},
				offered: map[offer]sync.Aside{}, roles: map[sync.ID]string{in.account: "owner"}}
			s.data.books[id] = b
		}
		if b.roles[in.account] == "" {
			return notFound
		}
		return say(200, map[string]any{"role": b.roles[in.account]})
	}
	if b == nil {
		return notFound
	}
	role, once := b.roles[in.account]
	if parts[2] == "push" && once {
		return s.push(in, id, b)
	}
	if role == "" {
		return notFound
	}
	switch parts[2] {
	case "pull":
		return s.pull(id, b, values)
	case "snapshot":
		var receipts []sync.Receipt
		for _, h := range sync.PageEnds(b.records) {
			receipts = append(receipts, s.receipt(id, h))
		}
		return answer{200, sync.EncodeSnapshot(id, b.records, receipts, s.now)}
	case "chain":
		at := []sync.Head{}
		for _, text := range strings.Split(values.Get("at"), ",") {
			n, _ := strconv.ParseUint(text, 10, 64)
			if h, ok := b.at(n); ok && n > 0 {
				at = append(at, h)
			}
		}
		return say(200, map[string]any{"at": at})
	case "salvage":
		return s.salvage(in, id, b)
	}
	return notFound
}

func (s *server) hello(in request) answer {
	type listed struct {
		Book  sync.ID   `json:"book"`
		Head  uint64    `json:"head"`
		Chain sync.Hash `json:"chain"`
		Role  string    `json:"role"`
	}
	list := []listed{}
	for _, id := range slices.SortedFunc(maps.Keys(s.data.books), compare) {
		b := s.data.books[id]
		if role := b.roles[in.account]; role != "" {
			list = append(list, listed{id, b.head().Seq, b.head().Chain, role})
		}
	}
	return say(200, map[string]any{"books": list, "restored": s.restored, "min_schema": 1, "max_schema": 1,
		"limits": map[string]int{"batch_entries": 9, "snapshot_after": s.snapshot}})
}

func compare(a, b sync.ID) int { return bytes.Compare(a[:], b[:]) }

func (s *server) pull(id sync.ID, b *book, q url.Values) answer {
	after, _ := strconv.ParseUint(q.Get("after"), 10, 64)
	chain, _ := sync.ParseHash(q.Get("chain"))
	if h, ok := b.at(after); !ok || h.Chain != chain {
		return fail(409, "rewound", "The ledger here is another.")
	}
	records := b.records[after:]
	records = records[:min(len(records), s.page)]
	end, _ := b.at(after + uint64(len(records)))
	if records == nil {
		records = []sync.Record{}
	}
	return say(200, map[string]any{"records": records, "head": b.head().Seq, "chain": b.head().Chain,
		"more": end != b.head(), "receipt": s.receipt(id, end)})
}

func (s *server) claim(device, account sync.ID) bool {
	o, known := s.data.devices[device]
	if !known {
		s.data.devices[device] = owned{account: account}
		return true
	}
	return o.account == account && !o.revoked
}

func (s *server) push(in request, id sync.ID, b *book) answer {
	if s.full {
		return fail(503, "busy", "The disk is full; nothing was taken.")
	}
	push, err := sync.DecodePush(in.body, id)
	if err != nil {
		return fail(400, "invalid", err.Error())
	}
	if !s.claim(push.Device, in.account) {
		return fail(403, "revoked", "This device was removed from the account.")
	}
	desk := sync.Desk{Account: in.account, Author: nameOf(in.account), Received: s.now, Head: b.head(), Last: b.last[push.Device],
		Turns: map[uint64]sync.Turn{}, Check: readable}
	desk.LastHash = b.turns[sync.Ref{Device: push.Device, N: desk.Last}].Hash
	if role := b.roles[in.account]; role == "" || role == "reader" {
		desk.Hold = &sync.Fault{Code: sync.CodeRole, Words: "You may read this book, not write in it."}
	}
	for i, e := range push.Sent {
		if e.Fault != nil && e.Fault.Code == sync.CodeKind && s.knows && e.Entry.Hash == e.Entry.Sum() {
			push.Sent[i].Fault = nil
		}
		if t, ok := b.turns[sync.Ref{Device: push.Device, N: e.Entry.N}]; ok {
			desk.Turns[e.Entry.N] = t
		}
	}
	out := desk.Take(push.Sent)
	for _, r := range out.Records {
		s.use(sync.Ref{Device: push.Device, N: r.Entry.N}, r.Entry.Hash)
		b.append(r)
	}
	for _, a := range out.Aside {
		b.aside[sync.Ref{Device: push.Device, N: a.N}] = a
		s.use(sync.Ref{Device: push.Device, N: a.N}, a.Hash)
		b.turn(sync.Ref{Device: push.Device, N: a.N}, sync.Turn{Hash: a.Hash, State: a.State, Fault: a.Fault})
	}
	return say(200, map[string]any{"results": out.Results, "head": out.Head.Seq, "chain": out.Head.Chain, "receipt": s.receipt(id, out.Head)})
}

func (s *server) use(key sync.Ref, hash sync.Hash) {
	if s.used == nil {
		s.used = map[sync.Ref][]sync.Hash{}
	}
	if !slices.Contains(s.used[key], hash) {
		s.used[key] = append(s.used[key], hash)
	}
}

func (b *book) append(r sync.Record) {
	key := sync.Ref{Device: r.Entry.Device, N: r.Entry.N}
	b.records = append(b.records, r)
	b.turn(key, sync.Turn{Hash: r.Entry.Hash, Seq: r.Seq})
	delete(b.aside, key)
	delete(b.offered, offer{key, r.Entry.Hash})
}

func (b *book) turn(key sync.Ref, t sync.Turn) {
	b.turns[key] = t
	b.last[key.Device] = max(b.last[key.Device], key.N)
}

func (s *server) salvage(in request, id sync.ID, b *book) answer {
	if s.full {
		return fail(503, "busy", "The disk is full; nothing was taken.")
	}
	given, err := sync.DecodeSalvage(in.body, id)
	if err != nil {
		return fail(400, "invalid", err.Error())
	}
	desk := sync.SalvageDesk{Account: in.account, Received: s.now, Head: b.head(), Last: b.last, Turns: map[sync.Ref]sync.Turn{}}
	desk.Apart = map[sync.ID]bool{}
	for key, a := range b.offered {
		desk.Apart[key.Device] = desk.Apart[key.Device] || a.Fault.Code == sync.CodeFork
	}
	desk.Proven = given.Receipt != nil && given.Receipt.Book == id && bytes.Equal(given.Receipt.Sig, s.sign(*given.Receipt))
	for _, r := range given.Records {
		for _, n := range []uint64{r.Entry.N - 1, r.Entry.N} {
			key := sync.Ref{Device: r.Entry.Device, N: n}
			if t, ok := b.turns[key]; ok {
				desk.Turns[key] = t
			}
		}
	}
	out := desk.Take(given)
	for _, r := range out.Records {
		if _, known := s.data.devices[r.Entry.Device]; !known {
			s.data.devices[r.Entry.Device] = owned{account: r.Account}
		}
		b.append(r)
	}
	for _, a := range out.Missing {
		b.turn(sync.Ref{Device: a.Device, N: a.N}, sync.Turn{Hash: a.Hash, State: sync.Missing})
	}
	for _, a := range out.Offered {
		b.offered[offer{sync.Ref{Device: a.Device, N: a.N}, a.Hash}] = a
	}
	return say(200, map[string]any{"results": out.Results, "head": out.Head.Seq, "chain": out.Head.Chain, "receipt": s.receipt(id, out.Head)})
}

// admit lets in an entry that was set aside, as a host does.
func (s *server) admit(b *book, a sync.Aside) bool {
	var e sync.Entry
	if e.UnmarshalJSON(a.Raw) != nil || e.Verify() != nil {
		return false
	}
	key := sync.Ref{Device: e.Device, N: e.N}
	if t, used := b.turns[key]; used && (t.Seq > 0 || t.State != sync.Missing && t.Hash != e.Hash) {
		return false
	}
	b.append(sync.Admit(b.head(), e, a.Account, nameOf(a.Account), s.now))
	return true
}

func readable(e sync.Entry) *sync.Fault {
	if !json.Valid(e.Body) {
		return &sync.Fault{Code: sync.CodeBody, Words: "This entry can't be read by any version."}
	}
	return nil
}

func nameOf(account sync.ID) string { return fmt.Sprintf("mechanic %d", account[0]) }
