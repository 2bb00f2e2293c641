package oil

import (
	"strconv"
	"strings"

	"linkrod/radial/quantity"
)

// Grade is the viscosity grade of a single-grade aviation oil under its three names. A
// can says 100, an old card says 1100 and a new one SAE 50, and all mean one oil.
//
// A grade is a thickness and nothing else: whether an oil disperses, which decides what may
// follow a straight mineral one, stands in another part of its name. Which grade an engine
// takes is on its own card.
type Grade struct {
	SAE        int // of SAE J300
	Commercial int // about twice the SAE number; the figure on the can
	Military   int // 1 and the commercial number, or 10: 1065, 1080, 1100
	// Viscosity is the kinematic viscosity at 100 °C.
	Viscosity Span
}

// Span is a range of kinematic viscosity in centistokes, mm²/s: the least belongs to it, and
// the end does not.
type Span struct{ Min, Under quantity.Decimal }

// String is the span as the standard's tables print it: "16.3 to <21.9".
func (s Span) String() string { return s.Min.Text() + " to <" + s.Under.Text() }

// Holds reports that a viscosity at 100 °C is within the span.
func (s Span) Holds(centistokes quantity.Decimal) bool {
	return centistokes.Compare(s.Min) >= 0 && centistokes.Compare(s.Under) < 0
}

// ParseGrade reads a grade by any of its names: "SAE 50", "50", "W100", "100", "1100".
//
// Source: names, SAE J1966 AUG2011 table 1 (NATO numbers left out); viscosities, SAE J300 of
// 1999 and 2013.
func ParseGrade(typed string) (Grade, error) {
	name := strings.ToUpper(strings.ReplaceAll(typed, " ", ""))
	name = strings.TrimPrefix(strings.TrimPrefix(name, "SAE"), "W")
	n, err := strconv.Atoi(name)
	for _, sae := range [...]int{30, 40, 50, 60} {
		if g := gradeOf(sae); err == nil && (n == g.SAE || n == g.Commercial || n == g.Military) {
			return g, nil
		}
	}
	return Grade{}, &quantity.Problem{Field: "grade", Sentence: "“" + typed + "” is not a single grade of aviation oil. Those are SAE 30, 40, 50 and 60, on cans 65, 80, 100 and 120."}
}

func gradeOf(sae int) Grade {
	span := func(least, under string) Span {
		return Span{quantity.MustDecimal(least), quantity.MustDecimal(under)}
	}
	switch sae {
	case 30:
		return Grade{30, 65, 1065, span("9.3", "12.5")}
	case 40:
		return Grade{40, 80, 1080, span("12.5", "16.3")}
	case 50:
		return Grade{50, 100, 1100, span("16.3", "21.9")}
	}
	return Grade{60, 120, 1120, span("21.9", "26.1")}
}

// Words is the grade under its three names.
func (g Grade) Words() string {
	return "SAE " + strconv.Itoa(g.SAE) + " is " + strconv.Itoa(g.Commercial) + " on a can and " + strconv.Itoa(g.Military) + " in old papers."
}
