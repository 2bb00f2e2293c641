package wear

import "linkrod/radial/quantity"

// minus is a − b, exact: in a's unit, or in b's where only that comes out even. Inches
// always end in millimetres; millimetres never do in inches.
func minus(a, b quantity.Measured) (quantity.Measured, error) {
	b.Value = b.Value.Neg()
	return plus(a, b)
}

// plus is a + b, exact, as minus. What no decimal holds is refused.
func plus(a, b quantity.Measured) (quantity.Measured, error) {
	sum, err := quantity.Add(a, b)
	if err == nil {
		return sum, nil
	}
	if other, err := quantity.Add(b, a); err == nil {
		return other, nil
	}
	return quantity.Measured{}, problem("figures", err.Error())
}

// times is m × d, exact.
func times(m quantity.Measured, d quantity.Decimal) (quantity.Measured, error) {
	v, err := m.Value.Mul(d)
	if err != nil {
		return quantity.Measured{}, problem("figures", err.Error())
	}
	return quantity.Measured{Value: v, Unit: m.Unit}, nil
}

// abs is m without its sign.
func abs(m quantity.Measured) quantity.Measured {
	m.Value = m.Value.Abs()
	return m
}

var half = quantity.MustDecimal("0.5")

// ends is the least and the most of some values of one kind.
func ends(list []quantity.Measured) (least, most quantity.Measured) {
	least, most = list[0], list[0]
	for _, m := range list[1:] {
		if more(least, m) {
			least = m
		}
		if more(m, most) {
			most = m
		}
	}
	return least, most
}

// more reports a > b for two values of one kind.
func more(a, b quantity.Measured) bool {
	order, err := quantity.Compare(a, b)
	return err == nil && order > 0
}
