package ring

// Distributor is the speed of a distributor finger, and of a compensated breaker
// cam, as a share of the crankshaft's: every cylinder once in two turns.
var Distributor = Ratio{1, 2}

// Magneto is the speed of a magneto's rotor as a share of the crankshaft's, for an
// engine of n cylinders whose magneto gives sparks to a turn of the rotor: two
// for a two-pole magnet, four for a four-pole one, one for each pole.
//
//	N / (2 × sparks per turn)
//
// A seven with four sparks has 7/8. Source: FAA-H-8083-32, magneto speed; it is one
// spark for each firing, N of them in two turns.
func Magneto(n, sparksPerTurn int) (Ratio, error) {
	if err := first(count("cylinders", n), count("sparks to a turn", sparksPerTurn)); err != nil {
		return Ratio{}, err
	}
	return NewRatio(n, 2*sparksPerTurn)
}
