package identify

import (
	"errors"
	"strings"

	"linkrod/radial/quantity"
)

// Range is a run of serial numbers of one series, open at one end or closed. Its ends
// belong to it unless it says before or after.
type Range struct {
	low, high     Serial // not given: open
	after, before bool   // the end itself is not in it
	everything    bool
}

// Ranges is the serial numbers that a data sheet, a bulletin or a card says something is
// for. The zero Ranges is not known, which is not all of them and not none.
type Ranges []Range

// ParseRanges reads serial ranges as they are written:
//
//	1001-2240                  B-0101 to B-1866           1001 through 2240
//	B-0901 and up              from B-0901                B-0901 and subsequent
//	after B-0900               before B-0621              to B-0620
//	B-0711                     1001 to 1200, 1301, 1500 and up
//	all
//
// To and through take the number itself in; before and after leave it out. "Up to X" can
// mean either and is asked back. A range belongs to the series of its prefix: B-0901 and
// up says nothing of C-2001.
func ParseRanges(typed string) (Ranges, error) {
	var all Ranges
	for part := range strings.FieldsFuncSeq(typed, func(r rune) bool { return r == ',' || r == ';' }) {
		part = strings.Join(strings.Fields(part), " ")
		if part == "" {
			continue
		}
		r, err := parseRange(part)
		if refused := (*quantity.Refusal)(nil); errors.As(err, &refused) {
			refused.Typed = typed
			return nil, err
		}
		all = append(all, r)
	}
	if len(all) == 0 {
		return nil, refuse(quantity.WhyEmpty, typed, "has no serial numbers in it. Type them as B-0101 to B-1866, B-0901 and up, before B-0621, or all.")
	}
	return all, nil
}

// How a range is written: between two serial numbers, before the only one, behind it.
var (
	between = []string{" to ", " through ", " thru ", " - ", "–", "—"}
	ahead   = []struct {
		word string
		make func(Serial) Range
	}{
		{"up to and including ", upTo}, {"to ", upTo}, {"through ", upTo}, {"thru ", upTo},
		{"before ", beforeIt}, {"prior to ", beforeIt}, {"after ", afterIt},
	}
	behind = []string{" and up", " and on", " and onward", " and onwards", " and above", " and subsequent", " and later", " on", " up", " onward", " onwards"}
	labels = []string{"serial numbers ", "serial number ", "serials ", "serial ", "numbers ", "number ", "nos. ", "nos ", "no. ", "no ", "s/n "}
)

func upTo(s Serial) Range     { return Range{high: s} }
func beforeIt(s Serial) Range { return Range{high: s, before: true} }
func afterIt(s Serial) Range  { return Range{low: s, after: true} }
func from(s Serial) Range     { return Range{low: s} }
func only(s Serial) Range     { return Range{low: s, high: s} }

// parseRange reads one range with single gaps.
func parseRange(s string) (Range, error) {
	if strings.EqualFold(s, "all") {
		return Range{everything: true}, nil
	}
	s, _ = without(s, "all ")
	for _, word := range labels {
		s, _ = without(s, word)
	}
	for _, a := range ahead {
		if rest, ok := without(s, a.word); ok {
			return single(rest, a.make)
		}
	}
	if x, ok := without(s, "up to "); ok {
		return Range{}, refuse(quantity.WhyTwoWays, s, "can end with "+x+" or just before it.", "to "+x, "before "+x)
	}
	s, open := without(s, "from ")
	for _, word := range between {
		if a, b, ok := apart(s, word); ok {
			return closed(s, a, b)
		}
	}
	if a, b, ok := strings.Cut(s, "-"); ok && digitsOnly(a) && digitsOnly(b) {
		return closed(s, a, b)
	}
	for _, word := range behind {
		if n := len(s) - len(word); n >= 0 && strings.EqualFold(s[n:], word) {
			return single(s[:n], from)
		}
	}
	if open {
		return single(s, from)
	}
	return single(s, only)
}

// without is s without a word at its head, in capitals or not.
func without(s, word string) (string, bool) {
	if len(s) >= len(word) && strings.EqualFold(s[:len(word)], word) {
		return s[len(word):], true
	}
	return s, false
}

// apart is s before and after a word, in capitals or not.
func apart(s, word string) (before, after string, found bool) {
	for i := range s {
		if rest, ok := without(s[i:], word); ok {
			return s[:i], rest, true
		}
	}
	return s, "", false
}

func digitsOnly(s string) bool {
	return s != "" && strings.Trim(s, "0123456789") == ""
}

func single(text string, make func(Serial) Range) (Range, error) {
	s, err := ParseSerial(text)
	if err != nil {
		return Range{}, err
	}
	return make(s), nil
}

// closed is the range between two serial numbers of one series.
func closed(text, a, b string) (Range, error) {
	low, err1 := ParseSerial(a)
	high, err2 := ParseSerial(b)
	if err := first(err1, err2); err != nil {
		return Range{}, err
	}
	order, same := low.Compare(high)
	switch {
	case !same && high.prefix == "":
		high.prefix = low.prefix
		return Range{}, refuse(quantity.WhyTwoWays, text, "has letters at one end only. Type them at both.", low.String()+" to "+high.String())
	case !same:
		return Range{}, refuse(quantity.WhyRange, text, "has two series in it, "+low.String()+" and "+high.String()+". Give each series its own range.")
	case order > 0:
		return Range{}, refuse(quantity.WhyRange, text, "goes backwards.", high.String()+" to "+low.String())
	}
	return Range{low: low, high: high}, nil
}

// Known reports that anything is said at all.
func (rs Ranges) Known() bool { return len(rs) > 0 }

// Contains reports that a serial number is in one of the ranges. None is in those that
// are not known.
func (rs Ranges) Contains(s Serial) bool {
	for _, r := range rs {
		if r.Contains(s) {
			return true
		}
	}
	return false
}

// Contains reports that a serial number is in the range.
func (r Range) Contains(s Serial) bool {
	if !s.Given() {
		return false
	}
	if r.everything {
		return true
	}
	for _, end := range []struct {
		at   Serial
		sign int // s must lie to this side of it
		out  bool
	}{{r.low, 1, r.after}, {r.high, -1, r.before}} {
		if !end.at.Given() {
			continue
		}
		c, same := s.Compare(end.at)
		if !same || c == -end.sign || c == 0 && end.out {
			return false
		}
	}
	return true
}

// String is the ranges in their one spelling. ParseRanges takes it back.
func (rs Ranges) String() string {
	var said []string
	for _, r := range rs {
		said = append(said, r.String())
	}
	return strings.Join(said, ", ")
}

// String is the range in its one spelling: "B-0101 to B-1866", "after B-0900".
func (r Range) String() string {
	low, high := r.low.String(), r.high.String()
	switch {
	case r.everything:
		return "all"
	case r.before:
		return "before " + high
	case r.after:
		return "after " + low
	case low == "":
		return "to " + high
	case high == "":
		return low + " and up"
	case low == high:
		return low
	}
	return low + " to " + high
}

// ends is the serial numbers at which the ranges begin or end.
func (rs Ranges) ends() []Serial {
	var list []Serial
	for _, r := range rs {
		for _, s := range []Serial{r.low, r.high} {
			if s.Given() {
				list = append(list, s)
			}
		}
	}
	return list
}
