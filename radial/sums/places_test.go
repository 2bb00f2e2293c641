package sums_test

import (
	"regexp"
	"strings"
	"testing"
)

// How finely each answer is shown: the most decimal places it has over all the worked
// examples, where zeros at the end of a whole number are left off. No finer than it is known, no
// coarser than it is read off: a wrench to what its scale has, a travel to a tenth of a
// thou. A choice of this project.
const shown = `
advance: Advance there, degrees of crank 1; Full advance 0; from 0
blades: Compressions gone through 0; Crank turns 0; Every cylinder once 0; Every cylinder surely 0; Every cylinder twice 0
bolt-table: A used lock nut turns with at least 1; Never beyond, shear nut 0; Never beyond, tension nut 0; Shear nut 0; Tension nut 0
bore-shape: Choke 2; Cylindricity 1; Largest 4; Out-of-round 1; Smallest 4; Taper 2; Wear over nominal 1
clearance: At that temperature about 1; Clearance 1
cranking: Average 0
differential: At the blade 0; Loss 1; Off the top the crank pulls with 2; Push on the piston at the supply 0; This bore needs an orifice of 3; Through the other orifice it would read about 0
displacement: Called 0; Clearance volume 2; Compression ratio 2; Displacement 1; One cylinder sweeps 2; and leaves 1; or 2
firing-order: One every 0
lock: A full lock 1; Clearance volume 2; Compression ratio 2; Compression with it 1; Doubles the compression 2; It fills 0; Peak pressure at most 0
magneto: Lobe to lobe 0; The E-gap at the crank 2; with 0
meter-change: Run since the start 1; Total 1
missing-oil: At worst, all in one cylinder 1; Clearance volume 2; It could be up to 1; Left the tank 1; Not found 1; Surely at least 1
next-due: Due at 1; Hours left 1
nut-order: Once more round, still at 0; Stage 1 1; Stage 2 0; Stage 3 0
oil-heat: Changed by 1; Gone, both brought to 60 °F 2; Level there 2; or 2
oil-power: Consumption by power 4; Rate 2; or 2
oil-rate: It may be anything from 2; Rate 2; Used 2; or 2
positive-stop: The stop holds the piston below its top by 3; The top is 2; in degrees of crank 2
power: Mean effective pressure 1; Mean piston speed 0; Power 1; Torque 2; or 2
preload: Preload 0; Stress in the thread 0; Stretch 4; give or take 30 per cent 0
prop-nut: Pull square at the end of the bar 0; The weight makes it at 1; There the weight makes 0
push: At the crankshaft 0; On the piston 0
ring-gap: By the inch of bore 2; End gap 1; Where the bore is smaller 1
run-up: Apart 0; Drop on left alone 0; Drop on right alone 0; Its usual 1; More than usual 1
tach-clock: By the clock 1; By the tach 3; as hours and minutes 1
torque-wrench: Set the wrench to 3; Set the wrench to at least 0; The nut got 0; With the hand off the mark the nut gets 3; and to no more than 0
travel-link: Against the evenly spaced place it fires before 2; Found against where it should be 2; It is fired before its own top 2; Its top comes 2; Its top stands from the master's 4; and so far below it 4
travel: Before the top 0; There a degree is 4; Travel below the top 4
wear-metal: In ten hours 1; This engine's own line 0; Without the oil added, at most 1
`

func TestHowFinelyAnswersAreShown(t *testing.T) {
	most := map[string]int{}
	for _, e := range examples {
		for _, a := range work(t, e.id, e.in).Answers {
			for _, figure := range strings.Fields(flat(a.Figure)) {
				_, places, _ := strings.Cut(strings.Trim(figure, ",°"), ".")
				key := e.id + ": " + a.Label
				most[key] = max(most[key], len(places))
			}
		}
	}
	for _, line := range strings.Split(strings.TrimSpace(shown), "\n") {
		id, answers, _ := strings.Cut(line, ": ")
		for _, answer := range strings.Split(answers, "; ") {
			i := strings.LastIndex(answer, " ")
			key := id + ": " + answer[:i]
			got, there := most[key]
			if want := int(answer[i+1] - '0'); !there || got != want {
				t.Errorf("%s is shown to %d places (%v), want %d", key, got, there, want)
			}
		}
	}
}

// No line of the maths has more than six places that nobody typed: a longer figure is one
// that was not rounded.
func TestMathsIsRounded(t *testing.T) {
	long := regexp.MustCompile(`\d\.\d{7,}`)
	for _, e := range examples {
		if e.id == "words" { // there a figure may be exact to the last of many places
			continue
		}
		for _, line := range work(t, e.id, e.in).Maths.Lines {
			for _, figure := range long.FindAllString(line, -1) {
				typed := false
				for _, text := range e.in {
					typed = typed || strings.Contains(text, figure)
				}
				if !typed {
					t.Errorf("%s (%s): %s", e.id, e.source, line)
				}
			}
		}
	}
}
