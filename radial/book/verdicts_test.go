package book

import (
	"testing"

	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// A limit in another kind of unit is none: whatever its numbers, nothing is at its edge.
func TestALimitOfAnotherKindJudgesNothing(t *testing.T) {
	for _, text := range []string{`{"max":"10"}`, `{"min":"10"}`, `{"from":"9","to":"11"}`, `{"look":"9","stop":"11"}`,
		`{"new_min":"3","new_max":"5","wear":"10"}`} {
		item, err := plain.Parse([]byte(text))
		if err != nil {
			t.Fatal(err)
		}
		for m, want := range map[quantity.Measured]bool{quantity.Of("10", quantity.UnitPsi): true, quantity.Of("10", quantity.UnitThou): false, quantity.Of("0.010", quantity.UnitIn): false} {
			l := held{item: item, u: quantity.UnitThou}
			if chip, why := l.against(m); (chip == Cant) != want {
				t.Errorf("%s against thou by %s: %s, %s", short(m), text, chip, why)
			}
		}
	}
}

// A propeller that goes firm again while an earlier stop is released is stopped again.
func TestFirmAgainIsAStopOfItsOwn(t *testing.T) {
	p := &phone{t: t, device: "aa"}
	first := p.write("fact", `{"type":"pull_through","blades":"3","feel":"firm","hours":{"v":"20","u":"h"}}`)
	by := `"released":"` + first.String() + `","released_by":"T. Askerly","certificate":"DEMO 1","words":"Drained."`
	p.write("fact", `{"type":"pull_through","blades":"8","feel":"even",`+by+`,"hours":{"v":"20","u":"h"}}`)
	if l := Open(p.records).stopped(); l != nil {
		t.Errorf("released, and stopped at %s", l.key)
	}
	p.records, p.n = p.records[:1], 1
	second := p.write("fact", `{"type":"pull_through","blades":"2","feel":"firm",`+by+`,"hours":{"v":"20","u":"h"}}`)
	if l := Open(p.records).stopped(); l == nil || l.key != second {
		t.Errorf("firm again, and stopped at %+v", l)
	}
}

// The oil pressure of a limits card is for cruise (60 to 80 psi on the invented T7-B's), so it
// judges a flight and neither a ground run nor the minutes before take-off.
func TestTheCruisePressureJudgesAFlightOnly(t *testing.T) {
	p := &phone{t: t, device: "aa"}
	p.write("fact", `{"type":"engine","demo":true}`)
	p.setting("model", `"T7-B"`)
	p.setting("serial", `"B-0711"`)
	for _, kind := range []string{`"flight"`, `"run","minutes":{"v":"5","u":"min"}`, `"before_takeoff"`} {
		p.write("fact", `{"type":`+kind+`,"oil_pressure":{"v":"50","u":"psi"},"hours":{"v":"20","u":"h"}}`)
	}
	b := Open(p.records)
	laid(t, b)
	for _, l := range b.lines {
		f, ok := l.body.(*Facts)
		if l.err != nil || !ok {
			if l.err != nil {
				t.Fatal(l.err)
			}
			continue
		}
		all := b.judgeAll(f)
		if judged := len(all) == 1 && all[0].Chip == Outside && all[0].Source != nil; judged != (f.Kind == &flight) || f.Kind != &flight && len(all) > 0 {
			t.Errorf("%s: %+v", f.Type(), all)
		}
	}
}

// A reading over another pressure than 80 psi is not held against a limit that is over 80
// (the invented T7-B's: look below 65, "over 80, orifice 0.060 in, hot"; AC 43.13-1B regulates
// the air to 80 psi): 66 over 90 leaks more than 60 over 80.
func TestALimitIsOverEighty(t *testing.T) {
	for outOf, want := range map[string]Chip{"80": Inside, "80.0": Inside, "90": Cant, "70": Cant} {
		p := &phone{t: t, device: "aa"}
		p.write("fact", `{"type":"engine","demo":true}`)
		p.setting("model", `"T7-B"`)
		p.setting("serial", `"B-0711"`)
		p.write("fact", `{"type":"compression","out_of":{"v":"`+outOf+`","u":"psi"},"orifice":{"v":"0.060","u":"in"},"warm":"hot","values":{"u":"psi","at":{"1":"69.5"}},"hours":{"v":"20","u":"h"}}`)
		b := Open(p.records)
		laid(t, b)
		all := b.judgeAll(b.lastOf(&compressionSet))
		if len(all) != 1 || all[0].Chip != want {
			t.Errorf("over %s: %+v", outOf, all)
		}
	}
}

// An engine whose barrels are its own again is no mixed build: what stands in the way of a
// limit is then something else, and that is said.
func TestADeviationThatIsGoneIsNotTheReason(t *testing.T) {
	b := told(t, opening, isA, `{"type":"deviation","part":"barrels","found":"bore 5.375 in","fits":["T7-B"]}`,
		`{"type":"deviation","part":"barrels","found":"bore 5.375 in","gone":true,"reason":"A barrels fitted"} replaces 3`,
		`{"type":"identity","looked":[{"feature":"shaft","state":"seen","values":["taper and key"]}],"base":"T7-B"}`)
	laid(t, b)
	if got, want := b.limitOf("ring_gap", nil).none, "on file it is a T7-A, and the last look at it says T7-B."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
