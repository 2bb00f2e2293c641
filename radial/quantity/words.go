package quantity

import (
	"strconv"
	"strings"
)

var (
	small = strings.Fields("zero one two three four five six seven eight nine ten eleven twelve " +
		"thirteen fourteen fifteen sixteen seventeen eighteen nineteen")
	tens = strings.Fields("_ _ twenty thirty forty fifty sixty seventy eighty ninety")
)

// Words is the number as it is said on the telephone: whole numbers in words,
// decimals digit by digit, and no "zero" before the point. 295.5 is "two hundred
// ninety-five point five", 0.41 "point four one", −3 "minus three". Every typed
// place is said: 26.50 is "twenty-six point five zero". From a million upward
// the figures themselves are returned.
func (d Decimal) Words() string {
	whole, frac, _ := strings.Cut(d.Abs().Text(), ".")
	n, _ := strconv.ParseUint(whole, 10, 64) // at most eighteen digits
	if n >= 1_000_000 {
		return d.Show()
	}
	var said []string
	if d.Sign() < 0 {
		said = append(said, "minus")
	}
	if n > 0 || frac == "" || d.Sign() == 0 {
		said = append(said, wholeWords(int(n)))
	}
	if frac != "" {
		said = append(said, "point")
	}
	for _, c := range frac {
		said = append(said, small[c-'0'])
	}
	return strings.Join(said, " ")
}

// wholeWords is n in words, 0 to 999,999.
func wholeWords(n int) string {
	switch {
	case n < 20:
		return small[n]
	case n < 100:
		return joined(tens[n/10], "-", n%10)
	case n < 1000:
		return joined(small[n/100]+" hundred", " ", n%100)
	}
	return joined(wholeWords(n/1000)+" thousand", " ", n%1000)
}

// joined says the rest after the larger part, and nothing if there is no rest.
func joined(larger, between string, rest int) string {
	if rest == 0 {
		return larger
	}
	return larger + between + wholeWords(rest)
}
