package identify

import (
	"math"
	"strconv"
	"strings"

	"linkrod/radial/quantity"
)

// Designation is a military-style name: letters that say what kind of engine it is, a
// number that is near its displacement in cubic inches, and what follows a second dash.
// The number is part of a name. There is no way here from it to a displacement.
type Designation struct {
	Letters string // R for a radial, with what stands before it
	Number  int
	Dash    string // of the model within the type, "" for none
}

// ParseDesignation reads a name such as "R-685", "XR-795" or "R-685-A4".
func ParseDesignation(typed string) (Designation, error) {
	s := strings.ToUpper(strings.TrimSpace(typed))
	n := 0
	for n < len(s) && isLetter(s[n]) {
		n++
	}
	letters, rest := s[:n], strings.TrimLeft(s[n:], "- ")
	number, dash, found := strings.Cut(rest, "-")
	v, err := strconv.ParseUint(number, 10, 16)
	if letters == "" || len(letters) > 4 || err != nil || !digitsOnly(number) || v < 50 || v > 5000 || found && dash == "" {
		return Designation{}, refuse(quantity.WhyNoNumber, typed, "is not a name of that kind. Those are letters, a number near the cubic inches and sometimes a dash number, as R-685 or R-685-4.")
	}
	return Designation{letters, int(v), dash}, nil
}

// String is the name in its one spelling: R-685-4.
func (d Designation) String() string {
	if d.Number == 0 {
		return ""
	}
	s := d.Letters + "-" + strconv.Itoa(d.Number)
	if d.Dash != "" {
		s += "-" + d.Dash
	}
	return s
}

// near is how far a name may be from its displacement, in cubic inches.
const near = 5

// Fits reports that an engine of this displacement can have this name. Names are to
// the nearest 5 cubic inches in principle and not all in practice: 971.9 is called 975.
// So a name fits what lies within 5 of it, and many sizes fit one name.
//
// Source: common practice, no source; testdata/checks, topic 1, has names against sizes.
func (d Designation) Fits(v quantity.Volume) bool {
	return math.Abs(v.CubicInches()-float64(d.Number)) <= near
}
