package ring

import "strconv"

// Ratio is an exact ratio of speeds: 1/8, 7/8, 9/4. Gears have whole numbers of
// teeth, so their ratios never need a decimal.
type Ratio struct {
	Num, Den int
}

// reduced is num/den in lowest terms, for den above 0.
func reduced(num, den int) Ratio {
	a, b := num, den
	for b != 0 {
		a, b = b, a%b
	}
	return Ratio{num / a, den / a}
}

// Float is the ratio as a number.
func (r Ratio) Float() float64 { return float64(r.Num) / float64(r.Den) }

// String is the ratio as a fraction: 7/8. A whole number stands alone: 1.
func (r Ratio) String() string {
	if r.Den == 1 {
		return strconv.Itoa(r.Num)
	}
	return strconv.Itoa(r.Num) + "/" + strconv.Itoa(r.Den)
}
