package sums

import (
	"linkrod/radial/due"
	"linkrod/radial/quantity"
)

var nextDue = sum{
	id: "next-due", title: "Next due", drawing: "due", first: true,
	what: "When something is due again by hours, by the calendar, or by whichever comes first.",
	fields: []field{
		{name: "every", label: "Every so many hours", units: times, usual: span{1, 2500}, without: "Interval in hours not given: not due by hours."},
		{name: "done", is: "done hours", label: "Done at", units: times, with: "every", without: "Hours when it was done not known. Unknown is not nought."},
		{name: "now", is: "present hours", label: "Hours now", units: times, with: "every", without: "Hours now not given."},
		{name: "overrun", label: "Overrun its card allows", units: times, with: "every", without: "No overrun in hours given: none."},
		{name: "months", is: "every", label: "Every so many days or months", kind: count, without: "Interval on the calendar not given: not due by the calendar."},
		{name: "period", label: "Counted in", kind: option, with: "months", choices: []choice{{"days", "Days"}, {"months", "Months"}, {"calendar", "Calendar months, to the end of the month"}}},
		{name: "day", is: "done day", label: "Done on", kind: date, with: "months", without: "Day it was done not known. Unknown is not nought."},
		{name: "today", is: "present day", label: "Today", kind: date, with: "months", without: "Today not typed: this phone's day is taken."},
		{name: "overdays", is: "overrun", label: "Days over its card allows", kind: count, with: "months", without: "No overrun in days given: none."},
		{name: "carry", label: "An overrun", kind: option, choices: []choice{{"taken", "Is taken off the next"}, {"not", "Is not"}}, without: "What becomes of an overrun not given: nothing is taken off the next."},
		{name: "wasdue", is: "due hours", label: "It had been due at", units: times, with: "carry", without: "Hours it had been due at not given."},
		{name: "wasday", is: "due day", label: "It had been due on", kind: date, with: "carry", without: "Day it had been due on not given."},
	},
	source:   "next = done + every; with the overrun taken off, the earlier of due and done, + every: 14 CFR 91.409(a) and (b). Months clamped to the end of a shorter one: common practice, no source.",
	cautions: []string{"Whether something may be put off is for its maker, the rules and the person who signs.", "The interval was typed here; no document is on file for it."},
	work: func(p *Page) error {
		carry := p.chosen("carry") == "taken"
		iv := due.Interval{}
		if p.has("every") {
			iv.Hours = due.ByHours{Every: p.of("every"), Overrun: p.of("overrun"), Carry: carry}
		}
		if p.has("months") {
			period := map[string]due.Period{"days": due.Days, "months": due.Months, "calendar": due.CalendarMonths}[p.chosen("period")]
			iv.Calendar = due.ByCalendar{Every: p.count("months"), Period: period, Overrun: p.count("overdays"), Carry: carry}
		}
		next, err := iv.NextAfter(due.At{Hours: p.of("wasdue"), Day: p.day("wasday")}, due.At{Hours: p.of("done"), Day: p.day("day")})
		if err != nil {
			return err
		}
		today := p.day("today")
		if !p.has("today") {
			today = p.in.Today
		}
		s, err := next.Judge(due.At{Hours: p.of("now"), Day: today})
		if err != nil {
			return err
		}
		chip := []verdict{cantJudge, inside, cantJudge, atEdge, outside}[s.State] // in the order of due's states
		p.say(answer{label: "It is", figure: []string{"", "ahead", "not known", "due", "late"}[s.State], words: s.Words(), verdict: chip})
		if next.Hours.Given() {
			p.exact("Due at", next.Hours)
			p.line("by hours: " + p.of("done").Show() + " + " + p.of("every").Show() + " = {=}")
			p.drawHours("due", next.Hours)
			p.drawHours("done", p.of("done"))
			p.drawHours("now", p.of("now"))
		}
		if s.Hours.Left.Given() {
			p.exact("Hours left", s.Hours.Left)
		}
		if next.Day.Known() {
			p.tell("Due on", next.Day.Long(), next.Day.Long())
			p.line("by the calendar: " + p.day("day").Long() + " + {months} = {=}")
			if today.Known() {
				p.bare("Days left on "+today.Long(), float64(s.Calendar.Left), 0, "days")
				p.draw("daysLeft", float64(s.Calendar.Left))
				p.draw("daysAll", float64(next.Day-p.day("day")))
			}
		}
		if len(p.lines) == 0 {
			p.line("nothing to add to: when it was last done is not known")
		}
		return nil
	},
}

func (p *Page) drawHours(name string, m quantity.Measured) {
	if h, err := m.Hours(); err == nil {
		p.draw(name, h.Hours())
	}
}
