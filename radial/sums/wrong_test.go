package sums_test

import (
	"strings"
	"testing"
)

// What people type that cannot be taken: the box it is said at, and a piece of the
// sentence. box "" is a sentence under the page.
var wrong = []struct {
	id       string
	in       typed
	box      string
	sentence string
}{
	{"torque-wrench", typed{"wanted": "435", "lever": "11"}, "wanted", "435 of what? Inch pounds or foot pounds. Twelve times apart."},
	{"torque-wrench", typed{"wanted": "435 in-lb", "reading": "300 in-lb", "lever": "11"}, "reading", "Give this or “Torque wanted”, not both. Clear one of the two."},
	{"torque-wrench", typed{"wanted": "435 qt", "lever": "11"}, "wanted", "“qt” is a unit of volume. This takes inch pounds, foot pounds or newton metres."},
	{"torque-wrench", typed{"wanted": "435 in-lb", "lever": "11 in-lb"}, "lever", "“in-lb” is a unit of torque. This takes inches, thou or millimetres."},
	{"torque-wrench", typed{"wanted": "435 in-lb", "lever": "1l"}, "lever", "“l” is a unit of volume."},
	{"torque-wrench", typed{"wanted": "435 in-lb", "lever": "0"}, "lever", "The lever is 0 in. It must be a length above 0."},
	{"torque-wrench", typed{"wanted": "0 in-lb", "lever": "11"}, "wanted", "It must be a torque above 0."},
	{"torque-wrench", typed{"wanted": "-5 in-lb", "lever": "11"}, "wanted", "-5 in-lb is less than nothing. A torque starts at 0."},
	{"torque-wrench", typed{"wanted": "435 in-lb", "lever": "11", "adapter": "3.25", "angle": "200"}, "angle", "It must be from 0° straight out, by 90° square, to 180° back along the grip."},
	{"torque-wrench", typed{"wanted": "435 in-lb", "lever": "11", "adapter": "-12"}, "adapter", "The nut would be under the hand or behind it"},
	{"torque-wrench", typed{"wanted": "435 in-lb", "lever": "11", "adapter": "-3", "angle": "20"}, "adapter", "Less than 0 already means back along the grip"},
	{"torque-wrench", typed{"wanted": "190 in-lb", "upto": "160 in-lb", "lever": "11", "drag": "1 in-lb", "rule": "always"}, "wanted", "They may be the other way round."},
	{"torque-wrench", typed{"wanted": "50 in-lb", "upto": "70 in-lb", "lever": "11", "drag": "20 in-lb", "rule": "third"}, "drag", "say which torque in the range is wanted"},
	{"torque-wrench", typed{"wanted": "50 in-lb", "lever": "11", "thread": "7/16-20 whit"}, "thread", "is no thread known here"},
	{"torque-wrench", typed{"wanted": "50 in-lb", "lever": "11", "thread": "7/16-20", "lube": "greasy"}, "lube", "“greasy” is not one of the choices."},
	{"torque-wrench", typed{"wanted": "50", "wanted.unit": "psi", "lever": "11"}, "wanted", "“psi” is no unit for this. It takes inch pounds, foot pounds, newton metres, kilogram-force metres."},
	{"torque-wrench", typed{"wanted": "1,500 in-lb", "lever": "11"}, "wanted", "“1,500” can be 1.500 or 1500. Type the one that is meant."},
	{"torque-wrench", typed{"wanted": "435 in-lb", "lever": "11.2.5"}, "lever", "has two decimal points"},
	{"torque-wrench", typed{"wanted": "435 in-lb", "lever": "11 12"}, "lever", "is more than one figure"},
	{"torque-wrench", typed{"wanted": "435 in-lb", "lever": "11 mil"}, "lever", "A mil is a thousandth of an inch to some"},
	{"prop-nut", typed{"torque": "450 ft-lb", "bar": "3", "weight": "130"}, "bar", "130 lb would have to hang 3.46 ft out. Take a longer bar."},
	{"prop-nut", typed{"torque": "450 ft-lb", "bar": "3", "weight": "180", "out": "4"}, "out", "out on a bar of"},
	{"prop-nut", typed{"torque": "450 ft-lb", "bar": "3", "weight": "180", "slope": "95"}, "slope", "under 90°, where a weight turns nothing"},
	{"preload", typed{"torque": "450 in-lb", "thread": "3/8", "lube": "dry"}, "thread", "is no thread known here"},
	{"preload", typed{"torque": "450 in-lb", "thread": "3/8-24", "lube": "dry", "factor": "20"}, "factor", "It is from 0.03 to 1"},
	{"preload", typed{"torque": "450 in-lb", "thread": "3/8-24 UNC", "lube": "dry"}, "thread", "3/8-24 is not UNC"},
	{"nut-order", typed{"torque": "450 in-lb", "nuts": "8.5"}, "nuts", "“8.5” is no whole number, and this is counted."},
	{"nut-order", typed{"torque": "450 in-lb", "nuts": "99"}, "nuts", "It must be from 1 to 64."},
	{"nut-order", typed{"torque": "450 in-lb", "nuts": "8", "stages": "75 50 100"}, "stages", "The stages must rise"},
	{"nut-order", typed{"torque": "450 in-lb", "nuts": "8", "stages": "half"}, "stages", "There is no figure in “half”."},
	{"nut-order", typed{"torque": "450 in-lb", "nuts": "8", "stages": "50 0.5"}, "stages", "is not a whole number from 1 to 1000"},
	{"nut-order", typed{"torque": "450 in-lb", "nuts": "8", "stages": " , "}, "stages", "Type figures with spaces between."},
	{"bolt-table", typed{"thread": "M10x1.25"}, "thread", "has no line for M10x1.25"},
	{"travel", typed{"stroke": "5", "rod": "2", "degrees": "25"}, "rod", "Is the throw the stroke by mistake?"},
	{"travel", typed{"stroke": "5", "rod": "9.75", "travel": "6"}, "travel", "It must be from 0 to the stroke of this cylinder"},
	{"travel-link", typed{"cylinders": "8", "master": "5", "turns": "with", "cylinder": "1", "stroke": "5", "rod": "10.1", "knuckle": "2.75", "link": "7.35", "advance": "25", "cam": "even"}, "cylinders", "A single row has an odd number of cylinders"},
	{"travel-link", typed{"cylinders": "9", "master": "12", "turns": "with", "cylinder": "1", "stroke": "5", "rod": "10.1", "knuckle": "2.75", "link": "7.35", "advance": "25", "cam": "even"}, "master", "There is no cylinder 12"},
	{"travel-link", typed{"cylinders": "9", "master": "5", "turns": "with", "cylinder": "10", "stroke": "5", "rod": "10.1", "knuckle": "2.75", "link": "7.35", "advance": "25", "cam": "even"}, "cylinder", "so it has to be said: 1 to 9"},
	{"travel-link", typed{"cylinders": "9", "master": "5", "turns": "with", "cylinder": "1", "stroke": "5", "rod": "10.1", "knuckle": "2.75", "link": "2", "advance": "25", "cam": "even"}, "link", "it must be longer than"},
	{"travel-link", typed{"cylinders": "9", "master": "5", "turns": "with", "cylinder": "1", "stroke": "5", "rod": "10.1", "knuckle": "2.75", "link": "7.35", "advance": "75", "cam": "even"}, "advance", "It must be from 0° to 60° before the top."},
	{"travel-link", typed{"cylinders": "9", "master": "5", "turns": "with", "cylinder": "1", "stroke": "5", "rod": "10.1", "knuckle": "2.75", "link": "7.35", "advance": "25", "cam": "even", "found": "200"}, "found", "It must be from −180° to 180°"},
	{"tops", typed{"cylinders": "7", "master": "1", "turns": "with", "stroke": "5", "rod": "9.75", "knuckle": "2.55", "link": "7.2", "bore": "5.375", "ratio": "1"}, "ratio", "It must be more than 1, as 6 for 6 to 1."},
	{"positive-stop", typed{"before": "330", "after": "36"}, "before", "That must be more than 0° and less than a turn."},
	{"run-up", typed{"both": "0", "left": "0", "right": "0"}, "both", "The engine must be running."},
	{"run-up", typed{"both": "1800", "left": "1740", "right": "1700", "lefts": "60 many"}, "lefts", "There is no figure in “many”."},
	{"advance", typed{"table": "500 0 1000", "degrees": "crank", "speed": "900"}, "table", "There are three figures, and each rpm needs its degrees."},
	{"advance", typed{"table": "1000 0, 500 12", "degrees": "crank", "speed": "900"}, "table", "The table goes from slow to fast."},
	{"advance", typed{"table": "1000 0, 1500 90", "degrees": "crank", "speed": "900"}, "table", "A table in distributor degrees is"},
	{"missing-oil", typed{"shutdown": "15000", "start": "14"}, "", "A level before or after parking cannot be right: read it again."},
	{"oil-rate", typed{"before": "15", "hours": "0", "after": "14.5"}, "hours", "no time went by"},
	{"oil-rate", typed{"before": "150000", "hours": "2", "after": "14.5"}, "before", "level is outside the tank"},
	{"oil-rate", typed{"before": "15", "hours": "2", "after": "150000"}, "after", "level is outside the tank"},
	{"oil-heat", typed{"level": "16", "read": "160", "asked": "900"}, "asked", "It must be from −100 to 500 °F."},
	{"oil-heat", typed{"level": "16", "read": "-160", "asked": "60"}, "read", "It must be from −100 to 500 °F."},
	{"oil-heat", typed{"level": "16", "read": "160", "asked": "60", "density": "0.89"}, "density", "Lubricating oils are from 700 to 1200 kg/m³"},
	{"oil-heat", typed{"level": "16", "read": "160", "asked": "60", "later": "-1"}, "later", "is less than nothing"},
	{"oil-grade", typed{"grade": "15W-50"}, "grade", "“15W-50” is not a single grade of aviation oil."},
	{"wear-metal", typed{"found": "-3", "hours": "20"}, "found", "must be from 0 to a million"},
	{"wear-metal", typed{"found": "3", "hours": "0"}, "hours", "It must be more than 0."},
	{"wear-metal", typed{"found": "3", "hours": "20", "added": "4", "charge": "0"}, "charge", "It must be more than 0: what goes round"},
	{"wear-metal", typed{"found": "3", "hours": "20", "history": "3 4 5"}, "history", "There are 3 samples of this engine."},
	{"magneto", typed{"cylinders": "7", "sparks": "4", "egap": "95"}, "egap", "less than 90°"},
	{"oil-power", typed{"rate": "0 h/qt", "power": "300"}, "rate", "Nought hours a quart is no rate."},
	{"oil-power", typed{"rate": "0.5", "power": "0"}, "power", "It must be more than 0."},
	{"lock", typed{"bore": "5.1875", "stroke": "5.1875", "ratio": "1"}, "ratio", "It must be more than 1, as 6 for 6 to 1."},
	{"lock", typed{"bore": "5.1875", "stroke": "5.1875", "room": "-3"}, "room", "A volume starts at 0."},
	{"lock", typed{"bore": "5.1875", "stroke": "5.1875", "ratio": "6", "room": "12"}, "room", "Give this or “Compression ratio”, not both."},
	{"blades", typed{"blades": "9", "cylinders": "7"}, "blades", "A propeller has 2, 3 or 4 blades, not 9 (1 to 8 are taken)."},
	{"blades", typed{"blades": "2", "gear": "2:3", "cylinders": "7"}, "gear", "would turn the propeller faster than the crankshaft. Type crank turns first, as 3:2."},
	{"blades", typed{"blades": "2", "gear": "fast", "cylinders": "7"}, "gear", "is no gear ratio"},
	{"blades", typed{"blades": "2", "cylinders": "7", "pulled": "0"}, "pulled", "0 blades pulled. It must be from 1 to 1000."},
	{"push", typed{"push": "60", "arm": "4", "stroke": "5", "rod": "9.75", "degrees": "0"}, "degrees", "It must be more than 0, where the force has no bound"},
	{"differential", typed{"bore": "5.375", "supply": "80", "reading": "95"}, "reading", "The cylinder reads 95 psi and only 80 psi is supplied."},
	{"differential", typed{"bore": "5.375", "supply": "0", "reading": "0"}, "supply", "It is what the first gauge shows, 80 psi."},
	{"differential", typed{"bore": "5.375", "supply": "80", "reading": "70", "stroke": "5", "rod": "9.75", "off": "200"}, "off", "It must be less than 180°"},
	{"cranking", typed{"readings": "98"}, "readings", "An average needs all the cylinders."},
	{"cranking", typed{"readings": "98 -3"}, "readings", "A gauge starts at 0."},
	{"clearance", typed{"hole": "5.25", "shaft": "5.2245", "wear": "25.5"}, "wear", "It is not said whether the limit of 25.5 thou is a maximum or a minimum."},
	{"clearance", typed{"hole": "5.25", "shaft": "5.2245", "newmin": "27", "newmax": "25", "wear": "32"}, "newmin", "They may be the other way round, or a minus is missing."},
	{"clearance", typed{"hole": "5.25", "shaft": "5.2245", "newmin": "25", "newmax": "27", "wear": "26"}, "wear", "A worn part would be newer than a new one."},
	{"clearance", typed{"hole": "5.25", "shaft": "5.2245", "holetemp": "60", "shafttemp": "95", "shaftmetal": "aluminium alloys"}, "holetemp", "Leave both side by side, the gauge with them, and measure again."},
	{"clearance", typed{"hole": "0", "shaft": "5.2245"}, "hole", "It must be more than 0."},
	{"bore-shape", typed{"topa": "5.25", "topb": "0", "skirta": "5.25", "skirtb": "5.25"}, "topb", "The top, B is 0 in. It must be more than 0."},
	{"ring-gap", typed{"gap": "0", "bore": "5.5"}, "gap", "It must be more than 0."},
	{"displacement", typed{"bore": "0", "stroke": "5", "cylinders": "7"}, "bore", "It must be a length above 0."},
	{"displacement", typed{"bore": "5", "stroke": "5", "cylinders": "0"}, "cylinders", "It must be 1 or more."},
	{"displacement", typed{"bore": "5 1/3", "stroke": "5", "cylinders": "7"}, "bore", "1/3 is not on a rule."},
	{"power", typed{"power": "450", "speed": "0", "displacement": "985"}, "speed", "It must be a number of rpm above 0."},
	{"firing-order", typed{"cylinders": "7", "turns": "with", "first": "9"}, "first", "There is no cylinder 9"},
	{"hang-low", typed{"cylinders": "9", "seen": "cockpit", "numbered": "clockwise", "tail": "95"}, "tail", "It must be less than 90° either way."},
	{"magneto", typed{"cylinders": "9", "lobes": "7"}, "lobes", "Were both tracks counted?"},
	{"magneto", typed{"cylinders": "9", "sparks": "0"}, "sparks", "It must be 1 or more."},
	{"next-due", typed{}, "", "No interval is given. It takes hours, or days or months, or both."},
	{"next-due", typed{"every": "25", "done": "513.1", "now": "500"}, "now", "Hours do not go back. Was the meter changed?"},
	{"next-due", typed{"every": "25", "overrun": "30"}, "overrun", "The overrun must be less."},
	{"next-due", typed{"months": "12", "period": "months", "day": "2025-02-30"}, "day", "There is no day 30 in February 2025, which has 28 days."},
	{"next-due", typed{"months": "12", "period": "months", "day": "03/04/2025"}, "day", "Type it as 2025-10-06."},
	{"next-due", typed{"months": "0", "period": "months"}, "months", "It must be from 1 to 1200."},
	{"meter-change", typed{"start": "600", "now": "551.7"}, "now", "Meters do not go back. Was it changed?"},
	{"meter-change", typed{"start": "500", "out": "400", "in": "0", "now": "10"}, "out", "Meters do not go back."},
	{"tach-clock", typed{"clock": "1:75", "speed": "1800", "reference": "2200"}, "clock", "has seventy-five minutes, and an hour has sixty"},
	{"tach-clock", typed{"clock": "1", "speed": "1800", "reference": "0"}, "reference", "It must be more than 0; it stands on the meter."},
	{"words", typed{"figure": "40 lb"}, "figure", "can be a mass or a force. Say below which it is."},
	{"words", typed{"figure": "abc"}, "figure", "was not made out. Type a figure with its unit"},
	{"words", typed{"figure": "40 lb", "kind": "length"}, "figure", "“lb” is"},
}

func TestWrongEntries(t *testing.T) {
	if len(wrong) < 40 {
		t.Fatalf("only %d wrong entries", len(wrong))
	}
	for _, tt := range wrong {
		p := work(t, tt.id, tt.in)
		if len(p.Answers) != 0 || p.Waits == "" || p.Draw[tt.box] != nil || p.Share != "" {
			t.Errorf("%s %v is answered: %+v", tt.id, tt.in, p.Answers)
			continue
		}
		said := p.Waits
		if tt.box != "" {
			b := p.box(tt.box)
			said = b.Problem
			if said == "" {
				t.Errorf("%s %v: nothing at %s, but %v, %q", tt.id, tt.in, tt.box, problems(p), p.Waits)
				continue
			}
			if !strings.Contains(p.Waits, b.Label[1:]) {
				t.Errorf("%s %v: the page does not point to %s: %q", tt.id, tt.in, b.Label, p.Waits)
			}
		}
		if !strings.Contains(flat(said), flat(tt.sentence)) {
			t.Errorf("%s %v: %q, want %q", tt.id, tt.in, said, tt.sentence)
		}
		if last := said[len(said)-1:]; last != "." && last != "?" {
			t.Errorf("%s %v: %q is no sentence", tt.id, tt.in, said)
		}
		for name, text := range tt.in { // nothing that was typed is lost
			if b := p.box(name); !strings.HasSuffix(name, ".unit") && b.Value != text {
				t.Errorf("%s: %s is %q, was typed as %q", tt.id, name, b.Value, text)
			}
		}
	}
}
