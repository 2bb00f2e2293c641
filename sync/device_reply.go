package sync

import "linkrod/sync/plain"

// Reply is an answer of the server's: JSON that names its protocol, whatever
// the status.
type Reply struct {
	Errand Errand
	Mine   ID
	Status int
	Body   plain.Value
	// Rows are those here that the answer may be about: of a push, those sent;
	// of a pull, those with the keys of its records; of the rest, all.
	Rows []Row
}

// Reply takes in an answer.
func (d *Device) Reply(in Reply) []Effect {
	d.known(in.Mine)
	if in.Status != 200 {
		return d.refused(in)
	}
	switch in.Errand.To {
	case toJoin:
		d.Joined, d.Role = true, in.Body.Get("role").Text()
		d.There, _ = readThere(in.Body) // not said: as far as is known it is empty
		return nil
	case toPull:
		return d.pulled(in)
	case toSnapshot:
		return d.snapshot(in)
	case toPush:
		return d.pushed(in)
	case toFind:
		return d.found(in)
	case toSalvage:
		return d.salvaged(in)
	}
	return []Effect{rest(true)}
}

// refused takes in an answer that is not the one asked for. What is the
// server's trouble, or its sign-in's, is for later.
func (d *Device) refused(in Reply) []Effect {
	code, words := in.Body.Get("error").Get("code").Text(), in.Body.Get("error").Get("words").Text()
	to := in.Errand.To
	said := Effect{Do: DoShow, Code: CodeRefused, Words: words}
	switch {
	case in.Status == 404:
		if to == toJoin && d.Role == "owner" { // the book is there, and somebody else's by now
			d.Joined, d.Away = true, true
			return nil
		}
		d.Shut = CodeNotMine
		return []Effect{show(CodeNotMine), rest(false)}
	case in.Status == 409 && to == toPull && code == "rewound":
		if in.Errand.After != d.Head { // P7
			return nil
		}
		return d.rewound()
	case in.Status == 403 && to == toPush:
		d.Stopped, d.Barred = append(d.Stopped, in.Errand.Device), append(d.Barred, in.Errand.Device)
		if code == CodeRevoked {
			said.Code = CodeRevoked
		}
		return []Effect{said}
	case to == toSalvage && (in.Status == 400 || in.Status == 403 || in.Status == 413 || in.Status == 422):
		return d.notPutBack(in.Errand)
	case in.Status < 500 && in.Status != 429 && in.Status != 401 && in.Status != 408:
		return []Effect{said, rest(true)}
	}
	return []Effect{rest(true)}
}

// pushed takes in what became of a batch. Only rows that still wait change: what
// the ledger brought meanwhile stands.
func (d *Device) pushed(in Reply) (effects []Effect) {
	results := make(map[uint64]Result, len(in.Errand.Numbers))
	for _, v := range in.Body.Get("results").Items() {
		r := ReadResult(v)
		results[r.N] = r
	}
	if head, err := readThere(in.Body); err == nil {
		d.There = head
	}
	rows := byKey(in.Rows)
	device := in.Errand.Device
	later, forked, gap := false, uint64(0), uint64(0)
	for _, n := range in.Errand.Numbers {
		key := Ref{device, n}
		row := rows[key]
		if row.At != AtWaiting {
			later = later || row.At == "" // it can't be told: not again in this round
			continue
		}
		switch r := results[n]; {
		case (r.State == OK || r.State == Dup) && r.Seq > d.Head.Seq:
			effects = append(effects, patch(key, AtSent, r.Seq, ""))
			d.Acked = append(d.Acked, Ack{key, r.Seq})
		case r.State == Rejected:
			effects = append(effects, patch(key, AtRefused, 0, r.Words))
		case r.State == Held:
			effects = append(effects, patch(key, AtHeld, 0, r.Words))
		case r.State == Fork && forked == 0:
			forked = n
		case r.State == Gap && r.From > 0:
			gap = r.From
		default: // also a place the followed ledger has given to another: it was put back meanwhile
			later = true
		}
	}
	if len(effects) > 0 {
		effects = append(effects, changed)
	}
	switch {
	case forked > 0:
		effects = append(effects, d.copied(Ref{device, forked})...)
	case gap > 0 && in.Errand.Turn == len(d.Gaps) && !d.Away: // away, nobody can see what the ledger lost
		effects = append(effects, d.gap(device, gap)...)
	case gap > 0 || later:
		d.Stopped = append(d.Stopped, device)
	}
	return effects
}

// gap sends again what the ledger lost of this device. When it asks for the
// same once more, the entries before are not here any more: what is here is
// written under a new device id, so that it need not wait for them for ever (P9).
func (d *Device) gap(device ID, from uint64) []Effect {
	asked := Stop{device, from}
	for _, g := range d.Gaps {
		if g == asked {
			return d.copied(Ref(asked))
		}
	}
	d.Gaps = append(d.Gaps, asked)
	return []Effect{d.revive(asked)}
}

// revive lets own rows of a device wait again, from a number on: whatever the
// ledger that was followed does not hold. What it does hold and this server does
// not is for a pull to find out.
func (d *Device) revive(from Stop) Effect {
	var acked []Ack
	for _, a := range d.Acked {
		if a.Device != from.Device || a.N < from.N {
			acked = append(acked, a)
		}
	}
	d.Acked = acked
	return Effect{Do: DoRevive, Row: Row{Ref: Ref(from), Seq: d.Head.Seq}}
}

// copied: another phone has used this device's numbers from one on, or they were
// lost.
func (d *Device) copied(from Ref) []Effect {
	return []Effect{{Do: DoAnew, Row: Row{Ref: from}}, show(CodeCopied)}
}

func byKey(rows []Row) map[Ref]Row {
	m := make(map[Ref]Row, len(rows))
	for _, r := range rows {
		m[r.Ref] = r
	}
	return m
}

// readThere reads where a push or a pull says the ledger stands.
func readThere(v plain.Value) (h Head, err error) {
	if err := whole(&h.Seq, MaxNumber)(v.Get("head")); err != nil {
		return Head{}, err
	}
	return h, text(h.Chain.UnmarshalText)(v.Get("chain"))
}
