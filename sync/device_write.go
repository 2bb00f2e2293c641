package sync

// Wrote is what a person saved on this phone: new entries of the book.
type Wrote struct {
	Mine  ID    // the device id to write under
	Last  Entry // Mine's last in this book; only N and Hash count, zero: none
	Fresh []Fresh
	Clock Clock
}

// Fresh is one entry to be: what of it is not given by where it is written.
type Fresh struct {
	Kind   Kind
	Refs   []Ref
	Body   []byte
	Schema int // 0: as this program writes
}

// Wrote makes final entries of what was saved (P1, E1, E2). The error is a
// *Fault: an entry that can't be, or one the server heard last could not take.
func (d *Device) Wrote(in Wrote) (effects []Effect, err error) {
	d.known(in.Mine)
	last := in.Last
	for _, f := range in.Fresh {
		if f.Schema == 0 {
			f.Schema = schema
		}
		if d.MaxSchema > 0 && f.Schema > d.MaxSchema {
			return nil, say(CodeNewer, "The server is older than this Linkrod and could not take this entry. Write it as a note, or bring the server up to date.")
		}
		e := Entry{Device: in.Mine, N: last.N + 1, Book: d.Book, Prev: last.Hash, Kind: f.Kind, Refs: f.Refs, Body: f.Body,
			Seen: d.Head.Seq, Schema: f.Schema, Clock: in.Clock}
		if e, err = Seal(e); err != nil {
			return nil, err
		}
		effects = append(effects, Effect{Do: DoPut, Row: Row{Ref: Ref{e.Device, e.N}, Hash: e.Hash, At: AtWaiting, Own: true}, Entry: e})
		last = e
	}
	return append(effects, changed), nil
}

// Anew is the input after [DoAnew]: the own rows of this book that wait.
type Anew struct {
	Device ID     // whose numbers another phone has used,
	From   uint64 // from this one on
	Mine   ID
	Last   Entry // Mine's last in this book; only N and Hash count
	Fresh  ID    // a device id never used before
	Rows   []Waiting
}

// Waiting is an own row that waits, with its entry.
type Waiting struct {
	Entry   Entry
	Written int64
}

// Anew writes under another device id what this phone wrote under numbers that
// another has used. What waits under smaller ones is the ledger's already, or
// will be. The words, the clock and what the author had seen stay; what
// names a moved entry names it under its new key, and so is moved too, with
// what its device wrote after it.
func (d *Device) Anew(in Anew) (effects []Effect) {
	d.known(in.Device)
	d.known(in.Mine)
	rows := make([]Waiting, 0, len(in.Rows))
	for age := range d.IDs { // in the order they were written (P6)
		for _, r := range in.Rows {
			if d.age(r.Entry.Device) == age {
				rows = append(rows, r)
			}
		}
	}
	moves := map[Ref]Ref{}
	moved := map[ID]bool{}
	var list []Waiting
	for _, r := range rows {
		if r.Entry.Device == in.Device && r.Entry.N >= in.From {
			moved[in.Device] = true
		}
		for _, ref := range r.Entry.Refs {
			if _, ok := moves[ref]; ok {
				moved[r.Entry.Device] = true
			}
		}
		if moved[r.Entry.Device] {
			moves[Ref{r.Entry.Device, r.Entry.N}] = Ref{}
			list = append(list, r)
		}
	}
	to, last := in.Mine, in.Last
	if in.Mine == in.Device || moved[in.Mine] {
		to, last = in.Fresh, Entry{}
		d.known(to)
		effects = append(effects, Effect{Do: DoDevice, Row: Row{Ref: Ref{Device: to}}})
	}
	for _, r := range list {
		old := Ref{r.Entry.Device, r.Entry.N}
		e := r.Entry
		e.Device, e.N, e.Prev = to, last.N+1, last.Hash
		e.Refs = append([]Ref(nil), e.Refs...)
		for i, ref := range e.Refs {
			if new, ok := moves[ref]; ok {
				e.Refs[i] = new
			}
		}
		e.Hash = e.Sum() // it was sealed once; a kind of a newer program moves too
		moves[old] = Ref{e.Device, e.N}
		effects = append(effects,
			Effect{Do: DoPut, Row: Row{Ref: Ref{e.Device, e.N}, Hash: e.Hash, At: AtWaiting, Own: true}, Entry: e, Written: r.Written},
			Effect{Do: DoDrop, Row: Row{Ref: old}})
		last = e
	}
	return append(effects, changed)
}
