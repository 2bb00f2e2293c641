package sync

// What follows a restore of the server from an older copy:
//
//	the chain at Head isn't the one followed  -> rewound: ask for the chain at all marks
//	the newest mark that fits                 -> found: what came after it is lost, or moved
//	pages of what came after, oldest first    -> handed back, each with its receipt (salvaged)
//	then pull from that mark, and push what still waits
//
// A ledger that only lost its end gets the very end back, chain and all. One
// that others wrote to meanwhile gets the lost records behind theirs.

// restarts is how often a round begins anew before it gives up: a server that
// says one thing and then another (two copies behind one name) is not followed
// for ever (P9).
const restarts = 3

// rewound: the ledger never passed through Head.
func (d *Device) rewound() []Effect {
	if d.Restarts++; d.Restarts > restarts || d.Head.Seq == 0 {
		return d.stuck(CodeNoProgress)
	}
	d.Finding = true
	return nil
}

// found takes in the chain at the marks: from the newest that fits on, the
// ledger is another.
func (d *Device) found(in Reply) (effects []Effect) {
	if !d.Finding || in.Errand.After != d.Head { // P7
		return nil
	}
	var there []Head
	for _, v := range in.Body.Get("at").Items() {
		if h, err := ReadHead(v); err == nil {
			there = append(there, h)
		}
	}
	keep := len(d.Marks)
	for keep > 0 && !fits(there, d.Marks[keep-1].Head) {
		keep--
	}
	var base Head
	if keep > 0 {
		base = d.Marks[keep-1].Head
	}
	lines := map[uint64]Line{}
	for _, r := range in.Rows {
		if r.At == AtSent && r.Seq > base.Seq && r.Seq <= d.Head.Seq && !r.Account.IsZero() {
			lines[r.Seq] = Line{Ref: r.Ref, Seq: r.Seq, Received: r.Received, Account: r.Account, Author: r.Author}
		}
	}
	after := base
	for _, m := range d.Marks[keep:] {
		page := Page{After: after, Receipt: m.Receipt}
		for seq := after.Seq + 1; seq <= m.Seq; seq++ {
			if l, ok := lines[seq]; ok {
				page.Lines = append(page.Lines, l)
			} else {
				page.Receipt = nil // it proves the whole page or nothing
			}
		}
		if len(page.Lines) > 0 {
			d.Pages = append(d.Pages, page)
		}
		after = m.Head
	}
	for _, r := range in.Rows {
		switch {
		case r.At != AtSent || r.Seq <= base.Seq:
		case r.Own:
			effects = append(effects, patch(r.Ref, AtWaiting, 0, ""))
		default:
			effects = append(effects, patch(r.Ref, AtLost, 0, ""))
		}
	}
	d.Acked, d.Gaps, d.Stopped = nil, nil, nil
	d.Head, d.Marks = base, d.Marks[:keep]
	d.Finding = false
	d.Generation++
	return append(effects, Effect{Do: DoReoffer}, changed)
}

func fits(list []Head, h Head) bool {
	for _, other := range list {
		if other == h {
			return true
		}
	}
	return false
}

// salvaged takes in what became of a page that was handed back.
func (d *Device) salvaged(in Reply) (effects []Effect) {
	if !d.first(in.Errand) {
		return nil
	}
	if head, err := readThere(in.Body); err == nil {
		d.There = head
	}
	for _, v := range in.Body.Get("results").Items() {
		var key Ref
		_ = text(key.Device.UnmarshalText)(v.Get("device"))
		r := ReadResult(v)
		switch {
		case r.State != OK:
		case d.age(key.Device) >= 0:
			d.Back.Own++
		default:
			d.Back.Others++
		}
	}
	return d.turned()
}

// notPutBack: the server would not have the page. Its lines stay here.
func (d *Device) notPutBack(e Errand) []Effect {
	if !d.first(e) {
		return nil
	}
	said := show(CodeNotPutBack)
	for _, l := range d.Pages[0].Lines {
		if d.age(l.Device) < 0 {
			said.Lost.Others++
		}
	}
	return append(d.turned(), said)
}

// first reports that an errand is about the first page.
func (d *Device) first(e Errand) bool { return len(d.Pages) > 0 && len(d.Pages) == e.Turn }

// turned goes on to the next page; after the last it says what came back.
func (d *Device) turned() []Effect {
	d.Pages = d.Pages[1:]
	if len(d.Pages) > 0 {
		return nil
	}
	said := Effect{Do: DoShow, Code: CodeSetBack, Lost: d.Back}
	d.Back = Lost{}
	return []Effect{said}
}
