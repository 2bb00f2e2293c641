package torque_test

import (
	"fmt"
	"slices"
	"testing"

	"linkrod/radial/quantity"
	"linkrod/radial/torque"
)

// The cross patterns of ASME PCC-1 (from memory) for 4, 8, 12 and 16; the stars of a
// five-bolt and a three-bolt flange, common practice.
func TestCrissCross(t *testing.T) {
	for n, want := range map[int]string{
		1:  "[1]",
		2:  "[1 2]",
		3:  "[1 2 3]",
		4:  "[1 3 2 4]",
		5:  "[1 3 5 2 4]",
		8:  "[1 5 3 7 2 6 4 8]",
		12: "[1 7 4 10 2 8 5 11 3 9 6 12]",
		16: "[1 9 5 13 3 11 7 15 2 10 6 14 4 12 8 16]",
	} {
		if got := fmt.Sprint(must(torque.CrissCross(n))); got != want {
			t.Errorf("%d: %s, want %s", n, got, want)
		}
	}
	for _, bad := range []int{0, -1, 65} {
		wantProblem(t, second(torque.CrissCross(bad)), "fasteners", "from 1 to 64")
	}
}

// Every order takes each nut once. Even numbers go in opposite pairs. After each pair of
// the first no gap round the circle is more than twice another's and one, so the part is
// drawn down square.
func TestCrissCrossIsEven(t *testing.T) {
	for n := 1; n <= 64; n++ {
		order := must(torque.CrissCross(n))
		sorted := slices.Clone(order)
		slices.Sort(sorted)
		for i, k := range sorted {
			if k != i+1 {
				t.Fatalf("%d: %v", n, order)
			}
		}
		if n%2 == 1 {
			continue
		}
		for i := 0; i < n; i += 2 {
			if order[i+1]-order[i] != n/2 {
				t.Errorf("%d: %d is not opposite %d", n, order[i+1], order[i])
			}
			done := slices.Clone(order[:i+2])
			slices.Sort(done)
			least, most := n, 0
			for j, k := range done {
				gap := (done[(j+1)%len(done)] - k + n) % n
				if gap == 0 {
					gap = n
				}
				least, most = min(least, gap), max(most, gap)
			}
			if i > 0 && most > 2*least+1 {
				t.Errorf("%d: after %v the gaps are from %d to %d", n, order[:i+2], least, most)
			}
		}
	}
}

func TestPasses(t *testing.T) {
	got := must(torque.Passes(4, 150, 300, 435))
	want := []torque.Pass{
		{150, []int{1, 3, 2, 4}, false}, {300, []int{1, 3, 2, 4}, false}, {435, []int{1, 3, 2, 4}, false},
		{435, []int{1, 2, 3, 4}, true},
	}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("%v, want %v", got, want)
	}
	wantProblem(t, second(torque.Passes(0, 150)), "fasteners", "from 1")
	wantProblem(t, second(torque.Passes(12)), "stages", "at least the final")
	wantProblem(t, second(torque.Passes(12, 150, 150)), "stage 2", "more than the one before")
	wantProblem(t, second(torque.Passes(12, 150, 300, 250)), "stage 3", "Stage 3 is 250")
	wantProblem(t, second(torque.Passes(12, 150, 100)), "stage 2", "more than the one before")
	wantProblem(t, second(torque.Passes(12, 0)), "stage 1", "above 0")
	wantProblem(t, second(torque.Passes(12, 100, quantity.Torque(nan))), "stage 2", "above 0")
}

func TestStages(t *testing.T) {
	if got := fmt.Sprint(must(torque.Stages(300, 50, 75, 100))); got != "[150 225 300]" {
		t.Error(got)
	}
	for _, bad := range [][]int{{}, {50, 75}, {50, 50, 100}, {0, 100}, {-10, 100}, {50, 101}, {100, 50}, {50, 100, 100}} {
		wantProblem(t, second(torque.Stages(300, bad...)), "stages", "end with 100")
	}
	wantProblem(t, second(torque.Stages(0, 100)), "final torque", "above 0")
}
