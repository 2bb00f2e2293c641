// Package civil is the calendar of log books: days without a clock and without a time
// zone, as people write them down.
//
// The common case:
//
//	signed, err := civil.Parse("2025-03-10")
//	…
//	signed.AddMonths(12).MonthEnd().Long()      // 31 March 2026
//
// A Day is one number, so days compare with < and subtract. The zero Day is none: a day
// that nobody wrote down. It is not a day long ago, and nothing is counted from it.
//
// # Months
//
// A month after a day is the same day of the next month. Where that month is shorter it
// is its last day: a month after 31 January is 28 February, 29 in a leap year. Two days
// can so have the same day a month later, and a month there and back can lose up to
// three days. Counting is therefore always from the day it began and in one step: four
// months after 31 October is 28 February, and twelve after it 31 October again.
//
// # Limits of validity
//
// The Gregorian calendar, years 1 to 9999, also for days before anybody kept it. What
// would fall outside is no Day.
//
// # Sources
//
// Day numbers: H. F. Fliegel and T. C. Van Flandern, "A machine algorithm for processing
// calendar dates", Communications of the ACM 11(10), 1968, p. 657 (from memory; tested
// against Go's own calendar, every day of years 1 to 9999).
package civil
