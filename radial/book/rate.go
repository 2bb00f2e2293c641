package book

import (
	"linkrod/radial/oil"
)

// Rate is the consumption now and what is said of it.
type Rate struct {
	Has         bool
	Figure      string
	Band        string
	Unit        string
	Inverse     string
	Line        string
	Verdict     Verdict
	Code        string
	Ceiling     *SourceLine
	CeilingText string
	None        string
	Call        string
	Maths       Sum
}

const callTheShop = "Call the shop before flying more."

// rate words the answer at the highest hours, or says that the line written
// last cannot be used.
func (b *Book) rate() Rate {
	e := b.engine
	r := Rate{Figure: "–", Unit: e.unit.Symbol() + "/h", Code: oil.None.String(), None: noLimit,
		Maths: Sum{"How this rate was found", []string{}}}
	if v, ok := b.value("ceiling"); ok {
		r.Ceiling, r.CeilingText, r.None = sourceLine(v.Source), short(v.M), ""
	}
	if b.answers.err != nil {
		r.Verdict = verdictOf(Cant, b.answers.err.Error())
		return r
	}
	a, n := b.answers.last(), b.answers.newest()
	if a == nil && n == nil && len(b.answers.all) > 0 {
		r.Verdict = Verdict{Cant, "No reading yet", "The step was explained. Readings from there on start afresh."}
		return r
	}
	if a == nil && n == nil {
		r.Verdict = Verdict{Cant, "No reading yet", "Two levels at different hours make the first figure."}
		return r
	}
	said := a
	if a == nil || n != nil && !n.parked && (n.Left != oil.Used || n.Verdict == oil.ReadingSuspect) {
		said = n
	}
	r.Code = said.Verdict.String()
	r.Verdict = Verdict{oilChip(said.Answer), oilWord(said.Answer), sentence(oil.Say(said.Answer, e.oilUnit()))}
	r.Call = oilCall(said.Answer)
	if a != nil {
		r.Line = oil.Line(a.Answer, e.oilUnit())
		r.Maths.Lines = append(r.Maths.Lines, oil.Maths(a.Answer, e.oilUnit())...)
		b.figures(&r, a.Answer)
	}
	b.unsettled(&r)
	return r
}

// figures fills in the rate itself, both ways round.
func (b *Book) figures(r *Rate, a oil.Answer) {
	if a.Shows != oil.ShowsNow {
		return
	}
	u := b.engine.oilUnit()
	per := func(v oil.QtPerHour) string { return figure2(float64(v) * u.PerQuart) }
	r.Has = true
	r.Figure = per(a.Now.Rate)
	r.Band = per(a.Now.Lo) + " to " + per(a.Now.Hi)
	r.Inverse = hoursPer(a.Now, u)
}

// hoursPer is the rate the other way round, as some keep it: "2.4 h/qt (2 to 3.1)".
func hoursPer(b oil.Band, u oil.Unit) string {
	per := func(v oil.QtPerHour) string {
		h := 1 / (float64(v) * u.PerQuart)
		if h < 10 {
			return figure(h, 1)
		}
		return figure(h, 0)
	}
	const none = 0.001 // qt/h: a quart lasts a thousand hours
	switch {
	case b.Hi < none:
		return "more than " + per(none) + " h/" + u.Symbol
	case b.Lo < none:
		return "more than " + per(b.Hi) + " h/" + u.Symbol
	}
	return per(b.Rate) + " h/" + u.Symbol + " (" + per(b.Hi) + " to " + per(b.Lo) + ")"
}

// unsettled takes the verdict away while something it rests on has two values.
func (b *Book) unsettled(r *Rate) {
	if len(b.engine.open) == 0 {
		return
	}
	for _, f := range b.engine.open {
		if f.name != "ceiling" {
			r.Has, r.Figure, r.Band, r.Inverse, r.Line = false, "–", "", "", ""
		}
	}
	label := b.engine.open[0].label
	r.Verdict = verdictOf(Cant, "“"+label+"” has two values on file. Settle which holds.")
	r.None = ""
}

// oilChip is the chip of an answer.
func oilChip(a oil.Answer) Chip {
	switch a.Verdict {
	case oil.Seated:
		if a.Ceiling.OK {
			return Inside
		}
	case oil.NotSeating, oil.StepUp:
		return Outside
	}
	return Cant
}

// oilWord is the word on the chip.
func oilWord(a oil.Answer) string {
	switch {
	case a.Verdict == oil.None:
		return "No reading yet"
	case a.Verdict == oil.Seated && !a.Ceiling.OK:
		return "Levelled off"
	case a.Verdict == oil.StepUp && a.Step.Fell():
		return "Something changed"
	}
	return capital(a.Verdict.String())
}

// oilCall is what to do, when there is something to do.
func oilCall(a oil.Answer) string {
	switch a.Verdict {
	case oil.NotSeating, oil.StepUp:
		return callTheShop
	case oil.ReadingSuspect:
		if a.Left == oil.Used {
			return "Read it again before you fly."
		}
		return "Put the line right: strike it out and write it again."
	}
	return ""
}

// sentence starts with a capital and ends with a full stop.
func sentence(s string) string {
	if s == "" {
		return s
	}
	s = capital(s)
	if last := s[len(s)-1]; last != '.' && last != '?' {
		s += "."
	}
	return s
}
