// Package oil says how much oil an engine uses now, from level readings of
// its tank, and what that means for its bedding in.
//
// The common case:
//
//	bank, err := oil.New(oil.Settings{
//		Capacity:   oil.Is(oil.Quarts(17)),
//		StickStep:  oil.Is(oil.Quarts(0.5)),
//		Ceiling:    oil.Is(oil.QtPerHour(0.60)),
//		HoursKnown: true,
//	})
//	…
//	answer := bank.Add(oil.Reading{Hours: 0.7, Level: 15, Added: 1})
//	fmt.Println(oil.Line(answer, oil.USQuart))
//
// Readings are not differenced. The package keeps a bank of small Kalman
// filters ("the tank holds L quarts, the engine uses s times a bedding-in
// curve"), one for each of 32 curves, weighted by how well each foretold the
// readings, and a short list of histories ("this reading was misread", "oil
// went in and was not written down", "the rate stepped up"). No random
// numbers, no fitting by trial, one pass: the same readings give the same
// answers.
//
// Every length of time is in engine hours on one clock, every volume in US
// quarts unless its type says otherwise. No limit of a real engine is in here;
// the ceiling comes from the shop's own sheet or there is none.
//
// What the package never does: call an engine fit for anything. A verdict is
// about one number and the shop's own limit.
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
