package quantity

import (
	"strconv"
	"strings"
)

// Why says in one word for what reason a text was not taken. Screens may choose
// by it; people read the Sentence.
type Why string

// The reasons.
const (
	WhyEmpty     Why = "empty"     // nothing was typed
	WhyNoNumber  Why = "no-number" // no figure in it, or one that cannot be made out
	WhyLetter    Why = "letter"    // a letter inside the figure, or an exponent
	WhyPoints    Why = "points"    // a second decimal point or comma
	WhyTwoWays   Why = "two-ways"  // it can be read two ways; Instead holds both
	WhyGap       Why = "gap"       // a gap inside the figure, or two figures
	WhyFraction  Why = "fraction"  // not a fraction of a rule
	WhyTooLong   Why = "too-long"  // more figures than anybody reads off a gauge
	WhyUnit      Why = "unit"      // not a unit that is known here
	WhyOtherKind Why = "other"     // a unit of another kind: pressure for a volume
	WhyNoUnit    Why = "no-unit"   // the unit has to be said
	WhySign      Why = "sign"      // less than nothing
	WhyRange     Why = "range"     // there is no such temperature, or no such clock time
	WhyNoEnd     Why = "no-end"    // the exact answer does not end in decimal
)

// Refusal is the one kind of error of this package: a sentence for the person
// who typed, at the place where it was typed. It says what was typed, why it was
// not taken and what is.
type Refusal struct {
	Why      Why
	Typed    string   // as it was typed, untouched
	Sentence string   // short, whole, with a full stop
	Instead  []string // what would be taken instead, when that can be listed
}

// Error is the sentence.
func (r *Refusal) Error() string { return r.Sentence }

func refuse(why Why, typed, sentence string, instead ...string) *Refusal {
	return &Refusal{why, typed, sentence, instead}
}

// quoted puts what was typed between quotation marks, with the middle left out
// if it is long.
func quoted(s string) string {
	if r := []rune(s); len(r) > 24 {
		s = string(r[:12]) + "…" + string(r[len(r)-8:])
	}
	return "“" + strings.ToValidUTF8(s, "\uFFFD") + "”"
}

func digits(n int) string { return strconv.Itoa(n) }
