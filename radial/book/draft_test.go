package book

import (
	"encoding/json"
	"strings"
	"testing"

	"linkrod/sync/plain"
)

func draft(t testing.TB, b *Book, kind, fields string) Drafted {
	t.Helper()
	in, err := plain.Parse([]byte(fields))
	if err != nil {
		t.Fatalf("%s: %v", fields, err)
	}
	return b.Draft(kind, in, "Ann", Now{Day: "2025-11-09", Clock: "16:00"})
}

// asks is the questions in short: "hours unlikely hours_back".
func asks(d Drafted) string {
	var all []string
	for _, a := range d.Asks {
		all = append(all, a.Field+" "+string(a.Strength)+" "+a.Code)
	}
	return strings.Join(all, ", ")
}

// The last digits alone are enough while the drum can have turned past them only once.
func TestHoursByTheirTail(t *testing.T) {
	p := engineFor(t, "", "0.5", "20")
	p.oil("10.0", "15", "", `"day":"2025-11-08"`)
	d := draft(t, Open(p.records), "oil", `{"tail":"12","level":"14"}`)
	if asks(d) != "" || d.Echo != "Fourteen quarts, nothing added, at 11.2" || !strings.Contains(string(d.Entry.Body), `"hours":{"v":"11.2","u":"h"}`) {
		t.Errorf("10.0, then 12: asks %q, %q, %s", asks(d), d.Echo, d.Entry.Body)
	}
}

// A hundred hours between two looks are asked about; fewer where the days are known and
// are too few for them. Without a day there is none to count from.
func TestHoursJump(t *testing.T) {
	for _, c := range []struct {
		line  string // more of the last line
		today Now
		hours string
		want  string
	}{
		{"", Now{}, "110.0", ""},
		{"", Now{}, "110.1", "hours unlikely hours_jump"},
		{"", Now{Day: "2025-05-03"}, "110.0", ""},
		{`"day":"2025-05-02"`, Now{Day: "2025-05-03"}, "58.0", ""}, // two days at most, whatever the clock
		{`"day":"2025-05-02"`, Now{Day: "2025-05-03"}, "58.1", "hours unlikely hours_jump"},
		{`"day":"2025-05-03"`, Now{Day: "2025-05-03"}, "34.1", "hours unlikely hours_jump"},
	} {
		p := engineFor(t, "", "0.5", "20")
		p.oil("10.0", "15", "", c.line)
		in, err := plain.Parse([]byte(`{"hours":"` + c.hours + `","level":"14"}`))
		if err != nil {
			t.Fatal(err)
		}
		if got := asks(Open(p.records).Draft("oil", in, "Ann", c.today)); got != c.want {
			t.Errorf("10 h and then %s, %s, today %q: asks %q, want %q", c.hours, c.line, c.today.Day, got, c.want)
		}
	}
}

// The demo engine at 541.6 h, 15 qt at the stop and 14 now, uses 0.44 qt/h; full
// 16, brim 20.
func TestDrafts(t *testing.T) {
	b, _ := demo(t, "e2")
	for _, c := range []struct {
		kind, fields string
		asks         string
		echo         string
		saved        bool
	}{
		// What is meant to be the usual way: no question at all.
		{"oil", `{"hours":"542.6","level":"14.5"}`, "", "Fourteen and a half quarts, nothing added, at 542.6", true},
		{"oil", `{"hours":"542.6","level":"14","added":"1"}`, "", "Fourteen quarts, one quart added, at 542.6", true},
		{"oil", `{"hours":"542.6","level":"14½","added":"0","minutes":"20","stands":"tail","scavenged":"yes"}`, "", "Fourteen and a half quarts, nothing added, at 542.6", true},
		{"oil", `{"hours":"541.6","level":"14"}`, "", "Fourteen quarts, nothing added, at 541.6", true},
		{"drain", `{"hours":"541.6","level_before":"14","same":true}`, "", "Drained and refilled to the same reading, fourteen quarts, at 541.6", true},
		{"drain", `{"hours":"541.6"}`, "", "Drained and refilled, the level after not read, at 541.6", true},
		{"note", `{"text":"Wet plug in 5."}`, "", "Wet plug in 5.", true},
		{"step_closed", `{"hours":"541.6","found":"a union"}`, "", "Step explained: a union", true},
		{"meter", `{"out":"541.6","in":"0"}`, "", "Meter changed: 541.6 out, 0 in", true},
		// Nothing typed yet.
		{"oil", `{}`, "hours impossible empty, level impossible empty", "", false},
		{"oil", `{"level":"15"}`, "hours impossible empty", "Fifteen quarts, nothing added", false},
		{"drain", `{"hours":"541.6","same":true}`, "level_before impossible empty", "Drained and refilled to the same reading, not given, at 541.6", false},
		{"note", `{"text":" "}`, "text impossible empty", "", false},
		{"step_closed", `{"hours":"541.6"}`, "found impossible empty", "Step explained: ", false},
		{"meter", `{"out":"541.6"}`, "in impossible empty", "Meter changed: 541.6 out, 0 in", false},
		// Hours: back, late, far ahead, by their last digits.
		{"oil", `{"hours":"534.1","level":"14"}`, "hours unlikely hours_back", "Fourteen quarts, nothing added, at 534.1", false},
		{"oil", `{"hours":"534.1","level":"14","checked":["hours_back"]}`, "", "Fourteen quarts, nothing added, at 534.1", true},
		{"oil", `{"hours":"534.1","level":"14","late":true}`, "", "Fourteen quarts, nothing added, at 534.1", true},
		{"oil", `{"hours":"5416","level":"14"}`, "hours unlikely hours_jump", "Fourteen quarts, nothing added, at 5416", false},
		{"meter", `{"out":"540.0","in":"0"}`, "out unlikely hours_back", "Meter changed: 540.0 out, 0 in", false},
		{"note", `{"text":"x","hours":"5416"}`, "hours unlikely hours_jump", "X", false},
		{"oil", `{"tail":"26","level":"14"}`, "hours impossible tail", "Fourteen quarts, nothing added", false},
		{"oil", `{"hours":"541.6x","level":"14"}`, "hours impossible unit", "Fourteen quarts, nothing added", false},
		// Levels: over the brim, over full, under nothing, litres, risen, far off.
		{"oil", `{"hours":"542.6","level":"21"}`, "level impossible over_brim", "Twenty-one quarts, nothing added, at 542.6", false},
		{"oil", `{"hours":"542.6","level":"14","added":"7"}`, "level unlikely over_brim", "Fourteen quarts, seven quarts added, at 542.6", false},
		{"oil", `{"hours":"542.6","level":"15","added":"2"}`, "added differs over_full", "Fifteen quarts, two quarts added, at 542.6", true},
		{"oil", `{"hours":"542.6","level":"16.5"}`, "level unlikely over_full, level unlikely add_missing", "Sixteen and a half quarts, nothing added, at 542.6", false},
		{"oil", `{"hours":"542.6","level":"16.5","checked":["over_full","add_missing"]}`, "", "Sixteen and a half quarts, nothing added, at 542.6", true},
		{"oil", `{"hours":"542.6","level":"-1"}`, "level impossible sign", "", false},
		{"oil", `{"hours":"542.6","level":"13.75"}`, "level unlikely litres", "Thirteen point seven five quarts, nothing added, at 542.6", false},
		{"oil", `{"hours":"542.6","level":"13.75 l"}`, "level differs unit", "Thirteen point seven five litres, nothing added, at 542.6", true},
		{"oil", `{"hours":"542.6","level":"13.75","unit":"l"}`, "level differs unit", "Thirteen point seven five litres, nothing added, at 542.6", true},
		// Four hours at 0.44 from 15 leave 13.24; asked beyond a quart and half of what was used.
		{"oil", `{"hours":"545.6","level":"11.5"}`, "", "Eleven and a half quarts, nothing added, at 545.6", true},
		{"oil", `{"hours":"545.6","level":"11.3"}`, "level differs differs", "Eleven point three quarts, nothing added, at 545.6", true},
		{"oil", `{"hours":"542.6","level":"10"}`, "level differs differs", "Ten quarts, nothing added, at 542.6", true},
		{"oil", `{"hours":"541.6","level":"15 psi"}`, "level impossible other", "", false},
		// Conditions.
		{"oil", `{"hours":"542.6","level":"14.5","minutes":"5"}`, "minutes differs early", "Fourteen and a half quarts, nothing added, at 542.6", true},
		{"oil", `{"hours":"542.6","level":"14.5","temp":"205","temp_unit":"C"}`, "temp unlikely temp", "Fourteen and a half quarts, nothing added, at 542.6", false},
		{"oil", `{"hours":"542.6","level":"14.5","stands":"sideways"}`, "stands impossible choice", "Fourteen and a half quarts, nothing added, at 542.6", false},
		{"oil", `{"hours":"542.6","level":"14.5","day":"2025-11-31"}`, "day impossible day", "Fourteen and a half quarts, nothing added, at 542.6", false},
		{"oil", `{"hours":"542.6","level":"14.5","day":"2026-11-09"}`, "day unlikely day_ahead", "Fourteen and a half quarts, nothing added, at 542.6", false},
		// Settings.
		{"setting", `{"field":"name","value":"Bess"}`, "", "Name: Bess", true},
		{"setting", `{"field":"colour","value":"red"}`, "field impossible field", "", false},
		{"setting", `{"field":"cylinders","value":"8"}`, "value impossible value", "", false},
		{"setting", `{"field":"name","value":""}`, "value impossible value", "", false},
		{"setting", `{"field":"tank_capacity","value":"19 l"}`, "", "Tank holds: 19 L", true},
		{"setting", `{"field":"tank_capacity","unknown":true}`, "", "Tank holds: not known; a level over the brim is not noticed", true},
		{"setting", `{"field":"ceiling","value":"0.55"}`, "document impossible empty, page impossible empty", "", false},
		{"setting", `{"field":"ceiling","value":"0.55","document":"D","page":"2","date":"soon"}`, "date impossible day", "", false},
		{"setting", `{"field":"ceiling","value":"0.55","document":"D","page":"2"}`, "", "Oil ceiling: 0.55 qt/h, D, page 2", true},
		{"setting", `{"field":"ceiling","value":"5.5","document":"D","page":"2"}`, "value unlikely ceiling_far", "Oil ceiling: 5.5 qt/h, D, page 2", false},
		{"setting", `{"field":"ceiling","withdraw":true}`, "", "Oil ceiling: No limit on file", true},
		{"setting", `{"field":"overnight","look":"1.5","stop":"0.5","document":"D","page":"2"}`, "value impossible value", "", false},
		{"setting", `{"field":"blades","count":"8","document":"D","page":"2"}`, "", "Blades to pull through: 8 blades, D, page 2", true},
		{"setting", `{"field":"full_mark","value":"21"}`, "value unlikely over_brim", "Full mark: 21 qt", false},
		{"setting", `{"field":"min_flight","value":"17","document":"D","page":"2"}`, "value unlikely over_full", "Least for flight: 17 qt, D, page 2", false},
		{"setting", `{"field":"oil_unit","value":"l"}`, "value unlikely unit_changes", "Oil is kept in: litres", false},
		{"setting", `{"field":"since","unknown":true}`, "", "Hours since, at that point: not known; a rate only, no verdict on bedding in", true},
		{"setting", `{"field":"meter","which":"tach","value":"541.6"}`, "", "Meter at that point: tach 541.6 h", true},
		// Strikes.
		{"strike", `{"key":"e2000000000000000000000000000711:51","reason":"read again"}`, "", "Struck out: read again", true},
		{"strike", `{"key":"e2000000000000000000000000000711:51"}`, "reason impossible empty", "Struck out: ", false},
		{"strike", `{"key":"e2000000000000000000000000000711:1","reason":"x"}`, "key impossible stands", "Struck out: x", false},
		{"strike", `{"key":"nobody:1","reason":"x"}`, "key impossible no-line", "Struck out: x", false},
		{"paint", `{}`, "kind impossible kind", "", false},
	} {
		d := draft(t, b, c.kind, c.fields)
		if got := asks(d); got != c.asks || d.Echo != c.echo || (d.Entry.Body != nil) != c.saved {
			t.Errorf("%s %s\nasks %q, echo %q, saved %v\nwant %q, %q, %v", c.kind, c.fields, got, d.Echo, d.Entry.Body != nil, c.asks, c.echo, c.saved)
		}
	}
}

// What the questions say, and what their answers do to the draft.
func TestAsksInWords(t *testing.T) {
	b, _ := demo(t, "e2")
	for _, c := range []struct {
		kind, fields string
		words        []string
		choices      string
	}{
		{"oil", `{"hours":"534.1","level":"14"}`, []string{"Tach 534.1 is before the last one, 541.6. Meter changed?"},
			`Meter changed {"kind":"meter"}; Written late: its hours place it {"late":true}; Keep it, and do not use it {"checked":["hours_back"]}`},
		{"oil", `{"hours":"542.6","level":"21"}`, []string{"The tank holds 20 qt. More than that goes overboard."}, ``},
		{"oil", `{"hours":"542.6","level":"13.75"}`, []string{"Litres or quarts? 13.75 was typed. 13.75 litres is 14.5 quarts."},
			`It was litres {"level":"13.75 l"}; Quarts, as typed {"checked":["litres"]}`},
		{"oil", `{"hours":"542.6","level":"16"}`, []string{"The tank had 15 qt and now reads 16 qt. Was oil put in and not written down?"},
			`Read it again {"level":""}; It was drained and refilled {"kind":"drain"}; Oil went in, the amount was not written {"checked":["add_missing"]}`},
		{"oil", `{"hours":"542.6","level":"10"}`, []string{"Read again? 10 qt is 4.6 qt away from what was to be expected, 14.6 qt."}, ""},
		{"oil", `{"hours":"542.6","level":"13.75 l"}`, []string{"This engine is kept in quarts. Written as 14.53 quarts, typed as 13.75 litres."}, ""},
		{"oil", `{"tail":"26","level":"14"}`, []string{"542.6 or 552.6? The drum has gone round more than once."}, `542.6 {"hours":"542.6"}; 552.6 {"hours":"552.6"}`},
		{"oil", `{"hours":"542.6","level":"14.5","minutes":"5"}`, []string{"Read it 20 minutes after stopping. 15 minutes to go."}, ""},
		{"setting", `{"field":"ceiling","value":"0.55"}`, []string{"Which document is it from? A limit is kept with the paper it stands on.", "Which page of it?"}, ""},
	} {
		d := draft(t, b, c.kind, c.fields)
		var words, choices []string
		for _, a := range d.Asks {
			words = append(words, a.Words)
			for _, ch := range a.Choices {
				choices = append(choices, ch.Label+" "+string(ch.Set))
			}
		}
		if strings.Join(words, "|") != strings.Join(c.words, "|") || strings.Join(choices, "; ") != c.choices {
			t.Errorf("%s\nsays %q\nchoices %s\nwant %q\n%s", c.fields, words, strings.Join(choices, "; "), c.words, c.choices)
		}
	}
}

// What a draft becomes: the figures as typed, who and when, and the envelope.
func TestDraftBecomes(t *testing.T) {
	b, f := demo(t, "e2")
	for _, c := range []struct{ kind, fields, body, envelope string }{
		{"oil", `{"hours":"542.60","level":"14.50","added":"1,0","add_how":"measured","minutes":"20","temp":"66","temp_unit":"C","stands":"tail","scavenged":"yes","foam":"no","note":" by torch "}`,
			`{"type":"oil","hours":{"v":"542.60","u":"h"},"level":{"v":"14.50","u":"qt"},"added":{"v":"1.0","u":"qt"},"add_how":"measured","minutes":{"v":"20","u":"min"},"temp":{"v":"66","u":"C"},"stands":"tail","scavenged":"yes","foam":"no","note":"by torch","day":"2025-11-09","clock":"16:00","by":"Ann"}`, "fact []"},
		{"oil", `{"hours":"534.1","level":"14","late":true,"day":"2025-07-12"}`,
			`{"type":"oil","hours":{"v":"534.1","u":"h"},"level":{"v":"14","u":"qt"},"day":"2025-07-12","by":"Ann","late":true}`, "fact []"},
		{"oil", `{"hours":"534.1","level":"14","checked":["hours_back"]}`,
			`{"type":"oil","hours":{"v":"534.1","u":"h"},"level":{"v":"14","u":"qt"},"day":"2025-11-09","clock":"16:00","by":"Ann","checked":["hours_back"]}`, "fact []"},
		{"setting", `{"field":"ceiling","value":"0.55","document":"D","page":"2","revision":"D","date":"2025-11-01","checked_by":"Tobin"}`,
			`{"type":"setting","field":"ceiling","value":{"value":{"v":"0.55","u":"qt/h"},"source":{"document":"D","page":"2","revision":"D","date":"2025-11-01","typed_by":"Ann","checked_by":"Tobin"}},"day":"2025-11-09","by":"Ann"}`, "replace [19]"},
		{"setting", `{"field":"ceiling","withdraw":true,"reason":"superseded"}`, `{"type":"setting","field":"ceiling","value":null,"reason":"superseded","day":"2025-11-09","by":"Ann"}`, "replace [19]"},
		{"strike", `{"key":"` + f.Book + `:51","reason":"read again"}`, `{"type":"strike","reason":"read again","by":"Ann"}`, "strike [51]"},
	} {
		d := draft(t, b, c.kind, c.fields)
		var refs []string
		for _, k := range d.Entry.Refs {
			refs = append(refs, itoa(k.N))
		}
		if string(d.Entry.Body) != c.body || d.Entry.Kind+" ["+strings.Join(refs, " ")+"]" != c.envelope {
			t.Errorf("%s %s\nbecomes %s, %s %v\nwant    %s, %s", c.kind, c.fields, d.Entry.Body, d.Entry.Kind, refs, c.body, c.envelope)
		}
	}
}

// Litres typed as quarts: an engine that had 15 quarts and uses half a quart an
// hour. 14.5 quarts are 13.7 litres; 1 qt is 0.946352946 L exactly.
func TestLitresAreAsked(t *testing.T) {
	for level, want := range map[string]bool{"14.5": false, "14": false, "13.7": true, "13.5": true, "13": false} {
		b, _ := demo(t, "e2")
		d := draft(t, b, "oil", `{"hours":"542.6","level":"`+level+`"}`)
		if got := strings.Contains(asks(d), "litres"); got != want {
			t.Errorf("%s: litres asked %v, want %v (%s)", level, got, want, asks(d))
		}
	}
}

// The tail of the meter (look.md 5.4): the drum only turns forward.
func TestTail(t *testing.T) {
	for _, c := range []struct {
		last, digits string
		days         int
		want         string
	}{
		{"540.9", "16", 1, "541.6"}, {"540.9", "09", 1, "540.9"}, {"540.9", "08", 1, "550.8"}, {"540.9", "10", -1, "541.0"},
		{"540.9", "9", 0, "540.9"}, {"540.9", "8", 0, "541.8"}, {"540.9", "416", 1, "541.6"}, {"540.9", "5416", 1, "541.6"},
		{"540.9", "16", 30, "541.6 551.6"}, {"999.8", "03", 1, "1000.3"}, {"540.95", "10", 1, "541.10"}, {"540", "41", 1, "541"}, {"0.0", "07", 1, "0.7"},
		{"540.9", "", 1, ""}, {"540.9", "1x", 1, ""}, {"540.9", "-1", 1, ""}, {"x", "16", 1, ""}, {"540.9", "1234567", 1, ""}, {"-1", "16", 1, ""},
	} {
		if got := strings.Join(TailHours(c.last, c.digits, c.days), " "); got != c.want {
			t.Errorf("after %s, %q is %q, want %q", c.last, c.digits, got, c.want)
		}
	}
}

// What people write on paper (trade.md 15, look.md C5).
func TestPaperLine(t *testing.T) {
	b, _ := demo(t, "e2")
	for _, c := range []struct{ text, draft, rest string }{
		{"15 +1 541.6", `{"level":"15","added":"1","hours":"541.6"}`, ""},
		{"541.6 15 +1", `{"level":"15","added":"1","hours":"541.6"}`, ""},
		{"+1 at 412.6", `{"added":"1","hours":"412.6"}`, ""},
		{"14½ 541.6 h", `{"level":"14½","hours":"541.6"}`, ""},
		{"14,5 541,6", `{"level":"14.5","hours":"541.6"}`, ""},
		{"14 l +1 542.0 20 min", `{"level":"14 L","added":"1","hours":"542.0","minutes":"20"}`, ""},
		{"14 qt 150 F 542.0", `{"level":"14","hours":"542.0","temp":"150"}`, ""},
		{"9.5 12.0", `{"level":"9.5","hours":"12.0"}`, ""},
		{"12.0 9.5", `{"level":"9.5","hours":"12.0"}`, ""},
		{"15", `{"level":"15"}`, ""},
		{"541.6", `{"hours":"541.6"}`, ""},
		{"15 +1 ab", `{"level":"15","added":"1"}`, "ab"},
		{"15 16 541.6", `{"level":"15","hours":"541.6"}`, "16"},
		{"+1 +2", `{"added":"1"}`, "+2"},
		{"", `{}`, ""},
	} {
		p := b.ReadPaper(c.text)
		want := strings.ReplaceAll(c.draft, "14½", "14.5")
		if string(p.Draft) != want || p.Rest != c.rest {
			t.Errorf("%q: %s, rest %q; want %s, %q", c.text, p.Draft, p.Rest, want, c.rest)
		}
		if (p.Rest != "") != strings.HasPrefix(p.Words, "Read ") {
			t.Errorf("%q: words %q", c.text, p.Words)
		}
	}
	p := b.ReadPaper("15 +1 ab")
	if p.Words != "Read 15 qt and +1 qt, but not the rest: “ab”. Change it or tap the parts." || strings.Join(p.Chips, " ") != "15 qt +1 qt" {
		t.Errorf("%q, chips %q", p.Words, p.Chips)
	}
}

// The four questions, and the book they open.
func TestOpening(t *testing.T) {
	begin := func(s string) ([]Planned, error) {
		v, err := plain.Parse([]byte(s))
		if err != nil {
			t.Fatal(err)
		}
		return Begin(v, "Ann", Now{Day: "2026-05-01"})
	}
	plan, err := begin(`{"cylinders":"7","view":"propeller","oil_unit":"l","meter":{"which":"clock","reading":"812.4"}}`)
	if err != nil || len(plan) != 5 {
		t.Fatalf("%v, %d entries", err, len(plan))
	}
	p := &phone{t: t, device: "aa"}
	for _, e := range plan {
		p.write(e.Kind, string(e.Body), e.Refs...)
	}
	v := Open(p.records).View("00", Now{Day: "2026-05-01"})
	if v.Headline != "No reading yet" || v.Ring.View != "propeller" || v.Ring.Cylinders != 7 || v.Tank.Unit != "L" || v.Last.Hours != "812.4" || v.Next.Go != "oil" {
		t.Errorf("%+v", v)
	}
	for _, h := range v.Ring.Heads {
		if h.Chip != nil || h.Text != "–" {
			t.Errorf("an engine without a compression set shows %+v", h)
		}
	}
	for s, words := range map[string]string{
		`{}`: "Nothing is typed yet. This takes hours, minutes, or hours and minutes as 1:30.",
		`{"cylinders":"8","view":"cockpit","oil_unit":"qt","meter":{"which":"tach","reading":"1"}}`:  "Cylinders is one of 5, 7 or 9, not “8”.",
		`{"cylinders":"7","view":"cockpit","oil_unit":"gal","meter":{"which":"tach","reading":"1"}}`: "Oil is kept in is one of qt, l or imp_qt, not “gal”.",
		`{"cylinders":"7","view":"cockpit","oil_unit":"qt","meter":{"which":"sun","reading":"1"}}`:   "Which meter: tach hours or clock hours?",
	} {
		if _, err := begin(s); err == nil || err.Error() != words {
			t.Errorf("%s: %v, want %q", s, err, words)
		}
	}
}

// The answer travels as JSON that the screens read.
func TestDraftedJSON(t *testing.T) {
	b, _ := demo(t, "e2")
	for fields, want := range map[string]string{
		`{"hours":"542.6","level":"14.5"}`: `{"body":{"type":"oil","hours":{"v":"542.6","u":"h"},"level":{"v":"14.5","u":"qt"},"day":"2025-11-09","clock":"16:00","by":"Ann"},"envelope":{"kind":"fact","refs":[]},"echo":"Fourteen and a half quarts, nothing added, at 542.6","foretold":"0.45 (0.36 to 0.53) qt/h now, from 23 readings over 40.6 h; level; under the shop's 0.60.","asks":[]}`,
		`{"hours":"542.6"}`:                `{"echo":"","foretold":"No rate with this line yet. What does the stick read?","asks":[{"field":"level","strength":"impossible","code":"empty","words":"What does the stick read?","choices":[]}]}`,
	} {
		var w plain.Writer
		draft(t, b, "oil", fields).Write(&w)
		if string(w.Bytes()) != want {
			t.Errorf("%s\n%s\nwant %s", fields, w.Bytes(), want)
		}
	}
}

// Whatever is typed, a draft either asks or can be saved, and what can be saved
// is read back.
func FuzzDraft(f *testing.F) {
	for _, kind := range []string{"oil", "drain", "note", "setting", "step_closed", "meter", "strike", "?"} {
		f.Add(kind, "541.6", "15", "1", "20", "ceiling")
	}
	f.Add("oil", "16", "14 l", "+½", "-1", "150")
	b, _ := demo(f, "e2")
	p := engineFor(f, "0.60", "0.5", "20")
	empty := Open(p.records)
	f.Fuzz(func(t *testing.T, kind, hours, level, added, more, field string) {
		if len(hours)+len(level)+len(added)+len(more)+len(field) > 200 {
			return
		}
		var w plain.Writer
		w.Begin('{')
		for _, name := range []string{"hours", "out", "tail", "look"} {
			w.Text(name, hours)
		}
		for _, name := range []string{"level", "level_before", "value", "in", "stop", "count"} {
			w.Text(name, level)
		}
		w.Text("added", added)
		for _, name := range []string{"minutes", "temp", "note", "text", "found", "reason", "document", "page", "day"} {
			w.Text(name, more)
		}
		w.Text("field", field)
		w.Text("key", more)
		w.End('}')
		in, err := plain.Parse(w.Bytes())
		if err != nil {
			t.Fatal(err)
		}
		for _, b := range []*Book{b, empty} {
			d := b.Draft(kind, in, "Ann", Now{Day: "2025-11-09"})
			var out plain.Writer
			if d.Write(&out); !json.Valid(out.Bytes()) {
				t.Fatalf("not JSON: %s", out.Bytes())
			}
			if d.Entry.Body == nil {
				if len(d.Asks) == 0 {
					t.Errorf("%s is neither saved nor asked about", in.Raw())
				}
				continue
			}
			if _, err := Decode(d.Entry.Body); err != nil {
				t.Errorf("%s\nwould be saved as %s, which says %v", in.Raw(), d.Entry.Body, err)
			}
			if d.Echo == "" {
				t.Errorf("%s is saved without a word", in.Raw())
			}
		}
		b.ReadPaper(hours + " " + level + " " + added + " " + more)
	})
}
