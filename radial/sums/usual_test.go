package sums_test

import (
	"strconv"
	"strings"
	"testing"
)

// What is usual of these engines, box by box, in the first unit of the box: a figure at
// either end is taken without a question, and one beyond is asked about. Common practice,
// no source; they are no limits. They stand here a second time so that a slip in one of the
// two is seen.
const usual = `
torque-wrench: lever 4 72, adapter -24 24, grip 4 72
prop-nut: bar 1 10, weight 80 400
preload: factor 0.08 0.35, grip 0.1 20
nut-order: nuts 3 24
travel: stroke 3 8, rod 5 18, degrees 0 60
travel-link: cylinders 5 9, stroke 3 8, rod 5 18, knuckle 1 4, link 3 16, offset -10 10, advance 5 45
tops: cylinders 5 9, stroke 3 8, rod 5 18, knuckle 1 4, link 3 16, at -360 360, bore 3 8, ratio 4 10
positive-stop: before 1 120, after 1 120, stroke 3 8, rod 5 18
run-up: both 800 2500, left 500 2500, right 500 2500
advance: speed 100 3000
missing-oil: shutdown 1 40, start 1 40, warm 40 250, cold -20 120, step 0.1 2, bore 3 8, stroke 3 8, ratio 4 10
oil-rate: before 1 40, added 0 16, hours 0.5 100, after 1 40, warm 40 250, cold 40 250, step 0.1 2
oil-heat: level 1 40, read -20 250, asked -20 250, later 1 40, density 850 930
oil-power: rate 0.02 8, consumption 0.0005 0.05, power 20 1500, density 850 930
oil-grade: viscosity 5 30
wear-metal: found 0 500, hours 5 100, added 0 100, charge 4 40
lock: bore 3 8, stroke 3 8, ratio 4 10, room 4 32
blades: blades 2 4, cylinders 5 9, pulled 1 40
push: push 5 250, arm 1 8, stroke 3 8, rod 5 18, degrees 1 90
differential: bore 3 8, supply 40 120, reading 20 120, stroke 3 8, rod 5 18, off 0 45, arm 1 8
cranking: minimum 40 150
clearance: holetemp 20 130, shafttemp 20 130, at -40 500
ring-gap: gap 2 120, bore 3 8, smaller 0 15
displacement: bore 3 8, stroke 3 8, cylinders 5 9, ratio 4 10, room 4 32
power: power 20 1500, bmep 30 300, speed 300 3500, displacement 100 3500, stroke 3 8
firing-order: cylinders 5 9
hang-low: cylinders 5 9, roll -20 20, tail -5 20
magneto: cylinders 5 9, sparks 1 8, egap 4 30, lobes 1 5
next-due: every 1 2500
tach-clock: speed 500 3500, reference 1000 3500
`

func TestUsual(t *testing.T) {
	for _, line := range strings.Split(strings.TrimSpace(usual), "\n") {
		id, boxes, _ := strings.Cut(line, ": ")
		for _, box := range strings.Split(boxes, ", ") {
			f := strings.Fields(box)
			low, err1 := strconv.ParseFloat(f[1], 64)
			high, err2 := strconv.ParseFloat(f[2], 64)
			if err1 != nil || err2 != nil {
				t.Fatalf("%s: %v", line, f)
			}
			asked := map[float64]bool{low: false, high: false, beyond(high): true}
			if low != 0 { // less than nothing is refused or means something else
				asked[low-(beyond(low)-low)] = true
			}
			for figure, want := range asked {
				text := strconv.FormatFloat(figure, 'f', -1, 64)
				if got := far(work(t, id, typed{f[0]: text}), f[0]); got != want {
					t.Errorf("%s: %s %s is asked about: %v, want %v", id, f[0], text, got, want)
				}
			}
		}
	}
}

// beyond is the next figure up that anybody would type: a count goes up by one.
func beyond(v float64) float64 {
	if v == float64(int(v)) {
		return v + 1
	}
	return v * 1.01
}

func far(p page, box string) bool {
	for _, a := range p.Asks {
		if a.Field == box && strings.HasPrefix(a.Code, "far") {
			return true
		}
	}
	return false
}
