package ring_test

import (
	"flag"
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"linkrod/radial/quantity"
	"linkrod/radial/ring"
)

var seed = flag.Uint64("seed", 1, "seed of the random geometries; the log names it")

// geometry is one link rod on one master rod, lengths in inches and angles in degrees.
type geometry struct{ R, L, rho, l, phi, psi float64 }

// random is a geometry such as could be built, and with wild some that nobody would.
// Real engines of the class have L/R near 4 and ρ/R near 1.
func random(r *rand.Rand, wild float64) geometry {
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	var g geometry
	g.R = between(1.5, 4)
	g.L = g.R * between(3.5-wild, 5)
	g.rho = g.R * between(0, 1.2+wild)
	g.l = (g.L - g.rho) * between(0.95-wild/5, 1.05)
	g.phi = between(0, 360)
	g.psi = g.phi + between(-10-40*wild, 10+40*wild)
	return g
}

// rods is the geometry as this package takes it: the master is cylinder 1.
func (g geometry) rods() ring.Rods {
	return ring.Rods{
		Throw: quantity.Length(g.R), MasterRod: quantity.Length(g.L), Master: 1,
		Axes: []quantity.Angle{0, quantity.Angle(g.phi)},
		Links: []ring.Link{{}, {
			Knuckle: quantity.Length(g.rho), Length: quantity.Length(g.l), Offset: quantity.Angle(g.psi - g.phi),
		}},
	}
}

func (g geometry) piston(t *testing.T) ring.Piston {
	t.Helper()
	l, err := ring.NewLinkage(g.rods())
	if err != nil {
		t.Fatalf("%+v: %v", g, err)
	}
	p, err := l.Piston(2)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// solve finds the pin as a draughtsman would, knowing nothing of the formulas: swing
// an arc of length L from the crankpin C to the master's line, mark the knuckle pin K
// on the rod, swing an arc of length l from K to the cylinder's line. Each arc meets
// its line where a distance is right, found by trying. It also returns the velocity
// of the pin for a radian of crank, from the velocities of rigid bodies: two points
// of a rod have the same velocity along it.
func (g geometry) solve(theta float64) (s, velocity float64) {
	C, Cv := vec{g.R * math.Cos(theta), g.R * math.Sin(theta)}, vec{-g.R * math.Sin(theta), g.R * math.Cos(theta)}

	master := vec{1, 0}
	P := master.times(arc(C, master, g.L))
	Pv := master.times(Cv.dot(P.minus(C)) / master.dot(P.minus(C)))

	rod := P.minus(C).times(1 / g.L)
	spin := Pv.minus(Cv).dot(rod.left()) / g.L
	psi := g.psi * math.Pi / 180
	arm := rod.times(g.rho * math.Cos(psi)).plus(rod.left().times(g.rho * math.Sin(psi)))
	K, Kv := C.plus(arm), Cv.plus(arm.left().times(spin))

	phi := g.phi * math.Pi / 180
	line := vec{math.Cos(phi), math.Sin(phi)}
	s = arc(K, line, g.l)
	link := line.times(s).minus(K)
	return s, Kv.dot(link) / line.dot(link)
}

// arc is how far out on the line from the origin the arc of the given radius about
// the centre meets it: Newton's method on the square of the distance, which comes down
// from beyond and stops when it no longer does.
func arc(centre, line vec, radius float64) float64 {
	at := centre.dot(line) + radius // the foot of the centre and a radius on: too far
	for {
		d := line.times(at).minus(centre)
		next := at - (d.dot(d)-radius*radius)/(2*line.dot(d))
		if !(next < at) {
			return at
		}
		at = next
	}
}

type vec struct{ x, y float64 }

func (a vec) plus(b vec) vec          { return vec{a.x + b.x, a.y + b.y} }
func (a vec) minus(b vec) vec         { return vec{a.x - b.x, a.y - b.y} }
func (a vec) times(k float64) vec     { return vec{k * a.x, k * a.y} }
func (a vec) dot(b vec) float64       { return a.x*b.x + a.y*b.y }
func (a vec) left() vec               { return vec{-a.y, a.x} }
func radians(degrees float64) float64 { return degrees * math.Pi / 180 }

// near is the one comparison of floats in these tests.
func near(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance }

// The closed form against the draughtsman on 100,000 random geometries: where the pin
// is at any angle, how fast it moves, that its dead centres are where it stands still
// and that it is nowhere higher or lower.
func TestRodsAgainstTheDraughtsman(t *testing.T) {
	n := 100_000
	if testing.Short() {
		n = 2_000
	}
	t.Logf("seed %d, %d geometries", *seed, n)
	r := rand.New(rand.NewPCG(*seed, 0))
	for i := range n {
		g := random(r, 0)
		p := g.piston(t)
		angle := 360 * r.Float64()
		s, v := g.solve(radians(angle))
		top, bottom := p.Top(), p.Bottom()
		high, still := g.solve(radians(top.At.Degrees()))
		low, stillToo := g.solve(radians(bottom.At.Degrees()))
		tol := 4e-14 * g.L
		switch {
		case !near(p.Pin(quantity.Angle(angle)).Inches(), s, tol):
			t.Fatalf("%d %+v: pin at %v° is at %v, draughtsman %v", i, g, angle, p.Pin(quantity.Angle(angle)), s)
		case !near(-p.Slope(quantity.Angle(angle)).PerRadian().Inches(), v, tol):
			t.Fatalf("%d %+v: slope at %v° is %v, draughtsman %v", i, g, angle, -p.Slope(quantity.Angle(angle)).PerRadian(), v)
		case !near(p.Travel(quantity.Angle(angle)).Inches(), high-s, tol):
			t.Fatalf("%d %+v: travel at %v° is %v, draughtsman %v", i, g, angle, p.Travel(quantity.Angle(angle)), high-s)
		case !near(still, 0, tol) || !near(stillToo, 0, tol):
			t.Fatalf("%d %+v: at its dead centres the pin moves %v and %v", i, g, still, stillToo)
		case !near(top.Height.Inches(), high-(g.L+g.R), tol) || !near(bottom.Height.Inches(), low-(g.L-g.R), tol):
			t.Fatalf("%d %+v: heights %v, %v, draughtsman %v, %v", i, g, top.Height, bottom.Height, high-(g.L+g.R), low-(g.L-g.R))
		case !near(p.Stroke().Inches(), high-low, tol):
			t.Fatalf("%d %+v: stroke %v, draughtsman %v", i, g, p.Stroke(), high-low)
		case s > high+tol || s < low-tol:
			t.Fatalf("%d %+v: at %v° the pin is at %v, outside %v to %v", i, g, angle, s, low, high)
		}
	}
}

// What NewLinkage takes has one top in a turn, however wild.
func TestOneTopInATurn(t *testing.T) {
	r := rand.New(rand.NewPCG(*seed, 3))
	taken := 0
	for range 3_000 {
		g := random(r, 1)
		if _, err := ring.NewLinkage(g.rods()); err != nil {
			continue
		}
		taken++
		tops := 0
		_, before := g.solve(0)
		for degree := 0.5; degree <= 360; degree += 0.5 {
			_, v := g.solve(radians(degree))
			if before > 0 && v <= 0 {
				tops++
			}
			before = v
		}
		if tops != 1 {
			t.Fatalf("seed %d, %+v: %d tops, and taken", *seed, g, tops)
		}
	}
	if taken < 500 || taken > 2_900 {
		t.Errorf("%d of 3000 wild geometries taken: this test looks at one kind only", taken)
	}
}

// A travel and back to degrees, on either side of the top, near it and far from it.
func TestTravelAndBack(t *testing.T) {
	r := rand.New(rand.NewPCG(*seed, 1))
	for range 20_000 {
		g := random(r, 0)
		p := g.piston(t)
		n := quantity.Angle(math.Pow(10, -4+6*r.Float64())) // 0.0001° to 100°
		before, err := p.Degrees(p.BeforeTop(n))
		after, err2 := p.DegreesAfter(p.BeforeTop(-n))
		if err != nil || err2 != nil {
			t.Fatalf("%+v: %v, %v", g, err, err2)
		}
		// Where the slope is small a rounding of travel is many of angle.
		tol := 1e-9 + 1e-13*n.Degrees()/math.Abs(p.SlopeBeforeTop(n).InchesPerDegree())
		if !near(before.Degrees(), n.Degrees(), tol) || !near(after.Degrees(), n.Degrees(), tol) {
			t.Fatalf("seed %d, %+v: %v° before the top came back as %v, after as %v", *seed, g, n, before, after)
		}
	}
}

// Near the top, where differences of two pin heights lose their figures, against the
// same constraints in 256-bit arithmetic.
func TestTravelNearTheTop(t *testing.T) {
	r := rand.New(rand.NewPCG(*seed, 2))
	worst := 0.0
	for range 20 {
		g := random(r, 0)
		p := g.piston(t)
		exact := newExact(g)
		top := exact.top(radians(p.Top().At.Degrees()))
		shift, _ := new(big.Float).Sub(top, exact.radians(g.phi)).Float64()
		if got := p.Top().Shift.Radians(); !near(math.Remainder(shift-got, 2*math.Pi), 0, 1e-14) {
			t.Errorf("seed %d, %+v: shift %v, exact %v", *seed, g, got, shift)
		}
		high := exact.pin(top)
		for _, n := range []float64{1e-5, 1e-4, 1e-3, 0.01, 0.1, 1, 2, 25, 90, 170} {
			at := new(big.Float).Sub(top, exact.radians(n))
			want, _ := new(big.Float).Sub(high, exact.pin(at)).Float64()
			got := p.BeforeTop(quantity.Angle(n)).Inches()
			off := math.Abs(got-want) / p.Stroke().Inches()
			worst = max(worst, off)
			if off > 1e-14 {
				t.Errorf("seed %d, %+v: travel %v° before the top is %v, exact %v", *seed, g, n, got, want)
			}
			// Relative too: a straight difference has no figure left at 1e-5°.
			if relative := math.Abs(got-want) / want; relative > 1e-7 {
				t.Errorf("seed %d, %+v: travel %v° before the top is %v, exact %v, %.1e of it off", *seed, g, n, got, want, relative)
			}
		}
	}
	t.Logf("seed %d: worst error %.1e of the stroke", *seed, worst)
}

// exact is the constraints of a geometry in 256-bit arithmetic.
type exact struct {
	geometry
	pi *big.Float
}

func num(x float64) *big.Float       { return new(big.Float).SetPrec(256).SetFloat64(x) }
func add(a, b *big.Float) *big.Float { return new(big.Float).SetPrec(256).Add(a, b) }
func sub(a, b *big.Float) *big.Float { return new(big.Float).SetPrec(256).Sub(a, b) }
func mul(a, b *big.Float) *big.Float { return new(big.Float).SetPrec(256).Mul(a, b) }
func quo(a, b *big.Float) *big.Float { return new(big.Float).SetPrec(256).Quo(a, b) }
func sqrt(a *big.Float) *big.Float   { return new(big.Float).SetPrec(256).Sqrt(a) }

func newExact(g geometry) exact {
	// π by Machin's formula, 16 atan(1/5) − 4 atan(1/239).
	atan := func(n float64) *big.Float {
		sum, power := num(0), quo(num(1), num(n))
		for k := 1.0; k < 400; k += 2 {
			term := quo(power, num(k))
			if int(k)%4 == 3 {
				term.Neg(term)
			}
			sum = add(sum, term)
			power = quo(power, num(n*n))
		}
		return sum
	}
	return exact{g, sub(mul(num(16), atan(5)), mul(num(4), atan(239)))}
}

func (e exact) radians(degrees float64) *big.Float {
	return quo(mul(num(degrees), e.pi), num(180))
}

// sincos by the power series; |x| is below 8.
func sincos(x *big.Float) (sin, cos *big.Float) {
	sin, cos = num(0), num(0)
	term := num(1)
	for k := 0; k < 140; k++ {
		t := new(big.Float).Set(term)
		if k%4 >= 2 {
			t.Neg(t)
		}
		if k%2 == 0 {
			cos = add(cos, t)
		} else {
			sin = add(sin, t)
		}
		term = quo(mul(term, x), num(float64(k+1)))
	}
	return sin, cos
}

// pin is how far out the pin is: the draughtsman's two arcs, by Pythagoras.
func (e exact) pin(theta *big.Float) *big.Float {
	sinT, cosT := sincos(theta)
	cx, cy := mul(num(e.R), cosT), mul(num(e.R), sinT)
	// The master rod as a unit vector.
	dx := quo(sqrt(sub(mul(num(e.L), num(e.L)), mul(cy, cy))), num(e.L))
	dy := quo(new(big.Float).Neg(cy), num(e.L))
	sinK, cosK := sincos(e.radians(e.psi))
	kx := add(cx, mul(num(e.rho), sub(mul(dx, cosK), mul(dy, sinK))))
	ky := add(cy, mul(num(e.rho), add(mul(dy, cosK), mul(dx, sinK))))
	sinP, cosP := sincos(e.radians(e.phi))
	along := add(mul(kx, cosP), mul(ky, sinP))
	across := sub(mul(ky, cosP), mul(kx, sinP))
	return add(along, sqrt(sub(mul(num(e.l), num(e.l)), mul(across, across))))
}

// top is the crank angle of the highest pin near theta: Newton's method on central
// differences of the pin itself, with steps far below what a float can show.
func (e exact) top(theta float64) *big.Float {
	x, h := num(theta), num(1e-20)
	for range 6 {
		up, here, down := e.pin(add(x, h)), e.pin(x), e.pin(sub(x, h))
		slope := quo(sub(up, down), mul(num(2), h))
		bend := quo(sub(add(up, down), mul(num(2), here)), mul(h, h))
		x = sub(x, quo(slope, bend))
	}
	return x
}
