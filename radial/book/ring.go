package book

import (
	"math"
	"strconv"

	"linkrod/radial/quantity"
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

// ring draws the engine with its last compression set. Cylinders are numbered
// clockwise from the cockpit, number 1 at the top (common practice, no source).
func (b *Book) ring(now Now) Ring {
	n := b.engine.cylinders
	r := Ring{Cylinders: n, View: "cockpit", Caption: "No compression set written yet", Heads: []Head{}, Flipped: []Head{}}
	if v := b.text("view"); v != "" {
		r.View = v
	}
	if n == 0 {
		r.Spoken = "The number of cylinders is not on file."
		return r
	}
	if m := b.engine.master; m > 0 {
		r.Master = &m
	}
	set, day := b.lastCompression()
	over := ""
	if set != nil {
		over = set.OutOf.Value.Show()
		r.Caption = "Compression /" + over
		if day != "" {
			r.Caption += ", " + shortDay(day, now.Day)
		}
		b.ringLimit(&r)
	}
	for k := 1; k <= n; k++ {
		h := Head{K: k, Angle: cockpitAngle(k, n), Text: "–"}
		h.Low = hangsLow(k, n)
		h.Spoken = "Cylinder " + strconv.Itoa(k)
		if v, ok := set.of(k); ok {
			chip, why := b.againstLook(set, v)
			h.Text, h.Chip = v.Show(), &chip
			h.Spoken += ", " + v.Show() + " over " + over + ", " + why
		} else {
			h.Spoken += ", not known"
		}
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

// ringLimit is the limit the heads are judged by with its source, or that there
// is none.
func (b *Book) ringLimit(r *Ring) {
	v, ok := b.value("compression")
	switch {
	case ok:
		r.Limit, r.Source = "Look below "+short(v.M), sourceLine(v.Source)
	case b.disagreed("compression"):
		r.None = "Two limits are on file and nobody has settled which holds."
	default:
		r.None = noLimit
	}
}

// againstLook judges one cylinder's figure against the look limit. Below it is
// outside; the limit itself and the twentieth above it are at the edge. A figure
// says nothing without the tester's orifice and whether the engine was hot.
func (b *Book) againstLook(set *Compression, v quantity.Decimal) (Chip, string) {
	limit, ok := b.value("compression")
	switch {
	case b.disagreed("compression"):
		return Cant, "two limits are on file"
	case !ok:
		return Cant, "no limit on file"
	case !set.Orifice.Given():
		return Cant, "the orifice is not stated"
	case set.Warm != "hot":
		return Cant, "not taken hot"
	}
	look := limit.M.Value
	edge, err := look.Mul(quantity.MustDecimal("1.05"))
	switch {
	case err != nil:
		return Cant, "the limit is out of reach"
	case v.Compare(look) < 0:
		return Outside, "outside, look below " + short(limit.M)
	case v.Compare(edge) <= 0:
		return AtEdge, "at edge, look below " + short(limit.M)
	}
	return Inside, "inside, look below " + short(limit.M)
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

// lastCompression is the set at the highest hours, and its day.
func (b *Book) lastCompression() (*Compression, string) {
	var last *line
	for _, l := range b.lines {
		if _, ok := l.body.(*Compression); ok && l.onMeter {
			last = higher(last, l)
		}
	}
	if last == nil {
		return nil, ""
	}
	c := last.body.(*Compression)
	return c, c.Day
}

// of is cylinder k's figure in the set.
func (c *Compression) of(k int) (quantity.Decimal, bool) {
	if c != nil {
		for _, v := range c.Values {
			if v.Cyl == k {
				return v.V, true
			}
		}
	}
	return quantity.Decimal{}, false
}
