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

func TestParseTime(t *testing.T) {
	for s, want := range map[string]int{
		"00:00": 0, "00:59": 59, "01:00": 60, "18:40": 1120, "23:59": 1439,
		"24:00": -1, "18:60": -1, "1:30": -1, "18:4": -1, "018:40": -1, "18.40": -1, "1840": -1, "": -1, "-1:30": -1, "18:+4": -1, "ab:cd": -1,
	} {
		n, ok := parseTime(s)
		if ok != (want >= 0) || ok && n != want {
			t.Errorf("parseTime(%q) = %d, %v; want %d", s, n, ok, want)
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
