package quantity

import (
	"cmp"
	"math"
	"strconv"
	"strings"
)

// maxDigits is the most figures a Decimal holds, before and after the point
// together. Eighteen always fit an int64.
const maxDigits = 18

// Decimal is a number as a person wrote it: exact, in base ten, with every
// decimal place kept. 26.5 and 26.50 are equal (Compare) and yet not the same
// reading (==, Text), because the number of places says how finely it was read.
//
// It is coef × 10^-scale with |coef| < 10^18 and 0 ≤ scale ≤ 18. The zero value
// is 0. Arithmetic is exact or refused: nothing wraps and nothing is rounded
// unless Round is called by name.
type Decimal struct {
	coef  int64
	scale uint8
}

// NewDecimal is coef × 10^-scale. It refuses a scale outside 0 to 18 and more
// than eighteen figures.
func NewDecimal(coef int64, scale int) (Decimal, error) {
	if scale < 0 || scale > maxDigits || magnitude(coef) >= pow10(maxDigits) {
		return Decimal{}, refuse(WhyTooLong, strconv.FormatInt(coef, 10),
			"A figure here has at most "+digits(maxDigits)+" digits.")
	}
	return Decimal{coef, uint8(scale)}, nil
}

// Whole is the whole number n, which must have at most eighteen figures;
// anything longer is cut to the largest that fits.
func Whole(n int) Decimal {
	limit := int64(pow10(maxDigits)) - 1
	return Decimal{coef: max(-limit, min(limit, int64(n)))}
}

// MustDecimal is ParseDecimal for a constant in the program. It panics on text
// that is not a decimal.
func MustDecimal(text string) Decimal {
	d, err := ParseDecimal(text)
	if err != nil {
		panic("quantity: " + err.Error())
	}
	return d
}

// DecimalOf is the float v rounded to the given decimal places, half away from
// zero by its shortest decimal text. It is for showing a computed figure, never
// for comparing one. It refuses NaN, the infinities and what is too long.
func DecimalOf(v float64, places int) (Decimal, error) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return Decimal{}, refuse(WhyNoNumber, "", "There is no figure to show.")
	}
	// The shortest text that names v, and rounding that, makes 2.675 show as
	// 2.68, as everybody expects, and not as 2.67.
	d, err := ParseDecimal(cut(strconv.FormatFloat(v, 'f', -1, 64)))
	if err != nil {
		return Decimal{}, err
	}
	return d.Round(places), nil
}

// cut drops the decimals of a float's text that a Decimal has no room for.
func cut(text string) string {
	whole, frac, found := strings.Cut(text, ".")
	room := maxDigits - len(strings.TrimLeft(whole, "-0"))
	if !found || len(frac) <= room {
		return text
	}
	if room <= 0 {
		return whole
	}
	return whole + "." + frac[:room]
}

// ParseDecimal reads the plain form that Text writes and that travels on the
// wire: digits, at most one point, a minus if negative. A leading plus and a
// missing leading zero (.008) are taken. No spaces, commas, exponents, NaN or
// infinities: what a person types goes through Parse.
func ParseDecimal(text string) (Decimal, error) {
	s := text
	neg := strings.HasPrefix(s, "-")
	if neg || strings.HasPrefix(s, "+") {
		s = s[1:]
	}
	whole, frac, found := strings.Cut(s, ".")
	if !allDigits(whole) || !allDigits(frac) || whole+frac == "" || found && frac == "" {
		return Decimal{}, refuse(WhyNoNumber, text,
			quoted(text)+" is not a plain decimal such as 15 or 15.5.")
	}
	all := strings.TrimLeft(whole+frac, "0")
	if len(all) > maxDigits || len(frac) > maxDigits {
		return Decimal{}, refuse(WhyTooLong, text,
			"A figure here has at most "+digits(maxDigits)+" digits.")
	}
	var coef int64
	for _, c := range all {
		coef = coef*10 + int64(c-'0')
	}
	if neg {
		coef = -coef
	}
	return Decimal{coef, uint8(len(frac))}, nil
}

func allDigits(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return true
}

// Text is the number in plain ASCII with every place it was written with:
// "15", "26.50", "-0.003". ParseDecimal(d.Text()) is d, always.
func (d Decimal) Text() string {
	s := strconv.FormatUint(magnitude(d.coef), 10)
	if n := int(d.scale); n > 0 {
		if len(s) <= n {
			s = strings.Repeat("0", n+1-len(s)) + s
		}
		s = s[:len(s)-n] + "." + s[len(s)-n:]
	}
	if d.coef < 0 {
		return "-" + s
	}
	return s
}

// String is Text.
func (d Decimal) String() string { return d.Text() }

// Show is Text for the eye: the minus sign is the real one, U+2212.
func (d Decimal) Show() string { return strings.Replace(d.Text(), "-", minus, 1) }

// Float64 is the nearest float, for arithmetic. It is never hashed, signed or
// compared with a limit.
func (d Decimal) Float64() float64 {
	v, _ := strconv.ParseFloat(d.Text(), 64) // the text is always a number in range
	return v
}

// Places is the number of digits after the point.
func (d Decimal) Places() int { return int(d.scale) }

// Sign is -1, 0 or 1.
func (d Decimal) Sign() int {
	switch {
	case d.coef < 0:
		return -1
	case d.coef > 0:
		return 1
	}
	return 0
}

// Neg is -d, with the same places.
func (d Decimal) Neg() Decimal { return Decimal{-d.coef, d.scale} }

// Abs is d without its sign.
func (d Decimal) Abs() Decimal { return Decimal{int64(magnitude(d.coef)), d.scale} }

// Shortest is d without trailing zeros after the point: 26.50 becomes 26.5.
func (d Decimal) Shortest() Decimal {
	for d.scale > 0 && d.coef%10 == 0 {
		d.coef /= 10
		d.scale--
	}
	return d
}

// IsWhole reports that d is a whole number, however many zeros follow its point.
func (d Decimal) IsWhole() bool { return d.Shortest().scale == 0 }

// Compare is -1, 0 or 1 as d is less than, equal to or more than e. It is
// exact; 26.5 equals 26.50.
func (d Decimal) Compare(e Decimal) int {
	if d.scale == e.scale {
		return cmp.Compare(d.coef, e.coef)
	}
	return fractionOf(d).compare(fractionOf(e))
}

// Add is d + e, exact, with the places of the finer of the two. It refuses a sum
// of more than eighteen figures.
func (d Decimal) Add(e Decimal) (Decimal, error) {
	// Where both fit the finer scale with room to spare, as meters and gauges do, it is one sum.
	if d.scale < e.scale {
		d, e = e, d
	}
	if p := int64(pow10(int(d.scale - e.scale))); magnitude(d.coef) < 1<<58 && magnitude(e.coef) < uint64(1<<58/p) {
		return Decimal{d.coef + e.coef*p, d.scale}, nil
	}
	sum, _, err := fractionOf(d).plus(fractionOf(e)).decimal(int(max(d.scale, e.scale)))
	return sum, err
}

// Sub is d − e, as Add.
func (d Decimal) Sub(e Decimal) (Decimal, error) { return d.Add(e.Neg()) }

// Mul is d × e, exact, with the places of both together. It refuses a product
// of more than eighteen figures.
func (d Decimal) Mul(e Decimal) (Decimal, error) {
	p, _, err := fractionOf(d).product(fractionOf(e)).decimal(int(d.scale) + int(e.scale))
	return p, err
}

// Round is d with at most the given places, half away from zero. It is for
// showing. Compare before rounding, never after.
func (d Decimal) Round(places int) Decimal {
	places = max(0, places)
	if places >= int(d.scale) {
		return d
	}
	unit := int64(pow10(int(d.scale) - places))
	coef, rest := d.coef/unit, d.coef%unit
	if magnitude(rest)*2 >= uint64(unit) {
		coef += int64(d.Sign())
	}
	return Decimal{coef, uint8(places)}
}

// MarshalText writes Text, so that JSON carries a Decimal as a string of digits
// and never as a float.
func (d Decimal) MarshalText() ([]byte, error) { return []byte(d.Text()), nil }

// UnmarshalText reads what MarshalText wrote.
func (d *Decimal) UnmarshalText(text []byte) error {
	v, err := ParseDecimal(string(text))
	if err == nil {
		*d = v
	}
	return err
}

func magnitude(n int64) uint64 {
	if n < 0 {
		return -uint64(n)
	}
	return uint64(n)
}

// pow10 is 10^n for 0 ≤ n ≤ 18.
func pow10(n int) uint64 {
	p := uint64(1)
	for range n {
		p *= 10
	}
	return p
}
