package civil_test

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"linkrod/radial/civil"
	"linkrod/radial/quantity"
)

var seed = flag.Uint64("seed", 1, "seed of the random cases; the log names it")

func day(t *testing.T, text string) civil.Day {
	t.Helper()
	d, err := civil.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// Go's own calendar (package time, a general-purpose library) against ours, every day of
// the years there are.
func TestEveryDayAgreesWithGo(t *testing.T) {
	start := time.Date(1, 1, 1, 0, 0, 0, 0, time.UTC)
	first, err := civil.New(1, 1, 1)
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for d := first; d.Known(); d++ {
		y, m, dd := start.AddDate(0, 0, n).Date()
		if y2, m2, d2 := d.Date(); y2 != y || m2 != int(m) || d2 != dd {
			t.Fatalf("day %d is %d-%d-%d, want %d-%d-%d", d, y2, m2, d2, y, m, dd)
		}
		if back, err := civil.New(y, int(m), dd); err != nil || back != d {
			t.Fatalf("New(%d, %d, %d) = %d, %v, want %d", y, m, dd, back, err, d)
		}
		n++
	}
	if want := 3652059; n != want { // 9999 years with 2424 leap days
		t.Errorf("%d days, want %d", n, want)
	}
	if civil.Epoch.Text() != "1970-01-01" {
		t.Errorf("the epoch is %v", civil.Epoch)
	}
}

func TestParse(t *testing.T) {
	for _, text := range []string{
		"2025-11-09", "2024-02-29", "2000-02-29", "0001-01-01", "9999-12-31",
		"2025-02-29", "1900-02-29", "2025-13-01", "2025-1-09", "09-11-2025", "", "2025-00-10", "2025-04-31", "2025-04-00",
		"20a5-04-30", "2025-04-+1", "2025-0a-30", "2025/04/30", "2025-04-3x", "0000-01-01", "2025-042-1",
	} {
		got, err := civil.Parse(text)
		want, wrong := time.Parse("2006-01-02", text)
		if wrong == nil && want.Year() == 0 {
			wrong = errors.New("no year 0 here")
		}
		switch {
		case (err == nil) != (wrong == nil):
			t.Errorf("Parse(%q) = %v, %v; Go says %v", text, got, err, wrong)
		case err == nil && got.Text() != text:
			t.Errorf("Parse(%q) is %v", text, got)
		case err != nil && (got.Known() || got != 0):
			t.Errorf("Parse(%q) refused and yet %d", text, got)
		}
		if err != nil {
			var r *quantity.Refusal
			if !errors.As(err, &r) || r.Typed != text || !strings.HasSuffix(r.Sentence, ".") {
				t.Errorf("Parse(%q): %#v", text, err)
			}
		}
	}
	for text, want := range map[string]string{
		"2025-02-29":                    "“2025-02-29” is not in the calendar. There is no day 29 in February 2025, which has 28 days.",
		"2025-13-01":                    "“2025-13-01” is not in the calendar. The month is 13. It must be from 1 to 12.",
		"0000-01-01":                    "“0000-01-01” is not in the calendar. The year is 0. It must be from 1 to 9999.",
		"20a5-04-30":                    "“20a5-04-30” is not a day as year, month and day. Type it as 2025-10-06.",
		"2025-0a-30":                    "“2025-0a-30” is not a day as year, month and day. Type it as 2025-10-06.",
		"2025-04-3x":                    "“2025-04-3x” is not a day as year, month and day. Type it as 2025-10-06.",
		"3/4/25":                        "“3/4/25” is not a day as year, month and day. Type it as 2025-10-06.",
		"the day before today":          "“the day before today” is not a day as year, month and day. Type it as 2025-10-06.", // twenty letters, the most that are shown
		"the day before the day before": "“the day before the d…” is not a day as year, month and day. Type it as 2025-10-06.",
	} {
		if _, err := civil.Parse(text); err == nil || err.Error() != want {
			t.Errorf("Parse(%q): %v, want %s", text, err, want)
		}
	}
	for _, no := range [][3]int{{10000, 1, 1}, {0, 1, 1}, {2025, 0, 1}, {2025, 13, 1}, {2025, 2, 29}, {2025, 2, 0}} {
		if d, err := civil.New(no[0], no[1], no[2]); err == nil || d != 0 {
			t.Errorf("New%v is %d, %v", no, d, err)
		}
	}
}

// FuzzParse: what is taken is written back the same. go test -fuzz FuzzParse ./radial/civil
func FuzzParse(f *testing.F) {
	for _, s := range []string{"2025-10-06", "2024-02-29", "03/04", "0000-00-00"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, err := civil.Parse(s)
		if err == nil && d.Text() != s || err != nil && d != 0 {
			t.Errorf("%q is %v, %v", s, d, err)
		}
	})
}

func TestMonths(t *testing.T) {
	for _, tt := range []struct {
		from string
		n    int
		want string
	}{
		{"2025-10-31", 4, "2026-02-28"},
		{"2023-10-31", 4, "2024-02-29"},
		{"2025-10-31", 12, "2026-10-31"},
		{"2024-02-29", 12, "2025-02-28"},
		{"2024-02-29", 48, "2028-02-29"},
		{"2025-12-31", 1, "2026-01-31"},
		{"2026-01-31", -1, "2025-12-31"},
		{"2025-03-31", -1, "2025-02-28"},
		{"2025-05-31", 1, "2025-06-30"},
		{"2025-01-15", 0, "2025-01-15"},
		{"2025-01-15", 11, "2025-12-15"},
		{"1900-01-30", 1, "1900-02-28"}, // a century without a leap day
		{"2000-01-30", 1, "2000-02-29"}, // and one with
		{"9999-12-01", 1, ""},
		{"0001-01-01", -1, ""},
		{"0005-01-15", 1, "0005-02-15"}, // the first years are years like others
		{"0001-12-15", 1, "0002-01-15"},
		{"2025-01-15", 1 << 40, ""},
		{"2025-01-15", -1 << 40, ""},
	} {
		if got := day(t, tt.from).AddMonths(tt.n); got.Text() != tt.want || !got.Known() && got != 0 {
			t.Errorf("%d months after %s is %v, want %s", tt.n, tt.from, got, tt.want)
		}
	}
	for from, want := range map[string]string{
		"2025-02-01": "2025-02-28", "2024-02-29": "2024-02-29", "2025-04-30": "2025-04-30", "2025-12-01": "2025-12-31",
		"2025-06-01": "2025-06-30", "2025-09-01": "2025-09-30", "2025-11-11": "2025-11-30", "9999-12-02": "9999-12-31",
	} {
		if got := day(t, from).MonthEnd(); got.Text() != want {
			t.Errorf("the month of %s ends %v, want %s", from, got, want)
		}
	}
}

func TestNoDay(t *testing.T) {
	var none civil.Day
	y, m, d := none.Date()
	if none.Known() || none.AddMonths(1) != 0 || none.AddDays(1) != 0 || none.MonthEnd() != 0 || y+m+d != 0 || none.Text() != "" || none.Long() != "not known" {
		t.Error("no day does something")
	}
	// Not even far enough on to be in the calendar.
	if none.AddDays(int(civil.Epoch)) != 0 || none.AddMonths(24_000) != 0 {
		t.Error("a day that is not known has days after it")
	}
	last := day(t, "9999-12-31")
	for _, n := range []int{1, math.MaxInt, math.MinInt} {
		if last.AddDays(n) != 0 {
			t.Errorf("%d days after the last is %v", n, last.AddDays(n))
		}
	}
	first := day(t, "0001-01-01")
	if first.AddDays(-1) != 0 || first.AddDays(int(last-first)) != last || last.AddDays(int(first-last)) != first {
		t.Error("days at the ends of the calendar")
	}
	if civil.Month(0) != "" || civil.Month(13) != "" || civil.Month(1) != "January" || civil.Month(12) != "December" {
		t.Error("names of months")
	}
}

// Later is never earlier: in the day, and in the number of months.
func TestMonthsAreMonotone(t *testing.T) {
	t.Logf("seed %d", *seed)
	r := rand.New(rand.NewPCG(*seed, 0))
	start := day(t, "1890-01-01")
	for range 100_000 {
		a := start.AddDays(r.IntN(100_000))
		b := a.AddDays(r.IntN(40))
		n := r.IntN(400) - 200
		if a.AddMonths(n) > b.AddMonths(n) || a.AddMonths(n) >= a.AddMonths(n+1) || a.MonthEnd() > b.MonthEnd() || a.MonthEnd() < a {
			t.Fatalf("%v, %v, %d months", a, b, n)
		}
		// The same day of the month, or the last one of a shorter month.
		_, m, d := a.Date()
		y2, m2, d2 := a.AddMonths(n).Date()
		if (m-1+n%12+12)%12 != m2-1 || d2 > d || d2 < d && a.AddMonths(n) != a.AddMonths(n).MonthEnd() || y2 == 0 {
			t.Fatalf("%v and %d months is %v", a, n, a.AddMonths(n))
		}
	}
}

func ExampleDay_MonthEnd() {
	signed, _ := civil.Parse("2025-03-10")
	fmt.Printf("An annual signed on %s is good to %s.\n", signed.Long(), signed.AddMonths(12).MonthEnd().Long())
	// Output: An annual signed on 10 March 2025 is good to 31 March 2026.
}

func ExampleDay_AddMonths() {
	changed, _ := civil.Parse("2025-10-31")
	fmt.Printf("Oil changed on %s is four months old on %s.\n", changed.Long(), changed.AddMonths(4).Long())
	// Output: Oil changed on 31 October 2025 is four months old on 28 February 2026.
}
