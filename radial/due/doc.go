// Package due reckons when something is next to be done: by hours on a meter, by the
// calendar, or by whichever comes first.
//
// The common case:
//
//	oil := due.Interval{
//		Hours:    due.ByHours{Every: quantity.Of("25", quantity.UnitH)},
//		Calendar: due.ByCalendar{Every: 4, Period: due.Months},
//	}
//	next, err := oil.Next(due.At{Hours: done, Day: day})     // when it was last done
//	…
//	s, err := next.Judge(due.At{Hours: now, Day: today})
//	…
//	s.Words()                                                // Due at 538.1 h or on 5 August 2025, …
//
// # The picture
//
// There are two lines. One is of hours, the total over every meter the engine has had
// (Meters); the other is the calendar. A piece of work stands on both where it was done,
// and from there an Interval marks where it is due. Behind the mark there may be an
// overrun that the card allows: ten hours en route, say. So each line has three stretches,
//
//	done ────── Ahead ────── due ── Now ── due + overrun ── Late ──▶
//
// and the mark itself belongs to Now: at 1100.0 h what is due at 1100.0 h is due and not
// late. Late is late, and is said with by how much. The graver of the two lines is what
// counts; that is what whichever comes first means.
//
// On a screen Ahead is the chip Inside, Now is At edge, Late is Outside and CantJudge is
// Can't judge.
//
// # Carried over
//
// What happens to hours that were overrun is a rule of the work and not of arithmetic, so
// every Interval says it. Oil is clean when it is changed, so its next 25 h count from
// when it was done. A 100-hour inspection is not: hours flown past it are taken off the
// next (Carry), and the overrun never moves the next mark. Done early, both count from
// when it was done; nothing is saved up.
//
// # Unknown is not zero
//
// A total that nobody knows is not given, and everything that rests on it is not given
// either, down to CantJudge. What is known goes on being known: hours since an overhaul,
// when those of the engine are not; an hour mark, when the day it was done was not
// written; and a part's hours are at least those of the spells on record (Worked).
//
// # Exactness
//
// Hours are the decimals that were read off a meter, never floats. 8.1 h and 25 h are
// 33.1 h, and a reading of 33.1 h is at the mark and not past it.
//
// # Limits of validity
//
// A meter that counts revolutions counts an hour of a clock as an hour only at its
// reference speed (MeterHours). An hour here is one of whatever meter the interval was
// written for. Whether something may be put off is for its maker, the rules where the
// aeroplane is kept and the person who signs; nothing here says that it may fly.
//
// # Sources
//
// Calendar months and the overrun that is taken off the next: 14 CFR 91.409(a) and (b).
// Total through a meter change, spells and the clamp at the end of a month: common
// practice, no source. testdata/checks, topic calendar.
package due
