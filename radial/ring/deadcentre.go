package ring

import (
	"math"

	"linkrod/radial/quantity"
)

// DeadCentre is a top or a bottom of one piston, as the engine really has it.
type DeadCentre struct {
	// At is the crank angle from the master's top, in [0, 360).
	At quantity.Angle
	// Shift is how much later than evenly spaced it comes; early is negative. Evenly
	// spaced is the cylinder's axis for a top and half a turn from it for a bottom.
	Shift quantity.Angle
	// Height is how far the pin is above the master's pin at the master's own top or
	// bottom; lower is negative.
	Height quantity.Length
	// Pin is how far the piston pin is from the shaft.
	Pin quantity.Length
}

// Top is the piston's top dead centre. For a bent rod compare Height with the mirror
// cylinder's and with this engine's own earlier readings, never with the average.
func (p Piston) Top() DeadCentre {
	return DeadCentre{
		At:     quantity.Angle(whole(p.top.degrees().Degrees())),
		Shift:  deg(p.top.theta - p.phi),
		Height: quantity.Length(p.top.a + p.top.q - (p.big + p.r)),
		Pin:    quantity.Length(p.top.a + p.top.q),
	}
}

// Bottom is the piston's bottom dead centre. A bottom lower than the mirror's pulls
// the oil ring out of the skirt: the other sign of a bent rod.
func (p Piston) Bottom() DeadCentre {
	return DeadCentre{
		At:     quantity.Angle(whole(p.bottom.degrees().Degrees())),
		Shift:  deg(p.bottom.theta - p.phi - math.Pi),
		Height: quantity.Length(p.bottom.a + p.bottom.q - (p.big - p.r)),
		Pin:    quantity.Length(p.bottom.a + p.bottom.q),
	}
}

// Stroke is how far the piston goes from its own top to its own bottom. Only the
// master's is twice the throw.
func (p Piston) Stroke() quantity.Length {
	return quantity.Length(p.below(p.top, p.bottom.theta-p.top.theta))
}
