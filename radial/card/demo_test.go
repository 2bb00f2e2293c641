package card_test

import (
	"os"
	"strings"
	"testing"

	"linkrod/radial/card"
	"linkrod/radial/card/cardtext"
	"linkrod/sync/plain"
)

var demoOnce *card.Shelf

// The demo shelf, as the phone gets it. DEMO: every name and figure in it is invented.
func demo(t testing.TB) card.Shelf {
	t.Helper()
	if demoOnce != nil {
		return *demoOnce
	}
	const dir = "../../testdata/shelves/demo"
	d, err := cardtext.ReadFolder(os.DirFS(dir), dir)
	if err != nil || len(d.Faults) > 0 {
		t.Fatal(err, d.Faults)
	}
	v, err := plain.Parse(d.Bundle())
	if err != nil {
		t.Fatal(err)
	}
	s, err := card.ReadBundle(v)
	if err != nil {
		t.Fatal(err)
	}
	demoOnce = &s
	return s
}

// The three engines of the scenario, as their books have them.
var (
	e1 = card.Engine{Model: "T7-A case, B-type barrels", Serial: "1187", Looked: "T7-A", Demo: true, Deviations: []card.Deviation{
		{Part: "barrels", Of: "T7-A", Found: "barrel flange round with two flats, 0.375 in thick and bore 5.375 in", Wants: "round, 0.312 in thick and 5.000 in", Fits: []string{"T7-B"}},
		{Part: "pistons", Of: "T7-A", Found: "compression ratio 5.9", Wants: "5.4", Fits: []string{"T7-B"}},
	}}
	e2 = card.Engine{Model: "T7-B", Serial: "B-0711", Demo: true}
	e3 = card.Engine{Model: "T9-C", Serial: "C-2079", Demo: true}
)

func which(t *testing.T, e card.Engine, want card.Want) card.Found {
	t.Helper()
	s := demo(t)
	return card.Which(e, want, s.Current())
}

func TestWhichCardOfTheScenario(t *testing.T) {
	for _, kind := range []string{"limits", "torque", "run", "engine"} {
		for _, tt := range []struct {
			e    card.Engine
			want string
		}{{e2, map[string]string{"run": "run-t7b-break-in"}[kind]}, {e3, map[string]string{"run": "run-t9c-break-in"}[kind]}} {
			want := tt.want
			if want == "" {
				want = kind + "-" + strings.ToLower(strings.ReplaceAll(tt.e.Model, "-", ""))
			}
			f := which(t, tt.e, card.Want{Kind: kind})
			if f.State != card.One || f.Card.ID != want {
				t.Errorf("%s of %s: %s %s, %q", kind, tt.e.Serial, f.State, f.Card.ID, f.Why)
			}
		}
		f := which(t, e1, card.Want{Kind: kind})
		if f.State != card.Cant || f.Card.ID != "" || len(f.Cards) != 0 {
			t.Errorf("%s of the mixed build: %+v", kind, f)
		}
	}
}

// E1: can't judge, with what speaks against the plate (flange, bore, ratio), and what would
// settle it.
func TestTheMixedBuildCantBeJudged(t *testing.T) {
	f := which(t, e1, card.Want{Kind: "limits"})
	why := strings.Join(f.Why, "\n")
	for _, want := range []string{"two flats", "bore 5.375 in", "compression ratio 5.9", "where a T7-A has", "no approval seen"} {
		if !strings.Contains(why, want) {
			t.Errorf("%q is not in:\n%s", want, why)
		}
	}
	if want := "The shop says in writing which sheet governs the barrels and pistons. Until then no limit applies."; len(f.Settle) != 1 || f.Settle[0] != want {
		t.Errorf("settled by %q", f.Settle)
	}
	// The part that is the model's own can be judged once the model is on file, and not before.
	heads := card.Want{Kind: "limits", Part: "heads"}
	if f := which(t, e1, heads); f.State != card.Cant || !strings.Contains(f.Why[0], "the last look at it says T7-A") {
		t.Errorf("heads: %+v", f)
	}
	e := e1
	e.Model = "T7-A"
	if f := which(t, e, heads); f.State != card.One || f.Card.ID != "limits-t7a" {
		t.Errorf("heads with the model on file: %+v", f)
	}
	// Decided in writing, the barrels go by the B's sheets, and only they.
	e.Deviations = []card.Deviation{e1.Deviations[0], e1.Deviations[1]}
	e.Deviations[0].Governs, e.Deviations[0].By = "T7-B", "Fellside letter 25-02"
	if f := which(t, e, card.Want{Kind: "limits", Part: "pistons"}); f.State != card.Cant {
		t.Errorf("pistons undecided: %+v", f)
	}
	f = which(t, e, card.Want{Kind: "limits"})
	if f.State != card.Cant || len(f.Why) != 1 || !strings.HasPrefix(f.Why[0], "Pistons: ") {
		t.Errorf("the whole engine, half decided: %+v", f)
	}
	f = which(t, e, card.Want{Kind: "limits", Part: "barrels"})
	if f.State != card.One || f.Card.ID != "limits-t7b" || f.Why[0] != "Barrels go by the T7-B sheets: Fellside letter 25-02." {
		t.Errorf("barrels: %+v", f)
	}
	// Where the B has two sheets, by serial number, the plate's number says nothing of them.
	if f = which(t, e, card.Want{Kind: "torque", Part: "barrels"}); f.State != card.Cant || len(f.Cards) != 2 {
		t.Errorf("the barrels' torque: %+v", f)
	}
	// All decided: no one sheet is for the whole engine, and what was found still stands.
	e.Deviations[1].Governs, e.Deviations[1].By = "T7-B", "Fellside letter 25-02"
	if f = which(t, e, card.Want{Kind: "limits"}); f.State != card.Cant || len(f.Why) != 3 || !strings.Contains(f.Why[0], "two flats") || !strings.Contains(f.Why[0], "By Fellside letter 25-02 the T7-B sheets govern the barrels.") {
		t.Errorf("all decided: %+v", f)
	}
	// A decision without a paper is none.
	e.Deviations[0].By = ""
	if f := which(t, e, card.Want{Kind: "limits", Part: "barrels"}); f.State != card.Cant || !strings.Contains(f.Why[0], "no approval seen") {
		t.Errorf("decided by nobody: %+v", f)
	}
}

// What changed at a serial number changed on the one that comes after it.
func TestSerialBoundaries(t *testing.T) {
	torque, rockers := card.Want{Kind: "torque"}, card.Want{Kind: "check", Topic: "rockers"}
	for _, tt := range []struct {
		model, serial string
		want          card.Want
		card          string
	}{
		{"T7-B", "B-0620", torque, "torque-t7b-early"}, {"T7-B", "B-0621", torque, "torque-t7b"},
		{"T7-B", "B-0711", torque, "torque-t7b"}, {"T7-B", "b 711", torque, "torque-t7b"},
		{"T7-B", "B-0101", torque, "torque-t7b-early"}, {"T7-B", "B-0100", torque, ""},
		{"T7-B", "B-1866", torque, "torque-t7b"}, {"T7-B", "B-1867", torque, ""},
		{"T7-B", "0711", torque, ""}, {"T7-B", "C-2079", torque, ""}, // another series
		{"T7-B", "B-0900", rockers, "check-rockers-t7b"}, {"T7-B", "B-0901", rockers, "check-rockers-t7b-oiled"},
		{"T7-A", "1187", torque, "torque-t7a"}, {"T7-A", "1000", torque, ""}, {"T7-A", "2240", torque, "torque-t7a"},
	} {
		f := which(t, card.Engine{Model: tt.model, Serial: tt.serial, Demo: true}, tt.want)
		if tt.card == "" && f.State != card.None || tt.card != "" && (f.State != card.One || f.Card.ID != tt.card) {
			t.Errorf("%+v: %s %s, %q", tt, f.State, f.Card.ID, f.Why)
		}
	}
}

// What isn't on file and would decide is asked for, never assumed.
func TestWhatIsNotOnFileIsAskedFor(t *testing.T) {
	f := which(t, card.Engine{Model: "T7-B", Demo: true}, card.Want{Kind: "torque"})
	if f.State != card.Cant || len(f.Cards) != 2 || len(f.Settle) != 1 || !strings.HasPrefix(f.Settle[0], "The serial number: ") {
		t.Errorf("without a serial number: %+v", f)
	}
	for _, tt := range []struct {
		e    card.Engine
		want string
	}{
		{card.Engine{Demo: true}, "model is not on file"},
		{card.Engine{Model: "T7-B", Serial: "B-0711", Demo: true, Open: []string{"serial"}}, "Two people wrote its serial differently"},
		{card.Engine{Model: "T7-B", Serial: "B-0711", Demo: true, Looked: "T7-A"}, "On file it is a T7-B, and the last look at it says T7-A"},
	} {
		if f := which(t, tt.e, card.Want{Kind: "torque"}); f.State != card.Cant || !strings.Contains(f.Why[0], tt.want) {
			t.Errorf("%+v: %+v", tt.e, f)
		}
	}
	// An invented card is for no real engine, whatever it is called.
	if f := which(t, card.Engine{Model: "T7-B", Serial: "B-0711"}, card.Want{Kind: "torque"}); f.State != card.None || !strings.Contains(strings.Join(f.Why, " "), "No limit on file") {
		t.Errorf("a demo card for a real engine: %+v", f)
	}
}

// Configuration decides where serial numbers don't.
func TestConfiguration(t *testing.T) {
	of := func(id, value string) card.Card {
		return card.Card{ID: id, Kind: "check", Title: id, Version: 1, State: "published", Applies: card.Applies{Models: []string{"M"}, When: []card.Trait{{Feature: "rocker_lubrication", Value: value}}}}
	}
	cards := []card.Card{of("greased", "grease nipple"), of("oiled", "pressure oil")}
	e := card.Engine{Model: "M"}
	if f := card.Which(e, card.Want{Kind: "check"}, cards); f.State != card.Cant || !strings.Contains(f.Settle[0], "rocker lubrication: look at it") {
		t.Errorf("not looked at: %+v", f)
	}
	e.Has = []card.Trait{{Feature: "rocker_lubrication", Value: "pressure oil"}}
	if f := card.Which(e, card.Want{Kind: "check"}, cards); f.State != card.One || f.Card.ID != "oiled" {
		t.Errorf("oiled: %+v", f)
	}
}

// Two shelves that both have a card for the engine stand side by side; nothing is merged
// and nothing is chosen.
func TestShelvesThatDisagree(t *testing.T) {
	s := demo(t)
	cards := s.Current()
	var other card.Card
	for _, c := range cards {
		if c.ID == "limits-t7b" {
			other = c
			other.Shelf = "club"
		}
	}
	f := card.Which(e2, card.Want{Kind: "limits"}, append(cards, other))
	if f.State != card.Cant || len(f.Cards) != 2 || f.Cards[0].Shelf == f.Cards[1].Shelf || f.Card.ID != "" {
		t.Errorf("two shelves: %+v", f)
	}
}

// The worked figure of the scenario: 435 in-lb at the screw, wrench CW-14 with L 11.0 and
// E 3.25, is filled into the torque sum, which the sums hold to 335.8.
func TestAToolFillsTheSum(t *testing.T) {
	s := demo(t)
	shown, _ := s.Find("torque-t7b", 0)
	cw14, _ := s.Find("tool-cw14", 0)
	use := func(model string) plain.Value {
		var w plain.Writer
		card.Use(&w, shown.Body.Get("joints").Items()[0], cw14.Card, model)
		v, err := plain.Parse(w.Bytes())
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	v := use("T7-B")
	for name, want := range map[string]string{"wanted": "435", "wanted.unit": "in_lb", "lever": "11.0", "lever.unit": "in", "adapter": "3.25", "thread": "7/16-20", "lube": "oiled"} {
		if got := v.Get("typed").Get(name).Text(); got != want {
			t.Errorf("%s is %q", name, got)
		}
	}
	if v.Get("mark").Text() != "CW-14" || v.Get("proof").Text() != "" {
		t.Errorf("CW-14 on a T7-B: %s", v.Raw())
	}
	if got := use("T9-C").Get("proof").Text(); got != "CW-14 does not fit the T9-C any more." {
		t.Error(got)
	}
	if got := use("X").Get("proof").Text(); got != "Not proved for this model: CW-14 is proved for T7-B." {
		t.Error(got)
	}
}
