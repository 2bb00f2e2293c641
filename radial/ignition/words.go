package ignition

import "linkrod/radial/quantity"

// Words is the run-up in sentences: a live ignition first, then each side, then the two
// against each other.
func (c Check) Words() string {
	said := ""
	for _, s := range []struct {
		side SideDrop
		name string
	}{{c.Left, "left"}, {c.Right, "right"}} {
		if s.side.Meaning == NoDrop {
			said = s.side.words(s.name) + " " + said
		} else {
			said += s.side.words(s.name) + " "
		}
	}
	if c.Apart.Given() {
		said += "The two are " + c.Apart.Show() + " apart, " + c.Verdict.words(c.Limit) + "."
	}
	return trimmed(said)
}

func (s SideDrop) words(name string) string {
	switch s.Meaning {
	case NoDrop:
		other := map[string]string{"left": "right", "right": "left"}[name]
		what := "No drop"
		if s.Drop.Value.Sign() < 0 {
			what = "A rise of " + abs(s.Drop).Show()
		}
		return what + " on the " + name + " alone: the " + other + " was not cut off. Take it for live, switch off or not: keep clear of the propeller until its ground lead and the switch have been looked at."
	case CutOut:
		return "On the " + name + " alone the engine cut out: that side does not fire."
	}
	said := "The " + name + " alone drops " + s.Drop.Show() + ", " + s.Verdict.words(s.Limit)
	switch s.More.Value.Sign() {
	case 1:
		said += "; that is " + s.More.Show() + " more than its usual " + s.Usual.Show()
	case -1:
		said += "; that is " + abs(s.More).Show() + " less than its usual " + s.Usual.Show()
	default:
		if s.More.Given() {
			said += "; that is its usual"
		}
	}
	return said + "."
}

// words is the verdict on something that could be judged.
func (v Verdict) words(limit quantity.Measured) string {
	switch v {
	case NoLimit:
		return "no limit on file"
	case Inside:
		return "inside the " + limit.Show() + " of its card"
	case AtEdge:
		return "at the edge of the " + limit.Show() + " of its card"
	}
	return "over the " + limit.Show() + " of its card"
}

func abs(m quantity.Measured) quantity.Measured {
	m.Value = m.Value.Abs()
	return m
}

func trimmed(s string) string {
	for len(s) > 0 && s[len(s)-1] == ' ' {
		s = s[:len(s)-1]
	}
	return s
}

// Manner is how the speed fell.
type Manner uint8

// The manners.
const (
	NotNoted Manner = iota
	Fast            // at once, and rough
	Slow            // slowly, and smooth
)

// Words is where a drop of that manner is looked for first. Common practice, no source.
func (m Manner) Words() string {
	switch m {
	case Fast:
		return "Fast and rough: most often one plug or its lead. Find the cold cylinder."
	case Slow:
		return "Slow and smooth: most often timing or mixture. Gap and timing are looked at together."
	}
	return "How it fell was not noted."
}
