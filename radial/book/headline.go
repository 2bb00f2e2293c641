package book

import "linkrod/radial/oil"

// headline is how the engine stands, in three words and a sentence: what
// changed, else how long it has stood, else its hours.
func headline(f findings) (head, sub string) {
	switch {
	case !f.any:
		return "No reading yet", "Write the first level. Two at different hours make the first figure."
	case f.unclear:
	case f.said == oil.StepUp:
		return "Something changed", f.rate.Verdict.Reason
	case f.said == oil.NotSeating:
		return "Not seating", f.rate.Verdict.Reason
	}
	if f.idle {
		return counted(f.days, "day", "days") + " standing", "Last run " + shortDay(f.since, f.today) + ", by its meter. " + f.levels()
	}
	if f.hours == "" {
		return "No reading counts yet", f.rate.Verdict.Reason
	}
	return capital(f.hours), f.levels()
}

// levels is the tank, at the last stop and since.
func (f findings) levels() string {
	switch {
	case f.ok:
		when := "on " + shortDay(stampOf(f.to.line).Day, f.today)
		if stampOf(f.to.line).Day == f.today {
			when = "today"
		}
		return "Tank read " + f.then + " then, " + f.later + " " + when + "."
	case f.level == "":
		return "The level is not known."
	}
	return "Tank at " + f.level + " when last written."
}

// state is the line under the name in the list of engines, with the graver of
// the two verdicts.
func state(f findings, v View) (string, *Chip) {
	if !f.any {
		return v.Headline, nil
	}
	line, chip := v.Headline, f.rate.Verdict.Chip
	if m := f.missing; m != nil {
		line += ". " + m.Words
		if graver(m.Verdict.Chip, chip) {
			chip = m.Verdict.Chip
		}
	}
	return line, &chip
}

// graver orders chips for a list: outside before at the edge before inside; what
// can't be judged says least.
func graver(a, b Chip) bool {
	rank := map[Chip]int{Cant: 0, Inside: 1, AtEdge: 2, Outside: 3, Stopped: 4}
	return rank[a] > rank[b]
}
