package sums_test

import (
	"strings"
	"testing"
)

// Boxes in which a figure cannot be: no bore is nothing, no rod is less than nothing, no
// engine has a hundred thousand cylinders. Whatever else is typed as in a worked example, it
// is said at that box, and there is no answer.
var cannotBe = map[string]string{
	"0": `
torque-wrench: wanted lever reading upto drag full grip
prop-nut: torque bar weight out
preload: torque thread grip shank factor
nut-order: nuts torque stages
bolt-table: thread typed
travel: stroke rod
travel-link: cylinders master cylinder stroke rod link
tops: cylinders master stroke rod link bore ratio
positive-stop: gear stroke rod
run-up: both
advance: table
wear-metal: hours charge history
oil-heat: density
missing-oil: bore stroke ratio
oil-rate: hours
oil-power: power density
lock: bore stroke ratio room
blades: blades gear cylinders pulled
push: push arm gear stroke rod degrees
differential: bore supply stroke rod arm
cranking: readings
clearance: hole shaft
bore-shape: topa topb skirta skirtb uppera upperb nominal
ring-gap: gap bore
displacement: bore stroke cylinders ratio room
power: power speed displacement bmep stroke
firing-order: cylinders first master
hang-low: cylinders
magneto: cylinders sparks lobes egap
next-due: every now months
meter-change: out out2
words: figure
`,
	"-1": `
torque-wrench: wanted lever angle reading upto drag full grip
prop-nut: torque bar weight slope out
preload: torque thread grip factor
nut-order: nuts torque stages
bolt-table: thread typed
travel: stroke rod travel
travel-link: cylinders master cylinder stroke rod link advance down
tops: cylinders master stroke rod link bore ratio
positive-stop: gear stroke rod
run-up: both left right
advance: table speed
wear-metal: found hours added charge history
oil-heat: level later density
missing-oil: shutdown start sump jars step bore stroke ratio
oil-rate: before hours after added step
oil-power: consumption power density rate
lock: bore stroke ratio liquid room
blades: blades gear cylinders pulled
push: push arm gear stroke rod degrees
differential: bore supply reading stroke rod arm
cranking: readings minimum
clearance: hole shaft
bore-shape: topa topb skirta skirtb uppera upperb nominal
ring-gap: gap bore
displacement: bore stroke cylinders ratio room
power: power speed displacement bmep stroke
firing-order: cylinders first master
hang-low: cylinders
magneto: cylinders sparks lobes egap
next-due: every done now overrun wasdue months overdays
meter-change: start total now out in out2 in2
tach-clock: clock speed reference tach
words: figure
`,
	"100000": `
torque-wrench: angle reading upto drag full
prop-nut: torque slope out
preload: torque thread factor
nut-order: nuts torque stages
bolt-table: thread typed
travel: travel
travel-link: cylinders master cylinder advance found down
tops: cylinders master
positive-stop: before gear
advance: table
wear-metal: history
oil-heat: read asked density
oil-rate: before after
oil-power: density
blades: blades gear cylinders pulled
push: gear degrees
differential: reading off
cranking: readings
clearance: newmin
bore-shape: newmin
firing-order: cylinders first master
hang-low: cylinders tail
magneto: lobes egap
next-due: overrun months overdays
words: figure
`,
}

func TestWhatCannotBe(t *testing.T) {
	for figure, sums := range cannotBe {
		for _, line := range strings.Split(strings.TrimSpace(sums), "\n") {
			id, boxes, _ := strings.Cut(line, ": ")
			for _, box := range strings.Fields(boxes) {
				tried := 0
				for _, e := range examples {
					if e.id != id || e.in[box] == "" {
						continue
					}
					tried++
					in := typed{}
					for name, text := range e.in {
						in[name] = text
					}
					in[box] = figure
					p := work(t, id, in)
					said := false
					for _, b := range p.Fields {
						said = said || b.Name == box && b.Problem != ""
					}
					if !said || len(p.Answers) > 0 || p.Waits == "" {
						t.Errorf("%s: %s %s is answered with %+v (%v)", id, box, figure, p.Answers, problems(p))
					}
				}
				if tried == 0 {
					t.Errorf("%s: no worked example fills %s", id, box)
				}
			}
		}
	}
}

// The master is nobody's mirror, and no other cylinder is without one.
func TestTheMasterHasNoMirror(t *testing.T) {
	p := work(t, "tops", typed{"cylinders": "7", "master": "1", "turns": "with", "stroke": "5", "rod": "9.75", "knuckle": "2.55", "link": "7.2"})
	for i, a := range p.Answers {
		if strings.Contains(a.Figure, "mirror") != (i > 0) {
			t.Errorf("%s: %s", a.Label, a.Figure)
		}
	}
}

// A figure is said in every other unit there is, and not once more in its own.
func TestOwnUnitIsNotSaidTwice(t *testing.T) {
	p := work(t, "words", typed{"figure": "300 in-lb"})
	seen := map[string]bool{}
	for _, a := range p.Answers {
		if seen[a.Unit] {
			t.Errorf("%s stands twice: %+v", a.Unit, p.Answers)
		}
		seen[a.Unit] = true
	}
	if len(p.Answers) != 4 { // itself, ft-lb, N·m, kgf·m
		t.Errorf("%d ways to say it: %+v", len(p.Answers), p.Answers)
	}
}

// Inside a sentence a label has no capital, unless it is a name.
func TestLabelsInSentences(t *testing.T) {
	for _, tt := range []struct {
		id   string
		in   typed
		says string
	}{
		{"magneto", typed{"cylinders": "7", "sparks": "4", "egap": "95"}, "E-gap at the magnet"},
		{"travel", typed{"stroke": "0", "rod": "9.5", "degrees": "25"}, "stroke"},
	} {
		if p := work(t, tt.id, tt.in); !strings.Contains(p.Waits, tt.says) {
			t.Errorf("%s: %q", tt.id, p.Waits)
		}
	}
}

// Inside its grade, and just outside at either end.
func TestViscosityOfAGrade(t *testing.T) {
	for viscosity, is := range map[string]bool{"16.3": true, "21.89": true, "21.9": false, "16.29": false} {
		p := work(t, "oil-grade", typed{"grade": "SAE 50", "viscosity": viscosity})
		if notes := strings.Join(p.Notes, " "); strings.Contains(notes, "It is of that grade.") != is || strings.Contains(notes, "not of that grade now") == is {
			t.Errorf("%s cSt: %q", viscosity, notes)
		}
	}
}

// A list is written with its commas between, and after the first answer of a line to send
// the others go on in small letters.
func TestListsAndLinesRead(t *testing.T) {
	p := work(t, "cranking", typed{"readings": "100 100 75 100 100"})
	if maths := flat(strings.Join(p.Maths.Lines, "\n")); !strings.Contains(maths, "sum of 100, 100, 75, 100, 100 over") {
		t.Errorf("%q", maths)
	}
	p = work(t, "travel", typed{"stroke": "5", "rod": "9.5", "degrees": "25"})
	if !strings.Contains(flat(p.Share), ". Travel below the top 0.2932 in; there a degree is ") {
		t.Errorf("%q", p.Share)
	}
}
