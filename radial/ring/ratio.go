package ring

import "strconv"

// Ratio is an exact ratio of speeds: 1/8, 7/8, 9/4. Gears have whole numbers of
// teeth, so their ratios never need a decimal.
type Ratio struct {
	Num, Den int
}

// NewRatio is num/den in lowest terms, for whole numbers above 0.
func NewRatio(num, den int) (Ratio, error) {
	if num < 1 || den < 1 {
		return Ratio{}, problem("ratio", "The ratio is ", strconv.Itoa(num), " to ", strconv.Itoa(den), ". Both must be whole numbers above 0.")
	}
	a, b := num, den
	for b != 0 {
		a, b = b, a%b
	}
	return Ratio{num / a, den / a}, nil
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
