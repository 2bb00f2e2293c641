package book

import (
	"encoding/csv"
	"os"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"linkrod/radial/oil"
)

// engineFor opens a new book as the four questions and the settings page do.
func engineFor(t testing.TB, ceiling, step, tank string) *phone {
	p := &phone{t: t, device: "aa"}
	p.write("fact", `{"type":"engine"}`)
	p.setting("oil_unit", `"qt"`)
	p.setting("cylinders", `"7"`)
	p.setting("meter", `{"which":"tach","reading":{"v":"0.0","u":"h"}}`)
	p.setting("since", `{"v":"0.0","u":"h"}`)
	p.setting("stick_step", `{"v":"`+step+`","u":"qt"}`)
	if tank != "" {
		p.setting("tank_capacity", `{"v":"`+tank+`","u":"qt"}`)
	}
	if ceiling != "" {
		p.setting("ceiling", `{"value":{"v":"`+ceiling+`","u":"qt/h"},"source":{"document":"DEMO sheet","page":"2","typed_by":"Ann"}}`)
	}
	return p
}

// take imports a file and takes every line of it that can be taken.
func (p *phone) take(text string) Import {
	p.t.Helper()
	im := Open(p.records).ReadCSV(text)
	for _, r := range im.Rows {
		if r.Body != nil && !r.Already {
			p.write("fact", string(r.Body))
		}
	}
	return im
}

// What is beyond the most lines that are read is left out, and the first such line named.
func TestTooManyLines(t *testing.T) {
	var text strings.Builder
	text.WriteString("hours,level before [qt]\n")
	for i := range maxRows + 3 {
		text.WriteString(strconv.Itoa(i) + ",15\n")
	}
	p := engineFor(t, "", "0.5", "20")
	lines := strings.SplitAfter(text.String(), "\n")
	if im := Open(p.records).ReadCSV(strings.Join(lines[:maxRows+1], "")); len(im.Rows) != maxRows || len(im.Problems) != 0 {
		t.Errorf("as many as are read: %d rows, %+v", len(im.Rows), im.Problems)
	}
	im := Open(p.records).ReadCSV(text.String())
	if len(im.Rows) != maxRows || len(im.Problems) != 1 || im.Problems[0].Line != maxRows+2 || !strings.Contains(im.Problems[0].Words, "more than 20000 lines") {
		t.Errorf("%d rows, %+v", len(im.Rows), im.Problems)
	}
}

func file(t testing.TB, path string) string {
	t.Helper()
	data, err := os.ReadFile("../../testdata/" + path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// history is the verdicts a log led to, each at the hours it was first said.
func history(b *Book) (said []string) {
	last := ""
	for _, a := range b.answers.all {
		if code := a.Verdict.String(); code != last {
			said = append(said, strconv.FormatFloat(float64(a.Hours), 'f', 1, 64)+" "+code)
			last = code
		}
	}
	return said
}

// The demo series of the scenario, imported as a person does it. The verdicts
// and their hours are the table of oil-rate.md, section 9, which a second
// implementation in another language agrees with.
func TestSeriesThroughCSV(t *testing.T) {
	for _, c := range []struct {
		file, ceiling, step, tank string
		want                      []string
	}{
		{"series_a", "0.60", "0.5", "20", []string{"0.0 too early", "5.8 falling", "28.1 levelling", "33.1 seated"}},
		{"series_b", "0.70", "0.5", "24", []string{"0.0 too early", "5.1 levelling", "6.3 falling", "14.6 levelling", "25.8 not seating"}},
		{"series_c", "0.60", "0.25", "20", []string{"0.0 too early", "6.4 levelling", "18.0 reading suspect", "19.8 step up"}},
	} {
		t.Run(c.file, func(t *testing.T) {
			p := engineFor(t, c.ceiling, c.step, c.tank)
			text := file(t, "csv/"+c.file+".csv")
			if im := p.take(text); len(im.Problems) > 0 {
				t.Fatalf("problems: %v", im.Problems)
			}
			b := Open(p.records)
			if got := history(b); !reflect.DeepEqual(got, c.want) {
				t.Errorf("said %v\nwant %v", got, c.want)
			}
			// Twice changes nothing.
			n := len(p.records)
			im := p.take(text)
			if len(p.records) != n || !strings.HasPrefix(im.Summary, "0 lines to take, ") {
				t.Errorf("the second time took %d lines: %s", len(p.records)-n, im.Summary)
			}
		})
	}
}

// The open series (testdata/oil/open, with what a careful specialist would say):
// through CSV and the book, each must end where the method itself ends.
func TestOpenSeriesThroughCSV(t *testing.T) {
	truth, err := csv.NewReader(strings.NewReader(file(t, "oil/open/truth.csv"))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	col := map[string]int{}
	for i, name := range truth[0] {
		col[name] = i
	}
	for _, row := range truth[1:] {
		name := row[col["file"]]
		t.Run(name, func(t *testing.T) {
			text := file(t, "oil/open/"+name)
			_, step, _ := strings.Cut(text, "res=")
			step, _, _ = strings.Cut(step, ";")
			step, _, _ = strings.Cut(step, "\n")
			p := engineFor(t, row[col["ceiling_qt_h"]], strings.TrimSpace(step), "")
			im := p.take(text)
			if len(im.Problems) > 0 {
				t.Fatalf("problems: %v", im.Problems)
			}
			b := Open(p.records)
			said := b.View("", Now{}).Rate.Code
			want := append(strings.Split(row[col["also_acceptable"]], ";"), row[col["specialist_verdict"]])
			for _, w := range want {
				if said == w {
					return
				}
			}
			t.Errorf("ends in %q, want one of %q; said %v", said, want, history(b))
		})
	}
}

// Export and import again: the same readings, the same answers, and every figure
// as it was typed. The book has everything a log can have.
func TestCSVRoundTrip(t *testing.T) {
	p := everything(t)
	b := Open(p.records)
	text := b.WriteCSV()
	q := &phone{t: t, device: "bb"}
	for _, r := range p.records {
		if body, _ := Decode(r.Entry.Body); body != nil {
			if _, ok := body.(*Setting); ok {
				q.write("fact", string(r.Entry.Body))
			}
		}
	}
	im := q.take(text)
	if len(im.Problems) > 0 {
		t.Fatalf("problems: %v\n%s", im.Problems, text)
	}
	c := Open(q.records)
	if len(b.answers.all) != len(c.answers.all) {
		t.Fatalf("%d answers became %d\n%s", len(b.answers.all), len(c.answers.all), text)
	}
	for i := range b.answers.all {
		x, y := b.answers.all[i], c.answers.all[i]
		if !reflect.DeepEqual(x.Answer, y.Answer) || x.parked != y.parked {
			t.Errorf("answer %d differs: %v at %v, %v at %v", i, x.Verdict, x.Hours, y.Verdict, y.Hours)
		}
		if string(Encode(x.line.body)) != string(Encode(y.line.body)) {
			t.Errorf("line %d:\n%s\n%s", i, Encode(x.line.body), Encode(y.line.body))
		}
	}
	if again := c.WriteCSV(); again != text {
		t.Errorf("written again it differs:\n%s\n%s", text, again)
	}
	if im := p.take(text); !strings.HasPrefix(im.Summary, "0 lines to take") {
		t.Errorf("its own export is not recognised: %s", im.Summary)
	}
}

// everything is an oil log with one of each thing in it.
func everything(t testing.TB) *phone {
	p := engineFor(t, "0.60", "0.5", "20")
	p.oil("0.0", "16.00", "", `"minutes":{"v":"20","u":"min"},"stands":"tail","scavenged":"yes","day":"2025-03-01","clock":"18:40","by":"Ann"`)
	p.oil("2.5", "14.5", "2", `"add_how":"measured","temp":{"v":"66","u":"C"},"note":"cold, \"foamy\"","foam":"yes"`)
	p.oil("5.0", "15", "1.5", `"minutes":{"v":"0.5","u":"h"}`)
	p.oil("4.0", "15.5", "", ``)
	p.oil("3.2", "15.5", "", `"late":true,"by":"Ben"`)
	p.write("fact", `{"type":"drain","hours":{"v":"7.5","u":"h"},"level_before":{"v":"15","u":"qt"},"same":true,"note":"oil changed"}`)
	p.write("fact", `{"type":"drain","hours":{"v":"8.0","u":"h"},"level_after":{"v":"14.2","u":"l"}}`)
	p.write("fact", `{"type":"drain","hours":{"v":"9.0","u":"h"}}`)
	p.write("fact", `{"type":"meter","out":{"v":"10.4","u":"h"},"in":{"v":"1200.0","u":"h"},"day":"2025-04-01"}`)
	p.oil("1200.0", "14", "", `"day":"2025-04-01"`)
	p.oil("1200.0", "13.5", "2", `"day":"2025-04-20"`)
	p.oil("1203.0", "14", "", `"day":"2025-04-21"`)
	p.write("fact", `{"type":"step_closed","hours":{"v":"1203.0","u":"h"},"found":"weeping union, tightened"}`)
	p.oil("1205.0", "25", "", ``)
	p.oil("1206.0", "12.5", "", `"stands":"other"`)
	gone := p.oil("1207.0", "12", "", ``)
	p.write("strike", `{"type":"strike","reason":"wrong engine"}`, gone)
	return p
}

// Every bad line is named with its number and its reason, and the good ones can
// be taken all the same.
func TestBadLinesAreNamed(t *testing.T) {
	b := Open(engineFor(t, "", "0.5", "20").records)
	im := b.ReadCSV("\ufeffday;hours [h];level before [qt];added [qt];drained;fuel;temp [bar]\r\n")
	if len(im.Rows) != 0 || len(im.Problems) != 2 {
		t.Errorf("columns that are not read: %+v", im)
	}
	for _, c := range []struct{ text, line, words string }{
		{"", "1", "The file is empty. Its first line names the columns: hours [h],level before [qt],added [qt]"},
		{"hours,level before\n", "1", "The column “level before” does not say its unit. Write it as “level before [qt]”."},
		{"hours [h],level before [qt],oil temperature\n", "1", "The column “oil temperature” does not say its unit. Write it as “oil temperature [F]”."},
		{"hours [h],level before [psi]\n", "1", "The column “level before [psi]” does not say its unit. Write it as “level before [qt]”."},
		{"hours [h],level before [h]\n", "1", "The column “level before [h]” is not in a unit of volume."},
		{"hours [h],level before [qt],level [qt]\n", "1", "The column “level before” is there twice."},
		{"day,level before [qt]\n", "1", "The first line has no column “hours”. It should read like: hours [h],level before [qt],added [qt]"},
		{"hours [h],level before [qt]\n1.0,15\n,14\n", "3", "At how many meter hours? A line without them cannot be placed."},
		{"hours [h],level before [qt]\n1.0,\n", "2", "What does the stick read? An oil line needs its level."},
		{"hours [h],level before [qt]\n\n1.0,1x5\n", "3", "Level before: "},
		{"hours [h],level before [qt]\n1.0,15 psi\n", "2", "Level before: "},
		{"hours [h],level before [qt],added [qt]\n1.0,15,-1\n", "2", "Added: "},
		{"hours [h],level before [qt],drained\n1.0,15,half\n", "2", "Drained: “half” is not same, yes or no."},
		{"hours [h],level before [qt],added [qt],drained\n1.0,15,1,same\n", "2", "Drained and refilled is no add."},
		{"hours [h],level before [qt],day\n1.0,15,2025-02-30\n", "2", "There is no day “2025-02-30”."},
		{"hours [h],level before [qt],stands\n1.0,15,sideways\n", "2", "Stands: “sideways” is not one of the words for it."},
		{"hours [h],level before [qt],conditions\n1.0,15,min=20;att=up\n", "2", "Conditions: “att=up” is not one that is known."},
		{"hours [h],level before [qt],conditions\n1.0,15,min=x\n", "2", "Conditions: “min=x”: "},
		{"hours [h],level before [qt],note\n1.0,15,\"open\n", "2", "The quotation mark on line 2 is never closed."},
		{"hours [h],level before [qt]\n1.0,15\"\n2.0,14\n", "2", "A quotation mark stands in the middle of a cell."},
		{"hours [h],level before [qt],meter now [h]\n1.0,,-4\n", "2", "Meter now: "},
	} {
		im := b.ReadCSV(c.text)
		if len(im.Problems) != 1 || strconv.Itoa(im.Problems[0].Line) != c.line || !strings.HasPrefix(im.Problems[0].Words, c.words) {
			t.Errorf("%q: %+v\nwant line %s: %s", c.text, im.Problems, c.line, c.words)
		}
		for _, r := range im.Rows {
			if (r.Problem == "") != (r.Body != nil) {
				t.Errorf("%q: line %d has problem %q and body %s", c.text, r.Line, r.Problem, r.Body)
			}
		}
	}
	im = b.ReadCSV("hours [h],level before [qt]\n5.0,15\n4.0,15\n6.0,14.5\n")
	if w := im.Rows[1].Words; w != "4.0 h: Level 15 quarts, nothing added. This line is not used: hours go back." {
		t.Errorf("a line that goes back: %q", w)
	}
	if im.Summary != "3 lines to take. Nothing is taken until you say so." {
		t.Errorf("summary %q", im.Summary)
	}
	// Semicolons, decimal commas, another unit in a cell.
	im = b.ReadCSV("hours [h];level before [l];added [qt]\n12,5;14,2;1 l\n")
	if len(im.Problems) > 0 || im.Rows[0].Words != "12.5 h: Level 14.2 litres, 1 litre added" {
		t.Errorf("decimal commas: %+v", im)
	}
	// res= against what is on file.
	im = b.ReadCSV("hours,level_before_qt,added_qt,drained,note,conditions\n1,15,0,0,,res=0.25\n2,15,0,0,,res=0.25\n")
	if len(im.Problems) != 1 || im.Problems[0].Words != "The file says that the stick is read to 0.25 qt; on file is 0.5 qt." {
		t.Errorf("another stick: %+v", im.Problems)
	}
}

// What was struck out is not brought back by importing the file again; a reading
// repeated on another day is another reading; one without a day is the same.
func TestRowsAreRecognised(t *testing.T) {
	p := engineFor(t, "", "0.5", "20")
	const head = "day,hours [h],level before [qt]\n"
	p.take(head + "2025-05-01,1.0,15.0\n")
	for _, c := range []struct {
		rows  string
		fresh int
	}{
		{"2025-05-01,1,15\n", 0},
		{",1.0,15\n", 0},
		{"2025-05-02,1.0,15\n", 1},
		{"2025-05-01,1.0,15\n2025-05-02,1.0,15\n", 1},
		{",1.0,15\n,1.0,15\n", 1},
		{"2025-05-01,1.0,15.5\n", 1},
	} {
		fresh := 0
		for _, r := range Open(p.records).ReadCSV(head + c.rows).Rows {
			if !r.Already {
				fresh++
			}
		}
		if fresh != c.fresh {
			t.Errorf("%q: %d to take, want %d", c.rows, fresh, c.fresh)
		}
	}
	p.write("strike", `{"type":"strike","reason":"not this engine"}`, Key{"aa", p.n})
	if im := Open(p.records).ReadCSV(head + "2025-05-01,1.0,15\n"); !im.Rows[0].Already {
		t.Error("a line that was struck out came back by the file it came from")
	}
}

// The rows of encoding/csv, a general-purpose library, against ours.
func csvAgrees(t *testing.T, text string) {
	rows, sep := readCSV(text)
	if sep != ',' {
		return
	}
	r := csv.NewReader(strings.NewReader(strings.TrimPrefix(text, "\ufeff")))
	r.FieldsPerRecord = -1
	want, err := r.ReadAll()
	wrong := false
	var got [][]string
	for _, row := range rows {
		wrong = wrong || row.wrong != ""
		got = append(got, row.cells)
	}
	if err != nil {
		if !wrong {
			t.Errorf("%q: encoding/csv says %v, ours read %q", text, err, got)
		}
		return
	}
	if wrong {
		t.Errorf("%q: refused, and encoding/csv reads %q", text, want)
		return
	}
	// A row with nothing in it but a quoted nothing is a row to encoding/csv.
	kept := want[:0]
	for _, w := range want {
		if len(w) > 1 || w[0] != "" {
			kept = append(kept, w)
		}
	}
	if len(got) != len(kept) || len(got) > 0 && !reflect.DeepEqual(got, kept) {
		t.Errorf("%q: %q, encoding/csv reads %q", text, got, kept)
	}
}

var csvTexts = []string{"", "a,b\n1,2\n", "a,b\r\n1,\"2\r\n3\"\r\n", "a\n\n\n\"\"\n\"x\"\"y\"\n", "\"a", "a\"b", "\"a\"b,c\n", "a,b,\n,,", "a\rb,c\r", "\ufeffa", "\"a\"\r"}

func TestCSVAgreesWithEncodingCSV(t *testing.T) {
	for _, text := range csvTexts {
		csvAgrees(t, text)
	}
	for _, cell := range []string{"", "a", "a,b", "a\"b", " a ", "a\nb", "\"", "ü"} {
		rows, _ := readCSV("x,y\n" + quoteCSV(cell) + "," + quoteCSV(cell) + "\n")
		if got := rows[1:]; cell != "" && (len(got) != 1 || got[0].cells[0] != cell || got[0].cells[1] != cell) {
			t.Errorf("%q comes back as %+v", cell, got)
		}
	}
}

func FuzzCSV(f *testing.F) {
	for _, text := range csvTexts {
		f.Add(text)
	}
	f.Add(file(f, "csv/series_c.csv"))
	f.Add(file(f, "oil/open/oil_11.csv"))
	p := engineFor(f, "0.60", "0.5", "20")
	p.oil("1.0", "15", "", "")
	b := Open(p.records)
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 1<<11 {
			return
		}
		csvAgrees(t, text)
		im := b.ReadCSV(text)
		for _, r := range im.Rows {
			if (r.Body == nil) == (r.Problem == "") {
				t.Errorf("line %d has neither a body nor a problem, or both", r.Line)
			}
			if r.Body != nil {
				if _, err := Decode(r.Body); err != nil {
					t.Errorf("line %d would write what cannot be read: %v", r.Line, err)
				}
			}
		}
	})
}

// The rate in the book is the rate of package oil on the same readings: nothing
// is lost or moved on the way through CSV, entries and placing.
func TestBookFeedsTheMethodUnchanged(t *testing.T) {
	p := engineFor(t, "0.60", "0.5", "20")
	p.take(file(t, "csv/series_a.csv"))
	b := Open(p.records)
	var log []oil.Reading
	for _, row := range strings.Split(strings.TrimSpace(file(t, "csv/series_a.csv")), "\n")[1:] {
		c := strings.Split(row, ",")
		f := func(s string) float64 { v, _ := strconv.ParseFloat(s, 64); return v }
		r := oil.Reading{Hours: oil.Hours(f(c[0])), Level: oil.Quarts(f(c[1])), Added: oil.Quarts(f(c[2])),
			Conditions: oil.Conditions{SinceStop: oil.Is(oil.Minutes(20)), Stands: oil.StandsLevel, Scavenged: oil.Yes}}
		if c[4] == "same" {
			r.Drained = oil.DrainedSame
		}
		log = append(log, r)
	}
	want, err := oil.Run(b.engine.settings, log)
	if err != nil {
		t.Fatal(err)
	}
	if len(want) != len(b.answers.all) || len(want) != 21 {
		t.Fatalf("%d answers, want %d", len(b.answers.all), len(want))
	}
	for i := range want {
		if !reflect.DeepEqual(b.answers.all[i].Answer, want[i]) {
			t.Errorf("reading %d: %+v\nwant %+v", i, b.answers.all[i].Answer, want[i])
		}
	}
}
