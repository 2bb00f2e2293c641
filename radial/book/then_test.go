package book

import (
	"strings"
	"testing"

	"linkrod/sync/plain"
)

// What a form says the readings would say is what they say once it is written: the same
// line, word for word, whether the log was sent or waits on this phone.
func TestForetoldIsWhatIsSaid(t *testing.T) {
	p := engineFor(t, "0.60", "0.5", "20")
	rows := strings.SplitAfter(file(t, "csv/series_a.csv"), "\n")
	p.take(strings.Join(rows[:15], ""))
	for _, of := range []struct {
		what    string
		records []Record
	}{{"waiting", p.records}, {"sent", sent(1, append([]Record(nil), p.records...)...)}} {
		b := Open(of.records)
		for _, c := range []struct{ draft, starts string }{
			{`{"hours":"21.6","level":"15"}`, "0."},
			{`{"hours":"21.6","level":"11"}`, "Does not fit: "},
			{`{"hours":"21.6","level":"9","added":"2","checked":["differs"]}`, "Does not fit: "},
		} {
			d := draft(t, b, "oil", c.draft)
			if d.Entry.Body == nil || !strings.HasPrefix(d.Foretold, c.starts) {
				t.Fatalf("%s, %s: foretold %q, body %s", of.what, c.draft, d.Foretold, d.Entry.Body)
			}
			last := of.records[len(of.records)-1].Entry
			r := Open(append(of.records[:len(of.records):len(of.records)], Record{
				Entry: Entry{Device: last.Device, N: last.N + 1, Kind: "fact", Body: d.Entry.Body, Seen: last.N}})).View("", Now{}).Rate
			if !strings.HasSuffix(d.Foretold, sentence(r.Line)) || r.Code == "reading suspect" && !strings.HasPrefix(d.Foretold, r.Verdict.Reason) {
				t.Errorf("%s, %s: foretold %q; then said %q, %q", of.what, c.draft, d.Foretold, r.Verdict.Reason, r.Line)
			}
		}
	}
}

// Where there is nothing to foretell it says why.
func TestForetoldNothing(t *testing.T) {
	p := engineFor(t, "0.60", "0.5", "20")
	none := Open(p.records)
	p.stop("10.0", "15", "", "2025-05-01")
	one := Open(p.records)
	for _, c := range []struct {
		b                 *Book
		kind, draft, want string
	}{
		{none, "oil", `{"hours":"1.0","level":"15"}`, "One reading: no rate yet."},
		{none, "oil", `{"level":"15"}`, "No rate with this line yet. What does the meter read?"},
		{none, "oil", `{"hours":"1.0"}`, "No rate with this line yet. What does the stick read?"},
		{one, "oil", `{"hours":"9.0","level":"15"}`, "This line is not used: hours go back. One reading: no rate yet."},
		{one, "oil", `{"hours":"10.0","level":"14.5","day":"2025-05-03"}`, "Read after standing. It tells what left the tank, not what the engine used."},
		{one, "oil", `{"hours":"11.0","level":"14.5"}`, "Average over the first 1 h: between "},
		{disagreeing(t), "oil", `{"hours":"11.0","level":"14.5"}`, "“Oil ceiling” has two values on file. Settle which holds. One reading: no rate yet."},
		{one, "drain", `{"hours":"12.0","level_before":"14","level_after":"16"}`, "Too early to say."},
		{one, "note", `{"text":"wet plug"}`, ""},
	} {
		if got := draft(t, c.b, c.kind, c.draft).Foretold; !strings.HasPrefix(got, c.want) || (got == "") != (c.want == "") {
			t.Errorf("%s %s: %q, want %q", c.kind, c.draft, got, c.want)
		}
	}
}

// A long log is foretold while it is typed: this is the time one key press may cost.
func BenchmarkForetell(b *testing.B) {
	p := engineFor(b, "0.60", "0.5", "20")
	for i := range 500 {
		p.oil(itoa(i+1)+".5", "15", "1", "")
	}
	book := Open(p.records)
	v, _ := plain.Parse([]byte(`{"hours":"502.0","level":"15"}`))
	for b.Loop() {
		book.Draft("oil", v, "Ann", Now{Day: "2026-05-01"})
	}
}
