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
	d.handAgain()
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

// ToHand is how many pages are still to be handed back.
func (d *Device) ToHand() (n int) {
	for _, p := range d.Pages {
		if !p.Handed {
			n++
		}
	}
	return n
}

// handing is the page an errand is about, the first that is to be handed back;
// nil when it was another's answer that came first (P7).
func (d *Device) handing(turn int) *Page {
	if turn != d.ToHand() {
		return nil
	}
	for i := range d.Pages {
		if !d.Pages[i].Handed {
			return &d.Pages[i]
		}
	}
	return nil
}

// salvaged takes in what became of a page that was handed back.
func (d *Device) salvaged(in Reply) []Effect {
	page := d.handing(in.Errand.Turn)
	if page == nil {
		return nil
	}
	if head, err := readThere(in.Body); err == nil {
		d.There = head
	}
	held := map[Ref]bool{}
	for _, v := range in.Body.Get("results").Items() {
		key := readRef(v)
		switch State(v.Get("state").Text()) {
		case OK:
			if d.age(key.Device) >= 0 {
				d.Back.Own++
			} else {
				d.Back.Others++
			}
		case Held:
			held[key] = true
		}
	}
	page.Handed = true
	for i, l := range page.Lines {
		page.Lines[i].Held = held[l.Ref]
	}
	if d.ToHand() > 0 {
		return nil
	}
	said := Effect{Do: DoShow, Code: CodeSetBack, Lost: d.Back}
	d.Back = Lost{}
	return []Effect{said}
}

// notPutBack: the server would not have the page. Its lines stay here, and it
// is offered again only when the server was put back once more.
func (d *Device) notPutBack(e Errand) []Effect {
	page := d.handing(e.Turn)
	if page == nil {
		return nil
	}
	page.Handed = true
	said := show(CodeNotPutBack)
	for i, l := range page.Lines {
		page.Lines[i].Held = true
		if d.age(l.Device) < 0 {
			said.Lost.Others++
		}
	}
	return []Effect{said}
}

// cameBack notes what of the pages the ledger has again.
func (d *Device) cameBack(records []Record) {
	if len(d.Pages) == 0 {
		return
	}
	have := make(map[Ref]bool, len(records))
	for _, r := range records {
		have[Ref{r.Entry.Device, r.Entry.N}] = true
	}
	for _, p := range d.Pages {
		for i, l := range p.Lines {
			p.Lines[i].Back = l.Back || have[l.Ref]
		}
	}
}

// settlePages lets go of pages that are in the ledger again. One that was handed
// back and is not there now was lost a second time, and is handed back again. One
// that was set aside is kept, for the next time the server is put back.
func (d *Device) settlePages() {
	var pages []Page
	for _, p := range d.Pages {
		back, held := true, false
		for _, l := range p.Lines {
			back = back && (l.Back || l.Held)
			held = held || l.Held && !l.Back
		}
		if p.Handed && back && !held {
			continue
		}
		if p.Handed && !back {
			if d.Restarts++; d.Restarts > restarts {
				d.Stuck = true
			}
			p.Handed = false
		}
		pages = append(pages, p)
	}
	d.Pages = pages
}

// handAgain: the server was put back, and may have lost what it set aside.
func (d *Device) handAgain() {
	for i := range d.Pages {
		d.Pages[i].Handed = false
		for j := range d.Pages[i].Lines {
			d.Pages[i].Lines[j].Back, d.Pages[i].Lines[j].Held = false, false
		}
	}
}
