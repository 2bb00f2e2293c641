// Package sums is the page of calculators, Work it out: which sums there are, what each
// asks, and what it answers, in figures, in words, as a line of maths and as a line to
// send.
//
//	p, ok := sums.Work("torque-wrench", sums.Typed{Text: map[string]string{
//		"wanted": "435 in-lb", "lever": "11", "adapter": "3 1/4",
//	}})
//	…
//	p.Write(&w)                                    // Set the wrench to 335.8 in-lb, …
//
// There is no formula in here. A sum is a table of boxes and a function that hands what
// was typed to the packages of the trade and puts what they say on the page; the formula
// it prints is that of the source, with the numbers put in.
//
// # What a page never does
//
// It never supposes in silence: what is not given and is not needed is said under the
// answer, with what was done without it. It never blocks on a doubt: a torque that looks
// like the other unit, a figure outside the usual, is asked about, and "as typed" is an
// answer. It loses nothing that was typed, whatever it makes of it. It judges nothing by
// a limit that was not typed on the page itself, and says then that no document is on
// file. And it says of no engine that it may turn, run or fly.
//
// # A link
//
// The name of a box is its name in a link, and NAME.unit is the unit chosen beside it:
// /work/torque-wrench?wanted=435&wanted.unit=in_lb&lever=11. Names do not change.
package sums
