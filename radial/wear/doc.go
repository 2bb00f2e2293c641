// Package wear is dimensional inspection: a micrometer's and a bore gauge's readings, what
// they say of a part's shape and clearance, and where that stands against the three
// numbers of an old table of limits.
//
// The common case:
//
//	limits := wear.Limits{
//		NewMin: quantity.Of("0", quantity.UnitThou), NewMax: quantity.Of("1.5", quantity.UnitThou),
//		Wear: quantity.Of("9", quantity.UnitThou), Source: "DEMO sheet B, page 4",
//	}
//	worn, err := wear.Wear(quantity.Of("5.3835", quantity.UnitIn), quantity.Of("5.375", quantity.UnitIn))
//	…
//	f, err := limits.Judge(worn)
//	f.Verdict                                      // wear.AtEdge: 8.5 of 9
//
// # The picture
//
// Stand the barrel on its flange, head end up. Measure it at four or five stations from
// the top of ring travel down to the skirt, at each across two axes square to one another:
// A fore and aft, B from side to side. Now
//
//	out-of-round    the difference of A and B at one station; the barrel's is its worst
//	taper           the mean of A and B at the top less that at the bottom, with its sign
//	choke           the same with the other sign: the head end smaller, on purpose, so that
//	                the bore is straight when the head is hot
//	cylindricity    along each axis the largest reading less the smallest; the worse axis
//	wear            the largest reading less the nominal bore
//	clearance       the smallest bore less the largest skirt
//
// Taper is printed two ways, as taper above and as cylindricity, and both are here by their
// names. The sign is the point of the first: a barrel that was made with 3 thou of choke
// and measures straight has worn 3 thou at the top. Cylindricity has no sign and sees a
// barrel-shaped bore that taper misses.
//
// # Three numbers
//
// Old tables give a new minimum, a new maximum and a wear limit, in thousandths, with a
// minus for a tight fit: −0.5 / 0.3 / 2.5. Most grow with wear; choke and valve margins
// shrink, and their wear limit lies below the new minimum. Of a reading that wears up:
//
//	tighter than new   new   serviceable   at the edge    reject
//	    reject       |─────|─────────────|─────────────|────────
//	              new min new max    last tenth    wear limit
//
// Both ends of new are new, the wear limit itself still passes and is at the edge, and the
// edge begins on its first figure. Every comparison is made on the decimals as they were
// typed, across units, with nothing rounded on the way: 8.5 of 9 and 0.2159 mm of 0.009 in
// are one case. A figure that no table covers is "no limit on file", in those words.
//
// # Again
//
// Two readings of one point that differ by more than the gauge can be trusted to are no
// reading: a third is taken (Agree). Steel grows 1.7 thou on a 5¼ in bore in 50 F° and an
// aluminium piston twice that, so bore and piston are left in one room until they are at
// one temperature, the gauge with them (Fit).
//
// # Limits of validity
//
// Nothing here is a limit of any engine, and no number in this package passes a part. The
// maker's table, or the shop's signed one, is entered with its source; a certificated
// person decides. Exact results are refused rather than rounded where the figures of two
// units have no common decimal. What heat does is reckoned with one mean coefficient from
// the temperature read to the one asked for; it is good to some 15 per cent, the spread of
// printed coefficients, and is shown and never compared.
//
// # Sources
//
// Stations and axes: FAA handbook text on dimensional inspection (two positions 90° apart
// in every plane). Out-of-round and cylindricity: an engine maker's manuals, as checked in
// testdata/checks. Choke: Army TM 9-2815-200-35. Three numbers, repeatability of half a
// thou, the last tenth: common practice, no source. Expansion: a published table of ranges
// by family of material. Each function names its own.
package wear
