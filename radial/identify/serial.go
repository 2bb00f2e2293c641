package identify

import (
	"strconv"
	"strings"

	"linkrod/radial/quantity"
)

// Serial is a serial number as makers stamp them: letters before it, a number, letters
// after it. It is read by ParseSerial; the zero Serial is none. How many noughts stand
// before the number, and whether a dash or a gap stands between, are matters of stamping:
// B-0711, B 711 and b0711 are the same.
type Serial struct {
	prefix string // in capitals, its parts joined by dashes
	number int
	digits int // as stamped, with the noughts
	suffix string
}

// The most of each that is taken: enough for any plate, and few enough to be a number.
const (
	mostDigits = 9
	mostPrefix = 8
	mostSuffix = 3
)

// ParseSerial reads a serial number: "1187", "B-0711", "T7-B 0711", "1187A". Letters
// before the number are a prefix and their own series; letters after it come after
// the bare number and before the next one.
func ParseSerial(typed string) (Serial, error) {
	s := strings.ToUpper(strings.TrimSpace(typed))
	end := len(s)
	for end > 0 && isLetter(s[end-1]) {
		end--
	}
	start := end
	for start > 0 && isDigit(s[start-1]) {
		start--
	}
	prefix, digits, suffix := s[:start], s[start:end], s[end:]
	prefix, ok := tidyPrefix(prefix)
	switch {
	case digits == "":
		return Serial{}, refuse(quantity.WhyNoNumber, typed, "is not a serial number. Type it as stamped: letters if there are any, then the number, as B-0711.")
	case !ok || len(prefix) > mostPrefix || len(suffix) > mostSuffix:
		return Serial{}, refuse(quantity.WhyLetter, typed, "is not a serial number: letters may stand before the number and after it, and a dash or a gap between, as B-0711 or 1187A.")
	case len(digits) > mostDigits:
		return Serial{}, refuse(quantity.WhyTooLong, typed, "has more than "+strconv.Itoa(mostDigits)+" digits.")
	}
	n, _ := strconv.Atoi(digits) // nine digits
	return Serial{prefix, n, len(digits), suffix}, nil
}

// tidyPrefix is a prefix in its one spelling: words of letters and figures that begin
// with a letter, with a single dash between. A figure at the end needs a dash or a gap
// after it, or it is part of the number.
func tidyPrefix(s string) (string, bool) {
	if s == "" {
		return "", true
	}
	if !isLetter(s[0]) {
		return "", false
	}
	words := strings.FieldsFunc(s, func(r rune) bool { return r == '-' || r == ' ' })
	for _, w := range words {
		for i := range len(w) {
			if !isLetter(w[i]) && !isDigit(w[i]) {
				return "", false
			}
		}
	}
	return strings.Join(words, "-"), true
}

func isLetter(c byte) bool { return 'A' <= c && c <= 'Z' }
func isDigit(c byte) bool  { return '0' <= c && c <= '9' }

// Given reports that it is a serial number at all.
func (s Serial) Given() bool { return s.digits > 0 }

// Prefix is the letters before the number: the series it belongs to.
func (s Serial) Prefix() string { return s.prefix }

// String is the serial number in its one spelling, with the noughts it was stamped with:
// B-0711. ParseSerial takes it back.
func (s Serial) String() string {
	if !s.Given() {
		return ""
	}
	n := strconv.Itoa(s.number)
	n = strings.Repeat("0", max(0, s.digits-len(n))) + n + s.suffix
	if s.prefix == "" {
		return n
	}
	return s.prefix + "-" + n
}

// Compare is −1, 0 or 1 as s comes before t, is the same, or comes after it, and false
// if their prefixes differ: two series have no order between them.
func (s Serial) Compare(t Serial) (int, bool) {
	if s.prefix != t.prefix {
		return 0, false
	}
	switch {
	case s.number < t.number || s.number == t.number && less(s.suffix, t.suffix):
		return -1, true
	case s.number == t.number && s.suffix == t.suffix:
		return 0, true
	}
	return 1, true
}

// less orders suffixes: none, A to Z, AA and so on.
func less(a, b string) bool { return len(a) < len(b) || len(a) == len(b) && a < b }

// step is the bare number so many on, and false below nought.
func (s Serial) step(by int) (Serial, bool) {
	s.number += by
	s.suffix = ""
	return s, s.number >= 0
}
