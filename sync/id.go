package sync

import "strconv"

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

func (id ID) String() string  { return string(hex(id[:])) }
func (h Hash) String() string { return string(hex(h[:])) }

// MarshalText writes id as hex.
func (id ID) MarshalText() ([]byte, error) { return hex(id[:]), nil }

// MarshalText writes h as hex.
func (h Hash) MarshalText() ([]byte, error) { return hex(h[:]), nil }

// UnmarshalText reads id from 32 lower-case hex digits and nothing else, so
// that one id has one spelling.
func (id *ID) UnmarshalText(text []byte) error { return unhex(id[:], string(text)) }

// UnmarshalText reads h from 64 lower-case hex digits and nothing else.
func (h *Hash) UnmarshalText(text []byte) error { return unhex(h[:], string(text)) }

// ParseID reads an id from its text.
func ParseID(text string) (id ID, err error) { return id, unhex(id[:], text) }

// ParseHash reads a hash from its text.
func ParseHash(text string) (h Hash, err error) { return h, unhex(h[:], text) }

// The two below are encoding/hex, which would bring package fmt to the phone.

func hex(bytes []byte) []byte {
	const digits = "0123456789abcdef"
	text := make([]byte, 0, 2*len(bytes))
	for _, b := range bytes {
		text = append(text, digits[b>>4], digits[b&15])
	}
	return text
}

// unhex fills dst from text. It leaves dst alone when text isn't its spelling.
func unhex(dst []byte, text string) error {
	if len(text) != 2*len(dst) {
		return spelling("want " + strconv.Itoa(2*len(dst)) + " hex digits, got " + strconv.Itoa(len(text)) + " characters")
	}
	bytes := make([]byte, 0, len(dst))
	for i := 0; i < len(text); i += 2 {
		high, low := nibble(text[i]), nibble(text[i+1])
		if high > 15 || low > 15 {
			return spelling("want lower-case hex digits, got " + strconv.Quote(text[i:i+2]))
		}
		bytes = append(bytes, high<<4|low)
	}
	copy(dst, bytes)
	return nil
}

func nibble(c byte) byte {
	switch {
	case c >= '0' && c <= '9':
		return c - '0'
	case c >= 'a' && c <= 'f':
		return c - 'a' + 10
	}
	return 0xff
}

// spelling is what is wrong with one field's text, to stand behind a colon.
type spelling string

func (s spelling) Error() string { return string(s) }
