package book

import "linkrod/radial/quantity"

// origin is where hours are counted from: so many stood at so many total hours.
type origin struct {
	total quantity.Decimal
	since quantity.Decimal
	what  string // "overhaul", "ring job", "top overhaul", "rebuild"
	by    *line  // the entry of it; nil for what is on file
}

// renews is what an entry of work makes the hours count from, "" for any other entry.
func renews(body Body) string {
	if f, ok := body.(*Facts); ok && f.Kind == &overhaul {
		return wordOf(f.Kind.Boxes[0].Of, f.text("what"))
	}
	return ""
}

// renewals finds every place hours are counted from, in the order of hours: the one on file,
// and each overhaul or ring job that was written. The last of them is the engine's own.
func (b *Book) renewals() {
	b.origins = nil
	if b.engine.settings.HoursKnown {
		b.origins = append(b.origins, origin{total: b.engine.origin, since: b.engine.since, what: b.engine.what})
	}
	for _, l := range b.lines {
		if what := renews(l.body); what != "" && l.used() && l.onMeter {
			b.renewedAt(l, what)
		}
	}
}

func (b *Book) renewedAt(l *line, what string) {
	b.origins = append(b.origins, origin{total: l.total, what: what, by: l})
	for i := len(b.origins) - 1; i > 0 && b.origins[i].total.Compare(b.origins[i-1].total) < 0; i-- {
		b.origins[i], b.origins[i-1] = b.origins[i-1], b.origins[i]
	}
	o := b.origins[len(b.origins)-1]
	b.engine.origin, b.engine.since, b.engine.what, b.engine.settings.HoursKnown = o.total, o.since, o.what, true
}

// originAt is what hours at a total are counted from: the last that is not after it, the
// first for hours before them all.
func (b *Book) originAt(total quantity.Decimal) (o origin, ok bool) {
	for i, at := range b.origins {
		c := total.Compare(at.total)
		if i == 0 || c > 0 || c == 0 && !b.ahead(at.by) {
			o, ok = at, true
		}
	}
	return o, ok
}

// ahead reports that a renewal comes after the reading that is being reckoned: both stand at
// the same hours, and the reading was first.
func (b *Book) ahead(by *line) bool {
	if by == nil || !b.fed.going {
		return false
	}
	for _, l := range b.fed.renewed {
		if l == by {
			return false
		}
	}
	return true
}

// Time is one of the hours an engine is known by.
type Time struct {
	Label string
	Value string // "2,204.4 h", "–" when not known
	Words string // where it is from, or why it is not known
}

// times are the total, since overhaul and since top. What is not known stays so: unknown
// hours are never nought, and nothing is added to them.
func (b *Book) times() []Time {
	const unknown = "Not known. Unknown hours stay unknown; nothing is added to them."
	all := []Time{}
	add := func(label string, at quantity.Decimal, had quantity.Decimal, ok bool, words string) {
		t := Time{label, "–", unknown}
		if top := b.top(); ok && top != nil {
			if run, err := top.total.Sub(at); err == nil {
				if sum, err := run.Add(had); err == nil {
					t.Value, t.Words = sum.Show()+" h", words
				}
			}
		}
		all = append(all, t)
	}
	from := func(name string) (at, had quantity.Decimal, words string, ok bool) {
		v, known := b.value(name)
		meter, read := b.value("meter")
		if !known || !read {
			return
		}
		at, ok = b.onLine(meter.M, b.era(b.heads["meter"][0]))
		return at, v.M.Value, short(v.M) + " at " + b.text("meter") + " " + meter.M.Value.Show() + ", and what it ran since.", ok
	}
	at, had, words, ok := from("total")
	add("In all", at, had, ok, words)

	at, had, words, ok = from("since")
	ok = ok && b.text("since_what") != "re-ring"
	if o, found := b.lastOrigin("overhaul", "rebuild"); found && (!ok || o.total.Compare(at) > 0) {
		at, had, words, ok = o.total, o.since, "From the "+o.what+" on record.", true
	}
	add("Since overhaul", at, had, ok, words)

	at, had, words, ok = from("top")
	if !ok && b.text("since_what") == "re-ring" {
		at, had, words, ok = from("since")
	}
	if o, found := b.lastOrigin("ring job", "top overhaul"); found && (!ok || o.total.Compare(at) > 0) {
		at, had, words, ok = o.total, o.since, "From the "+o.what+" on record.", true
	}
	if ok {
		add("Since top", at, had, ok, words)
	}
	return all
}

// lastOrigin is the last one of these kinds.
func (b *Book) lastOrigin(whats ...string) (origin, bool) {
	for i := len(b.lines) - 1; i >= 0; i-- {
		if l := b.lines[i]; l.used() && l.onMeter && contains(whats, renews(l.body)) {
			return origin{total: l.total, what: renews(l.body)}, true
		}
	}
	return origin{}, false
}
