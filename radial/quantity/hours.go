package quantity

import (
	"math"
	"strconv"
)

// Hours is a time in hours, as meters count it. It says nothing of which meter:
// an hour of a tachometer is a number of revolutions, an hour of a clock is an
// hour.
type Hours float64

// Units of time.
const (
	Hour   Hours = 1
	Minute Hours = 1.0 / 60
)

// Hours is the time in hours.
func (h Hours) Hours() float64 { return float64(h) }

// Minutes is the time in minutes.
func (h Hours) Minutes() float64 { return float64(h) * 60 }

// Clock is the time as hours and minutes, 1:30, to the nearest minute. It is for
// showing; "not known" for what is not a number.
func (h Hours) Clock() string {
	minutes := math.Round(math.Abs(h.Minutes()))
	if !(minutes < 1e9) {
		return "not known"
	}
	sign := ""
	if h < 0 && minutes > 0 {
		sign = minus
	}
	whole, rest := int(minutes)/60, int(minutes)%60
	return sign + strconv.Itoa(whole) + ":" + strconv.Itoa(rest/10) + strconv.Itoa(rest%10)
}

// Hours is the value as Hours. It refuses another kind of quantity.
func (m Measured) Hours() (Hours, error) { v, err := m.float(DimTime); return Hours(v), err }
