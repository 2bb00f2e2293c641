package auth

import (
	"crypto/hkdf"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
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
// says which. The file is 64 hex digits, readable by its owner only; a looser
// mode is tightened.
func LoadKey(path string) (key Key, made bool, err error) {
	text, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		var root [32]byte
		rand.Read(root[:])
		return NewKey(root), true, writeKey(path, root)
	}
	if err != nil {
		return Key{}, false, err
	}
	root, err := hex.DecodeString(strings.TrimSpace(string(text)))
	if err != nil || len(root) != 32 {
		return Key{}, false, fmt.Errorf("%s is no key of this server: want 64 hex digits. Put the right file back, or delete it to have a new one made", path)
	}
	if err := os.Chmod(path, 0o600); err != nil {
		return Key{}, false, err
	}
	return NewKey([32]byte(root)), false, nil
}

// writeKey makes the file whole or not at all: a half-written key must not
// be found at the next start.
func writeKey(path string, root [32]byte) error {
	f, err := os.CreateTemp(filepath.Dir(path), ".key-*") // 0600
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	_, err = fmt.Fprintln(f, hex.EncodeToString(root[:]))
	if err == nil {
		err = f.Sync()
	}
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}
