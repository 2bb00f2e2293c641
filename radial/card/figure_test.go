package card_test

import (
	"os"
	"strings"
	"testing"

	"linkrod/radial/card"
	"linkrod/radial/card/cardtext"
	"linkrod/sync/plain"
)

// A number is shown as the sheet has it, in the unit it gets confused with, and as it is
// said on the telephone. 12 in-lb to the ft-lb and 1000 thou to the inch by definition.
func TestFiguresAreSaid(t *testing.T) {
	const thin = "\u2009"
	for _, tt := range []struct{ json, digits, other, words string }{
		{`{"v":"435","u":"in_lb"}`, "435" + thin + "in-lb", "36.25" + thin + "ft-lb", "four hundred thirty-five inch pounds"},
		{`{"from":"420","to":"450","u":"in_lb"}`, "420 to 450" + thin + "in-lb", "35 to 37.5" + thin + "ft-lb", "four hundred twenty to four hundred fifty inch pounds"},
		{`{"v":"480","u":"ft_lb"}`, "480" + thin + "ft-lb", "5760" + thin + "in-lb", "four hundred eighty foot pounds"},
		{`{"new_min":"-0.5","new_max":"0.3","wear":"2.5","u":"thou"}`, "new \u22120.5 to 0.3, wear limit 2.5" + thin + "thou", "new \u22120.0005 to 0.0003, wear limit 0.0025" + thin + "in", "new minus point five to point three, wear limit two point five thou"},
		{`{"look":"0.5","stop":"1.5","u":"qt"}`, "look at 0.5, stop at 1.5" + thin + "qt", "", "look at point five, stop at one point five quarts"},
		{`{"v":"12","from":"10","to":"14","u":"thou"}`, "12, accepted 10 to 14" + thin + "thou", "0.012, accepted 0.01 to 0.014" + thin + "in", "twelve, accepted ten to fourteen thou"},
		{`{"max":"190","u":"F"}`, "at most 190" + thin + "°F", "", "at most one hundred ninety degrees Fahrenheit"},
		{`{"min":"65","u":"psi"}`, "at least 65" + thin + "psi", "", "at least sixty-five psi"},
		{`{"v":"26","u":"deg"}`, "26°", "", "twenty-six degrees"},
		{`{"v":"6.1"}`, "6.1", "", ""},
		{`{"says":"1-3-5-7-2-4-6"}`, "1-3-5-7-2-4-6", "", ""},
		{`{"list":["150","300","final"],"u":"in_lb"}`, "150, 300, final" + thin + "in-lb", "12.5, 25, final" + thin + "ft-lb", "one hundred fifty, three hundred, final inch pounds"},
	} {
		c := card.Card{Body: body(t, `{"items":[`+strings.Replace(tt.json, "{", `{"id":"x","src":"s",`, 1)+`]}`)}
		f := card.Figures(c)
		if len(f) != 1 {
			t.Fatalf("%s: %d figures", tt.json, len(f))
		}
		if f[0].Digits() != tt.digits || f[0].Other() != tt.other || f[0].Words() != tt.words || f[0].At != "/body/items/0" || f[0].Src != "s" {
			t.Errorf("%s:\n%q\n%q\n%q %s", tt.json, f[0].Digits(), f[0].Other(), f[0].Words(), f[0].At)
		}
	}
}

// Every number of every card that ships has a source on its card, and every card of the
// demo says that it is invented. A card that is prepared is still the card it was.
func TestEveryNumberHasItsSource(t *testing.T) {
	s := demo(t)
	numbers := 0
	for _, c := range s.Current() {
		if !c.Demo {
			t.Errorf("%s doesn't say DEMO", c.ID)
		}
		for _, f := range card.Figures(c) {
			numbers++
			if src, ok := c.Source(f.Src); !ok || src.Document == "" || src.TypedBy == "" {
				t.Errorf("%s %s: no source", c.ID, f.At)
			}
			if f.Label == "" || f.Digits() == "" {
				t.Errorf("%s %s: %q %q", c.ID, f.At, f.Label, f.Digits())
			}
		}
	}
	if numbers < 200 {
		t.Errorf("%d numbers", numbers)
	}
}

// The demo shelf is complete: for each of the three models every kind that has numbers, and
// a check and a step card.
func TestTheDemoShelfIsComplete(t *testing.T) {
	s := demo(t)
	for _, e := range []card.Engine{{Model: "T7-A", Serial: "1187", Demo: true}, e2, e3} {
		for _, want := range []card.Want{{Kind: "engine"}, {Kind: "limits"}, {Kind: "torque"}, {Kind: "run"},
			{Kind: "check", Topic: "25h"}, {Kind: "check", Topic: "rockers"}, {Kind: "step", Topic: "pull-through"}} {
			if f := card.Which(e, want, s.Current()); f.State != card.One {
				t.Errorf("%s %+v: %s %q", e.Model, want, f.State, f.Why)
			}
		}
	}
}

// What is prepared can be prepared again: fields are added, none is changed.
func TestPrepareAddsOnly(t *testing.T) {
	text, err := os.ReadFile("../../testdata/shelves/demo/engine-t7b.yaml")
	if err != nil {
		t.Fatal(err)
	}
	r := cardtext.Read("x.yaml", text, card.Rules{Demo: true})
	if len(r.Faults) > 0 {
		t.Fatal(r.Faults)
	}
	c := r.Card
	v := body(t, string(card.Prepare(c.JSON)))
	for i, n := range c.JSON.Names() {
		if n == "body" || n == "sources" {
			continue
		}
		if wrote(v.Get(n)) != wrote(c.JSON.Items()[i]) {
			t.Errorf("%s became %s", n, wrote(v.Get(n)))
		}
	}
	for i, it := range c.Body.Get("figures").Items() {
		now := v.Get("body").Get("figures").Items()[i]
		for j, n := range it.Names() {
			if n != "label" && wrote(now.Get(n)) != wrote(it.Items()[j]) {
				t.Errorf("figure %d: %s became %s", i, n, wrote(now.Get(n)))
			}
		}
		if now.Get("of").Text() != "tm" || now.Get("label").Kind() != plain.Text {
			t.Errorf("figure %d: %s", i, wrote(now))
		}
	}
	seen := wrote(v.Get("body").Get("seen"))
	if !strings.Contains(seen, `{"id":"plug_reach","label":"Spark-plug reach","digits":"short (to B-0620) or long (after B-0620)"}`) {
		t.Error(seen)
	}
}
