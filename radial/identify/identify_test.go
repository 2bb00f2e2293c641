package identify_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"linkrod/radial/identify"
	"linkrod/radial/quantity"
)

// random is a family of some models over some features, every model of one weight, with
// variants, silences and serial ranges.
func random(r *rand.Rand) identify.Data {
	d := identify.Data{Others: 0.01 + 0.5*r.Float64(), SerialDoubt: 0.01 + 0.4*r.Float64()}
	for i := range 2 + r.IntN(6) {
		f := identify.Feature{
			Key: "f" + strconv.Itoa(i), Name: "feature " + strconv.Itoa(i), Part: "part " + strconv.Itoa(r.IntN(3)),
			Effort: 1, Doubt: 0.001 + 0.49*r.Float64(),
		}
		if r.IntN(3) > 0 {
			for v := range 2 + r.IntN(4) {
				f.Values = append(f.Values, "v"+strconv.Itoa(v))
			}
		} else {
			f.Unit, f.Within = quantity.UnitIn, quantity.MustDecimal("0.1")
		}
		d.Features = append(d.Features, f)
	}
	some := func(f identify.Feature) []string {
		var list []string
		for n := 1 + r.IntN(2); len(list) < n; {
			v := "v" + strconv.Itoa(r.IntN(max(1, len(f.Values))))
			if len(f.Values) == 0 {
				v = strconv.Itoa(1+r.IntN(5)) + ".0"
			}
			list = append(list, v)
		}
		return list
	}
	for i := range 2 + r.IntN(5) {
		m := identify.Candidate{Name: "M" + strconv.Itoa(i), Weight: 1}
		if r.IntN(4) > 0 {
			m.Serials = "M-" + strconv.Itoa(100*i+1) + " to M-" + strconv.Itoa(100*i+100)
		}
		for _, f := range d.Features {
			switch cut := "M-" + strconv.Itoa(100*i+1+r.IntN(99)); {
			case r.IntN(5) == 0: // silent
			case m.Serials != "" && r.IntN(3) == 0:
				m.Traits = append(m.Traits, identify.Trait{Feature: f.Key, Values: some(f), Serials: "to " + cut},
					identify.Trait{Feature: f.Key, Values: some(f), Serials: "after " + cut})
			default:
				m.Traits = append(m.Traits, identify.Trait{Feature: f.Key, Values: some(f)})
			}
		}
		d.Candidates = append(d.Candidates, m)
	}
	return d
}

// has is what a model with a serial number may show at a feature, nil for a silent one.
func has(m identify.Candidate, key string, s identify.Serial) []string {
	var list []string
	for _, t := range m.Traits {
		if t.Feature == key && (t.Serials == "" || ranges(t.Serials).Contains(s)) {
			list = append(list, t.Values...)
		}
	}
	return list
}

// Whatever engine it was, seen as its model has it: nothing speaks against the truth, no
// other model is likelier, and it is not called a mixed build.
func TestTheTruthIsNeverDiscarded(t *testing.T) {
	t.Logf("seed %d", *seed)
	r := rand.New(rand.NewPCG(*seed, 0))
	for range 1500 {
		d := random(r)
		c := must(identify.New(d))
		i := r.IntN(len(d.Candidates))
		truth := d.Candidates[i]
		s := serial("M-" + strconv.Itoa(100*i+1+r.IntN(100)))
		var looked []identify.Observation
		for _, f := range d.Features {
			values := has(truth, f.Key, s)
			switch {
			case r.IntN(4) == 0:
				looked = append(looked, identify.Observation{Feature: f.Key, State: identify.NotVisible})
			case len(values) > 0:
				v := values[r.IntN(len(values))]
				if len(f.Values) == 0 { // as far off as it may be
					v = strings.Replace(v, ".0", []string{".0", ".1", ".05", ".099"}[r.IntN(4)], 1)
				}
				looked = append(looked, see(f.Key, v)...)
			case len(f.Values) > 0: // the model is silent, so anything
				looked = append(looked, see(f.Key, f.Values[r.IntN(len(f.Values))])...)
			}
		}
		if r.IntN(2) == 0 {
			looked = append(looked, see("serial", s.String())...)
		}
		r.Shuffle(len(looked), func(i, j int) { looked[i], looked[j] = looked[j], looked[i] })
		got := must(c.Identify(looked))
		one := of(t, got, truth.Name)
		if len(one.Against) != 0 || got.Build.Mixed {
			t.Fatalf("%+v is %s %v: %+v", looked, truth.Name, s, got)
		}
		sum := got.Others
		for k, x := range got.Ranked {
			sum += x.Share
			if x.Share > one.Share+1e-12 || !(x.Share > 0 && x.Share < 1) || k > 0 && x.Share > got.Ranked[k-1].Share {
				t.Fatalf("%+v is %s: %+v", looked, truth.Name, got.Ranked)
			}
		}
		if math.Abs(sum-1) > 1e-9 || len(got.Ranked) != len(d.Candidates) {
			t.Fatalf("the shares make %v of %d models", sum, len(got.Ranked))
		}
	}
}

// A contradiction never helps: what speaks against one model and for another moves them
// apart, and each one more does it again.
func TestContradictionsOnlyTakeAway(t *testing.T) {
	looks := [][2]string{
		{"shaft", "taper and key"}, {"hold-down", "12 studs 3/8-24"}, {"flange", "round, 0.312 in thick"},
		{"bore", "5"}, {"case", "aluminium, 2 bosses"}, {"push-rod housing", "gland nut both ends"},
	}
	var pairs []string
	last := told()
	for _, l := range looks {
		pairs = append(pairs, l[0], l[1])
		r := told(pairs...)
		a, b := of(t, r, "T7-A"), of(t, r, "T7-B")
		if a.Share <= of(t, last, "T7-A").Share || b.Share >= of(t, last, "T7-B").Share || len(b.Against) != len(pairs)/2 || len(a.Agrees) != len(pairs)/2 || b.Share == 0 {
			t.Errorf("%v: A %v, B %v", pairs, a, b)
		}
		last = r
	}
}

// The expected information another way, as the fall of entropy that is expected of a look:
// H(model) − Σ_v p(v) H(model | v).
func TestExpectedInformation(t *testing.T) {
	t.Logf("seed %d", *seed)
	r := rand.New(rand.NewPCG(*seed, 1))
	entropy := func(p ...float64) (h float64) {
		for _, x := range p {
			if x > 0 {
				h -= x * math.Log2(x)
			}
		}
		return h
	}
	told := 0
	for range 500 {
		d := random(r)
		d.Candidates = d.Candidates[:2]
		for i := range d.Candidates {
			d.Candidates[i].Serials = ""
			d.Candidates[i].Weight = 0.1 + 5*r.Float64()
			for k := range d.Candidates[i].Traits {
				d.Candidates[i].Traits[k].Serials = ""
			}
		}
		got := must(must(identify.New(d)).Identify(nil))
		p := of(t, got, "M0").Share / (of(t, got, "M0").Share + of(t, got, "M1").Share)
		for _, f := range d.Features {
			if len(f.Values) == 0 {
				continue
			}
			var given [2][]float64
			for m := range given {
				set := has(d.Candidates[m], f.Key, identify.Serial{})
				slices.Sort(set)
				set = slices.Compact(set)
				for _, v := range f.Values {
					x := 1 / float64(len(f.Values))
					if n := len(set); n > 0 && n < len(f.Values) {
						x = f.Doubt / float64(len(f.Values)-n)
						if slices.Contains(set, v) {
							x = (1 - f.Doubt) / float64(n)
						}
					}
					given[m] = append(given[m], x)
				}
			}
			want := entropy(p, 1-p)
			for v := range f.Values {
				either := p*given[0][v] + (1-p)*given[1][v]
				want -= either * entropy(p*given[0][v]/either, (1-p)*given[1][v]/either)
			}
			bits := 0.0
			for _, l := range got.Looks {
				if l.Feature.Key == f.Key {
					bits = l.Bits
					told++
				}
			}
			if math.Abs(bits-want) > 2e-9 {
				t.Fatalf("%s of %+v tells %v, want %v", f.Key, d.Candidates, bits, want)
			}
		}
		for i, l := range got.Looks {
			if l.Bits <= 0 || l.Bits > 1 || i > 0 && l.Bits > got.Looks[i-1].Bits {
				t.Fatalf("looks %+v", got.Looks)
			}
		}
	}
	if told < 100 {
		t.Errorf("only %d looks told anything", told)
	}
}

// What to look at next in the demo: the best for the work of looking.
func TestNextLook(t *testing.T) {
	r := told("cylinders", "7")
	if k := lookKeys(r); k[0] != "shaft" || k[1] != "push-rod housing" || k[len(k)-1] != "bore" || slices.Contains(k, "stroke") || slices.Contains(k, "magneto ratio") {
		t.Errorf("to look at between the two sevens: %v", k)
	}
	// Two models even at first and apart in one of three values with a doubt of 0.05:
	// 1 − 0.95·H₂(…)… by the entropies above.
	p, q := 0.95, 0.025
	want := 1 - (p+q)*binary(p/(p+q)) - q*1
	if math.Abs(r.Looks[0].Bits-want) > 1e-9 {
		t.Errorf("the shaft tells %v, want %v", r.Looks[0].Bits, want)
	}
	// Were all looks the same work, the bore would be first: its doubt is least.
	d := demoData()
	for i := range d.Features {
		d.Features[i].Effort = 1
	}
	if k := lookKeys(must(must(identify.New(d)).Identify(see("cylinders", "7")))); k[0] != "bore" {
		t.Errorf("to look at: %v", k)
	}
	// Three alike at first: all three are told apart, so counting cylinders tells too.
	if k := lookKeys(told()); !slices.Contains(k, "cylinders") || !slices.Contains(k, "magneto ratio") || slices.Contains(k, "stroke") {
		t.Errorf("to look at first: %v", k)
	}
	// Everything seen: nothing left.
	var pairs []string
	for _, tr := range demoData().Candidates[0].Traits {
		pairs = append(pairs, tr.Feature, tr.Values[0])
	}
	if r := told(pairs...); len(r.Looks) != 0 || !strings.Contains(r.Words(), "Nothing left to look at here tells between T7-A and T7-B.") {
		t.Errorf("everything seen: %v", r.Looks)
	}
}

// binary is the entropy of a coin.
func binary(p float64) float64 { return -p*math.Log2(p) - (1-p)*math.Log2(1-p) }

func TestSerialsOfCells(t *testing.T) {
	two := func(change func(*identify.Data)) (identify.Catalogue, error) {
		d := identify.Data{
			Others: 0.1, SerialDoubt: 0.05,
			Features: []identify.Feature{{Key: "k", Name: "knob", Part: "case", Effort: 1, Doubt: 0.1, Values: []string{"red", "green", "blue"}}},
			Candidates: []identify.Candidate{
				{Name: "P", Weight: 1, Serials: "1-10", Traits: []identify.Trait{{Feature: "k", Values: []string{"red"}, Serials: "to 4"}, {Feature: "k", Values: []string{"green"}, Serials: "5 and up"}}},
				{Name: "Q", Weight: 1},
			},
		}
		change(&d)
		return identify.New(d)
	}
	keep := func(*identify.Data) {}
	c := must(two(keep))
	for s := 1; s <= 10; s++ {
		want := "red"
		if s > 4 {
			want = "green"
		}
		for _, v := range []string{"red", "green", "blue"} {
			r := must(c.Identify(see("serial", strconv.Itoa(s), "k", v)))
			if got := len(of(t, r, "P").Against) == 0; got != (v == want) {
				t.Errorf("serial %d, %s: %+v", s, v, of(t, r, "P"))
			}
			q := of(t, r, "Q")
			if len(q.Against) != 0 || !slices.Equal(q.Silent, []string{"knob", "serial number"}) {
				t.Errorf("Q says nothing and yet %+v", q)
			}
		}
	}
	// A letter after the number comes after it: 4A is not up to 4, and there is a hole
	// there that only somebody who has one can find.
	if r := must(c.Identify(see("serial", "4A", "k", "green"))); len(of(t, r, "P").Silent) != 1 {
		t.Errorf("4A: %+v", of(t, r, "P"))
	}
	// When it is as likely that the serial number is wrong as that the knob is, the knob is
	// told against the serial number it has.
	r := must(must(two(func(d *identify.Data) { d.SerialDoubt = 0.1 })).Identify(see("serial", "3", "k", "green")))
	if a := of(t, r, "P").Against; len(a) != 1 || a[0].Feature != "knob" {
		t.Errorf("against P: %+v", a)
	}
	r = must(must(two(func(d *identify.Data) { d.SerialDoubt = 0.2 })).Identify(see("serial", "3", "k", "green")))
	if a := of(t, r, "P").Against; len(a) != 1 || a[0].Feature != "serial number" || a[0].Seen != "3" || a[0].Wants != "1 to 10" {
		t.Errorf("against P: %+v", a)
	}
	for _, tt := range []struct {
		name, part string
		change     func(*identify.Data)
	}{
		{"a gap", "no value for 5", func(d *identify.Data) { d.Candidates[0].Traits[1].Serials = "6 and up" }},
		{"a gap before", "no value for 1", func(d *identify.Data) { d.Candidates[0].Traits[0].Serials = "2 to 4" }},
		{"a gap after", "no value for 10", func(d *identify.Data) { d.Candidates[0].Traits[1].Serials = "5 to 9" }},
		{"a gap of one in a long block", "no value for 50", func(d *identify.Data) {
			d.Candidates[0].Serials = "1-99"
			d.Candidates[0].Traits[0].Serials, d.Candidates[0].Traits[1].Serials = "to 49", "51 and up"
		}},
		{"another series", "no value for B-7", func(d *identify.Data) { d.Candidates[0].Serials = "1-10, B-7" }},
		{"nothing in it", "no serial number in the block", func(d *identify.Data) { d.Candidates[0].Serials = "before 0" }},
	} {
		wantProblem(t, second(two(tt.change)), "P", tt.part)
	}
	for name, change := range map[string]func(*identify.Data){
		"no block":  func(d *identify.Data) { d.Candidates[0].Serials = "" },
		"any block": func(d *identify.Data) { d.Candidates[0].Serials = "all" },
		"before":    func(d *identify.Data) { d.Candidates[0].Serials = "before 5" },
		"after":     func(d *identify.Data) { d.Candidates[0].Serials = "after 5" },
		"one":       func(d *identify.Data) { d.Candidates[0].Serials = "0 to 4" },
	} {
		if _, err := two(change); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	// A block of everything and nothing that changes in it: one cell.
	c = must(two(func(d *identify.Data) {
		d.Candidates[0].Serials = "all"
		d.Candidates[0].Traits = d.Candidates[0].Traits[:1]
		d.Candidates[0].Traits[0].Serials = ""
	}))
	if r := must(c.Identify(see("serial", "Z-9", "k", "red"))); len(of(t, r, "P").Agrees) != 2 {
		t.Errorf("all serials: %+v", of(t, r, "P"))
	}
	if f := c.Features(); len(f) != 1 || f[0].Key != "k" {
		t.Errorf("features %+v", f)
	}
}

func TestNewRefusesData(t *testing.T) {
	for _, tt := range []struct {
		field, part string
		change      func(*identify.Data)
	}{
		{"data", "needs both", func(d *identify.Data) { d.Candidates = nil }},
		{"data", "needs both", func(d *identify.Data) { d.Features = nil }},
		{"others", "more than 0 and less than 1", func(d *identify.Data) { d.Others = 0 }},
		{"others", "more than 0 and less than 1", func(d *identify.Data) { d.Others = 1 }},
		{"others", "is 1.500.", func(d *identify.Data) { d.Others = 1.5 }},
		{"others", "not known", func(d *identify.Data) { d.Others = math.NaN() }},
		{"serial", "is 0.500.", func(d *identify.Data) { d.SerialDoubt = 0.5 }},
		{"serial", "more than 0", func(d *identify.Data) { d.SerialDoubt = 0 }},
		{"feature", "needs a key, a name and the part", func(d *identify.Data) { d.Features[0].Key = "" }},
		{"feature", "needs a key, a name and the part", func(d *identify.Data) { d.Features[0].Name = "" }},
		{"feature", "needs a key, a name and the part", func(d *identify.Data) { d.Features[0].Part = "" }},
		{"serial", "is the serial number's", func(d *identify.Data) { d.Features[0].Key = "serial" }},
		{"shaft", "stands twice", func(d *identify.Data) { d.Features[0].Key = "shaft" }},
		{"shaft", "is 0.500.", func(d *identify.Data) { d.Features[3].Doubt = 0.5 }},
		{"shaft", "is −0.500.", func(d *identify.Data) { d.Features[3].Effort = -0.5 }},
		{"shaft", "more than 0", func(d *identify.Data) { d.Features[3].Doubt = 0 }},
		{"shaft", "effort", func(d *identify.Data) { d.Features[3].Effort = 0 }},
		{"shaft", "is \u22120.333.", func(d *identify.Data) { d.Features[3].Effort = -1 / 3.0 }},
		{"shaft", "effort", func(d *identify.Data) { d.Features[3].Effort = math.Inf(1) }},
		{"shaft", "at least two values", func(d *identify.Data) { d.Features[3].Values = []string{"one"} }},
		{"shaft", "each of them once", func(d *identify.Data) { d.Features[3].Values = []string{"a", "b", "a"} }},
		{"shaft", "at least two values", func(d *identify.Data) { d.Features[3].Values = []string{"a", ""} }},
		{"bore", "0 or more", func(d *identify.Data) { d.Features[12].Within = quantity.MustDecimal("-0.1") }},
		{"bore", "not a unit known here", func(d *identify.Data) { d.Features[12].Unit = "cubit" }},
		{"model", "a name of its own", func(d *identify.Data) { d.Candidates[0].Name = "" }},
		{"model", "a name of its own", func(d *identify.Data) { d.Candidates[1].Name = "T7-A" }},
		{"T7-A", "more than 0", func(d *identify.Data) { d.Candidates[0].Weight = 0 }},
		{"T7-A", "more than 0", func(d *identify.Data) { d.Candidates[0].Weight = math.Inf(1) }},
		{"T7-A", "is 1000000.500.", func(d *identify.Data) { d.Candidates[0].Weight = 1e6 + 0.5 }},
		{"shaft", "is 1000000.500.", func(d *identify.Data) { d.Features[3].Effort = 1e6 + 0.5 }},
		{"T7-A", "The serial numbers of T7-A: “2 to 1” goes backwards.", func(d *identify.Data) { d.Candidates[0].Serials = "2 to 1" }},
		{"T7-A", "no such feature", func(d *identify.Data) { d.Candidates[0].Traits[0].Feature = "wings" }},
		{"T7-A", "no value is given", func(d *identify.Data) { d.Candidates[0].Traits[0].Values = nil }},
		{"T7-A", "It is one of: 5; 7; 9.", func(d *identify.Data) { d.Candidates[0].Traits[0].Values = []string{"6"} }},
		{"T7-A", "“xx” is not", func(d *identify.Data) { d.Candidates[0].Traits[0].Serials = "xx" }},
		{"T7-A", "The bore of T7-A", func(d *identify.Data) { d.Candidates[0].Traits[12].Values = []string{"wide"} }},
		{"T7-A", "does not come out even", func(d *identify.Data) { d.Candidates[0].Traits[12].Values = []string{"127.1 mm"} }},
		{"T7-A", "18 digits", func(d *identify.Data) {
			d.Features[13].Within = quantity.MustDecimal("0.0000000000000001")
			d.Candidates[0].Traits[13].Values = []string{"99999"}
		}},
	} {
		d := demoData()
		tt.change(&d)
		_, err := identify.New(d)
		wantProblem(t, err, tt.field, tt.part)
	}
	d := demoData()
	d.Candidates[0].Weight, d.Features[3].Effort = 1e6, 1e6
	if _, err := identify.New(d); err != nil {
		t.Errorf("a million: %v", err)
	}
	d = demoData()
	d.Candidates[0].Traits[12].Values = []string{"127 mm"} // five inches, and so said
	d.Features[12].Within = quantity.Decimal{}
	r := must(must(identify.New(d)).Identify(see("bore", "6")))
	if w := of(t, r, "T7-A").Against[0].Wants; strings.ReplaceAll(w, "\u2009", " ") != "5 in" {
		t.Errorf("the A wants %q", w)
	}
}

func TestIdentifyRefuses(t *testing.T) {
	one := func(o identify.Observation) []identify.Observation { return []identify.Observation{o} }
	for _, tt := range []struct {
		looked      []identify.Observation
		field, part string
	}{
		{see("wings", "two"), "wings", "no feature “wings”"},
		{see("shaft", "taper and key", "shaft", "20-spline"), "shaft", "observed twice"},
		{see("shaft", "hexagon"), "shaft", "It is one of: taper and key; 20-spline; 20-spline, governor pad."},
		{see("bore", "wide"), "bore", "The bore: "},
		{see("bore", "5 qt"), "bore", "unit of volume"},
		{see("ratio", "6:1"), "ratio", "The compression ratio: "},
		{see("serial", "none"), "serial", "The serial number: “none” is not a serial number."},
		{one(identify.Observation{Feature: "shaft", State: 9}), "shaft", "What came of looking"},
		{one(identify.Observation{Feature: "shaft", State: identify.Observed}), "shaft", "given no times"},
		{one(identify.Observation{Feature: "shaft", State: identify.Observed, Values: []string{"20-spline", "taper and key"}}), "shaft", "given twice"},
		{one(identify.Observation{Feature: "cylinders", State: identify.Observed, Values: []string{"5", "7", "9"}}), "cylinders", "given more than twice"},
		{one(identify.Observation{Feature: "bore", State: identify.Observed, Values: []string{"5", "6", "7", "8"}}), "bore", "given more than twice"},
		{one(identify.Observation{Feature: "shaft", State: identify.Contradictory, Values: []string{"20-spline", "20-spline"}}), "shaft", "given once"},
		{one(identify.Observation{Feature: "shaft", State: identify.Contradictory, Values: []string{"20-spline", "round"}}), "shaft", "“round” is not known there"},
		{one(identify.Observation{Feature: "shaft", State: identify.NotVisible, Values: []string{"20-spline"}}), "shaft", "was not seen"},
		{one(identify.Observation{Feature: "shaft", Values: []string{"20-spline"}}), "shaft", "was not seen"},
		{one(identify.Observation{Feature: "shaft", State: identify.NotVisible, Doubt: 0.5}), "shaft", "The doubt about the crankshaft end is 0.500."},
		{one(identify.Observation{Feature: "shaft", State: identify.NotVisible, Doubt: -0.1}), "shaft", "less than a half"},
		{append(see("serial", "1"), see("serial", "2")...), "serial", "The serial number is observed twice"},
	} {
		r, err := family.Identify(tt.looked)
		wantProblem(t, err, tt.field, tt.part)
		if len(r.Ranked) != 0 {
			t.Errorf("%+v refused and yet %+v", tt.looked, r)
		}
	}
}

func TestChance(t *testing.T) {
	for p, want := range map[float64]string{
		0: "less than 1 in 100", 0.0049: "less than 1 in 100", 0.0051: "about 1 in 100", 0.0949: "about 9 in 100",
		0.0951: "about 1 in 10", 0.1: "about 1 in 10", 0.5: "about 5 in 10", 0.849: "about 8 in 10", 0.9: "about 9 in 10",
		0.9051: "about 91 in 100", 0.9949: "about 99 in 100", 0.9951: "more than 99 in 100", 1: "more than 99 in 100",
	} {
		if got := identify.Chance(p); got != want {
			t.Errorf("%v is %s, want %s", p, got, want)
		}
	}
}

// A third model nearly as likely as the second is not told from the first two.
func TestOnlyThoseThatShareTheSecondPlace(t *testing.T) {
	d := demoData()
	d.Candidates[2].Weight = 0.999
	k := lookKeys(must(must(identify.New(d)).Identify(nil)))
	if slices.Contains(k, "cylinders") || !slices.Contains(k, "shaft") {
		t.Errorf("to look at: %v", k)
	}
}

func TestNoFamily(t *testing.T) {
	wantProblem(t, second(identify.Catalogue{}.Identify(nil)), "family", "no models")
	if w := (identify.Result{}).Words(); w != "" {
		t.Errorf("no result says %q", w)
	}
}

func TestWords(t *testing.T) {
	plain := func(s string) string { return strings.ReplaceAll(s, "\u2009", " ") }
	const end = " Looking does not establish an identity; the plate and the papers do."
	hidden := append(see("cylinders", "7"), identify.Observation{Feature: "shaft", State: identify.NotVisible})
	for _, tr := range demoData().Candidates[0].Traits {
		if tr.Feature != "shaft" && tr.Feature != "cylinders" {
			hidden = append(hidden, see(tr.Feature, tr.Values[0])...)
		}
	}
	for _, tt := range []struct {
		r    identify.Result
		want string
	}{
		{told(), "Nothing has been observed yet. Look next at the crankshaft end (eye): it tells most between T7-A and the others." + end},
		{told("cylinders", "7"), "Nothing seen speaks against T7-A (about 5 in 10) or T7-B (about 5 in 10). Another engine, or one built of several: about 5 in 100. Look next at the crankshaft end (eye): it tells most between T7-A and T7-B." + end},
		{told("cylinders", "7", "shaft", "20-spline"), "Nothing seen speaks against T7-B (about 92 in 100). Then T7-A (about 5 in 100), with one thing against it. Another engine, or one built of several: about 4 in 100. Look next at the push-rod housing (eye): it tells most between T7-B and T7-A." + end},
		{told("cylinders", "9", "shaft", "taper and key", "drains", "plugs on 5, 6"), "No one model has all that was seen. It is a mixed build: T9-C (about 8 in 10), but crankshaft as on T7-A, no approval seen. Limits follow the parts that are there; which apply is for the shop to say, in writing. One thing speaks against T9-C: crankshaft end “taper and key”, where it has “20-spline, governor pad”. Then T7-A (less than 1 in 100), with 2 things against it. Another engine, or one built of several: about 2 in 10. Look next at the push-rod housing (eye): it tells most between T9-C and T7-A." + end},
		{must(family.Identify(hidden)), "Nothing seen speaks against T7-A (more than 99 in 100). Then T7-B (less than 1 in 100), with 8 things against it. Another engine, or one built of several: less than 1 in 100. What would tell between T7-A and T7-B is not visible: crankshaft end." + end},
	} {
		if got := plain(tt.r.Words()); got != tt.want {
			t.Errorf("got  %s\nwant %s", got, tt.want)
		}
	}
	// Only the hidden one left that tells.
	d := demoData()
	d.Features = d.Features[:4]
	for i := range d.Candidates {
		d.Candidates[i].Traits = d.Candidates[i].Traits[:4]
	}
	c := must(identify.New(d))
	left := append(see("cylinders", "7"), identify.Observation{Feature: "shaft", State: identify.NotVisible},
		identify.Observation{Feature: "hold-down", State: identify.Contradictory, Values: []string{"12 studs 3/8-24", "16 studs 3/8-24"}},
		identify.Observation{Feature: "case", State: identify.Contradictory, Values: []string{"aluminium, 2 bosses", "magnesium, 3 bosses, long"}})
	if w := must(c.Identify(left)).Words(); !strings.Contains(w, "What would tell between T7-A and T7-B is not visible: crankshaft end.") {
		t.Error(w)
	}
	// One model and no way of looking named.
	d.Candidates = d.Candidates[:1]
	d.Features[3].How = ""
	alone := must(must(identify.New(d)).Identify(see("cylinders", "7")))
	if w := alone.Words(); w != "Nothing seen speaks against T7-A (about 96 in 100). Another engine, or one built of several: about 4 in 100."+end {
		t.Error(w)
	}
	d = demoData()
	d.Features[3].How = ""
	if w := must(must(identify.New(d)).Identify(nil)).Words(); !strings.Contains(w, "Look next at the crankshaft end: it tells most") {
		t.Error(w)
	}
}
