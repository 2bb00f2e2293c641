package book

import (
	"testing"
	"time"
)

func TestParseDay(t *testing.T) {
	for s, ok := range map[string]bool{
		"2025-11-09": true, "2024-02-29": true, "2025-02-29": false, "2025-13-01": false,
		"2025-1-09": false, "09-11-2025": false, "": false, "2025-00-10": false, "2025-04-31": false,
		"20a5-04-30": false, "2025-04-+1": false,
	} {
		n, got := parseDay(s)
		if _, err := time.Parse("2006-01-02", s); got != ok || ok != (err == nil) {
			t.Errorf("parseDay(%q) = %d, %v; want %v", s, n, got, ok)
		}
	}
}

func TestDayWords(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{longDay("2025-10-06"), "6 October 2025"},
		{longDay("some day"), "some day"},
		{shortDay("2025-10-06", "2025-11-09"), "6 October"},
		{shortDay("2024-10-06", "2025-11-09"), "6 October 2024"},
		{clockWords(Clock{1762700000000, 60}), "9 Nov 2025 15:53"}, // 14:53:20 UTC
		{clockWords(Clock{-1, 0}), "31 Dec 1969 23:59"},
		{clockWords(Clock{1 << 62, 0}), "not known"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}
