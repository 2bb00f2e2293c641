package wear_test

import (
	"slices"
	"strings"
	"testing"

	"linkrod/radial/quantity"
	"linkrod/radial/wear"
)

// list is "5.2515 5.2490" as inches.
func list(text string) []quantity.Measured {
	var l []quantity.Measured
	for _, s := range strings.Fields(text) {
		l = append(l, of(s+" in"))
	}
	return l
}

func TestAgree(t *testing.T) {
	for _, tt := range []struct {
		readings  string
		agreed    bool
		low, high string
		words     string
	}{
		{"5.2500", true, "5.2500", "5.2500", "One reading, not repeated."},
		{"5.2500 5.2505", true, "5.2500", "5.2505", "The readings agree within 0.0005 in."},
		{"5.2505 5.2500", true, "5.2500", "5.2505", "agree within"},
		{"5.2500 5.25051", false, "5.2500", "5.25051", "take a third"},
		{"5.2500 5.2520 5.2503", true, "5.2500", "5.2503", "agree within"},
		{"5.2500 5.2520 5.2517", true, "5.2517", "5.2520", "agree within"},
		{"5.2500 5.2505 5.2510", true, "5.2500", "5.2510", "agree within"}, // the middle one stands by both
		{"5.2500 5.2510 5.2520", false, "5.2500", "5.2520", "begin again"},
		{"5.2500 5.2501 5.2520 5.2521", false, "5.2500", "5.2521", "The 4 readings run from 5.2500 in to 5.2521 in, and 0.0005 in"}, // two and two
		{"5.2500 5.2501 5.2502 5.2521", true, "5.2500", "5.2502", "agree within"},
	} {
		readings := list(tt.readings)
		kept := slices.Clone(readings)
		a, err := wear.Agree(wear.Trust, readings...)
		if err != nil || a.Agreed != tt.agreed || a.Low != of(tt.low+" in") || a.High != of(tt.high+" in") || !strings.Contains(a.Words(), tt.words) {
			t.Errorf("%s: %+v %v %q", tt.readings, a, err, a.Words())
		}
		if !slices.Equal(readings, kept) {
			t.Errorf("%s: the readings were put in order where they stood", tt.readings)
		}
	}
	for _, tt := range []struct {
		trust        quantity.Measured
		readings     []quantity.Measured
		field, words string
	}{
		{wear.Trust, nil, "readings", "no reading"},
		{wear.Trust, []quantity.Measured{of("1 in"), {}}, "readings", "not given"},
		{wear.Trust, []quantity.Measured{of("1 in"), of("1 psi")}, "readings", "different kinds"},
		{quantity.Measured{}, list("1"), "repeatability", "0 or more"},
		{of("-1 thou"), list("1"), "repeatability", "0 or more"},
		{wear.Trust, []quantity.Measured{of("0.00000000001 in"), of("999999999999999 mm")}, "readings", "digits"},
	} {
		wantProblem(t, second(wear.Agree(tt.trust, tt.readings...)), tt.field, tt.words)
		wantProblem(t, second(three("0 / 1 / 5").JudgeAll(tt.trust, tt.readings...)), tt.field, tt.words)
	}
	if a := must(wear.Agree(of("0 in"), list("1 1.0")...)); !a.Agreed {
		t.Errorf("equal readings do not agree: %+v", a)
	}
}

// Of readings that agree the worse one counts, whichever way wear goes.
func TestJudgeAll(t *testing.T) {
	trust := of("0.5 thou")
	for _, tt := range []struct {
		limits, readings string
		want             wear.Verdict
		reading          string
	}{
		{"0 / 1.5 / 9", "8.0 8.4", wear.AtEdge, "8.4"},
		{"0 / 1.5 / 9", "8.4 8.0", wear.AtEdge, "8.4"},
		{"0 / 1.5 / 9", "8.8 9.1", wear.Reject, "9.1"},
		{"0 / 1.5 / 9", "2 2.3", wear.Serviceable, "2.3"},
		{"0 / 1.5 / 9", "1.4 1.5", wear.New, "1.5"},
		{"0 / 1.5 / 9", "-0.1 0.2", wear.Reject, "-0.1"},
		{"0 / 1.5 / 9", "8.0 9.0", wear.TakeAgain, "9.0"},
		{"0 / 1.5 / 9", "12 14", wear.TakeAgain, "14"},
		{"0 / 1.5 / 9", "8.0 12 8.1", wear.Serviceable, "8.1"},
		{"3 / 5 / 0", "0.2 0.5", wear.AtEdge, "0.2"},
		{"3 / 5 / 0", "1 1.4", wear.Serviceable, "1"},
		{"3 / 5 / -", "4.9 5.1", wear.NoLimit, "5.1"},
		{"3 / 5 / -", "2.9 3.1", wear.NoLimit, "2.9"},
		{"3 / 5 / -", "3.9 4.1", wear.New, "3.9"},
	} {
		var readings []quantity.Measured
		for _, s := range strings.Fields(tt.readings) {
			readings = append(readings, of(s+" thou"))
		}
		f, err := three(tt.limits).JudgeAll(trust, readings...)
		if err != nil || f.Verdict != tt.want || f.Reading != of(tt.reading+" thou") {
			t.Errorf("%s of %s: %v on %v, %v; want %v on %s", tt.readings, tt.limits, f.Verdict, f.Reading, err, tt.want, tt.reading)
		}
		if got := plain(f.Words()); f.Verdict == wear.TakeAgain && !strings.HasPrefix(got, "take it again. The 2 readings run from") {
			t.Error(got)
		}
	}
}

func TestVerdictWords(t *testing.T) {
	for v, want := range map[wear.Verdict]string{
		wear.NoLimit: "no limit on file", wear.New: "new", wear.Serviceable: "serviceable", wear.AtEdge: "at the edge",
		wear.Reject: "reject", wear.TakeAgain: "take it again",
	} {
		if v.String() != want {
			t.Errorf("%d: %q, want %q", v, v, want)
		}
	}
}

func TestFarFromNominal(t *testing.T) {
	for _, tt := range []struct{ reading, nominal, words string }{
		{"5.0025 in", "5.000 in", ""},
		{"5.025 in", "5.000 in", ""},
		{"5.060 in", "5.000 in", ""}, // the 60 thou themselves are not asked about
		{"4.940 in", "5.000 in", ""},
		{"5.0601 in", "5.000 in", "5.0601 in is 0.0601 in over the nominal 5.000 in."},
		{"4.9399 in", "5.000 in", "0.0601 in under the nominal"},
		{"5.25 in", "5.025 in", "0.225 in over"},
		{"127 mm", "5.000 in", ""},
		{"5.000 in", "127 mm", ""},
		{"130 mm", "5.000 in", "130 mm is 3 mm over the nominal 5.000 in."},
	} {
		got := plain(must(wear.FarFromNominal(of(tt.reading), of(tt.nominal))))
		if tt.words == "" && got != "" || !strings.Contains(got, tt.words) {
			t.Errorf("%s for %s: %q, want %q", tt.reading, tt.nominal, got, tt.words)
		}
	}
	wantProblem(t, second(wear.FarFromNominal(of("0 in"), of("5 in"))), "reading", "more than 0")
	wantProblem(t, second(wear.FarFromNominal(of("5 in"), of("5 psi"))), "nominal size", "must be a length")
}
