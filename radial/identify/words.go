package identify

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// Words is the result in sentences: who it could be and how likely, what speaks against
// it, which parts are from elsewhere, what to look at next. No model is named without its
// share. The zero Result has nothing to say.
func (r Result) Words() string {
	if len(r.Ranked) == 0 {
		return ""
	}
	var said []string
	var free []string
	for _, s := range r.Ranked {
		if len(s.Against) == 0 {
			free = append(free, s.named())
		}
	}
	switch {
	case !r.anything():
		said = append(said, "Nothing has been observed yet.")
	case len(free) > 0:
		said = append(said, "Nothing seen speaks against "+list(free, "or")+".")
	case r.Build.Mixed:
		said = append(said, "No one model has all that was seen. It is a mixed build: "+r.first().named()+r.Build.deviations()+
			" Limits follow the parts that are there; which apply is for the shop to say, in writing.", r.first().againstWords())
	default:
		said = append(said, "No model listed has all that was seen. The nearest is "+r.first().named()+".", r.first().againstWords())
	}
	for _, o := range r.Open {
		said = append(said, "Seen two ways and left open: "+o.Feature+", "+list(o.Seen, "and")+".")
	}
	if r.anything() {
		said = append(said, r.secondWords(), "Another engine, or one built of several: "+Chance(r.Others)+".")
	}
	said = append(said, r.nextWords(), "Looking does not establish an identity; the plate and the papers do.")
	return strings.Join(slices.DeleteFunc(said, func(s string) bool { return s == "" }), " ")
}

// anything reports that something was seen that can be weighed.
func (r Result) anything() bool {
	s := r.Ranked[0]
	return len(s.Agrees)+len(s.Silent)+len(s.Against) > 0
}

// base is the standing of the build's base.
func (r Result) base() Standing {
	return r.Ranked[slices.IndexFunc(r.Ranked, func(s Standing) bool { return s.Name == r.Build.Base })]
}

// named is the name with its share.
func (s Standing) named() string { return s.Name + " (" + Chance(s.Share) + ")" }

func (s Standing) againstWords() string {
	var said []string
	for _, c := range s.Against {
		said = append(said, c.Feature+" “"+c.Seen+"”, where it has “"+c.Wants+"”")
	}
	if len(said) == 1 {
		return "One thing speaks against " + s.Name + ": " + said[0] + "."
	}
	return strconv.Itoa(len(said)) + " things speak against " + s.Name + ": " + strings.Join(said, "; ") + "."
}

// deviations is the parts that are not of the base, those alike together.
func (b Build) deviations() string {
	said := ""
	for i, p := range b.Parts {
		if !p.Deviates || slices.ContainsFunc(b.Parts[:i], p.alike) {
			continue
		}
		var names []string
		for _, q := range b.Parts[i:] {
			if q.alike(p) {
				names = append(names, q.Name)
			}
		}
		said += ", but " + list(names, "and") + " as on " + list(p.Fits, "or") + ", " + p.approval()
	}
	return said + "."
}

// alike reports two deviating parts of the same models with the same approvals.
func (p Part) alike(q Part) bool {
	return p.Deviates && q.Deviates && slices.Equal(p.Fits, q.Fits) && slices.Equal(p.Approvals, q.Approvals)
}

func (p Part) approval() string {
	if len(p.Approvals) == 0 {
		return "no approval seen"
	}
	return "approval by " + list(p.Approvals, "and")
}

// secondWords is the second model, unless it has been named.
func (r Result) secondWords() string {
	if len(r.Ranked) < 2 {
		return ""
	}
	for _, s := range r.Ranked[:2] {
		n := len(s.Against)
		switch {
		case n == 0, s.Name == r.first().Name:
		case n == 1:
			return "Then " + s.named() + ", with one thing against it."
		default:
			return "Then " + s.named() + ", with " + strconv.Itoa(n) + " things against it."
		}
	}
	return ""
}

// first is the model that the sentences begin with when something speaks against all.
func (r Result) first() Standing {
	if r.Build.Mixed {
		return r.base()
	}
	return r.Ranked[0]
}

// nextWords is what to look at next, the first that is visible.
func (r Result) nextWords() string {
	if len(r.Ranked) < 2 {
		return ""
	}
	two := r.Ranked[0].Name + " and " + r.Ranked[1].Name
	if len(r.Ranked) > 2 && r.Ranked[2].Share == r.Ranked[1].Share {
		two = r.Ranked[0].Name + " and the others"
	}
	switch {
	case len(r.Looks) == 0:
		return "Nothing left to look at here tells between " + two + "."
	case r.Looks[0].Hidden:
		return "What would tell between " + two + " is not visible: " + r.Looks[0].Feature.Name + "."
	}
	f := r.Looks[0].Feature
	if f.How != "" {
		return "Look next at the " + f.Name + " (" + f.How + "): it tells most between " + two + "."
	}
	return "Look next at the " + f.Name + ": it tells most between " + two + "."
}

// Chance is a share in words, never nothing and never all: "about 7 in 10".
func Chance(p float64) string {
	n := int(math.Round(100 * p))
	switch {
	case n < 1:
		return "less than 1 in 100"
	case n > 99:
		return "more than 99 in 100"
	case n < 10 || n > 90:
		return "about " + strconv.Itoa(n) + " in 100"
	}
	return "about " + strconv.Itoa(int(math.Round(10*p))) + " in 10"
}

// list is words with commas and an and, or an or.
func list(words []string, last string) string {
	n := len(words)
	if n < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:n-1], ", ") + " " + last + " " + words[n-1]
}
