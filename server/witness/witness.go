// Package witness signs where a ledger stood. A phone that keeps such a
// receipt can prove later, also to a server that was put back from a backup,
// that records it holds were in the ledger: they lead to the chain that was
// signed.
//
// The key is in a file outside the database, so that it survives a restore.
// Losing it loses no entry; what others wrote then waits for the host instead
// of going back by itself.
package witness

import (
	"crypto/ed25519"
	"crypto/sha256"
	"encoding/hex"

	"linkrod/server/keyfile"
	"linkrod/sync"
)

// Key signs receipts (Ed25519, RFC 8032) and knows its own.
type Key struct {
	id      string
	private ed25519.PrivateKey
}

// New makes a Key of 32 random bytes.
func New(seed [32]byte) Key {
	private := ed25519.NewKeyFromSeed(seed[:])
	id := sha256.Sum256(private.Public().(ed25519.PublicKey))
	return Key{id: hex.EncodeToString(id[:8]), private: private}
}

// Load reads the key file at path, and makes it if there is none; made says
// which.
func Load(path string) (key Key, made bool, err error) {
	seed, made, err := keyfile.Load(path)
	if err != nil {
		return Key{}, false, err
	}
	return New(seed), made, nil
}

// Sign is the receipt, made now (ms), that book's ledger stood at head. An
// empty ledger needs none.
func (k Key) Sign(book sync.ID, head sync.Head, now int64) *sync.Receipt {
	if head.Seq == 0 {
		return nil
	}
	r := sync.Receipt{Book: book, Seq: head.Seq, Chain: head.Chain, Received: now, Key: k.id}
	r.Sig = ed25519.Sign(k.private, r.Message())
	return &r
}

// Signed reports whether r is a receipt of this key's for book.
func (k Key) Signed(r *sync.Receipt, book sync.ID) bool {
	return r != nil && r.Book == book && r.Key == k.id &&
		ed25519.Verify(k.private.Public().(ed25519.PublicKey), r.Message(), r.Sig)
}
