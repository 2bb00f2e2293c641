// Package ignition is the arithmetic of timing and of the run-up check: degrees before
// the top and piston travel for the cylinder that is timed and, truthfully, for any
// other; the true top from a positive stop; breaker cams, gap and dwell; a magneto's E-gap
// at the crank; what a drop of rpm says against this engine's own earlier ones, and what no
// drop says.
//
// The common case:
//
//	t, err := ignition.New(ignition.Maker{
//		Ring: nine, Rods: linkage,                   // package ring
//		Cylinder: 5, Advance: 25, Cam: ignition.Even,
//	})
//	…
//	s, err := t.Spark(5)                             // s.Travel 0.290 in, s.Slope 0.023 in to a degree
//	f, err := t.Found(1, 22.8)                       // somebody measured on cylinder 1
//	…
//	f.Words()                                        // it hangs on a link rod: 22.8° is what it should have
//
// # The picture
//
// One cylinder holds the master rod. It, or another that the maker names, is timed: so
// many degrees before its own top the points open. The other pistons hang on link rods
// and reach their tops a few degrees early or late of even spacing (package ring). What
// that does to their sparks depends on the breaker cam:
//
//	even          lobes 360°/N apart. Each cylinder is fired as many degrees before its
//	              evenly spaced place; one whose top comes late has more real advance.
//	compensated   each lobe is moved by as much as its cylinder's top, so that all fire
//	              the same degrees before their own tops.
//
// So a disc zeroed on another cylinder reads wrong by up to five degrees on an engine
// that is right, and a table of piston travel made for the master lies for every other.
// Nothing here answers for a cylinder without saying which, and for a link cylinder
// everything is reckoned from its own rod.
//
// # Signs and zeros
//
//	advance, found   degrees of crank before the cylinder's own top; after it is negative
//	early            positive when a spark comes before where it should; late is negative
//	shift            positive when a top comes later than evenly spaced
//	E-gap            degrees of the magnet past its neutral, in its running direction
//	disc             positive after the disc's zero, in the direction of rotation
//	drop             rpm on both sides less rpm on one
//
// Left and right are as the pilot sits.
//
// # Cautions
//
// A ground lead that is off, or a switch that does not close, leaves a magneto live: treat
// every propeller as if it could fire, and battery ignition as live while the master switch
// is on. Plugs out of all cylinders before the shaft is turned for timing. Turned by hand
// only in the direction of rotation, except to back off a positive stop with the plugs out.
// Strobe work at a running propeller is for those who are trained for it.
//
// The timing cylinder, its angle, its tolerance, the gap, the drop and its difference are
// the maker's, and stand on the engine's own cards. There is none in this package, and
// nothing here says that an engine may run or fly.
//
// # Limits of validity
//
// Rigid rods without clearance, at the temperature they were measured at (package ring).
// Backlash is the mechanic's to take out: back off BackOff and come up in the direction
// of rotation. A cam is taken to be cut as it should be, at half crank speed. The
// advance curve is straight between the points given.
//
// # Sources
//
// Travel and angle: package ring. Compensated cams, positive stop, degrees of disc and
// crank: geometry; testdata/checks, topics 3 and 6. Backing off a quarter turn: US Army
// TM 1-1500-204-23-1. That a closing gap with a spark that gets later is a wearing follower:
// published shop article, and geometry. What no drop means, and what a fast or a slow drop
// means: common practice, no source. E-gap: the magneto's gearing (FAA-H-8083-32) and
// arithmetic; the angle itself is the maker's.
package ignition
