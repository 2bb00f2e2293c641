package book

import (
	"sort"

	"linkrod/radial/quantity"
)

// Book is what the entries about one engine add up to. It is made anew from
// all entries; the same entries in any order of arrival make the same book.
type Book struct {
	lines []*line // in book order, see inOrder
	byKey map[Key]*line
	demo  bool
	told  Now // the day a demo engine is told on

	heads   map[string][]*line // of each setting, see heads.go
	engine  engine             // the settings as the arithmetic needs them
	hours   hours              // what stands at which hours, see hours.go
	origins []origin           // what hours are counted from, see times.go
	answers answers            // what the oil readings say, see answers.go
	known   *tide              // the highest reading everyone had seen, see hours.go
	fed     feeding            // where the reckoning of oil stands, see answers.go

	sheets []sheet // the cards that apply, see sheets.go
	papers []sheet // every card that is laid beside the book
}

// line is one entry and what the rest of the book makes of it.
type line struct {
	Record
	key  Key
	pos  int // place in book order
	body Body
	err  error // why the body cannot be read; the line is kept and not used

	struck   *line   // by this strike
	replaced []*line // by these settings
	replaces []*line

	total   quantity.Decimal // hours over all meters, see hours.go
	onMeter bool             // total holds
	era     int              // meter changes before it
	behind  *line            // left out: fewer hours than this line, which its writer knew of
	answer  int              // an index into answers.all; -1: none
}

// Open reads the entries of a book. An entry that came twice, once unsent and
// once with the ledger's number, is one. Nothing is ever dropped: what cannot be
// read is kept as a line that says so.
func Open(records []Record) *Book {
	b := &Book{byKey: make(map[Key]*line, len(records)), lines: make([]*line, 0, len(records))}
	for _, r := range inOrder(records) {
		if b.byKey[r.Entry.Key()] == nil {
			b.hold(newLine(r))
		}
	}
	b.reckon()
	return b
}

func newLine(r Record) *line {
	l := &line{Record: r, key: r.Entry.Key(), answer: -1}
	l.body, l.err = Decode(r.Entry.Body)
	return l
}

// hold takes a line in, last.
func (b *Book) hold(l *line) {
	l.pos = len(b.lines)
	b.byKey[l.key] = l
	b.lines = append(b.lines, l)
	if o, ok := l.body.(*Opened); ok && o.Demo {
		b.demo, b.told = true, o.Today
	}
}

// reckon finds what the lines add up to.
func (b *Book) reckon() {
	b.strike()
	b.settle()
	b.changes()
	b.engine = b.engineOnFile()
	b.place()
	b.renewals()
	b.answer()
}

// inOrder is book order: by the ledger's number, then what was not sent yet,
// each device in its own order. Everybody who holds the same entries sees the
// same order.
func inOrder(records []Record) []Record {
	rs := append([]Record(nil), records...)
	sort.SliceStable(rs, func(i, j int) bool {
		a, b := rs[i], rs[j]
		switch {
		case (a.Seq > 0) != (b.Seq > 0):
			return a.Seq > 0
		case a.Seq != b.Seq:
			return a.Seq < b.Seq
		case a.Entry.Device != b.Entry.Device:
			return a.Entry.Device < b.Entry.Device
		}
		return a.Entry.N < b.Entry.N
	})
	return rs
}

// knew reports that the writer of l had seen m: it is the same device's own
// earlier entry, or its ledger number was known.
func (l *line) knew(m *line) bool {
	if l.key.Device == m.key.Device {
		return m.key.N < l.key.N
	}
	return m.Seq > 0 && m.Seq <= l.Entry.Seen
}

// used reports that the line counts: it can be read and was not struck out.
func (l *line) used() bool { return l.err == nil && l.struck == nil }

// strike takes out what was struck. The first strike of a line stands; the
// opening of the book and a strike itself cannot be struck.
func (b *Book) strike() {
	for _, l := range b.lines {
		if _, ok := l.body.(*Strike); !ok || l.err != nil {
			continue
		}
		for _, ref := range l.Entry.Refs {
			target := b.byKey[ref]
			if target == nil || target.struck != nil || !target.strikable() {
				continue
			}
			target.struck = l
		}
	}
}

func (l *line) strikable() bool {
	switch l.body.(type) {
	case *Opened, *Strike:
		return false
	}
	return true
}

// today is the day to see the book on: a demo engine is always told on its own.
func (b *Book) today(now Now) Now {
	if b.told.Day != "" {
		return b.told
	}
	return now
}
