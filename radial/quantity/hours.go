package quantity

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

// Hours is the value as Hours. It refuses another kind of quantity.
func (m Measured) Hours() (Hours, error) { v, err := m.float(DimTime); return Hours(v), err }
