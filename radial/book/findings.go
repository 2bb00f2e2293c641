package book

import "linkrod/radial/oil"

// findings are the facts that the headline and the next step are chosen by.
type findings struct {
	standing
	missing *Missing
	rate    Rate

	any     bool // a reading was written
	said    oil.Verdict
	newest  *answered
	idle    bool   // standing for idleDays or more
	low     bool   // under the least for flight
	level   string // "8 qt"
	least   string
	ceiling bool
	blades  Value
	hours   string // "39.6 hours since the overhaul"
	then    string // level at the last stop, when there are two to compare
	later   string // and after standing
	today   string
	about   []string // what was written about the time of a step
	asks    []string // what may have happened to a reading that does not fit
	unclear bool     // what the verdict rests on has two values

	stop  *line     // it went firm by hand, and nobody released it
	open  []*line   // open findings, the gravest first
	metal *line     // metal nobody has answered for
	begun *line     // a job that was interrupted
	dues  []DueItem // what is due, late first
}

func (b *Book) findings(now Now, s standing, v View) findings {
	f := findings{standing: s, missing: v.Missing, rate: v.Rate, today: now.Day}
	f.newest = b.answers.newest()
	f.any = b.answers.level() != nil || f.newest != nil
	if f.suspect() {
		f.asks = b.hints(f.newest)
	}
	f.idle = s.days >= idleDays
	f.unclear = len(b.engine.open) > 0
	if a := b.answers.last(); a != nil {
		f.said = a.Said
		if a.Verdict == oil.StepUp {
			f.about = b.writtenAbout(a.Step.About)
		}
	}
	if a := b.answers.level(); a != nil {
		f.hours = hoursWords(a.Hours)
		if b.engine.settings.HoursKnown {
			f.hours += " since the " + b.engine.what
		} else {
			f.hours += " on this log"
		}
	}
	if level, ok := b.levelNow(); ok {
		f.level = b.amount(level)
		if b.engine.least.OK {
			f.least = b.amount(b.engine.least.V)
			f.low = level < b.engine.least.V-hair
		}
	}
	if s.ok {
		f.then, f.later = b.amount(s.shutdownLevel()), b.amount(s.to.reading.Level)
	}
	f.ceiling = b.engine.settings.Ceiling.OK || b.disagreed("ceiling")
	f.blades, _ = b.value("blades")
	f.stop, f.open, f.metal, f.begun, f.dues = b.stopped(), b.openFindings(), b.metal(), b.interrupted(), v.Due
	return f
}

// stopped is the last pull-through that went firm and that no mechanic has released.
func (b *Book) stopped() *line {
	released := map[string]bool{}
	for i := len(b.lines) - 1; i >= 0; i-- {
		f, ok := b.lines[i].body.(*Facts)
		if !ok || f.Kind != &pulled || !b.lines[i].used() {
			continue
		}
		if r := f.text("released"); r != "" {
			released[r] = true
		}
		if f.stop() && !released[b.lines[i].key.String()] {
			return b.lines[i]
		}
	}
	return nil
}

// metal is the last look at a screen that was shown to somebody who has not answered, or that
// held granules or balls and was shown to nobody.
func (b *Book) metal() *line {
	answered := map[string]bool{}
	for i := len(b.lines) - 1; i >= 0; i-- {
		f, ok := b.lines[i].body.(*Facts)
		if !ok || f.Kind != &screen || !b.lines[i].used() {
			continue
		}
		answered[f.text("answers")] = true
		c := f.get("count")
		if !answered[b.lines[i].key.String()] && f.text("answer") == "" &&
			(f.text("asked") != "" || atoi(c.cell("granule"))+atoi(c.cell("ball")) > 0) {
			return b.lines[i]
		}
	}
	return nil
}

// interrupted is the newest walk or job that was interrupted and neither taken up again nor
// finished.
func (b *Book) interrupted() *line {
	gone := map[string]bool{}
	for i := len(b.lines) - 1; i >= 0; i-- {
		f, ok := b.lines[i].body.(*Facts)
		if !ok || f.Kind != &inspection && f.Kind != &job || !b.lines[i].used() {
			continue
		}
		run, act := f.text("run"), f.text("act")
		if act == "interrupted" && !gone[run] {
			return b.lines[i]
		}
		gone[run] = true
	}
	return nil
}

// suspect reports that the line written last cannot be used or does not fit.
func (f findings) suspect() bool {
	return f.newest != nil && !f.newest.parked && (f.newest.Left != oil.Used || f.newest.Verdict == oil.ReadingSuspect)
}

// hints are the questions to ask about a reading that does not fit.
func (b *Book) hints(a *answered) (asks []string) {
	for _, h := range a.Fit.Why {
		asks = append(asks, oil.Ask(h, b.engine.oilUnit()))
	}
	return asks
}

// writtenAbout is what was noted within three hours of a step: a stiff
// pull-through or a wet plug belongs beside it.
func (b *Book) writtenAbout(h oil.Hours) (notes []string) {
	for _, l := range b.lines {
		if !l.onMeter || !l.used() {
			continue
		}
		text := ""
		switch v := l.body.(type) {
		case *Note:
			text = v.Text
		case *Oil:
			text = v.Note
		case *Drain:
			text = v.Note
		}
		at := b.hoursSince(l.total)
		if text != "" && at >= h-3 && at <= h+3 {
			notes = append(notes, "Written at "+hoursWords(at)+": "+sentence(text))
		}
	}
	return notes
}
