package quantity

import (
	"strings"
	"testing"
)

func TestDecimalWords(t *testing.T) {
	for in, want := range map[string]string{
		"0": "zero", "1": "one", "10": "ten", "13": "thirteen", "20": "twenty", "21": "twenty-one", "99": "ninety-nine",
		"100": "one hundred", "101": "one hundred one", "110": "one hundred ten", "295": "two hundred ninety-five",
		"1000": "one thousand", "1001": "one thousand one", "2150": "two thousand one hundred fifty",
		"17000": "seventeen thousand", "100000": "one hundred thousand",
		"999999":    "nine hundred ninety-nine thousand nine hundred ninety-nine",
		"1000000":   "1000000",
		"-3":        "minus three",
		"0.41":      "point four one",
		".008":      "point zero zero eight",
		"0.0":       "zero point zero",
		"295.5":     "two hundred ninety-five point five",
		"26.50":     "twenty-six point five zero",
		"-0.5":      "minus point five",
		"1234567.5": "1234567.5",
		"-1234567":  "−1234567",
	} {
		if got := MustDecimal(in).Words(); got != want {
			t.Errorf("%s is said %q, want %q", in, got, want)
		}
	}
}

// TestWholeWordsReadBack reads the words of every whole number up to 999,999 in
// steps back by adding their parts, which is how a listener does it.
func TestWholeWordsReadBack(t *testing.T) {
	value := map[string]int{}
	for n, w := range small {
		value[w] = n
	}
	for n, w := range tens {
		value[w] = n * 10
	}
	heard := map[string]int{}
	for n := 0; n < 1_000_000; n += 1 + n/2000 {
		said := wholeWords(n)
		total, group := 0, 0
		for _, w := range strings.FieldsFunc(said, func(r rune) bool { return r == ' ' || r == '-' }) {
			v, ok := value[w]
			switch {
			case w == "thousand":
				total, group = group*1000, 0
			case w == "hundred":
				group *= 100
			case ok:
				group += v
			default:
				t.Fatalf("%d is said with %q", n, w)
			}
		}
		if total+group != n {
			t.Fatalf("%d is said %q, which is heard as %d", n, said, total+group)
		}
		if was, ok := heard[said]; ok {
			t.Fatalf("%d and %d are both %q", was, n, said)
		}
		heard[said] = n
	}
}

func TestMeasuredWords(t *testing.T) {
	for _, c := range []struct {
		m    Measured
		want string
	}{
		{Of("15", UnitQt), "fifteen quarts"},
		{Of("1", UnitQt), "one quart"},
		{Of("1.0", UnitQt), "one point zero quarts"},
		{Of("15.5", UnitQt), "fifteen and a half quarts"},
		{Of("15.50", UnitQt), "fifteen point five zero quarts"},
		{Of("15.25", UnitQt), "fifteen point two five quarts"},
		{Of("0.5", UnitCuIn), "half a cubic inch"},
		{Of("523.5", UnitH), "five hundred twenty-three point five hours"},
		{Of("20", UnitMin), "twenty minutes"},
		{Of("300", UnitInLb), "three hundred inch pounds, twenty-five foot pounds"},
		{Of("295.5", UnitInLb), "two hundred ninety-five point five inch pounds, twenty-four point six two five foot pounds"},
		{Of("100", UnitInLb), "one hundred inch pounds, about eight point three foot pounds"},
		{Of("0.1", UnitInLb), "point one inch pounds, about point zero one foot pounds"},
		{Of("450", UnitFtLb), "four hundred fifty foot pounds, five thousand four hundred inch pounds"},
		{Of("8", UnitThou), "eight thou, 0.008 inch, 0.20 millimetre"},
		{Of("8.5", UnitThou), "eight point five thou, 0.0085 inch, 0.216 millimetre"},
		{Of("1500", UnitThou), "one thousand five hundred thou, 1.500 inches, 38.10 millimetres"},
		{Of("0.0080", UnitIn), "eight thou, 0.0080 inch, 0.203 millimetre"},
		{Of("0.1", UnitIn), "point one inches, 2.54 millimetres"},
		{Of("0.000", UnitIn), "zero point zero zero zero inches, 0.00 millimetre"},
		{Of("5.0025", UnitIn), "five point zero zero two five inches, 127.064 millimetres"},
		{Of("3", UnitFt), "three feet, 36 inches"},
		{Of("146", UnitMm), "one hundred forty-six millimetres, 5.748 inches"},
		{Of("14.60", UnitCm), "fourteen point six zero centimetres, 5.7480 inches"},
		{Of("150", UnitF), "one hundred fifty degrees Fahrenheit"},
		{Of("1", UnitF), "one degree Fahrenheit"},
		{Of("-1", UnitC), "minus one degree Celsius"},
		{Of("50", UnitDF), "fifty Fahrenheit degrees"},
		{Of("1800", UnitRpm), "one thousand eight hundred rpm"},
		{Of("225", UnitHp), "two hundred twenty-five horsepower"},
		{Of("29.92", UnitInHg), "twenty-nine point nine two inches of mercury"},
		{Of("0.41", UnitQtPerH), "point four one quarts an hour, about two point four hours a quart"},
		{Of("0.25", UnitQtPerH), "point two five quarts an hour, four hours a quart"},
		{Of("1", UnitQtPerH), "one quart an hour, one hour a quart"},
		{Of("3", UnitHPerQt), "three hours a quart, about point three quarts an hour"},
		{Of("40", UnitHPerQt), "forty hours a quart, point zero two five quarts an hour"},
		{Of("0.00", UnitQtPerH), "zero point zero zero quarts an hour, so there are no hours to a quart"},
		{Of("7", "firkin"), "seven firkin"},
		{Measured{}, "not given"},
		{Of("999999999999999999", UnitIn), "999999999999999999 inches"},
		{Of("999999999999999999", UnitFtLb), "999999999999999999 foot pounds, too much to say in inch pounds"},
	} {
		if got := c.m.Words(); got != c.want {
			t.Errorf("%v is said %q, want %q", c.m, got, c.want)
		}
	}
}

func TestLoud(t *testing.T) {
	for _, c := range []struct {
		m    Measured
		want string
	}{
		{Of("295.5", UnitInLb), "two hundred ninety-five point five INCH pounds, twenty-four point six two five foot pounds"},
		{Of("1", UnitFtLb), "one FOOT pound, twelve inch pounds"},
		{Of("15", UnitQt), "fifteen quarts"},
	} {
		if got := c.m.Loud(); got != c.want {
			t.Errorf("%v is said aloud %q, want %q", c.m, got, c.want)
		}
	}
}
