package book

// A book that is open takes one more entry without being read again, as long as the entry is
// what nearly all are: written after all the others, and changing nothing about them. Whatever
// else it is (a strike, a setting, a meter change, a reading that goes back or comes late) is
// reckoned anew from the lines, which have been read already.

// With is the book with one more entry, or with the ledger's number of one that is there. The
// book itself is no longer to be used.
func (b *Book) With(r Record) *Book {
	if l := b.byKey[r.Entry.Key()]; l != nil {
		if b.number(l, r) {
			return b
		}
	} else if l := newLine(r); b.follows(r) && b.fold(l) {
		b.byKey[l.key] = l
		return b
	}
	return b.again(r)
}

// again is the book reckoned anew. Bodies are not read twice.
func (b *Book) again(more ...Record) *Book {
	rs := make([]Record, 0, len(b.lines)+len(more))
	isNew := map[Key]bool{}
	for _, r := range more {
		isNew[r.Entry.Key()] = true
	}
	for _, l := range b.lines {
		if !isNew[l.key] {
			rs = append(rs, l.Record)
		}
	}
	c := &Book{byKey: make(map[Key]*line, len(rs)+len(more)), lines: make([]*line, 0, len(rs)+len(more)), sheets: b.sheets, papers: b.papers}
	for _, r := range inOrder(append(rs, more...)) {
		l := &line{Record: r, key: r.Entry.Key(), answer: -1}
		if old := b.byKey[l.key]; old != nil && !isNew[l.key] {
			l.body, l.err = old.body, old.err
		} else {
			l.body, l.err = Decode(r.Entry.Body)
		}
		c.hold(l)
	}
	c.reckon()
	return c
}

// follows reports that an entry comes after all that are there.
func (b *Book) follows(r Record) bool {
	if len(b.lines) == 0 {
		return false
	}
	last := b.lines[len(b.lines)-1]
	switch {
	case r.Seq > 0:
		return last.Seq > 0 && last.Seq < r.Seq
	case last.Seq > 0:
		return true
	case last.key.Device != r.Entry.Device:
		return last.key.Device < r.Entry.Device
	}
	return last.key.N < r.Entry.N
}

// number gives a line the ledger's number, where that leaves it in its place: it is the first
// of those not sent.
func (b *Book) number(l *line, r Record) bool {
	if l.Seq != 0 || r.Seq == 0 || string(l.Entry.Body) != string(r.Entry.Body) ||
		l.pos > 0 && (b.lines[l.pos-1].Seq == 0 || b.lines[l.pos-1].Seq > r.Seq) {
		return false
	}
	l.Record = r
	if reading(l.body) && l.onMeter && l.behind == nil {
		b.known.number(l)
	}
	return true
}

// fold takes a line in if it changes nothing about the others.
func (b *Book) fold(l *line) bool {
	switch v := l.body.(type) {
	case *Oil, *Drain, *Note, Newer:
	case *Facts:
		if renews(v) != "" || v.Kind == &order {
			return false
		}
	default:
		return false
	}
	if late(l.body) {
		return false
	}
	l.pos = len(b.lines)
	b.put(l)
	if reading(l.body) && l.used() {
		if !l.onMeter || l.behind != nil || !b.next(l) {
			return false
		}
		b.hours.readings = append(b.hours.readings, l)
		b.hours.highest = l
		b.feed(l, 0)
	}
	b.lines = append(b.lines, l)
	return true
}

// next reports that a reading comes after all others beyond doubt, and that none of them has
// to be answered otherwise for it.
func (b *Book) next(l *line) bool {
	last := b.hours.highest
	if last == nil || b.answers.err != nil {
		return false
	}
	if rs := b.hours.readings; rs[len(rs)-1] != last {
		return false
	}
	c := l.total.Compare(last.total)
	if c < 0 {
		return false
	}
	if c > 0 {
		return true
	}
	// At the same hours it is the day, then the time, that order them (sameHours): this one must
	// come last by both, and take neither away from the others.
	was, is := stampOf(last), stampOf(l)
	switch {
	case last.key.Device != l.key.Device || was.Day == "" || is.Day < was.Day:
		return false
	case is.Day == was.Day && was.Clock != "" && is.Clock < was.Clock:
		return false
	}
	o, ok := l.body.(*Oil)
	return !ok || !(o.poured() && l.parkedAfter(b.fed.before))
}

// fork is the book for a look at what would be: what is folded into it leaves this one as it is.
func (b *Book) fork() *Book {
	c := *b
	c.lines = b.lines[:len(b.lines):len(b.lines)]
	c.hours.readings = b.hours.readings[:len(b.hours.readings):len(b.hours.readings)]
	c.answers.all = b.answers.all[:len(b.answers.all):len(b.answers.all)]
	c.known = b.known.fork()
	if b.fed.bank != nil {
		c.fed.bank = b.fed.bank.Fork()
	}
	return &c
}
