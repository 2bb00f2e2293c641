package wear_test

import (
	"testing"

	"linkrod/radial/quantity"
	"linkrod/radial/wear"
)

const steel, aluminium = 6.3 * wear.PerMillion, 12.8 * wear.PerMillion

func TestClearance(t *testing.T) {
	for _, tt := range []struct{ hole, shaft, want string }{
		{"5.2500 in", "5.2245 in", "0.0255"},
		{"1.0000 in", "1.0005 in", "-0.0005"}, // tight
		{"1.0 in", "1.0 in", "0"},
	} {
		if got := must(wear.Clearance(of(tt.hole), of(tt.shaft))); got.Value.Compare(quantity.MustDecimal(tt.want)) != 0 {
			t.Errorf("%s in %s: %v, want %s", tt.shaft, tt.hole, got, tt.want)
		}
	}
	wantProblem(t, second(wear.Clearance(of(""), of("1 in"))), "hole", "not given")
	wantProblem(t, second(wear.Clearance(of("1 in"), of("-1 in"))), "shaft", "more than 0")
}

func fit(holeAt, shaftAt string) wear.Fit {
	return wear.Fit{
		Hole:  wear.Part{Size: of("5.2500 in"), Temperature: of(holeAt), Expands: steel},
		Shaft: wear.Part{Size: of("5.2250 in"), Temperature: of(shaftAt), Expands: aluminium},
	}
}

// A piston read warm looks too large: 5.225 in of aluminium grows a tenth of a thou in
// 1.5 F°, so a degree passes and two do not.
func TestFitAtOneTemperature(t *testing.T) {
	for _, tt := range []struct {
		hole, shaft string
		taken       bool
		known       bool
	}{
		{"68 F", "68 F", true, true},
		{"68 F", "20 C", true, true},
		{"68 F", "69.4 F", true, true},
		{"68 F", "66.6 F", true, true},
		{"68 F", "69.6 F", false, false},
		{"68 F", "66.4 F", false, false},
		{"", "95 F", true, false},
		{"95 F", "", true, false},
	} {
		c, known, err := fit(tt.hole, tt.shaft).Clearance()
		if (err == nil) != tt.taken || known != tt.known || tt.taken && c.Text() != "0.0250 in" {
			t.Errorf("hole %s, shaft %s: %v %v %v", tt.hole, tt.shaft, c, known, err)
		}
		if !tt.taken {
			wantProblem(t, err, "temperature", "side by side")
		}
	}
	// At one temperature the coefficients are not asked for.
	bare := fit("68 F", "68 F")
	bare.Hole.Expands, bare.Shaft.Expands = 0, 0
	if _, known, err := bare.Clearance(); err != nil || !known {
		t.Errorf("%v %v", known, err)
	}
	bare = fit("68 F", "90 F")
	bare.Shaft.Expands = 0
	wantProblem(t, third(bare.Clearance()), "expansion of the shaft", "aluminium about 12.8")
	none := fit("68 F", "90 F")
	none.Shaft.Size = of("")
	wantProblem(t, third(none.Clearance()), "shaft", "not given")
	wantProblem(t, third(fit("68 psi", "68 F").Clearance()), "hole temperature", "takes a temperature")
	wantProblem(t, third(fit("68 F", "68 psi").Clearance()), "shaft temperature", "takes a temperature")
}

// The clearance at 400 °F, by growing each part in a thousand steps.
func TestFitAt(t *testing.T) {
	f := fit("68 F", "95 F")
	got := must(f.At(400))
	grow := func(size, alpha, from, to float64) float64 {
		const steps = 1000
		l := size
		for range steps {
			l += size * alpha * (to - from) / steps
		}
		return l
	}
	want := grow(5.25, 6.3e-6, 68, 400) - grow(5.225, 12.8e-6, 95, 400)
	if !near(got.Inches(), want, 1e-12) {
		t.Errorf("at 400 °F %v in, want %v", got, want)
	}
	// Where both were measured it is what was measured.
	if same := must(fit("68 F", "68 F").At(68)); !near(same.Inches(), 0.025, 1e-15) {
		t.Errorf("at 68 °F: %v", same)
	}
	wantProblem(t, second(fit("", "68 F").At(400)), "hole temperature", "not given")
	wantProblem(t, second(fit("68 F", "").At(400)), "shaft temperature", "not given")
	for _, no := range []float64{nan, inf, -inf} {
		wantProblem(t, second(f.At(quantity.Temperature(no))), "temperature", "no number")
	}
	for _, break_ := range []func(*wear.Fit){
		func(f *wear.Fit) { f.Hole.Size = of("") }, func(f *wear.Fit) { f.Hole.Expands = -1 }, func(f *wear.Fit) { f.Shaft.Expands = 1 },
	} {
		f := fit("68 F", "68 F")
		break_(&f)
		if _, err := f.At(400); err == nil {
			t.Errorf("%+v was reckoned", f)
		}
	}
}

// What the package comment claims: 1.7 thou for steel, twice that for aluminium.
func TestGrowth(t *testing.T) {
	if got := wear.Growth(5.25, steel, 50); !near(got.Thou(), 1.7, 0.05) {
		t.Errorf("steel: %v", got)
	}
	if got := wear.Growth(5.25, aluminium, 50) / wear.Growth(5.25, steel, 50); !near(float64(got), 2, 0.05) {
		t.Errorf("aluminium is %v of steel", got)
	}
	if got := wear.Growth(5.25, steel, 50*quantity.CelsiusDegree) / wear.Growth(5.25, steel, 50); !near(float64(got), 1.8, 1e-12) {
		t.Errorf("a Celsius degree is %v Fahrenheit ones", got)
	}
	if !near(steel.PerMillion(), 6.3, 1e-12) || !near(steel.PerMillionCelsius(), 11.34, 1e-12) {
		t.Errorf("steel: %v, %v", steel.PerMillion(), steel.PerMillionCelsius())
	}
	// Warmed together, an aluminium piston closes up in a steel barrel.
	if got := wear.ClearanceChange(5.25, 5.225, steel, aluminium, 50); got >= 0 {
		t.Errorf("clearance change %v", got)
	}
}

func TestAtStandard(t *testing.T) {
	for _, tt := range []struct {
		name          string
		part          wear.Expansion
		partAt, gauge float64 // °F
		want          float64
	}{
		{"cold part and gauge", steel, 68, 68, 5.25},
		{"both warm, one metal", steel, 95, 95, 5.25},
		{"part warm", steel, 95, 68, 5.25 / (1 + 6.3e-6*27)},
		{"gauge warm in the hand", steel, 68, 88, 5.25 * (1 + 6.3e-6*20)},
		{"both warm, aluminium part", aluminium, 95, 95, 5.25 * (1 + 6.3e-6*27) / (1 + 12.8e-6*27)},
		{"both cold", aluminium, 41, 41, 5.25 * (1 - 6.3e-6*27) / (1 - 12.8e-6*27)},
	} {
		got := must(wear.AtStandard(5.25, tt.part, quantity.Temperature(tt.partAt), steel, quantity.Temperature(tt.gauge)))
		if !near(got.Inches(), tt.want, 1e-14) {
			t.Errorf("%s: %v, want %v", tt.name, got, tt.want)
		}
	}
	for _, tt := range []struct {
		err          error
		field, words string
	}{
		{second(wear.AtStandard(-0.25, steel, 68, steel, 68)), "reading", "is −0.2500\u2009in. It must be more than 0"},
		{second(wear.AtStandard(0, steel, 68, steel, 68)), "reading", "more than 0"},
		{second(wear.AtStandard(5, 30.5*wear.PerMillion, 68, steel, 68)), "expansion of the part", "by 30.50 millionths"},
		{second(wear.AtStandard(quantity.Length(inf), steel, 68, steel, 68)), "reading", "more than 0"},
		{second(wear.AtStandard(5, 0, 68, steel, 68)), "expansion of the part", "steel about 6.3"},
		{second(wear.AtStandard(5, steel, 68, 6.3, 68)), "expansion of the gauge", "steel about 6.3"},
		{second(wear.AtStandard(5, steel, quantity.Temperature(nan), steel, 68)), "temperature of the part", "no number"},
		{second(wear.AtStandard(5, steel, 68, steel, quantity.Temperature(inf))), "temperature of the gauge", "no number"},
	} {
		wantProblem(t, tt.err, tt.field, tt.words)
	}
	if _, err := wear.AtStandard(0.25, 30*wear.PerMillion, 68, steel, 68); err != nil {
		t.Errorf("30 millionths on a quarter inch: %v", err)
	}
}

// The published table, in millionths for a Fahrenheit degree.
var published = map[string]string{
	"alloy steels": "6.3 8.6", "nitriding steels": "6.5 6.5", "carbon free-cutting steels": "8.1 8.4", "alloy steels (cast)": "8 8.3",
	"austenitic stainless steels": "9 10.2", "martensitic stainless steels": "5.5 6.5", "ferritic stainless steels": "5.8 6",
	"grey irons (cast)": "6 6", "malleable irons": "5.9 7.5", "nodular or ductile irons (cast)": "6.6 10.4",
	"aluminium alloys": "11.7 13.7", "magnesium alloys": "14 16", "tin bronzes (cast)": "10 10.3", "phosphor silicon bronzes": "9.6 10.2",
	"aluminium bronzes (cast)": "9 9.5", "plain and leaded brasses": "10 11.6", "coppers": "7.7 9.8", "titanium alloys": "4.9 7.1",
}

func TestMaterials(t *testing.T) {
	if len(published) != len(wear.Materials) {
		t.Errorf("%d materials, %d published", len(wear.Materials), len(published))
	}
	for _, m := range wear.Materials {
		if !(0 < m.Low && m.Low <= m.Middle() && m.Middle() <= m.High) || m.High > 30*wear.PerMillion {
			t.Errorf("%+v", m)
		}
		if got := quantity.Figure(m.Low.PerMillion(), 1) + " " + quantity.Figure(m.High.PerMillion(), 1); got != published[m.Name] {
			t.Errorf("%s: %s, published %s", m.Name, got, published[m.Name])
		}
		if got := must(wear.MaterialNamed(m.Name)); got != m {
			t.Errorf("%s found as %+v", m.Name, got)
		}
	}
	for typed, want := range map[string]string{
		"Aluminum alloy": "aluminium alloys", "gray irons": "grey irons (cast)", "ALLOY STEEL": "alloy steels",
		"plain & leaded brasses": "plain and leaded brasses", " magnesium alloys ": "magnesium alloys",
	} {
		if got := must(wear.MaterialNamed(typed)); got.Name != want {
			t.Errorf("%s found as %s", typed, got.Name)
		}
	}
	wantProblem(t, second(wear.MaterialNamed("wood")), "material", "“wood” is no family")
}

func TestRingGap(t *testing.T) {
	// Some 0.0375 in on a 5.5 in bore, 0.0068 by the inch: common practice, no source.
	if got := must(wear.GapPerInch(of("0.0375 in"), of("5.5 in"))); !near(got.Inches(), 0.0068, 0.00005) {
		t.Errorf("gap by the inch: %v", got)
	}
	if got := must(wear.GapPerInch(of("37.5 thou"), of("139.7 mm"))); !near(got.Inches(), 0.0375/5.5, 1e-15) {
		t.Errorf("gap by the inch: %v", got)
	}
	wantProblem(t, second(wear.GapPerInch(of("0 in"), of("5.5 in"))), "gap", "more than 0")
	wantProblem(t, second(wear.GapPerInch(of("30 thou"), of("5.5 psi"))), "bore", "must be a length")
	// A ring bent round a smaller circle: the gap is what is left of the circumference.
	metal := 3.141592653589793*5.375 - 0.0375
	if got, want := wear.GapWhere(0.0375, 0.005), 3.141592653589793*5.370-metal; !near(got.Inches(), want, 1e-14) {
		t.Errorf("gap in the choke %v, want %v", got, want)
	}
	if wear.GapWhere(0.0375, 0.012) > 0 {
		t.Error("12 thou of choke leave a gap of 37.5 open")
	}
	if wear.GapWhere(0.0375, -0.005) <= 0.0375 {
		t.Error("a larger bore closes the gap")
	}
}
