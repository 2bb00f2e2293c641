package sync

import (
	"encoding/hex"
	"fmt"
)

// ID names a device, a book or an account: 128 random bits, made where the
// thing was made and never reused. As text it is 32 lower-case hex digits.
type ID [16]byte

// Hash is a SHA-256. As text it is 64 lower-case hex digits; the zero Hash
// stands for "nothing before this".
type Hash [32]byte

// IsZero reports whether id was never set.
func (id ID) IsZero() bool { return id == ID{} }

// IsZero reports whether h stands for "nothing before this".
func (h Hash) IsZero() bool { return h == Hash{} }

func (id ID) String() string  { return hex.EncodeToString(id[:]) }
func (h Hash) String() string { return hex.EncodeToString(h[:]) }

// MarshalText writes id as hex.
func (id ID) MarshalText() ([]byte, error) { return hex.AppendEncode(nil, id[:]), nil }

// MarshalText writes h as hex.
func (h Hash) MarshalText() ([]byte, error) { return hex.AppendEncode(nil, h[:]), nil }

// UnmarshalText reads id from 32 lower-case hex digits and nothing else, so
// that one id has one spelling.
func (id *ID) UnmarshalText(text []byte) error { return unhex(id[:], text) }

// UnmarshalText reads h from 64 lower-case hex digits and nothing else.
func (h *Hash) UnmarshalText(text []byte) error { return unhex(h[:], text) }

// ParseID reads an id from its text.
func ParseID(text string) (ID, error) {
	var id ID
	err := id.UnmarshalText([]byte(text))
	return id, err
}

// ParseHash reads a hash from its text.
func ParseHash(text string) (Hash, error) {
	var h Hash
	err := h.UnmarshalText([]byte(text))
	return h, err
}

func unhex(dst, text []byte) error {
	if len(text) != 2*len(dst) {
		return fmt.Errorf("want %d hex digits, got %d characters", 2*len(dst), len(text))
	}
	for _, c := range text {
		if (c < '0' || c > '9') && (c < 'a' || c > 'f') {
			return fmt.Errorf("want lower-case hex digits, got %q", c)
		}
	}
	_, err := hex.Decode(dst, text)
	return err
}
