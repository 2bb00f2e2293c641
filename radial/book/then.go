package book

// then is the book as it would be with more entries of this phone, and their
// lines. Nothing is written.
func (b *Book) then(bodies ...[]byte) (*Book, []*line) {
	next := Entry{Device: "\xff", Kind: "fact"} // sorts after every device
	for _, l := range b.lines {
		next.Seen = max(next.Seen, l.Seq)
		if l.Seq == 0 {
			next.Device = l.key.Device // what is not sent yet was written here
		}
	}
	for _, l := range b.lines {
		if l.key.Device == next.Device {
			next.N = max(next.N, l.key.N)
		}
	}
	records := make([]Record, len(bodies))
	lines := make([]*line, len(bodies))
	then, folded := b.fork(), true
	for i, body := range bodies {
		next.N++
		next.Body = body
		records[i] = Record{Entry: next}
		if folded {
			lines[i] = newLine(records[i])
			folded = then.follows(records[i]) && then.fold(lines[i])
		}
	}
	if !folded {
		then = b.again(records...)
		for i, r := range records {
			lines[i] = then.byKey[r.Entry.Key()]
		}
	}
	return then, lines
}

// foretell is what the readings would say with this one among them: the line of
// oil-rate 4.12, or why there is none.
func (d *drafting) foretell(body Body) string {
	for _, a := range d.asks {
		if a.Strength == Impossible {
			return "No rate with this line yet. " + a.Words
		}
	}
	then, lines := d.book.then(Encode(body))
	if i := lines[0].answer; i >= 0 && then.answers.all[i].parked {
		return then.remark(lines[0])
	}
	r := then.rate()
	if r.Line == "" {
		return r.Verdict.Reason
	}
	if r.Call == "" && len(then.engine.open) == 0 {
		return sentence(r.Line)
	}
	return r.Verdict.Reason + " " + sentence(r.Line)
}
