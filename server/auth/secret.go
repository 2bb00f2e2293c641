package auth

import (
	"crypto/hmac"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base64"

	"linkrod/sync"
)

// secret is 256 bits nobody can guess. Only its sum is ever stored (A1).
type secret [32]byte

func newSecret() (s secret) {
	rand.Read(s[:]) // never fails: the runtime stops the program instead
	return s
}

func newID() (id sync.ID) {
	rand.Read(id[:])
	return id
}

// sum is a plain SHA-256: enough for a secret that can't be guessed.
func (s secret) sum() sync.Hash { return sync.Hash(sha256.Sum256(s[:])) }

func (s secret) text() string { return base64.RawURLEncoding.EncodeToString(s[:]) }

func same(a, b sync.Hash) bool { return subtle.ConstantTimeCompare(a[:], b[:]) == 1 }

// mac is HMAC-SHA-256 over parts, each preceded by its length.
func mac(key []byte, parts ...[]byte) [32]byte {
	h := hmac.New(sha256.New, key)
	for _, p := range parts {
		h.Write([]byte{byte(len(p) >> 8), byte(len(p))})
		h.Write(p)
	}
	return [32]byte(h.Sum(nil))
}

// readSecret reads the text of a secret, in its one spelling.
func readSecret(text string) (s secret, ok bool) {
	b, err := base64.RawURLEncoding.Strict().DecodeString(text)
	if err != nil || len(b) != len(s) || len(text) != base64.RawURLEncoding.EncodedLen(len(s)) {
		return secret{}, false
	}
	return secret(b), true
}
