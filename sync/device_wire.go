package sync

import (
	"strconv"

	"linkrod/sync/plain"
)

// A Device as JSON in the phone's storage, its inputs as the worker gives them
// and its effects as the worker performs them. The one place where they are
// written and read.

// stateVersion is of the Device's JSON. A version that can't be read is
// answered by starting anew: everything is pulled once more, and no row is lost
// by that.
const stateVersion = 1

// Step is one input to a Device as JSON: {"state", "book", "mine", "input"} ->
// {"state", "effects"}. The error is a *Fault.
func Step(args plain.Value, w *plain.Writer) error {
	book, err := ParseID(args.Get("book").Text())
	if err != nil {
		return say(CodeShape, "The book can't be read: ", err, ".")
	}
	mine, err := ParseID(args.Get("mine").Text())
	if err != nil {
		return say(CodeShape, "This phone's id can't be read: ", err, ".")
	}
	d := ReadDevice(args.Get("state"), book)
	effects, err := d.step(mine, args.Get("input"))
	if err != nil {
		return err
	}
	w.Begin('{')
	d.Write(w, "state")
	w.Open("effects", '[')
	for _, e := range effects {
		d.writeEffect(w, e)
	}
	w.End(']')
	w.End('}')
	return nil
}

func (d *Device) step(mine ID, in plain.Value) ([]Effect, error) {
	switch what := in.Get("is").Text(); what {
	case "wrote":
		return d.Wrote(Wrote{Mine: mine, Last: readLast(in.Get("last")), Fresh: readFresh(in.Get("fresh")), Clock: readWall(in.Get("clock"))})
	case "hello":
		return d.Hello(readHello(mine, in)), nil
	case "line":
		return d.Line(readQueue(in)), nil
	case "reply":
		r := Reply{Errand: readErrand(in.Get("to")), Mine: mine, Status: count(in.Get("status")), Body: in.Get("reply")}
		for _, v := range in.Get("rows").Items() {
			r.Rows = append(r.Rows, readRow(v))
		}
		return d.Reply(r), nil
	case "silence":
		return d.Silence(readErrand(in.Get("to"))), nil
	case "anew":
		a := Anew{Device: id(in.Get("device")), From: unsigned(in.Get("from")), Mine: mine, Last: readLast(in.Get("last")), Fresh: id(in.Get("fresh"))}
		for _, v := range in.Get("rows").Items() {
			e, err := ReadEntry(v.Get("entry"))
			if err != nil {
				return nil, err
			}
			a.Rows = append(a.Rows, Waiting{e, number64(v.Get("written"))})
		}
		if a.Fresh.IsZero() || a.Device.IsZero() {
			return nil, say(CodeShape, "A new device id is wanted.")
		}
		return d.Anew(a), nil
	default:
		return nil, say(CodeShape, "No input of a device is called ", quoted(what), ".")
	}
}

// Write writes d as it is stored.
func (d *Device) Write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Int("version", stateVersion)
	w.Bool("joined", d.Joined)
	w.Text("role", d.Role)
	w.Bool("signs", d.Signs)
	w.Bool("away", d.Away)
	w.Text("shut", d.Shut)
	w.Bool("old", d.Old)
	w.Int("max_schema", int64(d.MaxSchema))
	w.Int("restored", d.Restored)
	d.Head.Write(w, "head")
	d.There.Write(w, "there")
	w.Open("marks", '[')
	for _, m := range d.Marks {
		w.Begin('{')
		w.Int("seq", int64(m.Seq))
		w.Text("chain", m.Chain.String())
		w.Int("received", m.Received)
		w.Int("weight", int64(m.Weight))
		w.Raw("receipt", m.Receipt)
		w.End('}')
	}
	w.End(']')
	w.Open("acked", '[')
	for _, a := range d.Acked {
		w.Begin('{')
		writeRef(w, a.Ref)
		w.Int("seq", int64(a.Seq))
		w.End('}')
	}
	w.End(']')
	w.Bool("finding", d.Finding)
	w.Open("pages", '[')
	for _, p := range d.Pages {
		w.Begin('{')
		p.write(w)
		w.Bool("handed", p.Handed)
		w.End('}')
	}
	w.End(']')
	writeLost(w, d.Back)
	w.Int("restarts", int64(d.Restarts))
	writeIDs(w, "ids", d.IDs)
	writeIDs(w, "stopped", d.Stopped)
	writeIDs(w, "barred", d.Barred)
	w.Open("gaps", '[')
	for _, g := range d.Gaps {
		w.Begin('{')
		writeRef(w, Ref(g))
		w.End('}')
	}
	w.End(']')
	w.Bool("stuck", d.Stuck)
	w.End('}')
}

// ReadDevice reads what Write wrote; anything else is a Device that knows
// nothing yet.
func ReadDevice(v plain.Value, book ID) *Device {
	d := &Device{Book: book}
	if count(v.Get("version")) != stateVersion {
		return d
	}
	d.Joined, d.Signs = v.Get("joined").Bool(), v.Get("signs").Bool()
	d.Role, d.Shut = v.Get("role").Text(), v.Get("shut").Text()
	d.Away, d.Old = v.Get("away").Bool(), v.Get("old").Bool()
	d.MaxSchema, d.Restored = count(v.Get("max_schema")), number64(v.Get("restored"))
	d.Head, _ = ReadHead(v.Get("head"))
	d.There, _ = ReadHead(v.Get("there"))
	for _, m := range v.Get("marks").Items() {
		mark := Mark{Received: number64(m.Get("received")), Weight: count(m.Get("weight"))}
		mark.Head, _ = ReadHead(m)
		if m.Get("receipt").Given() {
			mark.Receipt = m.Get("receipt").Raw()
		}
		d.Marks = append(d.Marks, mark)
	}
	for _, a := range v.Get("acked").Items() {
		d.Acked = append(d.Acked, Ack{readRef(a), unsigned(a.Get("seq"))})
	}
	d.Finding = v.Get("finding").Bool()
	for _, p := range v.Get("pages").Items() {
		d.Pages = append(d.Pages, readPage(p))
	}
	d.Back = Lost{count(v.Get("own")), count(v.Get("others"))}
	d.Restarts = count(v.Get("restarts"))
	d.IDs, _ = ids(v.Get("ids"))
	d.Stopped, _ = ids(v.Get("stopped"))
	d.Barred, _ = ids(v.Get("barred"))
	for _, g := range v.Get("gaps").Items() {
		d.Gaps = append(d.Gaps, Stop(readRef(g)))
	}
	d.Stuck = v.Get("stuck").Bool()
	return d
}

// write writes the body of a salvage, but for the entries.
func (p Page) write(w *plain.Writer) {
	p.After.Write(w, "after")
	w.Raw("receipt", p.Receipt)
	w.Open("records", '[')
	for _, l := range p.Lines {
		w.Begin('{')
		writeRef(w, l.Ref)
		w.Int("seq", int64(l.Seq))
		w.Int("received", l.Received)
		w.Text("account", l.Account.String())
		w.Text("author", l.Author)
		w.Bool("back", l.Back)
		w.Bool("held", l.Held)
		w.End('}')
	}
	w.End(']')
}

func readPage(v plain.Value) (p Page) {
	p.Handed = v.Get("handed").Bool()
	p.After, _ = ReadHead(v.Get("after"))
	if v.Get("receipt").Given() {
		p.Receipt = v.Get("receipt").Raw()
	}
	for _, l := range v.Get("records").Items() {
		p.Lines = append(p.Lines, Line{Ref: readRef(l), Seq: unsigned(l.Get("seq")), Received: number64(l.Get("received")),
			Account: id(l.Get("account")), Author: l.Get("author").Text(),
			Back: l.Get("back").Bool(), Held: l.Get("held").Bool()})
	}
	return p
}

// writeEffect writes an effect as the worker performs it.
func (d *Device) writeEffect(w *plain.Writer, e Effect) {
	w.Begin('{')
	w.Text("do", string(e.Do))
	switch e.Do {
	case DoPut:
		e.Entry.Write(w, "entry")
		writeAt(w, e)
		w.Bool("own", e.Own)
		writeRecord(w, e)
		if e.Written != 0 {
			w.Int("written", e.Written)
		}
	case DoPatch:
		writeRef(w, e.Ref)
		writeAt(w, e)
		if e.Pulled {
			writeRecord(w, e)
		}
	case DoDrop, DoShelve:
		writeRef(w, e.Ref)
	case DoRevive:
		w.Text("device", e.Device.String())
		w.Int("from", int64(e.N))
		w.Int("above", int64(e.Seq))
	case DoDevice:
		w.Text("id", e.Device.String())
	case DoAnew:
		w.Text("device", e.Device.String())
		w.Int("from", int64(e.N))
	case DoShow:
		w.Text("code", e.Code)
		if e.Words != "" {
			w.Text("words", e.Words)
		}
		writeLost(w, e.Lost)
	case DoSend:
		d.WriteRequest(w, e.Errand)
	case DoRest:
		w.Bool("later", e.Later)
	}
	w.End('}')
}

func writeAt(w *plain.Writer, e Effect) {
	w.Text("state", string(e.At))
	w.Int("seq", int64(e.Seq))
	w.Text("words", e.Words)
}

func writeRecord(w *plain.Writer, e Effect) {
	w.Text("author", e.Author)
	w.Text("account", e.Account.String())
	w.Int("received", e.Received)
	if e.Clock != (Span{}) {
		w.Open("clock", '{')
		w.Int("from", e.Clock.From)
		w.Int("to", e.Clock.To)
		w.End('}')
	}
}

// asked is how many positions one question for the chain names at most.
const asked = 64

// WriteRequest writes the fields of an errand as the request it is.
func (d *Device) WriteRequest(w *plain.Writer, e Errand) {
	method, path, fill, needs := "POST", "/"+e.To, "", ""
	after := "after=" + strconv.FormatUint(e.After.Seq, 10) + "&chain=" + e.After.Chain.String()
	switch e.To {
	case toJoin:
		method, path = "PUT", ""
	case toPull:
		method, path, needs = "GET", "/pull?"+after+"&limit="+strconv.Itoa(pageRecords), "keys"
	case toSnapshot:
		method, needs = "GET", "all"
	case toFind:
		method, path, needs = "GET", "/chain?at="+d.positions(), "all"
	case toPush:
		fill, needs = "push", "keys"
	case toSalvage:
		fill = "salvage"
	}
	w.Text("method", method)
	w.Text("path", "books/"+d.Book.String()+path)
	w.Text("fill", fill)
	w.Text("needs", needs)
	switch e.To {
	case toJoin:
		w.Open("body", '{')
		w.End('}')
	case toSalvage:
		w.Open("body", '{')
		if p := d.handing(e.Turn); p != nil {
			p.write(w)
		}
		w.End('}')
	}
	w.Open("to", '{')
	w.Text("what", e.To)
	e.After.Write(w, "after")
	w.Text("device", e.Device.String())
	w.Open("ns", '[')
	for _, n := range e.Numbers {
		w.Int("", int64(n))
	}
	w.End(']')
	w.Int("turn", int64(e.Turn))
	w.End('}')
}

// positions are the marks to ask about: the newest, and of the older ones every
// so many.
func (d *Device) positions() (list string) {
	older := max(0, len(d.Marks)-asked/2)
	every := 1 + older/(asked/2)
	for i, m := range d.Marks {
		if i >= older || i%every == 0 {
			list += "," + strconv.FormatUint(m.Seq, 10)
		}
	}
	return list[min(1, len(list)):]
}

func readErrand(v plain.Value) Errand {
	e := Errand{To: v.Get("what").Text(), Device: id(v.Get("device")), Turn: count(v.Get("turn"))}
	e.After, _ = ReadHead(v.Get("after"))
	for _, n := range v.Get("ns").Items() {
		e.Numbers = append(e.Numbers, unsigned(n))
	}
	return e
}

func readHello(mine ID, in plain.Value) Hello {
	h := Hello{Mine: mine, MinSchema: count(in.Get("min_schema")), MaxSchema: count(in.Get("max_schema")), Restored: number64(in.Get("restored"))}
	if book := in.Get("book"); book.Kind() == plain.Object {
		h.Role, h.Signs = book.Get("role").Text(), book.Get("signs").Bool()
		var err error
		h.There, err = readThere(book)
		h.Listed = err == nil
	}
	return h
}

func readQueue(in plain.Value) (q Queue) {
	limits := in.Get("limits")
	q.BatchEntries, q.BatchBytes = count(limits.Get("batch_entries")), count(limits.Get("batch_bytes"))
	q.SnapshotAfter = count(limits.Get("snapshot_after"))
	for _, v := range in.Get("waiting").Items() {
		q.Waiting = append(q.Waiting, Queued{readRef(v), count(v.Get("bytes"))})
	}
	return q
}

func readRow(v plain.Value) (r Row) {
	r.Ref, r.At, r.Own = readRef(v), At(v.Get("state").Text()), v.Get("own").Bool()
	_ = text(r.Hash.UnmarshalText)(v.Get("hash"))
	r.Seq, r.Received = unsigned(v.Get("seq")), number64(v.Get("received"))
	r.Account, r.Author = id(v.Get("account")), v.Get("author").Text()
	return r
}

func readFresh(v plain.Value) (list []Fresh) {
	for _, item := range v.Items() {
		f := Fresh{Kind: Kind(item.Get("kind").Text()), Body: []byte(item.Get("text").Text()), Schema: count(item.Get("schema"))}
		for _, ref := range item.Get("refs").Items() {
			f.Refs = append(f.Refs, readRef(ref))
		}
		list = append(list, f)
	}
	return list
}

func readLast(v plain.Value) (e Entry) {
	e.N = unsigned(v.Get("n"))
	_ = text(e.Hash.UnmarshalText)(v.Get("hash"))
	return e
}

func readWall(v plain.Value) Clock {
	return Clock{Wall: number64(v.Get("wall")), Zone: int(number64(v.Get("zone")))}
}

func writeRef(w *plain.Writer, r Ref) {
	w.Text("device", r.Device.String())
	w.Int("n", int64(r.N))
}

func readRef(v plain.Value) Ref { return Ref{id(v.Get("device")), unsigned(v.Get("n"))} }

func writeLost(w *plain.Writer, l Lost) {
	w.Int("own", int64(l.Own))
	w.Int("others", int64(l.Others))
}

func writeIDs(w *plain.Writer, name string, list []ID) {
	w.Texts(name, texts(list))
}

// What can't be read of the worker's own values stays zero.

func id(v plain.Value) (id ID) {
	_ = text(id.UnmarshalText)(v)
	return id
}

func unsigned(v plain.Value) (n uint64) {
	_ = whole(&n, MaxNumber)(v)
	return n
}

func number64(v plain.Value) (n int64) {
	_ = signed(&n)(v)
	return n
}

func count(v plain.Value) int { return int(number64(v)) }
