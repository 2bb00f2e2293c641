package sync

import (
	"encoding/base64"
	"unicode/utf8"

	"linkrod/sync/plain"
)

// Snapshot is a ledger up to a position, to start a new phone from.
//
// It is the ledger itself, written without what can be computed: no hash, no
// chain, and prev only where it is not the device's record before. The reader
// computes them and must arrive at Head, so a snapshot is trusted no more than
// a pull. Snapshot and tail is the full replay, record for record.
//
//	{"linkrod": "snapshot", "version": 1, "book", "head": {seq, chain}, "receipts": […],
//	 "devices": [id…], "accounts": [id…], "authors": [name…],
//	 "device": [index…], "n": [step…], "kind": [index…], "refs": [[index, n, …]…],
//	 "body": [text…], "seen": [back…], "schema": […], "wall": [back…], "zone": […],
//	 "received": [step…], "account": [index…], "author": [index…],
//	 "prev": [seq, hash, …], "bytes": [seq, base64, …]}
//
// One list for each field, one item for each record, in order of seq; prev and
// bytes are the exceptions, in the same order:
//
//	n         less the number of the device's record before, less 1: mostly 0
//	kind      0 fact, 1 replace, 2 strike, 3 sign, 4 settle, or its name
//	refs      device and n by turns
//	body      its text; what is not UTF-8 stands in bytes as base64
//	seen      how far back from the record before this one: mostly 0
//	wall      how much earlier than received
//	received  how much later than the record before
type Snapshot struct {
	Book     ID
	Head     Head
	Records  []Record
	Receipts []Receipt // of positions within; the reader looks only at whether they fit
}

const (
	snapshotWhat    = "snapshot"
	snapshotVersion = 1
)

// pageRecords and pageBytes are how much lies between two receipts: what can be
// handed back in one salvage.
const (
	pageRecords = 500
	pageBytes   = 1 << 20
)

// PageEnds are the positions of a ledger that a snapshot should have receipts
// of: never more than a salvage between two of them, and the end.
func PageEnds(records []Record) (ends []Head) {
	count, bytes := 0, 0
	for i, r := range records {
		count++
		bytes += weight(r)
		if i == len(records)-1 || count == pageRecords || bytes+weight(records[i+1]) > pageBytes {
			ends = append(ends, Head{r.Seq, r.Chain})
			count, bytes = 0, 0
		}
	}
	return ends
}

// weight is about how many bytes a record is as JSON.
func weight(r Record) int { return 600 + len(r.Entry.Body)*4/3 + 60*len(r.Entry.Refs) }

// column is one field of all records as JSON.
type column struct {
	name string
	w    plain.Writer
}

// EncodeSnapshot writes the ledger of a book as the answer to a phone: records
// from the first on, receipts as [PageEnds] asks for them, now by the server's
// clock.
func EncodeSnapshot(book ID, records []Record, receipts []Receipt, now int64) []byte {
	var devices, accounts table[ID]
	var authors table[string]
	cols := []column{{name: "device"}, {name: "n"}, {name: "kind"}, {name: "refs"}, {name: "body"}, {name: "seen"}, {name: "schema"},
		{name: "wall"}, {name: "zone"}, {name: "received"}, {name: "account"}, {name: "author"}}
	for i := range cols {
		cols[i].w.Begin('[')
	}
	var prevs, bytes plain.Writer
	prevs.Begin('[')
	bytes.Begin('[')
	except := func(w *plain.Writer, seq uint64, what string) {
		w.Int("", int64(seq))
		w.Text("", what)
	}
	var head Head
	before := map[ID]Entry{} // each device's last
	received := int64(0)
	for _, r := range records {
		e := r.Entry
		put := func(i int, n int64) { cols[i].w.Int("", n) }
		last := before[e.Device]
		put(0, devices.index(e.Device))
		put(1, int64(e.N)-int64(last.N)-1)
		if k := kindIndex(e.Kind); k >= 0 {
			put(2, int64(k))
		} else {
			cols[2].w.Text("", string(e.Kind))
		}
		cols[3].w.Begin('[')
		for _, ref := range e.Refs {
			put(3, devices.index(ref.Device))
			put(3, int64(ref.N))
		}
		cols[3].w.End(']')
		if utf8.Valid(e.Body) {
			cols[4].w.Text("", string(e.Body))
		} else {
			cols[4].w.Text("", "")
			except(&bytes, r.Seq, base64.StdEncoding.EncodeToString(e.Body))
		}
		put(5, int64(r.Seq)-1-int64(e.Seen))
		put(6, int64(e.Schema))
		put(7, r.Received-e.Clock.Wall)
		put(8, int64(e.Clock.Zone))
		put(9, r.Received-received)
		put(10, accounts.index(r.Account))
		put(11, authors.index(r.Author))
		if e.Prev != last.Hash {
			except(&prevs, r.Seq, e.Prev.String())
		}
		before[e.Device], received, head = e, r.Received, Head{r.Seq, r.Chain}
	}
	prevs.End(']')
	bytes.End(']')

	var w plain.Writer
	w.Begin('{')
	w.Int("proto", 1)
	w.Int("now", now)
	w.Text("linkrod", snapshotWhat)
	w.Int("version", snapshotVersion)
	w.Text("book", book.String())
	head.Write(&w, "head")
	w.Open("receipts", '[')
	for _, r := range receipts {
		r.Write(&w, "")
	}
	w.End(']')
	w.Texts("devices", texts(devices.list))
	w.Texts("accounts", texts(accounts.list))
	w.Texts("authors", authors.list)
	for i := range cols {
		cols[i].w.End(']')
		w.Raw(cols[i].name, cols[i].w.Bytes())
	}
	w.Raw("prev", prevs.Bytes())
	w.Raw("bytes", bytes.Bytes())
	w.End('}')
	return w.Bytes()
}

// DecodeSnapshot reads a snapshot of a book and computes what it leaves out.
// The error is a *Fault: of what is no snapshot, and of one that does not lead
// where it says.
func DecodeSnapshot(data []byte, book ID) (Snapshot, error) {
	v, err := plain.Parse(data)
	if err != nil {
		return Snapshot{}, torn()
	}
	return ReadSnapshot(v, book)
}

// ReadSnapshot is [DecodeSnapshot] of JSON that is parsed already.
func ReadSnapshot(v plain.Value, book ID) (s Snapshot, err error) {
	version, ok := v.Get("version").Int()
	switch {
	case v.Get("linkrod").Text() != snapshotWhat || !ok || v.Get("book").Text() != book.String():
		return s, say(CodeShape, "This is not a snapshot of this book.")
	case version != snapshotVersion:
		return s, say(CodeShape, "This snapshot is of version ", int(version), "; this Linkrod reads version ", snapshotVersion, ".")
	}
	s.Book = book
	if s.Head, err = ReadHead(v.Get("head")); err != nil {
		return s, err
	}
	in := shelves{v: v, before: map[ID]Entry{}}
	if in.devices, err = ids(v.Get("devices")); err != nil {
		return s, err
	}
	if in.accounts, err = ids(v.Get("accounts")); err != nil {
		return s, err
	}
	for i := range v.Get("device").Items() {
		r, err := in.record(i, book)
		if err != nil {
			return s, err
		}
		s.Records = append(s.Records, r)
	}
	if in.head != s.Head {
		return s, say(CodeChain, "The snapshot leads to record ", in.head.Seq, " and not where it says: it is damaged, or left something out.")
	}
	for _, item := range v.Get("receipts").Items() {
		if r, err := ReadReceipt(item); err == nil {
			s.Receipts = append(s.Receipts, r)
		}
	}
	return s, nil
}

// shelves are the columns of a snapshot while it is read, and what the record
// before left behind.
type shelves struct {
	v                 plain.Value
	devices, accounts []ID
	before            map[ID]Entry
	head              Head
	received          int64
	prevs, bytes      int   // how many of the exceptions are used
	cell              error // the first that could not be read
}

// exception is what stands in a list of exceptions for the record that is read.
func (in *shelves) exception(name string, used *int) (string, bool) {
	items := in.v.Get(name).Items()
	if 2**used+1 >= len(items) {
		return "", false
	}
	if seq, ok := items[2**used].Int(); !ok || seq != int64(in.head.Seq)+1 {
		return "", false
	}
	*used++
	return items[2**used-1].Text(), true
}

// int is one whole number of a column.
func (in *shelves) int(name string, i int) int64 {
	items := in.v.Get(name).Items()
	if i < len(items) {
		if n, ok := items[i].Int(); ok && n <= 4*MaxNumber && n >= -4*MaxNumber {
			return n
		}
	}
	in.fail(name)
	return 0
}

func (in *shelves) fail(name string) {
	if in.cell == nil {
		in.cell = say(CodeShape, "The snapshot's ", quoted(name), " can't be read at record ", in.head.Seq+1, ".")
	}
}

// of is an item of a table, by its index.
func (in *shelves) of(name string, i int64, list []ID) ID {
	if i < 0 || i >= int64(len(list)) {
		in.fail(name)
		return ID{}
	}
	return list[i]
}

func (in *shelves) item(name string, i int) plain.Value {
	items := in.v.Get(name).Items()
	if i >= len(items) {
		in.fail(name)
		return plain.Value{}
	}
	return items[i]
}

func (in *shelves) record(i int, book ID) (r Record, err error) {
	seq := in.head.Seq + 1
	e := Entry{Book: book, Device: in.of("device", in.int("device", i), in.devices)}
	last := in.before[e.Device]
	n, seen := int64(last.N)+1+in.int("n", i), int64(in.head.Seq)-in.int("seen", i)
	if n < 1 || n > MaxNumber || seen < 0 || seen > MaxNumber {
		in.fail("n")
	}
	e.N, e.Seen = uint64(n), uint64(seen)
	e.Kind = in.kind(i)
	refs := in.item("refs", i).Items()
	if len(refs)%2 != 0 {
		in.fail("refs")
		refs = nil
	}
	for j := 0; j < len(refs); j += 2 {
		device, ok1 := refs[j].Int()
		n, ok2 := refs[j+1].Int()
		if !ok1 || !ok2 || n < 1 || n > MaxNumber {
			in.fail("refs")
		}
		e.Refs = append(e.Refs, Ref{in.of("refs", device, in.devices), uint64(n)})
	}
	e.Body = []byte(in.item("body", i).Text())
	if raw, ok := in.exception("bytes", &in.bytes); ok {
		if e.Body, err = base64.StdEncoding.Strict().DecodeString(raw); err != nil {
			in.fail("bytes")
		}
	}
	e.Schema = int(in.int("schema", i))
	received := in.received + in.int("received", i)
	e.Clock = Clock{Wall: received - in.int("wall", i), Zone: int(in.int("zone", i))}
	if received > MaxNumber || received < -MaxNumber || e.Clock.Wall > MaxNumber || e.Clock.Wall < -MaxNumber {
		in.fail("wall")
	}
	e.Prev = last.Hash
	if prev, ok := in.exception("prev", &in.prevs); ok {
		if e.Prev, err = ParseHash(prev); err != nil {
			in.fail("prev")
		}
	}
	author := in.int("author", i)
	authors := in.v.Get("authors").Items()
	if author < 0 || author >= int64(len(authors)) {
		in.fail("author")
		author, authors = 0, []plain.Value{{}}
	}
	r = Record{Seq: seq, Received: received, Author: authors[author].Text(), Account: in.of("account", in.int("account", i), in.accounts)}
	if in.cell != nil {
		return r, in.cell
	}
	e.Hash = e.Sum()
	if err := e.intact(); err != nil {
		return r, err
	}
	in.head = in.head.Next(e.Hash, r.Account, r.Received)
	in.before[e.Device], in.received = e, received
	r.Chain, r.Entry = in.head.Chain, e
	return r, nil
}

var kinds = []Kind{Fact, Replace, Strike, Sign, Settle}

func kindIndex(k Kind) int {
	for i, known := range kinds {
		if k == known {
			return i
		}
	}
	return -1
}

func (in *shelves) kind(i int) Kind {
	v := in.item("kind", i)
	if v.Kind() == plain.Text {
		return Kind(v.Text())
	}
	if k, ok := v.Int(); ok && k >= 0 && k < int64(len(kinds)) {
		return kinds[k]
	}
	in.fail("kind")
	return ""
}

// table gives each thing a number, in the order they come.
type table[T comparable] struct {
	list []T
	at   map[T]int64
}

func (t *table[T]) index(thing T) int64 {
	i, ok := t.at[thing]
	if !ok {
		if t.at == nil {
			t.at = map[T]int64{}
		}
		i = int64(len(t.list))
		t.list, t.at[thing] = append(t.list, thing), i
	}
	return i
}

func texts(list []ID) []string {
	out := make([]string, len(list))
	for i, id := range list {
		out[i] = id.String()
	}
	return out
}

func ids(v plain.Value) (list []ID, err error) {
	for _, item := range v.Items() {
		id, err := ParseID(item.Text())
		if err != nil {
			return nil, say(CodeShape, "An id in the snapshot can't be read: ", err, ".")
		}
		list = append(list, id)
	}
	return list, nil
}
