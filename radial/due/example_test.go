package due_test

import (
	"fmt"

	"linkrod/radial/civil"
	"linkrod/radial/due"
	"linkrod/radial/quantity"
)

// The engines of the examples are invented.

func hours(text string) quantity.Measured { return quantity.Of(text, quantity.UnitH) }

func ExampleDue_Judge() {
	oil := due.Interval{
		Hours:    due.ByHours{Every: hours("25")},
		Calendar: due.ByCalendar{Every: 4, Period: due.Months},
	}
	changed, _ := civil.Parse("2025-10-31")
	today, _ := civil.Parse("2026-01-20")
	next, _ := oil.Next(due.At{Hours: hours("541.6"), Day: changed})
	s, _ := next.Judge(due.At{Hours: hours("549.2"), Day: today})
	fmt.Println(s.Words())
	// Output: Due at 566.6 h or on 28 February 2026, whichever comes first: in 17.4 h or in 39 days.
}

// Four hours were flown to get to where the inspection could be done. They come off the
// next hundred.
func ExampleInterval_NextAfter() {
	hundred := due.Interval{Hours: due.ByHours{Every: hours("100"), Overrun: hours("10"), Carry: true}}
	was, _ := hundred.Next(due.At{Hours: hours("1000.0")})
	done := due.At{Hours: hours("1104.0")}
	how, _ := was.Judge(done)
	next, _ := hundred.NextAfter(was.At(), done)
	left, _ := next.Judge(done)
	fmt.Println(how.Words())
	fmt.Println(left.Words())
	// Output:
	// 4.0 h past due at 1100.0 h, inside the 10 h its card allows.
	// Due at 1200.0 h, in 96.0 h.
}

// The tachometer was changed when it read 9871.3, for one that read 502.0.
func ExampleMeters_TotalAt() {
	m := due.Meters{
		Start: hours("9800.0"), Total: hours("2093.5"),
		Changes: []due.Change{{Out: hours("9871.3"), In: hours("502.0")}},
	}
	total, _ := m.TotalAt(hours("551.7"))
	m.Total = quantity.Measured{} // nobody knows
	since, _ := m.Since(hours("551.7"))
	unknown, _ := m.TotalAt(hours("551.7"))
	fmt.Printf("The meter reads 551.7: %s in all. Had nobody known the total: %s, and %s since the records begin.\n",
		total.Show(), unknown.Show(), since.Show())
	// Output: The meter reads 551.7: 2214.5 h in all. Had nobody known the total: not given, and 121.0 h since the records begin.
}

func ExampleWorked() {
	cylinder, _ := due.Worked(quantity.Measured{}, []due.Spell{
		{On: hours("1131.2"), Off: hours("1161.2")},
		{On: hours("1161.2"), Off: hours("1196.2")},
	})
	fmt.Println("Cylinder 5 has", cylinder.Words()+".")
	// Output: Cylinder 5 has at least 65.0 h; the rest is not known.
}

func ExampleMeterHours() {
	h, _ := due.MeterHours(34*quantity.Minute, 1165, 2200)
	fmt.Printf("34 minutes of ground running at 1165 rpm are %.1f h on a meter made for 2200.\n", h.Hours())
	// Output: 34 minutes of ground running at 1165 rpm are 0.3 h on a meter made for 2200.
}
