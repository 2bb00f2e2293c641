package book

import (
	"math"
	"strconv"

	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// Ring is the engine as it is drawn, seen from one side and from the other.
type Ring struct {
	Cylinders int
	Master    *int
	View      string
	Caption   string
	Low       string
	Limit     string      // what the heads are judged by: "Look below 65 psi"
	Source    *SourceLine // where it stands
	None      string      // why the heads are not judged, when there is a set and no limit
	Spoken    string
	Heads     []Head
	Flipped   []Head
}

// Head is one cylinder's head.
type Head struct {
	K      int
	Angle  float64 // clockwise from the top, as drawn
	Low    bool
	Text   string
	Chip   *Chip
	Spoken string
}

// measures are what the ring can be drawn by, in the order they are offered.
const measures = "compression=Compression|clearances=Clearances|hours=Hours on the cylinder|drained=Ran out|plugs=Plugs|findings=Findings"

// Ring draws the engine by one measure; "" is compression. Cylinders are numbered clockwise
// from the cockpit, number 1 at the top (common practice, no source).
func (b *Book) Ring(measure string, now Now) Ring {
	now = b.today(now)
	n := b.engine.cylinders
	r := Ring{Cylinders: n, View: "cockpit", Heads: []Head{}, Flipped: []Head{}}
	if v := b.text("view"); v != "" {
		r.View = v
	}
	head := b.heads1(measure, &r, now)
	if n == 0 {
		r.Spoken = "The number of cylinders is not on file."
		return r
	}
	if m := b.engine.master; m > 0 {
		r.Master = &m
	}
	for k := 1; k <= n; k++ {
		h := Head{K: k, Angle: cockpitAngle(k, n), Low: hangsLow(k, n)}
		text, chip, said := head(k)
		h.Text, h.Chip, h.Spoken = orNot(text, "–"), chip, "Cylinder "+strconv.Itoa(k)+", "+orNot(said, "not known")
		if h.Low {
			h.Spoken += ", oil can pool here"
			if r.Low != "" {
				r.Low += " "
			}
			r.Low += strconv.Itoa(k)
		}
		if m := mirror(k, b.engine.master, n); m != 0 && m != k {
			h.Spoken += ", mirror of " + strconv.Itoa(m)
		}
		other := h
		other.Angle = math.Mod(360-h.Angle, 360)
		r.Heads, r.Flipped = append(r.Heads, h), append(r.Flipped, other)
	}
	clock := "clockwise"
	if r.View == "propeller" {
		r.Heads, r.Flipped = r.Flipped, r.Heads
		clock = "anticlockwise"
	}
	r.Low += " hang low, oil can pool there"
	r.Spoken = "Engine ring, " + strconv.Itoa(n) + " cylinders, seen from the " + r.View +
		", number 1 at the top, numbers run " + clock + "."
	if r.Master != nil {
		r.Spoken += " Master rod in " + strconv.Itoa(*r.Master) + "."
	}
	return r
}

// heads1 is what stands in each head, with its caption.
func (b *Book) heads1(measure string, r *Ring, now Now) func(k int) (text string, chip *Chip, said string) {
	caption := func(f *Facts, words string) {
		r.Caption = words
		if f != nil && f.Day != "" {
			r.Caption += ", " + shortDay(f.Day, now.Day)
		}
	}
	none := func(int) (string, *Chip, string) { return "", nil, "" }
	switch measure {
	case "clearances":
		f := b.lastOf(&clearances)
		if f == nil {
			r.Caption = "No clearances written yet"
			return none
		}
		caption(f, "Valve clearances, inlet and exhaust, thou")
		all := b.judgeAll(f)
		r.None = b.noneOf(all)
		if len(all) > 0 {
			r.Source = all[0].Source
		}
		return func(k int) (string, *Chip, string) {
			var text, said string
			var mine []Judged
			for _, end := range []string{"i", "e"} {
				at, box := itoa(k)+end, "left"
				v := f.get(box).cell(at)
				if v == "" {
					box, v = "found", f.get("found").cell(at)
				}
				text += map[string]string{"i": "", "e": "/"}[end] + orNot(v, "–")
				said += map[string]string{"i": "inlet ", "e": ", exhaust "}[end] + orNot(v, "not known")
				for _, j := range all {
					if j.Box == box && j.At == at {
						mine = append(mine, j)
						said += ", " + small(j.Word)
					}
				}
			}
			if worst := gravest(mine); worst != nil {
				return text, &worst.Chip, said
			}
			return "", nil, ""
		}
	case "hours":
		r.Caption = "Hours on each cylinder"
		return func(k int) (string, *Chip, string) {
			s := b.onCylinder(k)
			if !s.hours.Given() {
				return "", nil, ""
			}
			if !s.whole {
				return "", nil, "at least " + short(s.hours)
			}
			return s.hours.Value.Show(), nil, short(s.hours)
		}
	case "drained":
		var f *Facts
		for i := len(b.lines) - 1; i >= 0 && f == nil; i-- {
			if o, ok := b.lines[i].body.(*Facts); ok && b.lines[i].used() && o.Kind == &pulled && o.get("drained").given() {
				f = o
			}
		}
		if f == nil {
			r.Caption = "Nothing that ran out is written"
			return none
		}
		caption(f, "Ran out, fl oz")
		return func(k int) (string, *Chip, string) {
			v := f.get("drained").cell(itoa(k))
			if v == "" {
				return "", nil, "not drained"
			}
			return v, nil, inWords(f.get("drained").measured(itoa(k))) + " ran out"
		}
	case "plugs":
		f := b.lastOf(&plugs)
		if f == nil {
			r.Caption = "No plugs looked at yet"
			return none
		}
		caption(f, "Plugs, front and rear")
		return func(k int) (string, *Chip, string) {
			of := f.Kind.Boxes[0].Of
			front, rear := wordOf(of, f.get("state").cell(itoa(k)+"f")), wordOf(of, f.get("state").cell(itoa(k)+"r"))
			if front == "" && rear == "" {
				return "", nil, ""
			}
			return orNot(front, "–") + "/" + orNot(rear, "–"), nil, "front " + orNot(front, "not known") + ", rear " + orNot(rear, "not known")
		}
	case "findings":
		r.Caption = "Open findings"
		open := b.openFindings()
		return func(k int) (string, *Chip, string) {
			n, said := 0, ""
			for _, l := range open {
				if f := l.body.(*Facts); f.text("cyl") == itoa(k) {
					n++
					said += ", " + f.text("words")
				}
			}
			if n == 0 {
				return "", nil, "no open finding"
			}
			return itoa(n), nil, counted(n, "open finding", "open findings") + said
		}
	}
	r.Caption = "No compression set written yet"
	set := b.lastOf(&compressionSet)
	if set == nil {
		return none
	}
	caption(set, "Compression /"+set.get("out_of").M.Value.Show())
	b.ringLimit(r, set)
	return func(k int) (string, *Chip, string) {
		set := b.compressionOf(k)
		if set == nil {
			return "", nil, ""
		}
		v := set.get("values").measured(itoa(k))
		chip, why, _ := b.againstLook(set, v)
		return v.Value.Show(), &chip, v.Value.Show() + " over " + set.get("out_of").M.Value.Show() + ", " + why
	}
}

// compressionOf is the newest set in which the cylinder that is now in a position was read,
// nil for none: a cylinder that was fitted since has not been.
func (b *Book) compressionOf(k int) *Facts {
	spells := b.spells(k)
	last := spells[len(spells)-1]
	if last.off != nil {
		return nil
	}
	on := last.on
	for i := len(b.lines) - 1; i >= 0 && b.lines[i] != on; i-- {
		if f, ok := b.lines[i].body.(*Facts); ok && b.lines[i].used() && f.Kind == &compressionSet && f.get("values").cell(itoa(k)) != "" {
			return f
		}
	}
	return nil
}

// noneOf is why nothing of it is judged, "" when something is.
func (b *Book) noneOf(all []Judged) string {
	for _, j := range all {
		if j.Chip != Cant {
			return ""
		}
	}
	if len(all) == 0 {
		return ""
	}
	return all[0].Reason
}

// ringLimit is the limit the heads are judged by with its source, or that there
// is none.
func (b *Book) ringLimit(r *Ring, set *Facts) {
	l := b.lookLimit(set)
	switch m := l.least(); {
	case m.Given():
		r.Limit, r.Source = "Look below "+short(m), l.src
		if words := b.wrongOrifice(set); words != "" {
			r.None = words
		}
	case l.none == "two limits are on file":
		r.None = "Two limits are on file and nobody has settled which holds."
	case l.none == small(noLimit):
		r.None = noLimit
	default:
		r.None = sentence(capital(l.none))
	}
}

// lookLimit is the compression to look below: of the engine's own sheet, else of the card.
func (b *Book) lookLimit(set *Facts) held {
	v, ok := b.value("compression")
	switch {
	case b.disagreed("compression"):
		return held{none: "two limits are on file"}
	case !ok:
		return b.limitOf("compression", set.Card)
	}
	var w plain.Writer
	w.Begin('{')
	w.Text("look", v.M.Value.Text())
	w.End('}')
	item, _ := plain.Parse(w.Bytes())
	return held{item: item, u: v.M.Unit, src: sourceLine(v.Source)}
}

// overEighty is the pressure a differential check is read over (AC 43.13-1B, chapter 8).
var overEighty = quantity.Of("80", quantity.UnitPsi)

// againstLook judges one cylinder's figure against the look limit. Below it is
// outside; the limit itself and the twentieth above it are at the edge. A figure
// says nothing without the tester's orifice, the right one for the bore, whether
// the engine was hot, and over another pressure than the limit's.
func (b *Book) againstLook(set *Facts, v quantity.Measured) (Chip, string, *SourceLine) {
	l := b.lookLimit(set)
	switch {
	case l.none != "":
		return Cant, l.none, nil
	case !set.get("orifice").given():
		return Cant, "the orifice is not stated", nil
	case b.wrongOrifice(set) != "":
		return Cant, "wrong orifice for this bore", nil
	case set.text("warm") != "hot":
		return Cant, "not taken hot", nil
	}
	if c, err := quantity.Compare(set.get("out_of").M, overEighty); err != nil || c != 0 {
		return Cant, "taken over " + short(set.get("out_of").M) + ", and limits are over " + short(overEighty), nil
	}
	chip, _ := l.against(v)
	return chip, map[Chip]string{Outside: "outside", AtEdge: "at edge", Inside: "inside"}[chip] + ", look below " + short(l.least()), l.src
}

// cockpitAngle is where cylinder k of n stands, in degrees clockwise from the
// top as seen from the cockpit.
func cockpitAngle(k, n int) float64 { return 360 / float64(n) * float64(k-1) }

// hangsLow reports that the head is below the middle: cos(angle) < 0. That is
// so for k-1 strictly between a quarter and three quarters of n.
func hangsLow(k, n int) bool { return 4*(k-1) > n && 4*(k-1) < 3*n }

// mirror is the cylinder as far from the master on the other side,
// (2m - k) mod n. 0 when the master is not known.
func mirror(k, master, n int) int {
	if master == 0 || n == 0 {
		return 0
	}
	return ((2*master-k)%n+n-1)%n + 1
}
