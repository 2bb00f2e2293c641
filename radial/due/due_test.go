package due_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"linkrod/radial/civil"
	"linkrod/radial/due"
	"linkrod/radial/quantity"
)

var seed = flag.Uint64("seed", 1, "seed of the random cases; the log names it")

// h is hours, "" not given.
func h(text string) quantity.Measured {
	if text == "" {
		return quantity.Measured{}
	}
	return quantity.Of(text, quantity.UnitH)
}

// day is a day, "" none.
func day(text string) civil.Day {
	if text == "" {
		return 0
	}
	return must(civil.Parse(text))
}

func at(hours, onDay string) due.At { return due.At{Hours: h(hours), Day: day(onDay)} }

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// second is the error of two results. A refusal comes with no figure that could be taken
// for one.
func second[T any](v T, err error) error {
	if f := reflect.ValueOf(v); err != nil && f.CanFloat() && f.Float() != 0 {
		return fmt.Errorf("refused, and yet %v: %w", v, err)
	}
	return err
}

// wantProblem expects an error about one input, in a whole sentence.
func wantProblem(t *testing.T, err error, field, part string) {
	t.Helper()
	p, plainly := err.(*quantity.Problem)
	if !plainly || p.Field != field || !strings.ContainsAny(p.Sentence[len(p.Sentence)-1:], ".?") || !strings.Contains(p.Sentence, part) {
		t.Errorf("problem with the %s (%s): %#v", field, part, err)
	}
}

// The intervals of the demo's cards and of the rules.
var (
	oilChange = due.Interval{
		Hours:    due.ByHours{Every: h("25")},
		Calendar: due.ByCalendar{Every: 4, Period: due.Months},
	}
	hundredHour = due.Interval{Hours: due.ByHours{Every: h("100"), Overrun: h("10"), Carry: true}}
	annual      = due.Interval{Calendar: due.ByCalendar{Every: 12, Period: due.CalendarMonths}}
	fortnight   = due.Interval{Calendar: due.ByCalendar{Every: 14, Period: due.Days, Overrun: 3, Carry: true}}
)

func TestNext(t *testing.T) {
	for _, tt := range []struct {
		name      string
		iv        due.Interval
		was, done due.At
		want      due.At
	}{
		{"first", oilChange, due.At{}, at("513.1", "2025-04-05"), at("538.1", "2025-08-05")},
		{"late, and clean oil is clean", oilChange, at("538.1", "2025-08-05"), at("544.0", "2025-08-31"), at("569.0", "2025-12-31")},
		{"early", oilChange, at("538.1", "2025-08-05"), at("530.0", "2025-07-01"), at("555.0", "2025-11-01")},
		{"hours not written", oilChange, due.At{}, at("", "2025-10-31"), at("", "2026-02-28")},
		{"day not written", oilChange, due.At{}, at("513.1", ""), at("538.1", "")},
		// 14 CFR 91.409(b): the excess is counted in the next hundred.
		{"100 h on time", hundredHour, at("1000.0", ""), at("1000.0", ""), at("1100.0", "")},
		{"100 h, 4 late", hundredHour, at("1100.0", ""), at("1104.0", ""), at("1200.0", "")},
		{"100 h, 10 late", hundredHour, at("1100.0", ""), at("1110.0", ""), at("1200.0", "")},
		{"100 h, later than allowed", hundredHour, at("1100.0", ""), at("1130.0", ""), at("1200.0", "")},
		{"100 h, early: nothing is saved up", hundredHour, at("1100.0", ""), at("1090.0", ""), at("1190.0", "")},
		{"100 h, no mark known before", hundredHour, due.At{}, at("1104.0", ""), at("1204.0", "")},
		{"100 h, done nobody knows when", hundredHour, at("1100.0", ""), due.At{}, due.At{}},
		// 14 CFR 91.409(a): to the end of the twelfth month.
		{"annual", annual, due.At{}, at("", "2025-03-10"), at("", "2026-03-31")},
		{"annual of the leap day", annual, due.At{}, at("", "2024-02-29"), at("", "2025-02-28")},
		{"annual into a leap year", annual, due.At{}, at("", "2023-02-01"), at("", "2024-02-29")},
		{"annual, late: from when it was done", annual, at("", "2026-03-31"), at("", "2026-05-02"), at("", "2027-05-31")},
		{"days, carried", fortnight, at("", "2025-06-15"), at("", "2025-06-17"), at("", "2025-06-29")},
		{"days, early", fortnight, at("", "2025-06-15"), at("", "2025-06-10"), at("", "2025-06-24")},
		{"exact in decimal", oilChange, due.At{}, at("8.1", ""), at("33.1", "")},
	} {
		got, err := tt.iv.NextAfter(tt.was, tt.done)
		if err != nil || got.Hours.Text() != tt.want.Hours.Text() || got.Day != tt.want.Day || got.Done != tt.done || got.At() != (due.At{Hours: got.Hours, Day: got.Day}) {
			t.Errorf("%s: %v on %v, %v, want %v on %v", tt.name, got.Hours, got.Day, err, tt.want.Hours, tt.want.Day)
		}
	}
}

func TestJudge(t *testing.T) {
	next := must(hundredHour.Next(at("1000.0", "")))
	for _, tt := range []struct {
		now, left, over string
		state           due.State
	}{
		{"1000.0", "100.0", "", due.Ahead},
		{"1099.9", "0.1", "", due.Ahead},
		{"1100.0", "0.0", "", due.Now},
		{"1100.1", "-0.1", "", due.Now},
		{"1110.0", "-10.0", "", due.Now},
		{"1110.1", "-10.1", "0.1", due.Late},
		{"", "", "", due.CantJudge},
	} {
		s, err := next.Judge(at(tt.now, ""))
		if err != nil || s.State != tt.state || s.Hours.State != tt.state || s.Calendar.State != due.NotUsed ||
			s.Hours.Left != h(tt.left) || s.Hours.Over != h(tt.over) {
			t.Errorf("at %s: %+v, %v", tt.now, s, err)
		}
	}
	later := must(fortnight.Next(at("", "2025-06-01")))
	for _, tt := range []struct {
		now        string
		left, over int
		state      due.State
	}{
		{"2025-06-01", 14, 0, due.Ahead},
		{"2025-06-14", 1, 0, due.Ahead},
		{"2025-06-15", 0, 0, due.Now},
		{"2025-06-16", -1, 0, due.Now},
		{"2025-06-18", -3, 0, due.Now},
		{"2025-06-19", -4, 1, due.Late},
		{"", 0, 0, due.CantJudge},
	} {
		s, err := later.Judge(at("", tt.now))
		want := due.DaysLeft{State: tt.state, Left: tt.left, Over: tt.over}
		if err != nil || s.State != tt.state || s.Hours.State != due.NotUsed || s.Calendar != want {
			t.Errorf("on %s: %+v, %v", tt.now, s, err)
		}
	}
	// Without an overrun the mark itself is due, and the next tenth is late.
	plain := must(due.Interval{Hours: due.ByHours{Every: h("5")}}.Next(at("1883.2", "")))
	for now, want := range map[string]due.State{"1888.1": due.Ahead, "1888.2": due.Now, "1888.20": due.Now, "1888.3": due.Late, "1888.21": due.Late} {
		if s := must(plain.Judge(at(now, ""))); s.State != want {
			t.Errorf("at %s: %v, want %v", now, s.State, want)
		}
	}
}

// Whichever comes first: the graver of the two lines, and due before can't judge.
func TestWhicheverComesFirst(t *testing.T) {
	next := must(oilChange.Next(at("513.1", "2025-04-05"))) // 538.1 and 5 August
	for _, tt := range []struct {
		now  due.At
		want due.State
	}{
		{at("530.0", "2025-07-01"), due.Ahead},
		{at("538.1", "2025-07-01"), due.Now},
		{at("530.0", "2025-08-05"), due.Now},
		{at("538.2", "2025-07-01"), due.Late},
		{at("530.0", "2025-08-06"), due.Late},
		{at("538.1", "2025-08-06"), due.Late},
		{at("", "2025-07-01"), due.CantJudge},
		{at("530.0", ""), due.CantJudge},
		{at("", "2025-08-05"), due.Now},
		{at("", "2025-08-06"), due.Late},
		{at("538.2", ""), due.Late},
		{due.At{}, due.CantJudge},
	} {
		if s, err := next.Judge(tt.now); err != nil || s.State != tt.want {
			t.Errorf("at %v on %v: %v, %v, want %v", tt.now.Hours, tt.now.Day, s.State, err, tt.want)
		}
	}
	unknown := must(oilChange.Next(at("", "2025-04-05")))
	if s := must(unknown.Judge(at("530.0", "2025-07-01"))); s.State != due.CantJudge || s.Calendar.State != due.Ahead {
		t.Errorf("hours when it was done not known: %+v", s)
	}
}

func TestLatest(t *testing.T) {
	next := must(hundredHour.Next(at("1000.0", "2025-01-01")))
	if got := must(next.Latest()); got.Hours != h("1110.0") || got.Day != 0 {
		t.Errorf("latest %+v", got)
	}
	if got := must(must(fortnight.Next(at("", "2025-06-01"))).Latest()); got.Day.Text() != "2025-06-18" || got.Hours.Given() {
		t.Errorf("latest %+v", got)
	}
	if got := must(must(oilChange.Next(at("513.1", "2025-04-05"))).Latest()); got.Hours != h("538.1") || got.Day.Text() != "2025-08-05" {
		t.Errorf("latest without an overrun %+v", got)
	}
}

func TestWords(t *testing.T) {
	plain := func(s string) string { return strings.ReplaceAll(s, "\u2009", " ") }
	oil := must(oilChange.Next(at("513.1", "2025-04-05")))
	hundred := must(hundredHour.Next(at("1000.0", "")))
	idle := must(fortnight.Next(at("", "2025-06-01")))
	for _, tt := range []struct {
		d    due.Due
		at   due.At
		want string
	}{
		{oil, at("530.0", "2025-07-01"), "Due at 538.1 h or on 5 August 2025, whichever comes first: in 8.1 h or in 35 days."},
		{oil, at("538.1", "2025-07-01"), "Due now, at 538.1 h. Due on 5 August 2025, in 35 days."},
		{oil, at("530.0", "2025-08-05"), "Due today, 5 August 2025. Due at 538.1 h, in 8.1 h."},
		{oil, at("544.0", "2025-08-06"), "Late: 5.9 h past due at 538.1 h. Late: 1 day past due on 5 August 2025."},
		{oil, at("", "2025-08-07"), "Late: 2 days past due on 5 August 2025. By hours it can't be judged: the hours now are not known."},
		{oil, at("530.0", ""), "By the calendar it can't be judged: the day now is not known. Due at 538.1 h, in 8.1 h."},
		{must(oilChange.Next(due.At{})), at("530.0", "2025-07-01"), "By hours it can't be judged: the hours when it was last done are not known. By the calendar it can't be judged: the day when it was last done is not known."},
		{hundred, at("1050.5", ""), "Due at 1100.0 h, in 49.5 h."},
		{hundred, at("1100.0", ""), "Due now, at 1100.0 h."},
		{hundred, at("1104.0", ""), "4.0 h past due at 1100.0 h, inside the 10 h its card allows."},
		{hundred, at("1112.0", ""), "Late: 12.0 h past due at 1100.0 h, and 2.0 h past the 10 h its card allows."},
		{idle, at("", "2025-06-14"), "Due on 15 June 2025, in 1 day."},
		{idle, at("", "2025-06-17"), "2 days past due on 15 June 2025, inside the 3 days its card allows."},
		{idle, at("", "2025-06-19"), "Late: 4 days past due on 15 June 2025, and 1 day past the 3 days its card allows."},
		{idle, at("5.0", ""), "By the calendar it can't be judged: the day now is not known."},
	} {
		if got := plain(must(tt.d.Judge(tt.at)).Words()); got != tt.want {
			t.Errorf("got  %s\nwant %s", got, tt.want)
		}
	}
	if w := (due.Standing{}).Words(); w != "" {
		t.Errorf("no standing says %q", w)
	}
	day1 := due.Interval{Calendar: due.ByCalendar{Every: 14, Period: due.Days, Overrun: 1}}
	if got := plain(must(must(day1.Next(at("", "2025-06-01"))).Judge(at("", "2025-06-17"))).Words()); got != "Late: 2 days past due on 15 June 2025, and 1 day past the 1 day its card allows." {
		t.Errorf("a day of overrun: %s", got)
	}
	nought := due.Interval{Hours: due.ByHours{Every: h("5"), Overrun: h("0")}}
	if got := plain(must(must(nought.Next(at("10", ""))).Judge(at("15.3", ""))).Words()); got != "Late: 0.3 h past due at 15 h." {
		t.Errorf("no hours of overrun: %s", got)
	}
}

func TestRefusals(t *testing.T) {
	psi := quantity.Of("25", quantity.UnitPsi)
	for _, tt := range []struct {
		iv          due.Interval
		field, part string
	}{
		{due.Interval{}, "interval", "No interval is given"},
		{due.Interval{Hours: due.ByHours{Carry: true}}, "every", "no interval"},
		{due.Interval{Hours: due.ByHours{Overrun: h("10")}}, "every", "no interval"},
		{due.Interval{Hours: due.ByHours{Every: psi}}, "every", "must be hours"},
		{due.Interval{Hours: due.ByHours{Every: h("0")}}, "every", "more than 0"},
		{due.Interval{Hours: due.ByHours{Every: h("-5")}}, "every", "more than 0"},
		{due.Interval{Hours: due.ByHours{Every: quantity.Of("20", quantity.UnitMin)}}, "every", "does not come out even"},
		{due.Interval{Hours: due.ByHours{Every: h("5"), Overrun: quantity.Of("20", quantity.UnitMin)}}, "overrun", "does not come out even"},
		{due.Interval{Hours: due.ByHours{Every: quantity.Of("100", quantity.UnitMin), Overrun: h("1")}}, "every", "does not come out even"},
		{due.Interval{Hours: due.ByHours{Every: h("25"), Overrun: psi}}, "overrun", "must be hours"},
		{due.Interval{Hours: due.ByHours{Every: h("25"), Overrun: h("-1")}}, "overrun", "0 or more"},
		{due.Interval{Hours: due.ByHours{Every: h("25"), Overrun: h("25.0")}}, "overrun", "must be less"},
		{due.Interval{Calendar: due.ByCalendar{Every: 4}}, "period", "Every 4 of what?"},
		{due.Interval{Calendar: due.ByCalendar{Every: 4, Period: 4}}, "period", "of what?"},
		{due.Interval{Calendar: due.ByCalendar{Period: due.Months}}, "every", "0 months"},
		{due.Interval{Calendar: due.ByCalendar{Every: -1, Period: due.Days}}, "every", "-1 days"},
		{due.Interval{Calendar: due.ByCalendar{Every: 1201, Period: due.Months}}, "every", "from 1 to 1200"},
		{due.Interval{Calendar: due.ByCalendar{Every: 36526, Period: due.Days}}, "every", "from 1 to 36525"},
		{due.Interval{Calendar: due.ByCalendar{Every: 14, Period: due.Days, Overrun: 14}}, "overrun", "less than the interval"},
		{due.Interval{Calendar: due.ByCalendar{Every: 1, Period: due.Months, Overrun: 28}}, "overrun", "28 days and the interval 1 month"},
		{due.Interval{Calendar: due.ByCalendar{Every: 2, Period: due.CalendarMonths, Overrun: -1}}, "overrun", "2 calendar months"},
	} {
		wantProblem(t, tt.iv.Check(), tt.field, tt.part)
		wantProblem(t, second(tt.iv.Next(at("1", "2025-01-01"))), tt.field, tt.part)
		wantProblem(t, second(due.Due{Interval: tt.iv}.Judge(at("1", "2025-01-01"))), tt.field, tt.part)
	}
	for _, iv := range []due.Interval{
		{Calendar: due.ByCalendar{Every: 1200, Period: due.CalendarMonths}},
		{Calendar: due.ByCalendar{Every: 36525, Period: due.Days, Overrun: 36524}},
		{Calendar: due.ByCalendar{Every: 1, Period: due.Months, Overrun: 27}},
		{Hours: due.ByHours{Every: h("25"), Overrun: h("24.9")}},
		{Hours: due.ByHours{Every: quantity.Of("90", quantity.UnitMin), Overrun: quantity.Of("6", quantity.UnitMin)}},
	} {
		if err := iv.Check(); err != nil {
			t.Errorf("%+v: %v", iv, err)
		}
	}
	wantProblem(t, second(oilChange.Next(due.At{Hours: psi})), "done hours", "must be hours")
	wantProblem(t, second(oilChange.Next(at("-1", ""))), "done hours", "0 or more")
	wantProblem(t, second(oilChange.Next(due.At{Hours: quantity.Of("20", quantity.UnitMin)})), "done hours", "hours and a decimal")
	wantProblem(t, second(oilChange.Next(due.At{Day: 3})), "done day", "not in the calendar")
	wantProblem(t, second(oilChange.NextAfter(at("-1", ""), at("1", ""))), "due hours", "0 or more")
	wantProblem(t, second(annual.Next(at("", "9999-01-01"))), "every", "after the year 9999")
	wantProblem(t, second(oilChange.Next(at("999999999999999999", ""))), "every", "18 digits")

	next := must(oilChange.Next(at("513.1", "2025-04-05")))
	wantProblem(t, second(next.Judge(at("513.0", "2025-04-06"))), "present hours", "do not go back")
	wantProblem(t, second(next.Judge(at("514.0", "2025-04-04"))), "present day", "which is after 4 April 2025")
	wantProblem(t, second(next.Judge(at("-514.0", ""))), "present hours", "0 or more")
	if _, err := next.Judge(at("513.1", "2025-04-05")); err != nil {
		t.Errorf("judged where it was done: %v", err)
	}
	far := due.Due{Interval: hundredHour, Hours: h("999999999999999999")}
	wantProblem(t, second(far.Judge(at("1", ""))), "overrun", "18 digits")
	fine := due.Due{Interval: due.Interval{Hours: due.ByHours{Every: h("1")}}, Hours: h("999999999999999999")}
	wantProblem(t, second(fine.Judge(at("0.123456789012345678", ""))), "present hours", "18 digits")
}

// Later is never due earlier, and a longer interval is never due sooner.
func TestDueIsMonotone(t *testing.T) {
	t.Logf("seed %d", *seed)
	r := rand.New(rand.NewPCG(*seed, 0))
	tenths := func(n int) quantity.Measured {
		return quantity.Measured{Value: must(quantity.NewDecimal(int64(n), 1)), Unit: quantity.UnitH}
	}
	start := day("1995-01-01")
	for range 20_000 {
		iv := due.Interval{
			Hours:    due.ByHours{Every: tenths(1 + r.IntN(5000)), Carry: r.IntN(2) == 0},
			Calendar: due.ByCalendar{Every: 1 + r.IntN(60), Period: due.Period(1 + r.IntN(3)), Carry: r.IntN(2) == 0},
		}
		longer := iv
		longer.Hours.Every = must(quantity.Add(iv.Hours.Every, tenths(r.IntN(50))))
		longer.Calendar.Every += r.IntN(3)
		n, d := r.IntN(50_000), start.AddDays(r.IntN(20_000))
		was := due.At{Hours: tenths(r.IntN(50_000)), Day: start.AddDays(r.IntN(20_000))}
		early := due.At{Hours: tenths(n), Day: d}
		late := due.At{Hours: tenths(n + r.IntN(300)), Day: d.AddDays(r.IntN(90))}

		a, b, c := must(iv.NextAfter(was, early)), must(iv.NextAfter(was, late)), must(longer.NextAfter(was, early))
		if compare(a, b) > 0 || compare(a, c) > 0 {
			t.Fatalf("%+v done %v and %v: due %v, %v, longer %v", iv, early, late, a.At(), b.At(), c.At())
		}
		// Done from after it was due, a carried mark does not move.
		if iv.Hours.Carry && must(quantity.Compare(early.Hours, was.Hours)) >= 0 && a.Hours != b.Hours {
			t.Fatalf("%+v carried, and the mark moved from %v to %v", iv, a.Hours, b.Hours)
		}
		// As time goes on the state only gets graver.
		x, y := must(a.Judge(early)), must(a.Judge(late))
		if x.State > y.State || x.Calendar.State > y.Calendar.State || x.Hours.State > y.Hours.State {
			t.Fatalf("%+v: %v and later %v", a, x.State, y.State)
		}
	}
}

// compare is 1 if a is due after b on either line.
func compare(a, b due.Due) int {
	if a.Day > b.Day {
		return 1
	}
	return must(quantity.Compare(a.Hours, b.Hours))
}

// The demo's engines, DEMO figures all.
func TestDemoItems(t *testing.T) {
	plain := func(s string) string { return strings.ReplaceAll(s, "\u2009", " ") }
	// E1: cylinder 6 fitted at 1883.2, hold-downs again 5 h on, done at 1888.5.
	retorque := must(due.Interval{Hours: due.ByHours{Every: h("5")}}.Next(at("1883.2", "2025-10-25")))
	if got := plain(must(retorque.Judge(at("1888.5", "2025-11-16"))).Words()); got != "Late: 0.3 h past due at 1888.2 h." {
		t.Errorf("E1's second look at the hold-downs: %s", got)
	}
	// E2: the 25 h oil change put off to 31.0 h by the shop's word: a late item, shown as such.
	change := must(due.Interval{Hours: due.ByHours{Every: h("25")}}.Next(at("0.0", "2025-02-21")))
	if got := plain(must(change.Judge(at("31.0", "2025-07-06"))).Words()); got != "Late: 6.0 h past due at 25.0 h." {
		t.Errorf("E2's oil change: %s", got)
	}
	// E2 again: idle from 6 October to 9 November.
	if n := day("2025-11-09") - day("2025-10-06"); n != 34 {
		t.Errorf("E2 stood %d days", n)
	}
}

func TestMeters(t *testing.T) {
	// E2's total: 2164.8 when the new tachometer read 502.0. DEMO.
	e2 := due.Meters{Start: h("502.0"), Total: h("2164.8")}
	// The same by its old meter, which came out at 9871.3.
	through := due.Meters{Start: h("9800.0"), Total: h("2093.5"), Changes: []due.Change{{Out: h("9871.3"), In: h("502.0")}}}
	twice := due.Meters{Start: h("0"), Total: h("10.5"), Changes: []due.Change{
		{Out: h("100.2"), In: h("0.0")}, {Out: h("7.25"), In: h("3000")},
	}}
	for _, tt := range []struct {
		m                 due.Meters
		now, since, total string
	}{
		{e2, "551.7", "49.7", "2214.5"},
		{e2, "502.0", "0.0", "2164.8"},
		{through, "551.7", "121.0", "2214.5"},
		{through, "502.0", "71.3", "2164.8"},
		{twice, "3000.1", "107.55", "118.05"},
		{due.Meters{Start: h("1840.0")}, "1883.2", "43.2", ""}, // E1: what it ran is known, its total is not
	} {
		since, err1 := tt.m.Since(h(tt.now))
		total, err2 := tt.m.TotalAt(h(tt.now))
		if err1 != nil || err2 != nil || since != h(tt.since) || total != h(tt.total) {
			t.Errorf("%+v at %s: since %v (%v), total %v (%v)", tt.m, tt.now, since, err1, total, err2)
		}
	}
	if len(through.Changes) != 1 {
		t.Error("the changes were changed")
	}
	if o, err := through.Changes[0].Offset(); err != nil || o != h("9369.3") {
		t.Errorf("offset %v, %v", o, err)
	}
	if o, err := twice.Changes[1].Offset(); err != nil || o != h("-2992.75") {
		t.Errorf("offset to a used meter %v, %v", o, err)
	}
	if _, err := (due.Change{Out: h("3"), In: quantity.Of("4", quantity.UnitQt)}).Offset(); err == nil {
		t.Error("hours less quarts")
	}

	back := through
	back.Changes = []due.Change{{Out: h("9700.0"), In: h("502.0")}}
	wantProblem(t, second(back.Since(h("551.7"))), "change 1", "reads 9700.0")
	wantProblem(t, second(e2.Since(h("501.9"))), "present hours", "Was it changed?")
	wantProblem(t, second(e2.TotalAt(h("501.9"))), "present hours", "Was it changed?")
	wantProblem(t, second(e2.Since(h(""))), "present hours", "not given")
	wantProblem(t, second(due.Meters{}.Since(h("3"))), "present hours", "not given")
	wantProblem(t, second(due.Meters{Start: h("3"), Changes: []due.Change{{In: h("1")}}}.Since(h("3"))), "change 1", "not given")
	wantProblem(t, second(due.Meters{Start: h("-3")}.Since(h("3"))), "present hours", "0 or more")
	wantProblem(t, second(due.Meters{Start: h("3")}.Since(quantity.Of("4", quantity.UnitQt))), "present hours", "must be hours")
	wantProblem(t, second(due.Meters{Start: h("3"), Total: h("-1")}.TotalAt(h("4"))), "total hours", "0 or more")
	wantProblem(t, second(due.Meters{Start: h("3"), Total: h("999999999999999999")}.TotalAt(h("4"))), "total hours", "18 digits")
	wantProblem(t, second(due.Meters{Start: h("0.123456789012345678")}.Since(h("999999999999999999"))), "present hours", "18 digits")
}

func TestWorked(t *testing.T) {
	two := []due.Spell{{On: h("100.0"), Off: h("250.5")}, {On: h("12.0"), Off: h("19.9")}}
	gap := append([]due.Spell{{On: h("40.0")}}, two...)
	for _, tt := range []struct {
		before string
		spells []due.Spell
		want   string
		whole  bool
		words  string
	}{
		{"0", two, "158.4", true, "158.4 h"},
		{"96.4", two, "254.8", true, "254.8 h"},
		{"96.4", nil, "96.4", true, "96.4 h"},
		{"", two, "158.4", false, "at least 158.4 h; the rest is not known"},
		{"0", gap, "158.4", false, "at least 158.4 h; the rest is not known"},
		{"5", []due.Spell{{On: h("40.0"), Off: h("40.0")}, {On: h("40.0"), Off: h("40.2")}}, "5.2", true, "5.2 h"}, // on, off and on again
		{"0", []due.Spell{{Off: h("40.0")}}, "0", false, "at least 0 h; the rest is not known"},
		{"", nil, "0", false, "at least 0 h; the rest is not known"},
	} {
		got, err := due.Worked(h(tt.before), tt.spells)
		if err != nil || got.AtLeast != h(tt.want) || got.Whole != tt.whole || strings.ReplaceAll(got.Words(), "\u2009", " ") != tt.words {
			t.Errorf("%s and %v: %+v, %v", tt.before, tt.spells, got, err)
		}
	}
	wantProblem(t, second(due.Worked(h("-1"), nil)), "hours before", "0 or more")
	wantProblem(t, second(due.Worked(h("0"), []due.Spell{{}, {On: h("5"), Off: h("4")}})), "spell 2", "before it went on")
	wantProblem(t, second(due.Worked(h("0"), []due.Spell{{On: h("-5"), Off: h("4")}})), "spell 1", "0 or more")
	wantProblem(t, second(due.Worked(h("0"), []due.Spell{{On: h("5"), Off: h("-4")}})), "spell 1", "0 or more")
	wantProblem(t, second(due.Worked(h("0.1"), []due.Spell{{On: h("0"), Off: h("999999999999999999")}})), "spell 1", "18 digits")
}

func TestMeterHours(t *testing.T) {
	// E2's ground run: 34 minutes by the clock, 0.3 h of the meter. DEMO. 18/22 of it
	// at 1800 rpm on a meter made for 2200.
	if got := must(due.MeterHours(1, 1800, 2200)); got != quantity.Hours(1800.0/2200) {
		t.Errorf("an hour at 1800 is %v", got)
	}
	if got := must(due.MeterHours(2, 0, 2200)); got != 0 {
		t.Errorf("an hour standing is %v", got)
	}
	if got := must(due.MeterHours(0, 1800, 2200)); got != 0 {
		t.Errorf("no time is %v", got)
	}
	if got := must(due.MeterHours(0.5, 0.25, 0.5)); got != 0.25 {
		t.Errorf("half an hour at half the reference is %v", got)
	}
	inf := math.Inf(1)
	wantProblem(t, second(due.MeterHours(-1, 1, 1)), "clock hours", "0 or more")
	third := -1.0 / 3 // shown to as many places as a meter has
	wantProblem(t, second(due.MeterHours(quantity.Hours(third), 1, 1)), "clock hours", "is \u22120.33\u2009h.")
	wantProblem(t, second(due.MeterHours(1, quantity.Speed(2*third), 1)), "speed", "is \u22121\u2009rpm.")
	wantProblem(t, second(due.MeterHours(1, 1, quantity.Speed(2*third))), "reference speed", "is \u22121\u2009rpm. It must be more than 0")
	wantProblem(t, second(due.MeterHours(quantity.Hours(inf), 1, 1)), "clock hours", "0 or more")
	wantProblem(t, second(due.MeterHours(1, -1, 1)), "speed", "0 or more")
	wantProblem(t, second(due.MeterHours(1, quantity.Speed(inf), 1)), "speed", "0 or more")
	wantProblem(t, second(due.MeterHours(1, 1, 0)), "reference speed", "more than 0")
	wantProblem(t, second(due.MeterHours(1, 1, quantity.Speed(inf))), "reference speed", "more than 0")
}

func TestClock(t *testing.T) {
	for _, tt := range []struct{ v, want string }{
		{"1.5", "1:30"}, {"0", "0:00"}, {"0.1", "0:06"}, {"2.05", "2:03"}, {"3.7", "3:42"}, {"1.0167", "1:01.0"},
		{"0.01", "0:00.6"}, {"0.99", "0:59.4"}, {"0.9999", "1:00.0"}, {"10.00", "10:00"}, {"2164.8", "2164:48"}, {"-0.5", "\u22120:30"},
		{"-0.0001", "0:00.0"}, {"23.15", "23:09"}, {"0.65", "0:39"}, {"999999999999999999", "not known"},
	} {
		if got := due.Clock(h(tt.v)); got != tt.want {
			t.Errorf("%s h is %s, want %s", tt.v, got, tt.want)
		}
	}
	if got := due.Clock(quantity.Of("1", quantity.UnitMin)) + " " + due.Clock(quantity.Of("1", quantity.UnitQt)) + " " + due.Clock(quantity.Measured{}); got != "0:01 not known not known" {
		t.Error(got)
	}
	// Every whole minute of a day, there and back through what people type.
	for n := range 24 * 60 {
		typed := strconv.Itoa(n/60) + ":" + strconv.Itoa(n%60/10) + strconv.Itoa(n%10)
		r := must(quantity.Parse(typed, quantity.UnitH))
		if got := due.Clock(r.Measured); got != typed {
			t.Fatalf("%s came back as %s", typed, got)
		}
	}
}
