package oil

import "math"

// Beyond these a figure is a slip, whatever the engine.
const (
	anyMeter Hours  = 1e6
	anyTank  Quarts = 1000
	// overfull is how far above the tank's capacity a level may be read.
	overfull Quarts = 0.5
)

// leftOut says whether a line can be used. Lines are judged in the order of
// the log and never sorted: last is the hours of the last used line.
func (b *Bank) leftOut(r Reading) LeftOut {
	top := anyTank
	if b.settings.Capacity.OK {
		top = b.settings.Capacity.V + overfull
	}
	switch {
	case !within(float64(r.Hours), -float64(anyMeter), float64(anyMeter)):
		return HoursNotNumber
	case b.settings.HoursKnown && r.Hours < 0:
		return HoursBefore
	case b.used > 0 && r.Hours < b.last:
		return HoursGoBack
	case math.IsNaN(float64(r.Level)):
		return LevelNotNumber
	case !within(float64(r.Level), 0, float64(top)):
		return LevelOutsideTank
	case !within(float64(r.Added), 0, float64(anyTank)):
		return AddedNotNumber
	case !r.Conditions.possible():
		return ConditionNotNumber
	}
	return Used
}

func (c Conditions) possible() bool {
	return within(float64(c.SinceStop.or(0)), 0, 1e7) &&
		within(float64(c.Temp.or(0)), -100, 600) &&
		within(float64(c.SD.or(0)), 0, float64(anyTank))
}

// within is false for NaN.
func within(x, lo, hi float64) bool { return x >= lo && x <= hi }
