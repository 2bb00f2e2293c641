package book

import (
	"linkrod/radial/compression"
	"linkrod/radial/quantity"
)

// Trend is what readings of one position come to over time. Only readings taken alike are
// compared; where they were not, it says why.
type Trend struct {
	Cyl   int
	Words string
	Watch bool // worth a look: never a limit
	Go    string
}

// The figures that draw the eye: a fall of 5 psi on two checks alike is compression.Usual; a
// clearance that moved more than 5 thou between two checks has a cause (both common
// practice, no source).
var movedBy = quantity.Of("5", quantity.UnitThou)

func (b *Book) trends() (all []Trend) {
	all = append(b.compressionTrend(), b.clearanceTrend()...)
	return append(all, b.lossTrend()...)
}

// compressionTrend compares each cylinder with itself, since it was fitted.
func (b *Book) compressionTrend() (all []Trend) {
	n := b.engine.cylinders
	var sets []compression.Set
	var lines []*line
	again := map[int]string{} // what was read after a valve was staked, or a run: another state
	for _, l := range b.lines {
		f, ok := l.body.(*Facts)
		if !ok || !l.used() || f.Kind != &compressionSet || b.wrongOrifice(f) != "" {
			continue
		}
		s, err := f.set(n)
		if err != nil {
			continue
		}
		if a := f.text("after"); a == "" || a == "found" {
			sets, lines, again = append(sets, s), append(lines, l), map[int]string{}
			continue
		}
		for k, r := range s.Readings {
			if r.Given() {
				again[k+1] = " After " + wordOf(f.Kind.Boxes[5].Of, f.text("after")) + " it read " + short(r) + "."
			}
		}
	}
	if len(sets) < 2 {
		return nil
	}
	for k := 1; k <= n; k++ {
		spells := b.spells(k)
		if on := spells[len(spells)-1].on; on != nil {
			for i, l := range lines {
				if l.pos < on.pos { // read on the cylinder before it
					sets[i].Readings[k-1] = quantity.Measured{}
				}
			}
		}
	}
	now := len(sets) - 1
	if d := compression.Differences(sets[now-1], sets[now]); len(d) > 0 {
		why := "The last two compression sets are not compared: "
		for i, x := range d {
			if i > 0 {
				why += ", "
			}
			why += x.String()
		}
		all = append(all, Trend{Words: why + ".", Go: "log:" + lines[now].key.String()})
	}
	trend, err := compression.Trend(sets, compression.Usual)
	if err != nil {
		return all
	}
	for _, t := range trend {
		if t.Fell || t.Drifted {
			all = append(all, Trend{t.Cylinder, t.Words() + again[t.Cylinder], true, "cyl:" + itoa(t.Cylinder)})
		}
	}
	return all
}

// clearanceTrend is how each valve's clearance moved from as left to as found: closing is a
// seat that gives way, opening is wear of the rocker or tappet.
func (b *Book) clearanceTrend() (all []Trend) {
	left := map[string]quantity.Measured{}
	moved := map[string]Trend{}
	var hot *Facts
	for _, l := range b.lines {
		f, ok := l.body.(*Facts)
		if !ok || !l.used() {
			continue
		}
		switch f.Kind {
		case &fitted:
			for _, end := range []string{"i", "e"} {
				delete(left, f.text("cyl")+end)
				delete(moved, f.text("cyl")+end)
			}
		case &clearances:
			unlike := hot != nil && (f.text("cold") != hot.text("cold") || f.text("method") != hot.text("method"))
			for _, c := range f.get("found").At {
				is, was := f.get("found").measured(c.At), left[c.At]
				delete(moved, c.At)
				k := PerValve.cylinder(c.At)
				if !was.Given() {
					continue
				}
				if unlike {
					moved[c.At] = Trend{Cyl: k, Words: capital(PerValve.said(c.At)) + " is not compared: taken by another method, or not both cold.", Go: "cyl:" + itoa(k)}
					continue
				}
				by, err := quantity.Add(is, quantity.Measured{Value: was.Value.Neg(), Unit: was.Unit})
				if err != nil {
					continue
				}
				size := quantity.Measured{Value: by.Value.Abs(), Unit: by.Unit}
				if over, err := quantity.Compare(size, movedBy); err == nil && over > 0 {
					way := "opened: rocker, tappet or push rod"
					if by.Value.Sign() < 0 {
						way = "closed: a seat that gives way"
					}
					moved[c.At] = Trend{k, capital(PerValve.said(c.At)) + ", " + short(was) + " left and " + short(is) + " found, " + short(size) + " " + way + ". Find the cause.", true, "cyl:" + itoa(k)}
				}
			}
			for _, box := range []string{"found", "left"} {
				for _, c := range f.get(box).At {
					left[c.At] = f.get(box).measured(c.At)
				}
			}
			hot = f
		}
	}
	for _, at := range PerValve.places(b.engine.cylinders) {
		if t, ok := moved[at]; ok {
			all = append(all, t)
		}
	}
	return all
}

// lossTrend is the loss a day while standing, where the last two looks at it say that it rises.
func (b *Book) lossTrend() []Trend {
	var a, c *Facts
	for _, l := range b.lines {
		if f, ok := l.body.(*Facts); ok && l.used() && f.Kind == &overnight {
			a, c = c, f
		}
	}
	if a == nil {
		return nil
	}
	was, e1 := a.perDay()
	is, e2 := c.perDay()
	if e1 != nil || e2 != nil || is <= was*1.1 {
		return nil
	}
	return []Trend{{Words: "Loss while standing rises: " + figure(was, 2) + " qt a day before, " + figure(is, 2) + " now. Look at the check valve.", Watch: true, Go: "standing"}}
}

// perDay is quarts a day.
func (f *Facts) perDay() (float64, error) {
	q, e1 := f.get("lost").M.Volume()
	h, e2 := f.get("lasted").M.Hours()
	if err := first(e1, e2); err != nil {
		return 0, err
	}
	return q.Quarts() / h.Hours() * 24, nil
}
