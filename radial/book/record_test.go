package book

import (
	"strings"
	"testing"

	"linkrod/sync/plain"
)

// seven is a book of a seven-cylinder engine with its master rod in 1.
func seven(t *testing.T) *phone {
	p := &phone{t: t, device: "aa"}
	p.write("fact", `{"type":"engine"}`)
	for _, s := range []string{`"cylinders","value":"7"`, `"master","value":"1"`, `"bore","value":{"v":"5.375","u":"in"}`} {
		p.write("fact", `{"type":"setting","field":`+s+`,"day":"2025-01-01"}`)
	}
	return p
}

func (p *phone) fact(kind, hours, day, more string) Key {
	p.t.Helper()
	return p.write("fact", `{"type":"`+kind+`",`+more+`,"hours":{"v":"`+hours+`","u":"h"},"day":"`+day+`","by":"Ann"}`)
}

func set(how, values string) string {
	return `"out_of":{"v":"80","u":"psi"},` + how + `,"values":{"u":"psi","at":{` + values + `}}`
}

const hot60 = `"orifice":{"v":"0.060","u":"in"},"warm":"hot"`

func trendWords(b *Book) (all string) {
	for _, t := range b.trends() {
		all += t.Words + "\n"
	}
	return all
}

// A cylinder is compared with itself, on checks taken alike; where they were not, it says why.
// A fall of 5 psi is what draws the eye (common practice, no source; compression.Usual).
func TestTrends(t *testing.T) {
	p := seven(t)
	p.fact("compression", "10", "2025-01-02", set(hot60, `"1":"76","6":"70"`))
	p.fact("compression", "20", "2025-02-02", set(hot60, `"1":"75","6":"66"`))
	if got := trendWords(Open(p.records)); got != "" {
		t.Errorf("a fall of 4: %s", got)
	}
	p.fact("compression", "30", "2025-03-02", set(hot60, `"1":"75","6":"61"`))
	wants(t, "a fall of 5", trendWords(Open(p.records)), "Cylinder 6: ", "down from 66")
	p.fact("compression", "30", "2025-03-02", set(hot60+`,"after":"run"`, `"6":"63"`))
	wants(t, "after a run", trendWords(Open(p.records)), "After a run of twenty minutes it read 63 psi.")
	// Another cylinder in that place begins again.
	fitted := append([]Record(nil), p.records...)
	q := &phone{t: t, device: "aa", n: p.n, records: fitted}
	q.fact("cylinder_fitted", "30", "2025-03-09", `"cyl":"6","serial":"X"`)
	q.fact("compression", "35", "2025-04-02", set(hot60, `"1":"75","6":"60"`))
	if got := trendWords(Open(q.records)); strings.Contains(got, "Cylinder 6") {
		t.Errorf("another cylinder: %s", got)
	}
	// Cold against hot, a wrong orifice: not compared, with the reason.
	p.fact("compression", "40", "2025-05-02", set(`"orifice":{"v":"0.060","u":"in"},"warm":"cold"`, `"1":"60","6":"40"`))
	got := trendWords(Open(p.records))
	wants(t, "cold", got, "The last two compression sets are not compared: one was hot and one cold.")
	if strings.Contains(got, "Cylinder 1") {
		t.Errorf("compared all the same: %s", got)
	}

	p = seven(t)
	p.fact("clearances", "10", "2025-01-02", `"cold":"yes","method":"compression","left":{"u":"thou","at":{"6e":"12","2i":"10"}}`)
	p.fact("clearances", "35", "2025-02-02", `"cold":"yes","method":"compression","found":{"u":"thou","at":{"6e":"6","2i":"15"}}`)
	got = trendWords(Open(p.records))
	wants(t, "closing", got, "Cylinder 6 exhaust, 12 thou left and 6 thou found, 6 thou closed: a seat that gives way. Find the cause.")
	if strings.Contains(got, "Cylinder 2") { // 5 thou is not more than 5 thou
		t.Errorf("%s", got)
	}
	p.fact("clearances", "60", "2025-03-02", `"cold":"no","method":"compression","found":{"u":"thou","at":{"6e":"20"}}`)
	wants(t, "warm", trendWords(Open(p.records)), "Cylinder 6 exhaust is not compared: taken by another method, or not both cold.")

	p = seven(t)
	p.fact("overnight", "10", "2025-01-02", `"lasted":{"v":"24","u":"h"},"lost":{"v":"0.25","u":"qt"}`)
	p.fact("overnight", "20", "2025-02-02", `"lasted":{"v":"48","u":"h"},"lost":{"v":"1","u":"qt"}`)
	wants(t, "loss", trendWords(Open(p.records)), "Loss while standing rises: 0.25 qt a day before, 0.5 now. Look at the check valve.")
}

// The ring by each measure says the same of a cylinder in its head and aloud, and a value that
// nobody gave is a dash and never nought.
func TestRingByMeasure(t *testing.T) {
	b, _ := demoAt(t, "e1", "2025-03-09")
	for _, c := range []struct{ measure, head4, head6, said string }{
		{"", "73", "66", "Cylinder 6, 66 over 80, this engine is a mixed build."},
		{"clearances", "10/10", "6/2", "Cylinder 6, inlet 6, can't judge, exhaust 2, can't judge"},
		{"hours", "–", "–", "Cylinder 6, at least 2.1 h"},
		{"drained", "1.0", "–", "Cylinder 4, 1.0 fluid ounces ran out"},
		{"plugs", "–", "–", "Cylinder 6, not known"},
		{"findings", "–", "1", "Cylinder 6, 1 open finding, exhaust valve of cylinder 6 is closing"},
	} {
		r := b.Ring(c.measure, Now{})
		if len(r.Heads) != 7 || r.Heads[3].Text != c.head4 || r.Heads[5].Text != c.head6 {
			t.Errorf("%s: 4 is %q, 6 is %q", c.measure, r.Heads[3].Text, r.Heads[5].Text)
		}
		all := ""
		for i, h := range r.Heads {
			all += h.Spoken + "\n"
			if h.K != i+1 || h.Text == "0" || h.Text == "" {
				t.Errorf("%s: head %+v", c.measure, h)
			}
		}
		wants(t, c.measure, all, c.said)
	}
	// On a position of a ring of known cylinders the hours are its own: 0 when fitted new.
	b, _ = demo(t, "e2")
	if r := b.Ring("hours", Now{}); r.Heads[4].Text != "39.6" {
		t.Errorf("cylinder 5 has %s", r.Heads[4].Text)
	}
}

// A cylinder's story goes with its serial number, over the engines on the phone.
func TestCylinderAcrossEngines(t *testing.T) {
	p := seven(t)
	p.setting("name", `"OLD"`)
	p.fact("cylinder_fitted", "100", "2020-01-02", `"cyl":"2","serial":"FS-0633","state":"new","past":{"v":"0.0","u":"h"}`)
	p.fact("cylinder_removed", "180.5", "2022-01-02", `"cyl":"2","serial":"FS-0633","why":"engine sold"`)
	p.fact("run", "190", "2022-02-02", `"minutes":{"v":"10","u":"min"}`)
	old := Open(p.records)
	q := seven(t)
	q.setting("name", `"NEW"`)
	q.fact("cylinder_fitted", "1883.2", "2025-10-25", `"cyl":"6","serial":"FS-0633","past":{"v":"80.5","u":"h"}`)
	q.fact("run", "1888.5", "2025-11-16", `"minutes":{"v":"10","u":"min"}`)
	var w plain.Writer
	Open(q.records).WriteCylinder(&w, 6, Now{}, []*Book{old})
	wants(t, "its story", strings.ReplaceAll(string(w.Bytes()), "\u2009", " "),
		`"serial":"FS-0633","hours":"85.8 h"`, // 80.5 + (1888.5 − 1883.2)
		`{"serial":"FS-0633","engine":"NEW","cyl":6,"from":"25 October 2025, 1883.2 h","to":"still there"}`,
		`{"serial":"FS-0633","engine":"OLD","cyl":2,"from":"2 January 2020, 100 h","to":"2 January 2022, 180.5 h"}`)
	// Nothing is in a place a cylinder came out of.
	if on := old.onCylinder(2); on.hours.Given() || on.serial != "" {
		t.Errorf("position 2: %+v", on)
	}
}

// The log in stretches, by kind, by cylinder and by words.
func TestPageOfTheLog(t *testing.T) {
	b, f := demo(t, "e1")
	all, total := b.Page(Filter{}, 0, 1000)
	if len(all) != len(f.Entries) || total != len(all) {
		t.Errorf("%d of %d", len(all), total)
	}
	if some, n := b.Page(Filter{}, 10, 5); n != total || len(some) != 5 || some[0].Key != all[10].Key {
		t.Errorf("a stretch: %d of %d", len(some), n)
	}
	for _, l := range mustPage(b, Filter{Kinds: []string{"compression", "clearances"}}) {
		if l.Kind != "compression" && l.Kind != "clearances" {
			t.Errorf("%s", l.Kind)
		}
	}
	if got := mustPage(b, Filter{Cyl: 6}); len(got) < 8 {
		t.Errorf("%d lines about cylinder 6", len(got))
	}
	for _, l := range mustPage(b, Filter{Text: "LITRES"}) {
		if !strings.Contains(l.Words, "litres") {
			t.Errorf("%s", l.Words)
		}
	}
	// What was struck out stays readable and says so.
	struck := 0
	for _, l := range all {
		if l.Struck != "" {
			struck++
		}
	}
	if struck != 1 {
		t.Errorf("%d struck lines", struck)
	}
}

func mustPage(b *Book, f Filter) []LogLine {
	lines, n := b.Page(f, 0, 1000)
	if len(lines) != n || n == 0 {
		panic("book: an empty page")
	}
	return lines
}

// Each rule of the next step fires where it should, before those after it, and says why.
func TestRulesOfARecord(t *testing.T) {
	for _, c := range []struct {
		id, title string
		write     func(p *phone)
	}{
		{"stopped", "Stopped. Do not turn the propeller", func(p *phone) {
			p.fact("finding", "10", "2025-01-02", `"words":"x","grave":"stop"`)
			p.fact("pull_through", "10", "2025-01-02", `"blades":"3","feel":"firm"`)
		}},
		{"finding-stop", "Nothing turns it before this is looked at", func(p *phone) {
			p.fact("screen", "10", "2025-01-02", `"where":"sump","count":{"at":{"granule":"2"}}`)
			p.fact("finding", "10", "2025-01-02", `"words":"crack at a lug","grave":"stop"`)
		}},
		{"metal", "Show the metal to a mechanic", func(p *phone) {
			p.fact("screen", "10", "2025-01-02", `"where":"sump","count":{"at":{"granule":"2"}}`)
			p.fact("finding", "10", "2025-01-02", `"words":"x","grave":"before"`)
		}},
		{"metal", "Wait for the answer on the metal", func(p *phone) {
			p.fact("screen", "10", "2025-01-02", `"where":"sump","count":{"at":{"flake":"2"}},"asked":"Fellside"`)
		}},
		{"finding-before", "Before the next flight", func(p *phone) {
			p.fact("finding", "10", "2025-01-02", `"words":"P-lead strand","grave":"before"`)
			p.fact("inspection", "10", "2025-01-02", `"run":"w","act":"interrupted","item":"screens","of":"25 h"`)
		}},
		{"interrupted", "Take the job up again", func(p *phone) {
			p.fact("inspection", "10", "2025-01-02", `"run":"w","act":"interrupted","item":"screens","of":"25 h"`)
			p.fact("directive", "10", "2025-01-01", `"number":"D 1","words":"look","applies":"yes","evidence":"none yet","next_d":"2025-01-02"`)
		}},
		{"late", "D 1, look", func(p *phone) {
			p.fact("directive", "10", "2025-01-01", `"number":"D 1","words":"look","applies":"yes","evidence":"none yet","next_d":"2025-01-02"`)
		}},
		{"due", "D 1, look", func(p *phone) {
			p.fact("directive", "10", "2025-01-01", `"number":"D 1","words":"look","applies":"yes","evidence":"none yet","next_d":"2025-01-03"`)
		}},
	} {
		p := seven(t)
		p.oil("10", "12", "", `"day":"2025-01-02"`)
		c.write(p)
		v := Open(p.records).View("", Now{Day: "2025-01-03"})
		var why string
		for _, r := range rules {
			if r.id == c.id {
				why = r.why
			}
		}
		if v.Next.Title != c.title || len(v.Next.Why) == 0 || v.Next.Why[0] != why || why == "" || v.Next.Go == "" {
			t.Errorf("%s: %+v", c.id, v.Next)
		}
	}
	// Every rule has its own name and its reason, and none says that anything is in order.
	seen := map[string]bool{}
	for _, r := range rules {
		if seen[r.id] || len(r.why) < 20 || strings.Contains(r.why, "in order") {
			t.Errorf("rule %s: %q", r.id, r.why)
		}
		seen[r.id] = true
	}
}

// What is due by the check card: from the last time it was done, whichever entry did it, late
// first.
func TestDueByTheCheckCard(t *testing.T) {
	b, f := demo(t, "e2")
	laid(t, b)
	v := b.View(f.Book, Now{})
	got := ""
	for _, i := range v.Due {
		got += strings.ReplaceAll(i.Title+" | "+i.Words+" | "+i.Why, "\u2009", " ") + "\n"
		if i.Why == "From the check card" && i.Source == nil {
			t.Errorf("%s has no source", i.Title)
		}
	}
	// Oil changed at 533.0 h on 6 July: 25 h or 4 months, so 6 November, three days ago.
	wants(t, "due", got, "Oil drained from both sump plugs | Late: 3 days past due on 6 November 2025.")
	for i := 1; i < len(v.Due); i++ {
		if rankDue(v.Due[i].State) < rankDue(v.Due[i-1].State) {
			t.Errorf("%s stands before %s", v.Due[i-1].Title, v.Due[i].Title)
		}
	}
}
