package heads

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
)

func heads(changes []Change) (list []int) {
	for i, by := range Replaced(changes) {
		if len(by) == 0 {
			list = append(list, i)
		}
	}
	return list
}

func TestReplaced(t *testing.T) {
	for _, c := range []struct {
		story   string
		changes []Change
		want    []int
	}{
		{"one value", []Change{{Of: "ceiling"}}, []int{0}},
		{"an edit replaces it", []Change{{Of: "ceiling"}, {Of: "ceiling", Over: []int{0}}}, []int{1}},
		{"two people edit at once", []Change{{Of: "ceiling"}, {Of: "ceiling", Over: []int{0}}, {Of: "ceiling", Over: []int{0}}}, []int{1, 2}},
		{"a settlement names both", []Change{{Of: "c"}, {Of: "c"}, {Of: "c", Over: []int{0, 1}}}, []int{2}},
		{"H4: a third arrives that the settlement did not name", []Change{{Of: "c"}, {Of: "c"}, {Of: "c"}, {Of: "c", Over: []int{0, 1}}}, []int{2, 3}},
		{"H4: two settle without having seen each other", []Change{{Of: "c"}, {Of: "c"}, {Of: "c", Over: []int{0, 1}}, {Of: "c", Over: []int{0, 1}}}, []int{2, 3}},
		{"H3: of another value", []Change{{Of: "name"}, {Of: "model", Over: []int{0}}}, []int{0, 1}},
		{"H3: of what is not here", []Change{{Of: "c", Over: []int{-1, 7}}}, []int{0}},
		{"H2: what it replaces came back after it", []Change{{Of: "c", Over: []int{1}}, {Of: "c"}}, []int{0}},
		{"H1: itself", []Change{{Of: "c", Over: []int{0}}}, []int{0}},
		{"H1: a circle of two, the later stands", []Change{{Of: "c", Over: []int{1}}, {Of: "c", Over: []int{0}}}, []int{1}},
		{"H1: a circle of three", []Change{{Of: "c", Over: []int{2}}, {Of: "c", Over: []int{0}}, {Of: "c", Over: []int{1}}}, []int{2}},
	} {
		if got := heads(c.changes); !slices.Equal(got, c.want) {
			t.Errorf("%s: heads %v, want %v", c.story, got, c.want)
		}
	}
}

// Any changes naming any others: every one leads to a head (H1). Without
// circles, the heads are those nobody names, in whatever order they come (H2).
func TestReplacedProperties(t *testing.T) {
	for seed := range uint64(3000) {
		r := rand.New(rand.NewPCG(seed, 0))
		n := 1 + r.IntN(8)
		changes := make([]Change, n)
		for i := range changes {
			changes[i].Of = fmt.Sprint(r.IntN(2))
			for range r.IntN(3) {
				changes[i].Over = append(changes[i].Over, r.IntN(n+1)-1)
			}
		}
		by := Replaced(changes)
		for i := range changes {
			at, steps := i, 0
			for len(by[at]) > 0 {
				at = by[at][0]
				if steps++; steps > n {
					t.Fatalf("seed %d: change %d of %v leads round in a circle", seed, i, changes)
				}
			}
		}
		for i := range changes { // now without circles
			changes[i].Over = slices.DeleteFunc(changes[i].Over, func(j int) bool { return j >= i })
		}
		want := heads(changes)
		order := r.Perm(n)
		at := make([]int, n)
		for place, i := range order {
			at[i] = place
		}
		mixed := make([]Change, n)
		for i, c := range changes {
			mixed[at[i]] = Change{Of: c.Of}
			for _, j := range c.Over {
				if j >= 0 {
					j = at[j]
				}
				mixed[at[i]].Over = append(mixed[at[i]].Over, j)
			}
		}
		got := heads(mixed)
		for k := range got {
			got[k] = order[got[k]]
		}
		slices.Sort(got)
		if !slices.Equal(got, want) {
			t.Fatalf("seed %d: H2: heads %v, in another order %v", seed, want, got)
		}
	}
}
