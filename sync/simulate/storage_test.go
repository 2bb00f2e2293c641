package simulate

import (
	"maps"
	"slices"
	"strings"

	"linkrod/sync"
	"linkrod/sync/plain"
)

// storage is what a phone's database holds. It changes in transactions: a copy
// is changed, and takes the place of the original or does not.
type storage struct {
	mine  sync.ID
	plain bool
	moved []place // where the last Anew began
	books map[sync.ID]*shelf
}

// shelf is one book: the Device, and the rows.
type shelf struct {
	state *sync.Device // never changed, only replaced
	plain bool         // the Device goes through its JSON, as on a phone; every fourth world does
	rows  map[place]row
}

// place is a row's key. Shelved rows have one of their own.
type place struct {
	sync.Ref
	shelved bool
}

type row struct {
	sync.Row
	entry sync.Entry
	words string
	clock sync.Span
}

func (s *storage) copy() *storage {
	out := &storage{mine: s.mine, plain: s.plain, books: map[sync.ID]*shelf{}}
	for id, b := range s.books {
		out.books[id] = &shelf{state: b.state, plain: b.plain, rows: maps.Clone(b.rows)}
	}
	return out
}

func (s *storage) book(id sync.ID) *shelf {
	if s.books[id] == nil {
		s.books[id] = &shelf{plain: s.plain, rows: map[place]row{}}
	}
	return s.books[id]
}

// device is a copy of the Device, to be changed and kept.
func (b *shelf) device(id sync.ID) *sync.Device {
	if b.state == nil {
		return &sync.Device{Book: id}
	}
	d := *b.state
	d.Marks, d.Acked, d.Pages = slices.Clone(d.Marks), slices.Clone(d.Acked), slices.Clone(d.Pages)
	for i := range d.Pages {
		d.Pages[i].Lines = slices.Clone(d.Pages[i].Lines)
	}
	d.IDs, d.Stopped, d.Barred, d.Gaps = slices.Clone(d.IDs), slices.Clone(d.Stopped), slices.Clone(d.Barred), slices.Clone(d.Gaps)
	return &d
}

func (b *shelf) keep(d *sync.Device) {
	b.state = d
	if b.plain {
		v, err := plain.Parse(b.json())
		if err != nil {
			panic(err)
		}
		b.state = sync.ReadDevice(v, d.Book)
	}
}

func (b *shelf) json() []byte {
	if b.state == nil {
		return nil
	}
	var w plain.Writer
	b.state.Write(&w, "")
	return w.Bytes()
}

// sorted are the rows by device and number.
func (b *shelf) sorted() []row {
	list := slices.Collect(maps.Values(b.rows))
	slices.SortFunc(list, func(x, y row) int {
		if c := compare(x.Device, y.Device); c != 0 {
			return c
		}
		if x.N != y.N {
			return int(x.N) - int(y.N)
		}
		return strings.Compare(x.Hash.String(), y.Hash.String())
	})
	return list
}

// last is a device's last row here.
func (b *shelf) last(device sync.ID) (e sync.Entry) {
	for at, r := range b.rows {
		if at.Device == device && at.N > e.N {
			e = r.entry
		}
	}
	return e
}

// perform does what a Device asks of the rows, as the phone's worker does. What
// is for after the transaction is returned.
func (s *storage) perform(id sync.ID, d *sync.Device, effects []sync.Effect, fresh func() sync.ID) (after []sync.Effect) {
	b := s.book(id)
	for i := 0; i < len(effects); i++ {
		e := effects[i]
		at := place{Ref: e.Ref}
		old, here := b.rows[at]
		switch e.Do {
		case sync.DoPut:
			if here && old.Hash != e.Hash {
				panic("a row taken over") // P5
			}
			r := row{Row: e.Row, entry: e.Entry, clock: e.Clock}
			b.rows[at] = r
		case sync.DoPatch:
			if !here {
				panic("a patch of no row")
			}
			old.At, old.Seq, old.words = e.At, e.Seq, e.Words
			if e.Pulled {
				old.Account, old.Author, old.Received, old.clock = e.Account, e.Author, e.Received, e.Clock
			}
			b.rows[at] = old
		case sync.DoDrop:
			delete(b.rows, at)
		case sync.DoShelve:
			delete(b.rows, at)
			old.At = sync.AtLost
			b.rows[place{e.Ref, true}] = old
		case sync.DoReoffer:
			for at, r := range b.rows {
				if r.Own && (r.At == sync.AtRefused || r.At == sync.AtHeld) {
					r.At, r.Seq = sync.AtWaiting, 0
					b.rows[at] = r
				}
			}
		case sync.DoRevive:
			for at, r := range b.rows {
				if r.Own && r.Device == e.Device && r.N >= e.N && r.At != sync.AtWaiting && (r.At != sync.AtSent || r.Seq > e.Seq) {
					r.At, r.Seq = sync.AtWaiting, 0
					b.rows[at] = r
				}
			}
		case sync.DoDevice:
			s.mine = e.Device
		case sync.DoAnew:
			s.moved = append(s.moved, at)
			in := sync.Anew{Device: e.Device, From: e.N, Mine: s.mine, Last: b.last(s.mine), Fresh: fresh()}
			for _, r := range b.sorted() {
				if r.Own && r.At == sync.AtWaiting {
					in.Rows = append(in.Rows, sync.Waiting{Entry: r.entry, Written: r.Received})
				}
			}
			effects = append(effects, d.Anew(in)...)
		case sync.DoShow, sync.DoSend, sync.DoRest:
			after = append(after, e)
		}
	}
	b.keep(d)
	return after
}
