package sync

import (
	"encoding/base64"
	"slices"
	"strconv"

	"linkrod/sync/plain"
)

// An entry as JSON, on the wire and in the phone's storage, is an object of
// eleven fields. All of them are always there and no other: the envelope is
// final, and a field nobody hashed must not slip in unseen.
//
//	device, book  32 hex digits
//	prev, hash    64 hex digits
//	n, seen       whole numbers up to 2^53-1
//	kind          text
//	refs          list of {device, n}
//	body          standard base64 with padding
//	schema        whole number
//	clock         {wall, zone}, whole numbers

// MarshalJSON writes e with every field present.
func (e Entry) MarshalJSON() ([]byte, error) {
	var w plain.Writer
	e.Write(&w, "")
	return w.Bytes(), nil
}

// Write writes e under a name.
func (e Entry) Write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Text("device", e.Device.String())
	w.Int("n", int64(e.N))
	w.Text("book", e.Book.String())
	w.Text("prev", e.Prev.String())
	w.Text("kind", string(e.Kind))
	w.Open("refs", '[')
	for _, r := range e.Refs {
		w.Begin('{')
		w.Text("device", r.Device.String())
		w.Int("n", int64(r.N))
		w.End('}')
	}
	w.End(']')
	w.Text("body", base64.StdEncoding.EncodeToString(e.Body))
	w.Text("hash", e.Hash.String())
	w.Int("seen", int64(e.Seen))
	w.Int("schema", int64(e.Schema))
	w.Open("clock", '{')
	w.Int("wall", e.Clock.Wall)
	w.Int("zone", int64(e.Clock.Zone))
	w.End('}')
	w.End('}')
}

// UnmarshalJSON reads an entry strictly: each field once, spelled exactly,
// none missing and none unknown. It does not check the hash; [Entry.Verify]
// does. The error is a *Fault.
func (e *Entry) UnmarshalJSON(data []byte) error {
	v, err := plain.Parse(data)
	if err != nil {
		return torn()
	}
	read, err := ReadEntry(v)
	if err == nil {
		*e = read
	}
	return err
}

func torn() *Fault {
	return say(CodeShape, "The message is not whole: it was cut short, or is not proper JSON.")
}

// ReadEntry is [Entry.UnmarshalJSON] of JSON that is parsed already.
func ReadEntry(v plain.Value) (Entry, error) {
	e, f := readEntry(v)
	if f != nil {
		return Entry{}, f
	}
	return e, nil
}

// readEntry reads as much of an entry as it can and says what it could not,
// so that an entry with one bad field can still be set aside under its number.
func readEntry(v plain.Value) (e Entry, fault *Fault) {
	if v.Kind() != plain.Object {
		return Entry{}, say(CodeShape, "The entry must be a JSON object.")
	}
	var known []string
	take := func(name string, read func(plain.Value) error) {
		known = append(known, name)
		field := v.Get(name)
		if field.Kind() == plain.Absent {
			fault = first(fault, say(CodeShape, "The entry has no field ", quoted(name), "."))
		} else if err := read(field); err != nil {
			fault = first(fault, say(CodeShape, "The entry's field ", quoted(name), " can't be read: ", err, "."))
		}
	}
	take("device", text(e.Device.UnmarshalText))
	take("n", whole(&e.N, MaxNumber))
	take("book", text(e.Book.UnmarshalText))
	take("prev", text(e.Prev.UnmarshalText))
	take("kind", text(func(t []byte) error { e.Kind = Kind(t); return nil }))
	take("refs", func(v plain.Value) (err error) { e.Refs, err = readRefs(v); return err })
	take("body", text(func(t []byte) (err error) {
		e.Body, err = base64.StdEncoding.Strict().DecodeString(string(t))
		return err
	}))
	take("hash", text(e.Hash.UnmarshalText))
	take("seen", whole(&e.Seen, MaxNumber))
	take("schema", func(v plain.Value) error {
		var n uint64
		err := whole(&n, 1<<30)(v)
		e.Schema = int(n)
		return err
	})
	take("clock", func(v plain.Value) (err error) { e.Clock, err = readClock(v); return err })
	for _, name := range v.Names() {
		if !slices.Contains(known, name) {
			fault = first(fault, say(CodeShape, "The entry has a field ", quoted(name), ", which this version does not know."))
		}
	}
	return e, fault
}

func readRefs(v plain.Value) ([]Ref, error) {
	if v.Kind() != plain.List {
		return nil, spelling("it must be a list")
	}
	if len(v.Items()) > MaxRefs {
		return nil, spelling("it is longer than " + strconv.Itoa(MaxRefs))
	}
	var refs []Ref
	for _, item := range v.Items() {
		var r Ref
		if err := two(item, "device", text(r.Device.UnmarshalText), "n", whole(&r.N, MaxNumber)); err != nil {
			return nil, err
		}
		refs = append(refs, r)
	}
	return refs, nil
}

func readClock(v plain.Value) (c Clock, err error) {
	var zone int64
	err = two(v, "wall", signed(&c.Wall), "zone", signed(&zone))
	c.Zone = int(zone)
	return c, err
}

// two reads an object of exactly two fields.
func two(v plain.Value, name1 string, read1 func(plain.Value) error, name2 string, read2 func(plain.Value) error) error {
	for _, name := range v.Names() {
		if name != name1 && name != name2 {
			return spelling("it has an unknown field " + quoted(name))
		}
	}
	for _, name := range []string{name1, name2} {
		if v.Get(name).Kind() == plain.Absent {
			return spelling("it has no field " + quoted(name))
		}
	}
	if err := read1(v.Get(name1)); err != nil {
		return err
	}
	return read2(v.Get(name2))
}

// text reads a JSON string and hands it on.
func text(read func([]byte) error) func(plain.Value) error {
	return func(v plain.Value) error {
		if v.Kind() != plain.Text {
			return spelling("it must be text")
		}
		return read([]byte(v.Text()))
	}
}

// whole reads a whole number from 0 to most.
func whole(n *uint64, most int64) func(plain.Value) error {
	return func(v plain.Value) error {
		i, ok := v.Int()
		if !ok || i < 0 || i > most {
			return spelling("it must be a whole number from 0 to " + strconv.FormatInt(most, 10))
		}
		*n = uint64(i)
		return nil
	}
}

func signed(n *int64) func(plain.Value) error {
	return func(v plain.Value) error {
		i, ok := v.Int()
		if !ok || i > MaxNumber || i < -MaxNumber {
			return spelling("it must hold whole numbers")
		}
		*n = i
		return nil
	}
}

func first(a, b *Fault) *Fault {
	if a != nil {
		return a
	}
	return b
}
