package ring

import (
	"math"

	"linkrod/radial/quantity"
)

// Piston is the motion of one piston. The picture: shaft at the origin, the master
// cylinder pointing up along x, rotation towards +y.
//
//	C  crankpin at R (cos θ, sin θ); θ is the crank angle from the master's top
//	β  lean of the master rod against the rotation, sin β = (R/L) sin θ
//	K  knuckle pin, ρ from C in the direction ψ − β
//	   the piston pin slides on the line through the origin at φ, l from K
//
//	along   a = R cos(θ − φ) + ρ cos(ψ − β − φ)
//	across  w = R sin(θ − φ) + ρ sin(ψ − β − φ)
//	pin     s = a + √(l² − w²)
//
// The master's own piston is the case ρ = 0, l = L, φ = 0. K does not run on a
// circle, because the master rod rocks: that is why a link cylinder has its top
// early or late, high or low, and a stroke other than 2R.
//
// Every angle given to a method or returned is in degrees of crank. Answers are
// within 1e-14 of the stroke, at the top too (TestTravelNearTheTop, against 256-bit
// arithmetic): on a 5 in stroke 0.00000000000005 in, when a depth gauge shows 0.001.
// For that a travel is never a difference of two pin heights, and a dead centre is
// where the slope changes sign, not the highest of many points.
//
// The zero Piston is none and answers NaN.
type Piston struct {
	cylinder       int
	r, big, rho, l float64 // R, L, ρ, l in inches
	phi, lean      float64 // φ and ψ − φ in radians
	sinP, cosP     float64 // of φ
	sinD, cosD     float64 // of ψ − φ
	top, bottom    place
}

// place is the linkage at one crank angle.
type place struct {
	theta      float64 // θ
	sinT, cosT float64 // of θ
	sinB, cosB float64 // of β
	sinC, cosC float64 // of θ − φ
	sinK, cosK float64 // of ψ − β − φ
	a, w, q    float64 // along, across, √(l² − w²)
}

// at is the linkage at crank angle θ in radians. The angles are taken together by the
// sums of sines and cosines, so that it costs one sine and cosine and two roots.
func (p *Piston) at(theta float64) place {
	var x place
	x.theta = theta
	x.sinT, x.cosT = math.Sincos(theta)
	x.sinB = p.r / p.big * x.sinT
	x.cosB = math.Sqrt((1 - x.sinB) * (1 + x.sinB))
	x.sinC = x.sinT*p.cosP - x.cosT*p.sinP
	x.cosC = x.cosT*p.cosP + x.sinT*p.sinP
	x.sinK = p.sinD*x.cosB - p.cosD*x.sinB
	x.cosK = p.cosD*x.cosB + p.sinD*x.sinB
	x.a = p.r*x.cosC + p.rho*x.cosK
	x.w = p.r*x.sinC + p.rho*x.sinK
	x.q = math.Sqrt((p.l - x.w) * (p.l + x.w)) // not l² − w²: nothing cancels
	return x
}

// rates is ds/dθ and d²s/dθ² in inches for radians.
//
//	β' = R cos θ / (L cos β)      β'' = (β'² sin β − (R/L) sin θ) / cos β
//	a' = −R sin(θ − φ) + ρ β' sin(ψ − β − φ)
//	w' =  R cos(θ − φ) − ρ β' cos(ψ − β − φ)
//	s' = a' − w w'/√(l² − w²)
func (p *Piston) rates(x place) (s1, s2 float64) {
	b1 := p.r * x.cosT / (p.big * x.cosB)
	b2 := (b1*b1*x.sinB - p.r/p.big*x.sinT) / x.cosB
	a1 := -p.r*x.sinC + p.rho*b1*x.sinK
	w1 := p.r*x.cosC - p.rho*b1*x.cosK
	a2 := -p.r*x.cosC + p.rho*(b2*x.sinK-b1*b1*x.cosK)
	w2 := -p.r*x.sinC - p.rho*(b2*x.cosK+b1*b1*x.sinK)
	q1 := -x.w * w1 / x.q
	q2 := -(w1*w1 + x.w*w2 + q1*q1) / x.q
	return a1 + q1, a2 + q2
}

// below is how far the pin is below its place at x when the crank is h radians
// further on: s(x) − s(x+h), by the product forms of the differences of sines and
// cosines, so that it keeps its figures however small h is.
//
//	cos A − cos B = 2 sin((A+B)/2) sin((B−A)/2)
//	√(l² − u²) − √(l² − w²) = (w − u)(w + u) / (√(l² − u²) + √(l² − w²))
func (p *Piston) below(x place, h float64) float64 {
	y := p.at(x.theta + h)
	half := math.Sin(h / 2)
	mid := x.theta + h/2
	meanB := (math.Asin(x.sinB) + math.Asin(y.sinB)) / 2
	halfB := p.r / p.big * math.Cos(mid) * half / math.Cos(meanB) // sin of half the change of β
	sinC, cosC := math.Sincos(mid - p.phi)
	sinK, cosK := math.Sincos(p.lean - meanB)
	along := 2*p.r*sinC*half - 2*p.rho*sinK*halfB
	across := 2*p.r*cosC*half - 2*p.rho*cosK*halfB // w(y) − w(x)
	return along + across*(y.w+x.w)/(x.q+y.q)
}

// oneTop reports that the pin goes up and down once in a turn, with its top within a
// quarter turn of the axis: it rises a quarter turn before, sinks a quarter turn after,
// and its speed grows once and falls once. The steps only look for that; the dead
// centres themselves are found from the slope.
func (p *Piston) oneTop() bool {
	const steps = 120
	start := p.phi - math.Pi/2
	if s1, _ := p.rates(p.at(start)); !(s1 > 0) {
		return false
	}
	if s1, _ := p.rates(p.at(start + math.Pi)); !(s1 < 0) {
		return false
	}
	_, s2 := p.rates(p.at(start))
	gaining, changes := s2 > 0, 0
	for i := 1; i <= steps; i++ {
		_, s2 := p.rates(p.at(start + 2*math.Pi*float64(i)/steps))
		if now := s2 > 0; now != gaining {
			gaining = now
			changes++
		}
	}
	return changes == 2
}

// still is the dead centre within a quarter turn of theta: s' = 0.
func (p *Piston) still(theta float64) place {
	return p.at(root(theta-math.Pi/2, theta+math.Pi/2, func(t float64) (float64, float64) {
		return p.rates(p.at(t))
	}))
}

// root is where f changes sign between lo and hi, to the last bit or two, by Newton's
// method kept inside a bracket. f returns its value and its slope. Its sign at lo
// decides; if it is nowhere other, the answer is hi.
func root(lo, hi float64, f func(float64) (value, slope float64)) float64 {
	low, _ := f(lo)
	x := (lo + hi) / 2
	// Bisection alone needs some 60 steps to the last bit; Newton about 6.
	for range 80 {
		v, slope := f(x)
		if v == 0 {
			return x
		}
		if (v > 0) == (low > 0) {
			lo = x
		} else {
			hi = x
		}
		next := x - v/slope
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if math.Abs(next-x) <= 1e-16*(1+math.Abs(x)) || next == lo || next == hi {
			return next
		}
		x = next
	}
	return x
}

// deg and rad are the two ways between a public Angle and the radians of the formulas.
func deg(rad float64) quantity.Angle { return quantity.Angle(rad) * quantity.Radian }

// turn is a in radians, taken into [−π, π] while still in degrees, where a whole
// turn is exact.
func turn(a quantity.Angle) float64 {
	return quantity.Angle(math.Remainder(a.Degrees(), 360)).Radians()
}

// Cylinder is the number of the piston's cylinder, 0 for a crank by itself.
func (p Piston) Cylinder() int { return p.cylinder }

// Axis is φ, the angle of the cylinder's axis from the master's, positive in the
// direction of rotation: the crank angle at which its top would be if the tops came
// evenly spaced.
func (p Piston) Axis() quantity.Angle { return deg(p.phi) }

// Pin is how far the piston pin is from the shaft when the crank stands at the given
// angle from the master's top.
func (p Piston) Pin(crank quantity.Angle) quantity.Length {
	x := p.at(turn(crank))
	return quantity.Length(x.a + x.q)
}

// Travel is how far the piston is below its own top when the crank stands at the
// given angle from the master's top, positive in the direction of rotation.
func (p Piston) Travel(crank quantity.Angle) quantity.Length {
	return p.fromTop(turn(crank) - p.top.theta)
}

// fromTop is the travel h radians of crank after the piston's own top.
func (p Piston) fromTop(h float64) quantity.Length {
	return quantity.Length(p.below(p.top, h))
}

// BeforeTop is how far the piston is below its own top when the crank is n before
// that top. Timing by a depth gauge in a plug hole goes by this; for a link cylinder
// it needs the engine's own rods and not the master's table. A negative n is after
// the top, which for a link cylinder is another figure.
func (p Piston) BeforeTop(n quantity.Angle) quantity.Length { return p.fromTop(-turn(n)) }

// BeforeEven is how far the piston is below its own top when the crank is n before
// the place where its top would be if tops came evenly spaced: where an even breaker
// cam, set to n on the master, fires it.
func (p Piston) BeforeEven(n quantity.Angle) quantity.Length {
	return p.fromTop(p.phi - p.top.theta - turn(n))
}

// TrueAdvance is how many degrees before its own top a cylinder is fired by an even
// breaker cam set to n on the master: n + shift. A late top means more advance.
func (p Piston) TrueAdvance(n quantity.Angle) quantity.Angle { return n + p.Top().Shift }

// FromTop is how far the crank stands past the piston's own top, in [−180, 180] and
// negative before it, when it stands at the given angle from the master's top.
func (p Piston) FromTop(crank quantity.Angle) quantity.Angle {
	return quantity.Angle(math.Remainder((crank - p.top.degrees()).Degrees(), 360))
}

// Degrees is how many degrees before its own top the piston is when it is travel
// below it, the inverse of BeforeTop. It refuses a travel above the top or below
// the bottom. Near the top a small error of travel is a large one of angle: at 2° a
// thou is half a degree.
func (p Piston) Degrees(travel quantity.Length) (quantity.Angle, error) {
	h, err := p.reach(travel, p.bottom.theta-2*math.Pi-p.top.theta)
	return -h, err
}

// DegreesAfter is how many degrees after its own top the piston is when it is travel
// below it.
func (p Piston) DegreesAfter(travel quantity.Length) (quantity.Angle, error) {
	return p.reach(travel, p.bottom.theta-p.top.theta)
}

// reach is the angle from the top, on the way to the bottom at end, where the travel is d.
func (p Piston) reach(d quantity.Length, end float64) (quantity.Angle, error) {
	stroke := p.Stroke()
	if !(d >= 0 && d <= stroke) {
		return 0, problem("travel", "The travel is ", length(d), ". It must be from 0 to the stroke of this cylinder, ", length(stroke), ".")
	}
	// The travel goes nearly as the square of the angle, so its root goes nearly
	// straight, and Newton's method finds it from anywhere.
	want := math.Sqrt(d.Inches())
	if want == 0 {
		return 0, nil
	}
	way := math.Copysign(1, end)
	return deg(way * root(0, math.Abs(end), func(h float64) (float64, float64) {
		t := math.Sqrt(max(0, p.below(p.top, way*h)))
		s1, _ := p.rates(p.at(p.top.theta + way*h))
		return t - want, -way * s1 / (2 * t)
	})), nil
}

// Slope is how fast the piston goes down as the crank turns, at the given angle from
// the master's top; negative while it goes up.
func (p Piston) Slope(crank quantity.Angle) Slope {
	s1, _ := p.rates(p.at(turn(crank)))
	return Slope(-s1 * math.Pi / 180)
}

// SlopeBeforeTop is how fast the piston rises as the crank turns towards its own top,
// n before it. It is the error of travel that a degree of error makes.
func (p Piston) SlopeBeforeTop(n quantity.Angle) Slope {
	s1, _ := p.rates(p.at(p.top.theta - turn(n)))
	return Slope(s1 * math.Pi / 180)
}

// FastestAfter is how many degrees after its own top the piston goes down fastest,
// the crank turning evenly: where d²s/dθ² = 0. It is 90° only for a rod without
// end; 76.1° for 2.5 in throw and 9.5 in rod.
func (p Piston) FastestAfter() quantity.Angle {
	lo, hi := p.top.theta, p.bottom.theta
	h := 1e-6
	return deg(root(lo, hi, func(t float64) (float64, float64) {
		_, s2 := p.rates(p.at(t))
		_, more := p.rates(p.at(t + h))
		_, less := p.rates(p.at(t - h))
		return s2, (more - less) / (2 * h)
	}) - lo)
}

// degrees is the crank angle of a place.
func (x place) degrees() quantity.Angle { return deg(x.theta) }
