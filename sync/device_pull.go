package sync

import "linkrod/sync/plain"

// pulled takes in a page of the ledger: checks it, stores it, moves Head.
func (d *Device) pulled(in Reply) []Effect {
	if in.Errand.After != d.Head { // P7: another tab was here
		return nil
	}
	var records []Record
	for _, v := range in.Body.Get("records").Items() {
		r, err := ReadRecord(v)
		if err != nil {
			return d.stuck(CodeDamaged)
		}
		records = append(records, r)
	}
	there, err := readThere(in.Body)
	if err != nil {
		return d.stuck(CodeDamaged)
	}
	return d.take(in, records, there, marked(in.Body.Get("receipt")))
}

// snapshot takes in the ledger from its beginning.
func (d *Device) snapshot(in Reply) []Effect {
	if in.Errand.After != d.Head {
		return nil
	}
	s, err := ReadSnapshot(in.Body, d.Book)
	if err != nil {
		return d.stuck(CodeDamaged)
	}
	var receipts []plain.Value
	receipts = append(receipts, in.Body.Get("receipts").Items()...)
	return d.take(in, s.Records, s.Head, marked(receipts...))
}

// stuck gives up on reading the ledger for this round.
func (d *Device) stuck(code string) []Effect {
	d.Stuck = true
	return []Effect{show(code)}
}

// proof is a receipt as it came, and what it is of.
type proof struct {
	Receipt
	raw []byte
}

// marked reads receipts; what is none is left out.
func marked(list ...plain.Value) (proofs []proof) {
	for _, v := range list {
		if r, err := ReadReceipt(v); err == nil {
			proofs = append(proofs, proof{r, v.Raw()})
		}
	}
	return proofs
}

// take stores records that follow Head (P2). Where one meets an own entry of
// the same key and other words, the phone was copied or put back: that comes
// first, and the page another time (P5).
func (d *Device) take(in Reply, records []Record, there Head, proofs []proof) (effects []Effect) {
	head, err := Follow(d.Head, records)
	if err != nil {
		return d.stuck(CodeDamaged)
	}
	rows := byKey(in.Rows)
	for _, r := range records {
		key := Ref{r.Entry.Device, r.Entry.N}
		row, here := rows[key]
		if r.Entry.Book != d.Book {
			return d.stuck(CodeDamaged)
		}
		if here && row.Own && row.Hash != r.Entry.Hash {
			if d.Restarts++; d.Restarts > restarts {
				return d.stuck(CodeNoProgress)
			}
			effects = append(d.settled(records, rows), d.revive(Stop(key)))
			return append(effects, d.copied(key)...)
		}
	}
	for i, r := range records {
		key := Ref{r.Entry.Device, r.Entry.N}
		row, here := rows[key]
		e := Effect{Do: DoPatch, Row: Row{Ref: key, Hash: r.Entry.Hash, At: AtSent, Seq: r.Seq, Own: row.Own,
			Account: r.Account, Author: r.Author, Received: r.Received}, Pulled: true}
		if here && row.Hash != r.Entry.Hash {
			effects = append(effects, Effect{Do: DoShelve, Row: Row{Ref: key}})
			here = false
		}
		if !here {
			e.Do, e.Entry, e.Own = DoPut, r.Entry, false // also under this phone's id: a copy of it wrote it
		}
		if span, wrong := When(r, d.receivedAt(r.Entry.Seen, records[:i])); wrong {
			e.Clock = span
		}
		effects = append(effects, e)
		d.brought(key)
	}
	d.cameBack(records)
	d.mark(records, head, proofs)
	d.There, d.Gaps = there, nil // another gap is of another restore
	if len(records) == 0 && d.There != d.Head {
		d.Stuck = true // it says there is more and gives nothing
	}
	if d.There == d.Head {
		effects = append(effects, d.caughtUp()...)
	} else {
		effects = append(effects, d.passed()...)
	}
	if len(effects) > 0 {
		effects = append(effects, changed)
	}
	return effects
}

// settled are own rows that wait and that a page has at its places: nobody need
// write them anew, although the page itself is not taken yet.
func (d *Device) settled(records []Record, rows map[Ref]Row) (effects []Effect) {
	for _, r := range records {
		key := Ref{r.Entry.Device, r.Entry.N}
		if row := rows[key]; row.Own && row.At == AtWaiting && row.Hash == r.Entry.Hash {
			effects = append(effects, patch(key, AtSent, r.Seq, ""))
			d.Acked = append(d.Acked, Ack{key, r.Seq})
		}
	}
	return effects
}

// brought: the ledger holds it, so nobody waits for it any more.
func (d *Device) brought(key Ref) {
	for i, a := range d.Acked {
		if key == a.Ref {
			d.Acked = append(d.Acked[:i], d.Acked[i+1:]...)
			return
		}
	}
}

// passed are own entries that should have come by now and did not (P3).
func (d *Device) passed() (effects []Effect) {
	var ahead []Ack
	for _, a := range d.Acked {
		if a.Seq <= d.Head.Seq {
			effects = append(effects, patch(a.Ref, AtWaiting, 0, ""))
		} else {
			ahead = append(ahead, a)
		}
	}
	d.Acked = ahead
	return effects
}

// recent marks are all kept; older ones are thinned to a page's distance.
const recent = 16

// mark moves Head to where records lead, with a mark at each receipt on the way
// and one at the end (P4).
func (d *Device) mark(records []Record, head Head, proofs []proof) {
	bytes := 0
	for i, r := range records {
		bytes += weight(r)
		m := Mark{Head: Head{r.Seq, r.Chain}, Received: r.Received, Weight: bytes}
		for _, p := range proofs {
			if p.Book == d.Book && m.Head == (Head{p.Seq, p.Chain}) {
				m.Receipt = p.raw
			}
		}
		if m.Receipt != nil || i == len(records)-1 {
			d.Marks = append(d.Marks, m)
			bytes = 0
		}
	}
	d.Head = head
	for i := 1; i < len(d.Marks)-recent; {
		before := uint64(0)
		if i > 1 {
			before = d.Marks[i-2].Seq
		}
		next := &d.Marks[i]
		if weight := d.Marks[i-1].Weight + next.Weight; next.Seq-before <= pageRecords && weight <= pageBytes && next.Receipt != nil {
			next.Weight = weight
			d.Marks = append(d.Marks[:i-1], d.Marks[i:]...)
		} else {
			i++
		}
	}
}

// receivedAt is when the ledger got the record at seq, or one before it: the
// earliest that somebody who had seen it can have written. 0: not known.
func (d *Device) receivedAt(seq uint64, page []Record) int64 {
	if n := len(page); seq > 0 && n > 0 && seq >= page[0].Seq && seq <= page[n-1].Seq {
		return page[seq-page[0].Seq].Received
	}
	for i := len(d.Marks) - 1; i >= 0; i-- {
		if d.Marks[i].Seq <= seq {
			return d.Marks[i].Received
		}
	}
	return 0
}
