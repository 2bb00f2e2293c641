package quantity

import (
	"errors"
	"slices"
	"strings"
	"testing"
)

func TestParse(t *testing.T) {
	for _, c := range []struct {
		typed string
		def   Unit
		value string
		unit  Unit
		echo  string
	}{
		// a bare figure is in the unit of its box
		{"15", UnitQt, "15", UnitQt, "fifteen quarts"},
		{"25.0", UnitFtLb, "25.0", UnitFtLb, "twenty-five point zero foot pounds, three hundred inch pounds"},
		{"26.50", UnitQt, "26.50", UnitQt, "twenty-six point five zero quarts"},
		{".008", UnitIn, "0.008", UnitIn, "eight thou, 0.008 inch, 0.20 millimetre"},
		{"25.", UnitQt, "25", UnitQt, "twenty-five quarts"},
		{"0541.6", UnitH, "541.6", UnitH, "five hundred forty-one point six hours"},
		{" 15 ", UnitQt, "15", UnitQt, "fifteen quarts"},
		{"0", UnitQt, "0", UnitQt, "zero quarts"},

		// a unit of the same kind is taken as typed
		{"16 qt", UnitQt, "16", UnitQt, "sixteen quarts"},
		{"16qts.", UnitL, "16", UnitQt, "sixteen quarts"},
		{"2,5 l", UnitQt, "2.5", UnitL, "two and a half litres"},
		{"300 in-lb", UnitFtLb, "300", UnitInLb, "three hundred inch pounds, twenty-five foot pounds"},
		{"25 ft lb", UnitInLb, "25", UnitFtLb, "twenty-five foot pounds, three hundred inch pounds"},
		{"25 Ft.Lbs.", UnitInLb, "25", UnitFtLb, "twenty-five foot pounds, three hundred inch pounds"},
		{"12 in/lbs", UnitInLb, "12", UnitInLb, "twelve inch pounds, one foot pound"},
		{"36 N·m", UnitInLb, "36", UnitNm, "thirty-six newton metres, about twenty-six point six foot pounds"},
		{"8 thou", UnitIn, "8", UnitThou, "eight thou, 0.008 inch, 0.20 millimetre"},
		{"5 tenths", UnitIn, "5", UnitTenth, "five tenths of a thou, 0.0005 inch, 0.013 millimetre"},
		{"0.20 mm", UnitThou, "0.20", UnitMm, "point two zero millimetres, 0.008 inch"},
		{"5.375\"", UnitIn, "5.375", UnitIn, "five point three seven five inches, 136.53 millimetres"},
		{"24.6 in3", UnitCuIn, "24.6", UnitCuIn, "twenty-four point six cubic inches"},
		{"403 cm³", UnitCuIn, "403", UnitCc, "four hundred three cubic centimetres"},
		{"150 °F", UnitC, "150", UnitF, "one hundred fifty degrees Fahrenheit"},
		{"150º", UnitF, "150", UnitF, "one hundred fifty degrees Fahrenheit"},
		{"50 F", UnitDF, "50", UnitDF, "fifty Fahrenheit degrees"},
		{"25°", UnitDeg, "25", UnitDeg, "twenty-five degrees"},
		{"3 lb", UnitLb, "3", UnitLb, "three pounds"},
		{"3 lb", UnitLbf, "3", UnitLbf, "three pounds-force"},
		{"76 lb/in2", UnitPsi, "76", UnitPsi, "seventy-six psi"},
		{"0.25 qts/hr", UnitQtPerH, "0.25", UnitQtPerH, "point two five quarts an hour, four hours a quart"},
		{"4 h/qt", UnitQtPerH, "4", UnitHPerQt, "four hours a quart, point two five quarts an hour"},
		{"0", UnitQtPerH, "0", UnitQtPerH, "zero quarts an hour, so there are no hours to a quart"},
		{"15 US qt", UnitImpQt, "15", UnitQt, "fifteen quarts"},
		{"15 imp. qt", UnitQt, "15", UnitImpQt, "fifteen imperial quarts"},
		{"15", UnitImpQt, "15", UnitImpQt, "fifteen imperial quarts"},

		// fractions of a rule
		{"5 1/4", UnitIn, "5.25", UnitIn, "five point two five inches, 133.35 millimetres"},
		{"5-1/4", UnitIn, "5.25", UnitIn, "five point two five inches, 133.35 millimetres"},
		{"5¼", UnitIn, "5.25", UnitIn, "five point two five inches, 133.35 millimetres"},
		{"5-¼", UnitIn, "5.25", UnitIn, "five point two five inches, 133.35 millimetres"},
		{"5 1⁄4\"", UnitIn, "5.25", UnitIn, "five point two five inches, 133.35 millimetres"},
		{"½", UnitQt, "0.5", UnitQt, "half a quart"},
		{"½", UnitImpQt, "0.5", UnitImpQt, "half an imperial quart"},
		{"½ gal", UnitQt, "0.5", UnitGal, "half a US gallon"},
		{"1/64", UnitIn, "0.015625", UnitIn, "fifteen point six two five thou, 0.015625 inch, 0.39688 millimetre"},
		{"15½ qt", UnitQt, "15.5", UnitQt, "fifteen and a half quarts"},

		// signs
		{"+1", UnitQt, "1", UnitQt, "one quart"},
		{"+ 1 qt", UnitQt, "1", UnitQt, "one quart"},
		{"-40", UnitF, "-40", UnitF, "minus forty degrees Fahrenheit"},
		{"−1 thou", UnitThou, "-1", UnitThou, "minus one thou, −0.001 inch, −0.03 millimetre"},
		{"-1/2 thou", UnitThou, "-0.5", UnitThou, "minus point five thou, −0.0005 inch, −0.013 millimetre"},
		{"-0", UnitQt, "0", UnitQt, "zero quarts"},

		// commas that can only be decimal
		{"0,125", UnitIn, "0.125", UnitIn, "point one two five inches, 3.18 millimetres"},
		{",5", UnitQt, "0.5", UnitQt, "half a quart"},
		{"1500,250", UnitRpm, "1500.250", UnitRpm, "one thousand five hundred point two five zero rpm"},
		{"1500,25", UnitRpm, "1500.25", UnitRpm, "one thousand five hundred point two five rpm"},

		// two units, and the clock
		{"1 gal 2 qt", UnitQt, "6", UnitQt, "one US gallon two quarts, 6 quarts"},
		{"1gal2qt", UnitQt, "6", UnitQt, "one US gallon two quarts, 6 quarts"},
		{"3 gal 1.5 qt", UnitQt, "13.5", UnitQt, "three US gallons one and a half quarts, 13.5 quarts"},
		{"5 in 8 thou", UnitIn, "5008", UnitThou, "five inches eight thou, 5008 thou"},
		{"1 ft .5 in", UnitIn, "12.5", UnitIn, "one foot point five inches, 12.5 inches"},
		{"1 gal 3,5 qt", UnitQt, "7.5", UnitQt, "one US gallon three and a half quarts, 7.5 quarts"},
		{"5' 3\"", UnitIn, "63", UnitIn, "five feet three inches, 63 inches"},
		{"1 lb 4 oz", UnitLb, "20", UnitOz, "one pound four ounces, 20 ounces"},
		{"1:30", UnitH, "1.5", UnitH, "one hour thirty minutes, 1.5 hours"},
		{"1:30 h", UnitMin, "1.5", UnitH, "one hour thirty minutes, 1.5 hours"},
		{"0:45", UnitH, "0.75", UnitH, "forty-five minutes, 0.75 hour"},
		{"0:00", UnitH, "0", UnitH, "zero hours"},
		{"2:00", UnitH, "2", UnitH, "two hours, 2 hours"},
		{"1:59", UnitH, "119", UnitMin, "one hour fifty-nine minutes, 119 minutes"},
		{"1:20", UnitH, "80", UnitMin, "one hour twenty minutes, 80 minutes"},
		{"1 h 15 min", UnitH, "1.25", UnitH, "one hour fifteen minutes, 1.25 hours"},
		{"1h30", UnitH, "1.5", UnitH, "one hour thirty minutes, 1.5 hours"},
		{"90 min", UnitH, "90", UnitMin, "ninety minutes"},
	} {
		r, err := Parse(c.typed, c.def)
		if err != nil {
			t.Errorf("Parse(%q, %s): %v", c.typed, c.def, err)
			continue
		}
		if r.Measured.Value.Text() != c.value || r.Measured.Unit != c.unit || r.Echo != c.echo {
			t.Errorf("Parse(%q, %s) = %v, %q, want %s %s, %q", c.typed, c.def, r.Measured, r.Echo, c.value, c.unit, c.echo)
		}
		if r.Typed != c.typed || r.Plus != strings.Contains(c.typed, "+") {
			t.Errorf("Parse(%q, %s) keeps %q, plus %v", c.typed, c.def, r.Typed, r.Plus)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct {
		typed    string
		def      Unit
		why      Why
		sentence string
		instead  []string
	}{
		{"", UnitQt, WhyEmpty, "Nothing is typed yet. This takes quarts, litres or fluid ounces.", nil},
		{" \t", UnitIn, WhyEmpty, "Nothing is typed yet. This takes inches, thou or millimetres.", nil},
		{"abc", UnitQt, WhyNoNumber, "There is no figure in “abc”. Type one such as 15 or 15.5.", nil},
		{"NaN", UnitQt, WhyNoNumber, "There is no figure in “NaN”. Type one such as 15 or 15.5.", nil},
		{"Inf", UnitQt, WhyNoNumber, "There is no figure in “Inf”. Type one such as 15 or 15.5.", nil},
		{"-Infinity", UnitIn, WhyNoNumber, "There is no figure in “-Infinity”. Type one such as 15 or 15.5.", nil},
		{".", UnitQt, WhyNoNumber, "There is no figure in “.”. Type one such as 15 or 15.5.", nil},
		{"+", UnitQt, WhyNoNumber, "There is no figure in “+”. Type one such as 15 or 15.5.", nil},
		{"１５", UnitQt, WhyNoNumber, "There is no figure in “１５”. Type one such as 15 or 15.5.", nil},
		{"qt 15", UnitQt, WhyNoNumber, "“qt 15” does not begin with a figure. Type the figure first, then its unit.", nil},

		{"1e3", UnitRpm, WhyLetter, "There is a letter inside the figure “1e3”. Type 0 to 9 and one point.", nil},
		{"1e-3", UnitIn, WhyLetter, "There is a letter inside the figure “1e-3”. Type 0 to 9 and one point.", nil},
		{"0x1F", UnitRpm, WhyLetter, "There is a letter inside the figure “0x1F”. Type 0 to 9 and one point.", nil},
		{"5O2.5", UnitH, WhyLetter, "There is a letter inside the figure “5O2.5”. Type 0 to 9 and one point.", nil},
		{"15O", UnitRpm, WhyLetter, "There is a letter inside the figure “15O”. Type 0 to 9 and one point.", nil},

		{"5.2.5", UnitIn, WhyPoints, "“5.2.5” has two decimal points. Type it with one.", nil},
		{"1..5", UnitIn, WhyPoints, "“1..5” has two decimal points. Type it with one.", nil},
		{"1,500.5 rpm", UnitRpm, WhyPoints, "“1,500.5” has a comma and a point. Type 1500.5 if that is meant.", []string{"1500.5 rpm"}},
		{"1,500,000", UnitRpm, WhyPoints, "“1,500,000” has two commas. Type 1500000 if that is meant.", []string{"1500000"}},
		{"15, qt", UnitQt, WhyPoints, "“15,” ends in a comma. Type 15 if that is meant.", []string{"15 qt"}},
		{"1,500", UnitRpm, WhyTwoWays, "“1,500” can be 1.500 or 1500. Type the one that is meant.", []string{"1.500", "1500"}},
		{"150,250", UnitRpm, WhyTwoWays, "“150,250” can be 150.250 or 150250. Type the one that is meant.", []string{"150.250", "150250"}},
		{"-1,500 thou", UnitIn, WhyTwoWays, "“1,500” can be 1.500 or 1500. Type the one that is meant.", []string{"-1.500 thou", "-1500 thou"}},
		{"1 500 rpm", UnitRpm, WhyGap, "“1 500 rpm” has a gap in it. Type 1500 if that is meant.", []string{"1500 rpm"}},
		{"15 16", UnitQt, WhyGap, "“15 16” is more than one figure. Type one.", nil},
		{"15 +1", UnitQt, WhyGap, "“15 +1” is more than one figure. Type one.", nil},
		{"15 qt 16 qt", UnitQt, WhyGap, "“15 qt 16 qt” is more than one figure. Type one.", nil},
		{"2 qt 1 gal", UnitQt, WhyGap, "“2 qt 1 gal” is more than one figure. Type one.", nil},
		{"1 gal 5 qt", UnitQt, WhyGap, "“1 gal 5 qt” is more than one figure. Type one.", nil},
		{"1.5 gal 2 qt", UnitQt, WhyGap, "“1.5 gal 2 qt” is more than one figure. Type one.", nil},
		{"1 gal -2 qt", UnitQt, WhyGap, "“1 gal -2 qt” is more than one figure. Type one.", nil},
		{"1 l 2 qt", UnitQt, WhyGap, "“1 l 2 qt” is more than one figure. Type one.", nil},
		{"300-325", UnitInLb, WhyGap, "“300-325” is more than one figure. Type one.", nil},
		{"5 - 1/4", UnitIn, WhyGap, "“5 - 1/4” is more than one figure. Type one.", nil},
		{"5.5 1/4", UnitIn, WhyGap, "“5.5 1/4” is more than one figure. Type one.", nil},
		{"15? 3", UnitQt, WhyGap, "“15? 3” is more than one figure. Type one.", nil},

		{"76/80", UnitPsi, WhyFraction, "76/80 is not on a rule. Halves, quarters, eighths, sixteenths, thirty-seconds and sixty-fourths are; anything else as a decimal.", nil},
		{"1/3", UnitIn, WhyFraction, "1/3 is not on a rule. Halves, quarters, eighths, sixteenths, thirty-seconds and sixty-fourths are; anything else as a decimal.", nil},
		{"5⅓", UnitIn, WhyFraction, "1/3 is not on a rule. Halves, quarters, eighths, sixteenths, thirty-seconds and sixty-fourths are; anything else as a decimal.", nil},
		{"03/04", UnitIn, WhyFraction, "03/04 is not on a rule. Halves, quarters, eighths, sixteenths, thirty-seconds and sixty-fourths are; anything else as a decimal.", nil},
		{"3/08", UnitIn, WhyFraction, "3/08 is not on a rule. Halves, quarters, eighths, sixteenths, thirty-seconds and sixty-fourths are; anything else as a decimal.", nil},
		{"1/128", UnitIn, WhyFraction, "1/128 is not on a rule. Halves, quarters, eighths, sixteenths, thirty-seconds and sixty-fourths are; anything else as a decimal.", nil},
		{"1/1", UnitIn, WhyFraction, "1/1 is not on a rule. Halves, quarters, eighths, sixteenths, thirty-seconds and sixty-fourths are; anything else as a decimal.", nil},
		{"2/2", UnitIn, WhyFraction, "2/2 is one or more. Type the whole number first, as in 1 1/4.", nil},
		{"1234567/123456", UnitIn, WhyTooLong, "“1234567/123456” has more than twelve figures. Type it shorter.", nil},
		{"123456/123456", UnitIn, WhyFraction, "123456/123456 is not on a rule. Halves, quarters, eighths, sixteenths, thirty-seconds and sixty-fourths are; anything else as a decimal.", nil},
		{"1/2/3", UnitIn, WhyGap, "“1/2/3” is more than one figure. Type one.", nil},
		{"1/ 2", UnitIn, WhyGap, "“1/ 2” is more than one figure. Type one.", nil},
		{"5/4", UnitIn, WhyFraction, "5/4 is one or more. Type the whole number first, as in 1 1/4.", nil},

		{"1234567890123", UnitIn, WhyTooLong, "“1234567890123” has more than twelve figures. Type it shorter.", nil},
		{"12345678901234567890123456789", UnitIn, WhyTooLong, "“123456789012…23456789” has more than twelve figures. Type it shorter.", nil},
		{"0.1234567890123", UnitIn, WhyTooLong, "“0.1234567890123” has more than twelve figures. Type it shorter.", nil},
		{"123456789012 ft 1 thou", UnitIn, WhyTooLong, "“123456789012 ft 1 thou” comes to more than twelve figures. Type it shorter.", nil},

		{"15?", UnitQt, WhyUnit, "“?” is not a unit known here. This takes quarts, litres or fluid ounces.", nil},
		{"3 qk", UnitQt, WhyUnit, "“qk” is not a unit known here. This takes quarts, litres or fluid ounces.", nil},
		{"12 psi", UnitQt, WhyOtherKind, "“psi” is a unit of pressure. This takes quarts, litres or fluid ounces.", nil},
		{"12 l", UnitPsi, WhyOtherKind, "“l” is a unit of volume. This takes psi, inches of mercury or kilopascals.", nil},
		{"5 mil", UnitIn, WhyTwoWays, "A mil is a thousandth of an inch to some and a millimetre to others. Type thou or mm.", []string{"5 thou", "5 mm"}},
		{"15 qt", UnitImpQt, WhyTwoWays, "Which quart? The US one is 0.946\u2009L. The imperial one is 1.137\u2009L.", []string{"15 US qt", "15 imp qt"}},
		{"1 gal", UnitImpQt, WhyTwoWays, "Which gallon? The US one is 3.785\u2009L. The imperial one is 4.546\u2009L.", []string{"1 US gal", "1 imp gal"}},
		{"0.5 qt/h", UnitImpQtPerH, WhyTwoWays, "Which quart an hour? The US one is 0.946\u2009L/h. The imperial one is 1.137\u2009L/h.", []string{"0.5 US qt/h", "0.5 imp qt/h"}},

		{"-1", UnitQt, WhySign, "−1\u2009qt is less than nothing. A volume starts at 0.", []string{"1 qt"}},
		{"-500 C", UnitF, WhyRange, "−500\u2009°C is colder than anything can be.", nil},
		{"0 h/qt", UnitQtPerH, WhyRange, "Nought hours a quart is no rate. Oil that is not used is nought quarts an hour.", nil},
		{"1:75", UnitH, WhyRange, "“1:75” has seventy-five minutes, and an hour has sixty.", nil},
		{"1:60", UnitH, WhyRange, "“1:60” has sixty minutes, and an hour has sixty.", nil},
		{"1:3", UnitH, WhyRange, "“1:3” is not hours and minutes. Type them as 1:30, or hours as 1.5.", nil},
		{"12:30:15", UnitH, WhyRange, "“12:30:15” is not hours and minutes. Type them as 1:30, or hours as 1.5.", nil},
		{"1:30 qt", UnitH, WhyRange, "“1:30 qt” is not hours and minutes. Type them as 1:30, or hours as 1.5.", nil},
		{"1:30", UnitMin, WhyTwoWays, "“1:30” can be hours and minutes or minutes and seconds. Type the minutes alone.", nil},
		{"1:30", UnitQt, WhyGap, "“1:30” is more than one figure. Type one.", nil},

		{"15", "firkin", WhyUnit, "“firkin” is not a unit this Linkrod knows.", nil},
		{"15", "", WhyUnit, "“” is not a unit this Linkrod knows.", nil},
	} {
		r, err := Parse(c.typed, c.def)
		var no *Refusal
		if !errors.As(err, &no) {
			t.Errorf("Parse(%q, %s) = %v, %v, want: %s", c.typed, c.def, r.Measured, err, c.sentence)
			continue
		}
		if no.Why != c.why || no.Sentence != c.sentence || !slices.Equal(no.Instead, c.instead) || no.Typed != c.typed && c.def.Known() {
			t.Errorf("Parse(%q, %s)\n got %s %q %q\nwant %s %q %q", c.typed, c.def, no.Why, no.Sentence, no.Instead, c.why, c.sentence, c.instead)
		}
		if r != (Reading{}) {
			t.Errorf("Parse(%q, %s) is refused and yet gives %v", c.typed, c.def, r.Measured)
		}
		for _, instead := range no.Instead {
			if _, err := Parse(instead, c.def); err != nil {
				t.Errorf("Parse(%q, %s) offers %q and does not take it: %v", c.typed, c.def, instead, err)
			}
		}
		tone(t, no.Sentence)
	}
}

// tone holds a sentence to the way this program speaks: whole, quiet, and none
// of the words that belong to machines.
func tone(t *testing.T, sentence string) {
	t.Helper()
	if !strings.HasSuffix(sentence, ".") {
		t.Errorf("no full stop: %s", sentence)
	}
	for _, word := range strings.FieldsFunc(strings.ToLower(sentence), func(r rune) bool { return r < 'a' || r > 'z' }) {
		if slices.Contains([]string{"invalid", "error", "illegal", "failed", "submit", "record", "please", "sorry", "oops", "safe", "good"}, word) {
			t.Errorf("%q in: %s", word, sentence)
		}
	}
	if strings.Contains(sentence, "!") {
		t.Errorf("shouts: %s", sentence)
	}
}

func TestParseSaid(t *testing.T) {
	r, err := ParseSaid("300 in lb", DimTorque)
	if err != nil || r.Measured != Of("300", UnitInLb) {
		t.Errorf("300 in lb is %v, %v", r.Measured, err)
	}
	for _, c := range []struct {
		typed    string
		want     Dimension
		sentence string
		instead  []string
	}{
		{"300", DimTorque, "300 of what? Inch pounds or foot pounds. Twelve times apart.", []string{"300 in-lb", "300 ft-lb"}},
		{"15", DimVolume, "15 of what? Quarts, litres or fluid ounces.", nil},
		{"205", DimTemperature, "205 of what? Degrees F or degrees C.", nil},
		{"205°", DimTemperature, "205 of what? Degrees F or degrees C.", nil},
	} {
		_, err := ParseSaid(c.typed, c.want)
		var no *Refusal
		if !errors.As(err, &no) || no.Why != WhyNoUnit || no.Sentence != c.sentence || !slices.Equal(no.Instead, c.instead) {
			t.Errorf("ParseSaid(%q, %s): %v, want %s", c.typed, c.want, err, c.sentence)
		}
	}
}

func TestParseSaidWithoutAKind(t *testing.T) {
	for _, d := range []Dimension{NoDimension, dimensionCount, 255} {
		if r, err := ParseSaid("15 qt", d); err == nil {
			t.Errorf("ParseSaid(15 qt, %d) = %v", d, r.Measured)
		}
	}
}

func TestParseNumber(t *testing.T) {
	for in, want := range map[string]string{
		"76": "76", "25.0": "25.0", "5 1/4": "5.25", "½": "0.5", "2,5": "2.5", " .008 ": "0.008", "-3": "-3", "+1": "1",
	} {
		if got, err := ParseNumber(in); err != nil || got.Text() != want {
			t.Errorf("ParseNumber(%q) = %v, %v, want %s", in, got, err, want)
		}
	}
	for in, want := range map[string]string{
		"76 psi": "A figure alone is taken here. “psi” follows it.",
		"":       "There is no figure in “”. Type one such as 15 or 15.5.",
		"7.6.":   "“7.6.” has two decimal points. Type it with one.",
	} {
		if got, err := ParseNumber(in); err == nil || err.Error() != want {
			t.Errorf("ParseNumber(%q) = %v, %v, want %s", in, got, err, want)
		}
	}
}

// FuzzParse: nothing typed makes it panic, what it takes it takes again from its
// own text, and what it refuses it refuses with a sentence. Run with
//
//	go test -fuzz=FuzzParse ./radial/quantity
func FuzzParse(f *testing.F) {
	for i, typed := range []string{"5 1/4", "½", "8 thou", "1:30", "2,5 l", "1,500", "300 in-lb", "1 gal 2 qt", "+1", "−40 °F", "1e3", "24.6 in3",
		"4 h/qt", "0 h/qt", "1h30", "15 16", "15, ", "76/80", "5' 3\"", "\xff", "1.", "0.000000000001 cc", "-0", "+"} {
		f.Add(typed, uint8(i))
	}
	f.Fuzz(func(t *testing.T, typed string, n uint8) {
		u := units[int(n)%len(units)].unit
		r, err := Parse(typed, u)
		if said, saidErr := ParseSaid(typed, u.Dimension()); saidErr == nil && (err == nil && said != r) {
			t.Errorf("%q is %v with its unit said, and %v", typed, said, r)
		}
		if err != nil {
			var no *Refusal
			if !errors.As(err, &no) || no.Sentence == "" {
				t.Errorf("Parse(%q, %s): %v is no sentence", typed, u, err)
			}
			return
		}
		m := r.Measured
		if m.Dimension() != u.Dimension() {
			t.Errorf("Parse(%q, %s) = %v, another kind of quantity", typed, u, m)
		}
		again, err := Parse(m.Text(), m.Unit)
		if err != nil || again.Measured != m {
			t.Errorf("Parse(%q, %s) = %q, which parses as %v, %v", typed, u, m.Text(), again.Measured, err)
		}
		if r.Echo == "" || m.Words() == "" || m.Show() == "" || m.Loud() == "" {
			t.Errorf("%v has no words", m)
		}
	})
}

// FuzzNumbers: what travels (ParseDecimal) and what is typed bare (ParseNumber). Whatever
// comes, a number that is taken is written and read as the same number again.
func FuzzNumbers(f *testing.F) {
	for _, text := range []string{"15", "-0.003", "26.50", "+.008", "5 1/4", "2,5", "1e3", "999999999999999999", "0.0000000000000000001", "½", "-", "\u2212" + "4"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for name, parse := range map[string]func(string) (Decimal, error){"ParseDecimal": ParseDecimal, "ParseNumber": ParseNumber} {
			d, err := parse(text)
			if err != nil {
				if err.Error() == "" {
					t.Errorf("%s(%q) refuses without a word", name, text)
				}
				continue
			}
			if again, err := ParseDecimal(d.Text()); err != nil || again != d {
				t.Errorf("%s(%q) = %s, read back as %v, %v", name, text, d.Text(), again, err)
			}
		}
	})
}
