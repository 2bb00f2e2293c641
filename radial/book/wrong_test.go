package book

import (
	"encoding/json"
	"strings"
	"testing"

	"linkrod/sync/plain"
)

// wrongs are wrong entries as people make them: what was typed, at which field it is said, and
// the sentence. A sentence says what is wrong and how it goes on; nothing that was typed is lost.
var wrongs = []struct{ kind, typed, field, words string }{
	// figures that are none, or in the wrong unit
	{"compression", `{"hours":"541.6","out_of":"80","values.1":"7a"}`, "values.1", "“a” is not a unit known here. This takes psi, inches of mercury or kilopascals."},
	{"compression", `{"hours":"541.6","out_of":"eighty","values.1":"76"}`, "out_of", "There is no figure in “eighty”. Type one such as 15 or 15.5."},
	{"compression", `{"hours":"541.6","out_of":"80 qt","values.1":"76"}`, "out_of", "“qt” is a unit of volume. This takes psi, inches of mercury or kilopascals."},
	{"compression", `{"hours":"541.6","out_of":"80"}`, "values", "A compression set needs at least one cylinder."},
	{"compression", `{"hours":"541.6","values.1":"76"}`, "out_of", "Out of how much? A differential check is so many over 80."},
	{"compression", `{"out_of":"80","values.1":"76"}`, "hours", "What does the meter read?"},
	{"compression", `{"hours":"541.6","out_of":"80","values.8":"76"}`, "values.8", "This engine has 7 cylinders. There is no cylinder 8."},
	{"compression", `{"hours":"541.6","out_of":"80","values.1":"5 bar"}`, "values.1", "These are kept in psi. 5 bar does not come out even; type it in psi."},
	{"compression", `{"hours":"541.6","out_of":"80","values.1":"86"}`, "compression", "Cylinder 1: The cylinder reads 86 psi and only 80 psi is supplied. Set the regulator again, or look at the gauges."},
	{"compression", `{"hours":"541.6","out_of":"80","orifice":"0.6","values.1":"76"}`, "orifice", "Orifice of the tester: 0.6 is far from what is usual, 0.03 to 0.07 in. Is every digit right, and the unit? | Wrong orifice for this bore. 5.375 in needs 0.060; 0.6 reads too high. Take the set again."},
	{"compression", `{"hours":"541.6","out_of":"80","orifice":"0.040","values.1":"76"}`, "orifice", "Wrong orifice for this bore. 5.375 in needs 0.060; 0.040 reads too low. Take the set again."},
	{"compression", `{"hours":"541.6","out_of":"80","values.1":"7"}`, "values.1", "Cylinder 1: 7 is far from what is usual, 20 to 90 psi. Is every digit right, and the unit?"},
	{"compression", `{"hours":"541.6","out_of":"80","warm":"lukewarm","values.1":"76"}`, "warm", "Engine: “lukewarm” is not one of hot or cold."},
	{"compression", `{"hours":"541.6","out_of":"80","values.1":"76","heard.1":"window"}`, "heard.1", "Cylinder 1: “window” is not one of the exhaust, the intake, the breather or the head."},
	{"compression", `{"hours":"12","out_of":"80","values.1":"76"}`, "hours", "Tach 12 is before the last one, 541.6. Meter changed?"},
	{"compression", `{"hours":"9541.6","out_of":"80","values.1":"76"}`, "hours", "Tach 9541.6 is 9000 h after the last one, 541.6. Is every digit right?"},
	{"compression", `{"hours":"541,6","out_of":"80","values.1":"1,5"}`, "values.1", "Cylinder 1: 1,5 is far from what is usual, 20 to 90 psi. Is every digit right, and the unit?"},
	{"compression", `{"hours":"541.6","out_of":"80","values.1":"76","day":"2025-02-30"}`, "day", "There is no day “2025-02-30”. A day is written 2025-10-06."},
	{"compression", `{"hours":"541.6","out_of":"80","values.1":"76","day":"2027-01-01"}`, "day", "1 January 2027 is still to come. Today is 9 November 2025."},
	{"compression", `{"hours":"541.6","out_of":"80","values.1":"76","clock":"25:10"}`, "clock", "There is no time “25:10”. A time is written 18:40."},
	{"cranking", `{"hours":"541.6"}`, "values", "A cranking check needs at least one cylinder."},
	{"cranking", `{"hours":"541.6","values.3":"950"}`, "values.3", "Cylinder 3: 950 is far from what is usual, 30 to 160 psi. Is every digit right, and the unit?"},
	{"clearances", `{"hours":"541.6"}`, "clearances", "No clearance is filled in: as found, as left, or both."},
	{"clearances", `{"hours":"541.6","found.6e":"0.002"}`, "found.6e", "0.002 thou is 0.002 thousandths of an inch. 2 thou is 0.002 in. Which is it?"},
	{"clearances", `{"hours":"541.6","found.6e":"0.010 in"}`, "found.6e", "These are kept in thou. 0.010 inches is 10 thou."},
	{"clearances", `{"hours":"541.6","found.6e":"120"}`, "found.6e", "Cylinder 6 exhaust: 120 is far from what is usual, 0 to 30 thou. Is every digit right, and the unit?"},
	{"clearances", `{"hours":"541.6","found.6e":"-3"}`, "found.6e", "Cylinder 6 exhaust: -3 is far from what is usual, 0 to 30 thou. Is every digit right, and the unit?"},
	{"clearances", `{"hours":"541.6","left.9i":"10"}`, "left.9i", "This engine has 7 cylinders. There is no cylinder 9 inlet."},
	{"clearances", `{"hours":"541.6","found.1i":"10","cold":"maybe"}`, "cold", "Engine cold: “maybe” is not yes or no."},
	{"grease", `{"hours":"541.6"}`, "done", "Which nipples were greased?"},
	{"grease", `{"hours":"541.6","done.4i":"forgot"}`, "done.4i", "Cylinder 4 inlet: “forgot” is not one of done, blocked or not done."},
	{"grease", `{"hours":"541.6","done.4i":"done","strokes":"two"}`, "strokes", "Strokes each: “two” is not a whole number."},
	{"dimensions", `{"cyl":"6"}`, "dimensions", "Nothing was measured yet. One station or one item makes a sheet."},
	{"dimensions", `{"cyl":"6","nominal":"5.375","bore.1a":"5.025"}`, "bore.1a", "5.025 in is −350 thou from the nominal 5.375 in. Is the point where it belongs?"},
	{"dimensions", `{"cyl":"6","nominal":"5.375","bore.1a":"53.835"}`, "bore.1a", "Station 1 fore and aft: 53.835 is far from what is usual, 3.5 to 7 in. Is every digit right, and the unit? | 53.835 in is 48460 thou from the nominal 5.375 in. Is the point where it belongs?"},
	{"dimensions", `{"cyl":"8","nominal":"5.375","bore.1a":"5.3835"}`, "cyl", "This engine has 7 cylinders. There is no cylinder 8."},
	{"torque", `{"hours":"541.6","joint":"hold_down","wanted":"435"}`, "wanted", "435 of what? Inch pounds or foot pounds. Twelve times apart."},
	{"torque", `{"hours":"541.6","joint":"hold_down"}`, "wanted", "How much, and inch pounds or foot pounds?"},
	{"torque", `{"hours":"541.6","wanted":"435 in-lb"}`, "joint", "Which joint?"},
	{"torque", `{"hours":"541.6","joint":"hold_down","wanted":"435 in-lb","lever":"11","extension":"3.25","set":"435 in-lb"}`, "set", "With 3.25 in on 11 in the wrench is set to 335.8 in-lb for that, not 435 in-lb."},
	{"torque", `{"hours":"541.6","joint":"hold_down","wanted":"435 in-lb","lever":"11","extension":"-11"}`, "extension", "The adapter reaches 11 in back along a lever of 11 in. The nut would be under the hand or behind it, and no pull turns it the right way."},
	{"timing", `{"hours":"541.6","cyl":"1"}`, "timing", "No timing is filled in: degrees or piston travel of one side at least."},
	{"timing", `{"hours":"541.6","found.left":"25"}`, "cyl", "On which cylinder? Only the one the maker names times this engine."},
	{"timing", `{"hours":"541.6","cyl":"2","found.left":"25"}`, "cyl", "Can’t judge: cylinder 2 hangs on a link rod. Only the master’s cylinder, 1, times this engine."},
	{"timing", `{"hours":"541.6","cyl":"1","found.left":"250"}`, "found.left", "Left: 250 is far from what is usual, 5 to 45 °. Is every digit right, and the unit?"},
	{"points", `{"hours":"541.6"}`, "points", "No gap is filled in."},
	{"points", `{"hours":"541.6","found.left":"0.012"}`, "found.left", "0.012 thou is 0.012 thousandths of an inch. 12 thou is 0.012 in. Which is it?"},
	{"drops", `{"hours":"541.6","rpm":"1700"}`, "drop", "How far did it drop on each side?"},
	{"drops", `{"hours":"541.6","rpm":"170","drop.left":"75"}`, "rpm", "Checked at: 170 is far from what is usual, 1000 to 2300 rpm. Is every digit right, and the unit?"},
	{"plugs", `{"hours":"541.6"}`, "state", "Which plugs, and how do they look?"},
	{"plugs", `{"hours":"541.6","state.5f":"dirty"}`, "state.5f", "Cylinder 5 front: “dirty” is not one of dry, light, sooty, oily, wet with fuel, lead fouled, broken or new."},
	{"run", `{"hours":"541.6"}`, "minutes", "How long did it run, by the clock?"},
	{"run", `{"hours":"541.6","minutes":"34","cht":"3850"}`, "cht", "Hottest head: 3850 is far from what is usual, 100 to 550 °F. Is every digit right, and the unit?"},
	{"run", `{"hours":"541.6","minutes":"34","cht":"385","cht_cyl":"12"}`, "cht_cyl", "This engine has 7 cylinders. There is no cylinder 12."},
	{"flight", `{"hours":"541.6","flown":"90"}`, "flown", "Flown: 90 is far from what is usual, 0.1 to 8 h. Is every digit right, and the unit?"},
	{"flight", `{"hours":"541.6","map":"265"}`, "map", "Manifold pressure: 265 is far from what is usual, 10 to 45 inHg. Is every digit right, and the unit?"},
	{"start", `{"hours":"541.6","strokes":"4"}`, "started", "Did it start?"},
	{"before_takeoff", `{"hours":"541.6"}`, "before_takeoff", "Nothing is filled in. One figure at least makes it a reading."},
	{"before_takeoff", `{"hours":"541.6","oil_temp":"205 C"}`, "oil_temp", "Oil temperature: 205 C is far from what is usual, 60 to 250 °F. Is every digit right, and the unit?"},
	{"oil_sample", `{"hours":"541.6"}`, "ppm", "What did the laboratory find? One metal at least."},
	{"oil_sample", `{"hours":"541.6","ppm.fe":"22 ppm"}`, "ppm.fe", "A figure alone is taken here. “ppm” follows it."},
	{"screen", `{"hours":"541.6","count.flake":"4"}`, "where", "Which screen, or the magnet?"},
	{"screen", `{"hours":"541.6","where":"sump","count.flake":"a few"}`, "count.flake", "Flakes: “a few” is not a whole number."},
	{"screen", `{"hours":"541.6","where":"sump","answers":"x"}`, "answers", "Answers the find: “x” is not an entry of a book."},
	{"overnight", `{"hours":"541.6","lost":"1"}`, "lasted", "How long did it stand?"},
	{"overnight", `{"hours":"541.6","lasted":"24","lost":"12"}`, "lost", "Gone from the tank: 12 is far from what is usual, 0 to 6 qt. Is every digit right, and the unit?"},
	{"pull_through", `{"hours":"541.6","blades":"8"}`, "feel", "How did it feel?"},
	{"pull_through", `{"hours":"541.6","blades":"eight","feel":"even"}`, "blades", "Blades pulled: “eight” is not a whole number."},
	{"pull_through", `{"hours":"541.6","blades":"8","feel":"even","released":"e2:1","released_by":"T. Askerly"}`, "pull_through", "A stop is released by a mechanic: name, certificate, and in which words."},
	{"cylinder_fitted", `{"hours":"541.6","cyl":"6"}`, "serial", "Which cylinder? Its own serial or tag number keeps its past with it."},
	{"cylinder_fitted", `{"hours":"541.6","cyl":"6","serial":"X","state":"overhauled"}`, "cylinder_fitted", "“Overhauled” has a legal meaning. Which tag or work order says so?"},
	{"cylinder_removed", `{"hours":"541.6","cyl":"6"}`, "why", "Why did it come off?"},
	{"overhaul", `{"hours":"541.6"}`, "what", "What was done: a ring job, a top overhaul, an overhaul, a rebuild?"},
	{"overhaul", `{"hours":"541.6","what":"overhaul"}`, "overhaul", "“Overhauled” has a legal meaning. Not said yet: disassembled, cleaned, inspected, repaired as necessary, reassembled, tested, to which data and approved by. If it was less than that, write what was done."},
	{"storage", `{"act":"begun"}`, "storage", "How is it kept? Name the paper that is followed."},
	{"storage", `{"act":"checked","next":"next month"}`, "next", "Next look: there is no day “next month”. A day is written 2025-10-06."},
	{"inspection", `{"run":"w1","act":"item","item":"screens","result":"not"}`, "inspection", "Not done: why? The reason stays with the item."},
	{"inspection", `{"act":"begun","of":"25 h"}`, "run", "Which walk does it belong to?"},
	{"finding", `{"words":"gland weeps"}`, "finding", "How grave is it: worth noting, watch it, before the next flight, or nothing turns it?"},
	{"finding", `{"words":"engine was rebuilt here","grave":"note"}`, "words", "Written as “rebuilt”. That word has a legal meaning. Say what was done."},
	{"directive", `{"number":"DEMO 1","words":"look","applies":"yes"}`, "directive", "What is the evidence? How it was done, or by which serial or part number it does not apply."},
	{"photo", `{"of":"port"}`, "photo", "There is no photograph yet."},
	{"photo", `{"photo":["abc"],"of":"port"}`, "photo", "A photograph is named by its SHA-256, 64 hex digits."},
	{"signature", `{"name":"T. Askerly","certificate":"20411","words":"done"}`, "signed", "A signature needs the entries it stands under."},
	{"signature", `{"name":"T. Askerly","certificate":"20411","words":"done","entries":["nobody:1"]}`, "signed", "There is no such line in this book."},
	{"job", `{"run":"j1"}`, "act", "Begun, a step, interrupted or finished?"},
	{"order", `{"first":"a:1","then":"a:1"}`, "order", "One reading cannot come before itself."},
	{"order", `{"first":"a:1"}`, "then", "And which after it?"},
	// those with bodies of their own
	{"oil", `{"hours":"541.6","level":"fifteen"}`, "level", "There is no figure in “fifteen”. Type one such as 15 or 15.5."},
	{"oil", `{"hours":"541.6","level":"150"}`, "level", "The tank holds 20 qt. More than that goes overboard."},
	{"oil", `{"hours":"541.6","level":"15","added":"-1"}`, "added", "−1 qt is less than nothing. A volume starts at 0."},
	{"drain", `{"hours":"541.6","same":true}`, "level_before", "Refilled to the same reading: which reading?"},
	{"meter", `{"out":"541.7"}`, "in", "What does the new meter read?"},
	{"note", `{"text":""}`, "text", "The note is empty. Write what was seen or done."},
	{"note", `{"text":"overhauled last year"}`, "text", "Written as “overhauled”. That word has a legal meaning. Say what was done."},
	{"step_closed", `{"hours":"541.6"}`, "found", "What was found? A step is closed with what explains it."},
	{"strike", `{"key":"nobody:3","reason":"typed twice"}`, "key", "There is no such line in this book."},
	{"setting", `{"field":"ceiling","value":"0.6"}`, "document", "Which document is it from? A limit is kept with the paper it stands on."},
	{"setting", `{"field":"cylinders","value":"8"}`, "value", "Cylinders is one of 5, 7 or 9, not “8”."},
	{"identity", `{}`, "identity", "Nothing was looked at. A look has at least one feature in it."},
	{"deviation", `{"part":"barrels"}`, "found", "What was found on it?"},
}

func TestWrongEntries(t *testing.T) {
	if len(wrongs) < 60 {
		t.Fatalf("only %d", len(wrongs))
	}
	b, _ := demo(t, "e2")
	laid(t, b)
	for _, c := range wrongs {
		v, err := plain.Parse([]byte(c.typed))
		if err != nil {
			t.Fatal(c.typed)
		}
		d := b.Draft(c.kind, v, "Ann", Now{Day: "2025-11-09", Clock: "16:00"})
		if d.Entry.Body != nil {
			t.Errorf("%s %s is taken", c.kind, c.typed)
			continue
		}
		var got []string
		for _, a := range d.Asks {
			if a.Field == c.field && a.Strength != Differs {
				got = append(got, a.Words)
			}
		}
		words := strings.ReplaceAll(strings.Join(got, " | "), "\u2009", " ")
		if words != c.words {
			t.Errorf("%s %s\n\tat %s says\n%q,\n\twant %q; all: %+v", c.kind, c.typed, c.field, words, c.words, fieldsAsked(d.Asks))
		}
		if KindOf(c.kind) == nil {
			continue
		}
		// Nothing is lost: the page has every value as it was typed.
		f, err := b.Form(c.kind, v, "Ann", Now{Day: "2025-11-09"})
		if err != nil {
			t.Fatal(err)
		}
		var w plain.Writer
		f.Write(&w)
		var typed map[string]any
		_ = json.Unmarshal([]byte(c.typed), &typed)
		for name, is := range typed {
			if s, ok := is.(string); ok && strings.Count(c.field, ".9") == 0 && !strings.Contains(string(w.Bytes()), `"value":`+string(plain.Quote(nil, s))) && !strings.Contains(name, ".8") {
				t.Errorf("%s %s: %s is not on the page any more", c.kind, c.typed, name)
			}
		}
	}
}

func fieldsAsked(asks []Ask) (all []string) {
	for _, a := range asks {
		all = append(all, a.Field+": "+a.Words)
	}
	return all
}
