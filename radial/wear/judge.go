package wear

import "linkrod/radial/quantity"

// Verdict is where a reading stands against its limits. From New on, the graver one is the
// larger.
type Verdict uint8

// The verdicts. None of them says that a part may be fitted; a certificated person does.
const (
	NoLimit     Verdict = iota // nothing on file to judge it by: never a pass
	New                        // between the new figures, both of them included
	Serviceable                // worn, and not yet at the edge
	AtEdge                     // in the last tenth before the wear limit, the limit itself included
	Reject                     // past the wear limit, or beyond new on the side that wear does not go
	TakeAgain                  // the readings do not agree with one another
)

// String is the verdict in its word.
func (v Verdict) String() string {
	switch v {
	case New:
		return "new"
	case Serviceable:
		return "serviceable"
	case AtEdge:
		return "at the edge"
	case Reject:
		return "reject"
	case TakeAgain:
		return "take it again"
	}
	return "no limit on file"
}

// Finding is a verdict with all that it rests on.
type Finding struct {
	Verdict Verdict
	Reading quantity.Measured
	Limits  Limits
	// Left is how far the reading is from the wear limit, below 0 past it. Not given
	// without a wear limit, or where the two units have no common decimal.
	Left quantity.Measured
	// Unworn: rejected, but not for wear. It lies beyond the new figures on the side that
	// wear does not go: too tight, too much choke.
	Unworn bool
	Again  Agreement // with TakeAgain: what did not agree
}

// Judge is the verdict on a reading as it was typed, to the last figure. An equality
// passes a maximum and a minimum; nothing is rounded. It refuses a reading of another kind
// of quantity than the limits, and limits that contradict themselves. A reading of the
// wrong size for its part (a slipped point) is FarFromNominal's to ask about.
func (l Limits) Judge(reading quantity.Measured) (Finding, error) {
	f := Finding{Reading: reading, Limits: l}
	if !reading.Given() {
		return f, problem("reading", "The reading is not given.")
	}
	sense, err := l.read()
	if err := first(err, oneKind("reading", reading, l.NewMin), oneKind("reading", reading, l.NewMax), oneKind("reading", reading, l.Wear)); err != nil {
		return f, err
	}
	if !l.Wear.Given() {
		if l.NewMin.Given() && l.NewMax.Given() && !more(l.NewMin, reading) && !more(reading, l.NewMax) {
			f.Verdict = New
		}
		return f, nil
	}
	s := l.side(sense)
	edge, err := l.edge(s)
	if err != nil {
		return f, problem("wear limit", err.Error())
	}
	f.Left = l.left(s, reading)
	switch {
	case s.past(reading, l.Wear) > 0:
		f.Verdict = Reject
	case s.back.Given() && s.past(reading, s.back) < 0:
		f.Verdict, f.Unworn = Reject, true
	case s.past(reading, edge) >= 0:
		f.Verdict = AtEdge
	case s.near.Given() && s.past(reading, s.near) <= 0:
		f.Verdict = New
	default:
		f.Verdict = Serviceable
	}
	return f, nil
}

// left is how far the reading is from the wear limit.
func (l Limits) left(s side, reading quantity.Measured) quantity.Measured {
	from, to := reading, l.Wear
	if s.sign < 0 {
		from, to = to, from
	}
	d, _ := minus(to, from) // not given if no decimal holds it
	return d
}

// JudgeAll is the verdict on several readings of one point. If they agree (Agree) it is
// that on the worse end of those that do; otherwise the point is to be taken again.
func (l Limits) JudgeAll(trust quantity.Measured, readings ...quantity.Measured) (Finding, error) {
	a, err := Agree(trust, readings...)
	if err != nil {
		return Finding{Limits: l}, err
	}
	low, err := l.Judge(a.Low)
	if err != nil {
		return low, err
	}
	high, _ := l.Judge(a.High) // what one could be judged by, the other can
	switch {
	case !a.Agreed:
		return Finding{Verdict: TakeAgain, Reading: readings[len(readings)-1], Limits: l, Again: a}, nil
	case high.worse(low):
		return high, nil
	}
	return low, nil
}

// worse reports a graver finding: nothing to judge by, then the graver verdict, then the
// one with less room left.
func (f Finding) worse(g Finding) bool {
	switch {
	case f.Verdict == g.Verdict:
		return more(g.Left, f.Left)
	case f.Verdict == NoLimit || g.Verdict == NoLimit:
		return f.Verdict == NoLimit
	}
	return f.Verdict > g.Verdict
}

// Words is the finding in sentences: the reading, the verdict, the limit it was judged by
// and where that limit comes from.
//
//	8.5 thou = 0.0085 in: at the edge, 0.5 thou inside the wear limit of 9 thou. Source: DEMO sheet B, page 4.
func (f Finding) Words() string {
	s := f.Reading.Show() + ": " + f.Verdict.String()
	l := f.Limits
	switch f.Verdict {
	case TakeAgain:
		return f.Verdict.String() + ". " + f.Again.Words()
	case NoLimit:
		if l.Empty() {
			return f.Reading.Show() + ": no limit on file."
		}
		return f.Reading.Show() + ": no wear limit on file, and it is not shown to be new." + l.sourceWords()
	case New:
		s += l.newWords()
	case Serviceable, AtEdge:
		s += f.insideWords()
	case Reject:
		s += f.outsideWords()
	}
	return s + "." + l.sourceWords()
}

func (l Limits) sourceWords() string {
	if l.Source == "" {
		return " The source of the limit is not on file."
	}
	return " Source: " + l.Source + "."
}

func (l Limits) newWords() string {
	switch {
	case !l.NewMin.Given():
		return ", up to " + brief(l.NewMax)
	case !l.NewMax.Given():
		return ", from " + brief(l.NewMin)
	}
	return ", from " + brief(l.NewMin) + " to " + brief(l.NewMax)
}

func (f Finding) insideWords() string {
	switch {
	case !f.Left.Given():
		return ", inside the wear limit of " + brief(f.Limits.Wear)
	case f.Left.Value.Sign() == 0:
		return ", on the wear limit of " + brief(f.Limits.Wear) + " itself"
	}
	return ", " + brief(f.Left) + " inside the wear limit of " + brief(f.Limits.Wear)
}

func (f Finding) outsideWords() string {
	if f.Unworn {
		side, figure := "less than the new minimum of ", f.Limits.NewMin
		if !figure.Given() || !more(figure, f.Reading) {
			side, figure = "more than the new maximum of ", f.Limits.NewMax
		}
		return ", " + side + brief(figure) + ". Wear does not go that way: measure again, and look whether it is the right part"
	}
	if !f.Left.Given() {
		return ", past the wear limit of " + brief(f.Limits.Wear)
	}
	return ", " + brief(abs(f.Left)) + " past the wear limit of " + brief(f.Limits.Wear)
}
