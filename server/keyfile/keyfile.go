// Package keyfile keeps a secret of 32 random bytes in a file of its own
// beside the data: a copy of the data alone then proves nothing and opens
// nothing, and the secret outlives restarts and restored backups.
package keyfile

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Load reads the key file at path, and makes it if there is none; made says
// which. The file is 64 hex digits, readable by its owner only; a looser mode
// is tightened.
func Load(path string) (root [32]byte, made bool, err error) {
	text, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		rand.Read(root[:])
		return root, true, write(path, root)
	}
	if err != nil {
		return root, false, err
	}
	data, err := hex.DecodeString(strings.TrimSpace(string(text)))
	if err != nil || len(data) != len(root) {
		return root, false, fmt.Errorf("%s is no key of this server: want 64 hex digits. Put the right file back, or delete it to have a new one made", path)
	}
	return [32]byte(data), false, os.Chmod(path, 0o600)
}

// write makes the file whole or not at all: a half-written key must not be
// found at the next start.
func write(path string, root [32]byte) error {
	f, err := os.CreateTemp(filepath.Dir(path), ".key-*") // 0600
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	_, err = fmt.Fprintln(f, hex.EncodeToString(root[:]))
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}
