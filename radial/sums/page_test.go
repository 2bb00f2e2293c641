package sums_test

import (
	"regexp"
	"strings"
	"testing"

	"linkrod/radial/sums"
)

var drawings = strings.Fields("wrench bar stud nuts crank rods disc drops curve tank levels warm scales lock blades push gauge pumps fit barrel gap cylinder firing hang cam due meters clock")

// Every page is whole with nothing on it: what is still to come is said, and nothing is
// answered.
func TestEmptyPages(t *testing.T) {
	name := regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)
	seen := map[string]bool{}
	for _, id := range list(t) {
		if seen[id] || !name.MatchString(id) {
			t.Errorf("%q is no address, or stands twice", id)
		}
		seen[id] = true
		p := work(t, id, nil)
		if p.Waits == "" || len(p.Answers) > 0 || p.Share != "" || len(p.Maths.Lines) > 0 || len(p.Draw) > 0 || len(p.Asks) > 0 {
			t.Errorf("%s answers nothing: %+v", id, p)
		}
		if p.Source == "" || p.Maths.Title != p.Title || !strings.Contains(" "+strings.Join(drawings, " ")+" ", " "+p.Drawing+" ") {
			t.Errorf("%s: source %q, drawing %q", id, p.Source, p.Drawing)
		}
		boxes := map[string]bool{}
		for _, b := range p.Fields {
			if boxes[b.Name] || !name.MatchString(b.Name) || b.Label == "" || b.Problem != "" || b.Echo != "" {
				t.Errorf("%s: %+v", id, b)
			}
			if b.With != "" && !boxes[b.With] {
				t.Errorf("%s: %s goes with %q, which does not come before it", id, b.Name, b.With)
			}
			boxes[b.Name] = true
			if b.Kind == "choice" && len(b.Choices) < 2 || b.Kind != "choice" && len(b.Choices) > 0 {
				t.Errorf("%s: %s has %d choices", id, b.Name, len(b.Choices))
			}
			torque := len(b.Units) > 0 && b.Units[0].Code == "in_lb"
			if torque && b.Unit != "" || !torque && len(b.Units) > 0 && b.Unit != b.Units[0].Code {
				t.Errorf("%s: %s begins in %q", id, b.Name, b.Unit)
			}
		}
	}
	if len(seen) < 28 {
		t.Errorf("only %d sums", len(seen))
	}
	if _, ok := sums.Work("perpetual-motion", sums.Typed{}); ok {
		t.Error("there is a sum that is not in the list")
	}
}

// The page either answers or says why not.
func TestAnswersOrWaits(t *testing.T) {
	for _, e := range examples {
		for leave := range e.in {
			in := typed{}
			for name, text := range e.in {
				if name != leave {
					in[name] = text
				}
			}
			p := work(t, e.id, in)
			if (p.Waits == "") != (len(p.Answers) > 0) || (p.Waits == "") != (p.Share != "") {
				t.Errorf("%s without %s: waits %q with %d answers", e.id, leave, p.Waits, len(p.Answers))
			}
		}
	}
}

// What is not given and not needed is said, with what was done without it.
func TestWhatIsNotGivenIsSaid(t *testing.T) {
	p := work(t, "torque-wrench", typed{"wanted": "435 in-lb", "lever": "11"})
	for _, want := range []string{"No adapter: the bare wrench.", "No drag given", "Thread not given", "Scale not given", "No range"} {
		if !strings.Contains(strings.Join(p.Notes, "\n"), want) {
			t.Errorf("%q is not in %q", want, p.Notes)
		}
	}
	if strings.Contains(strings.Join(p.Notes, "\n"), "Angle") {
		t.Errorf("the angle of no adapter is said: %q", p.Notes)
	}
	p = work(t, "torque-wrench", typed{"wanted": "435 in-lb", "lever": "11", "angle": "45"})
	if !strings.Contains(strings.Join(p.Notes, "\n"), "Angle of the adapter says nothing without “Adapter”, and is left out.") || strings.Contains(p.Share, "45") {
		t.Errorf("%q %q", p.Notes, p.Share)
	}
	p = work(t, "torque-wrench", typed{"wanted": "435 in-lb", "lever": "11", "grip": "9"})
	if len(p.Answers) != 1 || p.box("grip").Value != "9" {
		t.Errorf("a hand off the mark says nothing without an adapter, and was answered: %+v", p.Answers)
	}
	// Every example says one thing for every optional box that stands empty and counts.
	for _, e := range examples {
		p := work(t, e.id, e.in)
		empty := 0
		set := map[string]bool{}
		for _, b := range p.Fields {
			if b.Or != "" && b.Value != "" {
				set[b.Or] = true
			}
		}
		for _, b := range p.Fields {
			if b.Optional && b.Value == "" && !set[b.Or] && (b.With == "" || p.box(b.With).Value != "") {
				empty++
			}
		}
		if len(p.Notes) < empty {
			t.Errorf("%s: %d boxes empty and %d notes: %q", e.id, empty, len(p.Notes), p.Notes)
		}
	}
}

// A link carries the names of the boxes, and gives the same page back.
func TestLinkRoundTrip(t *testing.T) {
	for _, e := range examples {
		p := work(t, e.id, e.in)
		link := typed{}
		for _, b := range p.Fields {
			if b.Value != "" {
				link[b.Name] = b.Value
				if b.Kind == "figure" && b.Unit != "" {
					link[b.Name+".unit"] = b.Unit
				}
			}
		}
		q := work(t, e.id, link)
		if q.Share != p.Share || len(q.Answers) != len(p.Answers) || q.Waits != "" {
			t.Errorf("%s: %q came back as %q (%v)", e.id, p.Share, q.Share, problems(q))
		}
		apart := typed{}
		units := map[string]string{}
		for name, text := range link {
			if base, found := strings.CutSuffix(name, ".unit"); found {
				units[base] = text
			} else {
				apart[name] = text
			}
		}
		if r := work(t, e.id, apart, "units", units); r.Share != p.Share {
			t.Errorf("%s with its units beside: %q", e.id, r.Share)
		}
	}
	p := work(t, "travel", typed{"stroke": "5", "rod": "9.75", "degrees": "26", "colour": "red", "thrust": "9"})
	if !strings.Contains(strings.Join(p.Notes, "\n"), "The link also gave “colour”, “thrust”, which this page does not ask for.") {
		t.Errorf("%q", p.Notes)
	}
}

// Doubts are asked about, and never stand in the way; "as typed" ends them.
func TestQuestions(t *testing.T) {
	for _, tt := range []struct {
		id    string
		in    typed
		field string
		words string
		set   map[string]string // what one of the choices puts in
	}{
		{"torque-wrench", typed{"wanted": "36 in-lb", "lever": "11", "thread": "7/16-20", "lube": "oiled"}, "wanted", "Were foot pounds meant?", map[string]string{"wanted": "36 ft-lb"}},
		{"torque-wrench", typed{"wanted": "420 ft-lb", "lever": "11", "thread": "7/16-20", "lube": "dry"}, "wanted", "Were inch pounds meant?", map[string]string{"wanted": "420 in-lb"}},
		{"torque-wrench", typed{"reading": "36 in-lb", "lever": "11", "thread": "7/16-20", "lube": "anti-seize"}, "reading", "Were foot pounds meant?", map[string]string{"reading": "36 ft-lb"}},
		{"torque-wrench", typed{"wanted": "400 in-lb", "lever": "11", "thread": "7/16-24", "lube": "dry"}, "thread", "Count the threads again.", nil},
		{"bolt-table", typed{"thread": "3/8-24", "typed": "15 in-lb"}, "typed", "about twelve times apart", map[string]string{"typed": "15 ft-lb"}},
		{"oil-rate", typed{"before": "15", "hours": "0.5", "after": "14.2"}, "after", "Litres or quarts? 14.2 was typed. 14.2 litres is 15.0 quarts.", map[string]string{"after": "14.2 L"}},
		{"oil-rate", typed{"before": "14", "added": "1", "hours": "0.5", "after": "14.2"}, "after", "Litres or quarts?", map[string]string{"after": "14.2 L"}},
		{"missing-oil", typed{"shutdown": "15", "start": "14.2"}, "start", "Litres or quarts?", map[string]string{"start": "14.2 L"}},
		{"displacement", typed{"bore": "136.5", "stroke": "5", "cylinders": "7"}, "bore", "Bore 136.5 in is outside what is usual here, 3 to 8 inches.", map[string]string{"bore": "136.5 mm"}},
		{"displacement", typed{"bore": "53.75", "stroke": "5", "cylinders": "7"}, "bore", "Is the point in its place, and the unit right?", nil},
		{"displacement", typed{"bore": "5", "stroke": "5", "cylinders": "14"}, "cylinders", "Cylinders 14 is outside what is usual here, 5 to 9.", nil},
		{"clearance", typed{"hole": "5.250", "shaft": "5.225", "nominal": "5.025"}, "hole", "Is the point in its place", nil},
		{"bore-shape", typed{"topa": "5.250", "topb": "5.250", "skirta": "5.250", "skirtb": "5.250", "nominal": "5.025"}, "nominal", "Is the point in its place", nil},
	} {
		p := work(t, tt.id, tt.in)
		if p.Waits != "" {
			t.Errorf("%s: a question stands in the way: %q", tt.id, p.Waits)
		}
		asked := 0
		for _, a := range p.Asks {
			if a.Field != tt.field || a.Strength != "unlikely" || !strings.Contains(flat(a.Words), flat(tt.words)) {
				continue
			}
			asked++
			fits := tt.set == nil
			for _, c := range a.Choices {
				for name, text := range tt.set {
					fits = fits || c.Set[name] == text && c.Label != ""
				}
			}
			if !fits {
				t.Errorf("%s: no choice sets %v in %+v", tt.id, tt.set, a.Choices)
			}
			last := a.Choices[len(a.Choices)-1]
			checked, _ := last.Set["checked"].([]any)
			if last.Label != "As typed" || len(checked) != 1 || checked[0] != a.Code {
				t.Errorf("%s: %+v", tt.id, last)
			}
			for _, b := range work(t, tt.id, tt.in, "checked", checked).Asks {
				if b.Code == a.Code {
					t.Errorf("%s asks again: %q", tt.id, b.Words)
				}
			}
		}
		if asked != 1 {
			t.Errorf("%s %v: asked %d times, want %q at %s in %+v", tt.id, tt.in, asked, tt.words, tt.field, p.Asks)
		}
	}
}

// What can be read two ways is asked with both ways, and taking one of them answers.
func TestEitherWay(t *testing.T) {
	p := work(t, "torque-wrench", typed{"wanted": "435", "lever": "11"})
	if len(p.Asks) != 1 || p.Asks[0].Strength != "impossible" || len(p.Asks[0].Choices) != 2 {
		t.Fatalf("%+v", p.Asks)
	}
	for _, c := range p.Asks[0].Choices {
		q := work(t, "torque-wrench", typed{"wanted": c.Set["wanted"].(string), "lever": "11"})
		if q.Waits != "" {
			t.Errorf("%s is not taken: %v", c.Label, problems(q))
		}
	}
}

// The figure is answered in the unit that it was typed in, and torque is loud.
func TestUnits(t *testing.T) {
	p := work(t, "torque-wrench", typed{"wanted": "435", "lever": "11"}, "units", map[string]string{"wanted": "in_lb"})
	if b := p.box("wanted"); b.Unit != "in_lb" || !strings.Contains(b.Echo, "INCH pounds") {
		t.Errorf("%+v", b)
	}
	p = work(t, "torque-wrench", typed{"wanted": "36 ft-lb", "lever": "11"}, "units", map[string]string{"wanted": "in_lb"})
	if b := p.box("wanted"); b.Unit != "ft_lb" || p.Answers[0].Unit != "ft-lb" || !strings.Contains(p.Answers[0].Words, "FOOT pounds") {
		t.Errorf("a typed unit does not come before the chosen one: %+v %+v", b, p.Answers)
	}
	p = work(t, "travel", typed{"stroke": "5", "rod": "9.75", "degrees": "26", "stroke.unit": "furlong"})
	if b := p.box("stroke"); b.Problem == "" || b.Value != "5" || b.Unit != "in" {
		t.Errorf("%+v", b)
	}
	p = work(t, "displacement", typed{"bore": "5", "stroke": "5", "cylinders": "7", "cylinders.unit": "in"})
	if b := p.box("cylinders"); !strings.Contains(b.Problem, "A bare figure stands here.") {
		t.Errorf("%+v", b)
	}
}

// Limits are judged only where they were typed here, and it says so.
func TestLimitsAreTyped(t *testing.T) {
	in := typed{"hole": "5.2500", "shaft": "5.2245"}
	p := work(t, "clearance", in)
	if p.Answers[0].Verdict != "cant" || !strings.Contains(p.text(), "no limit on file") {
		t.Errorf("%+v %q", p.Answers[0], p.Notes)
	}
	for _, tt := range []struct{ shaft, verdict, words string }{
		{"5.2245", "inside", "new, from 25 thou to 27 thou"},
		{"5.2200", "inside", "serviceable"},
		{"5.2180", "edge", "on the wear limit of 32 thou itself"}, // the limit itself passes and is at the edge
		{"5.21799", "outside", "past the wear limit"},
		{"5.2260", "outside", "Wear does not go that way"},
	} {
		p := work(t, "clearance", typed{"hole": "5.2500", "shaft": tt.shaft, "newmin": "25", "newmax": "27", "wear": "32"})
		if p.Answers[0].Verdict != tt.verdict || !strings.Contains(p.text(), tt.words) || !strings.Contains(p.text(), "The limit was typed here; no document is on file for it.") {
			t.Errorf("%s: %+v %q", tt.shaft, p.Answers[0], p.Notes)
		}
	}
	p = work(t, "ring-gap", typed{"gap": "5", "bore": "5.5", "wear": "4", "sense": "less"})
	if p.Answers[0].Verdict != "inside" {
		t.Errorf("%+v", p.Answers[0])
	}
	p = work(t, "bore-shape", typed{"topa": "5.25", "topb": "5.25", "skirta": "5.25", "skirtb": "5.25", "judge": "wear", "wear": "4"})
	if !strings.Contains(p.text(), "Wear can't be judged: the nominal size is not given.") {
		t.Errorf("%q", p.Notes)
	}
	for _, e := range examples {
		judged := false
		for _, name := range []string{"newmin", "newmax", "wear", "minimum", "every", "months"} {
			judged = judged || e.in[name] != ""
		}
		for _, a := range work(t, e.id, e.in).Answers {
			if a.Verdict != "" && a.Verdict != "cant" && !judged {
				t.Errorf("%s is judged %s by nothing that was typed", e.id, a.Verdict)
			}
		}
	}
}

// No drop is the worst of answers, and comes first.
func TestNoDrop(t *testing.T) {
	p := work(t, "run-up", typed{"both": "1800", "left": "1740", "right": "1800"})
	if !strings.HasPrefix(p.Cautions[0], "No drop on the right alone: the left was not cut off. Take it for live") {
		t.Errorf("%q", p.Cautions)
	}
}

func TestDue(t *testing.T) {
	in := typed{"months": "12", "period": "calendar", "day": "2025-03-10"}
	p := work(t, "next-due", in, "now", map[string]string{"day": "2026-04-02"})
	if p.Answers[0].Verdict != "outside" || p.Answers[0].Figure != "late" || !strings.Contains(p.text(), "this phone's day") {
		t.Errorf("%+v", p.Answers)
	}
	if p = work(t, "next-due", in); p.Answers[0].Verdict != "cant" || p.Answers[0].Figure != "not known" {
		t.Errorf("%+v", p.Answers)
	}
	if p = work(t, "next-due", typed{"every": "25"}); p.Answers[0].Verdict != "cant" || !strings.Contains(p.text(), "not known") {
		t.Errorf("unknown was taken for something: %+v", p.Answers)
	}
	p = work(t, "next-due", typed{"every": "25", "done": "500", "now": "525"})
	if p.Answers[0].Verdict != "edge" {
		t.Errorf("at the mark: %+v", p.Answers)
	}
}

// A figure far beyond anything empties the page with a sentence, and no half of it stays.
func TestTooMuch(t *testing.T) {
	p := work(t, "displacement", typed{"bore": "999999999999", "stroke": "999999999999", "cylinders": "999999999999"})
	if !strings.Contains(p.Waits, "more than can be shown") || len(p.Answers) > 0 {
		t.Errorf("%q %+v", p.Waits, p.Answers)
	}
}

func TestDemoSaysSo(t *testing.T) {
	in := typed{"blades": "2", "cylinders": "7"}
	if p := work(t, "blades", in, "demo", true); !strings.HasPrefix(p.Share, "DEMO, every number is invented. Blades to pull") {
		t.Errorf("%q", p.Share)
	}
	if p := work(t, "blades", in); strings.Contains(p.Share, "DEMO") {
		t.Errorf("%q", p.Share)
	}
}
