package book

import (
	"strings"
	"testing"

	"linkrod/sync/plain"
)

func setting(v View, name string) OnFile {
	for _, s := range v.Settings {
		if s.Field == name {
			return s
		}
	}
	return OnFile{}
}

// Two people change the ceiling without having seen each other. Both values stay
// visible, what rests on them cannot be judged, and one entry that names both
// and says why closes it.
func TestDisagreementStaysOpenUntilSettled(t *testing.T) {
	a := engineFor(t, "0.60", "0.5", "20")
	for _, r := range []struct{ h, l string }{{"0.5", "16"}, {"5.0", "14"}, {"10.0", "12"}, {"15.0", "10"}} {
		a.oil(r.h, r.l, "", "")
	}
	ceiling := func(v, by string) string {
		return `{"value":{"v":"` + v + `","u":"qt/h"},"source":{"document":"Sheet","page":"2","typed_by":"` + by + `"}}`
	}
	var first Key
	for _, r := range a.records {
		if strings.Contains(string(r.Entry.Body), "ceiling") {
			first = r.Entry.Key()
		}
	}
	shared := sent(1, a.records...)
	b := &phone{t: t, device: "bb", seen: len(shared)}
	a.records, a.seen = nil, len(shared)
	k1 := a.setting("ceiling", ceiling("0.50", "Ann"), first)
	k2 := b.setting("ceiling", ceiling("0.70", "Ben"), first)
	all := append(append(shared, a.records...), b.records...)
	v := Open(all).View("00", Now{})
	s := setting(v, "ceiling")
	if s.Given || len(s.Others) != 2 || s.Others[0].Value != "0.50 qt/h" || s.Others[1].Value != "0.70 qt/h" || s.Value != "two values, not settled" {
		t.Errorf("the setting shows %+v", s)
	}
	if v.Rate.Verdict.Chip != Cant || v.Rate.Verdict.Reason != "“Oil ceiling” has two values on file. Settle which holds." || v.Plot.Ceiling != nil {
		t.Errorf("the verdict leans on %+v", v.Rate.Verdict)
	}
	if !v.Rate.Has {
		t.Error("the rate does not rest on the ceiling and is gone")
	}
	if want := "Oil ceiling has two values: 0.50 qt/h by aa and 0.70 qt/h by bb. Settle it with a reason."; v.Open[0].Words != want {
		t.Errorf("open: %q, want %q", v.Open[0].Words, want)
	}
	// A draft of the setting now settles: it names both and asks for a reason.
	draft := func(fields string) Drafted {
		in, err := plain.Parse([]byte(fields))
		if err != nil {
			t.Fatal(err)
		}
		return Open(all).Draft("setting", in, "Ann", Now{Day: "2026-05-01"})
	}
	const fields = `"field":"ceiling","value":"0.50","document":"Sheet","page":"2"`
	if d := draft(`{` + fields + `}`); d.Entry.Body != nil || d.Asks[0].Words != "Two people wrote two values. Why does this one hold?" {
		t.Errorf("without a reason: %+v", d)
	}
	d := draft(`{` + fields + `,"reason":"rev. C holds"}`)
	if d.Entry.Kind != "settle" || len(d.Entry.Refs) != 2 || d.Entry.Refs[0] != k1 || d.Entry.Refs[1] != k2 {
		t.Fatalf("the envelope is %+v", d.Entry)
	}
	all = append(all, Record{Entry: Entry{Device: "aa", N: 99, Kind: d.Entry.Kind, Refs: d.Entry.Refs, Body: d.Entry.Body}})
	v = Open(all).View("00", Now{})
	if s := setting(v, "ceiling"); !s.Given || len(s.Others) != 0 || s.Value != "0.50 qt/h" {
		t.Errorf("settled, it shows %+v", s)
	}
	if v.Rate.CeilingText != "0.50 qt/h" {
		t.Errorf("settled, the ceiling is %q", v.Rate.CeilingText)
	}
}

// The same edit by two people is no disagreement; a struck edit gives way to
// what it replaced; an edit of the stick takes the rate away while it is open.
func TestHeads(t *testing.T) {
	a := engineFor(t, "0.60", "0.5", "20")
	a.oil("0.5", "16", "", "")
	a.oil("5.0", "14", "", "")
	a.oil("9.0", "13", "", "")
	name := a.setting("name", `"One"`)
	shared := sent(1, a.records...)
	b := &phone{t: t, device: "bb", seen: len(shared)}
	a.records, a.seen = nil, len(shared)
	two := a.setting("name", `"Two"`, name)
	b.setting("name", `"Two"`, name)
	if v := Open(append(append(shared, a.records...), b.records...)).View("", Now{}); v.Name != "Two" || len(setting(v, "name").Others) != 0 {
		t.Errorf("the same edit twice: %+v", setting(v, "name"))
	}
	c := &phone{t: t, device: "aa", n: a.n, seen: a.seen, records: a.records}
	c.write("strike", `{"type":"strike","reason":"typing"}`, two)
	if v := Open(append(shared, c.records...)).View("", Now{}); v.Name != "One" {
		t.Errorf("the edit was struck out and the name is %q", v.Name)
	}
	b.setting("stick_step", `{"v":"0.25","u":"qt"}`)
	v := Open(append(shared, b.records...)).View("", Now{})
	if v.Rate.Has || v.Rate.Figure != "–" || v.Rate.Verdict.Chip != Cant {
		t.Errorf("two steps of the stick on file, and still %+v", v.Rate)
	}
}

// An edit that names a line which is no setting, or another setting's, replaces nothing.
func TestEditOfSomethingElse(t *testing.T) {
	p := engineFor(t, "", "0.5", "20")
	level := p.oil("1.0", "15", "", "")
	name := p.setting("name", `"One"`)
	p.setting("model", `"T7-B"`, level, name)
	v := Open(p.records).View("", Now{})
	if v.Name != "One" || setting(v, "model").Value != "T7-B" || len(v.Log) == 0 || v.Tank.LevelText != "15" {
		t.Errorf("%q, %+v, level %q", v.Name, setting(v, "model"), v.Tank.LevelText)
	}
}

// A strike stays readable, and the first one stands.
func TestStrikes(t *testing.T) {
	p := engineFor(t, "", "0.5", "20")
	wrong := p.oil("1.0", "15", "", "")
	first := p.write("strike", `{"type":"strike","reason":"wrong engine","by":"Ann"}`, wrong)
	p.write("strike", `{"type":"strike","reason":"again","by":"Ben"}`, wrong)
	p.write("strike", `{"type":"strike","reason":"no","by":"Ben"}`, first)
	p.write("strike", `{"type":"strike","reason":"no","by":"Ben"}`, Key{"aa", 1})
	v := Open(p.records).View("00", Now{})
	for _, l := range v.Log {
		switch l.Key {
		case wrong.String():
			if l.Struck != "wrong engine" || l.Words != "Level 15 quarts, nothing added" || l.Correctable || len(l.Fields) == 0 {
				t.Errorf("the struck line is %+v", l)
			}
		default:
			if l.Struck != "" {
				t.Errorf("%s (%s) is struck out", l.Key, l.Kind)
			}
		}
	}
	if v.Headline != "No reading yet" {
		t.Errorf("a struck level still counts: %q", v.Headline)
	}
}
