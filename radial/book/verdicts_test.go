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
