package book

import (
	"sort"
	"strings"

	"linkrod/radial/civil"
	"linkrod/radial/due"
	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// DueItem is one thing that is to be done, and how it stands.
type DueItem struct {
	Key    string // of the entry it comes from, "" for one of a card
	Title  string
	Words  string // "Late: 0.3 h past due at 1888.2 h."
	State  due.State
	Chip   Chip
	Why    string // where the interval is from
	Source *SourceLine
	Go     string
	order  float64 // within a state: what is left, the least first
}

// dues is everything that is due some time: what is late first, by how much; then what is due
// now, what comes, and what can't be judged.
//
//   - hold-down, after a cylinder was fitted or the engine overhauled, at the hours of the
//     torque card or of the entry itself;
//   - findings, screens, storage and directives, at what their entry says;
//   - items of the check card, each so long after it was last done.
func (b *Book) dues(now Now) []DueItem {
	d := &dueing{b: b, top: b.top()}
	d.today, _ = civil.Parse(b.today(now).Day)
	d.holdDown()
	d.fromEntries()
	d.fromCard()
	sort.SliceStable(d.all, func(i, j int) bool {
		a, c := d.all[i], d.all[j]
		if a.State != c.State {
			return rankDue(a.State) < rankDue(c.State)
		}
		return a.order < c.order
	})
	return d.all
}

func rankDue(s due.State) int {
	return map[due.State]int{due.Late: 0, due.Now: 1, due.Ahead: 2, due.CantJudge: 3}[s]
}

type dueing struct {
	b     *Book
	top   *line
	today civil.Day
	all   []DueItem
}

// at is a line's place on the two lines; its hours are the total over all meters.
func (d *dueing) at(l *line) due.At {
	a := due.At{}
	if l == nil {
		return a
	}
	a.Day, _ = civil.Parse(stampOf(l).Day)
	if l.onMeter {
		a.Hours = hoursOf(l.total)
	}
	return a
}

// shown is two places in the hours of the meter that is fitted now. Where one of them would
// lie below its nought, both stay total hours, and in says so: they are compared all the same.
func (d *dueing) shown(done, now *due.At) (in string) {
	shift := d.b.hours.shift[len(d.b.hours.shift)-1]
	if !done.Hours.Given() || shift.Sign() == 0 {
		return ""
	}
	a, e1 := done.Hours.Value.Sub(shift)
	c, e2 := now.Hours.Value.Sub(shift)
	if e1 != nil || e2 != nil || a.Sign() < 0 || c.Sign() < 0 {
		return " These are hours over all its meters."
	}
	done.Hours, now.Hours = hoursOf(a), hoursOf(c)
	return ""
}

// now is where the engine is.
func (d *dueing) now() due.At {
	a := d.at(d.top)
	a.Day = d.today
	return a
}

// add judges one item. done is when it was last done, or when what it comes from happened.
func (d *dueing) add(item DueItem, iv due.Interval, done due.At) {
	n := d.now()
	in := d.shown(&done, &n)
	next, err := iv.Next(done)
	var s due.Standing
	if err == nil {
		s, err = next.Judge(n)
	}
	if err != nil {
		item.State, item.Words = due.CantJudge, err.Error()
	} else {
		item.State, item.Words = s.State, s.Words()+in
		item.order = s.Hours.Left.Value.Float64()
		if s.Calendar.State == s.State && s.Hours.State != s.State {
			item.order = float64(s.Calendar.Left)
		}
	}
	item.Chip = map[due.State]Chip{due.Late: Outside, due.Now: AtEdge, due.Ahead: Inside}[item.State]
	if item.State == due.CantJudge {
		item.Chip = Cant
	}
	d.all = append(d.all, item)
}

// mark is an interval that ends at a mark after an event.
func mark(from, to quantity.Measured) due.Interval {
	every, err := quantity.Add(to, quantity.Measured{Value: from.Value.Neg(), Unit: from.Unit})
	if err != nil || every.Value.Sign() <= 0 {
		return due.Interval{}
	}
	return due.Interval{Hours: due.ByHours{Every: every}}
}

// retorques are the hours after an event at which the hold-down is looked at again: the entry's
// own words first, else the torque card's. first is the first run.
func (b *Book) retorques(f *Facts) (first bool, hours []quantity.Decimal, src *SourceLine, from string) {
	words := strings.Split(f.text("again"), ",")
	from = "Written with the work"
	if f.text("again") == "" {
		joint, ok := b.sheet("torque", "barrels").item("joints", "hold_down")
		if !ok {
			return false, nil, nil, ""
		}
		words, src, from = nil, joint.src, "From the torque card"
		for _, v := range joint.item.Get("retorque").Get("list").Items() {
			words = append(words, v.Text())
		}
	}
	for _, w := range words {
		w = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(w), "h"))
		if h, err := quantity.ParseDecimal(w); err == nil && h.Sign() > 0 {
			hours = append(hours, h)
		} else if w != "" {
			first = true
		}
	}
	return first, hours, src, from
}

// holdDown is the next look at the hold-down for each cylinder that was fitted, and for the
// engine after an overhaul.
func (d *dueing) holdDown() {
	for _, l := range d.b.lines {
		f, ok := l.body.(*Facts)
		if !ok || !l.used() || !l.onMeter || f.Kind != &fitted && renews(f) == "" {
			continue
		}
		cyl, title := f.text("cyl"), "Look at the hold-down again"
		if cyl != "" {
			title += ", cylinder " + cyl
			if all := d.b.spells(atoi(cyl)); all[len(all)-1].on != l {
				continue
			}
		}
		first, hours, src, from := d.b.retorques(f)
		item := DueItem{Key: l.key.String(), Title: title, Why: from, Source: src, Go: "torque"}
		done := d.b.looksAgain(l, cyl)
		if first && len(done) == 0 && d.top.total.Compare(l.total) > 0 {
			// It has run since: the look after the first run is due at once.
			item.Words, item.State, item.Chip = "Due after the first run, which was flown.", due.Now, AtEdge
			if len(hours) == 0 || !passed(d.top.total, l.total, hours[0]) {
				d.all = append(d.all, item)
				continue
			}
		}
		for _, h := range hours {
			if met(l, done, h) {
				continue
			}
			from := d.at(l)
			to, err := quantity.Add(from.Hours, hoursOf(h))
			if err == nil {
				d.add(item, mark(from.Hours, to), due.At{Hours: from.Hours})
			}
			break
		}
	}
}

// passed reports that a mark so many hours after an event lies behind.
func passed(now, event, after quantity.Decimal) bool {
	at, err := event.Add(after)
	return err == nil && now.Compare(at) >= 0
}

// looksAgain are the looks at the hold-down after an event, in book order.
func (b *Book) looksAgain(event *line, cyl string) (all []*line) {
	for _, l := range b.lines {
		f, ok := l.body.(*Facts)
		if ok && l.used() && l.onMeter && f.Kind == &torqueDone && f.text("joint") == "hold_down" && f.text("again") == "yes" &&
			(f.text("cyl") == "" || f.text("cyl") == cyl) && l.total.Compare(event.total) > 0 {
			all = append(all, l)
		}
	}
	return all
}

// met reports that a look was taken at the mark or after it.
func met(event *line, looks []*line, after quantity.Decimal) bool {
	for _, l := range looks {
		if passed(l.total, event.total, after) {
			return true
		}
	}
	return false
}

// lateLook says by how much a look at the hold-down came late, "" when it did not.
func (b *Book) lateLook(l *line) string {
	f := l.body.(*Facts)
	if f.Kind != &torqueDone || f.text("joint") != "hold_down" || f.text("again") != "yes" || !l.onMeter {
		return ""
	}
	for i := len(b.lines) - 1; i >= 0; i-- {
		e := b.lines[i]
		g, ok := e.body.(*Facts)
		if !ok || !e.used() || !e.onMeter || e.total.Compare(l.total) >= 0 || g.Kind != &fitted && renews(g) == "" || g.text("cyl") != "" && f.text("cyl") != "" && g.text("cyl") != f.text("cyl") {
			continue
		}
		_, hours, _, _ := b.retorques(g)
		var before []*line
		for _, m := range b.looksAgain(e, g.text("cyl")) {
			if m != l && m.total.Compare(l.total) < 0 {
				before = append(before, m)
			}
		}
		late := ""
		for _, h := range hours { // the last mark that lies behind it is the one it was for
			if met(e, before, h) || !passed(l.total, e.total, h) {
				continue
			}
			late = ""
			at, _ := e.total.Add(h)
			if by, err := l.total.Sub(at); err == nil && by.Sign() > 0 {
				late = by.Show() + " h late"
			}
		}
		return late
	}
	return ""
}

// fromEntries is what entries say themselves about when somebody looks again.
func (d *dueing) fromEntries() {
	b := d.b
	for _, l := range b.openFindings() {
		f := l.body.(*Facts)
		item := DueItem{Key: l.key.String(), Title: "Look again: " + f.text("words"), Why: "From the finding", Go: "log:" + l.key.String()}
		d.marks(item, l, f.get("look_hours").M, f.text("look_day"))
	}
	var stored *line
	latest := map[string]*line{}
	for _, l := range b.lines {
		f, ok := l.body.(*Facts)
		if !ok || !l.used() {
			continue
		}
		switch f.Kind {
		case &storage:
			if stored = l; f.text("act") == "ended" {
				stored = nil
			}
		case &directive:
			latest[f.text("number")] = l
		case &screen:
			d.screenAgain(l, f)
		}
	}
	if stored != nil {
		f := stored.body.(*Facts)
		d.marks(DueItem{Key: stored.key.String(), Title: "Look at the stored engine", Why: f.text("regime"), Go: "storage"}, stored, quantity.Measured{}, f.text("next"))
	}
	for _, l := range b.lines {
		f, ok := l.body.(*Facts)
		if !ok || f.Kind != &directive || latest[f.text("number")] != l || f.text("applies") == "no" {
			continue
		}
		item := DueItem{Key: l.key.String(), Title: f.text("number") + ", " + f.text("words"), Why: "Entered by " + orNot(f.By, "somebody"), Go: "log:" + l.key.String()}
		if f.get("next_h").given() || f.text("next_d") != "" {
			d.marks(item, l, f.get("next_h").M, f.text("next_d"))
			continue
		}
		iv := due.Interval{Hours: due.ByHours{Every: f.get("every_h").M}}
		if m := atoi(f.text("every_m")); m > 0 {
			iv.Calendar = due.ByCalendar{Every: m, Period: due.Months}
		}
		if f.get("every_h").given() || iv.Calendar.Every > 0 {
			d.add(item, iv, d.at(l))
		}
	}
}

// marks adds an item that is due at hours of the meter that its line was read off, on a day,
// or whichever comes first.
func (d *dueing) marks(item DueItem, l *line, h quantity.Measured, day string) {
	from, iv := d.at(l), due.Interval{}
	if read, err := h.Exactly(quantity.UnitH); err == nil && h.Given() && from.Hours.Given() {
		if total, ok := d.b.onLine(read, l.era); ok {
			iv = mark(from.Hours, hoursOf(total))
		}
	}
	if to, err := civil.Parse(day); err == nil && from.Day.Known() && to > from.Day {
		iv.Calendar = due.ByCalendar{Every: int(to - from.Day), Period: due.Days}
	}
	if iv != (due.Interval{}) {
		d.add(item, iv, from)
	}
}

// screenAgain is a screen that is to be looked at again, until one was.
func (d *dueing) screenAgain(l *line, f *Facts) {
	again := f.get("look_hours").M
	if !again.Given() || !l.onMeter {
		return
	}
	for _, o := range d.b.lines {
		if g, ok := o.body.(*Facts); ok && o.used() && o.onMeter && g.Kind == &screen && o.total.Compare(l.total) > 0 {
			return
		}
	}
	d.add(DueItem{Key: l.key.String(), Title: "Look at the screens again", Why: "Written with the last look", Go: "screen"},
		due.Interval{Hours: due.ByHours{Every: again}}, due.At{Hours: d.at(l).Hours})
}

// fromCard is the check card's items, each from when it was last done.
func (d *dueing) fromCard() {
	for i := range d.b.sheets {
		if s := &d.b.sheets[i]; s.kind == "check" && s.found == "one" {
			d.checks(s)
		}
	}
}

func (d *dueing) checks(s *sheet) {
	for _, g := range s.body.Get("groups").Items() {
		for _, it := range g.Get("items").Items() {
			iv := everyOf(it.Get("every"))
			if iv == (due.Interval{}) {
				continue
			}
			id := it.Get("id").Text()
			last := d.b.lastDone(id)
			item := DueItem{Title: it.Get("words").Text(), Why: "From the check card", Source: s.source(it), Go: "walk"}
			if last == nil {
				last = d.b.renewed() // nothing of it is older than the overhaul
			}
			if last == nil {
				d.all = append(d.all, DueItem{Title: item.Title, Words: "It can’t be judged: when it was last done is not written.", State: due.CantJudge, Chip: Cant, Why: item.Why, Source: item.Source, Go: item.Go})
				continue
			}
			d.add(item, iv, d.at(last))
		}
	}
}

// everyOf reads an interval of a card: ["25 h", "4 months", "annual"].
func everyOf(v plain.Value) (iv due.Interval) {
	for _, e := range v.Items() {
		n, unit, _ := strings.Cut(e.Text(), " ")
		switch {
		case e.Text() == "annual":
			iv.Calendar = due.ByCalendar{Every: 12, Period: due.CalendarMonths}
		case unit == "h":
			if h, err := quantity.ParseDecimal(n); err == nil {
				iv.Hours = due.ByHours{Every: hoursOf(h)}
			}
		case strings.HasPrefix(unit, "month"):
			iv.Calendar = due.ByCalendar{Every: atoi(n), Period: due.Months}
		case strings.HasPrefix(unit, "day"):
			iv.Calendar = due.ByCalendar{Every: atoi(n), Period: due.Days}
		}
	}
	return iv
}

// lastDone is the last entry that did an item of a check card: the item itself on a walk, or
// the entry of the same work. Which kinds of entry do which items goes by the words in its id.
func (b *Book) lastDone(id string) *line {
	for i := len(b.lines) - 1; i >= 0; i-- {
		l := b.lines[i]
		if !l.used() {
			continue
		}
		switch f := l.body.(type) {
		case *Drain:
			if strings.HasPrefix(id, "oil-drain") || strings.HasPrefix(id, "oil-change") {
				return l
			}
		case *Facts:
			if f.Kind == &inspection && f.text("item") == id && f.text("result") != "not" {
				return l
			}
			for _, w := range [...]struct {
				word string
				kind *Kind
			}{{"screen", &screen}, {"grease", &grease}, {"plug", &plugs}, {"compression", &compressionSet}, {"clearance", &clearances}, {"hold", &torqueDone}, {"point", &points}, {"timing", &timing}} {
				if f.Kind == w.kind && strings.Contains(id, w.word) && (f.Kind != &torqueDone || f.text("joint") == "hold_down") {
					return l
				}
			}
		}
	}
	return nil
}

func (i *DueItem) write(w *plain.Writer) {
	w.Begin('{')
	w.Text("key", i.Key)
	w.Text("title", i.Title)
	w.Text("words", i.Words)
	w.Text("state", map[due.State]string{due.Late: "late", due.Now: "now", due.Ahead: "ahead", due.CantJudge: "cant"}[i.State])
	w.Text("chip", string(i.Chip))
	w.Text("why", i.Why)
	i.Source.write(w, "source")
	w.Text("go", i.Go)
	w.End('}')
}
