// Package lock is the arithmetic of hydraulic lock: oil or fuel that has run into a
// cylinder below the horizontal, and what it does when the engine is turned.
//
// The common case:
//
//	chambers, err := rods.Chambers(5.375, 6.1)             // package ring
//	…
//	c, err := lock.Fill(chambers[4], 11.5*quantity.FluidOunce)
//	…
//	c.Locked, c.Ratio                                      // false, 61.7 to 1
//
// # The picture
//
// A cylinder that hangs below the horizontal is a cup with the piston for a lid. The room
// left in it when the piston is at its top, the clearance volume, is what the compression
// ratio leaves: about a cup and a half of tea in an engine of this class. Liquid in it does
// not compress. As much as the cup holds, and the piston stops short of its top, or the rod
// bends, or the cylinder leaves: a full lock. A cupful less, and the engine turns over at a
// compression of 20 or 60 to 1, bends its rod a little without stopping, and fails later in
// flight: a partial lock, which is the worse because nobody notices.
//
// The crank and rod are a toggle. Near the top they turn a moderate push on a blade into
// tons on the piston, so the same pull-through that finds a lock can do the damage.
//
// # Cautions
//
// Switches off, mixture cut off, chocks, and a propeller treated as live. Turned by hand in
// the direction of rotation only, slowly, without swing. It goes firm: stop, do not push, do
// not rock, and never turn backwards, which puts the liquid into the inlet pipe to come back
// later. The pull-through finds a lock; draining clears it. What was felt is looked at by a
// certificated mechanic before anything turns again. The maker's data, the local rules and
// the owner's own card come before anything here, the number of blades included.
//
// Nothing in this package says that an engine is free of liquid. It only ever says how bad
// it could be.
//
// # Limits of validity
//
// Liquid is taken not to compress and to stay above the piston: valves shut, nothing past the
// rings, no room in the inlet pipe. The air left with it is squeezed by a polytropic law of
// stated exponent from bottom dead centre, so pressures are upper bounds. Forces are those of
// a standing, frictionless engine in which one piston takes everything.
//
// # Sources
//
// Effective ratio, blades and toggle: arithmetic, checked in testdata/checks topics 5 and 10.
// Procedure in the cautions: FAA handbook and textbook lines on hydraulic lock (two full
// turns after thirty minutes), operators' bulletins, a UK historic aircraft leaflet; they
// differ on how many turns and on the use of a starter. Teacups and low cylinders drained
// twice: common practice, no source.
package lock
