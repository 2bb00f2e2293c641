package book

import "linkrod/radial/oil"

// Row is one reading in the table that says what the plot draws.
type Row struct {
	Key   string
	Cells []string
	Sum   *Sum
}

// table is the readings as rows, in the order of reading.
func (b *Book) table() (head []string, rows []Row) {
	unit := b.engine.unit.Symbol()
	head = []string{capital(b.hoursMean()), "Meter", "Day", "Level before, " + unit, "Added, " + unit,
		"Since the last, " + unit + "/h", "Rate then, " + unit + "/h", "Band", "Said"}
	rows = []Row{}
	for i := b.answers.shownFrom(); i < len(b.answers.all); i++ {
		a := &b.answers.all[i]
		added, raw, rate, band := "–", "–", "–", "–"
		if a.reading.Added > 0 {
			added = figure(b.engine.shown(a.reading.Added), 2)
		}
		said := oilWord(a.Answer)
		if a.parked {
			said = "After standing"
		} else if a.Raw.OK {
			raw = figure2(b.engine.shown(oil.Quarts(a.Raw.V.Rate)))
		}
		if !a.parked && a.Left == oil.Used && a.Shows == oil.ShowsNow {
			rate = figure2(b.engine.shown(oil.Quarts(a.Now.Rate)))
			band = figure2(b.engine.shown(oil.Quarts(a.Now.Lo))) + " to " + figure2(b.engine.shown(oil.Quarts(a.Now.Hi)))
		}
		meter := "–"
		if t, ok := a.line.body.(timed); ok {
			meter = t.at().Value.Show()
		}
		day := "–"
		if d := stampOf(a.line).Day; d != "" {
			day = longDay(d)
		}
		rows = append(rows, Row{a.line.key.String(), []string{figure(float64(a.Hours), 2), meter, day,
			figure(b.engine.shown(a.reading.Level), 2), added, raw, rate, band, said}, b.readingSum(a)})
	}
	return head, rows
}

// readingSum is what one reading led to, in lines to copy.
func (b *Book) readingSum(a *answered) *Sum {
	if a.parked {
		return nil
	}
	u := b.engine.oilUnit()
	s := Sum{Title: "At " + hoursWords(a.Hours)}
	if a.Raw.OK {
		r := a.Raw.V
		s.Lines = append(s.Lines, "Since the last reading: "+figure(b.engine.shown(oil.Quarts(r.Rate)*oil.Quarts(r.To-r.From)), 2)+" "+
			u.Symbol+" in "+hoursWords(r.To-r.From)+" = "+figure2(b.engine.shown(oil.Quarts(r.Rate)))+" "+u.Symbol+"/h. Noise, never judged.")
	}
	s.Lines = append(s.Lines, oil.Maths(a.Answer, u)...)
	if len(s.Lines) == 0 {
		return nil
	}
	return &s
}
