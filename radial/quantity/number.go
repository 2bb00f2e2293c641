package quantity

import (
	"strconv"
	"strings"
)

// mostFigures is how many figures a person may type in one number, before and
// after the point. No gauge, meter or micrometer has more than eight.
const mostFigures = 12

// ParseNumber reads a bare number as people type it, without a unit: "76",
// "25.0", "5 1/4", "½", "2,5". The rules are those of Parse.
func ParseNumber(typed string) (Decimal, error) {
	s, neg, _ := sign(tidy(typed))
	d, rest, err := number(s, typed)
	if err != nil {
		return Decimal{}, err
	}
	if rest = strings.TrimSpace(rest); rest != "" {
		return Decimal{}, refuse(WhyUnit, typed, "A figure alone is taken here. "+quoted(rest)+" follows it.", d.Text())
	}
	if neg {
		d = d.Neg()
	}
	return d, nil
}

var unusual = strings.NewReplacer(
	"\u00a0", " ", "\u2009", " ", "\u202f", " ", "\t", " ", // spaces of print
	minus, "-", "\u2044", "/",
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4",
	"⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
	"⅓", " 1/3", "⅔", " 2/3", "º", "°", "˚", "°", "″", `"`, "”", `"`, "′", "'", "’", "'",
)

// tidy spells what was typed with plain signs and single spaces. It changes no
// figure and no letter.
func tidy(typed string) string {
	return strings.Join(strings.Fields(unusual.Replace(typed)), " ")
}

// sign takes a leading plus or minus off.
func sign(s string) (rest string, minus, plus bool) {
	minus, plus = strings.HasPrefix(s, "-"), strings.HasPrefix(s, "+")
	if minus || plus {
		s = strings.TrimSpace(s[1:])
	}
	return s, minus, plus
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// span is how many leading bytes of s satisfy ok.
func span(s string, ok func(byte) bool) int {
	for i := 0; i < len(s); i++ {
		if !ok(s[i]) {
			return i
		}
	}
	return len(s)
}

// number takes the number at the head of s, which is tidy, and returns what
// follows it. typed is for the sentence of a refusal.
func number(s, typed string) (d Decimal, rest string, err error) {
	n := span(s, func(c byte) bool { return isDigit(c) || c == '.' || c == ',' })
	figure, rest := s[:n], s[n:]
	if strings.Trim(figure, ".,") == "" {
		return noNumber(s, typed)
	}
	if strings.HasPrefix(rest, "/") {
		d, rest, err = ruler("", s, typed)
	} else if gap := strings.TrimLeft(rest, " -"); gap != "" && gap != rest && isDigit(gap[0]) {
		d, rest, err = afterGap(figure, rest[:len(rest)-len(gap)], gap, typed)
	} else {
		d, err = point(figure, typed)
	}
	if err == nil && tooLong(d) {
		err = tooManyFigures(typed)
	}
	return d, rest, err
}

func noNumber(s, typed string) (Decimal, string, error) {
	if strings.ContainsAny(s, "0123456789") {
		return Decimal{}, "", refuse(WhyNoNumber, typed, quoted(typed)+" does not begin with a figure. Type the figure first, then its unit.")
	}
	return Decimal{}, "", refuse(WhyNoNumber, typed, "There is no figure in "+quoted(typed)+". Type one such as 15 or 15.5.")
}

// tooLong reports more figures than a person may type.
func tooLong(d Decimal) bool {
	whole, frac, _ := strings.Cut(d.Abs().Text(), ".")
	return len(strings.TrimLeft(whole, "0"))+len(frac) > mostFigures
}

// point reads digits with at most one decimal point or comma.
func point(figure, typed string) (Decimal, error) {
	points, commas := strings.Count(figure, "."), strings.Count(figure, ",")
	plain := strings.ReplaceAll(figure, ",", "")
	switch {
	case points > 1:
		return Decimal{}, refuse(WhyPoints, typed, quoted(figure)+" has "+wholeWords(min(points, 99))+" decimal points. Type it with one.")
	case points == 1 && commas > 0:
		return Decimal{}, refuse(WhyPoints, typed, quoted(figure)+" has a comma and a point. Type "+plain+" if that is meant.", swap(typed, figure, plain))
	case commas > 1:
		return Decimal{}, refuse(WhyPoints, typed, quoted(figure)+" has "+wholeWords(min(commas, 99))+" commas. Type "+plain+" if that is meant.", swap(typed, figure, plain))
	case commas == 1:
		whole, frac, _ := strings.Cut(figure, ",")
		if frac == "" {
			return Decimal{}, refuse(WhyPoints, typed, quoted(figure)+" ends in a comma. Type "+plain+" if that is meant.", swap(typed, figure, plain))
		}
		if len(frac) == 3 && 1 <= len(whole) && len(whole) <= 3 && whole[0] != '0' {
			return Decimal{}, refuse(WhyTwoWays, typed, quoted(figure)+" can be "+whole+"."+frac+" or "+plain+". Type the one that is meant.",
				swap(typed, figure, whole+"."+frac), swap(typed, figure, plain))
		}
		figure = whole + "." + frac
	}
	d, err := ParseDecimal(strings.TrimSuffix(figure, "."))
	if err != nil {
		return d, tooManyFigures(typed)
	}
	return d, nil
}

// afterGap reads a figure with a second one behind a gap or a dash: 5 1/4 and
// 5-1/4 are one number, anything else is two. 5 -1/4 could be either and is two.
func afterGap(whole, gap, s, typed string) (Decimal, string, error) {
	next := s[:span(s, isDigit)]
	isFraction := strings.HasPrefix(s[len(next):], "/")
	switch {
	case isFraction && allDigits(whole) && (gap == " " || gap == "-" || gap == "- "):
		return ruler(whole, s, typed)
	case !isFraction && allDigits(whole) && gap == " " && len(next) == 3:
		joined := whole + next
		return Decimal{}, "", refuse(WhyGap, typed, quoted(typed)+" has a gap in it. Type "+joined+" if that is meant.",
			swap(typed, whole+" "+next, joined))
	}
	return Decimal{}, "", twoFigures(typed)
}

// ruler reads the fraction of a rule at the head of s and adds it to the whole
// number before it, if there is one: halves down to sixty-fourths, less than
// one. Other fractions are refused: 76/80 is a compression, 03/04 is a day, and
// thirds never end.
func ruler(whole, s, typed string) (d Decimal, rest string, err error) {
	over, s, _ := strings.Cut(s, "/")
	n := span(s, isDigit)
	below, rest := s[:n], s[n:]
	switch {
	case !allDigits(over) || below == "":
		return d, "", twoFigures(typed)
	case len(over)+len(below) > mostFigures:
		return d, "", tooManyFigures(typed)
	}
	top, err1 := strconv.Atoi(over)
	bottom, err2 := strconv.Atoi(below)
	switch {
	case err1 != nil || err2 != nil || over[0] == '0' || below[0] == '0' || !powerOfTwo(bottom):
		return d, "", refuse(WhyFraction, typed, over+"/"+below+" is not on a rule. Halves, quarters, eighths, sixteenths, thirty-seconds and sixty-fourths are; anything else as a decimal.")
	case top >= bottom:
		return d, "", refuse(WhyFraction, typed, over+"/"+below+" is one or more. Type the whole number first, as in 1 1/4.")
	}
	part, _ := fractionOf(Whole(top)).scaled(1, uint64(bottom)).ending()
	if whole == "" {
		whole = "0"
	}
	d, err = point(whole, typed)
	if err == nil {
		d, err = d.Add(part)
	}
	return d, rest, err
}

// swap is what was typed with one figure written another way.
func swap(typed, figure, other string) string {
	return strings.Replace(tidy(typed), figure, other, 1)
}

func tooManyFigures(typed string) error {
	return refuse(WhyTooLong, typed, quoted(typed)+" has more than "+wholeWords(mostFigures)+" figures. Type it shorter.")
}

func twoFigures(typed string) error {
	return refuse(WhyGap, typed, quoted(typed)+" is more than one figure. Type one.")
}

func powerOfTwo(n int) bool { return 2 <= n && n <= 64 && n&(n-1) == 0 }
