package book

import (
	"linkrod/radial/card"
	"linkrod/radial/identify"
)

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
// number on file, what the last identity look saw, and the deviations. A look whose
// base is another model than the one on file is a contradiction and is left open.
func (b *Book) ForCards() card.Engine {
	e := card.Engine{Model: b.text("model"), Serial: b.text("serial"), Demo: b.demo}
	for _, name := range []string{"model", "serial"} {
		if b.disagreed(name) {
			e.Open = append(e.Open, name)
		}
	}
	if o := b.lastLook(); o != nil {
		e.Looked = o.Base
		if e.Model == "" && len(e.Open) == 0 {
			e.Model = o.Base
		}
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
		for _, o := range heads { // two that stand beside each other decide nothing
			if p := o.body.(*Deviation); o != l && p.Part == d.Part && (p.Governs != d.Governs || p.Gone != d.Gone) {
				out.Governs = ""
				d = &Deviation{Part: d.Part}
			}
		}
		if !d.Gone {
			e.Deviations = append(e.Deviations, out)
		}
	}
	return e
}

// Identified is the entries of an identity look: the look itself, and a deviation for each
// part that is from elsewhere and not on file yet.
func (b *Book) Identified(shelf string, looked []identify.Observation, r identify.Result, me string, now Now) []Planned {
	now = b.today(now)
	stamp := Stamp{Day: now.Day, Clock: now.Clock, By: me}
	o := &Looked{Shelf: shelf, Base: r.Build.Base, Mixed: r.Build.Mixed, Statement: r.Words(), Stamp: stamp}
	for _, s := range looked {
		if w := stateWord(s.State); w != "" {
			o.Seen = append(o.Seen, Seen{s.Feature, w, s.Values, s.Evidence, s.Approval})
		}
	}
	plan := []Planned{{Kind: "fact", Body: Encode(o)}}
	for _, p := range r.Build.Parts {
		if !p.Deviates || !r.Build.Mixed {
			continue
		}
		found, wants := card.Differs(r, p)
		d := &Deviation{Part: p.Name, Of: r.Build.Base, Found: found, Wants: wants, Fits: p.Fits, Evidence: p.Evidence, Approval: firstOf(p.Approvals), Stamp: stamp}
		if !b.deviates(d) {
			plan = append(plan, Planned{Kind: "fact", Body: Encode(d)})
		}
	}
	return plan
}

func firstOf(list []string) string {
	if len(list) == 0 {
		return ""
	}
	return list[0]
}

func stateWord(s identify.State) string {
	switch s {
	case identify.Observed:
		return "seen"
	case identify.NotVisible:
		return "cant"
	case identify.Contradictory:
		return "two_ways"
	}
	return ""
}

// deviates reports that a part's deviation is on file as it was found.
func (b *Book) deviates(d *Deviation) bool {
	for _, l := range b.deviationHeads() {
		if e := l.body.(*Deviation); e.Part == d.Part && !e.Gone && e.Found == d.Found {
			return true
		}
	}
	return false
}

// deviation makes one from a form: part, of, found, wants, fits (list), evidence (list),
// approval, governs, decided, gone (flag), reason. It replaces what stands for that part.
func (d *drafting) deviation() Body {
	o := &Deviation{Part: d.text("part"), Of: d.text("of"), Found: d.text("found"), Wants: d.text("wants"), Approval: d.text("approval"),
		Governs: d.text("governs"), Decided: d.text("decided"), Gone: d.flag("gone"), Reason: d.text("reason"), Stamp: d.stamp()}
	in := &reader{Value: d.in}
	o.Fits, o.Evidence = in.texts("fits"), in.texts("evidence")
	for _, l := range d.book.deviationHeads() {
		e := l.body.(*Deviation)
		if e.Part != o.Part {
			continue
		}
		d.plan.Kind, d.plan.Refs = "replace", append(d.plan.Refs, l.key)
		if o.Found == "" { // a decision keeps what was found
			o.Of, o.Found, o.Wants, o.Fits, o.Evidence, o.Approval = e.Of, e.Found, e.Wants, e.Fits, e.Evidence, orNot(o.Approval, e.Approval)
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
