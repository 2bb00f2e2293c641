package sync

import (
	"encoding/base64"

	"linkrod/sync/plain"
)

// Receipt is the server's signed word that its ledger of Book stood at Seq with
// Chain. It is made and checked by the server alone, whose key lies outside the
// data file and so outlives a restore; a phone keeps receipts unread and hands
// them back when the ledger has forgotten what they prove.
type Receipt struct {
	Book     ID     `json:"book"`
	Seq      uint64 `json:"seq"`
	Chain    Hash   `json:"chain"`
	Received int64  `json:"received"` // when it was signed, milliseconds since 1970
	Key      string `json:"key"`      // which of the server's keys signed
	Sig      []byte `json:"sig"`      // Ed25519 over Message
}

// Message is what is signed.
func (r Receipt) Message() []byte {
	return ReceiptMessage(r.Book, Head{r.Seq, r.Chain}, r.Received)
}

// ReceiptMessage is what a receipt signs: book (16 bytes), seq (8, big-endian),
// chain (32) and received (8, big-endian, two's complement), each preceded by
// its length in bytes as a big-endian uint32.
func ReceiptMessage(book ID, head Head, received int64) []byte {
	return fields(book[:], number(head.Seq), head.Chain[:], number(uint64(received)))
}

// Write writes r under a name.
func (r Receipt) Write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Text("book", r.Book.String())
	w.Int("seq", int64(r.Seq))
	w.Text("chain", r.Chain.String())
	w.Int("received", r.Received)
	w.Text("key", r.Key)
	w.Text("sig", base64.StdEncoding.EncodeToString(r.Sig))
	w.End('}')
}

// ReadReceipt reads a receipt.
func ReadReceipt(v plain.Value) (r Receipt, err error) {
	in := reading{v: v, what: "receipt"}
	in.take("book", text(r.Book.UnmarshalText))
	in.take("seq", whole(&r.Seq, MaxNumber))
	in.take("chain", text(r.Chain.UnmarshalText))
	in.take("received", signed(&r.Received))
	in.take("key", text(func(t []byte) error { r.Key = string(t); return nil }))
	in.take("sig", text(func(t []byte) (err error) {
		r.Sig, err = base64.StdEncoding.Strict().DecodeString(string(t))
		return err
	}))
	if in.fault != nil {
		return Receipt{}, in.fault
	}
	return r, nil
}
