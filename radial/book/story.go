package book

import (
	"linkrod/radial/due"
	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// A cylinder is a thing of its own: it has a serial number, hours, and a past on other
// engines. A position of the ring is where it is now.

// onPosition is the cylinder in a position.
type onPosition struct {
	serial string
	since  *line             // fitted here; nil: it was there when the book began
	hours  quantity.Measured // its own, as far as they are known
	whole  bool              // they are all it has
}

// spell is one stay of a cylinder on this engine.
type spell struct {
	cyl     int
	serial  string
	on, off *line // nil: before the book, or still there
}

// spells are the stays in one position, the oldest first.
func (b *Book) spells(k int) (all []spell) {
	now := spell{cyl: k}
	for _, l := range b.lines {
		f, ok := l.body.(*Facts)
		if !ok || !l.used() || f.text("cyl") != itoa(k) {
			continue
		}
		switch f.Kind {
		case &fitted:
			if now.off == nil && (now.on != nil || len(all) == 0) {
				now.off = l // nobody wrote that the one before came off
				all = append(all, now)
			}
			now = spell{cyl: k, serial: f.text("serial"), on: l}
		case &removed:
			if now.serial == "" {
				now.serial = f.text("serial")
			}
			now.off = l
			all = append(all, now)
			now = spell{cyl: k}
		}
	}
	if now.on != nil || len(all) == 0 {
		all = append(all, now)
	}
	return all
}

// onCylinder is the cylinder in a position and its hours:
//
//	before it was fitted + what the engine ran since
//
// One that was there when the book began has the engine's hours since its overhaul only if
// somebody wrote so; here they are at least what the book saw.
func (b *Book) onCylinder(k int) onPosition {
	all := b.spells(k)
	s := all[len(all)-1]
	if s.off != nil {
		return onPosition{} // nothing is in that position
	}
	p := onPosition{serial: s.serial, since: s.on}
	top := b.top()
	if top == nil {
		return p
	}
	var before quantity.Measured
	run := due.Spell{Off: hoursOf(top.total)}
	switch {
	case s.on != nil:
		before = s.on.body.(*Facts).get("past").M
		if s.on.onMeter {
			run.On = hoursOf(s.on.total)
		}
		if s.on.body.(*Facts).text("state") == "new" && !before.Given() {
			before = quantity.Of("0", quantity.UnitH)
		}
	default:
		if o := b.renewed(); o != nil { // an overhaul on record is not a past on record: new cylinders are fitted
			run.On = hoursOf(o.total)
		} else if first := b.firstOnMeter(); first != nil {
			run.On = hoursOf(first.total)
		}
	}
	h, err := due.Worked(before, []due.Spell{run})
	if err == nil {
		p.hours, p.whole = h.AtLeast, h.Whole
	}
	return p
}

func hoursOf(d quantity.Decimal) quantity.Measured {
	return quantity.Measured{Value: d, Unit: quantity.UnitH}
}

// firstOnMeter is the line with the fewest hours.
func (b *Book) firstOnMeter() (first *line) {
	for _, l := range b.lines {
		if l.onMeter && l.behind == nil && (first == nil || l.total.Compare(first.total) < 0) {
			first = l
		}
	}
	return first
}

// renewed is the last overhaul or ring job on record, nil for none.
func (b *Book) renewed() *line {
	for i := len(b.lines) - 1; i >= 0; i-- {
		if f, ok := b.lines[i].body.(*Facts); ok && b.lines[i].used() && f.Kind == &overhaul && b.lines[i].onMeter {
			return b.lines[i]
		}
	}
	return nil
}

// openFindings are the findings nobody closed, the gravest first.
func (b *Book) openFindings() (open []*line) {
	closed := map[string]bool{}
	for _, l := range b.lines {
		if f, ok := l.body.(*Facts); ok && l.used() && f.Kind == &finding {
			closed[f.text("closes")] = true
		}
	}
	for _, grave := range []string{"stop", "before", "watch", "note"} {
		for _, l := range b.lines {
			f, ok := l.body.(*Facts)
			if ok && l.used() && f.Kind == &finding && f.text("grave") == grave && f.text("closes") == "" && !closed[l.key.String()] {
				open = append(open, l)
			}
		}
	}
	return open
}

// saysOf is what an entry says of one cylinder, "" when it says nothing of it.
func (b *Book) saysOf(l *line, k int) string {
	f, ok := l.body.(*Facts)
	if !ok || l.err != nil {
		return ""
	}
	if f.text("cyl") == itoa(k) || f.text("stop_cyl") == itoa(k) || f.text("cht_cyl") == itoa(k) {
		return f.Say()
	}
	said := ""
	for i := range f.Kind.Boxes {
		x := &f.Kind.Boxes[i]
		for _, c := range f.Boxes[i].At {
			if x.Per.cylinder(c.At) != k {
				continue
			}
			if said != "" {
				said += ", "
			}
			said += small(x.Label)
			if x.Per != PerCylinder {
				said += PerValve.said(c.At)[len("cylinder 1"):]
			}
			said += " " + x.value(c.V)
			if u := f.Boxes[i].Unit; u != "" {
				said += " " + u.Symbol()
			}
		}
	}
	if said == "" {
		return ""
	}
	return f.Kind.Title + ": " + said
}

// WriteCylinder writes the story of a position:
//
//	{"cyl","serial","hours","words","low","mirror","mirrorWords","trends":[…],
//	 "stays":[{"serial","engine","from","to"}],"lines":[{"key","day","hours","words","chip","chipWord","struck"}]}
//
// others are the other books on the phone: a cylinder's past is where its serial number was.
func (b *Book) WriteCylinder(w *plain.Writer, k int, now Now, others []*Book) {
	on := b.onCylinder(k)
	n := b.engine.cylinders
	w.Begin('{')
	w.Int("cyl", int64(k))
	w.Text("serial", on.serial)
	value, words := "–", "Not known. Unknown hours stay unknown; nothing is added to them."
	if on.hours.Given() {
		words = due.Hours{AtLeast: on.hours, Whole: on.whole}.Words()
		if on.whole {
			value = short(on.hours)
		}
	}
	w.Text("hours", value)
	w.Text("words", words)
	w.Bool("low", hangsLow(k, n))
	m := mirror(k, b.engine.master, n)
	if m == k {
		m = 0
	}
	w.Int("mirror", int64(m))
	w.Text("mirrorWords", b.mirrorWords(k, m))
	w.Open("trends", '[')
	for _, t := range b.trends() {
		if t.Cyl == k {
			w.Text("", t.Words)
		}
	}
	w.End(']')
	w.Open("stays", '[')
	for _, s := range b.spells(k) {
		b.writeStay(w, s)
	}
	for _, o := range others {
		for i := 1; i <= o.engine.cylinders && on.serial != "" && o.demo == b.demo; i++ {
			for _, s := range o.spells(i) {
				if s.serial == on.serial {
					o.writeStay(w, s)
				}
			}
		}
	}
	w.End(']')
	w.Open("lines", '[')
	order := b.logOrder()
	for i := len(order) - 1; i >= 0; i-- {
		if said := b.saysOf(order[i], k); said != "" {
			l := b.logLine(order[i])
			w.Begin('{')
			w.Text("key", l.Key)
			w.Text("day", l.Day)
			w.Text("hours", l.Hours)
			w.Text("words", said)
			chip, word := b.verdictOn(order[i], k)
			putChip(w, "chip", chip)
			w.Text("chipWord", word)
			w.Text("struck", l.Struck)
			w.End('}')
		}
	}
	w.End(']')
	w.End('}')
}

// verdictOn is the gravest verdict of an entry on one cylinder.
func (b *Book) verdictOn(l *line, k int) (*Chip, string) {
	f := l.body.(*Facts)
	var mine []Judged
	for _, j := range b.judgeAll(f) {
		if j.At == "" || f.text("cyl") == itoa(k) || f.Kind.Boxes[max(0, f.Kind.box(j.Box))].Per.cylinder(j.At) == k {
			mine = append(mine, j)
		}
	}
	if worst := gravest(mine); worst != nil {
		return &worst.Chip, worst.Word
	}
	return nil, ""
}

func (b *Book) writeStay(w *plain.Writer, s spell) {
	at := func(l *line, none string) string {
		if l == nil {
			return none
		}
		words := atHours(l)
		if d := stampOf(l).Day; d != "" {
			words = longDay(d) + ", " + words
		}
		return words
	}
	w.Begin('{')
	w.Text("serial", orNot(s.serial, "not known"))
	w.Text("engine", b.name())
	w.Int("cyl", int64(s.cyl))
	w.Text("from", at(s.on, "before this book"))
	w.Text("to", at(s.off, "still there"))
	w.End('}')
}

// mirrorWords compares with the mirror cylinder, where that is the right one: top heights. A
// link rod's top stands otherwise from cylinder to cylinder, so an average says nothing.
func (b *Book) mirrorWords(k, m int) string {
	f := (*Facts)(nil)
	for i := len(b.lines) - 1; i >= 0 && f == nil; i-- {
		if o, ok := b.lines[i].body.(*Facts); ok && b.lines[i].used() && o.get("tops").given() {
			f = o
		}
	}
	if f == nil || m == 0 {
		return ""
	}
	v := f.get("tops")
	mine, its := v.measured(itoa(k)), v.measured(itoa(m))
	if !mine.Given() || !its.Given() {
		return ""
	}
	d, err := mine.Value.Sub(its.Value)
	if err != nil {
		return ""
	}
	way := " above"
	if d.Sign() < 0 {
		way = " below"
	}
	return "Its top stands " + short(quantity.Measured{Value: d.Abs(), Unit: v.Unit}) + way + " that of its mirror, " + itoa(m) + "."
}
