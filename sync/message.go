package sync

import "linkrod/sync/plain"

// What the phone reads and writes of the messages about a ledger. The server
// does the same with encoding/json and the field tags; tests hold the two
// against each other. Fields a version does not know are passed over, except
// in an entry.

// Write writes h as {seq, chain}.
func (h Head) Write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Int("seq", int64(h.Seq))
	w.Text("chain", h.Chain.String())
	w.End('}')
}

// ReadHead reads {seq, chain}.
func ReadHead(v plain.Value) (h Head, err error) {
	if err := whole(&h.Seq, MaxNumber)(v.Get("seq")); err != nil {
		return Head{}, say(CodeShape, "The position in the ledger can't be read: ", err, ".")
	}
	if err := text(h.Chain.UnmarshalText)(v.Get("chain")); err != nil {
		return Head{}, say(CodeShape, "The chain at the position can't be read: ", err, ".")
	}
	return h, nil
}

// reading takes fields of a message and keeps the first fault.
type reading struct {
	v     plain.Value
	what  string
	fault *Fault
}

func (in *reading) take(name string, read func(plain.Value) error) {
	if err := read(in.v.Get(name)); err != nil {
		in.fault = first(in.fault, say(CodeShape, "The ", in.what, "'s field ", quoted(name), " can't be read: ", err, "."))
	}
}

// ReadRecord reads one record of an answer to a pull.
func ReadRecord(v plain.Value) (r Record, err error) { return readRecord(v, true) }

// readRecord reads a record, with its chain or without.
func readRecord(v plain.Value, chained bool) (r Record, err error) {
	in := reading{v: v, what: "record"}
	in.take("seq", whole(&r.Seq, MaxNumber))
	in.take("received", signed(&r.Received))
	in.take("account", text(r.Account.UnmarshalText))
	in.take("author", text(func(t []byte) error { r.Author = string(t); return nil }))
	if chained {
		in.take("chain", text(r.Chain.UnmarshalText))
	}
	if in.fault != nil {
		return Record{}, in.fault
	}
	r.Entry, err = ReadEntry(v.Get("entry"))
	return r, err
}

// ReadResult reads one result of an answer to a push. Whatever of it can't be
// read stays zero, and then says nothing good about the entry.
func ReadResult(v plain.Value) (r Result) {
	_ = whole(&r.N, MaxNumber)(v.Get("n"))
	_ = whole(&r.Seq, MaxNumber)(v.Get("seq"))
	_ = whole(&r.From, MaxNumber)(v.Get("from"))
	r.State = State(v.Get("state").Text())
	r.Code = v.Get("code").Text()
	r.Words = v.Get("words").Text()
	return r
}
