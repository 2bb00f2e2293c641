// Package ring is the geometry of a single-row radial engine: which cylinder stands
// where, which hang low, in what order they fire, what turns how fast, and where every
// piston is at any crank angle when all but one of them hang on link rods.
//
// The common case:
//
//	r, err := ring.New(ring.Layout{
//		Cylinders: 7, Seen: ring.FromCockpit, Numbered: ring.Clockwise, Turns: ring.Clockwise,
//	})
//	…
//	r.Below(ring.Attitude{})                       // 3 4 5 6
//	rods, err := r.Rods(2.5, 9.75, 1, ring.Alike(7, ring.Link{Knuckle: 2.55, Length: 7.2}))
//	…
//	l, err := ring.NewLinkage(rods)
//	…
//	for _, p := range l.Pistons() {
//		p.Top().Shift                              // 0, 1.23° late, 4.72° late, …
//	}
//
// # The picture
//
// Stand behind the engine, as the pilot sits. The shaft points away from you. Number 1
// is usually at the top and the numbers usually run clockwise; on a seven 4 and 5 hang
// lowest, on a nine 5 and 6. From in front, facing the propeller, the same engine runs
// the other way round. So nothing here is clockwise without saying from where, and a
// Layout that does not say is refused.
//
// Now turn the picture until the master cylinder, the one with the one-piece rod, points
// up, and look from the side from which the shaft turns clockwise. Call up x; rotation
// carries the crankpin from x to the right. The crankpin C goes round the shaft at the
// distance R (the throw, half the master's stroke). The master rod, L long, runs from C
// up to its piston, and because its top must stay on x it leans back against the
// rotation by β. Its big end carries a ring of knuckle pins, each ρ from C; from each a
// link rod, l long, runs out to the piston of another cylinder.
//
// If the big end kept upright, every knuckle pin would go round in a circle like C
// itself and every piston would move alike. It does not: it rocks with the master rod,
// by ±β, so each knuckle pin runs on an oval of its own. That is the whole of the
// matter. The piston of a link cylinder gets to its top a few degrees late if its
// cylinder comes in the first half turn after the master, early if in the second; it
// stops a little lower, and it goes a little farther. Makers take some of that out
// with unequal links, radii or angles, so each rod here has its own.
//
// # Signs and zeros
//
//	crank angle   degrees from the master's top, positive in the direction of rotation
//	φ             a cylinder's axis from the master's, positive in the direction of rotation
//	shift         positive when a top comes later than evenly spaced
//	height        positive above the master's own dead centre, so nearly always negative
//	n before top  positive before the top, as timing is said
//	mirror of k   (2m − k) mod N, m being the master
//
// A shift has a sign that turns with the rotation; a height and a stroke have not.
//
// # Limits of validity
//
// Rigid rods, no clearance in pins, no offset of the cylinder from the shaft's line, one
// row. Lengths are those at which the parts were measured; heat is not reckoned. Ideal
// kinematics say what a sound engine of the given lengths does; an engine's own first
// readings are the better reference for its later ones, and lengths copied from another
// model are worse than none. Powers and pressures are definitions and hold for any
// four-stroke engine. Nothing here is a limit of any engine.
//
// What is refused: rods that do not go round, or that would give a piston two tops in a
// turn (NewLinkage), an even number of cylinders, and figures that are not above
// nought where they must be. Every refusal is a *Problem with a sentence for the person
// who typed. There is no cylinder for which a valid ring has no answer.
//
// # Sources
//
// Slider crank and articulated rod: textbook mechanics, written out at Piston; checked
// against a solver of the two distance constraints on random geometries, the same in
// 256-bit arithmetic, and the tables of testdata/checks. Firing order, displacement,
// indicated power: FAA-H-8083-32. Numbering, socket numbering and the meaning of names:
// common practice, no source. Each function names its own.
package ring
