// Package torque is the arithmetic between the figure on a torque sheet and the nut:
// what to set the wrench to when something stands between its drive and the nut, what
// a reading meant, what the nut's own drag adds, in which order a ring of nuts is drawn
// down, and whether a figure looks like the wrong unit.
//
// The common case:
//
//	s := torque.Setup{Lever: 11 * quantity.Inch, Adapter: 3.25 * quantity.Inch}
//	set, err := s.Setting(435 * quantity.InchPound)     // 335.8 in-lb
//	…
//	got, err := s.Applied(set)                          // 435 in-lb
//
// # The picture
//
// Look down on the wrench lying on a bench, its square drive to the left and its grip to
// the right. The lever L runs from the centre of the drive to the mark on the grip where
// the hand pulls, or to the pin if the grip hangs on one. A torque wrench knows only the
// moment at its drive. Put an adapter (extension, crow-foot, offset box) of length E on
// the drive, from the centre of the drive to the centre of the nut, and the nut is
// somewhere else:
//
//	straight out, away from the grip    a = 0°     the nut gets more than the wrench reads
//	square to the wrench                a = 90°    the nut gets what the wrench reads
//	back along the grip                 a = 180°   the nut gets less
//
// The hand's pull turns the nut at the arm L + E cos a and the drive at the arm L, so
//
//	reading : torque at the nut = L : (L + E cos a)
//
// which is the whole of the matter. Everything else about an adapter is getting L and E
// right: centre to centre, and the hand on the mark.
//
//	a hand's breadth (3 in) off the mark, L 11 and E 3.25 straight out    −4.9 to +8.6 %
//	E a quarter of an inch wrong, same wrench                             1.8 %
//	a pull 10° off square, E half of L, adapter square                    9 %
//	the adapter left out of the sum                                       30 %
//
// # Half a number
//
// A torque without its unit is twelve times wrong or right (TwelveToOne). A torque without the
// state of its threads is half a number: what holds is the stretch of the bolt, and the
// same torque stretches an oiled thread a third more than a dry one. Preload, Stress and
// Check reckon that stretch from the thread standard's area and a nut factor K:
//
//	T = K D F      σ = F/At      At = π/4 (D − 0.9743/n)²
//
// K is known to about 30 %, so what comes out is for catching a wrong unit or a wrong
// thread. It is a warning and never a limit, and no torque is ever made from it here.
//
// # Cautions
//
// The maker's value, lubricant, sequence and re-torque rule come first; the shop's signed
// sheet next. AC 43.13-1B is for where both are silent, and its table is for airframe
// bolts with oil-free cadmium-plated threads, not for studs of an engine. A nut that is
// already tight does not show its torque by moving on: mark it, back it off a turn, and
// draw it up again to the mark. Hold-down nuts are work for a certificated mechanic.
//
// # Limits of validity
//
// Statics of a rigid wrench pulled at right angles to its lever, in the plane of the nut.
// A long extension along the axis of the nut, in line with the socket, changes nothing
// and is no adapter here. Figures are exact to float64; all that is uncertain is measured.
//
// # Sources
//
// Adapter: US Navy training text, Army TM 9-2350-277-40&P and TM 9-2815-220-24, FAA AC
// 43.13-1B fig. 7-2; an Army manual prints the angled form with a multiplication sign for
// the plus, and a forum's A/(1 + E) is right only for a wrench 12 in long. Drag: AC
// 43.13-1B 7-40 and TB 43-0218 7c, which differ. Stress area: ASME B1.1 and ISO 898-1.
// Each function names its own.
package torque
