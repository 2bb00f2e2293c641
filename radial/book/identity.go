package book

import "linkrod/radial/card"

// deviationHeads are the deviations that nothing has replaced, in book order. Two of one
// part mean that two people wrote without having seen each other.
func (b *Book) deviationHeads() []*line {
	replaced := map[Key]bool{}
	var all, heads []*line
	for _, l := range b.lines {
		if d, ok := l.body.(*Deviation); ok && l.used() {
			all = append(all, l)
			for _, ref := range l.Entry.Refs {
				if t := b.byKey[ref]; t != nil && t != l {
					if e, ok := t.body.(*Deviation); ok && e.Part == d.Part {
						replaced[ref] = true
					}
				}
			}
		}
	}
	for _, l := range all {
		if !replaced[l.key] {
			heads = append(heads, l)
		}
	}
	return heads
}

// lastLook is the newest identity look that counts, nil for none.
func (b *Book) lastLook() *Looked {
	for i := len(b.lines) - 1; i >= 0; i-- {
		if o, ok := b.lines[i].body.(*Looked); ok && b.lines[i].used() {
			return o
		}
	}
	return nil
}

// ForCards is the engine as far as it decides which card is for it: the model and serial
// number on file, what the last identity look saw, and the deviations. What a look came to is
// no model on file: no sheet judges an engine on a guess. Two deviations of one part that
// stand beside each other decide nothing.
func (b *Book) ForCards() card.Engine {
	e := card.Engine{Model: b.text("model"), Serial: b.text("serial"), Demo: b.demo}
	for _, name := range []string{"model", "serial"} {
		if b.disagreed(name) {
			e.Open = append(e.Open, name)
		}
	}
	if o := b.lastLook(); o != nil {
		e.Looked = o.Base
		for _, s := range o.Seen {
			if s.State == "seen" {
				e.Has = append(e.Has, card.Trait{Feature: s.Feature, Value: s.Values[0]})
			}
		}
	}
	heads := b.deviationHeads()
	for _, l := range heads {
		d := l.body.(*Deviation)
		out := card.Deviation{Part: d.Part, Of: d.Of, Found: d.Found, Wants: d.Wants, Fits: d.Fits, Approval: d.Approval, Governs: d.Governs, By: d.Decided}
		gone := d.Gone
		for _, o := range heads {
			if p := o.body.(*Deviation); p.Part == d.Part && (p.Governs != d.Governs || p.Gone != d.Gone) {
				out.Governs, gone = "", false
			}
		}
		if !gone {
			e.Deviations = append(e.Deviations, out)
		}
	}
	return e
}

// look makes an identity look from what the guided look came to (identify.look gives the
// draft).
func (d *drafting) look() Body {
	o := &Looked{}
	o.read(&reader{Value: d.in})
	o.Stamp = d.stamp()
	return o
}

// deviation makes one from a form: part, of, found, wants, fits (list), evidence (list),
// approval, governs, decided, gone (flag), reason. It replaces what stands for that part;
// what the form leaves out of a decision stays as it was found.
func (d *drafting) deviation() Body {
	o := &Deviation{}
	in := &reader{Value: d.in}
	o.read(in)
	o.Stamp = d.stamp()
	for _, l := range d.book.deviationHeads() {
		e := l.body.(*Deviation)
		if e.Part != o.Part {
			continue
		}
		d.plan.Kind, d.plan.Refs = "replace", append(d.plan.Refs, l.key)
		if o.Found == "" {
			o.Of, o.Found, o.Wants, o.Fits, o.Evidence, o.Approval = e.Of, e.Found, e.Wants, e.Fits, e.Evidence, orNot(o.Approval, e.Approval)
		} else if o.Found == e.Found && o.Governs == "" && !o.Gone && e.Governs == "" && !e.Gone {
			d.ask(Ask{Field: "part", Strength: Impossible, Code: "on-file", Words: "This deviation is on file already."})
		}
	}
	d.need("part", o.Part != "", "Which part is from elsewhere?")
	d.need("found", o.Found != "", "What was found on it?")
	if o.Governs != "" {
		d.need("decided", o.Decided != "", "Who decided it, and in which paper?")
	}
	if o.Gone {
		d.need("reason", o.Reason != "", "Why is it no deviation any more?")
	}
	return o
}
