package book

import (
	"os"
	"strings"
	"testing"
)

// said is every kind of entry with how its wire example reads aloud. A kind that is not here,
// has no example in testdata/wire or no wrong entry in wrong_test.go fails.
var said = map[string]string{
	"engine":           "Demo engine. Every number is invented",
	"setting":          "Oil ceiling: 0.60 qt/h, DEMO sheet, page 2, rev. C",
	"oil":              "Level 15 quarts, 1 quart added (after the stop)",
	"drain":            "Drained and refilled to the same reading, 15 quarts (oil changed)",
	"step_closed":      "Step explained: rocker cover leaked",
	"meter":            "Meter changed: 9871.3 out, 502.0 in",
	"note":             "washed",
	"strike":           "Struck out: typed twice",
	"identity":         "Engine looked at. It is a mixed build: T7-A (about 6 in 10), but barrels as on T7-B, no approval seen.",
	"deviation":        "Deviation: barrels, bore 5.375 in, as on T7-B, no approval seen. The T7-B sheets govern it: Fellside letter 25-02, T. Askerly",
	"meter_read":       "Meter read",
	"run":              "Ground run, 34 minutes, running in, hottest head 385 °F in cylinder 5: highest speed 1700 rpm, oil temperature 150 degrees Fahrenheit, oil pressure 70 psi, oil came to temperature yes",
	"flight":           "Flight, 0.9 hours, hottest head 380 °F in cylinder 5: cruise power 203 horsepower, cruise speed 1900 rpm, manifold pressure 26.5 inches of mercury, oil temperature 160 degrees Fahrenheit, oil pressure 70 psi",
	"oil_sample":       "Oil sample: sample number S-12, laboratory DEMO lab, hours on the oil 25.0 hours, added since the change 9 quarts, parts per million iron 22, copper 7.5, silver 0",
	"screen":           "Looked at the sump screens: 3 hairs, 11 flakes, thin bronze flakes",
	"overnight":        "0.25 quarts gone in 24 hours of standing: found on the floor or in the tray 0 fluid ounces",
	"pull_through":     "Pulled through, 4 blades, it went firm at blade 5, cylinder 5 coming up: ran out of 4 2.0, 5 11.5 fluid ounces, ran out of the intake pipe of 5 4.5 fluid ounces, ran out of the sump 26 fluid ounces",
	"compression":      "Compression over 80: 72 73 – – – 61, air heard: 6 the exhaust",
	"cranking":         "Cranking compression: 92 95 psi: throttle full open yes, engine hot, cranking speed 90 rpm",
	"clearances":       "Clearances, found cylinder 6 inlet 6, cylinder 6 exhaust 2 thou, left cylinder 6 inlet 10, cylinder 6 exhaust 12 thou: engine cold yes, head temperature 60 degrees Fahrenheit, method each on its compression stroke, lock nuts torqued yes",
	"grease":           "Rockers greased, 1 of 2 nipples, cylinder 4 inlet blocked: strokes each 2, grease medium",
	"dimensions":       "Measured: cylinder 6, its serial number FS-0633, part barrel, nominal bore 5.375 inches, bore station 1 fore and aft 5.3835, station 1 side to side 5.3810 inches, measured exhaust stem in guide 11.5 thou, ring gaps of 33 35 34, top height of 4 −17, 5 −19 thou, shop temperature 62 degrees Fahrenheit",
	"torque":           "Cylinder hold-down, cylinder 6, 435 inch pounds, looked at again, threads oiled, wrench set to 335.8 inch pounds with 3.25 in of extension on 11.0 in, 2 of 14 nuts, 1 moved: how far it moved 1/12 turn",
	"timing":           "Timing on cylinder 1: found, before top left 24.5, right 28 degrees, left, before top left 28.0 degrees, found, piston travel left 0.315 inches, top found by positive stop both ways",
	"points":           "Breaker points: gap found left 11 thou, gap left left 16 thou, faces and follower follower worn",
	"drops":            "Ignition drop: checked at 1700 rpm, drop left 95, right 40 rpm, how left slow and smooth, right slow and smooth",
	"plugs":            "2 plugs looked at, cylinder 5 rear oily: gap left cylinder 5 front 16 thou, turned top to bottom yes",
	"start":            "Started, 4 strokes of primer at 38 °F: blades before the switch 4, attempts 1, seconds to oil pressure 12, oil temperature 40 degrees Fahrenheit",
	"before_takeoff":   "Before take-off: oil temperature 110 degrees Fahrenheit, head temperature 240 degrees Fahrenheit, oil pressure 70 psi, manifold gauge, engine stopped 29.9 inches of mercury, manifold pressure 28.0 inches of mercury, speed 1900 rpm",
	"cylinder_fitted":  "Cylinder FS-0633 fitted as number 6, overhauled, 812.5 h before: from Fellside, tag or work order FS-25-201, limits used T7-B sheet rev. C, ring gaps 33 35 34, barrel honed yes, approval pending, hold-down looked at again first run, 5, 25",
	"cylinder_removed": "Cylinder 6, B6, removed: exhaust valve leaks: went to Fellside",
	"overhaul":         "Overhaul by Fellside: work order FS-25-014, disassembled yes, cleaned yes, inspected yes, repaired as necessary yes, reassembled yes, tested yes, to which data Tarnbeck handbook 41, approved by T. Askerly, barrels honed yes, ring gaps 33 to 37, hold-down looked at again first run, 10, 25",
	"storage":          "Storage begun: how it is kept handbook 41, page 60, dehydrator plugs 7, bags and covers 5, plug colour blue, next look 9 December 2025",
	"inspection":       "Screens and magnet, cylinder 6: a finding, two flakes",
	"finding":          "Found: gland weeps, cylinder 6. Watch it: look again at 550.0 hours, look again on 9 January 2026, asked Fellside, photographs 1 photograph",
	"directive":        "DEMO 47-3, look at the oil pump gears: looked, gears as new: again every 100 hours, again every so many months 12, next due at 640.0 hours, next due on 9 November 2026",
	"photo":            "Photograph of exhaust port, cylinder 6",
	"signature":        "Signed by T. Askerly, 20411, engines: hold-down looked at again",
	"job":              "Nuts finger tight: yes",
	"order":            "Order settled by hand: how it is known read before oil went in",
}

// bodied are the kinds with a body of their own; the table has the others.
var bodied = []string{"engine", "setting", "oil", "drain", "step_closed", "meter", "note", "strike", "identity", "deviation"}

func allTypes() (all []string) {
	all = append(all, bodied...)
	for _, k := range Kinds() {
		all = append(all, k.Type)
	}
	return all
}

// Every kind of entry has an example on the wire that comes back byte for byte, reads aloud as
// it should, shows every value it holds in the log, and has wrong entries that are refused.
func TestEveryKindOfEntry(t *testing.T) {
	wrong := map[string]int{}
	for _, w := range wrongs {
		wrong[w.kind]++
	}
	for _, typ := range allTypes() {
		data, err := os.ReadFile("../../testdata/wire/book-" + typ + ".json")
		if err != nil {
			t.Errorf("%s has no example: %v", typ, err)
			continue
		}
		text := strings.TrimSpace(string(data))
		body, err := Decode([]byte(text))
		if err != nil {
			t.Errorf("%s: %v", typ, err)
			continue
		}
		if body.Type() != typ {
			t.Errorf("%s says it is %s", typ, body.Type())
		}
		if got := string(Encode(body)); got != text {
			t.Errorf("%s comes back as\n%s, not\n%s", typ, got, text)
		}
		if got := body.Say(); got != said[typ] {
			t.Errorf("%s says\n%q, want\n%q", typ, got, said[typ])
		}
		if fields := fieldsOf(&line{body: body, Record: Record{Entry: Entry{Body: []byte(text)}}}); len(fields) == 0 && typ != "engine" {
			t.Errorf("%s shows no fields", typ)
		}
		if wrong[typ] == 0 && typ != "engine" && typ != "meter_read" {
			t.Errorf("%s has no wrong entry in wrong_test.go", typ)
		}
		// An example leaves no box of its kind empty, so that each is written and read at least once.
		if f, ok := body.(*Facts); ok {
			for i, x := range f.Kind.Boxes {
				if !f.Boxes[i].given() && !strings.Contains(" released released_by certificate words answers answer closes done ", " "+x.Name+" ") {
					t.Errorf("%s: nothing in %q", typ, x.Name)
				}
			}
		}
	}
	if len(said) != len(allTypes()) {
		t.Errorf("%d sentences for %d kinds", len(said), len(allTypes()))
	}
}

// The table itself: names once, spans that parse, choices that are some, units that are known.
func TestTableOfKinds(t *testing.T) {
	types := map[string]bool{}
	for _, typ := range allTypes() {
		if types[typ] {
			t.Errorf("%s stands twice", typ)
		}
		types[typ] = true
	}
	reserved := " type hours tail tool note day clock by by_card late checked kind "
	for _, k := range Kinds() {
		names := map[string]bool{}
		for _, x := range k.Boxes {
			if names[x.Name] || strings.Contains(reserved, " "+x.Name+" ") || strings.ContainsAny(x.Name, ". ") || x.Label == "" {
				t.Errorf("%s: box %q", k.Type, x.Name)
			}
			names[x.Name] = true
			if (x.Is == OneOf) != (x.Of != "") || x.Unit != "" && !x.Unit.Known() || x.Is != Figure && x.Unit != "" {
				t.Errorf("%s %s: choices %q, unit %q", k.Type, x.Name, x.Of, x.Unit)
			}
			for _, limit := range []string{x.Low, x.High} {
				if err := x.checkText("", limit); limit != "" && (x.Is != Figure || err != nil) {
					t.Errorf("%s %s: span %q", k.Type, x.Name, limit)
				}
			}
		}
	}
}

// A reading keeps the card it was judged by: what is published later judges what is written
// later.
func TestPinnedToItsCard(t *testing.T) {
	b, f := demo(t, "e2")
	laid(t, b)
	form := formOf(t, b, "clearances", `{"hours":"541.6","cold":"yes","found.4e":"14","found.4i":"12.5"}`)
	pin := form.body.Card
	if pin == nil || pin.Card != "limits-t7b" || pin.Version != 2 || len(pin.Hash) != 64 {
		t.Fatalf("pin %+v", pin)
	}
	got := ""
	for _, j := range b.judgeAll(form.body) {
		got += j.Label + " " + string(j.Chip) + " " + j.Reason + " " + j.Source.Line + "\n"
	}
	wants(t, "judged", got, "Cylinder 4 exhaust atedge 14 thou, accepted 10 thou to 14 thou. The limit itself still counts as inside. Fellside sheet T7-B, page 1, rev. C",
		"Cylinder 4 inlet outside 12.5 thou, accepted 8 thou to 12 thou.")
	b = b.With(Record{Entry: Entry{Device: f.Book, N: len(b.lines) + 1, Kind: "fact", Body: form.out.Entry.Body}})
	// Another version on the phone, and the pinned one not: it can't be judged, and says why.
	for i := range b.papers {
		b.papers[i].Version++
	}
	for _, j := range b.judgeAll(b.lastOf(&clearances)) {
		if j.Chip != Cant || !strings.Contains(j.Reason, "limits-t7b version 2, is not on this phone") {
			t.Errorf("without its card: %v %s", j.Chip, j.Reason)
		}
	}
	// An engine with its own sheet for compression goes by that.
	if p := formOf(t, b, "compression", `{"hours":"541.6","out_of":"80","values.1":"76"}`).body.Card; p != nil {
		t.Errorf("pinned to %+v", p)
	}
}
