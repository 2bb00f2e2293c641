package ring

import (
	"strconv"

	"linkrod/radial/quantity"
)

// CamTurn is the way a cam ring turns against the shaft it is driven by.
type CamTurn uint8

const (
	_            CamTurn = iota
	WithShaft            // the same way as the crankshaft
	AgainstShaft         // the opposite way
)

// Cam is a cam ring: one slow ring in the middle of the engine whose lobes serve
// all the cylinders, one track of lobes for the inlet valves and one for the exhaust.
// Some five-cylinder engines have a small camshaft for each cylinder instead and no
// cam ring at all; for those there is no Cam, and the zero Cam stands for none.
type Cam struct {
	Lobes  int     // in each track
	Slower int     // the ring turns once while the shaft turns this often
	Turn   CamTurn // which way
}

// CamFor is the cam ring of an engine of n cylinders whose ring turns the given way.
//
//	against the shaft   lobes (N − 1)/2, speed 1/(N − 1)
//	with the shaft      lobes (N + 1)/2, speed 1/(N + 1)
//
// so the speed is always one over twice the lobes. Source: the rule is printed in
// reference answers for this class; TestCamServesEveryCylinder turns the ring and
// looks.
func CamFor(n int, turn CamTurn) (Cam, error) {
	if n < 3 || n > 11 || n%2 == 0 {
		return Cam{}, problem("cylinders", "A cam ring serves an odd number of cylinders, 5, 7 or 9 here (3 and 11 are taken too), not ", strconv.Itoa(n), ".")
	}
	switch turn {
	case AgainstShaft:
		return Cam{(n - 1) / 2, n - 1, turn}, nil
	case WithShaft:
		return Cam{(n + 1) / 2, n + 1, turn}, nil
	}
	return Cam{}, problem("cam", "Which way does the cam ring turn, with the crankshaft or against it?")
}

// CamSeen is the cam ring of an engine of n cylinders on which somebody has counted
// the lobes of one track. The count alone tells which way it turns.
func CamSeen(n, lobes int) (Cam, error) {
	with, err := CamFor(n, WithShaft)
	if err != nil {
		return Cam{}, err
	}
	against, _ := CamFor(n, AgainstShaft) // n is good
	switch lobes {
	case with.Lobes:
		return with, nil
	case against.Lobes:
		return against, nil
	}
	return Cam{}, problem("lobes", "A cam ring for ", strconv.Itoa(n), " cylinders has ", strconv.Itoa(against.Lobes), " lobes in each track if it turns against the crankshaft and ", strconv.Itoa(with.Lobes), " if it turns with it, not ", strconv.Itoa(lobes), ". Were both tracks counted?")
}

// Speed is the ring's speed as a share of the crankshaft's.
func (c Cam) Speed() Ratio { return Ratio{1, c.Slower} }

// Spacing is the angle from one lobe to the next.
func (c Cam) Spacing() quantity.Angle { return quantity.Angle(360 / float64(c.Lobes)) }

// Between is how far round the ring it is from the lobe that serves one cylinder to
// the lobe that serves the next to fire, when the next stands firing degrees further
// round and fires as many degrees of crank later. In a cam ring that fits it is the
// Spacing.
//
//	against the shaft   firing + firing × speed
//	with the shaft      firing − firing × speed
//
// On a nine with four lobes at 1/8 against: 80 + 10 = 90.
func (c Cam) Between(firing quantity.Angle) quantity.Angle {
	turned := firing * quantity.Angle(c.Speed().Float())
	if c.Turn == WithShaft {
		turned = -turned
	}
	return firing + turned
}
