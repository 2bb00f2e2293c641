package book

import "strconv"

// Key names one entry of a book: the device that wrote it, and the how-manyeth
// that was there.
type Key struct {
	Device string `json:"device"`
	N      int    `json:"n"`
}

// String is "device:n", as the screens link to it.
func (k Key) String() string { return k.Device + ":" + strconv.Itoa(k.N) }

// Clock is what the phone's clock said: evidence shown to people. It decides
// nothing.
type Clock struct {
	Wall int64 `json:"wall"` // milliseconds since 1 January 1970 UTC
	Zone int   `json:"zone"` // minutes east of UTC
}

// Entry is the part of an envelope that this package reads. The rest (chain,
// hash, version) is none of its business.
type Entry struct {
	Device string `json:"device"`
	N      int    `json:"n"`
	Kind   string `json:"kind"` // fact, replace, strike, sign or settle
	Refs   []Key  `json:"refs"`
	Body   []byte `json:"body"`
	Seen   int    `json:"seen"` // the ledger's number the author had seen
	Clock  Clock  `json:"clock"`
}

// Key names the entry.
func (e Entry) Key() Key { return Key{e.Device, e.N} }

// Record is an entry with what the ledger added to it.
type Record struct {
	Entry  Entry  `json:"entry"`
	Seq    int    `json:"seq"`              // 0: not sent yet
	Author string `json:"author,omitempty"` // the name its writer is known by
}

// Now is the moment a view is for, told by whoever asks.
type Now struct {
	Day   string `json:"day"`   // "2025-11-09", local
	Clock string `json:"clock"` // "18:40", local
}
