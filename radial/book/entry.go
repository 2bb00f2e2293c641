package book

import (
	"encoding/base64"
	"strconv"

	"linkrod/sync/plain"
)

// Key names one entry of a book: the device that wrote it, and the how-manyeth
// that was there.
type Key struct {
	Device string
	N      int
}

// String is "device:n", as the screens link to it.
func (k Key) String() string { return k.Device + ":" + strconv.Itoa(k.N) }

// Clock is what the phone's clock said: evidence shown to people. It decides
// nothing.
type Clock struct {
	Wall int64 // milliseconds since 1 January 1970 UTC
	Zone int   // minutes east of UTC
}

// Entry is the part of an envelope that this package reads. The rest (chain,
// hash, version) is none of its business.
type Entry struct {
	Device string
	N      int
	Kind   string // fact, replace, strike, sign or settle
	Refs   []Key
	Body   []byte
	Seen   int // the ledger's number the author had seen
	Clock  Clock
	Hash   string // 64 hex digits, "" when it was not told
}

// Key names the entry.
func (e Entry) Key() Key { return Key{e.Device, e.N} }

// Record is an entry with what the ledger added to it.
type Record struct {
	Entry  Entry
	Seq    int    // 0: not sent yet
	Author string // the name its writer is known by
}

// Now is the moment a view is for, told by whoever asks.
type Now struct {
	Day   string // "2025-11-09", local
	Clock string // "18:40", local
}

// ReadNow reads {"day","clock"}.
func ReadNow(v plain.Value) Now { return Now{v.Get("day").Text(), v.Get("clock").Text()} }

// ReadRecord reads an entry as it travels and lies in storage: {"entry":{…},
// "seq","author"}. Only what Entry has is looked at; whether the envelope is
// whole is for package sync to say.
func ReadRecord(v plain.Value) (Record, error) {
	r := &reader{Value: v.Get("entry")}
	e := Entry{Device: r.text("device"), N: r.whole("n"), Kind: r.text("kind"), Seen: r.whole("seen"), Hash: r.text("hash")}
	for _, ref := range r.list("refs") {
		in := &reader{Value: ref}
		e.Refs = append(e.Refs, Key{in.text("device"), in.whole("n")})
	}
	clock := r.field("clock", plain.Object)
	e.Clock.Wall, _ = clock.Get("wall").Int()
	zone, _ := clock.Get("zone").Int()
	e.Clock.Zone = int(zone)
	body, err := base64.StdEncoding.DecodeString(r.text("body"))
	if err != nil || r.err != nil || e.Device == "" || e.N < 1 {
		return Record{}, Wrong("An entry of this engine is damaged: its envelope cannot be read.")
	}
	e.Body = body
	seq, _ := v.Get("seq").Int()
	return Record{e, int(seq), v.Get("author").Text()}, nil
}
