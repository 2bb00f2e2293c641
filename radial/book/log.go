package book

import (
	"sort"
	"strings"

	"linkrod/radial/oil"
	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// LogLine is one entry as the log shows it.
type LogLine struct {
	Key         string
	Day         string
	Hours       string
	Words       string
	Kind        string
	Chip        *Chip
	ChipWord    string
	Sent        bool
	By          string
	Struck      string
	Correctable bool
	Fields      []FieldShown
	Device      string
	Clock       string
	Replaces    []string
	Note        string
	Sum         *Sum
}

// FieldShown is one field of an entry, as it was typed.
type FieldShown struct {
	Label string
	Value string
}

// logShown is how much of the log a view carries; Page has the rest.
const logShown = 300

// Filter is which entries of the log are wanted; the zero Filter is all of them.
type Filter struct {
	Kinds []string // types of entry
	Cyl   int      // only what is about this cylinder
	Text  string   // only where the words hold it, whatever the case
}

// Page is a stretch of the log, the newest first, and how many entries there are of the kind
// wanted.
func (b *Book) Page(f Filter, from, count int) (lines []LogLine, total int) {
	order := b.logOrder()
	text := strings.ToLower(f.Text)
	for i := len(order) - 1; i >= 0; i-- {
		l := order[i]
		switch {
		case len(f.Kinds) > 0 && (l.err != nil || !contains(f.Kinds, l.body.Type())),
			f.Cyl > 0 && b.saysOf(l, f.Cyl) == "",
			text != "" && (l.err != nil || !strings.Contains(strings.ToLower(l.body.Say()), text)):
			continue
		}
		if total >= from && total < from+count {
			lines = append(lines, b.logLine(l))
		}
		total++
	}
	return lines, total
}

// LogJSON is a page as the screens get it: {"total","lines":[…]}.
func (b *Book) LogJSON(w *plain.Writer, f Filter, from, count int) {
	lines, total := b.Page(f, from, count)
	w.Begin('{')
	w.Int("total", int64(total))
	w.Open("lines", '[')
	for i := range lines {
		lines[i].write(w, "")
	}
	w.End(']')
	w.End('}')
}

// logOrder is every entry, the oldest first. A reading stands where its hours put
// it, anything else where it was written.
func (b *Book) logOrder() []*line {
	type placed struct {
		at quantity.Decimal
		l  *line
	}
	order := make([]placed, 0, len(b.lines))
	var most quantity.Decimal
	sorted := true
	for _, l := range b.lines {
		p := placed{most, l}
		if l.onMeter && l.behind == nil {
			if l.total.Compare(most) > 0 {
				most = l.total
			}
			p.at = most
			if reading(l.body) {
				p.at = l.total
				sorted = sorted && l.total == most
			}
		}
		order = append(order, p)
	}
	if !sorted {
		sort.SliceStable(order, func(i, j int) bool { return order[i].at.Compare(order[j].at) < 0 })
	}
	lines := make([]*line, len(order))
	for i, p := range order {
		lines[i] = p.l
	}
	return lines
}

func (b *Book) logLine(l *line) LogLine {
	out := LogLine{
		Key: l.key.String(), Sent: l.Seq > 0, By: l.Author, Device: l.key.Device,
		Replaces: []string{}, Fields: []FieldShown{}, Note: b.remark(l),
	}
	if c := l.Entry.Clock; c.Wall != 0 {
		out.Clock = "this phone's clock said " + clockWords(c)
	}
	for _, r := range l.replaces {
		out.Replaces = append(out.Replaces, r.key.String())
	}
	if l.struck != nil {
		out.Struck = l.struck.body.(*Strike).Reason
	}
	if l.err != nil {
		out.Kind, out.Words = "unreadable", "A line that cannot be read"
		out.Fields = append(out.Fields, FieldShown{"As stored", string(l.Entry.Body)})
		out.Correctable = l.struck == nil
		return out
	}
	out.Kind, out.Words = l.body.Type(), l.body.Say()
	out.Day = longDay(stampOf(l).Day)
	if by := stampOf(l).By; by != "" {
		out.By = by
	}
	if s, ok := l.body.(*Strike); ok {
		out.By = s.By
	}
	if t, ok := l.body.(timed); ok && t.at().Given() {
		out.Hours = t.at().Value.Show()
	}
	if _, ok := l.body.(*Setting); !ok {
		out.Correctable = l.strikable() && l.struck == nil
	}
	out.Fields = fieldsOf(l)
	if l.answer >= 0 && !b.answers.all[l.answer].parked {
		a := &b.answers.all[l.answer]
		chip := oilChip(a.Answer)
		out.Chip, out.ChipWord, out.Sum = &chip, oilWord(a.Answer), b.readingSum(a)
		if a.Left != oil.Used {
			out.ChipWord = "Not used"
		}
	}
	if f, ok := l.body.(*Facts); ok && l.used() {
		if worst := gravest(b.judgeAll(f)); worst != nil {
			out.Chip, out.ChipWord = &worst.Chip, worst.Word
			if out.Note == "" && worst.Chip != Inside {
				out.Note = worst.Label + ": " + worst.Reason
			}
			out.Sum = judgedSum(b.judgeAll(f))
		}
		if late := b.lateLook(l); late != "" {
			chip := AtEdge
			out.Chip, out.ChipWord = &chip, late
		}
	}
	return out
}

// judgedSum is every verdict on an entry with the paper of its limit, in lines to copy.
func judgedSum(all []Judged) *Sum {
	s := Sum{Title: "Against the limits on file"}
	for _, j := range all {
		line := j.Label + ": " + j.Word + ". " + j.Reason
		if j.Source != nil {
			line += " " + j.Source.Line + "."
		}
		s.Lines = append(s.Lines, line)
	}
	return &s
}

// remark is what the book has to say about one of its lines.
func (b *Book) remark(l *line) string {
	switch {
	case l.err != nil:
		return l.err.Error()
	case l.answer >= 0 && b.answers.all[l.answer].Left != oil.Used:
		return sentence(oil.Say(b.answers.all[l.answer].Answer, b.engine.oilUnit()))
	case l.answer >= 0 && b.answers.all[l.answer].Verdict == oil.ReadingSuspect && !b.answers.all[l.answer].parked:
		return strings.Join(b.hints(&b.answers.all[l.answer]), " ")
	case l.answer >= 0 && b.answers.all[l.answer].parked:
		return "Read after standing. It tells what left the tank, not what the engine used."
	case late(l.body):
		return "Written later. Its hours place it."
	case len(l.replaced) > 0:
		return "Replaced later."
	}
	for _, t := range b.hours.twice {
		if t == l {
			return "Not used: somebody else had written a meter change already. Strike one of them out."
		}
	}
	if f, ok := l.body.(*Facts); ok {
		if words := b.wrongOrifice(f); words != "" {
			return words
		}
		if words := b.outdated(f.Card); words != "" {
			return words
		}
		if f.Kind == &signature {
			for _, ref := range l.Entry.Refs {
				if t := b.byKey[ref]; t == nil || t.struck != nil || len(t.replaced) > 0 {
					return "What was signed has changed since: a line under it was struck out, replaced, or is not here."
				}
			}
		}
	}
	switch l.body.(type) {
	case Newer:
		return "Kept as it is and not counted. A newer Linkrod can read it."
	}
	return ""
}

// fieldsOf is everything in a line, each value as it was typed. What a reading
// could have said and did not is named too.
func fieldsOf(l *line) []FieldShown {
	fs := fieldList{}
	switch v := l.body.(type) {
	case *Oil:
		fs.add("Meter", short(v.Hours))
		fs.add("Level before", short(v.Level))
		fs.add("Added", orNot(short(v.Added), "nothing"))
		if v.poured() {
			fs.add("How it was measured", orNot(addHowWords[v.AddHow], "not given"))
		}
		fs.conditions(v.Conditions)
		fs.rest(v.Note, v.Stamp, v.Late)
	case *Drain:
		fs.add("Meter", short(v.Hours))
		fs.add("Level before", orNot(short(v.before()), "not read"))
		fs.add("Level after", orNot(short(v.after()), "not read"))
		fs.conditions(v.Conditions)
		fs.rest(v.Note, v.Stamp, v.Late)
	case *StepClosed:
		fs.add("Meter", short(v.Hours))
		fs.rest(v.Found, v.Stamp, false)
	case *MeterChange:
		fs.add("Old meter, last", short(v.Out))
		fs.add("New meter, first", short(v.In))
		fs.rest("", v.Stamp, false)
	case *Facts:
		fs.facts(v)
	case *Note:
		fs.add("Meter", orNot(short(v.Hours), "not given"))
		fs.rest(v.Text, v.Stamp, false)
	case *Looked:
		for _, x := range v.Seen {
			fs.add(capital(orNot(x.Name, x.Feature)), orNot(list(x.Values, "and"), "can’t be seen"))
		}
		fs.rest(v.Statement, v.Stamp, false)
	case *Deviation:
		fs.add("Part", v.Part)
		fs.add("Found", v.Found)
		fs.add("The "+orNot(v.Of, "model")+" has", orNot(v.Wants, "not given"))
		fs.add("Approval", orNot(v.Approval, "none seen"))
		fs.add("Sheets that govern it", orNot(v.Governs, "not decided"))
		fs.add("Decided by", orNot(v.Decided, "nobody yet"))
		fs.rest(v.Reason, v.Stamp, false)
	case *Setting:
		if f, ok := fieldOf(v.Field); ok {
			fs.add(f.label, f.say(v.is))
		} else {
			fs.add(v.Field, string(v.Value))
		}
		if p := v.is.Source; p != nil {
			fs.add("Source", p.line())
			fs.add("Typed by", p.TypedBy)
			fs.add("Checked by", orNot(p.CheckedBy, "not checked yet"))
		}
		fs.rest(v.Reason, Stamp{Day: v.Day, By: v.By}, false)
	case *Strike:
		fs.add("Reason", v.Reason)
		fs.add("By", orNot(v.By, "not given"))
	case Newer:
		fs.add("As stored", string(l.Entry.Body))
	}
	return fs
}

type fieldList []FieldShown

// facts is an entry of a kind of the table, box by box.
func (fs *fieldList) facts(f *Facts) {
	if f.Hours.Given() || f.Kind.Hours == Needed {
		fs.add("Meter", orNot(short(f.Hours), "not given"))
	}
	for i := range f.Kind.Boxes {
		x, v := &f.Kind.Boxes[i], &f.Boxes[i]
		switch {
		case len(v.At) > 0:
			for _, c := range v.At {
				said := x.value(c.V)
				if v.Unit != "" {
					said += " " + v.Unit.Symbol()
				}
				fs.add(x.Label+", "+x.Per.said(c.At), said)
			}
		case v.M.Given():
			fs.add(x.Label, short(v.M))
		case v.given():
			fs.add(x.Label, x.said(v))
		}
	}
	if f.Tool != "" {
		fs.add("Tool", f.Tool)
	}
	if c := f.Card; c != nil {
		fs.add("Judged by", c.Card+", version "+itoa(c.Version)+", of "+c.Shelf)
	}
	fs.rest(f.Note, f.Stamp, f.Late)
}

func (fs *fieldList) add(label, value string) { *fs = append(*fs, FieldShown{label, value}) }

func (fs *fieldList) conditions(c Conditions) {
	fs.add("After stop", orNot(short(c.Minutes), "not given"))
	fs.add("Oil temperature", orNot(short(c.Temp), "not given"))
	fs.add("Standing", orNot(standsWords[c.Stands], "not given"))
	fs.add("Sump scavenged", orNot(c.Scavenged, "not given"))
	fs.add("Foam", orNot(c.Foam, "not given"))
}

func (fs *fieldList) rest(note string, s Stamp, late bool) {
	if note != "" {
		fs.add("Note", note)
	}
	if late {
		fs.add("Late", "written later, placed by its hours")
	}
	fs.add("Day", orNot(longDay(s.Day), "not given"))
	if s.Clock != "" {
		fs.add("Time", s.Clock)
	}
	fs.add("By", orNot(s.By, "not given"))
}

func orNot(s, not string) string {
	if s == "" {
		return not
	}
	return s
}
