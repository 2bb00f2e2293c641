package civil

import (
	"strconv"
	"strings"

	"linkrod/radial/quantity"
)

// Day is a day of the Gregorian calendar, as its Julian day number: the days since noon
// of a day in 4713 BC, 2 440 588 for 1 January 1970. The zero Day is none.
type Day int

// Epoch is 1 January 1970, from which computers count.
const Epoch Day = 2440588

// The first and the last day there is a Day for.
const (
	first Day = 1721426 // 1 January of year 1
	last  Day = 5373484 // 31 December 9999
)

// New is the day of a year, a month from 1 and a day of the month. It refuses a day that
// is not in the calendar.
func New(year, month, day int) (Day, error) {
	switch {
	case year < 1 || year > 9999:
		return 0, &quantity.Problem{Field: "year", Sentence: "The year is " + strconv.Itoa(year) + ". It must be from 1 to 9999."}
	case month < 1 || month > 12:
		return 0, &quantity.Problem{Field: "month", Sentence: "The month is " + strconv.Itoa(month) + ". It must be from 1 to 12."}
	case day < 1 || day > daysIn(year, month):
		return 0, &quantity.Problem{Field: "day", Sentence: "There is no day " + strconv.Itoa(day) + " in " + Month(month) + " " + strconv.Itoa(year) + ", which has " + strconv.Itoa(daysIn(year, month)) + " days."}
	}
	return number(year, month, day), nil
}

// Parse reads a day as it travels: year, month, day of the month, "2025-10-06". It takes
// nothing else, because 03/04 is March to some and April to others.
func Parse(text string) (Day, error) {
	f := strings.Split(text, "-")
	if len(text) != len("2025-10-06") || len(f) != 3 || len(f[0]) != 4 || len(f[1]) != 2 {
		return 0, refuse(quantity.WhyNoNumber, text, " is not a day as year, month and day. Type it as 2025-10-06.")
	}
	y, err1 := strconv.ParseUint(f[0], 10, 16)
	m, err2 := strconv.ParseUint(f[1], 10, 16)
	d, err3 := strconv.ParseUint(f[2], 10, 16)
	if err1 != nil || err2 != nil || err3 != nil {
		return 0, refuse(quantity.WhyNoNumber, text, " is not a day as year, month and day. Type it as 2025-10-06.")
	}
	day, err := New(int(y), int(m), int(d))
	if err != nil {
		return 0, refuse(quantity.WhyRange, text, " is not in the calendar. "+err.Error())
	}
	return day, nil
}

func refuse(why quantity.Why, typed, sentence string) error {
	shown := []rune(strings.ToValidUTF8(typed, "\uFFFD"))
	if len(shown) > 20 {
		shown = append(shown[:20], '…')
	}
	return &quantity.Refusal{Why: why, Typed: typed, Sentence: "“" + string(shown) + "”" + sentence}
}

// number is the Julian day number of a date.
func number(y, m, d int) Day {
	a := (m - 14) / 12 // −1 in January and February, so that a year ends with the leap day
	return Day((1461*(y+4800+a))/4 + (367*(m-2-12*a))/12 - (3*((y+4900+a)/100))/4 + d - 32075)
}

// Known reports that it is a day at all.
func (d Day) Known() bool { return first <= d && d <= last }

// Date is the year, the month from 1 and the day of the month; 0, 0, 0 for no day.
func (d Day) Date() (year, month, day int) {
	if !d.Known() {
		return 0, 0, 0
	}
	l := int(d) + 68569
	c := 4 * l / 146097
	l -= (146097*c + 3) / 4
	y := 4000 * (l + 1) / 1461001
	l -= 1461*y/4 - 31
	m := 80 * l / 2447
	day = l - 2447*m/80
	l = m / 11
	return 100*(c-49) + y + l, m + 2 - 12*l, day
}

// daysIn is the number of days of a month.
func daysIn(y, m int) int {
	switch {
	case m == 2 && y%4 == 0 && (y%100 != 0 || y%400 == 0):
		return 29
	case m == 2:
		return 28
	case m == 4 || m == 6 || m == 9 || m == 11:
		return 30
	}
	return 31
}

// AddMonths is n months later, or earlier if n is negative: the same day of the month,
// or the last one where the month is shorter. It is no Day outside the calendar.
func (d Day) AddMonths(n int) Day {
	y, m, day := d.Date()
	if !d.Known() || n < -120_000 || n > 120_000 {
		return 0
	}
	months := 12*y + m - 1 + n
	y, m = months/12, months%12+1
	if y < 1 || y > 9999 {
		return 0
	}
	return number(y, m, min(day, daysIn(y, m)))
}

// AddDays is n days later. It is no Day outside the calendar.
func (d Day) AddDays(n int) Day {
	if !d.Known() || n < int(first-last) || n > int(last-first) || !(d + Day(n)).Known() {
		return 0
	}
	return d + Day(n)
}

// MonthEnd is the last day of the day's month. What is good for so many calendar months
// is good to that day.
func (d Day) MonthEnd() Day {
	if !d.Known() {
		return 0
	}
	y, m, _ := d.Date()
	return number(y, m, daysIn(y, m))
}
