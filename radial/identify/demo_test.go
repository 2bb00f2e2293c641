package identify_test

import (
	"encoding/json"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"linkrod/radial/identify"
)

// The demo's family, from testdata/demo_family.json. DEMO: every name and figure in it is
// invented.
var family = must(identify.New(demoData()))

func demoData() identify.Data {
	text := must(os.ReadFile("testdata/demo_family.json"))
	var d identify.Data
	if err := json.Unmarshal(text, &d); err != nil {
		panic(err)
	}
	return d
}

// see is observations in pairs, feature and value.
func see(pairs ...string) []identify.Observation {
	var list []identify.Observation
	for i := 0; i < len(pairs); i += 2 {
		list = append(list, identify.Observation{Feature: pairs[i], State: identify.Observed, Values: pairs[i+1 : i+2]})
	}
	return list
}

func told(pairs ...string) identify.Result { return must(family.Identify(see(pairs...))) }

// of is how a model stands.
func of(t *testing.T, r identify.Result, name string) identify.Standing {
	t.Helper()
	for _, s := range r.Ranked {
		if s.Name == name {
			return s
		}
	}
	t.Fatalf("no %s among %d", name, len(r.Ranked))
	return identify.Standing{}
}

func against(s identify.Standing) string {
	var names []string
	for _, c := range s.Against {
		names = append(names, c.Feature)
	}
	return strings.Join(names, ", ")
}

// E1 of the demo: the log says serial 1187, an A; its plate is gone. Case, shaft, glands
// and nipples are an A's. Barrels and pistons are a B's, the flange drilled again for twelve
// studs. Three contradictions, and a mixed build.
func TestTheDemosMixedBuild(t *testing.T) {
	looked := see(
		"serial", "1187", "cylinders", "7", "hold-down", "12 studs 3/8-24", "shaft", "taper and key",
		"push-rod housing", "gland nut both ends", "rockers", "grease nipple",
		"bore", "5.375", "flange", "round with two flats, 0.375 in thick", "ratio", "5.9")
	looked[7].Evidence = []string{"flange, cylinder 3"}
	r := must(family.Identify(looked))

	a := of(t, r, "T7-A")
	if got := against(a); got != "barrel flange, bore, compression ratio" {
		t.Errorf("against the A: %s", got)
	}
	if c := a.Against[0]; c.Seen != "round with two flats, 0.375 in thick" || c.Wants != "round, 0.312 in thick" || !slices.Equal(c.Evidence, []string{"flange, cylinder 3"}) {
		t.Errorf("the first contradiction is %+v", c)
	}
	if got := against(of(t, r, "T7-B")); got != "barrel hold-down, crankshaft end, push-rod housing, serial number" {
		t.Errorf("against the B: %s", got)
	}
	if !r.Build.Mixed || r.Build.Base != "T7-A" {
		t.Errorf("the build is %+v", r.Build)
	}
	var parts []string
	for _, p := range r.Build.Parts {
		parts = append(parts, p.Name)
		deviates := p.Name == "barrels" || p.Name == "pistons"
		if p.Deviates != deviates || deviates && !slices.Equal(p.Fits, []string{"T7-B"}) || len(p.Approvals) != 0 {
			t.Errorf("part %+v", p)
		}
		if p.Name == "heads" && !slices.Equal(p.Fits, []string{"T7-A", "T7-B"}) {
			t.Errorf("heads fit %v", p.Fits)
		}
	}
	if got := strings.Join(parts, ", "); got != "power case, crankshaft, push-rod housings, heads, barrels, pistons" {
		t.Errorf("parts: %s", got)
	}
	if len(r.Ranked) != 3 || r.Ranked[0].Name != "T7-A" {
		t.Errorf("ranked %+v", r.Ranked)
	}
	for _, want := range []string{
		"It is a mixed build: T7-A (", "but barrels and pistons as on T7-B, no approval seen.",
		"which apply is for the shop to say, in writing.", "3 things speak against T7-A: ",
		"does not establish an identity",
	} {
		if !strings.Contains(r.Words(), want) {
			t.Errorf("%q is not in: %s", want, r.Words())
		}
	}

	// Without the serial number the B is the likelier one model, and the A still the base.
	r = must(family.Identify(looked[1:]))
	if r.Ranked[0].Name != "T7-B" || r.Build.Base != "T7-A" || !strings.Contains(r.Words(), "It is a mixed build: T7-A (about 3 in 10), but barrels and pistons as on T7-B") || !strings.Contains(r.Words(), "Then T7-B (about 4 in 10), with 3 things against it.") {
		t.Errorf("without the serial number: %s", r.Words())
	}

	// With the papers of one of the two parts seen, they are two deviations.
	looked[8].Approval = "shop letter FS-25-02"
	if w := must(family.Identify(looked)).Words(); !strings.Contains(w, "but barrels as on T7-B, no approval seen, but pistons as on T7-B, approval by shop letter FS-25-02.") {
		t.Errorf("with one approval: %s", w)
	}
}

// The demo's B changed at two serial numbers, and the change is on the one that comes after.
func TestTheDemosSerialBoundaries(t *testing.T) {
	for _, tt := range []struct{ serial, reach, rockers, against string }{
		{"B-0620", "short", "grease nipple", ""},
		{"B-0620", "long", "grease nipple", "spark-plug reach"},
		{"B-0621", "long", "grease nipple", ""},
		{"B-0621", "short", "grease nipple", "spark-plug reach"},
		{"B-0900", "long", "grease nipple", ""},
		{"B-0900", "long", "pressure oil", "rocker lubrication"},
		{"B-0901", "long", "pressure oil", ""},
		{"B-0901", "long", "grease nipple", "rocker lubrication"},
		{"B-0101", "short", "grease nipple", ""},
		{"B-0100", "short", "grease nipple", "serial number"},
		{"B-1866", "long", "pressure oil", ""},
		{"B-1867", "long", "pressure oil", "serial number"},
		{"B-0711", "long", "grease nipple", ""}, // E2
		{"1187", "long", "grease nipple", "serial number"},
	} {
		r := told("serial", tt.serial, "plug reach", tt.reach, "rockers", tt.rockers)
		if got := against(of(t, r, "T7-B")); got != tt.against {
			t.Errorf("%+v: against the B %q", tt, got)
		}
	}
	// Without a serial number the two still have to go together: no B was built with short
	// plugs and pressure oil.
	r := told("plug reach", "short", "rockers", "pressure oil")
	if b := of(t, r, "T7-B"); len(b.Against) != 1 {
		t.Errorf("short plugs and pressure oil: %+v", b)
	}
	for _, fine := range [][]string{{"short", "grease nipple"}, {"long", "grease nipple"}, {"long", "pressure oil"}} {
		if b := of(t, told("plug reach", fine[0], "rockers", fine[1]), "T7-B"); len(b.Against) != 0 {
			t.Errorf("%v: %+v", fine, b)
		}
	}
	// What it has is said with its serial numbers.
	r = told("serial", "B-0711", "rockers", "pressure oil", "cylinders", "7")
	if c := of(t, r, "T7-B").Against[0]; c.Wants != "grease nipple (to B-0900) or pressure oil (after B-0900)" {
		t.Errorf("the B wants %q", c.Wants)
	}
	// E3 of the demo.
	r = told("serial", "C-2079", "cylinders", "9", "shaft", "20-spline, governor pad")
	if r.Ranked[0].Name != "T9-C" || r.Ranked[0].Share < 0.9 || len(r.Ranked[0].Against) != 0 {
		t.Errorf("E3 is %+v", r.Ranked[0])
	}
}

func TestFigures(t *testing.T) {
	for _, tt := range []struct {
		bore string
		fits string // the models that nothing speaks against
	}{
		{"5.000", "T7-A T9-C"},
		{"5.06", "T7-A T9-C"}, // the end of what is taken is taken
		{"5.060", "T7-A T9-C"},
		{"5.0601", ""},
		{"4.940", "T7-A T9-C"},
		{"4.9399", ""},
		{"5 3/8", "T7-B"},
		{"5.315", "T7-B"},
		{"136.525 mm", "T7-B"},      // 5.375 in
		{"138.0489 mm", "T7-B"},     // 5.435 in less a ten-thousandth of a mm
		{"138.0491 mm", ""},         // and that much more
		{"128.524 mm", "T7-A T9-C"}, // 5.060 in
	} {
		r := told("bore", tt.bore)
		var fits []string
		for _, name := range []string{"T7-A", "T7-B", "T9-C"} {
			if len(of(t, r, name).Against) == 0 {
				fits = append(fits, name)
			}
		}
		if got := strings.Join(fits, " "); got != tt.fits {
			t.Errorf("a bore of %s fits %q, want %q", tt.bore, got, tt.fits)
		}
	}
	r := told("ratio", "5.65", "magneto ratio", "1.125")
	if a := against(of(t, r, "T7-A")); a != "magneto speed to crank speed" {
		t.Errorf("against the A: %s", a)
	}
}

// The figures behind the shares, worked by hand: 0.3 for each of three models, and a tenth
// for others.
func TestShares(t *testing.T) {
	nine := 0.3 * 0.999       // the C, with nine cylinders counted
	seven := 0.3 * 0.001      // each of the other two
	others := 0.1 * (1.0 / 3) // any of three counts
	sum := nine + 2*seven + others
	r := told("cylinders", "9")
	for name, want := range map[string]float64{"T9-C": nine / sum, "T7-A": seven / sum, "T7-B": seven / sum} {
		if got := of(t, r, name).Share; math.Abs(got-want) > 1e-12 {
			t.Errorf("%s has %v, want %v", name, got, want)
		}
	}
	if math.Abs(r.Others-others/sum) > 1e-12 {
		t.Errorf("others have %v, want %v", r.Others, others/sum)
	}
	// A serial number in one of three blocks, and one in none. Doubt 0.05, and for others a
	// chance of one in four.
	r = told("serial", "C-2079")
	sum = 0.3*0.95 + 2*0.3*0.05 + 0.1/4
	if got := of(t, r, "T9-C").Share; math.Abs(got-0.3*0.95/sum) > 1e-12 {
		t.Errorf("C-2079 is a C by %v, want %v", got, 0.3*0.95/sum)
	}
	// A figure: the two bores there are, or another. The one who measured is unsure.
	looked := see("bore", "5.375")
	looked[0].Doubt = 0.4
	r = must(family.Identify(looked))
	sum = 0.3*0.6 + 2*0.3*0.4 + 0.1/3
	if got := of(t, r, "T7-B").Share; math.Abs(got-0.3*0.6/sum) > 1e-12 {
		t.Errorf("an unsure 5.375 is a B by %v, want %v", got, 0.3*0.6/sum)
	}
	// Weights.
	d := demoData()
	d.Candidates[0].Weight = 8
	r = must(must(identify.New(d)).Identify(nil))
	if got := of(t, r, "T7-A").Share; math.Abs(got-0.72) > 1e-12 || math.Abs(r.Others-0.1) > 1e-12 || r.Ranked[0].Name != "T7-A" {
		t.Errorf("eight of ten are an A by %v, others %v", got, r.Others)
	}
}

func TestWhatWasNotSeen(t *testing.T) {
	looked := append(see("cylinders", "7"),
		identify.Observation{Feature: "shaft", State: identify.NotVisible},
		identify.Observation{Feature: "rockers"},
		identify.Observation{Feature: "flange", State: identify.Contradictory, Evidence: []string{"p7"},
			Values: []string{"round, 0.312 in thick", "ROUND with two flats, 0.375 in thick"}},
		identify.Observation{Feature: "serial", State: identify.Contradictory, Values: []string{"1187", "b711"}})
	r := must(family.Identify(looked))
	plain := told("cylinders", "7")
	for i, s := range r.Ranked {
		if s.Share != plain.Ranked[i].Share || len(s.Against)+len(s.Silent) > 1 || len(s.Agrees) > 1 {
			t.Errorf("what was not seen, or seen two ways, is weighed: %+v", s)
		}
	}
	if len(r.Open) != 2 || r.Open[0].Feature != "barrel flange" || r.Open[0].Seen[1] != "round with two flats, 0.375 in thick" || r.Open[0].Evidence[0] != "p7" || r.Open[1].Feature != "serial number" || r.Open[1].Seen[1] != "B-711" {
		t.Errorf("left open: %+v", r.Open)
	}
	if !strings.Contains(r.Words(), "Seen two ways and left open: barrel flange, round, 0.312 in thick and round with two flats, 0.375 in thick.") {
		t.Errorf("words: %s", r.Words())
	}
	// The hidden one last, the open one not again, the one not looked at among the rest.
	keys := lookKeys(r)
	if keys[len(keys)-1] != "shaft" || !r.Looks[len(keys)-1].Hidden || slices.Contains(keys, "flange") || slices.Contains(keys, "cylinders") || !slices.Contains(keys, "rockers") || r.Looks[0].Hidden {
		t.Errorf("to look at: %v", keys)
	}
	if len(r.Build.Parts) != 1 || r.Build.Parts[0].Name != "power case" {
		t.Errorf("parts: %+v", r.Build.Parts)
	}
}

func lookKeys(r identify.Result) []string {
	var keys []string
	for _, l := range r.Looks {
		keys = append(keys, l.Feature.Key)
	}
	return keys
}

// One model, an A in all that was seen, has nothing against it; a part that no model has
// is not a mixed build.
func TestBuilds(t *testing.T) {
	r := told("cylinders", "7", "shaft", "taper and key")
	if r.Build.Mixed || r.Build.Base != "T7-A" || len(r.Build.Parts) != 2 || r.Build.Parts[0].Deviates || r.Build.Parts[1].Deviates {
		t.Errorf("an A: %+v", r.Build)
	}
	r = told("cylinders", "5", "shaft", "taper and key")
	if r.Build.Mixed || r.Build.Base != "T7-A" || len(r.Build.Parts[0].Fits) != 0 || !r.Build.Parts[0].Deviates {
		t.Errorf("five cylinders: %+v", r.Build)
	}
	if !strings.Contains(r.Words(), "No model listed has all that was seen. The nearest is T7-A (") || !strings.Contains(r.Words(), "One thing speaks against T7-A: number of cylinders “5”, where it has “7”.") {
		t.Errorf("five cylinders: %s", r.Words())
	}
	if b := told().Build; b.Mixed || b.Base != "" || len(b.Parts) != 0 {
		t.Errorf("nothing seen: %+v", b)
	}
	if b := told("cylinders", "5").Build; b.Base != "" || b.Mixed { // nothing fits, and nothing is a base
		t.Errorf("five cylinders and nothing else: %+v", b)
	}
	// The likelier of two that fit as many parts.
	if b := told("cylinders", "7", "serial", "B-0711").Build; b.Base != "T7-B" || b.Mixed {
		t.Errorf("base %+v", b)
	}
	looked := see("bore", "5.375", "flange", "round with two flats, 0.375 in thick", "cylinders", "9")
	looked[0].Approval, looked[1].Approval = "order 12", "order 12"
	looked[0].Evidence, looked[1].Evidence = []string{"p1"}, []string{"p2", "p3"}
	r = must(family.Identify(looked))
	for _, p := range r.Build.Parts {
		if p.Name == "barrels" && (!slices.Equal(p.Approvals, []string{"order 12"}) || !slices.Equal(p.Evidence, []string{"p2", "p3", "p1"}) || !slices.Equal(p.Features, []string{"barrel flange", "bore"})) {
			t.Errorf("barrels: %+v", p)
		}
	}
}

// Three hundred things against a model leave it a share near nothing, and still a number.
func TestManyContradictions(t *testing.T) {
	d := identify.Data{Others: 0.04, SerialDoubt: 0.01, Candidates: []identify.Candidate{{Name: "one", Weight: 1}, {Name: "other", Weight: 1}}}
	var looked []identify.Observation
	for i := range 300 {
		key := "f" + strconv.Itoa(i)
		d.Features = append(d.Features, identify.Feature{Key: key, Name: key, Part: "case", Effort: 1, Values: []string{"a", "b"}, Doubt: 0.001})
		for k, v := range []string{"a", "b"} {
			d.Candidates[k].Traits = append(d.Candidates[k].Traits, identify.Trait{Feature: key, Values: []string{v}})
		}
		looked = append(looked, see(key, "a")...)
	}
	r := must(must(identify.New(d)).Identify(looked))
	sum := r.Others + r.Ranked[0].Share + r.Ranked[1].Share
	if r.Ranked[0].Name != "one" || !(math.Abs(sum-1) < 1e-9) || !(r.Ranked[1].Share >= 0 && r.Ranked[1].Share < 1e-300) {
		t.Errorf("%v, %v and %v", r.Ranked[0].Share, r.Ranked[1].Share, r.Others)
	}
}
