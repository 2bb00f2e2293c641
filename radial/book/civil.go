package book

import (
	"strconv"
	"strings"
)

// Days are told apart by a day number, so that "34 days standing" needs no
// clock and no time zone. The arithmetic is the algorithm of H. F. Fliegel and
// T. C. Van Flandern, "A machine algorithm for processing calendar dates",
// Communications of the ACM 11(10), 1968, p. 657 (from memory; tested against
// Go's own calendar). It gives the Julian day number of a Gregorian date.

// epoch is the Julian day number of 1 January 1970.
const epoch = 2440588

// dayNumber is the number of days from 1 January 1970 to a date.
func dayNumber(y, m, d int) int {
	a := (m - 14) / 12
	return (1461*(y+4800+a))/4 + (367*(m-2-12*a))/12 - (3*((y+4900+a)/100))/4 + d - 32075 - epoch
}

// date is the date of a day number.
func date(n int) (y, m, d int) {
	l := n + epoch + 68569
	c := 4 * l / 146097
	l -= (146097*c + 3) / 4
	y = 4000 * (l + 1) / 1461001
	l -= 1461*y/4 - 31
	m = 80 * l / 2447
	d = l - 2447*m/80
	l = m / 11
	return 100*(c-49) + y + l, m + 2 - 12*l, d
}

// parseDay reads a day as it travels, "2025-10-06", and says whether there is
// such a day.
func parseDay(s string) (n int, ok bool) {
	if len(s) != 10 || s[4] != '-' || s[7] != '-' {
		return 0, false
	}
	y, err1 := strconv.ParseUint(s[:4], 10, 16)
	m, err2 := strconv.ParseUint(s[5:7], 10, 16)
	d, err3 := strconv.ParseUint(s[8:], 10, 16)
	if err1 != nil || err2 != nil || err3 != nil || y < 1 || m < 1 || m > 12 {
		return 0, false
	}
	n = dayNumber(int(y), int(m), int(d))
	_, m2, d2 := date(n)
	return n, m2 == int(m) && d2 == int(d)
}

// parseTime reads a time of day, "18:40".
func parseTime(s string) (minutes int, ok bool) {
	h, m, found := strings.Cut(s, ":")
	if !found || len(h) != 2 || len(m) != 2 {
		return 0, false
	}
	hours, err1 := strconv.ParseUint(h, 10, 8)
	mins, err2 := strconv.ParseUint(m, 10, 8)
	return int(hours*60 + mins), err1 == nil && err2 == nil && hours < 24 && mins < 60
}

var months = [...]string{"January", "February", "March", "April", "May", "June", "July",
	"August", "September", "October", "November", "December"}

// longDay is a day with the month by its name: "6 October 2025". What is not a
// day stays as it was typed.
func longDay(s string) string {
	n, ok := parseDay(s)
	if !ok {
		return s
	}
	y, m, d := date(n)
	return strconv.Itoa(d) + " " + months[m-1] + " " + strconv.Itoa(y)
}

// shortDay is longDay without the year when it is the year of now, for a
// sentence about lately: "6 October".
func shortDay(s, now string) string {
	if _, ok := parseDay(s); ok && len(now) >= 4 && s[:4] == now[:4] {
		return strings.TrimSuffix(longDay(s), " "+s[:4])
	}
	return longDay(s)
}

// clockWords is what a phone's clock said, in its own zone: "9 Nov 2025 18:40".
func clockWords(c Clock) string {
	const day = 24 * 60
	minutes := floorDiv(c.Wall, 60000) + int64(c.Zone)
	n := floorDiv(minutes, day)
	rest := int(minutes - n*day)
	y, m, d := date(int(n))
	return strconv.Itoa(d) + " " + months[m-1][:3] + " " + strconv.Itoa(y) + " " + two(rest/60) + ":" + two(rest%60)
}

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

func two(n int) string {
	if n < 10 {
		return "0" + strconv.Itoa(n)
	}
	return strconv.Itoa(n)
}
