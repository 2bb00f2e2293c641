package card_test

import (
	"slices"
	"strings"
	"testing"

	"linkrod/radial/card"
	"linkrod/radial/card/cardtext"
)

// old is a card before it changes. DEMO: invented.
const old = `card: limits-x
kind: limits
title: X limits
version: 1
state: published
applies: {models: [X], serials: {from: 1001, to: 2240}}
sources:
  fw: {document: Sheet X, page: 1, revision: C, typed_by: A. Bell, checked_by: C. Dorn}
cautions:
  - Gauge and part at one temperature.
body:
  src: fw
  items:
    - {id: ring_gap, new_min: 30, new_max: 38, wear: 60, u: thou}
    - {id: exhaust_stem, label: exhaust clearance, new_min: 3, new_max: "4.5", wear: 9, u: thou}
    - {id: oil_temp, max: 190, u: F}
`

func of(t *testing.T, text string) card.Card {
	t.Helper()
	r := cardtext.Read("x.yaml", []byte(text), card.Rules{})
	if len(r.Faults) > 0 {
		t.Fatal(r.Faults)
	}
	return r.Card
}

// What changed is told in words, each number by what it is and both its values.
func TestDifferenceInWords(t *testing.T) {
	for _, tt := range []struct {
		change []string // pairs: what stood, what stands
		want   []string
	}{
		{nil, nil},
		{[]string{`new_max: "4.5"`, `new_max: "5.0"`}, []string{"exhaust clearance: new maximum 4.5 to 5.0 thou"}},
		{[]string{`new_max: "4.5"`, `new_max: "4.50"`}, []string{"exhaust clearance: new maximum 4.5 to 4.50 thou"}},
		{[]string{"wear: 60", "wear: 58", "max: 190", "max: 195"}, []string{"ring gap: wear limit 60 to 58 thou", "oil inlet temperature: maximum 190 to 195 °F"}},
		{[]string{"max: 190, u: F", "max: 88, u: C"}, []string{"oil inlet temperature at most 190\u2009°F to at most 88\u2009°C"}},
		{[]string{"wear: 60, u: thou", "u: thou"}, []string{"ring gap: wear limit taken out: “60”"}},
		{[]string{"    - {id: oil_temp, max: 190, u: F}\n", ""}, []string{"oil inlet temperature taken out: at most 190\u2009°F"}},
		{[]string{"    - {id: oil_temp", "    - {id: taper, new_min: 0, new_max: 1, wear: 5, u: thou}\n    - {id: oil_temp"}, []string{"taper added: new 0 to 1, wear limit 5\u2009thou"}},
		{[]string{"title: X limits", "title: X clearances"}, []string{"title: “X limits” to “X clearances”"}},
		{[]string{"to: 2240", "to: 2990"}, []string{"applies, serials: to: “2240” to “2990”"}},
		{[]string{"page: 1", "page: 2"}, []string{"sources, fw: page: “1” to “2”"}},
		{[]string{"Gauge and part at one temperature.", "Gauge and part soaked together."}, []string{"cautions: “Gauge and part at one temperature.” to “Gauge and part soaked together.”"}},
		{[]string{"version: 1", "version: 2"}, nil}, // the number is said elsewhere
	} {
		text := old
		for i := 0; i < len(tt.change); i += 2 {
			if !strings.Contains(text, tt.change[i]) {
				t.Fatalf("%q is not in the card", tt.change[i])
			}
			text = strings.Replace(text, tt.change[i], tt.change[i+1], 1)
		}
		if got := card.Diff(of(t, old), of(t, text)); !slices.Equal(got, tt.want) {
			t.Errorf("%q:\n got %q\nwant %q", tt.change, got, tt.want)
		}
	}
}

// Order decides nothing: the same items in another order are the same card.
func TestItemsAreKnownByTheirIds(t *testing.T) {
	a := "    - {id: ring_gap, new_min: 30, new_max: 38, wear: 60, u: thou}\n"
	text := strings.Replace(old, a, "", 1) + a
	if got := card.Diff(of(t, old), of(t, text)); len(got) != 0 {
		t.Errorf("%q", got)
	}
}
