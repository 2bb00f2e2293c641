package book

import (
	"strings"

	"linkrod/radial/quantity"
)

// longAway is how many days may pass before the drum may have gone round by more
// than its last digits show. Ten hours in under a week is rare for these
// engines (our choice); past it both readings are offered.
const longAway = 7

// TailHours finds the meter readings that end in the digits typed and are not
// before the last one. A drum only turns forward: after 540.9, "16" is 541.6.
// It gives two when so many days have passed that it may have gone round once
// more, and none when the digits or the last reading are no meter's. days is -1
// when not known.
func TailHours(last, digits string, days int) []string {
	d, err := quantity.ParseDecimal(last)
	if err != nil || d.Sign() < 0 || digits == "" || len(digits) > 6 || strings.Trim(digits, "0123456789") != "" {
		return nil
	}
	text := strings.Replace(d.Text(), ".", "", 1) // in steps of the last digit
	steps, err := quantity.ParseDecimal(text)
	if err != nil || len(text) > 12 {
		return nil
	}
	round := int64(1)
	for range digits {
		round *= 10
	}
	now := int64(steps.Float64())
	next := now - now%round + int64(atoi(digits))
	if next < now {
		next += round
	}
	read := func(n int64) string {
		m, err := quantity.NewDecimal(n, d.Places())
		if err != nil {
			return last
		}
		return m.Text()
	}
	if days >= longAway {
		return []string{read(next), read(next + round)}
	}
	return []string{read(next)}
}

// Tail is TailHours after the book's last reading of the meter.
func (b *Book) Tail(digits string, days int) []string {
	last := b.lastTime().Hours
	if last == "" {
		return nil
	}
	return TailHours(last, digits, days)
}
