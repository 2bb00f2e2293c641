package auth

import (
	"context"
	"crypto/rand"
	"crypto/subtle"
	"encoding/base64"
	"fmt"
	"runtime"
	"strings"
	"time"
	"unicode/utf8"

	"golang.org/x/crypto/argon2"
	"golang.org/x/text/unicode/norm"

	"linkrod/server/fault"
)

// Length of a passphrase. ASVS 5.0 6.2.1 asks for 8 characters at least and
// recommends more; 6.2.9 for 64 to be allowed (from memory). There are no
// rules on what it is made of: it may be pasted, and any character counts.
const (
	passphraseMin = 12   // characters
	passphraseMax = 1024 // bytes, so that nobody sends megabytes to be hashed
)

// cost is how hard guessing is made, in the terms of RFC 9106.
type cost struct {
	memory  uint32 // KiB
	passes  uint32
	threads uint8
}

// today is the OWASP Password Storage Cheat Sheet's first choice for argon2id
// on small machines: 19 MiB, 2 passes, 1 lane (from memory).
var today = cost{memory: 19 * 1024, passes: 2, threads: 1}

const (
	saltSize   = 16
	digestSize = 32
)

// checkPassphrase says what is wrong with a new passphrase.
func checkPassphrase(typed, name, shop string) error {
	n := utf8.RuneCountInString(typed)
	switch {
	case n < passphraseMin:
		return fault.At("passphrase", fmt.Sprintf("A passphrase has at least %d characters; this one has %d. Four words that have nothing to do with one another are easy to keep.", passphraseMin, n))
	case len(typed) > passphraseMax:
		return fault.At("passphrase", fmt.Sprintf("That passphrase is longer than %d bytes. Shorten it.", passphraseMax))
	case strings.EqualFold(typed, name) || strings.EqualFold(typed, shop):
		return fault.At("passphrase", "That is the name everybody knows. Choose something else.")
	case strings.Trim(typed, typed[:1]) == "":
		return fault.At("passphrase", "One character over and over is tried first. Choose something else.")
	}
	return nil
}

// hasher does the hashing, a few at a time: each takes 19 MiB, and a flood of
// sign-ins must not take the memory of a small box.
type hasher struct {
	cost  cost
	slots chan struct{}
}

func newHasher() *hasher {
	return &hasher{cost: today, slots: make(chan struct{}, min(4, runtime.GOMAXPROCS(0)))}
}

// hash returns a passphrase as a PHC string.
func (h *hasher) hash(ctx context.Context, passphrase string) (string, error) {
	var salt [saltSize]byte
	rand.Read(salt[:])
	digest, err := h.digest(ctx, h.cost, salt[:], passphrase, digestSize)
	if err != nil {
		return "", err
	}
	return writePHC(h.cost, salt[:], digest), nil
}

// verify reports whether passphrase is the one behind phc, and whether phc was
// made at another cost than today's. An empty phc, for nobody, is never right
// and takes as long (A4).
func (h *hasher) verify(ctx context.Context, phc, passphrase string) (right, stale bool, err error) {
	if phc == "" {
		_, err := h.hash(ctx, passphrase)
		return false, false, err
	}
	c, salt, want, err := readPHC(phc)
	if err != nil {
		return false, false, err
	}
	got, err := h.digest(ctx, c, salt, passphrase, uint32(len(want)))
	if err != nil {
		return false, false, err
	}
	return subtle.ConstantTimeCompare(got, want) == 1, c != h.cost, nil
}

// digest waits its turn. The text is brought to one Unicode form first,
// because an é typed on one phone is two characters on another.
func (h *hasher) digest(ctx context.Context, c cost, salt []byte, passphrase string, size uint32) ([]byte, error) {
	turn := time.NewTimer(10 * time.Second)
	defer turn.Stop()
	select {
	case h.slots <- struct{}{}:
		defer func() { <-h.slots }()
	case <-turn.C:
		return nil, fault.New(fault.Busy, "Too many people are signing in at this moment. Try again in a minute.")
	case <-ctx.Done():
		return nil, ctx.Err()
	}
	return argon2.IDKey(norm.NFC.Bytes([]byte(passphrase)), salt, c.passes, c.memory, c.threads, size), nil
}

// writePHC writes the string form that password hashes are exchanged in:
// $argon2id$v=19$m=19456,t=2,p=1$salt$digest, base64 without padding.
func writePHC(c cost, salt, digest []byte) string {
	b64 := base64.RawStdEncoding.EncodeToString
	return fmt.Sprintf("$argon2id$v=%d$m=%d,t=%d,p=%d$%s$%s", argon2.Version, c.memory, c.passes, c.threads, b64(salt), b64(digest))
}

func readPHC(phc string) (c cost, salt, digest []byte, err error) {
	bad := func(what string) (cost, []byte, []byte, error) {
		return cost{}, nil, nil, fmt.Errorf("passphrase on file: %s", what)
	}
	part := strings.Split(phc, "$")
	if len(part) != 6 || part[0] != "" || part[1] != "argon2id" || part[2] != fmt.Sprintf("v=%d", argon2.Version) {
		return bad("not an argon2id string of version 19")
	}
	if n, err := fmt.Sscanf(part[3], "m=%d,t=%d,p=%d", &c.memory, &c.passes, &c.threads); n != 3 || err != nil {
		return bad("cost " + part[3])
	}
	if c.memory < 8 || c.memory > 1<<20 || c.passes < 1 || c.passes > 100 || c.threads < 1 {
		return bad("cost out of reason: " + part[3])
	}
	b64 := base64.RawStdEncoding.Strict()
	if salt, err = b64.DecodeString(part[4]); err != nil || len(salt) < 8 {
		return bad("salt")
	}
	if digest, err = b64.DecodeString(part[5]); err != nil || len(digest) < 16 {
		return bad("digest")
	}
	return c, salt, digest, nil
}
