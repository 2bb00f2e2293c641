package sync

// Cover is the hash a signature carries of what it covers: SHA-256 over kind
// and body of each entry signed, in the order of the signature's refs, each
// field preceded by its length as a big-endian uint32. It covers the words, not
// the key: an entry written anew under another device id is still signed.
func Cover(subjects []Entry) Hash {
	var list [][]byte
	for _, e := range subjects {
		list = append(list, []byte(e.Kind), e.Body)
	}
	return digest(list...)
}

// Standing is how a signature stands to what it covers.
type Standing string

const (
	Stands  Standing = "stands"  // everything is as it was signed
	Changed Standing = "changed" // it covers what was signed; some of it was replaced or struck since
	Absent  Standing = "absent"  // some of what it covers is not in the book
	Differs Standing = "differs" // what it names is not what was signed
)

// Subject is an entry a signature names, as the book has it now.
type Subject struct {
	Entry Entry
	Here  bool // it is in the book
	Since bool // it was replaced, settled or struck
}

// Signed says how a signature that carries a hash stands. It never silently
// covers what came later.
func Signed(covered Hash, subjects []Subject) Standing {
	var entries []Entry
	since := false
	for _, s := range subjects {
		if !s.Here {
			return Absent
		}
		entries = append(entries, s.Entry)
		since = since || s.Since
	}
	switch {
	case Cover(entries) != covered:
		return Differs
	case since:
		return Changed
	}
	return Stands
}
