package witness

import (
	"crypto/ed25519"
	"crypto/sha256"
	"encoding/hex"
	"os"
	"path/filepath"
	"testing"

	"linkrod/sync"
)

// Ensure a receipt is a plain Ed25519 signature over the message package sync
// lays down, by the key of RFC 8032, section 7.1, test 1, so that anybody can
// check it with any library.
func TestSign(t *testing.T) {
	seed, err := hex.DecodeString("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60")
	if err != nil {
		t.Fatal(err)
	}
	public, err := hex.DecodeString("d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a")
	if err != nil {
		t.Fatal(err)
	}
	k := New([32]byte(seed))
	book, head := sync.ID{0xb0}, sync.Head{Seq: 7, Chain: sync.Hash{1}}
	r := k.Sign(book, head, 1762700000000)
	sum := sha256.Sum256(public)
	if r.Key != hex.EncodeToString(sum[:8]) {
		t.Errorf("the key's name is %s, want the first half of the SHA-256 of the public key", r.Key)
	}
	// length, book, length, seq, length, chain, length, received
	message := "00000010" + book.String() + "00000008" + "0000000000000007" + "00000020" + head.Chain.String() + "00000008" + "0000019a691b7b00"
	plain, err := hex.DecodeString(message)
	if err != nil {
		t.Fatal(err)
	}
	if !ed25519.Verify(public, plain, r.Sig) {
		t.Errorf("the signature is not over %s", message)
	}
	if !k.Signed(r, book) {
		t.Error("it does not know its own")
	}
	if k.Sign(book, sync.Head{}, 5) != nil {
		t.Error("a receipt for an empty ledger")
	}
	for name, change := range map[string]func(*sync.Receipt){
		"another book":      func(r *sync.Receipt) { r.Book[1] = 1 },
		"another position":  func(r *sync.Receipt) { r.Seq++ },
		"another chain":     func(r *sync.Receipt) { r.Chain[9] ^= 1 },
		"another time":      func(r *sync.Receipt) { r.Received-- },
		"another key":       func(r *sync.Receipt) { *r = *New([32]byte{1}).Sign(book, head, 1762700000000) },
		"another's name":    func(r *sync.Receipt) { r.Key = "0000000000000000" },
		"a bit":             func(r *sync.Receipt) { r.Sig[5] ^= 1 },
		"a signature short": func(r *sync.Receipt) { r.Sig = r.Sig[:63] },
		"no signature":      func(r *sync.Receipt) { r.Sig = nil },
	} {
		bad := *k.Sign(book, head, 1762700000000)
		change(&bad)
		if k.Signed(&bad, book) {
			t.Errorf("taken: %s", name)
		}
	}
	if k.Signed(nil, book) || k.Signed(r, sync.ID{0xb1}) {
		t.Error("taken: none, or one of another book")
	}
}

// Ensure the key lies in a file of its own, 0600, and is the same at the next
// start, whatever became of the data beside it.
func TestLoad(t *testing.T) {
	path := filepath.Join(t.TempDir(), "receipt.key")
	first, made, err := Load(path)
	if err != nil || !made {
		t.Fatalf("made = %v, %v", made, err)
	}
	second, made, err := Load(path)
	if err != nil || made || !second.Signed(first.Sign(sync.ID{1}, sync.Head{Seq: 1}, 2), sync.ID{1}) {
		t.Errorf("at the next start: made = %v, %v", made, err)
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("%v, %v", info, err)
	}
	if err := os.WriteFile(path, []byte("half"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, _, err := Load(path); err == nil {
		t.Error("a damaged key is replaced in silence")
	}
}
