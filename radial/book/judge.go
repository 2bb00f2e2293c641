package book

import (
	"linkrod/radial/quantity"
	"linkrod/radial/wear"
	"linkrod/sync/plain"
)

// Judged is one figure against the limit that applies to it. Every verdict carries the limit
// and its paper; without them it is Can't judge, with the reason.
type Judged struct {
	Box, At string // where the figure stands in its entry; "" for one that was worked out
	Label   string
	Value   quantity.Measured
	Verdict
	Source *SourceLine
}

// partOf is the part of the engine whose sheet an item stands on.
func partOf(item string) string {
	switch item {
	case "bore_wear", "out_of_round", "taper", "choke", "compression", "hold_down":
		return "barrels"
	case "skirt_clearance", "ring_gap", "top_ring_side", "ring_side", "pin_in_piston":
		return "pistons"
	case "inlet_stem", "exhaust_stem", "valve_inlet", "valve_exhaust":
		return "heads"
	case "points_gap", "plug_gap", "drop", "drop_difference", "timing":
		return "ignition"
	case "top_height":
		return "crankshaft"
	}
	return ""
}

// limitOf is the limit of an item, by the card the entry was judged by, else by the one that
// applies now.
func (b *Book) limitOf(item string, pin *Pin) held {
	s := b.sheet("limits", partOf(item))
	if pin != nil {
		if s = b.pinned(pin); s == nil {
			return held{none: "the card it was judged by, " + pin.Card + " version " + itoa(pin.Version) + ", is not on this phone"}
		}
	} else if s.found == "cant" {
		switch {
		case len(b.ForCards().Deviations) > 0:
			return held{none: "this engine is a mixed build. " + last(s.settle)}
		case b.text("model") != "":
			return held{none: small(last(s.why))}
		}
	}
	if l, ok := s.item("items", item); ok {
		return l
	}
	return held{none: small(noLimit)}
}

func last(list []string) string {
	if len(list) == 0 {
		return ""
	}
	return list[len(list)-1]
}

// against judges a figure by a limit, on the figure as it was typed. Design 7 and the word
// "at the edge": a limit itself still counts as inside it.
func (l *held) against(m quantity.Measured) (Chip, string) {
	if l.none != "" {
		return Cant, l.none
	}
	if m.Dimension() != (quantity.Measured{Unit: l.u}).Dimension() {
		return Cant, "the limit is in " + l.u.Plural() + ", and this is " + short(m)
	}
	over := func(limit quantity.Measured) bool { c, err := quantity.Compare(m, limit); return err == nil && c > 0 }
	under := func(limit quantity.Measured) bool { c, err := quantity.Compare(m, limit); return err == nil && c < 0 }
	from, to, look, stop := l.part("from"), l.part("to"), l.part("look"), l.part("stop")
	switch {
	case l.part("wear").Given() || l.part("new_max").Given():
		w := wear.Limits{NewMin: l.part("new_min"), NewMax: l.part("new_max"), Wear: l.part("wear")}
		if !w.Wear.Given() {
			w.Wear = l.part("min")
		}
		f, err := w.Judge(m)
		if err != nil {
			return Cant, small(err.Error())
		}
		of := short(m) + " of " + short(w.Wear)
		switch f.Verdict {
		case wear.New:
			return Inside, "new, " + short(m) + ", new " + short(w.NewMin) + " to " + short(w.NewMax)
		case wear.Serviceable:
			return Inside, "serviceable, " + of
		case wear.AtEdge:
			return AtEdge, of + ". The limit itself still counts as inside"
		case wear.Reject:
			return Outside, short(m) + ", limit " + short(w.Wear)
		}
		return Cant, "not new, and no wear limit on file"
	case from.Given() && to.Given():
		window := short(from) + " to " + short(to)
		switch {
		case under(from) || over(to):
			return Outside, short(m) + ", accepted " + window
		case !over(from) || !under(to):
			return AtEdge, short(m) + ", accepted " + window + ". The limit itself still counts as inside"
		}
		return Inside, short(m) + ", accepted " + window
	case look.Given() && stop.Given():
		limits := "look from " + short(look) + ", stop above " + short(stop)
		switch {
		case over(stop):
			return Outside, short(m) + ", " + limits
		case !under(look):
			return AtEdge, short(m) + ", " + limits
		}
		return Inside, short(m) + ", " + limits
	}
	if most := l.part("max"); most.Given() {
		edge, err := most.Value.Mul(quantity.MustDecimal("0.95"))
		switch {
		case over(most):
			return Outside, short(m) + ", limit " + short(most)
		case err == nil && !under(quantity.Measured{Value: edge, Unit: most.Unit}):
			return AtEdge, short(m) + " of " + short(most) + ". The limit itself still counts as inside"
		}
		return Inside, short(m) + ", limit " + short(most)
	}
	least := l.least()
	if !least.Given() {
		return Cant, small(noLimit)
	}
	edge, err := least.Value.Mul(quantity.MustDecimal("1.05"))
	word := "at least "
	if look.Given() {
		word = "look below "
	}
	switch {
	case under(least):
		return Outside, short(m) + ", " + word + short(least)
	case err == nil && !over(quantity.Measured{Value: edge, Unit: least.Unit}):
		return AtEdge, short(m) + ", " + word + short(least) + ". The limit itself still counts as inside"
	}
	return Inside, short(m) + ", " + word + short(least)
}

// judge holds one figure of an entry against an item.
func (b *Book) judge(f *Facts, box, at, label, item string, m quantity.Measured) Judged {
	l := b.limitOf(item, f.Card)
	chip, why := l.against(m)
	return Judged{box, at, label, m, verdictOf(chip, sentence(capital(why))), l.src}
}

// Judge is every verdict on an entry.
func (b *Book) judgeAll(f *Facts) (all []Judged) {
	add := func(j Judged) { all = append(all, j) }
	each := func(box string, item func(at string) string) {
		i := f.Kind.box(box)
		v := &f.Boxes[i]
		for _, c := range v.At {
			add(b.judge(f, box, c.At, capital(f.Kind.Boxes[i].Per.said(c.At)), item(c.At), v.measured(c.At)))
		}
	}
	one := func(box, item string) {
		if v := f.get(box); v.given() {
			add(b.judge(f, box, "", f.Kind.Boxes[f.Kind.box(box)].Label, item, v.M))
		}
	}
	always := func(item string) func(string) string { return func(string) string { return item } }
	switch f.Kind {
	case &compressionSet:
		v := f.get("values")
		for _, c := range v.At {
			chip, why, src := b.againstLook(f, v.measured(c.At))
			add(Judged{"values", c.At, "Cylinder " + c.At, v.measured(c.At), verdictOf(chip, sentence(capital(why))), src})
		}
	case &clearances:
		for _, box := range []string{"found", "left"} {
			each(box, func(at string) string {
				if at[len(at)-1] == 'i' {
					return "valve_inlet"
				}
				return "valve_exhaust"
			})
		}
	case &dimensions:
		for _, m := range b.boreSheet(f) {
			add(b.judge(f, "", "", m.label, m.item, m.m))
		}
		each("items", func(at string) string { return at })
		for _, m := range b.tops(f) {
			add(b.judge(f, "tops", m.item, m.label, "top_height", m.m))
		}
	case &points:
		each("found", always("points_gap"))
		each("left", always("points_gap"))
	case &plugs:
		each("gap", always("plug_gap"))
	case &drops:
		each("drop", always("drop"))
		v := f.get("drop")
		if l, r := v.measured("left"), v.measured("right"); l.Given() && r.Given() {
			if d, err := r.Value.Sub(l.Value); err == nil {
				add(b.judge(f, "", "", "Difference", "drop_difference", quantity.Measured{Value: d.Abs(), Unit: v.Unit}))
			}
		}
	case &overnight:
		q, _ := quarts(f.get("lost").M)
		verdict, line := b.againstOvernight(q, LimitLine{})
		add(Judged{"lost", "", "Gone from the tank", f.get("lost").M, verdict, line.Source})
	case &beforeTakeoff:
		one("oil_temp", "oil_temp_takeoff")
		one("cht", "cht_takeoff") // no limit of oil pressure here: those on a card are for cruise and for idle
	case &run:
		one("cht", "cht")
		one("oil_temp", "oil_temp")
	case &flight:
		one("cht", "cht")
		one("oil_temp", "oil_temp")
		one("oil_pressure", "oil_pressure")
	case &torqueDone:
		add(b.judgeTorque(f))
	case &timing:
		if words := b.linkTiming(f); words != "" {
			add(Judged{"cyl", "", "Timing", quantity.Measured{}, verdictOf(Cant, words), nil})
		} else {
			add(Judged{"found", "", "Timing", quantity.Measured{}, verdictOf(Cant, "The maker’s data say how far off is too far."), nil})
		}
	case &screen:
		if c := f.get("count"); f.text("answer") == "" && (!c.given() || c.sum() > 0) {
			add(Judged{"count", "", "Metal", quantity.Measured{}, verdictOf(Cant, "Metal is for a mechanic to look at. Show the photographs, with a scale."), nil})
		}
	case &pulled:
		if f.stop() {
			add(Judged{"feel", "", "Pull-through", quantity.Measured{}, verdictOf(Stopped, "Do not turn the propeller."), nil})
		}
	}
	return all
}

// gravest is the verdict an entry is marked with: a stop, then outside, at the edge, and what
// can't be judged before what is inside, because then something is not known.
func gravest(all []Judged) *Judged {
	rank := func(c Chip) int {
		return map[Chip]int{Inside: 1, Cant: 2, AtEdge: 3, Outside: 4, Stopped: 5}[c]
	}
	var worst *Judged
	for i := range all {
		if worst == nil || rank(all[i].Chip) > rank(worst.Chip) {
			worst = &all[i]
		}
	}
	return worst
}

// judgeTorque holds the torque wanted against the joint of the torque card.
func (b *Book) judgeTorque(f *Facts) Judged {
	joint := f.text("joint")
	j := Judged{Box: "wanted", Label: "Torque", Value: f.get("wanted").M}
	s := b.sheet("torque", partOf(joint))
	if f.Card != nil {
		if s = b.pinned(f.Card); s == nil {
			j.Verdict = verdictOf(Cant, "The card it was judged by, "+f.Card.Card+" version "+itoa(f.Card.Version)+", is not on this phone.")
			return j
		}
	} else if s.found != "one" {
		j.Verdict = verdictOf(Cant, "No value on file. Add the page it stands on.")
		return j
	}
	if at, ok := s.item("joints", joint); ok {
		final := at.item.Get("final")
		l := held{item: final, u: quantity.Unit(final.Get("u").Text())}
		j.Source = at.src
		if v := l.part("v"); v.Given() {
			c, err := quantity.Compare(f.get("wanted").M, v)
			j.Verdict = verdictOf(Inside, "As on the card: "+short(v)+".")
			if err != nil || c != 0 {
				j.Verdict = verdictOf(Outside, short(f.get("wanted").M)+", the card says "+short(v)+".")
			}
			return j
		}
		chip, why := l.against(f.get("wanted").M)
		if chip == AtEdge {
			chip = Inside // either end of a range of torque is as good as the other
		}
		j.Verdict = verdictOf(chip, sentence(capital(why)))
		return j
	}
	j.Verdict = verdictOf(Cant, "This joint is not on the card.")
	return j
}

// verdicts writes what a form's figures come to.
func (f *Form) verdicts(w *plain.Writer) {
	w.Open("verdicts", '[')
	if !f.d.stuck() {
		for _, j := range f.d.book.judgeAll(f.body) {
			j.write(w)
		}
	}
	w.End(']')
}

func (j *Judged) write(w *plain.Writer) {
	w.Begin('{')
	w.Text("box", j.Box)
	w.Text("at", j.At)
	w.Text("label", j.Label)
	w.Text("value", short(j.Value))
	j.Verdict.write(w, "verdict")
	j.Source.write(w, "source")
	w.End('}')
}
