package auth

import (
	"crypto/hkdf"
	"crypto/sha256"
	"encoding/hex"

	"linkrod/server/keyfile"
)

// Key is the one secret of an instance, and what follows from it.
//
// It lives in a file of its own beside the data, so that a copy of the data
// alone signs nobody in, and it outlives restarts, so that phones don't find
// themselves with dead tokens. Deleting the file and starting again makes a
// new one: every access token dies at once, phones fetch another by their
// refresh cookie, and nobody has to type a passphrase.
type Key struct {
	id      string // names the key in a token's header; tells nothing about it
	access  []byte // signs access tokens
	refresh []byte // makes the successor of a refresh token
	pairing []byte // hides pairing codes, which are short enough to try out
}

// NewKey derives a Key from 32 random bytes (HKDF, RFC 5869).
func NewKey(root [32]byte) Key {
	derive := func(label string, n int) []byte {
		b, err := hkdf.Key(sha256.New, root[:], nil, "linkrod "+label, n)
		if err != nil {
			panic(err) // only for an absurd n
		}
		return b
	}
	return Key{
		id:      hex.EncodeToString(derive("key id", 8)),
		access:  derive("access", 32),
		refresh: derive("refresh", 32),
		pairing: derive("pairing", 32),
	}
}

// LoadKey reads the key file at path, and makes it if there is none; made
// says which.
func LoadKey(path string) (key Key, made bool, err error) {
	root, made, err := keyfile.Load(path)
	if err != nil {
		return Key{}, false, err
	}
	return NewKey(root), made, nil
}
