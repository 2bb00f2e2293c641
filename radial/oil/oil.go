package oil

// Quarts is a volume in US quarts (1 qt = 32 US fl oz = 0.946352946 L exactly).
type Quarts float64

// FluidOunces is a volume in US fluid ounces (32 to the quart).
type FluidOunces float64

// Hours are engine hours: since the overhaul or re-ring where that is known,
// else any one clock.
type Hours float64

// QtPerHour is oil consumption in US quarts an engine hour.
type QtPerHour float64

// Fahrenheit is a temperature in °F.
type Fahrenheit float64

// Minutes since the engine stopped.
type Minutes float64

// Chance is a probability, 0 to 1.
type Chance float64

// Given is a value that may not have been written down. The zero Given means
// "not given", which is never the same as 0.
type Given[T any] struct {
	V  T
	OK bool
}

// Is wraps a value that was written down.
func Is[T any](v T) Given[T] { return Given[T]{v, true} }

// or returns the value, or d when it was not given.
func (g Given[T]) or(d T) T {
	if g.OK {
		return g.V
	}
	return d
}
