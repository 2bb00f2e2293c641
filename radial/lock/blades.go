package lock

import (
	"strconv"
	"strings"

	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

// Direct is a propeller on the crankshaft itself.
var Direct = ring.Ratio{Num: 1, Den: 1}

// ParseGear reads a gear ratio as it stands on a plate or a card: how often the crankshaft
// turns for one turn of the propeller. It takes "direct", "3:2", "3/2", "3 to 2", "1.5"
// and "1,5", from 1 to 4, and keeps it exact. A ratio below 1 is the other way round and
// is asked back, not turned over.
func ParseGear(typed string) (ring.Ratio, error) {
	s := strings.ToLower(strings.TrimSpace(typed))
	if s == "direct" {
		return Direct, nil
	}
	crank, prop := s, "1"
	for _, between := range []string{":", "/", " to "} {
		if a, b, found := strings.Cut(s, between); found {
			crank, prop = a, b
			break
		}
	}
	num, places, ok := whole(crank)
	den, denPlaces, ok2 := whole(prop)
	if !ok || !ok2 || denPlaces > 0 || den > 999 {
		return ring.Ratio{}, problem("gear", "“", short(typed), "” is no gear ratio. Type crank turns to propeller turns, as 3:2 or 1.5, or the word direct.")
	}
	for range places {
		den *= 10
	}
	g, err := ring.NewRatio(num, den)
	switch {
	case err != nil:
		return ring.Ratio{}, problem("gear", "“", short(typed), "” has a 0 in it. Type crank turns to propeller turns, as 3:2 or 1.5.")
	case num < den:
		return ring.Ratio{}, problem("gear", "“", short(typed), "” would turn the propeller faster than the crankshaft. Type crank turns first, as ", strconv.Itoa(g.Den), ":", strconv.Itoa(g.Num), ".")
	case num > 4*den:
		return ring.Ratio{}, problem("gear", "“", short(typed), "” is more than 4 crank turns to one of the propeller. Gears of these engines are from 1 to 4.")
	}
	return g, nil
}

// whole is a plain decimal of at most six digits as a whole number and its places.
func whole(text string) (n, places int, ok bool) {
	text = strings.Replace(strings.TrimSpace(text), ",", ".", 1)
	d, err := quantity.ParseDecimal(text)
	if err != nil || d.Sign() < 0 || len(text) > 7 {
		return 0, 0, false
	}
	for _, c := range d.Text() {
		if c != '.' {
			n = 10*n + int(c-'0')
		}
	}
	return n, d.Places(), true
}

// short is what was typed, cut to what a sentence has room for.
func short(typed string) string {
	if r := []rune(strings.ToValidUTF8(typed, "\uFFFD")); len(r) > 20 {
		return string(r[:20]) + "…"
	}
	return strings.ToValidUTF8(typed, "\uFFFD")
}

// Propeller is what is pulled through by hand.
type Propeller struct {
	Blades int
	Gear   ring.Ratio // crank turns for one of the propeller: Direct, or from ParseGear
}

func (p Propeller) check() error {
	switch {
	case p.Blades < 1 || p.Blades > 8:
		return problem("blades", "A propeller has 2, 3 or 4 blades, not ", strconv.Itoa(p.Blades), " (1 to 8 are taken).")
	case p.Gear.Num < p.Gear.Den || p.Gear.Den < 1 || p.Gear.Num > 1e9:
		return problem("gear", "The gear is ", strconv.Itoa(p.Gear.Num), " to ", strconv.Itoa(p.Gear.Den), ". It is crank turns to propeller turns, so 1 to 1 (direct) or more.")
	}
	return nil
}

// BladesFor is the fewest blades to pull past one spot so that every cylinder has gone
// through its compression so many times, wherever the shaft stood. A cylinder has one
// compression in two turns of the crank.
//
//	⌈2 × times × B / G⌉        B blades, G crank turns for one of the propeller
//
// Once is the floor: 4 blades of two direct, 6 of three, 4 of three geared 3:2. Twice is
// common practice, because the first turn may only draw oil from an inlet pipe into the
// cylinder. Handbooks and owners' cards say more, in turns of their own choosing; the
// engine's own card is what is followed.
func (p Propeller) BladesFor(times int) (int, error) {
	if err := p.check(); err != nil {
		return 0, err
	}
	if times < 1 || times > 100 {
		return 0, problem("times", "Every cylinder is to go through ", strconv.Itoa(times), " times. It must be from 1 to 100.")
	}
	return (2*times*p.Blades*p.Gear.Den + p.Gear.Num - 1) / p.Gear.Num, nil
}

// Pulled is what a number of blades pulled through comes to.
type Pulled struct {
	CrankTurns ring.Ratio
	// Compressions is how many were passed, counting all cylinders. If it is no whole
	// number, the hand feels the whole number below it or the one above, depending on
	// where the shaft stood.
	Compressions ring.Ratio
	// EveryCylinder is how often each cylinder has surely been through.
	EveryCylinder int
}

// Pull is what blades pulled past one spot come to on an engine of n cylinders.
//
//	crank turns = blades / B × G      compressions = crank turns × N / 2
func (p Propeller) Pull(blades, cylinders int) (Pulled, error) {
	if err := p.check(); err != nil {
		return Pulled{}, err
	}
	if blades < 1 || blades > 1000 {
		return Pulled{}, problem("blades pulled", strconv.Itoa(blades), " blades pulled. It must be from 1 to 1000.")
	}
	if cylinders < 1 || cylinders > 100 {
		return Pulled{}, problem("cylinders", "There are ", strconv.Itoa(cylinders), " cylinders. It must be from 1 to 100.")
	}
	turns, err := ring.NewRatio(blades*p.Gear.Num, p.Blades*p.Gear.Den)
	if err != nil {
		return Pulled{}, err
	}
	passed, err := ring.NewRatio(turns.Num*cylinders, turns.Den*2)
	return Pulled{turns, passed, turns.Num / (2 * turns.Den)}, err
}
