package main

import (
	"encoding/base64"
	"encoding/json"
	"os"
	"slices"
	"strings"
	"testing"

	"linkrod/radial/card/cardtext"
)

// loadDemo puts the demo shelf and an engine's book on the phone, as it comes with Linkrod.
func loadDemo(t *testing.T, engines ...string) {
	t.Helper()
	const dir = "../../testdata/shelves/demo"
	d, err := cardtext.ReadFolder(os.DirFS(dir), dir)
	if err != nil || len(d.Faults) > 0 {
		t.Fatal(err, d.Faults)
	}
	if ok, _, words := asked(t, "cards.load", `{"bundle":`+string(d.Bundle())+`}`); words != "" || !strings.Contains(string(ok), `"demo":true`) {
		t.Fatal(words, string(ok))
	}
	for _, e := range engines {
		fixture, err := os.ReadFile("../../testdata/demo/" + e + ".json")
		if err != nil {
			t.Fatal(err)
		}
		if _, _, words := asked(t, "book.load", `{"book":"`+e+`","fixture":`+string(fixture)+`}`); words != "" {
			t.Fatal(words)
		}
	}
}

// got asks and unpacks.
func got[T any](t *testing.T, name, args string) (v T) {
	t.Helper()
	ok, _, words := asked(t, name, args)
	if words != "" {
		t.Fatalf("%s: %s", name, words)
	}
	if err := json.Unmarshal(ok, &v); err != nil {
		t.Fatalf("%s: %v in %s", name, err, ok)
	}
	return v
}

type found struct {
	Found string
	Card  struct {
		Shelf, Card, Hash string
		Version           int
	}
	Why, Settle []string
}

// From the book to the number on the wrench: which torque card is for E2, its hold-down
// with the club wrench, the sum. 435 × 11/(11 + 3.25) = 335.8 in-lb is the scenario's
// worked figure.
func TestTheTorqueOfE2WithTheClubWrench(t *testing.T) {
	loadDemo(t, "e2")
	f := got[found](t, "cards.which", `{"book":"e2","kind":"torque"}`)
	if f.Found != "one" || f.Card.Card != "torque-t7b" {
		t.Fatalf("%+v", f)
	}
	use := got[struct {
		Mark, Proof string
		Typed       json.RawMessage
	}](t, "cards.use", `{"shelf":"demo","card":"torque-t7b","joint":"hold_down","tools":"demo","tool":"tool-cw14","model":"T7-B"}`)
	if use.Mark != "CW-14" || use.Proof != "" {
		t.Errorf("%+v", use)
	}
	sum := got[struct {
		Answers []struct{ Figure, Unit, Words string }
		Waits   string
	}](t, "sums.work", `{"id":"torque-wrench","demo":true,"typed":`+string(use.Typed)+`}`)
	if len(sum.Answers) == 0 || sum.Answers[0].Figure != "335.8" || sum.Answers[0].Unit != "in-lb" || !strings.Contains(sum.Answers[0].Words, "three hundred thirty-five point eight INCH pounds") {
		t.Errorf("%+v", sum)
	}
}

// A card is shown with its number in digits and words, its source line, and the word that
// it is invented.
func TestACardReadyToDraw(t *testing.T) {
	loadDemo(t)
	ok, _, words := asked(t, "cards.show", `{"shelf":"demo","card":"torque-t7b"}`)
	if words != "" {
		t.Fatal(words)
	}
	for _, want := range []string{
		`"demo":true`, `"line":"Fellside sheet T7-B, page 2, rev. C, 1 March 1994. Typed I. Varnham, checked T. Askerly.","checked":true`,
		`"label":"Cylinder hold-down screws"`, `"digits":"420 to 450` + "\u2009" + `in-lb"`, `"other":"35 to 37.5` + "\u2009" + `ft-lb"`,
		`"words":"four hundred twenty to four hundred fifty inch pounds"`, `"applies_words":["T7-B","serial numbers B-0621 to B-1866"]`,
	} {
		if !strings.Contains(string(ok), want) {
			t.Errorf("%s is not in %.600s", want, ok)
		}
	}
	if ok, _, words := asked(t, "cards.show", `{"shelf":"demo","card":"tool-cw09"}`); words != "" || !strings.Contains(string(ok), "not checked yet") || !strings.Contains(string(ok), "Not every number has been held against its page") {
		t.Error(words, string(ok))
	}
	for _, args := range []string{`{"shelf":"none","card":"x"}`, `{"shelf":"demo","card":"x"}`, `{"shelf":"demo","card":"torque-t7b","version":9}`, `{"shelf":"demo","card":"torque-t7b","hash":"00"}`} {
		if _, code, words := asked(t, "cards.show", args); code != "wrong" || words == "" {
			t.Errorf("%s: %s %s", args, code, words)
		}
	}
}

// The three engines of the scenario by their own books: E1 can't be judged, and says what
// was found on it and what would settle it; E2 and E3 resolve.
func TestTheScenariosEnginesByTheirBooks(t *testing.T) {
	loadDemo(t, "e1", "e2", "e3")
	for _, tt := range []struct{ book, kind, card string }{
		{"e2", "limits", "limits-t7b"}, {"e2", "run", "run-t7b-break-in"}, {"e3", "limits", "limits-t9c"}, {"e3", "torque", "torque-t9c"},
	} {
		if f := got[found](t, "cards.which", `{"book":"`+tt.book+`","kind":"`+tt.kind+`"}`); f.Found != "one" || f.Card.Card != tt.card {
			t.Errorf("%+v: %+v", tt, f)
		}
	}
	for _, kind := range []string{"limits", "torque", "run"} {
		if f := got[found](t, "cards.which", `{"book":"e1","kind":"`+kind+`"}`); f.Found != "cant" || f.Card.Card != "" || len(f.Why) == 0 || len(f.Settle) == 0 {
			t.Errorf("E1, %s: %+v", kind, f)
		} else {
			for _, want := range []string{"bore 5.375 in", "two flats", "ratio 5.9"} {
				if !strings.Contains(strings.Join(f.Why, " "), want) {
					t.Errorf("E1, %s: %q is not in %q", kind, want, f.Why)
				}
			}
		}
	}
}

// A look at an engine becomes entries of its book: the look, and a deviation for each part
// from elsewhere; the same look again leaves out what is on file.
func TestALookBecomesEntries(t *testing.T) {
	loadDemo(t)
	opened := `{"entry":{"device":"` + strings.Repeat("a", 32) + `","n":1,"kind":"fact","refs":[],"body":"eyJ0eXBlIjoiZW5naW5lIn0=","seen":0,"clock":{"wall":0,"zone":0}},"seq":1}`
	if _, _, words := asked(t, "book.load", `{"book":"x","entries":[`+opened+`]}`); words != "" {
		t.Fatal(words)
	}
	const seen = `[{"feature":"cylinders","state":"seen","values":["7"]},{"feature":"shaft","state":"seen","values":["taper and key"]},
		{"feature":"power_case","state":"cant"},{"feature":"hold_down","state":"seen","values":["12 studs 3/8-24"]},{"feature":"bore","state":"seen","values":["5.375"],"evidence":["p1"]}]`
	look := got[struct {
		Next       struct{ Feature, Why string }
		Candidates []struct {
			Name, Chance string
			Share        float64
		}
		Base      string
		Mixed     bool
		Statement string
		Drafts    []struct {
			Kind  string
			Draft json.RawMessage
		}
	}](t, "identify.look", `{"shelf":"demo","looked":`+seen+`}`)
	var kinds []string
	for _, d := range look.Drafts {
		kinds = append(kinds, d.Kind)
	}
	if !look.Mixed || look.Next.Feature == "" || len(look.Candidates) != 3 || !slices.Equal(kinds, []string{"identity", "deviation"}) {
		t.Fatalf("%+v", look)
	}
	var echoes []string
	for _, d := range look.Drafts {
		made := got[struct {
			Body json.RawMessage
			Echo string
			Asks []struct{ Words string }
		}](t, "book.draft", `{"book":"x","kind":"`+d.Kind+`","draft":`+string(d.Draft)+`,"me":"Ann","now":{"day":"2026-05-01","clock":"10:00"}}`)
		if made.Body == nil {
			t.Fatalf("%s: %+v", d.Kind, made.Asks)
		}
		echoes = append(echoes, made.Echo)
		n := map[string]string{"identity": "2", "deviation": "3"}[d.Kind]
		entry := `{"device":"` + strings.Repeat("a", 32) + `","n":` + n + `,"kind":"fact","refs":[],"body":"` + base64.StdEncoding.EncodeToString(made.Body) + `","seen":0,"clock":{"wall":0,"zone":0}}`
		if _, _, words := asked(t, "book.add", `{"book":"x","entry":`+entry+`,"seq":`+n+`}`); words != "" {
			t.Fatal(words)
		}
	}
	if !strings.HasPrefix(echoes[0], "Engine looked at. No one model has all that was seen.") || !strings.HasPrefix(echoes[1], "Deviation: barrels, bore 5.375") {
		t.Errorf("%q", echoes)
	}
	f := got[found](t, "cards.which", `{"book":"x","kind":"limits"}`)
	if f.Found != "cant" || !strings.Contains(strings.Join(f.Why, " "), "Barrels: bore 5.375") {
		t.Errorf("%+v", f)
	}
	again := got[struct {
		Body json.RawMessage
		Asks []struct{ Code string }
	}](t, "book.draft", `{"book":"x","kind":"deviation","draft":`+string(look.Drafts[1].Draft)+`,"me":"Ann","now":{"day":"2026-05-02"}}`)
	if again.Body != nil || len(again.Asks) != 1 || again.Asks[0].Code != "on-file" {
		t.Errorf("the same deviation again: %+v", again)
	}
	decided := got[struct {
		Body     json.RawMessage
		Envelope struct{ Kind string }
	}](t, "book.draft", `{"book":"x","kind":"deviation","draft":{"part":"barrels","governs":"T7-B","decided":"Fellside letter 25-02"},"me":"Ann","now":{"day":"2026-05-02"}}`)
	if decided.Envelope.Kind != "replace" || !strings.Contains(string(decided.Body), `"found":"bore 5.375`) {
		t.Errorf("the decision: %+v %s", decided, decided.Body)
	}
}
