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

// At is g(h).
func (s Shape) At(h Hours) float64 {
	if s.Rho == 1 {
		return 1
	}
	return s.Rho + (1-s.Rho)*math.Exp(-float64(h/s.Tau))
}
