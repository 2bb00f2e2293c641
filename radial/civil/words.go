package civil

import "strconv"

var months = [...]string{"January", "February", "March", "April", "May", "June", "July",
	"August", "September", "October", "November", "December"}

// Month is the name of a month from 1, and nothing for what is not one.
func Month(m int) string {
	if m < 1 || m > len(months) {
		return ""
	}
	return months[m-1]
}

// Text is the day as it travels, 2025-10-06, and nothing for no day. Parse takes it back.
func (d Day) Text() string {
	if !d.Known() {
		return ""
	}
	y, m, day := d.Date()
	return padded(y, 4) + "-" + padded(m, 2) + "-" + padded(day, 2)
}

// String is Text.
func (d Day) String() string { return d.Text() }

// Long is the day with the month by its name, 6 October 2025, so that 03/04 is never
// asked about again; "not known" for no day.
func (d Day) Long() string {
	if !d.Known() {
		return "not known"
	}
	y, m, day := d.Date()
	return strconv.Itoa(day) + " " + Month(m) + " " + strconv.Itoa(y)
}

func padded(n, width int) string {
	s := strconv.Itoa(n)
	for len(s) < width {
		s = "0" + s
	}
	return s
}
