package book

import (
	"linkrod/radial/compression"
	"linkrod/radial/quantity"
	"linkrod/radial/wear"
)

// What sheets of the inside of an engine say: bores, top heights, and whether a tester or a
// cylinder was the right one.

// boreOf is the nominal bore: of the sheet, of the engine's own file, of its engine card.
func (b *Book) boreOf(f *Facts) quantity.Measured {
	if n := f.get("nominal"); n.given() {
		return n.M
	}
	if v, ok := b.value("bore"); ok {
		return v.M
	}
	if l := b.engineFigure("bore"); l.Given() {
		return l
	}
	return quantity.Measured{}
}

// engineFigure is a figure of the engine card that applies.
func (b *Book) engineFigure(id string) quantity.Measured {
	l, _ := b.sheet("engine", "").item("figures", id)
	return l.part("v")
}

// measure is something worked out from a sheet.
type measure struct {
	item, label string
	m           quantity.Measured
}

// boreSheet is wear and out-of-round of a station grid. Stations are numbered from the head
// down; a is fore and aft, b side to side (AC 43.13-1B and maker sheets measure so; the
// letters are ours). Taper and choke are not worked out here: they are items of the sheet,
// since which stations they are between is the maker's to say.
//
//	out-of-round = most |a − b| of a station
//	wear         = largest reading − nominal
func (b *Book) boreSheet(f *Facts) (all []measure) {
	v := f.get("bore")
	var most quantity.Measured
	var oval quantity.Measured
	for k := 1; k <= 5; k++ {
		a, s := v.measured(itoa(k)+"a"), v.measured(itoa(k)+"b")
		for _, m := range []quantity.Measured{a, s} {
			if m.Given() && (!most.Given() || m.Value.Compare(most.Value) > 0) {
				most = m
			}
		}
		if a.Given() && s.Given() {
			if d, err := a.Value.Sub(s.Value); err == nil && (!oval.Given() || d.Abs().Compare(oval.Value) > 0) {
				oval = quantity.Measured{Value: d.Abs(), Unit: v.Unit}
			}
		}
	}
	thou := func(m quantity.Measured) quantity.Measured {
		if t, err := m.Exactly(quantity.UnitThou); err == nil {
			t.Value = t.Value.Shortest()
			return t
		}
		return m
	}
	if nominal := b.boreOf(f); most.Given() && nominal.Given() {
		if w, err := wear.Wear(most, nominal); err == nil {
			all = append(all, measure{"bore_wear", "Bore over nominal", thou(w)})
		}
	}
	if oval.Given() {
		all = append(all, measure{"out_of_round", "Out-of-round", thou(oval)})
	}
	return all
}

// tops is how far each cylinder's top is below its mirror's: nothing else compares, since
// every link rod stands otherwise.
func (b *Book) tops(f *Facts) (all []measure) {
	v := f.get("tops")
	n, master := b.engine.cylinders, b.engine.master
	for k := 1; k <= n; k++ {
		o := mirror(k, master, n)
		low, high := v.measured(itoa(k)), v.measured(itoa(o))
		if o == k || !low.Given() || !high.Given() || low.Value.Compare(high.Value) > 0 || low.Value.Compare(high.Value) == 0 && k > o {
			continue
		}
		if d, err := high.Value.Sub(low.Value); err == nil {
			all = append(all, measure{itoa(k), "Cylinder " + itoa(k) + " below its mirror, " + itoa(o), quantity.Measured{Value: d, Unit: v.Unit}})
		}
	}
	return all
}

// wrongOrifice says that the tester's orifice is not the one the bore needs, "" if it is or
// if either is not known.
func (b *Book) wrongOrifice(f *Facts) string {
	bore, is := b.boreOf(f), f.get("orifice").M
	if !bore.Given() || !is.Given() {
		return ""
	}
	wants, err := compression.OrificeFor(bore)
	if err != nil {
		return ""
	}
	c, err := quantity.Compare(is, wants)
	if err != nil || c == 0 {
		return ""
	}
	reads := "low"
	if c > 0 {
		reads = "high"
	}
	return "Wrong orifice for this bore. " + short(bore) + " needs " + wants.Value.Show() + "; " + is.Value.Show() + " reads too " + reads + ". Take the set again."
}

// linkTiming says that the timing was measured on a cylinder that does not time the engine.
func (b *Book) linkTiming(f *Facts) string {
	k, times := atoi(f.text("cyl")), b.engine.master
	if m := b.engineFigure("timing_cylinder"); m.Given() {
		times = atoi(m.Value.Text())
	}
	switch {
	case k == 0 || k == times:
		return ""
	case times == 0:
		return "Can’t judge: which cylinder times this engine is not on file."
	}
	return "Can’t judge: cylinder " + itoa(k) + " hangs on a link rod. Only the master’s cylinder, " + itoa(times) + ", times this engine."
}
