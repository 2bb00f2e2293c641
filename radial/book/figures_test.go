package book

import (
	"math"
	"strings"
	"testing"

	"linkrod/radial/oil"
)

// The table beside the plot, worked by hand: 16 and 15 qt 4 h apart are 0.25 qt/h, 13
// before 2 were added and 14.5 after 2 h more the same.
func TestTableRows(t *testing.T) {
	p := engineFor(t, "", "0.5", "20")
	p.stop("0.0", "16", "", "2025-05-01")
	p.stop("4.0", "15", "0", "2025-05-02")
	p.stop("12.0", "13", "2", "2025-05-03")
	p.stop("14.0", "14.5", "", "2025-05-04")
	v := Open(p.records).View("", Now{Day: "2025-05-04"})
	want := []string{
		"0 | 0.0 | 1 May 2025 | 16 | – | –",
		"4 | 4.0 | 2 May 2025 | 15 | – | 0.25",
		"12 | 12.0 | 3 May 2025 | 13 | 2 | 0.25",
		"14 | 14.0 | 4 May 2025 | 14.5 | – | 0.25",
	}
	for i, row := range v.Table {
		if got := strings.Join(row.Cells[:6], " | "); got != want[i] {
			t.Errorf("row %d is %q, want %q", i, got, want[i])
		}
	}
	for i, said := range map[int]string{
		1: "Since the last reading: 1 qt in 4 hours = 0.25 qt/h. Noise, never judged.",
		2: "Since the last reading: 2 qt in 8 hours = 0.25 qt/h. Noise, never judged.",
		3: "Since the last reading: 0.5 qt in 2 hours = 0.25 qt/h. Noise, never judged.",
	} {
		if s := v.Table[i].Sum; s == nil || s.Lines[0] != said {
			t.Errorf("row %d: %+v, want %q", i, s, said)
		}
	}
	// The rate and its band are shown from the third reading and three hours on, and not
	// beside a line that is not used.
	p.stop("15.0", "30", "", "2025-05-05") // above the tank
	v = Open(p.records).View("", Now{Day: "2025-05-04"})
	for i, shown := range []bool{false, false, true, true, false} {
		rate, band := v.Table[i].Cells[6], v.Table[i].Cells[7]
		if (rate != "–") != shown || strings.Contains(band, " to ") != shown {
			t.Errorf("row %d: rate %q, band %q", i, rate, band)
		}
	}
	p.records = p.records[:len(p.records)-1]
	p.n--
	// In litres every figure has two places at most.
	p.setting("oil_unit", `"l"`, Key{"aa", 2})
	v = Open(p.records).View("", Now{Day: "2025-05-04"})
	if got := strings.Join(v.Table[2].Cells[:6], " | "); got != "12 | 12.0 | 3 May 2025 | 12.3 | 1.89 | 0.24" {
		t.Errorf("in litres the row is %q", got)
	}
	if got := v.Table[2].Sum.Lines[0]; got != "Since the last reading: 1.89 L in 8 hours = 0.24 L/h. Noise, never judged." {
		t.Errorf("in litres: %q", got)
	}
	for _, pt := range v.Plot.Points {
		for _, f := range []*float64{pt.Raw, pt.Rate, pt.Lo, pt.Hi} {
			if f != nil && *f != math.Round(*f*1e4)/1e4 {
				t.Errorf("drawn with more than four places: %v", *f)
			}
		}
	}
}

// The bar of oil gone overnight: to the next whole unit and two at least where nothing is
// on file; four thirds of the stop, or all that is gone, to the next half, where it is.
func TestGoneOverNight(t *testing.T) {
	for _, c := range []struct {
		look, stop, level string
		at, most          float64
		pointer, marks    string
	}{
		{"", "", "14.5", 0.5, 2, "0.5 qt", ""},
		{"", "", "12.5", 2.5, 3, "2.5 qt", ""},
		{"", "", "15.25", 0, 2, "-0.25 qt", ""},
		{"0.5", "1.5", "14.5", 0.5, 2, "0.5 qt", "0.5 look, 1.5 stop"},
		{"0.5", "1.6", "14.5", 0.5, 2.5, "0.5 qt", "0.5 look, 1.6 stop"},
		{"0.5", "1.5", "12.25", 2.75, 3, "2.75 qt", "0.5 look, 1.5 stop"},
	} {
		p := engineFor(t, "", "0.25", "20")
		if c.look != "" {
			p.overnight(c.look, c.stop)
		}
		p.stop("10.0", "15", "", "2025-05-01")
		p.oil("10.0", c.level, "", `"day":"2025-05-02"`)
		m := Open(p.records).View("", Now{Day: "2025-05-02"}).Missing
		if m == nil {
			t.Errorf("%+v: nothing is said", c)
			continue
		}
		var marks []string
		for _, k := range m.Line.Marks {
			marks = append(marks, k.Label+" "+k.Word)
		}
		pointer := strings.ReplaceAll(m.Line.Pointer, "\u2212", "-")
		if *m.Line.At != c.at || m.Line.Max != c.most || pointer != c.pointer || strings.Join(marks, ", ") != c.marks {
			t.Errorf("%+v: at %v of %v, %q, %v", c, *m.Line.At, m.Line.Max, pointer, marks)
		}
	}
	// A look met exactly in litres is met, and its mark has two places.
	p := engineFor(t, "", "0.25", "20")
	p.overnight("0.7", "1.5")
	p.setting("oil_unit", `"l"`, Key{"aa", 2})
	p.stop("10.0", "15", "", "2025-05-01")
	p.oil("10.0", "14.3", "", `"day":"2025-05-02"`)
	m := Open(p.records).View("", Now{Day: "2025-05-02"}).Missing
	if m == nil || m.Verdict.Chip != AtEdge || m.Line.Marks[0].Label != "0.66" || m.Line.Pointer != "0.66 L" {
		t.Errorf("%+v", m)
	}
}

func TestHoursWords(t *testing.T) {
	var sum oil.Hours
	for range 3 {
		sum += 0.1 // 0.30000000000000004
	}
	for h, want := range map[oil.Hours]string{sum: "0.3 hours", 1: "1 hour", 1.04: "1 hour", 1.1: "1.1 hours", 0: "0 hours"} {
		if got := hoursWords(h); got != want {
			t.Errorf("%v is %q, want %q", float64(h), got, want)
		}
	}
}

// Hours to the quart: tenths under ten hours, whole ones from ten on, and no end where
// the rate may be nothing.
func TestHoursPerQuart(t *testing.T) {
	for _, c := range []struct {
		b    oil.Band
		want string
	}{
		{oil.Band{Rate: 0.41, Lo: 0.33, Hi: 0.5}, "2.4 h/qt (2 to 3)"},
		{oil.Band{Rate: 0.1, Lo: 0.04, Hi: 0.16}, "10 h/qt (6.3 to 25)"},
		{oil.Band{Rate: 0.07, Lo: 0.001, Hi: 0.13}, "14 h/qt (7.7 to 1000)"},
		{oil.Band{Rate: 0.03, Lo: 0.0009, Hi: 0.08}, "more than 13 h/qt"},
		{oil.Band{Rate: 0.0005, Lo: 0, Hi: 0.001}, "more than 1000 h/qt"},
		{oil.Band{Rate: 0.0003, Lo: 0, Hi: 0.0009}, "more than 1000 h/qt"},
	} {
		if got := strings.ReplaceAll(hoursPer(c.b, oil.USQuart), "\u2009", ""); got != c.want {
			t.Errorf("%+v is %q, want %q", c.b, got, c.want)
		}
	}
	// 0.25 qt/h is 0.2366 L/h, and a litre lasts 4.2 h.
	if got := hoursPer(oil.Band{Rate: 0.25, Lo: 0.2, Hi: 0.3}, oil.Litre); got != "4.2 h/L (3.5 to 5.3)" {
		t.Errorf("in litres %q", got)
	}
}

// The summary under the plot tells the first rate there was and the last.
func TestPlotSummary(t *testing.T) {
	p := engineFor(t, "0.60", "0.5", "20")
	if got := Open(p.records).View("", Now{}).Plot.Summary; got != "No reading yet. The rate is drawn here over the engine's hours." {
		t.Errorf("nothing written: %q", got)
	}
	rows := strings.SplitAfter(file(t, "csv/series_a.csv"), "\n")
	p.take(strings.Join(rows[:6], "")) // to 4.2 h: the first rate and the last are one
	b := Open(p.records)
	if got := b.View("", Now{}).Plot.Summary; strings.Contains(got, "first rate") || !strings.HasPrefix(got, "5 readings over 4.2 hours. ") {
		t.Errorf("one rate: %q", got)
	}
	first := figure2(float64(b.answers.last().Now.Rate))
	p = engineFor(t, "0.60", "0.5", "20")
	p.take(strings.Join(rows, ""))
	got := Open(p.records).View("", Now{}).Plot.Summary
	if want := " over 39 hours. The first rate, at 4.2 hours, was " + first + ". 0.41 (0.33 to 0.50) qt/h now"; !strings.Contains(got, want) {
		t.Errorf("%q does not say %q", got, want)
	}
}
