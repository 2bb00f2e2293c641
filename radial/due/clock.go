package due

import (
	"strconv"
	"strings"

	"linkrod/radial/quantity"
)

// Clock is decimal hours as hours and minutes: 1.5 h is 1:30. Where they are no whole
// minutes it goes to the tenth of one, 1:01.0 for 1.0167 h, because a hundredth of an
// hour on a meter is six of those. It is for showing.
func Clock(t quantity.Measured) string {
	minutes, _, err := t.Rounded(quantity.UnitMin, 1)
	if err != nil || t.Dimension() != quantity.DimTime {
		return "not known"
	}
	// At most eighteen digits, of which the last is a tenth of a minute.
	n, _ := strconv.ParseInt(strings.Replace(minutes.Value.Abs().Text(), ".", "", 1), 10, 64)
	said := strconv.FormatInt(n/600, 10) + ":" + strconv.FormatInt(n/100%6, 10) + strconv.FormatInt(n/10%10, 10)
	if whole, err := t.Exactly(quantity.UnitMin); err != nil || !whole.Value.IsWhole() {
		said += "." + strconv.FormatInt(n%10, 10)
	}
	if minutes.Value.Sign() < 0 {
		said = "\u2212" + said
	}
	return said
}
