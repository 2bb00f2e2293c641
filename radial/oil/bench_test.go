package oil

import (
	"math/rand"
	"testing"
)

// A 500-reading log with slips, drains and second looks, as a correction or a
// late line makes the phone replay it.
func BenchmarkRun500(b *testing.B) {
	s, log := flown(rand.New(rand.NewSource(*seed)), 500)
	s.HoursKnown, s.Ceiling = true, Is(QtPerHour(0.6))
	for b.Loop() {
		mustRun(b, s, log)
	}
}

// A break-in log of 40 readings, all 32 curves alive.
func BenchmarkRun40(b *testing.B) {
	s, log := flown(rand.New(rand.NewSource(*seed)), 40)
	s.HoursKnown, s.Ceiling = true, Is(QtPerHour(0.6))
	for b.Loop() {
		mustRun(b, s, log)
	}
}
