package book

import (
	"os"
	"strings"
	"testing"

	"linkrod/radial/card"
)

func wireExample(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile("../../testdata/wire/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return strings.TrimSpace(string(text))
}

// The identity look and the deviation of the wire examples read aloud and come back to the
// last byte.
func TestIdentityEntriesComeBack(t *testing.T) {
	for name, say := range map[string]string{
		"book-identity.json":  "Engine looked at. It is a mixed build: T7-A (about 6 in 10), but barrels as on T7-B, no approval seen.",
		"book-deviation.json": "Deviation: barrels, bore 5.375 in, as on T7-B, no approval seen. The T7-B sheets govern it: Fellside letter 25-02, T. Askerly",
	} {
		text := wireExample(t, name)
		b, err := Decode([]byte(text))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if got := string(Encode(b)); got != text {
			t.Errorf("%s came back as\n%s", name, got)
		}
		if b.Say() != say {
			t.Errorf("%s says %q", name, b.Say())
		}
	}
}

func TestWrongIdentityEntries(t *testing.T) {
	for text, want := range map[string]string{
		`{"type":"identity","looked":[]}`:                                              "Nothing was looked at.",
		`{"type":"identity","looked":[{"feature":"bore","state":"perhaps"}]}`:          "What came of looking at “bore”?",
		`{"type":"identity","looked":[{"feature":"bore","state":"seen"}]}`:             "“bore” was seen, and it is not said as what.",
		`{"type":"identity","looked":[{"feature":7,"state":"cant"}]}`:                  "“feature” is not of the right kind.",
		`{"type":"identity","looked":[{"state":"cant"}],"day":"2026-02-30"}`:           "There is no day “2026-02-30”.",
		`{"type":"deviation","found":"bore 5.375"}`:                                    "Which part is from elsewhere?",
		`{"type":"deviation","part":"barrels"}`:                                        "What was found on the barrels?",
		`{"type":"deviation","part":"barrels","found":"x","governs":"T7-B"}`:           "Who decided that the T7-B sheets govern the barrels, and in which paper?",
		`{"type":"deviation","part":"barrels","found":"x","gone":true}`:                "Why is it no deviation any more?",
		`{"type":"deviation","part":"barrels","found":"x","day":"tomorrow"}`:           "There is no day “tomorrow”.",
		`{"type":"deviation","part":"barrels","found":{"v":"5.375","u":"in"},"of":""}`: "“found” is not of the right kind.",
	} {
		if _, err := Decode([]byte(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", text, err, want)
		}
	}
}

// told is a book of bodies, each with the entries it replaces by their numbers.
func told(t *testing.T, bodies ...string) *Book {
	t.Helper()
	var records []Record
	for i, text := range bodies {
		kind, refs := "fact", []Key(nil)
		text, after, replaces := strings.Cut(text, " replaces ")
		if replaces {
			kind = "replace"
			for _, n := range strings.Fields(after) {
				refs = append(refs, Key{"d", atoi(n)})
			}
		}
		records = append(records, Record{Entry: Entry{Device: "d", N: i + 1, Kind: kind, Refs: refs, Body: []byte(text)}, Seq: i + 1})
	}
	return Open(records)
}

const opening, isA = `{"type":"engine","demo":true,"today":{"day":"2025-11-09"}}`, `{"type":"setting","field":"model","value":"T7-A"}`

// What cards are asked with: the model and serial number on file, what was seen, and the
// deviations that stand.
func TestTheEngineForCards(t *testing.T) {
	const (
		found   = `{"type":"deviation","part":"barrels","found":"bore 5.375 in","fits":["T7-B"]}`
		decided = `{"type":"deviation","part":"barrels","found":"bore 5.375 in","governs":"T7-B","decided":"Fellside letter"} replaces 3`
		other   = `{"type":"deviation","part":"barrels","found":"bore 5.375 in","governs":"T7-A","decided":"another letter"} replaces 3`
		gone    = `{"type":"deviation","part":"barrels","found":"bore 5.375 in","gone":true,"reason":"A barrels fitted"} replaces 4`
		look    = `{"type":"identity","looked":[{"feature":"shaft","state":"seen","values":["taper and key"]},{"feature":"bore","state":"cant"}],"base":"T7-A"}`
	)
	e := told(t, opening, isA, found, decided).ForCards()
	if len(e.Deviations) != 1 || !e.Deviations[0].Decided() || !e.Demo || e.Model != "T7-A" {
		t.Errorf("decided: %+v", e)
	}
	if e := told(t, opening, isA, found).ForCards(); len(e.Deviations) != 1 || e.Deviations[0].Decided() {
		t.Errorf("found: %+v", e)
	}
	// Two who decided differently without having seen each other: nobody has.
	e = told(t, opening, isA, found, decided, other).ForCards()
	if len(e.Deviations) != 2 || e.Deviations[0].Decided() || e.Deviations[1].Decided() {
		t.Errorf("decided twice: %+v", e)
	}
	if e := told(t, opening, isA, found, decided, gone).ForCards(); len(e.Deviations) != 0 {
		t.Errorf("gone: %+v", e)
	}
	struck := `{"type":"strike","reason":"wrong engine"}`
	b := Open(append(recordsOf(told(t, opening, isA, found)), Record{Entry: Entry{Device: "d", N: 4, Kind: "strike", Refs: []Key{{"d", 3}}, Body: []byte(struck)}, Seq: 4}))
	if e := b.ForCards(); len(e.Deviations) != 0 {
		t.Errorf("struck: %+v", e)
	}
	e = told(t, opening, look).ForCards()
	if e.Model != "" || e.Looked != "T7-A" || len(e.Has) != 1 || e.Has[0] != (card.Trait{Feature: "shaft", Value: "taper and key"}) {
		t.Errorf("looked at, nothing on file: %+v", e)
	}
	two := told(t, opening, isA, `{"type":"setting","field":"model","value":"T7-B"}`)
	if e := two.ForCards(); len(e.Open) != 1 || e.Open[0] != "model" {
		t.Errorf("two models on file: %+v", e)
	}
}

func recordsOf(b *Book) (all []Record) {
	for _, l := range b.lines {
		all = append(all, l.Record)
	}
	return all
}
