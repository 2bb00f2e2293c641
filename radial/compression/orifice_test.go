package compression_test

import (
	"strings"
	"testing"

	"linkrod/radial/compression"
	"linkrod/radial/quantity"
)

func TestOrificeFor(t *testing.T) {
	for bore, want := range map[string]quantity.Measured{
		"5.00 in": compression.Large, "5 in": compression.Large, "127 mm": compression.Large, "5000 thou": compression.Large,
		"4.9999 in": compression.Small, "126.9999 mm": compression.Small, "4.625 in": compression.Small,
		"5.125 in": compression.Large, "5.375 in": compression.Large,
	} {
		if got := must(compression.OrificeFor(of(bore))); got != want {
			t.Errorf("%s: %v, want %v", bore, got, want)
		}
	}
	for bad, words := range map[string]string{"": "not given", "5 psi": "must be a length", "0 in": "more than 0", "-5 in": "more than 0"} {
		wantProblem(t, second(compression.OrificeFor(of(bad))), "bore", words)
		wantProblem(t, second(compression.WrongOrifice(of(bad), of("0.060 in"))), "bore", words)
	}
}

// FAA AC 43.13-1B change 1, as quoted by an FAA safety team tip of November 2011; air as
// in every textbook.
func TestPublishedConstants(t *testing.T) {
	if compression.OrificeLength != 0.250 || compression.OrificeApproach != 60 || compression.Small.Text() != "0.040 in" || compression.Large.Text() != "0.060 in" {
		t.Errorf("orifices of %v and %v, %v long, approached at %v", compression.Small, compression.Large, compression.OrificeLength, compression.OrificeApproach)
	}
	if compression.Air != (compression.Gas{Gamma: 1.4, R: 287}) || !near(compression.SeaLevel.PSI(), 14.696, 0.0005) {
		t.Errorf("air %+v at %v", compression.Air, compression.SeaLevel)
	}
}

func TestWrongOrifice(t *testing.T) {
	for _, tt := range []struct{ bore, used, words string }{
		{"5.375 in", "0.040 in", "The tester's is 0.040 in, which reads falsely low."},
		{"4.625 in", "0.060 in", "needs an orifice of 0.040 in. The tester's is 0.060 in, which reads falsely high."},
		{"5.375 in", "0.060 in", ""},
		{"5.375 in", "60 thou", ""},
		{"5.375 in", "1.524 mm", ""},
		{"4.625 in", "0.04 in", ""},
		{"5.375 in", "0.0599 in", "falsely low"},
		{"5.375 in", "", "orifice is not noted. A bore of 5.375 in needs 0.060 in"},
	} {
		got := plain(must(compression.WrongOrifice(of(tt.bore), of(tt.used))))
		if tt.words == "" && got != "" || !strings.Contains(got, tt.words) {
			t.Errorf("%s on %s: %q, want %q", tt.used, tt.bore, got, tt.words)
		}
	}
	wantProblem(t, second(compression.WrongOrifice(of("5 in"), of("0 in"))), "orifice", "more than 0")
	wantProblem(t, second(compression.WrongOrifice(of("5 in"), of("80 psi"))), "orifice", "must be a length")
}

func TestLoss(t *testing.T) {
	for _, tt := range []struct {
		supply, reading string
		percent         float64
		suspect         bool
	}{
		{"80 psi", "60 psi", 25, false}, // in excess of 25: 60 itself is not
		{"80 psi", "59.99 psi", 25.0125, true},
		{"80 psi", "59 psi", 26.25, true},
		{"80 psi", "80 psi", 0, false},
		{"80 psi", "0 psi", 100, true},
		{"100 psi", "75 psi", 25, false},
		{"100 psi", "74.9 psi", 25.1, true},
		{"5.5 bar", "4.125 bar", 25, false},
		{"5.5 bar", "4.124 bar", 25.018, true},
	} {
		if got := must(compression.LossPercent(of(tt.supply), of(tt.reading))); !near(got, tt.percent, 0.0005) {
			t.Errorf("%s of %s: %v %%, want %v", tt.reading, tt.supply, got, tt.percent)
		}
		if got := must(compression.Suspect(of(tt.supply), of(tt.reading))); got != tt.suspect {
			t.Errorf("%s of %s: suspect %v", tt.reading, tt.supply, got)
		}
	}
	if got := must(compression.SuspectBelow(of("80 psi"))); got.Text() != "60 psi" {
		t.Errorf("suspect below %v", got)
	}
	for _, tt := range []struct{ supply, reading, field, words string }{
		{"", "60 psi", "supply pressure", "not given"},
		{"0 psi", "0 psi", "supply pressure", "first gauge shows"},
		{"-80 psi", "60 psi", "supply pressure", "starts at 0"},
		{"80 in", "60 psi", "supply pressure", "must be a pressure"},
		{"80 psi", "", "reading", "not given"},
		{"80 psi", "-1 psi", "reading", "starts at 0"},
		{"80 psi", "80.01 psi", "reading", "only 80 psi is supplied"},
		{"80 psi", "60 qt", "reading", "must be a pressure"},
	} {
		wantProblem(t, second(compression.LossPercent(of(tt.supply), of(tt.reading))), tt.field, tt.words)
		wantProblem(t, second(compression.Suspect(of(tt.supply), of(tt.reading))), tt.field, tt.words)
	}
	wantProblem(t, second(compression.SuspectBelow(of("0 psi"))), "supply pressure", "first gauge shows")
	wantProblem(t, second(compression.Suspect(of("99999999999999999 psi"), of("1 psi"))), "supply pressure", "digits")
}
