package compression

import (
	"strconv"

	"linkrod/radial/quantity"
)

// Warmth is the state of the engine at a check.
type Warmth uint8

// The states.
const (
	Unsaid Warmth = iota // not noted, which compares with nothing
	Hot                  // soon after running, rings and walls oiled
	Cold
)

// Set is one differential check of an engine.
type Set struct {
	Supply  quantity.Measured // the first gauge, 80 psi
	Orifice quantity.Measured // the tester's; not given is not noted
	Engine  Warmth
	// Readings is the second gauge for each cylinder; cylinder k is entry k−1. One not
	// given was not taken.
	Readings []quantity.Measured
}

// Check refuses what no tester shows: a reading over its supply or below nothing.
func (s Set) Check() error {
	if err := supply(s.Supply); err != nil {
		return err
	}
	if s.Orifice.Given() {
		if err := diameter("orifice", s.Orifice); err != nil {
			return err
		}
	}
	for i, r := range s.Readings {
		if !r.Given() {
			continue
		}
		if err := pair(s.Supply, r); err != nil {
			return problem("cylinder "+strconv.Itoa(i+1), "Cylinder ", strconv.Itoa(i+1), ": ", err.Error())
		}
	}
	return nil
}

// Difference is a reason why two checks do not compare.
type Difference uint8

// The reasons.
const (
	OrificeNotNoted Difference = iota + 1
	OrificeDiffers
	SupplyDiffers
	WarmthNotNoted
	WarmthDiffers
)

// String is the reason in words.
func (d Difference) String() string {
	switch d {
	case OrificeNotNoted:
		return "an orifice is not noted"
	case OrificeDiffers:
		return "the orifices differ"
	case SupplyDiffers:
		return "the supply pressures differ"
	case WarmthNotNoted:
		return "hot or cold is not noted"
	case WarmthDiffers:
		return "one was hot and one cold"
	}
	return "no reason"
}

// Differences are the reasons why two checks of one engine do not compare, none if they
// do. Orifice and supply are compared as values, across units.
func Differences(a, b Set) []Difference {
	var list []Difference
	switch {
	case !a.Orifice.Given() || !b.Orifice.Given():
		list = append(list, OrificeNotNoted)
	case !equal(a.Orifice, b.Orifice):
		list = append(list, OrificeDiffers)
	}
	if !equal(a.Supply, b.Supply) {
		list = append(list, SupplyDiffers)
	}
	switch {
	case a.Engine == Unsaid || b.Engine == Unsaid:
		list = append(list, WarmthNotNoted)
	case a.Engine != b.Engine:
		list = append(list, WarmthDiffers)
	}
	return list
}

func equal(a, b quantity.Measured) bool {
	order, err := quantity.Compare(a, b)
	return err == nil && order == 0
}

// Spread is the highest reading of a check less the lowest, with the cylinders they are
// of; the first of equals. It needs two readings.
type Spread struct {
	Difference      quantity.Measured
	Highest, Lowest int
}

// Spread is that of this check.
func (s Set) Spread() (Spread, error) {
	if err := s.Check(); err != nil {
		return Spread{}, err
	}
	var high, low quantity.Measured
	var out Spread
	n := 0
	for i, r := range s.Readings {
		if !r.Given() {
			continue
		}
		n++
		if !high.Given() || over(r, high) {
			high, out.Highest = r, i+1
		}
		if !low.Given() || over(low, r) {
			low, out.Lowest = r, i+1
		}
	}
	if n < 2 {
		return Spread{}, problem("readings", "There are ", strconv.Itoa(n), " readings. A spread is between two cylinders or more.")
	}
	var err error
	out.Difference, err = minus(high, low)
	return out, err
}
