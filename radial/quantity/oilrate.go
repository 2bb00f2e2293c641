package quantity

import "math"

// OilRate is oil used over time, in US quarts per hour. The trade says it both
// ways round, and 0.25 qt/h is 4 h/qt, so every figure is shown both ways.
type OilRate float64

// Units of oil rate. Hours per quart is not a multiple of these: it is the
// inverse, HoursPerQuart. A quart is 57.75 cu in, a cubic inch 16.387064 mL and
// an imperial gallon 4546.09 mL, all exact.
const (
	QuartPerHour         OilRate = 1
	LitrePerHour         OilRate = 1000 / 16.387064 / 57.75
	ImperialQuartPerHour OilRate = 4546.09 / 4 / 16.387064 / 57.75
)

// Rate is the volume used over the hours. No time at all gives an infinite rate
// or, with nothing used, NaN; a caller that can meet it asks first.
func Rate(used Volume, over Hours) OilRate { return OilRate(used.Quarts() / over.Hours()) }

// HoursPerQuart is the rate at which a quart lasts h hours. A quart that lasts
// for ever (+Inf) is a rate of 0.
func HoursPerQuart(h float64) OilRate { return OilRate(1 / h) }

// QuartsPerHour is the rate in US quarts per hour.
func (r OilRate) QuartsPerHour() float64 { return float64(r) }

// LitresPerHour is the rate in litres per hour.
func (r OilRate) LitresPerHour() float64 { return float64(r / LitrePerHour) }

// ImperialQuartsPerHour is the rate in imperial quarts per hour.
func (r OilRate) ImperialQuartsPerHour() float64 { return float64(r / ImperialQuartPerHour) }

// HoursPerQuart is how long a quart lasts. With no oil used it is +Inf, which
// Show says in words; a rate less than nothing gives less than nothing.
func (r OilRate) HoursPerQuart() float64 {
	if r == 0 {
		return math.Inf(1)
	}
	return 1 / float64(r)
}

// Show is the rate both ways round, with the given places for quarts per hour:
// "0.41 qt/h, 2.4 h/qt". Nothing used, to that many places, is "0 qt/h, no oil
// used".
func (r OilRate) Show(places int) string {
	both := Computed(float64(r), places, UnitQtPerH)
	d, err := DecimalOf(float64(r), places)
	switch {
	case err != nil:
		return both
	case d.Sign() == 0:
		return both + ", no oil used"
	case d.Sign() < 0:
		return both + ", more oil than before"
	}
	return both + ", " + Computed(r.HoursPerQuart(), 1, UnitHPerQt)
}

// Over is the volume used in the hours at this rate.
func (r OilRate) Over(h Hours) Volume { return Volume(float64(r)*float64(h)) * Quart }

// OilRate is the value as an OilRate. It refuses another kind of quantity and
// nought hours per quart.
func (m Measured) OilRate() (OilRate, error) { v, err := m.float(DimOilRate); return OilRate(v), err }
