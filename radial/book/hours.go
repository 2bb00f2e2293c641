package book

import (
	"sort"

	"linkrod/radial/due"
	"linkrod/radial/quantity"
)

// Everything read off a meter is placed on one line of hours, the total over
// all meters the engine has had. A meter change moves what follows by what the
// old meter had more than the new one. What a line "follows" is what its writer
// had seen, so two phones that never met place their lines alike.
//
// The order of readings: by total hours, then by the day and time stated, then
// as they were written. A reading goes back when its hours are fewer than the
// most its writer knew of. Such a line is kept, marked and left out, unless the
// writer says that it comes late: then its hours place it. In what one phone
// wrote, and so in an imported log, the readings that count stand in the order
// they were written, as oil-rate's method wants them.

// hours is what stands where.
type hours struct {
	changes []*line            // of the meter, in book order
	shift   []quantity.Decimal // to the total, after so many changes
	twice   []*line            // changes written by somebody who had not seen the one before

	readings []*line // oil, drains and closed steps, in the order of reading
	highest  *line   // the last of them that counts
	top      *line   // the line with the most hours, whatever it is
	unsure   [][2]*line
	ordered  map[[2]Key]bool // somebody's word that the first came before the second
}

// changes finds the meter changes and what each adds to the meter's reading.
func (b *Book) changes() {
	h := &b.hours
	h.shift = []quantity.Decimal{{}}
	for _, l := range b.lines {
		m, ok := l.body.(*MeterChange)
		if !ok || !l.used() {
			continue
		}
		if n := len(h.changes); n > 0 && !l.knew(h.changes[n-1]) {
			h.twice = append(h.twice, l)
			continue
		}
		offset, err1 := due.Change{Out: m.Out, In: m.In}.Offset()
		next, err2 := h.shift[len(h.shift)-1].Add(offset.Value)
		if err1 != nil || err2 != nil {
			continue
		}
		h.changes = append(h.changes, l)
		h.shift = append(h.shift, next)
	}
}

// era is how many meter changes the writer of l knew of.
func (b *Book) era(l *line) int {
	for i := len(b.hours.changes); i > 0; i-- {
		if l.knew(b.hours.changes[i-1]) {
			return i
		}
	}
	return 0
}

// onLine is a reading of the meter in a given era as total hours.
func (b *Book) onLine(m quantity.Measured, era int) (quantity.Decimal, bool) {
	if m.Unit != quantity.UnitH {
		return quantity.Decimal{}, false
	}
	total, err := m.Value.Add(b.hours.shift[era])
	return total, err == nil
}

// place gives every line its hours and finds the order of the readings.
func (b *Book) place() {
	b.known = newTide()
	for _, l := range b.lines {
		b.put(l)
	}
	b.ordered()
	b.order()
}

// put gives a line its hours, after all lines before it.
func (b *Book) put(l *line) {
	t, ok := l.body.(timed)
	if !ok || !l.used() || !t.at().Given() {
		return
	}
	era, most := b.era(l), b.known.seenBy(l)
	if late(l.body) {
		era = b.lateEra(t.at(), era, most, b.known.lowest)
	}
	l.total, l.onMeter = b.onLine(t.at(), era)
	l.era = era
	if !l.onMeter {
		return
	}
	if reading(l.body) {
		if most != nil && !late(l.body) && l.total.Compare(most.total) < 0 {
			l.behind = most
		} else {
			b.known.rise(l)
		}
	}
	if l.behind == nil {
		b.hours.top = higher(b.hours.top, l)
	}
}

// ordered takes in what people said about which of two readings came first.
func (b *Book) ordered() {
	b.hours.ordered = map[[2]Key]bool{}
	for _, l := range b.lines {
		if f, ok := l.body.(*Facts); ok && l.used() && f.Kind == &order {
			one, _ := parseKey(f.text("first"))
			two, _ := parseKey(f.text("then"))
			b.hours.ordered[[2]Key{one, two}] = true
		}
	}
}

// lateEra is the era of a reading that comes late. A late line is about the
// past: it belongs to the newest era in which it lies within what was known.
func (b *Book) lateEra(m quantity.Measured, era int, most, least *line) int {
	if most == nil {
		return era
	}
	for e := era; e >= 0; e-- {
		if e > 0 && m.Value.Compare(b.hours.changes[e-1].body.(*MeterChange).In.Value) < 0 {
			continue
		}
		total, ok := b.onLine(m, e)
		if ok && total.Compare(most.total) <= 0 && total.Compare(least.total) >= 0 {
			return e
		}
	}
	return era
}

// reading reports that a body takes part in the reckoning of oil.
func reading(body Body) bool {
	switch body.(type) {
	case *Oil, *Drain:
		return true
	}
	return restarts(body)
}

// restarts reports that the reckoning of oil starts afresh: a step was explained, or the
// engine has new rings.
func restarts(body Body) bool {
	_, step := body.(*StepClosed)
	return step || renews(body) != ""
}

func late(body Body) bool {
	switch v := body.(type) {
	case *Oil:
		return v.Late
	case *Drain:
		return v.Late
	case *Facts:
		return v.Late
	}
	return false
}

// order sorts the readings. What goes back stands right after the line it falls
// behind, so that the reckoning leaves it out by its own rule and names it.
func (b *Book) order() {
	var rs []*line
	behind := map[*line][]*line{}
	for _, l := range b.lines {
		switch {
		case !l.onMeter || !reading(l.body):
		case l.behind != nil:
			behind[l.behind] = append(behind[l.behind], l)
		default:
			rs = append(rs, l)
		}
	}
	sort.SliceStable(rs, func(i, j int) bool { return rs[i].total.Compare(rs[j].total) < 0 })
	for i := 0; i < len(rs); {
		j := i + 1
		for j < len(rs) && rs[j].total.Compare(rs[i].total) == 0 {
			j++
		}
		b.sameHours(rs[i:j])
		i = j
	}
	if n := len(rs); n > 0 {
		b.hours.highest = rs[n-1]
	}
	for _, l := range rs {
		b.hours.readings = append(append(b.hours.readings, l), behind[l]...)
	}
}

// sameHours orders readings at one reading of the meter by the day they state,
// and on one day by the time, each only where all of them state it. Two
// readings by two people that this does not order are noted: only they know
// which came first.
func (b *Book) sameHours(group []*line) {
	byText(group, func(s Stamp) string { return s.Day })
	for i := 0; i < len(group); {
		j := i + 1
		for j < len(group) && stampOf(group[j]).Day == stampOf(group[i]).Day {
			j++
		}
		byText(group[i:j], func(s Stamp) string { return s.Clock })
		i = j
	}
	if len(b.hours.ordered) > 0 {
		sort.SliceStable(group, func(i, j int) bool { return b.hours.ordered[[2]Key{group[i].key, group[j].key}] })
	}
	for i := 1; i < len(group); i++ {
		l, m := group[i-1], group[i]
		if b.hours.ordered[[2]Key{l.key, m.key}] {
			continue
		}
		if l.key.Device == m.key.Device || l.knew(m) || m.knew(l) {
			continue
		}
		a, c := stampOf(l), stampOf(m)
		apart := a.Day != "" && c.Day != "" && (a.Day != c.Day || a.Clock != "" && c.Clock != "" && a.Clock != c.Clock)
		if !apart {
			b.hours.unsure = append(b.hours.unsure, [2]*line{l, m})
		}
	}
}

func stampOf(l *line) Stamp {
	if s, ok := l.body.(stamped); ok {
		return s.stamp()
	}
	return Stamp{}
}

// byText sorts lines by a part of their stamp, if all of them have it.
func byText(lines []*line, part func(Stamp) string) {
	for _, l := range lines {
		if part(stampOf(l)) == "" {
			return
		}
	}
	sort.SliceStable(lines, func(i, j int) bool { return part(stampOf(lines[i])) < part(stampOf(lines[j])) })
}

// tide is the highest reading so far, for everyone who may have seen it.
type tide struct {
	own    map[string]*line // by device
	seqs   []int            // of the ledger
	high   []*line          // the highest up to each of them
	lowest *line
}

func newTide() *tide { return &tide{own: map[string]*line{}} }

// rise takes in a reading that counts. Readings come in book order.
func (t *tide) rise(l *line) {
	t.own[l.key.Device] = higher(t.own[l.key.Device], l)
	if l.Seq > 0 {
		var before *line
		if n := len(t.high); n > 0 {
			before = t.high[n-1]
		}
		t.seqs = append(t.seqs, l.Seq)
		t.high = append(t.high, higher(before, l))
	}
	if t.lowest == nil || l.total.Compare(t.lowest.total) < 0 {
		t.lowest = l
	}
}

// seenBy is the highest reading the writer of l had seen, nil if none.
func (t *tide) seenBy(l *line) *line {
	most := t.own[l.key.Device]
	if n := sort.SearchInts(t.seqs, l.Entry.Seen+1); n > 0 {
		most = higher(most, t.high[n-1])
	}
	return most
}

// higher is the line with more hours; the later one when they are equal.
func higher(a, b *line) *line {
	if a == nil || b != nil && b.total.Compare(a.total) >= 0 {
		return b
	}
	return a
}

// number takes in the ledger's number of a reading that rose before it had one.
func (t *tide) number(l *line) {
	var before *line
	if n := len(t.high); n > 0 {
		before = t.high[n-1]
	}
	t.seqs = append(t.seqs, l.Seq)
	t.high = append(t.high, higher(before, l))
}

func (t *tide) fork() *tide {
	c := *t
	c.own = make(map[string]*line, len(t.own))
	for device, l := range t.own {
		c.own[device] = l
	}
	c.seqs, c.high = t.seqs[:len(t.seqs):len(t.seqs)], t.high[:len(t.high):len(t.high)]
	return &c
}
