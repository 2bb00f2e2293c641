package card_test

import (
	"os"
	"strconv"
	"strings"
	"testing"

	"linkrod/radial/card"
	"linkrod/radial/card/cardtext"
	"linkrod/sync/plain"
)

// unchecked is the card of diff_test.go before a second person has looked.
var unchecked = strings.Replace(old, ", checked_by: C. Dorn", "", 1)

func body(t *testing.T, text string) plain.Value {
	t.Helper()
	v, err := plain.Parse([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// publish is the entry that puts a text on a shelf.
func publish(t *testing.T, seq int, author, text, before, reason string) card.Record {
	t.Helper()
	r := cardtext.Read("x.yaml", []byte(text), card.Rules{})
	var was *card.Card
	if before != "" {
		c := of(t, before)
		was = &c
	}
	b, err := r.Publish(was, reason, author, "2026-05-01")
	if err != nil {
		t.Fatal(err, r.Faults)
	}
	return card.Record{Seq: seq, Author: author, Body: body(t, string(b))}
}

func entry(t *testing.T, seq int, author, text string) card.Record {
	t.Helper()
	return card.Record{Seq: seq, Author: author, Body: body(t, text)}
}

func shown(t *testing.T, s *card.Shelf, n int) plain.Value {
	t.Helper()
	c, ok := s.Find("limits-x", n)
	if !ok {
		t.Fatalf("no version %d", n)
	}
	var w plain.Writer
	c.Write(&w, s)
	return body(t, string(w.Bytes()))
}

func wrote(v plain.Value) string { return string(v.Raw()) }

// A shelf is told by its entries: what is out, what changed, and every version that ever
// was stays readable.
func TestAShelfOfEntries(t *testing.T) {
	second := strings.NewReplacer(`new_max: "4.5"`, `new_max: "5.0"`, "version: 1", "version: 2").Replace(old)
	draft := strings.NewReplacer("version: 1", "version: 3", "state: published", "state: draft").Replace(old)
	records := []card.Record{
		entry(t, 1, "Ilse", `{"type":"shelf","title":"Fellside"}`),
		publish(t, 2, "Ilse", old, "", ""),
		publish(t, 3, "Ilse", second, old, "guides measured anew"),
		publish(t, 4, "Ilse", draft, old, "trying"),
		entry(t, 5, "Ilse", `{"type":"note","text":"something of a newer Linkrod"}`),
	}
	s := card.Open("s", records)
	if s.Title != "Fellside" || len(s.Problems) != 0 {
		t.Errorf("%+v", s)
	}
	if c := s.Current(); len(c) != 1 || c[0].Version != 2 {
		t.Errorf("out are %+v", c)
	}
	// A reading judged by version 1 finds it, with its own limit and that a newer one is out.
	v := shown(t, &s, 1)
	if n, _ := v.Get("newer").Int(); n != 2 || v.Get("banner").Text() != "Superseded" || !strings.Contains(wrote(v), `"new_max":"4.5"`) {
		t.Errorf("version 1: %.300s", wrote(v))
	}
	if got := v.Get("says").Items()[0].Text(); got != "Version 2 is out: guides measured anew." {
		t.Error(got)
	}
	if v := shown(t, &s, 3); v.Get("banner").Text() != "Draft" {
		t.Error("a draft doesn't say so")
	}
	if len(s.Changes) != 2 || s.Changes[1].Words != "X limits, version 2: guides measured anew" || s.Changes[1].Seq != 3 || len(s.Changes[1].What) != 1 || s.Changes[1].What[0] != "exhaust clearance: new maximum 4.5 to 5.0 thou" {
		t.Errorf("%+v", s.Changes)
	}

	s = card.Open("s", append(records, entry(t, 6, "Ilse", `{"type":"card_withdrawn","card":"limits-x","version":2,"reason":"the guides were the wrong ones","by":"Ilse"}`)))
	if c := s.Current(); len(c) != 1 || c[0].State != "withdrawn" {
		t.Errorf("withdrawn: %+v", c)
	}
	if f := card.Which(card.Engine{Model: "X", Serial: "1187"}, card.Want{Kind: "limits"}, s.Current()); f.State != card.None {
		t.Errorf("a withdrawn card applies: %+v", f)
	}
	v = shown(t, &s, 0)
	if v.Get("banner").Text() != "Withdrawn" || !strings.Contains(wrote(v), `"new_max":"5.0"`) || v.Get("says").Items()[0].Text() != "This card was withdrawn: the guides were the wrong ones." {
		t.Errorf("%.300s", wrote(v))
	}
}

// What the ledger took first under a number stands; another text is told and lost nowhere.
func TestAVersionIsWhatCameFirst(t *testing.T) {
	other := strings.Replace(old, `new_max: "4.5"`, `new_max: "5.0"`, 1)
	s := card.Open("s", []card.Record{publish(t, 1, "Ilse", old, "", ""), publish(t, 2, "Tobin", other, "", ""), publish(t, 3, "Ilse", old, "", "")})
	if len(s.Problems) != 1 || !strings.Contains(s.Problems[0], "Version 1 of X limits was published twice and differently.") {
		t.Errorf("%q", s.Problems)
	}
	if v := shown(t, &s, 1); !strings.Contains(wrote(v), `"new_max":"4.5"`) {
		t.Errorf("%.300s", wrote(v))
	}
}

// Two people for every number: the second is another account and another name than whoever
// typed it, and has seen this text.
func TestTwoPeople(t *testing.T) {
	hash := cardtext.Hash([]byte(unchecked))
	check := func(author, by, hash, sources string) (line string, problems []string) {
		s := card.Open("s", []card.Record{publish(t, 1, "Ilse Varnham", unchecked, "", ""),
			entry(t, 2, author, `{"type":"card_check","card":"limits-x","version":1,"hash":"`+hash+`","by":"`+by+`"`+sources+`}`)})
		return shown(t, &s, 1).Get("sources").Items()[0].Get("line").Text(), s.Problems
	}
	const not = "Sheet X, page 1, rev. C. Typed A. Bell, not checked yet."
	for _, tt := range []struct{ author, by, hash, sources, line string }{
		{"Tobin", "T. Askerly", hash, "", "Sheet X, page 1, rev. C. Typed A. Bell, checked T. Askerly (account of Tobin)."},
		{"Tobin", "", hash, `,"sources":["fw"]`, "Sheet X, page 1, rev. C. Typed A. Bell, checked Tobin."},
		{"A. Bell", "T. Askerly", hash, "", not}, // typed it, by the account
		{"Tobin", "T. Askerly", hash, `,"sources":["other"]`, not},
		{"Tobin", "a. bell", hash, "", not},                          // typed it
		{"ilse varnham", "T. Askerly", hash, "", not},                // published it, by the account
		{"Tobin", "T. Askerly", strings.Repeat("0", 64), "", not},    // another text
		{"Tobin", "T. Askerly", cardtext.Hash([]byte(old)), "", not}, // another text
	} {
		line, problems := check(tt.author, tt.by, tt.hash, tt.sources)
		if line != tt.line {
			t.Errorf("%+v: %s %q", tt, line, problems)
		}
	}
}

// A card of a newer Linkrod is told of and judges nothing: nobody here can hold its words to
// its figures.
func TestACardNobodyHereCanCheck(t *testing.T) {
	newer := publish(t, 1, "Ilse", old, "", "")
	newer.Schema = 2
	s := card.Open("s", []card.Record{newer})
	if len(s.Current()) != 0 || len(s.Problems) != 1 || !strings.Contains(s.Problems[0], "newer Linkrod") {
		t.Errorf("%+v %q", s.Current(), s.Problems)
	}
}

// A tool that is out says with whom, and its loans stay.
func TestLoans(t *testing.T) {
	loan := func(seq int, rest string) card.Record {
		return entry(t, seq, "Ilse", `{"type":"loan","card":"limits-x",`+rest+`}`)
	}
	records := []card.Record{publish(t, 1, "Ilse", old, "", ""), loan(2, `"out":true,"who":"Marta","day":"2026-05-01","condition":"sharp"`), loan(3, `"out":false,"who":"Marta","day":"2026-05-09"`), loan(4, `"out":true,"who":"Osric"`)}
	s := card.Open("s", records)
	if got := wrote(shown(t, &s, 1).Get("loans")); got != `[{"words":"Out to Osric.","out":true},{"words":"Back from Marta, 9 May 2026.","out":false},{"words":"Out to Marta, 1 May 2026. Sharp.","out":false}]` {
		t.Error(got)
	}
}

// A version that changes without a reason is not published.
func TestANewVersionHasAReason(t *testing.T) {
	r := cardtext.Read("x.yaml", []byte(strings.Replace(old, "version: 1", "version: 2", 1)), card.Rules{})
	was := of(t, old)
	if _, err := r.Publish(&was, "", "Ilse", ""); err == nil || !strings.HasPrefix(err.Error(), "Why is X limits published anew?") {
		t.Error(err)
	}
	if no := r.Next("x.yaml", was); no != nil {
		t.Error(no)
	}
	if no := cardtext.Read("x.yaml", []byte(strings.Replace(old, "max: 190", "max: 195", 1)), card.Rules{}).Next("x.yaml", was); no == nil || no.Line != 4 {
		t.Error(no)
	}
}

// The wire example of a shelf's entries is read, each of its types.
func TestTheWireExampleOfAShelf(t *testing.T) {
	text, err := os.ReadFile("../../testdata/wire/shelf-1.json")
	if err != nil {
		t.Fatal(err)
	}
	var records []card.Record
	for i, v := range body(t, string(text)).Items() {
		author := "Ilse"
		if v.Get("type").Text() == "card_check" {
			author = "Tobin"
		}
		records = append(records, card.Record{Seq: i + 1, Author: author, Body: v})
	}
	s := card.Open("s", records)
	c, ok := s.Find("note-x", 1)
	if !ok || s.Title != "Fellside" || !s.Demo || len(s.Problems) != 0 || c.State != "withdrawn" || c.Gone != "said elsewhere" || len(s.Changes) != 3 {
		t.Errorf("%+v %+v", s, c)
	}
	// Its text is what its hash says, and reads as what its JSON says.
	b := records[1].Body
	r := cardtext.Read("x.yaml", []byte(b.Get("text").Text()), card.Rules{Demo: true})
	if len(r.Faults) > 0 || r.Card.Hash != b.Get("hash").Text() || string(card.Prepare(r.Card.JSON)) != wrote(b.Get("json")) {
		t.Errorf("%v %s\n%s", r.Faults, card.Prepare(r.Card.JSON), wrote(b.Get("json")))
	}
}

// A card of a newer Linkrod is told and keeps no other from being read.
func TestACardOfANewerLinkrod(t *testing.T) {
	s, err := card.ReadBundle(body(t, `{"shelf":"s","title":"S","cards":[{"hash":"1","json":{"card":"x","kind":"hologram","title":"X","version":1,"state":"published"}},
		{"hash":"2","json":{"card":"y","kind":"note","title":"Y","version":1,"state":"published","body":{"paragraphs":["Y."]}}}]}`))
	if err != nil || len(s.Problems) != 1 || len(s.Current()) != 1 || s.Current()[0].ID != "y" {
		t.Errorf("%v %+v", err, s)
	}
	if _, err := card.ReadBundle(body(t, `{"cards":[]}`)); err == nil {
		t.Error("a shelf without a name")
	}
}

// Two thousand cards are a list in no time.
func BenchmarkTwoThousandCards(b *testing.B) {
	var w plain.Writer
	w.Begin('{')
	w.Text("shelf", "s")
	w.Open("cards", '[')
	for i := range 2000 {
		w.Begin('{')
		w.Text("hash", "h")
		w.Raw("json", []byte(`{"card":"c`+strconv.Itoa(i)+`","kind":"note","title":"Card `+strconv.Itoa(i)+`","version":1,"state":"published","body":{"paragraphs":["Said once."]}}`))
		w.End('}')
	}
	w.End(']')
	w.End('}')
	v, err := plain.Parse(w.Bytes())
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		s, err := card.ReadBundle(v)
		if err != nil || len(s.Current()) != 2000 {
			b.Fatal(err)
		}
	}
}
