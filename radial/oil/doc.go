// Package oil is the arithmetic of a tank: how much oil an engine uses now and what that
// says of its bedding in, what left the tank while it stood, what a level is at another
// temperature, consumption by power, grades, and the metal in it.
//
// The common case:
//
//	bank, err := oil.New(oil.Settings{
//		Capacity:   oil.Is(oil.Quarts(17)),
//		StickStep:  oil.Is(oil.Quarts(0.5)),
//		Ceiling:    oil.Is(oil.QtPerHour(0.60)),
//		HoursKnown: true,
//	})
//	…
//	answer := bank.Add(oil.Reading{Hours: 0.7, Level: 15, Added: 1})
//	fmt.Println(oil.Line(answer, oil.USQuart))
//
// # The picture
//
// A tank with a stick in it. Each stop gives one level, read to the step of the stick, then
// perhaps oil is poured in. Between two stops the level falls by what the engine used: fast
// while new rings bed in, then ever slower toward a rate it keeps.
//
//	level   ┤■
//	        ┤  ■  ↑add          the fall between an add and the next reading is what was
//	        ┤     ■             used; a half-quart step makes one such fall anything from
//	        ┤        ■ ■ ↑      nothing to twice itself
//	        └──────────────── hours
//
// So readings are not differenced. The package keeps a bank of small Kalman filters ("the
// tank holds L quarts, the engine uses s times a bedding-in curve"), one for each of 32
// curves, weighted by how well each foretold the readings, and a short list of histories
// ("this reading was misread", "oil went in and was not written down", "the rate stepped
// up"). No random numbers, no fitting by trial, one pass: the same readings give the same
// answers. What is said is a rate with the band that holds it 19 times in 20, and a Verdict.
//
// Account is another sum: what left the tank while the engine stood, with one-sided bounds.
// What that could do in a cylinder is for package lock.
//
// # Units, signs and zeros
//
// Every length of time is in engine hours on one clock, every volume in US quarts unless its
// type says otherwise; the sums that people type figures into (density, power, metal) take
// package quantity's types. A rate is positive when oil is used. A Given that is not OK was
// not written down, which is never the same as 0: a temperature that nobody gave corrects
// nothing.
//
// # Cautions
//
// No limit of a real engine is in here; the ceiling comes from the shop's own sheet or there
// is none, and then no verdict leans on one. What the package never does: call an engine fit
// for anything. A stick never clears an engine of liquid in a cylinder. A figure of metal
// sees no chips.
//
// # Limits of validity
//
// Two readings give an average and no rate; a verdict takes three readings and three hours
// at the least. On 2,000 simulated logs of an engine that seats, the error is a third of the
// last interval's at 20 hours and a sixth at 50, and the band held the truth in 98 to 100 of
// 100 (radial/oil/simulate draws such logs again and compares; make bench prints the table).
// The band holds it less often, 84 to 90 times in 100, where the fall is no curve but a
// straight line and then flat, where the pilot's power changes by a quarter for days on end,
// and for ten hours where conditions were much worse than written down. A steady error, such
// as litres written for quarts every time, is invisible. The priors and hazards are choices
// and no data; everything above is simulated, no log of a real engine.
//
// The volume formula is good from −20 to 200 °F and 700 to 1200 kg/m³.
//
// # Sources
//
// Filter: J. Basic Eng. 1960; a bank of them: IEEE Trans. AC, 1965 (both from memory);
// histories, after "Bayesian forecasting", JRSS B 38, 1976, and "Monitoring renal
// transplants: an application of the multiprocess Kalman filter", Biometrics 39:867, 1983
// (summaries seen). Rounding as uniform error: NIST TN 1297 (rule from memory). The core is
// held to NIST StRD data sets in testdata/oil/oil_expected.csv. Priors, noise of a reading
// and thresholds: chosen for this project. Volume and temperature: API MPMS 11.1, ASTM
// D1250-04. Grades: SAE J300, J1966. Metal: arithmetic; mean and two standard deviations:
// common practice, no source. Each function names its own.
package oil
