package oil

import (
	"math"
	"strconv"

	"linkrod/radial/quantity"
)

// PPM is how much of a metal is in oil, in millionths of its mass, as a laboratory reports
// it. It sees fine wear and no chips; a filter or a screen cut open sees those.
type PPM float64

// MakeUp is by how much a figure of metal is to be multiplied because fresh oil was added:
// what would have been found had none been lost and replaced.
//
//	x/(1 − e⁻ˣ),  x = added/charge
//
// It is exact for oil and metal made evenly and lost together, all the time, and for oil
// that leaves with its metal in it. What burns leaves its metal behind, so the factor is an
// upper bound; 1 is the lower one.
func MakeUp(added, charge quantity.Volume) (float64, error) {
	x, err := dilution(added, charge)
	if err != nil || x == 0 {
		return 1, err
	}
	return x / -math.Expm1(-x), nil
}

// MakeUpByHand is MakeUp as it is reckoned on paper, 1 + x/2. It is 1.6 per cent short at
// half a charge, 5 at a whole one and 14 at two.
func MakeUpByHand(added, charge quantity.Volume) (float64, error) {
	x, err := dilution(added, charge)
	return 1 + x/2, err
}

// dilution is the oil added, in charges.
func dilution(added, charge quantity.Volume) (float64, error) {
	switch {
	case !(charge > 0) || math.IsInf(float64(charge), 0):
		return 0, &quantity.Problem{Field: "charge", Sentence: "The engine's oil is " + quantity.Computed(charge.Quarts(), 1, quantity.UnitQt) + ". It must be more than 0: what goes round, tank and sump."}
	case !(added >= 0) || math.IsInf(float64(added), 0):
		return 0, &quantity.Problem{Field: "added", Sentence: "The oil added is " + quantity.Computed(added.Quarts(), 1, quantity.UnitQt) + ". It must be 0 or more."}
	}
	return float64(added / charge), nil
}

// AfterTopUps is the metal left after so many equal spells: in each the engine gives its
// oil so much, and at the end of each so much oil is lost with its metal and replaced.
//
//	g r (1 − rⁿ)/(1 − r),  r = 1 − lost/charge
//
// The more and smaller the top-ups, the nearer MakeUp undoes it.
func AfterTopUps(gained PPM, charge, lost quantity.Volume, spells int) (PPM, error) {
	x, err := dilution(lost, charge)
	switch {
	case err != nil:
		return 0, err
	case x > 1:
		return 0, &quantity.Problem{Field: "lost", Sentence: "More oil is lost at a time, " + quantity.Computed(lost.Quarts(), 1, quantity.UnitQt) + ", than there is, " + quantity.Computed(charge.Quarts(), 1, quantity.UnitQt) + "."}
	case spells < 0 || spells > 10_000:
		return 0, &quantity.Problem{Field: "top-ups", Sentence: "There are " + strconv.Itoa(spells) + " top-ups. They must be from 0 to 10,000."}
	}
	if err := gained.check(); err != nil {
		return 0, err
	}
	var left PPM
	for range spells {
		left = (left + gained) * PPM(1-x)
	}
	return left, nil
}

// PerTenHours is a figure of metal for ten hours on the oil, so that samples of different
// age compare. Samples are better taken at one age.
func PerTenHours(found PPM, onOil quantity.Hours) (PPM, error) {
	if err := found.check(); err != nil {
		return 0, err
	}
	if !(onOil > 0) || math.IsInf(float64(onOil), 0) {
		return 0, &quantity.Problem{Field: "hours on the oil", Sentence: "The oil ran " + quantity.Computed(onOil.Hours(), 1, quantity.UnitH) + ". It must be more than 0."}
	}
	return found * 10 / PPM(onOil), nil
}

func (p PPM) check() error {
	if p >= 0 && p <= 1e6 {
		return nil
	}
	return &quantity.Problem{Field: "metal", Sentence: "The metal is " + quantity.Figure(float64(p), 1) + " ppm. It must be from 0 to a million."}
}

// LeastHistory is how many samples of its own an engine needs before a line is drawn
// through them: with fewer the line jumps with every one. A choice; some draw it from four.
const LeastHistory = 8

// History is what an engine's own earlier samples say is usual for it. It is compared with
// nobody else's: types differ, and so do laboratories.
type History struct {
	Samples  int
	Mean, SD PPM // the standard deviation of a sample, n − 1
}

// OwnHistory is the usual of one metal over an engine's own samples, all reckoned to one
// age and make-up. It refuses fewer than LeastHistory.
//
// Source: mean and two standard deviations, common practice, no source. ASTM D7720-21 has
// such limits for data that are normal and in control, and cumulative percentages for
// others; a metal that has been climbing is not in control.
func OwnHistory(samples []PPM) (History, error) {
	n := len(samples)
	if n < LeastHistory {
		return History{}, &quantity.Problem{Field: "history", Sentence: "There are " + strconv.Itoa(n) + " samples of this engine. A line of its own needs " + strconv.Itoa(LeastHistory) + " or more; until then look at each beside the one before."}
	}
	h := History{Samples: n}
	for _, s := range samples {
		if err := s.check(); err != nil {
			return History{}, err
		}
		h.Mean += s / PPM(n)
	}
	var squares float64
	for _, s := range samples {
		squares += sq(float64(s - h.Mean))
	}
	h.SD = PPM(math.Sqrt(squares / float64(n-1)))
	return h, nil
}

// Line is mean + 2 SD: about one sample in forty lies over it with nothing wrong.
func (h History) Line() PPM { return h.Mean + 2*h.SD }

// Over reports that a sample is over the line. On the line is not over it.
func (h History) Over(sample PPM) bool { return sample > h.Line() }

// Words is where a sample stands.
func (h History) Words(sample PPM) string {
	where := ", inside it."
	if h.Over(sample) {
		where = ", over it. Take another sample, open the screens and call the shop."
	}
	return quantity.Figure(float64(sample), 1) + " ppm; this engine's own line, from " + strconv.Itoa(h.Samples) + " samples, is " +
		quantity.Figure(float64(h.Line()), 1) + where + " It sees no chips."
}
