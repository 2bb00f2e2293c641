package oil

import (
	"math"
	"testing"

	"linkrod/radial/quantity"
)

// Rows of testdata/checks/general.csv by their id: API MPMS 11.1, ASTM D1250-04.
func TestVolumeFactor(t *testing.T) {
	for _, tt := range []struct {
		id   string
		d    Density
		base Base
		t    quantity.Temperature
		want float64
	}{
		{"oil_vcf_f_880_20", 880, At60F, 20, 1.01578},
		{"oil_vcf_f_880_100", 880, At60F, 100, 0.98407},
		{"oil_vcf_f_880_200", 880, At60F, 200, 0.94370},
		{"oil_vcf_f_890_180", 890, At60F, 180, 0.95238},
		{"oil_vcf_f_900_20", 900, At60F, 20, 1.01543},
		{"oil_vcf_f_900_200", 900, At60F, 200, 0.94496},
		{"oil_vcf_f_880_60", 880, At60F, 60, 1},
		{"oil_vcf_c_880_m10", 880, At15C, quantity.Celsius(-10), 1.01774},
		{"oil_vcf_c_890_60", 890, At15C, quantity.Celsius(60), 0.96798},
		{"oil_vcf_c_900_100", 900, At15C, quantity.Celsius(100), 0.93978},
	} {
		got, err := VolumeFactor(tt.d, tt.base, tt.t)
		if err != nil || math.Abs(got-tt.want) > 0.00002 {
			t.Errorf("%s: %.6f, %v, want %v", tt.id, got, err, tt.want)
		}
	}
	if a, err := Expansion(890); err != nil || math.Abs(a-0.000392) > 1e-6 { // oil_alpha
		t.Errorf("%v %v", a, err)
	}
}

func TestVolumeAt(t *testing.T) {
	hot, err := VolumeAt(16*quantity.Quart, 890, 160, 60) // oil_hot_read_cold
	if err != nil || math.Abs(hot.Quarts()-15.366) > 0.005 {
		t.Errorf("%v %v", hot.Quarts(), err)
	}
	back, _ := VolumeAt(hot, 890, 60, 160)
	if math.Abs(back.Quarts()-16) > 1e-12 {
		t.Errorf("back: %v", back.Quarts())
	}
	before, _ := VolumeAt(14*quantity.Quart, 890, 150, 60) // oil_loss_tempcorr
	after, _ := VolumeAt(12.5*quantity.Quart, 890, 50, 60)
	lost, err := Lost(Dipped{14 * quantity.Quart, 150}, Dipped{12.5 * quantity.Quart, 50}, 890)
	if err != nil || lost != before-after || math.Abs(lost.Quarts()-0.952) > 0.005 {
		t.Errorf("lost %v, %v", lost.Quarts(), err)
	}
	falls, err := Cooling(16*quantity.Quart, 890, 160, 60) // oil_hot_minus_cold
	if err != nil || math.Abs(falls.Quarts()-0.634) > 0.005 {
		t.Errorf("falls %v, %v", falls.Quarts(), err)
	}
	if rises, _ := Cooling(15*quantity.Quart, 890, 60, 160); rises >= 0 {
		t.Errorf("warmed, it falls by %v", rises)
	}
	// The rule of thumb is the formula's first term, too long by half its square.
	if by := Swelling(16*quantity.Quart, 0.0004, 100); math.Abs(by.Quarts()-0.64) > 1e-12 || math.Abs(float64(by-falls)/float64(by)) > 0.02 {
		t.Errorf("rule of thumb %v", by.Quarts())
	}
}

// What a density may be stated as: degrees API, a specific gravity, pounds to the gallon.
func TestDensities(t *testing.T) {
	d, err := APIGravity(27) // oil_api27_lbgal: 7.443 lb/gal
	if err != nil || math.Abs(d.PoundsPerGallon()-7.443) > 0.003 {
		t.Errorf("27 API: %v, %v", d.PoundsPerGallon(), err)
	}
	if w, err := APIGravity(10); err != nil || math.Abs(float64(w-WaterAt60F)) > 1e-9 { // 10 degrees API are water, by definition
		t.Errorf("10 API: %v, %v", w, err)
	}
	if s, err := SpecificGravity(0.89274); err != nil || math.Abs(float64(s-d)) > 0.01 {
		t.Errorf("0.89274: %v, 27 API: %v, %v", s, d, err)
	}
	if v := d.Volume(d.Mass(3 * quantity.Quart)); math.Abs(v.Quarts()-3) > 1e-12 {
		t.Errorf("3 qt weigh as much as %v", v.Quarts())
	}
	if a, b := At15C.K1(quantity.FahrenheitDegree), At60F.K1(quantity.FahrenheitDegree); math.Abs(a-0.348778) > 0.00001 || math.Abs(a-b) > 0.00001 { // oil_k1_consistency
		t.Errorf("%v and %v", a, b)
	}
}

func TestRateSD(t *testing.T) {
	if sd := RateSD(0.25, 0.25, 5); math.Abs(float64(sd)-0.0707) > 0.0001 { // oc_se: 0.25 √2/5
		t.Errorf("%v", sd)
	}
	if sd := RateSD(0.3, 0.4, 2); math.Abs(float64(sd)-0.25) > 1e-15 || !math.IsInf(float64(RateSD(0.1, 0.1, 0)), 1) {
		t.Errorf("%v", sd)
	}
}

func TestByPower(t *testing.T) {
	for _, tt := range []struct {
		id      string
		c       quantity.SpecificConsumption
		p       quantity.Power
		d       Density
		want    float64
		allowed float64
	}{
		{"oc_180", 0.006, 180, 7.4 * PoundPerGallon, 0.5838, 0.0005},
		{"oc_300", 0.006, 300, 7.4 * PoundPerGallon, 0.9730, 0.0005},
		{"oc_35_300", 0.035, 300, 7.5 * PoundPerGallon, 5.600, 0.001},
		{"p24", 0.035, 210, 7.4 * PoundPerGallon, 3.97, 0.01},
		{"oc_tab_i", 3.0 / 250, 250, 7.2 * PoundPerGallon, 1.67, 0.006},
	} {
		r, err := RateByPower(tt.c, tt.p, tt.d)
		if err != nil || math.Abs(r.QuartsPerHour()-tt.want) > tt.allowed {
			t.Errorf("%s: %v, %v, want %v", tt.id, r.QuartsPerHour(), err, tt.want)
		}
		if c, err := ByPower(r, tt.p, tt.d); err != nil || math.Abs(float64(c-tt.c)) > 1e-15 {
			t.Errorf("%s: back %v, %v", tt.id, c, err)
		}
	}
	if r, err := RateByMass(3*quantity.Pound, 7.2*PoundPerGallon); err != nil || math.Abs(r.QuartsPerHour()-1.67) > 0.006 { // oc_tab_i
		t.Errorf("3 lb/h: %v, %v", r, err)
	}
	if d := (880 * KilogramPerCubicMetre).PoundsPerGallon(); math.Abs(d-7.3440) > 0.0005 { // oil_lbgal_880
		t.Errorf("%v", d)
	}
	if d := (7.4 * PoundPerGallon).KilogramsPerCubicMetre(); math.Abs(d-886.7) > 0.1 { // oil_lbqt_74
		t.Errorf("%v", d)
	}
}

func TestDensityRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	second := func(_ float64, err error) error { return err }
	for i, err := range []error{
		second(VolumeFactor(600, At60F, 60)), second(VolumeFactor(Density(nan), At60F, 60)), second(VolumeFactor(890, At60F, 501)),
		second(VolumeFactor(890, At60F, -101)), second(VolumeFactor(890, At15C, quantity.Temperature(nan))), second(Expansion(1201)),
		volumeErr(VolumeAt(-1, 890, 60, 60)), volumeErr(VolumeAt(quantity.Volume(inf), 890, 60, 60)), volumeErr(VolumeAt(1, 890, 600, 60)), volumeErr(VolumeAt(1, 890, 60, 600)),
		rateErr(RateByPower(-1, 300, 890)), rateErr(RateByPower(0.006, 0, 890)), rateErr(RateByPower(0.006, 300, 8900)), rateErr(RateByPower(quantity.SpecificConsumption(inf), 300, 890)),
		specificErr(ByPower(-1, 300, 890)), specificErr(ByPower(1, quantity.Power(inf), 890)), specificErr(ByPower(1, 300, 0)), specificErr(ByPower(quantity.OilRate(inf), 300, 890)),
		rateErr(RateByMass(-1, 890)), rateErr(RateByMass(quantity.Mass(inf), 890)), rateErr(RateByMass(1, 600)), densityErr(APIGravity(nan)), densityErr(APIGravity(-131.5)), densityErr(SpecificGravity(0.5)),
		volumeErr(Lost(Dipped{-1, 60}, Dipped{}, 890)), volumeErr(Lost(Dipped{1, 60}, Dipped{1, 600}, 890)), volumeErr(Cooling(-1, 890, 60, 60)),
	} {
		p, ok := err.(*quantity.Problem)
		if !ok || p.Field == "" || p.Sentence == "" || p.Sentence[len(p.Sentence)-1] != '.' {
			t.Errorf("%d: %v", i, err)
		}
	}
	// The ends themselves are taken.
	for _, err := range []error{second(VolumeFactor(700, At60F, -100)), second(VolumeFactor(1200, At60F, 500)), rateErr(RateByPower(0, 1, 890)), rateErr(RateByMass(0, 890)), specificErr(ByPower(0, 1, 890))} {
		if err != nil {
			t.Error(err)
		}
	}
}

func volumeErr(_ quantity.Volume, err error) error                { return err }
func rateErr(_ quantity.OilRate, err error) error                 { return err }
func specificErr(_ quantity.SpecificConsumption, err error) error { return err }
func densityErr(_ Density, err error) error                       { return err }
