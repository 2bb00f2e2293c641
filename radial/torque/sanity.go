package torque

import (
	"strconv"

	"linkrod/radial/quantity"
)

// Threads is the state of the threads a torque is given for.
type Threads uint8

// The states, with the nut factor usual for each. Source: a fastener coater's newsletter
// for 0.20 clean and dry and 0.15 lubricated; anti-seize from memory.
const (
	Dry       Threads = iota + 1 // 0.20: clean, as received
	Oiled                        // 0.15
	AntiSeize                    // 0.12: anti-seize or molybdenum disulphide
)

// Factor is the usual nut factor of the state, 0 where none is said.
func (t Threads) Factor() NutFactor {
	switch t {
	case Dry:
		return 0.20
	case Oiled:
		return 0.15
	case AntiSeize:
		return 0.12
	}
	return 0
}

// String is the state as it stands before a thread's name.
func (t Threads) String() string {
	switch t {
	case Dry:
		return "dry"
	case Oiled:
		return "oiled"
	case AntiSeize:
		return "anti-seized"
	}
	return "not said"
}

// Sign is what is odd about a torque on a thread.
type Sign uint8

// The signs.
const (
	NoSign    Sign = iota // nothing odd, which does not make it right
	TooLittle             // hardly tightens
	TooMuch               // would break or stretch a common bolt
)

// Between these stresses in the thread a torque has nothing odd about it; both of them
// pass. Common practice, no source: a bolt drawn up to less than a tenth of what common
// ones bear is not tight, and no common one bears more than 100,000 psi.
const (
	LeastStress quantity.Pressure = 10_000
	MostStress  quantity.Pressure = 100_000
)

// Sanity is how a torque looks for a thread.
type Sanity struct {
	Preload   quantity.Force    // by the usual nut factor
	Stress    quantity.Pressure // by the usual nut factor
	Low, High quantity.Pressure // the same with the scatter of K
	Sign      Sign
	// Twelve is the torque there would be if the unit had been mistaken, where that
	// torque has nothing odd about it; 0 elsewhere.
	Twelve   quantity.Torque
	Sentence string
}

// Check looks whether a torque makes sense for a thread at all: 300 foot pounds on
// 3/8-24 does not, and 30 inch pounds on 7/16-20 does not either. It takes the torque at
// the nut less the nut's drag. It is a warning and never a limit: the sheet's figure
// counts, whatever comes out here, and no sign of trouble is no proof of none.
func Check(t quantity.Torque, th Thread, state Threads) (Sanity, error) {
	if err := first(aboveTorque("torque", t), th.check()); err != nil {
		return Sanity{}, err
	}
	k := state.Factor()
	if k == 0 {
		return Sanity{}, problem("threads", "It is not said whether the threads are dry, oiled or with anti-seize. The same torque stretches an oiled one a third more.")
	}
	f, err := Preload(t, th.d, k)
	if err != nil {
		return Sanity{}, err
	}
	s := Sanity{Preload: f, Stress: f.Over(th.StressArea())}
	s.Low, s.High = s.Stress*(1-Scatter), s.Stress*(1+Scatter)
	stress := thousands(s.Stress.PSI())
	what := shown(t) + " on " + article(state) + " " + th.name + " is about " + stress + " psi in the thread"
	switch {
	case s.Stress > MostStress:
		s.Sign = TooMuch
		s.Sentence = what + ", and " + thousands(MostStress.PSI()) + " is more than common bolts bear."
		s.twelfth(t / 12)
	case s.Stress < LeastStress:
		s.Sign = TooLittle
		s.Sentence = what + ", which hardly tightens it."
		s.twelfth(t * 12)
	default:
		s.Sentence = what + ", give or take 30 per cent. Nothing odd about that; the sheet's figure is what counts."
	}
	return s, nil
}

// twelfth asks for the unit if the other unit would make sense.
func (s *Sanity) twelfth(other quantity.Torque) {
	would := s.Stress * 12
	asked := " Were foot pounds meant?"
	if s.Sign == TooMuch {
		would, asked = s.Stress/12, " Were inch pounds meant?"
	}
	if would >= LeastStress && would <= MostStress {
		s.Twelve = other
		s.Sentence += asked
		return
	}
	s.Sentence += " Look at the figure, the unit and the thread again."
}

func article(t Threads) string {
	if t == Dry {
		return "a " + t.String()
	}
	return "an " + t.String()
}

// thousands is a stress to two figures or so, as it deserves: 53,900 as "54,000".
func thousands(psi float64) string {
	switch {
	case psi < 1000:
		return quantity.Figure(psi, 0)
	case psi < 1e9:
		return strconv.Itoa(int(psi/1000+0.5)) + ",000"
	}
	return "over a thousand million"
}
