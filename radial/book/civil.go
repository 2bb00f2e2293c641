package book

import (
	"strconv"
	"strings"

	"linkrod/radial/civil"
)

// parseDay reads a day as it travels, "2025-10-06", and says whether there is
// such a day. Days are told apart by number, so that "34 days standing" needs no
// clock and no time zone.
func parseDay(s string) (n int, ok bool) {
	d, err := civil.Parse(s)
	return int(d), err == nil
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

// longDay is a day with the month by its name: "6 October 2025". What is not a
// day stays as it was typed.
func longDay(s string) string {
	d, err := civil.Parse(s)
	if err != nil {
		return s
	}
	return d.Long()
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
	on := civil.Epoch.AddDays(int(n))
	if !on.Known() {
		return on.Long()
	}
	y, m, d := on.Date()
	return strconv.Itoa(d) + " " + civil.Month(m)[:3] + " " + strconv.Itoa(y) + " " + two(rest/60) + ":" + two(rest%60)
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
