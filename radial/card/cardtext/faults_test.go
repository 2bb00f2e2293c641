package cardtext_test

import (
	"strings"
	"testing"

	"linkrod/radial/card"
	"linkrod/radial/card/cardtext"
)

// sound is a card without fault. DEMO: invented.
const sound = `card: limits-x
kind: limits
title: X limits
version: 2
state: published
applies:
  models: [X]
  serials: {from: 1001, to: 2240}
sources:
  fw: {document: Sheet X, page: 1, date: 1994-03-01, typed_by: A. Bell, checked_by: C. Dorn}
cautions: [Gauge and part at one temperature.]
body:
  items:
    - {id: ring_gap, new_min: 30, new_max: 38, wear: 60, u: thou, src: fw}
    - id: exhaust_stem
      new_min: 3
      new_max: 4.5
      wear: 9
      u: thou
      src: fw
`

// step is a sound general card.
const step = `card: lock
kind: step
title: Before it is turned
version: 1
state: published
sources:
  tx: {document: Textbook, page: ground operations}
cautions:
  - Treat the propeller as live, it can kill.
body:
  steps:
    - do: Pull through two full turns or more, at least 2 [tx].
`

func read(text string, rules card.Rules) cardtext.Text {
	return cardtext.Read("x.yaml", []byte(text), rules)
}

func TestSoundCards(t *testing.T) {
	if r := read(sound, card.Rules{}); len(r.Faults) != 0 || r.Card.ID != "limits-x" || r.Card.Version != 2 {
		t.Error(r.Faults, r.Card)
	}
	if r := read(step, card.Rules{General: true}); len(r.Faults) != 0 {
		t.Error(r.Faults)
	}
}

// Each fault is told at the place it was typed, in a sentence that says what to do.
func TestFaults(t *testing.T) {
	for _, tt := range []struct{ text, old, with, want string }{
		// a number without a source
		{sound, ", src: fw}", "}", "14:7: This number has no source. Write src and the key of the paper it was copied from."},
		{sound, "      src: fw\n", "", "15:7: This number has no source."},
		{sound, "u: thou, src: fw", "u: thou, src: fv", "14:67: There is no source “fv”. This card’s are: fw."},
		{step, " [tx]", "", "12:7: There is a number here without its source."},
		{step, " [tx].", ". Nobody knows why [tx].", "12:7: There is a number here without its source."},
		{step, "at least 2 [tx]", "and wait ten full minutes", "12:7: There is a number here without its source."},
		{step, "[tx]", "[ty]", "12:7: There is no source “ty”. This card’s are: tx."},
		{step, "as live, it can kill", "as live, it kills 2 people a year", "9:5: There is a number here without its source."},
		// who typed and who checked
		{sound, "typed_by: A. Bell, checked_by: C. Dorn", "typed_by: A. Bell, checked_by: a.  bell", "10:73: a.  bell typed it and can’t be the second person."},
		{sound, "typed_by: A. Bell, checked_by: C. Dorn", "revision: B", "10:3: Who typed these numbers?"},
		{sound, "1994-03-01", "1994-02-30", "10:36: There is no date “1994-02-30”. Write 1994-03-01, 1994-03 or 1994."},
		// numbers that can't be
		{sound, "new_max: 4.5", "new_max: 4,5", "17:7: “4,5” is not a number."},
		{sound, "new_min: 3\n", "new_min: 10\n", "16:7: The new minimum 10 is more than the new maximum 4.5."},
		{sound, "u: thou\n", "u: tou\n", "19:7: “tou” is not a unit known here."},
		{sound, "new_max: 4.5\n      wear: 9", "look: 4", "17:7: A look has its stop beside it."},
		// what it is for
		{sound, "from: 1001, to: 2240", "from: 2240, to: 1001", "8:3: "},
		{sound, "from: 1001, to: 2240", "from: B-0101, to: 2240", "8:3: "},
		{sound, "from: 1001", "from: none", "8:13: "},
		{sound, "  serials: {from: 1001, to: 2240}", "  when: {rockers: oiled}", "8:10: “rockers” is not a feature known here. Known are: cylinders, hold_down"},
		{sound, "  models: [X]\n", "", "6:1: Which engines is it for?"},
		{sound, "card: limits-x", "card: shelf", "1:1: “shelf” is what the file about the whole shelf is called."},
		// shape
		{sound, "title: X limits\n", "", "1:1: “title” is missing here."},
		{sound, "title:", "titel:", "3:1: “titel” is not a field that can stand here. Is “title” meant?"},
		{sound, "kind: limits", "kind: limit", "2:1: “limit” is not known here. It is one of: engine, limits, torque"},
		{sound, "version: 2", "version: two", "4:1: Here stands a text, where a number belongs."},
		{sound, "version: 2", "version: 0", "4:1: This is too small: it starts at 1."},
		{sound, "id: exhaust_stem", "id: Exhaust stem", "15:7: “Exhaust stem” cannot be a name here."},
		{sound, "    - {id: ring_gap", "    - {idd: ring_gap", "14:8: “idd” is not a field that can stand here. Is “id” meant?"},
		{sound, "state: published", "state:", "5:7: Nothing stands here."},
		{sound, "title: X limits", "title: X limits\ntitle: again", "4:1: “title” stands here a second time."},
		{sound, "title: X limits", "title: &a X limits", "3:8: An anchor or alias"},
		{sound, "title: X limits", "title: !x X limits", "3:8: A tag (!)"},
		{sound, "title: X limits", "title: [X, limits]", "3:1: Here stands a list, where a text belongs."},
		{sound, "title: X limits", "title: \"X limits", "3:8: This is not YAML"},
		{sound, "    - id: exhaust_stem", "\t- id: exhaust_stem", "15:1: This line is indented with a tab."},
		{sound, "title: X limits\n", "title: X limits\n---\n", "1:1: One card a file: there are 2 in this one."},
		// the general shelf
		{step, "state: published", "state: published\napplies: {models: [X]}", "6:1: The general shelf is for every engine."},
		{step, "[tx].", "[tx].\n      figures: [{id: oil_temp, max: 190, u: F, src: tx}]", "13:17: This is a limit, and the general shelf is for every engine."},
		{step, "sources:\n  tx: {document: Textbook, page: ground operations}\n", "", "1:1: A general card says where it is from."},
		{step, "kind: step", "kind: step\ndemo: true", "3:1: An invented card has no place"},
		// cautions
		{step, "as live, it can kill", "with respect", "8:1: A card on turning the propeller warns that a propeller can turn and kill"},
		{step, "cautions:\n  - Treat the propeller as live, it can kill.\n", "", "1:1: A card on turning the propeller warns"},
		{step, "[tx].", "[tx].\n    - do: Clean it with solvent.", "8:1: A card on solvent warns to wear safety glasses"},
		{step, "[tx].", "[tx].\n    - do: Take the differential reading.", "8:1: A card on differential compression warns"},
		{step, "[tx].", "[tx].\n    - do: Mark each exhaust stack.", "8:1: A card on marking stacks warns against lead and carbon pencils"},
		// disputes
		{step, "body:", "disputes:\n  - {question: Turn it?, sides: [{says: \"yes\", src: tx}], who_decides: the maker}\nbody:", "11:5: A dispute has two sides or more."},
	} {
		text := strings.Replace(tt.text, tt.old, tt.with, 1)
		if text == tt.text {
			t.Errorf("%q is not in the card", tt.old)
			continue
		}
		r := read(text, card.Rules{General: tt.text == step})
		var said []string
		for _, f := range r.Faults {
			said = append(said, f.String())
		}
		if !strings.Contains(strings.Join(said, "\n")+"\n", "x.yaml:"+tt.want) {
			t.Errorf("%q for %q:\nwant %s\ngot  %s", tt.with, tt.old, tt.want, strings.Join(said, "\n     "))
		}
		if r.Card.ID != "" {
			t.Errorf("%q: a card all the same", tt.with)
		}
	}
}

// A sheet of numbers is one engine's, whoever it belongs to.
func TestTheGeneralShelfHasNoLimits(t *testing.T) {
	r := read(sound, card.Rules{General: true})
	var said []string
	for _, f := range r.Faults {
		said = append(said, f.String())
	}
	for _, want := range []string{"x.yaml:2:1: The general shelf is for every engine and holds no limits card", "x.yaml:6:1: The general shelf", "x.yaml:14:7: This is a limit", "x.yaml:15:7: This is a limit"} {
		if !strings.Contains(strings.Join(said, "\n"), want) {
			t.Errorf("%q is not in %q", want, said)
		}
	}
}

// Bytes that are no text, and too many of them, are told and not read.
func TestWhatIsNoText(t *testing.T) {
	for text, want := range map[string]string{
		"":               "There is nothing in it.",
		"\xff":           "The text is not UTF-8.",
		"\ufeff" + sound: "byte order mark",
		sound + "# " + strings.Repeat("x", cardtext.MostText): "Make two cards of it.",
	} {
		if r := read(text, card.Rules{}); len(r.Faults) != 1 || !strings.Contains(r.Faults[0].Words, want) {
			t.Errorf("%.20q: %v", text, r.Faults)
		}
	}
}

// What was typed stays as it was typed: no float, no date, no octal, no yes and no.
func TestScalarsStayAsTyped(t *testing.T) {
	r := read(strings.NewReplacer("new_max: 4.5", "new_max: 4.50", "page: 1,", "page: 0x1F,", "title: X limits", "title: no").Replace(sound), card.Rules{})
	if len(r.Faults) > 0 {
		t.Fatal(r.Faults)
	}
	for _, want := range []string{`"new_max":"4.50"`, `"page":"0x1F"`, `"date":"1994-03-01"`, `"title":"no"`, `"version":2`} {
		if !strings.Contains(string(r.JSON), want) {
			t.Errorf("%s is not in %s", want, r.JSON)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add(sound)
	f.Add(step)
	f.Add("a: [1, {b: c}]\n? x\n: y")
	f.Fuzz(func(t *testing.T, text string) {
		r := read(text, card.Rules{General: true})
		for _, x := range r.Faults {
			if x.Line < 1 || x.Column < 1 || x.Words == "" {
				t.Errorf("%q: a fault at %d:%d, %q", text, x.Line, x.Column, x.Words)
			}
		}
		if len(r.Faults) == 0 && r.Card.ID == "" {
			t.Errorf("%q: neither a card nor a fault", text)
		}
	})
}
