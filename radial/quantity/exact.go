package quantity

import "math/bits"

// wide is a whole number of up to 384 bits, least significant word first.
//
// Why 384: a measured value is a coefficient over a power of ten (60 bits each,
// 68 with the zero of a temperature scale) by a conversion ratio (56 bits at
// either end), at most 124 bits above and below the line. Comparing two
// multiplies across. Converting one multiplies by a second ratio and by 10^18.
// Both stay under 256 bits, so nothing can overflow and nothing is checked;
// TestWideRoom holds the ratios to it.
type wide [6]uint64

// times is w × v.
func (w wide) times(v wide) (product wide) {
	for i, x := range w {
		var carry uint64
		for j := 0; i+j < len(w); j++ {
			hi, lo := bits.Mul64(x, v[j])
			lo, c1 := bits.Add64(lo, product[i+j], 0)
			lo, c2 := bits.Add64(lo, carry, 0)
			product[i+j], carry = lo, hi+c1+c2
		}
	}
	return product
}

// plus is w + v.
func (w wide) plus(v wide) wide {
	var carry uint64
	for i := range w {
		w[i], carry = bits.Add64(w[i], v[i], carry)
	}
	return w
}

// minus is w − v for v ≤ w.
func (w wide) minus(v wide) wide {
	var borrow uint64
	for i := range w {
		w[i], borrow = bits.Sub64(w[i], v[i], borrow)
	}
	return w
}

// compare is -1, 0 or 1.
func (w wide) compare(v wide) int {
	for i := len(w) - 1; i >= 0; i-- {
		switch {
		case w[i] < v[i]:
			return -1
		case w[i] > v[i]:
			return 1
		}
	}
	return 0
}

// over is w ÷ v and what is left, by the long division of school, one bit at a
// time. v is not zero.
func (w wide) over(v wide) (quotient, rest wide) {
	top := len(w) - 1
	for top > 0 && w[top] == 0 {
		top--
	}
	for i := top*64 + 63; i >= 0; i-- {
		rest = rest.plus(rest)
		rest[0] |= w[i/64] >> (i % 64) & 1
		if rest.compare(v) >= 0 {
			rest = rest.minus(v)
			quotient[i/64] |= 1 << (i % 64)
		}
	}
	return quotient, rest
}

// fraction is an exact number, num/den with a sign. It is what a measured value
// is between two units: every conversion ratio here is a quotient of whole
// numbers, so no step has to round. den is never zero.
type fraction struct {
	neg      bool
	num, den wide
}

func fractionOf(d Decimal) fraction {
	return fraction{d.coef < 0, wide{magnitude(d.coef)}, wide{pow10(int(d.scale))}}
}

// scaled is f × num/den.
func (f fraction) scaled(num, den uint64) fraction {
	f.num, f.den = f.num.times(wide{num}), f.den.times(wide{den})
	return f
}

// product is f × g.
func (f fraction) product(g fraction) fraction {
	return fraction{f.neg != g.neg, f.num.times(g.num), f.den.times(g.den)}
}

// inverse is 1/f. f is not zero.
func (f fraction) inverse() fraction {
	f.num, f.den = f.den, f.num
	return f
}

// plus is f + g.
func (f fraction) plus(g fraction) fraction {
	a, b := f.num.times(g.den), g.num.times(f.den)
	den := f.den.times(g.den)
	switch {
	case f.neg == g.neg:
		return fraction{f.neg, a.plus(b), den}
	case a.compare(b) >= 0:
		return fraction{f.neg, a.minus(b), den}
	}
	return fraction{g.neg, b.minus(a), den}
}

// minus is f − g.
func (f fraction) minus(g fraction) fraction {
	g.neg = !g.neg
	return f.plus(g)
}

func (f fraction) isZero() bool { return f.num == wide{} }

// compare is -1, 0 or 1. Zero has no sign.
func (f fraction) compare(g fraction) int {
	d := f.minus(g)
	switch {
	case d.isZero():
		return 0
	case d.neg:
		return -1
	}
	return 1
}

// decimal is f with the given places, rounded half away from zero, and whether
// nothing was lost. It refuses what has more than eighteen figures.
func (f fraction) decimal(places int) (d Decimal, exact bool, err error) {
	q, rest := f.num.times(wide{pow10(places)}).over(f.den)
	if rest.plus(rest).compare(f.den) >= 0 {
		q = q.plus(wide{1})
	}
	if places > maxDigits || q.compare(wide{pow10(maxDigits)}) >= 0 {
		return Decimal{}, false, refuse(WhyTooLong, "",
			"The result has more than "+digits(maxDigits)+" digits.")
	}
	coef := int64(q[0])
	if f.neg {
		coef = -coef
	}
	return Decimal{coef, uint8(places)}, rest == wide{}, nil
}

// ending is f as a decimal that ends, with the fewest places that hold it, and
// false if it never ends or ends beyond eighteen figures.
func (f fraction) ending() (Decimal, bool) {
	for places := range maxDigits + 1 {
		d, exact, err := f.decimal(places)
		if err != nil {
			break
		}
		if exact {
			return d, true
		}
	}
	return Decimal{}, false
}
