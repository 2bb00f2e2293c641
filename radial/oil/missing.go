package oil

import (
	"errors"
	"math"
)

// Standing is a level before or after parking.
type Standing struct {
	Level Quarts
	SD    Quarts            // of this reading: see ReadingSD
	Temp  Given[Fahrenheit] // of the oil when read
	// TempSD is how well Temp is known. Not given: 15 °F, a guess.
	TempSD Given[Fahrenheit]
}

// Found is oil found outside the tank: sump drain, cylinder, intake-pipe
// drain, floor tray.
type Found struct {
	Volume FluidOunces
	SD     FluidOunces // JugSD, JarSD
}

// How well a measured volume is known.
const (
	JugSD FluidOunces = 0.5
	JarSD FluidOunces = 0.25
)

// Parking is what is known of oil that left the tank while the engine stood.
type Parking struct {
	Shutdown, Start Standing // level after the last shutdown, before the next start
	Found           []Found
	// Share is phi, the share of the remainder expected in cylinders: 1 unless
	// the engine's own measured parkings say otherwise, see ShareOf.
	Share Given[float64]
}

// Missing is the oil that left the tank and was not found. What it could do in a
// cylinder is for package lock: WorstCase(Surely, Could, …).
//
// It may only raise concern, never remove it: a stick never clears an engine.
// With a half-quart stick and usual conditions the smallest remainder that can
// be excluded is 13 fl oz, more than a whole clearance volume. Only draining
// every cylinder and intake pipe below the horizon, measured, and turning the
// engine by hand by the owner's card deal with hydraulic lock.
//
// Left out of the sum: oil still on its way back to the tank at the first
// reading, and what clings to walls and cooler. Both make Rest too large, the
// cautious side.
type Missing struct {
	Gone FluidOunces // left the tank, both levels brought to 60 °F
	Rest FluidOunces // Gone less everything found
	U    FluidOunces // standard uncertainty of Rest
	// Surely: at least this much is somewhere outside the tank; Could: up to
	// this much may be. Each holds with 95 % on its own side.
	Surely, Could FluidOunces
	// TempKnown is false where either temperature is not given: then no level
	// was corrected, and a cold tank alone can look like a quart gone.
	TempKnown bool

	share float64
}

const (
	missingTemp Fahrenheit  = 60 // both levels are brought to this
	tempGuessed Fahrenheit  = 15
	alphaU                  = 1.5e-5 // uncertainty of alpha, per °F
	ounces                  = 32     // to the quart
	oneSided                = 1.645  // normal, 95 % on one side
	anyVolume   FluidOunces = 1e5
)

// Account reckons what is missing after parking:
//
//	gone = 32 [L1 exp(-alpha (T1 - Tr)) - L2 exp(-alpha (T2 - Tr))]
//	rest = gone - sum of found
//	u²   = 32² [S1² + S2² + (L1 alpha uT1)² + (L2 alpha uT2)²
//	       + ((L1 (T1 - Tr) - L2 (T2 - Tr)) 1.5e-5)²] + sum of u_found²
//
// The error says which figure cannot be.
func Account(p Parking) (Missing, error) {
	if err := p.check(); err != nil {
		return Missing{}, err
	}
	a, b := p.Shutdown, p.Start
	m := Missing{TempKnown: a.Temp.OK && b.Temp.OK, share: p.Share.or(1)}
	if !m.TempKnown {
		a.Temp, b.Temp = Given[Fahrenheit]{}, Given[Fahrenheit]{}
	}
	gone := ounces * (atRef(a.Level, a.Temp, missingTemp) - atRef(b.Level, b.Temp, missingTemp))
	v := sq(float64(a.SD)) + sq(float64(b.SD))
	if m.TempKnown {
		v += sq(float64(a.Level)*alpha*float64(a.TempSD.or(tempGuessed))) +
			sq(float64(b.Level)*alpha*float64(b.TempSD.or(tempGuessed)))
		v += sq((float64(a.Level)*float64(a.Temp.V-missingTemp) -
			float64(b.Level)*float64(b.Temp.V-missingTemp)) * alphaU)
	}
	v *= ounces * ounces
	rest := gone
	for _, f := range p.Found {
		rest -= float64(f.Volume)
		v += sq(float64(f.SD))
	}
	u := math.Sqrt(v)
	could := math.Max(0, rest+oneSided*u)
	m.Gone, m.Rest, m.U = FluidOunces(gone), FluidOunces(rest), FluidOunces(u)
	m.Surely, m.Could = FluidOunces(math.Max(0, rest-oneSided*u)), FluidOunces(could)
	return m, nil
}

// AtLeast bounds the chance that some cylinder holds more than v (over 0), by
// Markov's inequality summed over cylinders:
//
//	P <= min(1, phi E[rest+] / v),  E[rest+] = rest Phi(z) + u exp(-z²/2)/sqrt(2 pi),  z = rest/u
//
// The bound holds for any number of cylinders and any way the oil shares out
// between them. Expect 1, which reads "cannot be ruled out".
func (m Missing) AtLeast(v FluidOunces) Chance {
	if !(v > 0) {
		return 1
	}
	rest, u := float64(m.Rest), float64(m.U)
	expected := math.Max(rest, 0)
	if u > 0 {
		z := rest / u
		expected = rest*normal(z) + u*density(z)
	}
	return Chance(math.Min(1, m.share*expected/float64(v)))
}

// ShareOf is phi from an engine's own measured parkings, each the share of the
// missing oil that was then drained from cylinders: the largest of at least
// five, times 1.5, at most 1. With fewer it is 1.
func ShareOf(parkings []float64) float64 {
	if len(parkings) < 5 {
		return 1
	}
	var largest float64
	for _, s := range parkings {
		if !within(s, 0, 1) {
			return 1
		}
		largest = math.Max(largest, s)
	}
	return math.Min(1, 1.5*largest)
}

func (p Parking) check() error {
	for _, s := range []Standing{p.Shutdown, p.Start} {
		switch {
		case !within(float64(s.Level), 0, float64(anyTank)), !within(float64(s.SD), 0, float64(anyTank)):
			return errors.New("a level before or after parking cannot be right: read it again")
		case !within(float64(s.Temp.or(0)), -100, 600), !within(float64(s.TempSD.or(0)), 0, 600):
			return errors.New("an oil temperature before or after parking cannot be right: write it again, or leave it not given")
		}
	}
	for _, f := range p.Found {
		if !within(float64(f.Volume), 0, float64(anyVolume)) || !within(float64(f.SD), 0, float64(anyVolume)) {
			return errors.New("an amount found cannot be right: measure it again")
		}
	}
	if p.Share.OK && !within(p.Share.V, 0, 1) {
		return errors.New("the share of oil that goes to the cylinders must lie between 0 and 1")
	}
	return nil
}

// Caution goes wherever a figure of missing oil is shown.
const Caution = "A stick never clears an engine. Only draining every cylinder and intake pipe below the horizon, " +
	"measured, and turning by hand by the owner's card deal with hydraulic lock."

// Say puts the account in sentences, the caution last.
func (m Missing) Say() []string {
	lines := []string{oz(m.Gone) + " left the tank, " + oz(m.Rest) + " not found: surely " + oz(m.Surely) + ", could be " + oz(m.Could) + "."}
	if !m.TempKnown {
		lines = append(lines, "Oil temperature not given for both levels: a tank read hot and then cold looks like oil gone.")
	}
	return append(lines, Caution)
}

func oz(v FluidOunces) string { return tenths(float64(v)) + " fl oz" }
