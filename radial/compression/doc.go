// Package compression is the arithmetic of the two compression checks: the differential
// one, air through a tester's orifice into a cylinder at its top, and the cranking one. It
// says which readings may be compared with which, what has fallen, and how hard the
// propeller would swing.
//
// The common case:
//
//	want, err := compression.OrificeFor(quantity.Of("5.375", quantity.UnitIn))   // 0.060 in
//	…
//	lines, err := compression.Trend(sets, compression.Usual)
//	for _, l := range lines {
//		l.Now, l.Change, l.Fell                        // 61 psi, −5 psi, true
//	}
//
// # The picture
//
// A hose from the compressor, a regulator set to 80 psi, an orifice of 0.040 or 0.060 in,
// a second gauge, and the cylinder with its piston at the top and both valves shut. Air
// that leaks out of the cylinder has to come in by the orifice, and the second gauge falls
// until the two flows are one. So the reading, 72 out of 80, is a comparison of two holes:
// the tester's and the leak. With a smaller orifice the same leak reads lower. That is the
// one trap of the method: most cylinders of these engines have a bore of 5.00 in or more
// and need the 0.060, the common small tester has the 0.040, and on it a good engine looks
// worn out.
//
//	the leak that reads 70 with the 0.060 reads about 44 with the 0.040
//
// # What compares with what
//
// Readings compare only with the same orifice, the same supply and the engine in the same
// state, hot or cold (Differences). What was not noted compares with nothing. A single low
// reading decides nothing: rings turn, and a 65 that runs twenty minutes may be a 76. A
// cylinder that hangs low may read high on its own oil. What counts is a fall in the same
// cylinder from check to check, and where the air is heard.
//
// # Cautions
//
// 80 psi on a piston of 5.1875 in is 1,690 lb. At the top it turns nothing; five degrees
// off, it turns the propeller with 40 foot pounds, at twenty with 154 (HoldingTorque). Two
// people, the blade held, nobody in the arc, ignition grounded, chocks, and a pull-through
// for liquid first. The maker's procedure and limit come before anything here; loss over
// 25 per cent is a circular's fallback where the maker says nothing, and a reason to run
// and look again, not to take a cylinder off. A certificated person decides.
//
// # Limits of validity
//
// Comparisons are made on the decimals as typed. Flow is reckoned as through two ideal
// orifices in series (Tester): air as an ideal gas, the same discharge coefficient for the
// orifice and the leak, no heat taken or given, a steady reading. Real leaks past rings are
// long and narrow and partly viscous, so a converted reading shows the direction and the
// size of an error. It is never logged, compared or judged in place of a reading taken
// again with the right orifice.
//
// # Sources
//
// Differential check: FAA AC 43.13-1B 8-14 with change 1 (2001), as quoted by an FAA safety
// team tip of 2011 for the orifice. Cranking check: US Army TM 1-1500-204-23-1. Flow: the
// isentropic relations of every fluid mechanics textbook. What a fall or a spread worth
// showing is: common practice, no source. Each function names its own.
package compression
