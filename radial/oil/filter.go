package oil

import "math"

// Filter is a Kalman filter of two states: L, the oil in the tank (qt), and S,
// the rate at hour 0 (qt/h); the rate at hour h is S g(h) of its Shape. PLL,
// PLS and PSS are their covariance. It is the only filter in Linkrod: the bank
// runs up to 8 x 32 of them, and fitting a straight line through published
// reference data is the same code with one Shape and an empty Process.
type Filter struct {
	Shape         Shape
	L, S          float64
	PLL, PLS, PSS float64
}

// Process is what happens between readings besides the shape. The zero
// Process is a rate that follows the shape exactly.
type Process struct {
	Scatter float64 // sd of one flight's rate about the average, as a share
	Drift   float64 // of the rate itself, as a share per square root of an hour
	Ref     float64 // reference rate, qt/h: keeps both above nothing when S is near 0
}

// Predict moves from h0 to h1 >= h0. The oil added at h0 goes in first; addVar
// is the variance of that amount, qt².
func (f *Filter) Predict(h0, h1 Hours, added, addVar float64, p Process) {
	dt := float64(h1 - h0)
	if dt == 0 {
		f.L += added
		if added != 0 {
			f.PLL += addVar
		}
		return
	}
	g := f.Shape.Between(h0, h1)
	u := math.Max(math.Abs(f.S), 0.1*p.Ref)
	scatter := p.Scatter * u * g
	f.L += added - f.S*g
	f.PLL += -2*g*f.PLS + g*g*f.PSS + scatter*scatter*math.Min(1, flight/dt)
	if added != 0 {
		f.PLL += addVar
	}
	f.PLS -= g * f.PSS
	f.drift(u, dt, p)
}

// Restart is Predict across a break in the chain of levels: the tank now
// holds about y, how it got there is not known, and the rate is kept.
func (f *Filter) Restart(h0, h1 Hours, y float64, p Process) {
	f.L, f.PLL, f.PLS = y, unknownLevel, 0
	f.drift(math.Max(math.Abs(f.S), 0.1*p.Ref), float64(h1-h0), p)
}

func (f *Filter) drift(u, dt float64, p Process) {
	d := p.Drift * u
	f.PSS += d * d * dt
}

// Update takes in a level y with variance r and returns the log density y had.
func (f *Filter) Update(y, r float64) float64 {
	s := f.PLL + r
	v := y - f.L
	kL, kS := f.PLL/s, f.PLS/s
	f.L += kL * v
	f.S += kS * v
	f.PSS = math.Max(f.PSS-kS*f.PLS, 0) // rounding may not take it below nothing
	f.PLS -= kL * f.PLS
	f.PLL = math.Max(f.PLL-kL*f.PLL, 0)
	return -(math.Log(2*math.Pi*s) + v*v/s) / 2
}

// Rate is the rate at hour h and its standard deviation, qt/h.
func (f *Filter) Rate(h Hours) (mean, sd float64) {
	g := f.Shape.At(h)
	return f.S * g, math.Sqrt(f.PSS) * g
}

const (
	// flight is the usual length of one, in hours: over several of them the
	// scatter averages out.
	flight = 1.5
	// flightScatter: how one flight's rate differs from the average (power,
	// climb). Assumed, not measured.
	flightScatter = 0.15
	// unknownLevel is the variance of a level nobody read, qt².
	unknownLevel = 100
)

// member is a filter among others: its weight (natural log) and how much its
// rate may wander.
type member struct {
	Filter
	w, drift float64
}
