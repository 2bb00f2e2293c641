package sync

// Hello is what the server's hello says of a book and of itself.
type Hello struct {
	Mine                 ID   // the device id written under now
	Listed               bool // the book is among this account's
	There                Head
	Role                 string
	Signs                bool
	MinSchema, MaxSchema int // 0: not said
	Restored             int64
}

// Hello begins a round.
func (d *Device) Hello(in Hello) (effects []Effect) {
	d.known(in.Mine)
	d.Stopped, d.Barred, d.Gaps, d.Restarts, d.Stuck, d.Shut = nil, nil, nil, 0, false, ""
	if in.MaxSchema > 0 {
		d.MaxSchema = in.MaxSchema
	}
	if old := in.MinSchema > schema; old != d.Old {
		d.Old = old
		if old {
			effects = append(effects, show(CodeOldApp))
		}
	}
	if in.Restored != d.Restored {
		// It may have lost what it set aside, too.
		d.Restored = in.Restored
		d.handAgain()
		effects = append(effects, Effect{Do: DoReoffer})
	}
	d.Away = d.Joined && !in.Listed
	switch {
	case in.Listed:
		d.Joined, d.Role, d.Signs, d.There = true, in.Role, in.Signs, in.There
		if d.There == d.Head {
			effects = append(effects, d.caughtUp()...)
		}
	case d.Role == "owner":
		d.Joined, d.Away = false, false // perhaps a restore from before the book was there
	}
	return effects
}

// caughtUp: everything the server has is here. What it should have and has not,
// it lost since it said so.
func (d *Device) caughtUp() []Effect {
	d.settlePages()
	return d.unanswered()
}

// unanswered are own entries a push was answered for and the ledger, followed
// past them, does not hold: it was put back in between. They wait again (P3).
func (d *Device) unanswered() (effects []Effect) {
	for _, a := range d.Acked {
		effects = append(effects, patch(a.Ref, AtWaiting, 0, ""))
	}
	d.Acked = nil
	return effects
}

// Queue is what waits, and how much of it one push may carry.
type Queue struct {
	Waiting []Queued // by device and number; of each device the first are enough

	BatchEntries  int // 0: MaxBatchEntries
	BatchBytes    int // 0: MaxBatchBytes
	SnapshotAfter int // a new phone starts from a snapshot of more records than this; 0: 500
}

// Queued is an own row that waits, and how long its entry is as JSON.
type Queued struct {
	Ref
	Bytes int
}

// Line asks what to do next: one errand, or rest.
func (d *Device) Line(in Queue) []Effect {
	switch {
	case d.Shut != "":
		return []Effect{rest(false)}
	case !d.Joined:
		return []Effect{send(d.errand(toJoin))}
	case d.Away: // nothing of the ledger is to be had
	case d.Finding:
		return []Effect{send(d.errand(toFind))}
	case d.ToHand() > 0 && !d.Stuck:
		e := d.errand(toSalvage)
		e.Turn = d.ToHand()
		return []Effect{send(e)}
	case d.There != d.Head && !d.Stuck:
		if d.Head.Seq == 0 && d.There.Seq > uint64(or(in.SnapshotAfter, pageRecords)) {
			return []Effect{send(d.errand(toSnapshot))}
		}
		return []Effect{send(d.errand(toPull))}
	}
	if e, ok := d.batch(in); ok {
		return []Effect{send(e)}
	}
	return []Effect{rest(len(in.Waiting) > 0 || d.Stuck)}
}

func (d *Device) errand(to string) Errand {
	return Errand{To: to, After: d.Head}
}

// batch picks what to push: of the oldest device id that has something waiting,
// as much as fits. A device that has to stop holds up those after it (P6).
func (d *Device) batch(in Queue) (Errand, bool) {
	most := min(or(in.BatchEntries, MaxBatchEntries), MaxBatchEntries)
	bytes := min(or(in.BatchBytes, MaxBatchBytes), MaxBatchBytes) - 256 // for what stands around the entries
	const none = 1 << 30
	oldest := none
	for _, q := range in.Waiting {
		if age := d.age(q.Device); !among(d.Barred, q.Device) && (oldest == none || age < oldest) {
			oldest = age
		}
	}
	e := d.errand(toPush)
	e.Turn = len(d.Gaps)
	for _, q := range in.Waiting {
		if d.age(q.Device) != oldest || d.stopped(q.Device) {
			continue
		}
		if len(e.Numbers) > 0 && (len(e.Numbers) == most || bytes < q.Bytes+1 || e.Device != q.Device) {
			break
		}
		bytes -= q.Bytes + 1
		e.Device, e.Numbers = q.Device, append(e.Numbers, q.N)
	}
	return e, len(e.Numbers) > 0
}

// or is n, or when that is 0, instead.
func or(n, instead int) int {
	if n > 0 {
		return n
	}
	return instead
}

// Silence is no answer to an errand: none came, it was torn, or a hotel's
// log-in page came instead. Nothing is known about what the server did.
func (d *Device) Silence(Errand) []Effect { return []Effect{rest(true)} }
