package oil

import "math"

// Shape is a bedding-in curve that starts at 1:
//
//	g(h) = rho + (1 - rho) exp(-h / tau)
//
// Rho 1 is flat.
type Shape struct {
	Rho float64 // what is left in the end, as a share of the start
	Tau Hours   // time constant
}

// Flat is the shape that does not change.
var Flat = Shape{Rho: 1, Tau: 1}

// At is g(h).
func (s Shape) At(h Hours) float64 { return s.Rho + s.decaying(h) }

// Between is G, the integral of g from h0 to h1, in hours.
func (s Shape) Between(h0, h1 Hours) float64 {
	if s.Rho == 1 {
		return float64(h1 - h0)
	}
	tau := float64(s.Tau)
	fallen := math.Exp(-float64(h0)/tau) - math.Exp(-float64(h1)/tau)
	return s.Rho*float64(h1-h0) + (1-s.Rho)*tau*fallen
}

// decaying is the part of g(h) that is still to go.
func (s Shape) decaying(h Hours) float64 {
	if s.Rho == 1 {
		return 0
	}
	return (1 - s.Rho) * math.Exp(-float64(h/s.Tau))
}

// The shapes that are weighed against each other and what each weighs before
// any reading. The values were chosen on simulated logs, not on real engines.
const (
	priorFlat      = 0.25
	priorWandering = 0.10
	priorDecaying  = 0.65 // shared evenly by 30

	driftUsual     = 0.03 // of the rate, per square root of an hour
	driftWandering = 0.10
)

var (
	endsAt    = [...]float64{0.06, 0.14, 0.24, 0.38, 0.56, 0.75}
	constants = [...]Hours{3.5, 6, 10, 16, 26}
)

// The rate at hour 0 before any reading, in units of the reference rate.
const (
	priorRate   = 2.2
	priorRateSD = 1.2
)

// newMembers are the 32 filters after the first reading y of variance r.
func newMembers(y, r, ref float64) []member {
	start := func(s Shape, drift, prior float64) member {
		sd := priorRateSD * ref
		f := Filter{Shape: s, L: y, PLL: r, S: priorRate * ref, PSS: sd * sd}
		return member{Filter: f, drift: drift, w: math.Log(prior)}
	}
	members := make([]member, 0, 2+len(endsAt)*len(constants))
	members = append(members,
		start(Flat, driftUsual, priorFlat),
		start(Flat, driftWandering, priorWandering))
	each := priorDecaying / float64(len(endsAt)*len(constants))
	for _, rho := range endsAt {
		for _, tau := range constants {
			members = append(members, start(Shape{rho, tau}, driftUsual, each))
		}
	}
	return members
}

// spent is the share of the rate below which what still decays is called gone.
const spent = 0.03

// collapse turns every shape that has run out into the flat one and merges it
// with that, keeping mean and covariance. It makes an old engine cost two
// filters instead of thirty-two.
func collapse(members []member, h Hours) []member {
	isFlat := func(m member) bool { return m.Shape.Rho == 1 && m.drift == driftUsual }
	runOut := func(m member) bool {
		return m.Shape.Rho != 1 && m.Shape.decaying(h)/m.Shape.At(h) < spent
	}
	found := false
	for _, m := range members {
		if runOut(m) {
			found = true
			break
		}
	}
	if !found {
		return members
	}
	var same, rest []member
	for _, m := range members {
		switch {
		case runOut(m):
			g := m.Shape.At(h)
			m.Shape = Flat
			m.S *= g
			m.PLS *= g
			m.PSS *= g * g
			same = append(same, m)
		case isFlat(m):
			same = append(same, m)
		default:
			rest = append(rest, m)
		}
	}
	return append([]member{merge(same)}, rest...)
}

// merge is the one filter with the weight, mean and covariance of several of
// the same shape.
func merge(ms []member) member {
	w := logSum(len(ms), func(i int) float64 { return ms[i].w })
	out := ms[0]
	out.w = w
	out.L, out.S, out.PLL, out.PLS, out.PSS = 0, 0, 0, 0, 0
	for _, m := range ms {
		p := math.Exp(m.w - w)
		out.L += p * m.L
		out.S += p * m.S
	}
	for _, m := range ms {
		p := math.Exp(m.w - w)
		dL, dS := m.L-out.L, m.S-out.S
		out.PLL += p * (m.PLL + dL*dL)
		out.PLS += p * (m.PLS + dL*dS)
		out.PSS += p * (m.PSS + dS*dS)
	}
	return out
}

// logSum is ln of the sum of exp(w(i)), i from 0 to n-1.
func logSum(n int, w func(int) float64) float64 {
	top := math.Inf(-1)
	for i := range n {
		top = math.Max(top, w(i))
	}
	var sum float64
	for i := range n {
		sum += math.Exp(w(i) - top)
	}
	return top + math.Log(sum)
}
