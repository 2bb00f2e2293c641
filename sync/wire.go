package sync

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"strconv"
)

// wireEntry is an entry as JSON, on the wire and in the phone's storage. All
// eleven fields are always there and no other: the envelope is final, and a
// field nobody hashed must not slip in unseen.
type wireEntry struct {
	Device ID     `json:"device"`
	N      uint64 `json:"n"`
	Book   ID     `json:"book"`
	Prev   Hash   `json:"prev"`
	Kind   Kind   `json:"kind"`
	Refs   []Ref  `json:"refs"`
	Body   []byte `json:"body"` // standard base64 with padding
	Hash   Hash   `json:"hash"`
	Seen   uint64 `json:"seen"`
	Schema int    `json:"schema"`
	Clock  Clock  `json:"clock"`
}

// MarshalJSON writes e with every field present; no refs are [] and an empty
// body is "".
func (e Entry) MarshalJSON() ([]byte, error) {
	w := wireEntry(e)
	if w.Refs == nil {
		w.Refs = []Ref{}
	}
	if w.Body == nil {
		w.Body = []byte{}
	}
	return json.Marshal(w)
}

// UnmarshalJSON reads an entry strictly: each field once, spelled exactly,
// none missing and none unknown. It does not check the hash; [Entry.Verify]
// does. The error is a *Fault.
func (e *Entry) UnmarshalJSON(data []byte) error {
	read, f := readEntry(data)
	if f != nil {
		return f
	}
	*e = read
	return nil
}

// readEntry reads as much of an entry as it can and says what it could not,
// so that an entry with one bad field can still be set aside under its number.
func readEntry(data []byte) (Entry, *Fault) {
	fields, f := object(data)
	if f != nil {
		return Entry{}, f
	}
	var e Entry
	var fault *Fault
	take := func(name string, read func([]byte) error) {
		raw, ok := fields[name]
		if !ok {
			fault = first(fault, faultf(CodeShape, "The entry has no field %q.", name))
			return
		}
		delete(fields, name)
		if err := read(raw); err != nil {
			fault = first(fault, faultf(CodeShape, "The entry's field %q can't be read: %v.", name, err))
		}
	}
	take("device", text(e.Device.UnmarshalText))
	take("n", whole(&e.N))
	take("book", text(e.Book.UnmarshalText))
	take("prev", text(e.Prev.UnmarshalText))
	take("kind", func(raw []byte) error { return json.Unmarshal(raw, (*string)(&e.Kind)) })
	take("refs", func(raw []byte) (err error) { e.Refs, err = readRefs(raw); return err })
	take("body", text(func(t []byte) (err error) {
		e.Body, err = base64.StdEncoding.Strict().AppendDecode(nil, t)
		return err
	}))
	take("hash", text(e.Hash.UnmarshalText))
	take("seen", whole(&e.Seen))
	take("schema", func(raw []byte) error {
		var n uint64
		if err := whole(&n)(raw); err != nil {
			return err
		}
		if n > 1<<30 {
			return errText("it is too large")
		}
		e.Schema = int(n)
		return nil
	})
	take("clock", func(raw []byte) (err error) { e.Clock, err = readClock(raw); return err })
	for name := range fields {
		fault = first(fault, faultf(CodeShape, "The entry has a field %q, which this version does not know.", clip(name)))
	}
	return e, fault
}

func readRefs(data []byte) ([]Ref, error) {
	var list []json.RawMessage
	if err := json.Unmarshal(data, &list); err != nil || list == nil {
		return nil, errText("it must be a list")
	}
	if len(list) > MaxRefs {
		return nil, errText("it is longer than " + strconv.Itoa(MaxRefs))
	}
	var refs []Ref
	for _, raw := range list {
		var r Ref
		if err := exactly(raw, map[string]func([]byte) error{
			"device": text(r.Device.UnmarshalText), "n": whole(&r.N),
		}); err != nil {
			return nil, err
		}
		refs = append(refs, r)
	}
	return refs, nil
}

func readClock(data []byte) (Clock, error) {
	var c Clock
	err := exactly(data, map[string]func([]byte) error{
		"wall": func(raw []byte) error { return signed(raw, &c.Wall) },
		"zone": func(raw []byte) error {
			var z int64
			err := signed(raw, &z)
			c.Zone = int(z)
			return err
		},
	})
	return c, err
}

// exactly reads an object that has these fields and no other.
func exactly(data []byte, want map[string]func([]byte) error) error {
	fields, f := object(data)
	if f != nil {
		return f
	}
	for name := range fields {
		if want[name] == nil {
			return errText("it has an unknown field " + strconv.Quote(clip(name)))
		}
	}
	for name, read := range want {
		raw, ok := fields[name]
		if !ok {
			return errText("it has no field " + strconv.Quote(name))
		}
		if err := read(raw); err != nil {
			return err
		}
	}
	return nil
}

// object splits a JSON object into its fields. Unlike encoding/json it does
// not fold letter case and does not let a repeated field win silently.
func object(data []byte) (map[string]json.RawMessage, *Fault) {
	torn := faultf(CodeShape, "The message is not whole: it was cut short or is not JSON.")
	if !json.Valid(data) {
		return nil, torn
	}
	dec := json.NewDecoder(bytes.NewReader(data))
	open, err := dec.Token()
	if err != nil || open != json.Delim('{') {
		return nil, faultf(CodeShape, "The message must be a JSON object.")
	}
	fields := make(map[string]json.RawMessage)
	for dec.More() {
		token, err := dec.Token()
		name, ok := token.(string)
		if err != nil || !ok {
			return nil, torn
		}
		var value json.RawMessage
		if err := dec.Decode(&value); err != nil {
			return nil, torn
		}
		if _, twice := fields[name]; twice {
			return nil, faultf(CodeShape, "The field %q is there twice.", clip(name))
		}
		fields[name] = value
	}
	return fields, nil
}

// text reads a JSON string and hands it on.
func text(read func([]byte) error) func([]byte) error {
	return func(raw []byte) error {
		var s *string
		if err := json.Unmarshal(raw, &s); err != nil || s == nil {
			return errText("it must be text")
		}
		return read([]byte(*s))
	}
}

// whole reads a whole number that JavaScript can count exactly.
func whole(n *uint64) func([]byte) error {
	return func(raw []byte) error {
		v, err := strconv.ParseUint(string(raw), 10, 64)
		if err != nil || v > MaxNumber {
			return errText("it must be a whole number, 0 or more")
		}
		*n = v
		return nil
	}
}

func signed(raw []byte, n *int64) error {
	v, err := strconv.ParseInt(string(raw), 10, 64)
	if err != nil || v > MaxNumber || v < -MaxNumber {
		return errText("it must hold whole numbers")
	}
	*n = v
	return nil
}

type errText string

func (e errText) Error() string { return string(e) }

func first(a, b *Fault) *Fault {
	if a != nil {
		return a
	}
	return b
}

// clip keeps a stranger's text short inside a sentence.
func clip(s string) string {
	if len(s) > 40 {
		return s[:40] + "…"
	}
	return s
}
