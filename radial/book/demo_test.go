package book

import (
	"os"
	"strings"
	"testing"
)

// demo opens a demo engine of testdata/demo.
func demo(t testing.TB, name string) (*Book, Fixture) {
	t.Helper()
	data, err := os.ReadFile("../../testdata/demo/" + name + ".json")
	if err != nil {
		t.Fatal(err)
	}
	f, err := ReadFixture(data)
	if err != nil {
		t.Fatal(err)
	}
	b := Open(f.Records())
	for _, l := range b.lines {
		if l.err != nil {
			t.Errorf("%s entry %d: %v", name, l.key.N, l.err)
		}
	}
	return b, f
}

// demoAt is a demo engine as it was on a day: what was written by then, told on that day.
func demoAt(t testing.TB, name, day string) (*Book, Fixture) {
	t.Helper()
	all := Fixture{}
	for _, file := range []string{name, "next/" + name} {
		data, err := os.ReadFile("../../testdata/demo/" + file + ".json")
		if err != nil {
			t.Fatal(err)
		}
		f, err := ReadFixture(data)
		if err != nil {
			t.Fatal(err)
		}
		all.Book = f.Book
		all.Entries = append(all.Entries, f.Entries...)
	}
	for i, e := range all.Entries {
		body, err := Decode(e.Body)
		if err != nil {
			t.Fatalf("%s entry %d: %v", name, i+1, err)
		}
		if _, ok := body.(*Opened); ok && i > 0 || stampOf(&line{body: body}).Day > day {
			all.Entries[i].Body, all.Entries[i].Kind = []byte(`{"type":"note","text":"not written yet"}`), "fact"
		}
	}
	all.Entries[0].Body = Encode(&Opened{Demo: true, Today: Now{day, "18:00"}})
	b := Open(all.Records())
	laid(t, b)
	return b, all
}

// What the demo engines say on the day they are told on. The facts are the demo
// scenario's (invented); the rate and its verdict are held to oil-rate.md by
// csv_test.go.
func TestDemoEngines(t *testing.T) {
	for _, c := range []struct {
		name string
		want map[string]string
	}{
		{"e2", map[string]string{
			"name": "B-0711", "model": "T7-B", "since": "SMOH 39.6 h",
			"headline": "34 days standing",
			"sub":      "Last run 6 October, by its meter. Tank read 15 qt then, 14 qt today.",
			"state":    "34 days standing. 1 qt has left the tank", "state chip": "atedge",
			"missing": "1 qt has left the tank", "missing verdict": "atedge At edge Look from 0.5 qt, stop above 1.5 qt.",
			"missing mark": "0.5 look, 1.5 stop", "missing source": "Fellside sheet T7-B, page 2, rev. C",
			"next":  "Pull it through by hand | 8 blades, before anything else turns it | before-turning",
			"heads": "76 77 76 77 75 76 77", "caption": "Compression /80, 8 June",
			"low":    "3 4 5 6 hang low, oil can pool there",
			"spoken": "Engine ring, 7 cylinders, seen from the cockpit, number 1 at the top, numbers run clockwise. Master rod in 1.",
			"head 5": "Cylinder 5, 75 over 80, inside, look below 65 psi, oil can pool here, mirror of 4",
			"tank":   "14 of 16/9 in 20", "before": "15",
			"rate": "seated inside Seated", "ceiling": "0.60 qt/h",
			"last": "541.6 14 tail 20",
		}},
		{"e3 2025-06-29", map[string]string{
			"name": "C-2079", "since": "30 h since the ring job",
			"headline":   "Not seating",
			"state chip": "outside",
			"next":       "Call the shop before flying more | The words to read are ready | call",
			"low":        "4 5 6 7 hang low, oil can pool there",
			"heads":      "68 66 70 67 64 65 69 70 71", "caption": "Compression /80, 29 June",
			"head 3": "Cylinder 3, 70 over 80, inside, look below 65 psi, mirror of 7",
			"rate":   "not seating outside Not seating", "ceiling": "0.70 qt/h",
			"tank": "18 of 18/11 in 24",
		}},
		{"e1 2025-03-09", map[string]string{
			"headline": "22 days standing",
			"missing":  "1.5 qt has left the tank. 29.5 of 48 fl oz found. 18.5 not found yet", "missing verdict": "cant Can't judge No limit on file. Add the page it stands on.",
			"next":  "Pull it through by hand | Before anything else turns it. No card on file says how many blades | before-turning",
			"heads": "72 74 70 73 69 66 75", "ceiling": "", "none": "No limit on file",
		}},
	} {
		name, day, past := strings.Cut(c.name, " ")
		b, f := demo(t, name)
		if past {
			b, f = demoAt(t, name, day)
		}
		// A demo engine is told on its own day, whatever the phone says.
		v := b.View(f.Book, Now{Day: "2031-01-01", Clock: "09:00"})
		if !v.Demo {
			t.Errorf("%s does not say DEMO", c.name)
		}
		got := map[string]string{
			"name": v.Name, "model": v.Model, "since": v.Since, "headline": v.Headline, "sub": v.Sub, "state": v.State,
			"next": v.Next.Title + " | " + v.Next.Detail + " | " + v.Next.Go, "caption": v.Ring.Caption, "low": v.Ring.Low, "spoken": v.Ring.Spoken,
			"tank": v.Tank.LevelText + " of " + figure(*v.Tank.Full, 2) + "/" + figure(*v.Tank.Min, 2) + " in " + figure(*v.Tank.Capacity, 2), "before": v.Tank.BeforeText,
			"rate": v.Rate.Code + " " + string(v.Rate.Verdict.Chip) + " " + v.Rate.Verdict.Word, "ceiling": v.Rate.CeilingText, "none": v.Rate.None,
			"last": v.Last.Hours + " " + v.Last.Level + " " + v.Last.Stands + " " + v.Last.Minutes,
		}
		if v.StateChip != nil {
			got["state chip"] = string(*v.StateChip)
		}
		for i, h := range v.Ring.Heads {
			got["heads"] += " " + h.Text
			got["head "+itoa(i+1)] = h.Spoken
		}
		got["heads"] = strings.TrimSpace(got["heads"])
		if m := v.Missing; m != nil {
			got["missing"] = m.Words
			got["missing verdict"] = string(m.Verdict.Chip) + " " + m.Verdict.Word + " " + m.Verdict.Reason
			if m.Line.Source != nil {
				got["missing source"] = m.Line.Source.Line
			}
			var marks []string
			for _, k := range m.Line.Marks {
				marks = append(marks, k.Label+" "+k.Word)
			}
			got["missing mark"] = strings.Join(marks, ", ")
		}
		for field, want := range c.want {
			if got[field] != want {
				t.Errorf("%s: %s is %q, want %q", c.name, field, got[field], want)
			}
		}
	}
}

// The level of the demo engine after standing is no consumption: the rate is
// what it was at the last stop, and the plot does not have the line.
func TestParkedLevelIsNoConsumption(t *testing.T) {
	b, f := demo(t, "e2")
	v := b.View(f.Book, Now{})
	points := v.Plot.Points
	if last := points[len(points)-1]; last.Spoken[:10] != "39.6 hours" || last.Code != "seated" {
		t.Errorf("the last point is %q", last.Spoken)
	}
	if len(points) != 22 || len(v.Table) != 23 {
		t.Errorf("%d points and %d rows, want 22 and 23", len(points), len(v.Table))
	}
	if got := v.Table[22].Cells; got[3] != "14" || got[6] != "–" || got[8] != "After standing" {
		t.Errorf("the row of the parked level reads %q", got)
	}
	if v.Log[0].Note != "Read after standing. It tells what left the tank, not what the engine used." || v.Log[0].Chip != nil {
		t.Errorf("the line says %q", v.Log[0].Note)
	}
	// Oil poured in then still counts for the next interval: 15 at the stop,
	// 2 in, 16.5 after an hour is half a quart used.
	p := &phone{t: t, device: f.Book, n: len(b.lines), records: f.Records()}
	p.oil("541.6", "14", "2", `"day":"2025-11-10"`)
	p.oil("542.6", "16.5", "", `"day":"2025-11-10","minutes":{"v":"20","u":"min"}`)
	all := Open(p.records).answers.all
	if raw := all[len(all)-1].Raw; !raw.OK || raw.V.Rate < 0.49 || raw.V.Rate > 0.51 {
		t.Errorf("the next interval is %+v, want 0.5 qt/h", raw)
	}
}
