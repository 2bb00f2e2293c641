package book

import (
	"math"

	"linkrod/radial/oil"
	"linkrod/radial/quantity"
)

// Plot is consumption over engine hours.
type Plot struct {
	Unit        string
	HMax        float64
	RMax        float64
	EarlyUntil  float64
	Points      []PlotPoint
	Curve       []CurvePoint
	Ceiling     *float64
	CeilingText string
	Marks       []PlotMark
	BandMeans   string
	Summary     string
	HoursMean   string
}

// PlotPoint is one reading: the raw interval before it, and the rate and band
// as they were answered there.
type PlotPoint struct {
	Key     string
	H       float64
	Raw     *float64
	RawFrom *float64
	Rate    *float64
	Lo      *float64
	Hi      *float64
	Code    string
	Suspect bool
	Spoken  string
}

// CurvePoint is a point of the likeliest curve.
type CurvePoint struct {
	H float64
	R float64
}

// PlotMark is something that happened, at its hours.
type PlotMark struct {
	H    float64
	Kind string
	Text string
}

func (b *Book) plot(now Now) Plot {
	e := b.engine
	per := func(r oil.QtPerHour) *float64 { v := round(e.shown(oil.Quarts(r)), 4); return &v }
	p := Plot{
		Unit: e.unit.Symbol() + "/h", HoursMean: b.hoursMean(), EarlyUntil: 3,
		Points: []PlotPoint{}, Curve: []CurvePoint{},
		BandMeans: "The band holds the true rate with 95 % chance, as far as stick, conditions and differing flights explain the scatter.",
	}
	if c := e.settings.Ceiling; c.OK {
		p.Ceiling = per(c.V)
		p.CeilingText = "shop's ceiling " + figure2(*p.Ceiling) + " " + p.Unit
	}
	start := b.answers.shownFrom()
	if len(b.origins) > 1 {
		start = max(start, b.answers.bank) // hours before an overhaul are of another count
	}
	from := math.Inf(-1)
	if start > 0 && start < len(b.answers.all) {
		from = float64(b.answers.all[start].Hours)
	}
	p.Marks = b.plotMarks(now, from)
	for i := start; i < len(b.answers.all); i++ {
		a := b.answers.all[i]
		if a.parked {
			continue
		}
		if a.Left != oil.Used {
			p.Marks = append(p.Marks, PlotMark{float64(a.Hours), "suspect", oil.Say(a.Answer, e.oilUnit())})
			continue
		}
		if i == b.answers.bank {
			p.EarlyUntil = math.Max(0, float64(a.Hours)) + 3
		}
		pt := PlotPoint{Key: a.line.key.String(), H: float64(a.Hours), Code: a.Verdict.String(), Suspect: a.Verdict == oil.ReadingSuspect}
		if a.Raw.OK {
			since := float64(a.Raw.V.From)
			pt.RawFrom, pt.Raw = &since, per(a.Raw.V.Rate)
		}
		pt.Spoken = hoursWords(a.Hours)
		if a.Shows == oil.ShowsNow {
			pt.Rate, pt.Lo, pt.Hi = per(a.Now.Rate), per(a.Now.Lo), per(a.Now.Hi)
			pt.Spoken += ", " + figure2(*pt.Rate) + ", between " + figure2(*pt.Lo) + " and " + figure2(*pt.Hi)
		} else {
			pt.Spoken += ", no rate yet"
		}
		pt.Spoken += ", " + pt.Code
		p.Points = append(p.Points, pt)
	}
	p.Curve = b.curve()
	p.axes()
	p.Summary = b.plotSummary()
	return p
}

// curve is the likeliest explanation, drawn where the readings bear it out. A
// level line is what a curve that has come down is taken for (see package oil);
// it says nothing of the hours before, so it goes back only as far as it lies in
// the bands that were answered then.
func (b *Book) curve() []CurvePoint {
	points := []CurvePoint{}
	a := b.answers.last()
	if a == nil || !a.Curve.OK || a.Shows != oil.ShowsNow {
		return points
	}
	const steps = 48
	c := a.Curve
	if c.Shape == oil.Flat {
		c.From = b.levelSince(c)
	}
	for i := 0; i <= steps; i++ {
		h := c.From + (c.To-c.From)*oil.Hours(i)/steps
		points = append(points, CurvePoint{round(float64(h), 3), round(b.engine.shown(oil.Quarts(c.At(h))), 4)})
	}
	return points
}

// levelSince is the hour of the earliest answer from which on the level line c
// lies in every band.
func (b *Book) levelSince(c oil.Curve) oil.Hours {
	since := c.To
	all := b.answers.all
	for i := len(all) - 1; i >= b.answers.bank; i-- {
		a := all[i]
		if a.parked || a.Left != oil.Used {
			continue
		}
		r := c.At(a.Hours)
		if a.Shows != oil.ShowsNow || a.Hours < c.From || r < a.Now.Lo || r > a.Now.Hi {
			break
		}
		since = a.Hours
	}
	return since
}

// axes ends both axes on a round figure. Both start at nought. A raw figure far
// over every band does not flatten the rest.
func (p *Plot) axes() {
	h, r, raw := 0.0, 0.0, 0.0
	if p.Ceiling != nil {
		r = *p.Ceiling * 1.2
	}
	for _, pt := range p.Points {
		h = math.Max(h, pt.H)
		if pt.Hi != nil {
			r = math.Max(r, *pt.Hi)
		}
		if pt.Raw != nil {
			raw = math.Max(raw, *pt.Raw)
		}
	}
	if r == 0 {
		r = raw
	}
	r = math.Max(r, math.Min(raw, 1.5*r))
	p.HMax = math.Max(10, 10*math.Ceil(h/10))
	p.RMax = math.Max(0.5, math.Ceil(2*r)/2)
}

// plotMarks are the things that happened between the readings, from an hour on.
func (b *Book) plotMarks(now Now, from float64) []PlotMark {
	marks := []PlotMark{}
	for _, l := range b.lines {
		if !l.onMeter || l.behind != nil || !l.used() {
			continue
		}
		h := float64(b.hoursSince(l.total))
		if o, known := b.originAt(l.total); h < 0 || h < from || known && o != b.origins[len(b.origins)-1] {
			continue // before what is drawn, or before the overhaul or ring job
		}
		switch v := l.body.(type) {
		case *Oil:
			if v.poured() {
				marks = append(marks, PlotMark{h, "add", "+" + v.Added.Value.Show()})
			}
		case *Drain:
			marks = append(marks, PlotMark{h, "drain", "drained and refilled"})
		case *StepClosed:
			marks = append(marks, PlotMark{h, "step", v.Found})
		case *Facts:
			switch {
			case v.Kind == &compressionSet:
				marks = append(marks, PlotMark{h, "compression", "compression " + shortDay(v.Day, now.Day)})
			case v.Note != "" || v.Kind == &overhaul:
				marks = append(marks, PlotMark{h, "note", v.Say()})
			}
		case *Note:
			marks = append(marks, PlotMark{h, "note", v.Text})
		}
	}
	return marks
}

// plotSummary is the plot for whoever does not see it.
func (b *Book) plotSummary() string {
	a := b.answers.last()
	if a == nil {
		return "No reading yet. The rate is drawn here over the engine's hours."
	}
	if a.Shows != oil.ShowsNow {
		return sentence(oil.Line(a.Answer, b.engine.oilUnit()))
	}
	s := counted(a.Readings, "reading", "readings") + " over " + hoursWords(a.Span) + ". "
	for _, f := range b.answers.all[b.answers.bank:] {
		if f.Left == oil.Used && f.Shows == oil.ShowsNow && f.line != a.line {
			s += "The first rate, at " + hoursWords(f.Hours) + ", was " + figure2(b.engine.shown(oil.Quarts(f.Now.Rate))) + ". "
			break
		}
	}
	return s + sentence(oil.Line(a.Answer, b.engine.oilUnit()))
}

func hoursWords(h oil.Hours) string {
	f := figure(float64(h), 1)
	if f == "1" {
		return "1 hour"
	}
	return f + " hours"
}

// figure2 is a rate to two places.
func figure2(v float64) string { return quantity.Figure(v, 2) }

// round keeps the JSON small; it is for drawing only.
func round(v float64, places int) float64 {
	p := math.Pow(10, float64(places))
	return math.Round(v*p) / p
}
