package book

import (
	"math"
	"strings"
	"testing"

	"linkrod/radial/quantity"
)

// The same tank logged in litres or imperial quarts leads to the same verdicts at
// the same hours, and every figure is shown in the unit the book is kept in.
func TestUnitsOfTheBook(t *testing.T) {
	quartsBook := engineFor(t, "0.60", "0.5", "20")
	quartsBook.take(file(t, "csv/series_a.csv"))
	want := Open(quartsBook.records)
	for _, c := range []struct {
		unit   quantity.Unit
		symbol string
		per    float64 // of it in one US quart: exact definitions, as in package quantity
	}{
		{quantity.UnitL, "L", 0.946352946},
		{quantity.UnitImpQt, "imp qt", 0.946352946 / 1.1365225},
	} {
		p := &phone{t: t, device: "aa"}
		in := func(q string) string {
			m, _, err := quantity.Of(q, quantity.UnitQt).Rounded(c.unit, 9)
			if err != nil {
				t.Fatal(err)
			}
			return `{"v":"` + m.Value.Text() + `","u":"` + string(c.unit) + `"}`
		}
		p.setting("oil_unit", `"`+string(c.unit)+`"`)
		p.setting("meter", `{"which":"tach","reading":{"v":"0.0","u":"h"}}`)
		p.setting("since", `{"v":"0.0","u":"h"}`)
		p.setting("stick_step", in("0.5"))
		p.setting("tank_capacity", in("20"))
		p.setting("ceiling", limit("0.60"))
		for _, l := range want.hours.readings {
			switch v := l.body.(type) {
			case *Oil:
				added := ""
				if v.poured() {
					added = `,"added":` + in(v.Added.Value.Text())
				}
				p.write("fact", `{"type":"oil","hours":{"v":"`+v.Hours.Value.Text()+`","u":"h"},"level":`+in(v.Level.Value.Text())+added+`,"minutes":{"v":"20","u":"min"},"stands":"level","scavenged":"yes"}`)
			case *Drain:
				p.write("fact", `{"type":"drain","hours":{"v":"`+v.Hours.Value.Text()+`","u":"h"},"level_before":`+in(v.LevelBefore.Value.Text())+`,"same":true,"minutes":{"v":"20","u":"min"},"stands":"level","scavenged":"yes"}`)
			}
		}
		b := Open(p.records)
		for i, a := range b.answers.all {
			w := want.answers.all[i]
			if a.Verdict != w.Verdict || math.Abs(float64(a.Now.Rate-w.Now.Rate)) > 1e-6 {
				t.Errorf("%s reading %d: %v %v, in quarts %v %v", c.unit, i, a.Verdict, a.Now.Rate, w.Verdict, w.Now.Rate)
			}
		}
		v := b.View("00", Now{})
		rate := float64(want.answers.last().Now.Rate) * c.per
		if v.Rate.Unit != c.symbol+"/h" || v.Rate.Figure != quantity.Figure(rate, 2) || v.Tank.Unit != c.symbol {
			t.Errorf("%s: shows %s %s, tank in %s; want %.2f %s/h", c.unit, v.Rate.Figure, v.Rate.Unit, v.Tank.Unit, rate, c.symbol)
		}
		last := v.Plot.Points[len(v.Plot.Points)-1]
		if math.Abs(*last.Rate-rate) > 1e-4 || math.Abs(*v.Plot.Ceiling-0.60*c.per) > 1e-4 {
			t.Errorf("%s: the plot shows %v under %v", c.unit, *last.Rate, *v.Plot.Ceiling)
		}
		if !strings.HasSuffix(v.Rate.Inverse[:strings.Index(v.Rate.Inverse, " (")], "h/"+c.symbol) {
			t.Errorf("%s: the other way round is %q", c.unit, v.Rate.Inverse)
		}
	}
}

// A line typed in litres in a book of quarts is kept as typed and reckoned as
// what it is: 1 qt is 0.946352946 L exactly.
func TestLineInAnotherUnit(t *testing.T) {
	p := engineFor(t, "", "0.5", "20")
	p.write("fact", `{"type":"oil","hours":{"v":"1.0","u":"h"},"level":{"v":"14.19529419","u":"l"}}`)
	b := Open(p.records)
	if q := float64(b.answers.all[0].reading.Level); math.Abs(q-15) > 1e-12 {
		t.Errorf("14.19529419 L is reckoned as %v qt, want 15", q)
	}
	if v := b.View("", Now{}); v.Tank.LevelText != "15" || v.Log[0].Fields[1].Value != "14.19529419 L" {
		t.Errorf("tank %q, field %q", v.Tank.LevelText, v.Log[0].Fields[1].Value)
	}
}

// Hours per quart, worked by hand.
func TestTheOtherWayRound(t *testing.T) {
	p := engineFor(t, "0.60", "0.5", "20")
	p.take(file(t, "csv/series_a.csv"))
	v := Open(p.records).View("", Now{}) // 0.413 (0.327 to 0.502), oil-rate.md section 9
	if v.Rate.Figure != "0.41" || v.Rate.Band != "0.33 to 0.50" || v.Rate.Inverse != "2.4 h/qt (2 to 3.1)" {
		t.Errorf("%s (%s), %s", v.Rate.Figure, v.Rate.Band, v.Rate.Inverse)
	}
	if v.Rate.Line != "0.41 (0.33 to 0.50) qt/h now, from 21 readings over 39 h; level; under the shop's 0.60" {
		t.Errorf("the line is %q", v.Rate.Line)
	}
}

// Without hours since the overhaul there is a rate and no verdict on bedding in;
// without a ceiling nothing leans on one. Both say so.
func TestWhatIsNotOnFileIsSaid(t *testing.T) {
	p := &phone{t: t, device: "aa"}
	p.write("fact", `{"type":"engine"}`)
	p.setting("oil_unit", `"qt"`)
	p.setting("since", `{"unknown":true}`)
	p.take(file(t, "csv/series_a.csv"))
	v := Open(p.records).View("", Now{})
	if v.Rate.Code != "rate only" || v.Rate.Verdict.Chip != Cant || !v.Rate.Has || v.Since != "hours not known" || v.Plot.HoursMean != "hours on this log" {
		t.Errorf("no hours: %+v, %q", v.Rate.Verdict, v.Since)
	}
	if v.Rate.None != noLimit {
		t.Errorf("no ceiling: %q", v.Rate.None)
	}
	q := engineFor(t, "", "0.5", "20")
	q.take(file(t, "csv/series_a.csv"))
	v = Open(q.records).View("", Now{})
	if v.Rate.Code != "seated" || v.Rate.Verdict.Chip != Cant || v.Rate.Verdict.Word != "Levelled off" ||
		!strings.HasPrefix(v.Rate.Verdict.Reason, "Levelled off: ") || !strings.HasSuffix(v.Rate.Verdict.Reason, ", no limit on file.") {
		t.Errorf("no ceiling: %+v", v.Rate.Verdict)
	}
	for _, c := range v.Settings {
		if c.Field == "ceiling" && (c.Value != noLimit || c.Given) {
			t.Errorf("the ceiling shows %+v", c)
		}
	}
}
