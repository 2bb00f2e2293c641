package checks

import (
	"errors"
	"strings"
	"testing"

	"linkrod/radial/quantity"
)

// The reader is tested on rows that must fail: a check that cannot fail is none.

const head = "id,topic,quantity,inputs,expected,unit,tolerance,source,status,where\n"

func TestReadRefuses(t *testing.T) {
	for _, tt := range []struct{ name, text, want string }{
		{"empty", "", "EOF"},
		{"other columns", strings.Replace(head, "where", "why", 1), "columns"},
		{"short line", head + "a,b,c\n", "wrong number of fields"},
		{"no tolerance", head + "a,t,q,,1,in,,s,seen,w\n", "tolerance"},
		{"tolerance of no number", head + "a,t,q,,1,in,abs much,s,seen,w\n", "tolerance"},
		{"negative tolerance", head + "a,t,q,,1,in,rel -1,s,seen,w\n", "tolerance"},
		{"id twice", head + "a,t,q,,1,in,exact,s,seen,w\na,t,q,,1,in,exact,s,seen,w\n", "twice"},
		{"no topic", head + "a,,q,,1,in,exact,s,seen,w\n", "empty"},
	} {
		if _, err := read(strings.NewReader(tt.text)); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: error %v, want one with %q", tt.name, err, tt.want)
		}
	}
}

// length answers with the input a, whatever the row wants.
func length(c *Case) Answer { return just(c.Length("a")) }

func TestJudge(t *testing.T) {
	for _, tt := range []struct {
		inputs, expected, unit, tol string
		fn                          func(*Case) Answer
		want                        string // "" passes
	}{
		{"a_in=1", "25.4", "mm", "exact", length, ""},
		{"a_mm=25.4", "1", "in", "exact", length, ""},
		{"a=2 ft", "24", "in (either way; a note)", "exact", length, ""},
		{"a_mm=25.4;b=1", "1", "in", "exact", length, "nobody asked for input b=1"},
		{"b_in=1", "1", "in", "exact", length, `0 inputs are called "a"`},
		{"a_in=1;a_mm=25.4", "1", "in", "exact", length, `2 inputs are called "a"`},
		{"a_in=1;a_in=1", "1", "in", "exact", length, "twice"},
		{"a=1", "1", "in", "exact", length, "no unit of length"},
		{"a_psi=1", "1", "in", "exact", length, "no unit of length"},
		{"a_in=1,5", "1", "in", "exact", length, "not a plain decimal"},
		{"a_in=1 2", "1", "in", "exact", length, "2 values, want one"},
		{"a_in=1", "1", "cu in", "exact", length, "a length; the row wants"},
		{"a_in=1", "one", "in", "exact", length, "not a number"},
		{"a_in=1", "1.001", "in", "exact", length, "got 1, want 1.001"},
		{"a_in=1", "1.001", "in", "abs 0.001", length, ""},
		{"a_in=1", "1.0011", "in", "abs 0.001", length, "got 1, want 1.0011"},
		{"a_in=1", "1.0011", "in", "rel 0.001", length, "got 1, want 1.0011"},
		{"a_in=1", "1 1", "in", "exact", func(c *Case) Answer { return just(c.Lengths("a")) }, "not a number"},
		{"a_in=1 2", "1", "in", "exact", func(c *Case) Answer { return just(c.Lengths("a")) }, "2 values, want 1"},
		{"a_in=1 2", "1 2", "in", "exact", func(c *Case) Answer { return just(c.Lengths("a")) }, ""},
		{"a=3", "3", "in", "exact", func(c *Case) Answer { return just(c.Number("a")) }, "has no unit, the row wants in"},
		{"a=3", "3", "ratio", "exact", func(c *Case) Answer { return just(c.Number("a")) }, ""},
		{"a=x", "3", "ratio", "exact", func(c *Case) Answer { return just(c.Number("a")) }, "invalid syntax"},
		{"a=1.5", "3", "ratio", "exact", func(c *Case) Answer { return just(c.Int("a")) }, "invalid syntax"},
		{"a=4", "4;1/6", "lobes;fraction", "exact", func(c *Case) Answer { return just(parts{c.Int("a"), "1/6"}) }, ""},
		{"a=4", "4;1/8", "lobes;fraction", "exact", func(c *Case) Answer { return just(parts{c.Int("a"), "1/6"}) }, `got "1/6"`},
		{"90 deg", "90", "deg crank", "exact", func(c *Case) Answer { return just(c.Angle("#1")) }, ""},
		{"crank_deg_before_tdc=10", "10", "deg", "exact", func(c *Case) Answer { return just(c.Angle("crank_deg_before_tdc")) }, ""},
		{"", "1", "x", "text", func(c *Case) Answer { return just(1) }, "within text"},
		{"", "1", "x", "exact", func(c *Case) Answer { return is(1, errors.New("no such cylinder")) }, "no such cylinder"},
		{"", "1", "x", "exact", func(c *Case) Answer { panic("division") }, "panic: division"},
		{"", "1", "x", "exact", func(c *Case) Answer { return just(struct{}{}) }, "got NaN"},
	} {
		tol, err := tolerance(tt.tol)
		if err != nil {
			t.Fatal(err)
		}
		c := open(Row{Inputs: tt.inputs, Expected: tt.expected, Unit: tt.unit, Tolerance: tol})
		err = judged(c, tt.fn)
		if tt.want == "" && err != nil || tt.want != "" && (err == nil || !strings.Contains(err.Error(), tt.want)) {
			t.Errorf("%s, %s %s %s: %v, want %q", tt.inputs, tt.expected, tt.unit, tt.tol, err, tt.want)
		}
	}
}

// Rows whose figure stands in the quantity: each must be able to fail.
func TestConvertedRows(t *testing.T) {
	for _, tt := range []struct{ topic, quantity, inputs, expected, unit, tol, want string }{
		{"units", "1 US quart", "1", "32", "US fl oz", "exact", ""},
		{"units", "1 US quart", "1", "32.0000001", "US fl oz", "exact", "want exactly"},
		{"units", "1 US quart", "2", "32", "US fl oz", "exact", "not the figure"},
		{"units", "1 L in US quarts", "", "1.056688", "US qt", "exact", "want exactly"},
		{"units", "1 L in US quarts", "", "1.0567", "US qt", "abs 1e-6", "within abs"},
		{"units", "1 L in psi", "", "1", "", "abs 1e-6", "no unit of one kind"},
		{"units", "1 inHg (60 F) in kPa", "", "3.37685", "", "abs 1e-5", ""},
		{"units", "temperature DIFFERENCE 9 degF in K (no offset)", "9 degF difference", "5", "K", "exact", ""},
		{"units", "degF to degC", "212", "100", "degC", "exact", ""},
		{"units", "1 in in mm", "", "x", "", "exact", "can't be read"},
		{"13_units", "volume_conversion", "us_gal=1", "231 277.42", "cu in; cu in", "abs 0.005", "within abs"},
		{"oil volume", "density to lb per US gallon", "880 kg/m3", "7.344", "kg/m3", "abs 0.0005", "want 7.344"},
		{"oil volume", "density to lb per US gallon", "880 kg/m3", "7.344", "qt", "abs 0.0005", "the answer is a density"},
		{"oil volume", "density to lb per US gallon", "880 stone", "7.344", "lb/US gal", "abs 0.0005", "no unit of density"},
		{"oil volume", "level at 60 F of oil read 16 qt at 160 F", "density60=890;V=15 qt @160 F", "15.366", "qt", "abs 0.005", "the quantity says"},
		{"oil volume", "API 27 oil weight per US gal at 60 F in vacuum", "SG 0.89274 x 1000 kg/m3", "7.443", "lb/US gal", "abs 0.003", "water is 1000"},
		{"oil volume", "colour of the oil", "", "1", "", "exact", "no quantity"},
		{"oil grade", "SAE grade to military and commercial grade numbers", "SAE 55", "1110; 110", "", "exact", "not a single grade"},
		{"oil consumption", "formula at 65 % power", "225 hp x 0.75", "0.4743", "qt/h", "abs 0.0005", "not at 0.65"},
		{"oil analysis", "own-history alarm mean + 2 sd", "Fe ppm 12 15", "17", "ppm", "abs 1", "2 samples"},
		{"oil analysis", "an element's name", "", "iron", "", "exact", "is not like"},
	} {
		tol, err := tolerance(tt.tol)
		if err != nil {
			t.Fatal(err)
		}
		c := open(Row{Topic: tt.topic, Quantity: tt.quantity, Inputs: tt.inputs, Expected: tt.expected, Unit: tt.unit, Tolerance: tol})
		err = judged(c, answered(tt.topic, tt.quantity))
		if tt.want == "" && err != nil || tt.want != "" && (err == nil || !strings.Contains(err.Error(), tt.want)) {
			t.Errorf("%s, %s: %v, want %q", tt.quantity, tt.inputs, err, tt.want)
		}
	}
}

func TestUnitsGoThroughQuantity(t *testing.T) {
	for _, tt := range []struct {
		value any
		unit  string
		want  float64
	}{
		{quantity.Celsius(15), "degF", 59},
		{quantity.Fahrenheit(59), "degC", 15},
		{quantity.OilRate(0.25), "h/qt", 4},
		{quantity.Quart, "US fl oz", 32},
		{quantity.FootPound, "in_lb", 12},
		{2 * quantity.PoundForce, "lb on piston", 2},
		{2 * quantity.Pound, "lb", 2},
		{quantity.Speed(2300), "rpm", 2300},
		{quantity.Hours(1.5), "min", 90},
		{quantity.FahrenheitDegree * 9, "K", 5},
		{quantity.Horsepower, "hp", 1},
		{quantity.PoundPerHorsepowerHour, "lb/bhp-h", 1},
		{quantity.PSI, "psia", 1},
	} {
		if got, err := in(tt.value, tt.unit); err != nil || !(Tolerance{Kind: "exact"}).holds(got, tt.want) {
			t.Errorf("%v in %s = %v (%v), want %v", tt.value, tt.unit, got, err, tt.want)
		}
	}
}

func TestSkipping(t *testing.T) {
	if _, ok := skippedFor("security", "anything"); !ok {
		t.Error("a topic skipped whole is not skipped")
	}
	if _, ok := skippedFor("a topic of a new table", "anything"); ok {
		t.Error("a topic that nobody named is skipped")
	}
	defer func() {
		if recover() == nil {
			t.Error("two answers to one quantity were taken")
		}
	}()
	answers("a test of answers", table{"q": length})
	defer delete(known, "a test of answers")
	answers("a test of answers", table{"q": length})
}
