package book

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"linkrod/radial/quantity"
)

// Bodies and how they read aloud.
var bodies = []struct{ json, say string }{
	{`{"type":"engine"}`, "Book opened"},
	{`{"type":"engine","demo":true,"today":{"day":"2025-11-09","clock":"16:00"}}`, "Demo engine. Every number is invented"},
	{`{"type":"oil","hours":{"v":"523.60","u":"h"},"level":{"v":"15","u":"qt"}}`, "Level 15 quarts, nothing added"},
	{`{"type":"oil","hours":{"v":"541.6","u":"h"},"level":{"v":"13.50","u":"l"},"added":{"v":"1","u":"qt"},"add_how":"measured","minutes":{"v":"20","u":"min"},"temp":{"v":"150","u":"F"},"stands":"tail","scavenged":"yes","foam":"no","note":"by torch","day":"2025-10-06","clock":"18:40","by":"Ann","late":true,"checked":["hours_back"]}`,
		"Level 13.50 litres, 1 quart added (by torch)"},
	{`{"type":"drain","hours":{"v":"31.0","u":"h"},"level_before":{"v":"15","u":"qt"},"same":true,"note":"oil changed"}`, "Drained and refilled to the same reading, 15 quarts (oil changed)"},
	{`{"type":"drain","hours":{"v":"31.0","u":"h"},"level_before":{"v":"15","u":"qt"},"level_after":{"v":"14","u":"qt"}}`, "Drained and refilled, now 14 quarts, before it 15 quarts"},
	{`{"type":"drain","hours":{"v":"31.0","u":"h"}}`, "Drained and refilled, the level after was not read"},
	{`{"type":"step_closed","hours":{"v":"17.0","u":"h"},"found":"stuck ring"}`, "Step explained: stuck ring"},
	{`{"type":"meter","out":{"v":"9871.3","u":"h"},"in":{"v":"502.0","u":"h"}}`, "Meter changed: 9871.3 out, 502.0 in"},
	{`{"type":"compression","out_of":{"v":"80","u":"psi"},"orifice":{"v":"0.060","u":"in"},"warm":"hot","values":{"u":"psi","at":{"2":"77","1":"76"}},"hours":{"v":"527.8","u":"h"}}`, "Compression over 80: 76 77"},
	{`{"type":"note","text":"Screens: 4 flakes.","hours":{"v":"513.1","u":"h"}}`, "Screens: 4 flakes."},
	{`{"type":"strike","reason":"wrong engine","by":"Ann"}`, "Struck out: wrong engine"},
	{`{"type":"setting","field":"name","value":"B-0711"}`, "Name: B-0711"},
	{`{"type":"setting","field":"cylinders","value":"7"}`, "Cylinders: 7"},
	{`{"type":"setting","field":"master","value":null}`, "Master rod in: not known; no mirror cylinders are shown"},
	{`{"type":"setting","field":"since","value":{"unknown":true}}`, "Hours since, at that point: not known; a rate only, no verdict on bedding in"},
	{`{"type":"setting","field":"meter","value":{"which":"tach","reading":{"v":"502.0","u":"h"}}}`, "Meter at that point: tach 502.0 h"},
	{`{"type":"setting","field":"ceiling","value":{"value":{"v":"0.60","u":"qt/h"},"source":{"document":"Fellside sheet T7-B","page":"2","revision":"C","typed_by":"I. Varnham"}}}`,
		"Oil ceiling: 0.60 qt/h, Fellside sheet T7-B, page 2, rev. C"},
	{`{"type":"setting","field":"ceiling","value":null,"reason":"sheet withdrawn"}`, "Oil ceiling: No limit on file (sheet withdrawn)"},
	{`{"type":"setting","field":"overnight","value":{"look":{"v":"0.5","u":"qt"},"stop":{"v":"1.5","u":"qt"},"source":{"document":"D","page":"2","typed_by":"I"}}}`, "Oil gone while standing: look at 0.5 qt, stop at 1.5 qt, D, page 2"},
	{`{"type":"setting","field":"blades","value":{"count":"8","source":{"document":"D","page":"1","typed_by":"I"}}}`, "Blades to pull through: 8 blades, D, page 1"},
	{`{"type":"setting","field":"colour","value":"blue"}`, "Setting of a newer Linkrod (colour)"},
	{`{"type":"glow","rpm":1800}`, "Written by a newer Linkrod (glow)"},
	{`{"type":"oil","hours":{"v":"1","u":"h"},"level":{"v":"15","u":"qt"},"colour":"dark"}`, "Level 15 quarts, nothing added"},
}

func TestBodiesReadAloud(t *testing.T) {
	for _, c := range bodies {
		b, err := Decode([]byte(c.json))
		if err != nil {
			t.Errorf("%s: %v", c.json, err)
			continue
		}
		if got := b.Say(); got != c.say {
			t.Errorf("%s\nsays %q, want %q", c.json, got, c.say)
		}
	}
}

// What is decoded and encoded again is the same to the last digit, but for what
// this program does not know.
func TestBodiesComeBack(t *testing.T) {
	for _, c := range bodies {
		b, err := Decode([]byte(c.json))
		if _, newer := b.(Newer); newer || err != nil || strings.Contains(c.json, `"colour":"dark"`) {
			continue
		}
		if got := string(Encode(b)); got != c.json {
			t.Errorf("%s\nbecame %s", c.json, got)
		}
	}
}

func TestBodiesThatCannotBe(t *testing.T) {
	oil := func(rest string) string { return `{"type":"oil","hours":{"v":"1.0","u":"h"}` + rest + `}` }
	setting := func(field, value string) string {
		return `{"type":"setting","field":"` + field + `","value":` + value + `}`
	}
	for _, c := range []struct{ json, words string }{
		{``, "This line cannot be read: it is not JSON from byte 0."},
		{`{"type":"oil"`, "This line cannot be read: it is not JSON from byte 13."},
		{`[]`, "This line cannot be read: it does not say what it is."},
		{`{"kind":"oil"}`, "This line cannot be read: it does not say what it is."},
		{`{"type":5}`, "This line cannot be read: it does not say what it is."},
		{`{"type":"oil"}`, "What does the stick read? An oil line needs its level."},
		{oil(``), "What does the stick read? An oil line needs its level."},
		{`{"type":"oil","level":{"v":"15","u":"qt"}}`, "At how many meter hours? A line without them cannot be placed."},
		{oil(`,"level":15`), "This line cannot be read: “level” is not of the right kind."},
		{oil(`,"level":{"v":15,"u":"qt"}`), "This line cannot be read: “v” is not of the right kind."},
		{oil(`,"level":{"v":"15"}`), "This line cannot be read: a measured value needs a figure and its unit."},
		{oil(`,"level":{"v":"1.5e1","u":"qt"}`), "This line cannot be read: a measured value needs a figure and its unit."},
		{oil(`,"level":{"v":"15","u":"psi"}`), "The level is given as 15 psi, which is not a volume."},
		{oil(`,"level":{"v":"15","u":"bucket"}`), "The level is given as 15 bucket, which is not a volume."},
		{oil(`,"level":{"v":"15","u":"qt"},"added":{"v":"-1","u":"qt"}`), "Added reads −1 qt. Oil taken out is a drain, its own entry."},
		{oil(`,"level":{"v":"15","u":"qt"},"temp":{"v":"20","u":"min"}`), "The oil temperature is given as 20 min, which is not a temperature."},
		{oil(`,"level":{"v":"15","u":"qt"},"day":"2025-02-30"`), "There is no day “2025-02-30”. A day is written 2025-10-06."},
		{oil(`,"level":{"v":"15","u":"qt"},"clock":"25:00"`), "There is no time “25:00”. A time is written 18:40."},
		{`{"type":"oil","hours":{"v":"-1","u":"h"},"level":{"v":"15","u":"qt"}}`, "The meter reads −1. A meter has no hours below nought."},
		{`{"type":"oil","hours":{"v":"60","u":"min"},"level":{"v":"15","u":"qt"}}`, "The meter reading is given as 60 min. It is kept in hours."},
		{`{"type":"drain","hours":{"v":"1","u":"h"},"same":true}`, "Refilled to the same reading: which reading?"},
		{`{"type":"step_closed","hours":{"v":"1","u":"h"}}`, "What was found? A step is closed with what explains it."},
		{`{"type":"compression","hours":{"v":"1","u":"h"},"out_of":{"v":"80","u":"psi"},"values":{"u":"psi","at":{}}}`, "A compression set needs at least one cylinder."},
		{`{"type":"compression","hours":{"v":"1","u":"h"},"out_of":{"v":"80","u":"psi"},"values":{"u":"psi","at":{"0":"7"}}}`, "Read: there is no cylinder “0”."},
		{`{"type":"note"}`, "The note is empty. Write what was seen or done."},
		{`{"type":"strike"}`, "Why is it struck out? The reason stays with the line."},
		{setting("name", `""`), "Name is empty."},
		{setting("name", `7`), "This line cannot be read: “value” is not of the right kind."},
		{setting("cylinders", `"8"`), "Cylinders is one of 5, 7 or 9, not “8”."},
		{setting("tank_capacity", `{"v":"0","u":"qt"}`), "Tank holds reads 0 qt. It must be more than nought."},
		{setting("tank_capacity", `{"v":"20","u":"h"}`), "Tank holds is given as 20 h, which is not a volume."},
		{setting("since", `{"v":"90","u":"min"}`), "Hours since, at that point is given as 90 min. It is kept in hours."},
		{setting("meter", `{"which":"watch","reading":{"v":"1","u":"h"}}`), "Which meter: tach hours or clock hours?"},
		{setting("ceiling", `{"value":{"v":"0.6","u":"qt/h"}}`), "Which document is it from? A limit is kept with the paper it stands on."},
		{setting("ceiling", `{"value":{"v":"0.6","u":"qt/h"},"source":{"document":"D"}}`), "Which page of D? A limit is kept with its page."},
		{setting("ceiling", `{"value":{"v":"0.6","u":"qt/h"},"source":{"document":"D","page":"2"}}`), "Who typed it from the paper? A limit carries that name."},
		{setting("overnight", `{"look":{"v":"1.5","u":"qt"},"stop":{"v":"1","u":"l"},"source":{"document":"D","page":"2","typed_by":"I"}}`), "Look at 1.5 qt comes after stop at 1 L. Look is the smaller of the two."},
		{setting("blades", `{"count":"eight","source":{"document":"D","page":"2","typed_by":"I"}}`), "“eight” is not a number of blades."},
		{`{"type":"setting","field":"name"}`, "Name: no value is given."},
	} {
		_, err := Decode([]byte(c.json))
		if err == nil || err.Error() != c.words {
			t.Errorf("%s\nsays %v, want %q", c.json, err, c.words)
		}
	}
}

// A line that cannot be read, or was written by a newer Linkrod, is kept, shown
// with everything in it, and never counted.
func TestNothingIsDropped(t *testing.T) {
	p := engineFor(t, "0.60", "0.5", "20")
	p.oil("1.0", "15", "", "")
	p.write("fact", `{"type":"glow","rpm":1800}`)
	p.write("fact", `{"type":"oil","hours":{"v":"2.0","u":"h"},"level":15}`)
	v := Open(p.records).View("00", Now{})
	if len(v.Log) != len(p.records) {
		t.Fatalf("%d lines of %d are shown", len(v.Log), len(p.records))
	}
	torn, newer := v.Log[0], v.Log[1]
	if newer.Words != "Written by a newer Linkrod (glow)" || newer.Fields[0].Value != `{"type":"glow","rpm":1800}` || newer.Note == "" {
		t.Errorf("the newer line: %+v", newer)
	}
	if torn.Words != "A line that cannot be read" || torn.Fields[0].Value != `{"type":"oil","hours":{"v":"2.0","u":"h"},"level":15}` ||
		torn.Note != "This line cannot be read: “level” is not of the right kind." {
		t.Errorf("the torn line: %+v", torn)
	}
	if len(v.Table) != 1 {
		t.Errorf("%d readings count, want 1", len(v.Table))
	}
	said := ""
	for _, o := range v.Open {
		said += o.Words + "\n"
	}
	for _, want := range []string{"1 line was written by a newer Linkrod. Kept, not counted.", "1 line cannot be read. Kept, not counted."} {
		if !strings.Contains(said, want) {
			t.Errorf("open items lack %q:\n%s", want, said)
		}
	}
}

// What is said about a unit must be in the unit's words, and a value given must
// show as typed: 26.50 stays 26.50.
func TestTypedStaysTyped(t *testing.T) {
	p := engineFor(t, "", "0.5", "20")
	p.oil("26.50", "15.0", "1.00", "")
	line := Open(p.records).View("00", Now{}).Log[0]
	got := map[string]string{}
	for _, f := range line.Fields {
		got[f.Label] = f.Value
	}
	for label, want := range map[string]string{"Meter": "26.50 h", "Level before": "15.0 qt", "Added": "1.00 qt", "Oil temperature": "not given", "How it was measured": "not given"} {
		if got[label] != want {
			t.Errorf("%s is %q, want %q", label, got[label], want)
		}
	}
	if line.Hours != "26.50" {
		t.Errorf("hours %q", line.Hours)
	}
}

// Everything that a body of ours can say is read back by encoding/json as well,
// a general-purpose library.
func TestEncodeIsJSON(t *testing.T) {
	b := &Oil{Hours: quantity.Of("1.0", quantity.UnitH), Level: quantity.Of("15", quantity.UnitQt), Note: "a \"b\"\n\x01é", Checked: []string{"x"}}
	var got map[string]any
	if err := json.Unmarshal(Encode(b), &got); err != nil || got["note"] != "a \"b\"\n\x01é" {
		t.Errorf("%v, %v", got, err)
	}
}

func FuzzDecodeBody(f *testing.F) {
	for _, c := range bodies {
		f.Add([]byte(c.json))
	}
	for _, name := range []string{"e1", "e2", "e3"} {
		data, err := os.ReadFile("../../testdata/demo/" + name + ".json")
		if err != nil {
			f.Fatal(err)
		}
		fixture, err := ReadFixture(data)
		if err != nil {
			f.Fatal(err)
		}
		for _, e := range fixture.Entries {
			f.Add(e.Body)
		}
	}
	p := engineFor(f, "0.60", "0.5", "20")
	p.oil("1.0", "15", "", "")
	f.Fuzz(func(t *testing.T, data []byte) {
		b, err := Decode(data)
		if err == nil {
			once := Encode(b)
			again, err := Decode(once)
			if _, newer := b.(Newer); !newer && (err != nil || string(Encode(again)) != string(once)) {
				t.Errorf("%s\nis written %s and read back with %v", data, once, err)
			}
			if b.Say() == "" {
				if n, ok := b.(*Note); !ok || strings.TrimSpace(n.Text) != "" {
					t.Errorf("%s says nothing", data)
				}
			}
		} else if _, ok := err.(Wrong); !ok {
			t.Errorf("%s: the error %T is no sentence", data, err)
		}
		// Any body at all, in a book, leaves the rest of it standing.
		q := &phone{t: t, device: "zz", records: p.records}
		q.records = append(q.records[:len(q.records):len(q.records)], Record{Entry: Entry{Device: "zz", N: 1, Kind: "fact", Body: data}})
		v := Open(q.records).View("00", Now{Day: "2026-01-01"})
		if len(v.Log) != len(q.records) || !json.Valid(v.JSON()) {
			t.Errorf("%s breaks the book", data)
		}
	})
}
