package sync

import "strconv"

// Fault is why an entry, a record or a message was not taken: a code for the
// program, words for the person. Codes are part of the wire format and only
// ever added to.
type Fault struct {
	Code  string `json:"code"`
	Words string `json:"words"`
}

const (
	CodeShape = "shape" // not an entry: a field is missing, unknown or of the wrong type
	CodeSize  = "size"  // longer than the limits
	CodeHash  = "hash"  // the content does not give the hash it came with
	CodeKind  = "kind"  // a kind this version does not know
	CodeRefs  = "refs"  // the entries named do not fit the kind
	CodeBody  = "body"  // the body is not what the book can read
	CodeChain = "chain" // the records do not follow from the ones before
	CodeGap   = "gap"   // earlier entries of the device are missing
	CodeFork  = "fork"  // two different entries claim one key
	CodeRole  = "role"  // the author may read this book and not write in it

	CodeSalvage = "salvage" // handed back after a restore, and nothing proves it
	CodeNewer   = "newer"   // the server is older than what would be written
)

// Error returns the words.
func (f *Fault) Error() string { return f.Words }

// say makes a Fault with a sentence put together from texts and numbers.
// (Package fmt would be a tenth of what the phone may download.)
func say(code string, parts ...any) *Fault {
	words := ""
	for _, part := range parts {
		switch p := part.(type) {
		case string:
			words += p
		case int:
			words += strconv.Itoa(p)
		case uint64:
			words += strconv.FormatUint(p, 10)
		case error:
			words += p.Error()
		default:
			panic("sync: a sentence of something else")
		}
	}
	return &Fault{Code: code, Words: words}
}

// quoted is a stranger's text inside a sentence: short, and in quotes.
func quoted(s string) string {
	if len(s) > 40 {
		s = s[:40] + "…"
	}
	return strconv.Quote(s)
}

// The limits of one entry and one batch. A phone learns them from the server
// (hello) and keeps to these until it has.
const (
	MaxBody         = 32 << 10  // bytes of one entry's body
	MaxRefs         = 64        // entries one entry may name
	MaxBatchEntries = 500       // entries of one push
	MaxBatchBytes   = 256 << 10 // bytes of one push as JSON
	MaxNumber       = 1<<53 - 1 // of n, seq and seen: the integers JavaScript counts exactly
)
