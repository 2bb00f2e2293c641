package ring

import (
	"math"
	"strconv"

	"linkrod/radial/quantity"
)

// Link is one link rod (articulated rod) and the knuckle pin it hangs on.
type Link struct {
	Knuckle quantity.Length // ρ, from the centre of the crankpin to the centre of the knuckle pin
	Length  quantity.Length // l, between the centres of knuckle pin and piston pin
	// Offset is how far the knuckle pin stands on the master rod from where its own
	// cylinder's axis is, positive in the direction of rotation: ψ − φ. 0 is the
	// plain design. Makers use it, or unequal lengths or radii, to even out the tops.
	Offset quantity.Angle
}

// Rods are the moving parts between one crankpin and the pistons of its cylinders:
// a master rod on the crankpin and a link rod for each other cylinder. Nothing is
// assumed: neither that the links are equal nor that l = L − ρ.
type Rods struct {
	Throw     quantity.Length  // R, from the centre of the shaft to the centre of the crankpin
	MasterRod quantity.Length  // L, between the centres of crankpin and piston pin
	Master    int              // which cylinder has the master rod
	Axes      []quantity.Angle // φ of each cylinder, from Ring.Axes or measured; the master's must be 0
	Links     []Link           // of each cylinder; the master's own entry is not looked at
}

// Alike is n link rods that are all the same.
func Alike(n int, l Link) []Link {
	list := make([]Link, max(0, n))
	for i := range list {
		list[i] = l
	}
	return list
}

// Rods is the rods of this ring: its axes, with the master rod in the given cylinder
// and the links as they are, one for each cylinder.
func (r Ring) Rods(throw, masterRod quantity.Length, master int, links []Link) (Rods, error) {
	axes, err := r.Axes(master)
	return Rods{throw, masterRod, master, axes, links}, err
}

// Linkage is Rods that go round, with the dead centres of every piston found. It is
// made by NewLinkage and does not change.
type Linkage struct {
	pistons []Piston
	master  int
}

// NewLinkage finds the dead centres of every piston. It refuses rods that do not go
// round, or that give a piston more than one top in a turn, and says which.
func NewLinkage(rods Rods) (Linkage, error) {
	n := len(rods.Axes)
	switch {
	case rods.Master < 1 || rods.Master > n:
		return Linkage{}, problem("master cylinder", "There is no cylinder ", strconv.Itoa(rods.Master), " to hold the master rod: this engine's are numbered 1 to ", strconv.Itoa(n), ".")
	case len(rods.Links) != n:
		return Linkage{}, problem("links", "There are ", strconv.Itoa(len(rods.Links)), " link rods given for ", strconv.Itoa(n), " cylinders. Give one for each, the master's own being a stand-in.")
	}
	master, err := NewCrank(rods.Throw, rods.MasterRod)
	if err != nil {
		return Linkage{}, err
	}
	l := Linkage{make([]Piston, n), rods.Master}
	for i, axis := range rods.Axes {
		k := i + 1
		field := "link " + quantity.Figure(float64(k), 0)
		if err := finite(field, axis+rods.Links[i].Offset); err != nil {
			return Linkage{}, err
		}
		if k == rods.Master {
			if whole(axis.Degrees()) != 0 {
				return Linkage{}, problem(field, "The axis of the master cylinder is given as ", quantity.Computed(axis.Degrees(), 2, quantity.UnitDeg), ". Axes are counted from it, so it is 0.")
			}
			l.pistons[i] = master
		} else if l.pistons[i], err = newPiston(field, rods.Throw, rods.MasterRod, axis, rods.Links[i]); err != nil {
			return Linkage{}, err
		}
		l.pistons[i].cylinder = k
	}
	return l, nil
}

// Master is the number of the cylinder with the master rod.
func (l Linkage) Master() int { return l.master }

// Pistons is the piston of every cylinder; cylinder k is entry k−1.
func (l Linkage) Pistons() []Piston { return append([]Piston(nil), l.pistons...) }

// Piston is the piston of cylinder k.
func (l Linkage) Piston(k int) (Piston, error) {
	if k < 1 || k > len(l.pistons) {
		return Piston{}, problem("cylinder", "There is no cylinder ", strconv.Itoa(k), ": this engine's are numbered 1 to ", strconv.Itoa(len(l.pistons)), ".")
	}
	return l.pistons[k-1], nil
}

// FromTops is how far past its own top each cylinder is when the crank stands at the
// given angle from the master's top, in [−180, 180] and negative before it; cylinder
// k is entry k−1. Which of the two turns of the cycle it is, the rods do not say.
func (l Linkage) FromTops(crank quantity.Angle) []quantity.Angle {
	list := make([]quantity.Angle, len(l.pistons))
	for i, p := range l.pistons {
		list[i] = p.FromTop(crank)
	}
	return list
}

// widest is how far a knuckle pin may stand from its cylinder's axis, in degrees: far
// beyond any engine's, and near enough to catch an angle from the master rod typed
// instead.
const widest = 45

// newPiston is a piston on a link rod, or on the master rod itself for Knuckle 0.
func newPiston(field string, throw, masterRod quantity.Length, axis quantity.Angle, l Link) (Piston, error) {
	p := Piston{
		r: throw.Inches(), big: masterRod.Inches(),
		rho: l.Knuckle.Inches(), l: l.Length.Inches(),
		phi: axis.Radians(), lean: turn(l.Offset),
	}
	p.sinP, p.cosP = math.Sincos(p.phi)
	p.sinD, p.cosD = math.Sincos(p.lean)
	if !(p.rho >= 0) || p.rho >= p.big {
		return Piston{}, problem(field, "The knuckle pin of ", field, " stands ", length(l.Knuckle), " from the crankpin. It must be 0 or more and less than the master rod, ", length(masterRod), ".")
	}
	if math.Abs(p.lean) > widest*math.Pi/180 {
		return Piston{}, problem(field, "The knuckle pin of ", field, " stands ", quantity.Computed(l.Offset.Degrees(), 2, quantity.UnitDeg), " from its cylinder's axis. That is the angle between the two, not the one from the master rod: a few degrees, 0 in a plain design, never more than ", strconv.Itoa(widest), "°.")
	}
	// The farthest the knuckle pin can stand beside the cylinder's line. The link must
	// reach across it at every angle.
	swing := min(math.Pi/2, math.Asin(p.r/p.big)+math.Abs(p.lean))
	if beside := p.r + p.rho*math.Sin(swing); !(p.l > beside) || math.IsInf(p.l, 0) {
		return Piston{}, problem(field, "The rod of ", field, " is ", length(l.Length), ". With this throw and knuckle pin it must be longer than ", length(quantity.Length(beside)), " to go round.")
	}
	if p.rho > 0 && !p.oneTop() { // a plain crank always has one
		return Piston{}, problem(field, "The rod of ", field, " would not give its piston one top and one bottom in a turn: its ", length(l.Length), " is short for this throw and knuckle pin, or the pin's angle, ", quantity.Computed(l.Offset.Degrees(), 2, quantity.UnitDeg), " from the cylinder's axis, is wrong.")
	}
	p.top = p.still(p.phi)
	p.bottom = p.still(p.phi + math.Pi)
	return p, nil
}

// NewCrank is the piston of a plain crank and rod: a master-rod cylinder by itself,
// or any cylinder of an engine without link rods. It is called cylinder 0.
func NewCrank(throw, rod quantity.Length) (Piston, error) {
	if err := first(positiveLength("throw", throw), positiveLength("master rod", rod)); err != nil {
		return Piston{}, err
	}
	if rod <= throw {
		return Piston{}, problem("master rod", "The master rod is ", length(rod), " and the throw ", length(throw), ". The rod must be longer, or the crank cannot go round. Is the throw the stroke by mistake?")
	}
	return newPiston("master rod", throw, rod, 0, Link{Length: rod})
}
