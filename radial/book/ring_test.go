package book

import (
	"math"
	"strings"
	"testing"
)

// Which cylinders hang low, and where they stand, from the angle itself: 360/N
// times k-1 clockwise from the cockpit, low where the cosine is below nought
// (closed form; the lists are those of the demo scenario, trade.md 2.1 and 18.1).
func TestRing(t *testing.T) {
	for n, low := range map[int]string{5: "3 4", 7: "3 4 5 6", 9: "4 5 6 7"} {
		var got []string
		for k := 1; k <= n; k++ {
			angle := 2 * math.Pi * float64(k-1) / float64(n)
			if hangsLow(k, n) != (math.Cos(angle) < 0) {
				t.Errorf("cylinder %d of %d: low %v, cosine %v", k, n, hangsLow(k, n), math.Cos(angle))
			}
			if math.Abs(cockpitAngle(k, n)-angle*180/math.Pi) > 1e-9 {
				t.Errorf("cylinder %d of %d stands at %v", k, n, cockpitAngle(k, n))
			}
			if hangsLow(k, n) {
				got = append(got, itoa(k))
			}
		}
		if strings.Join(got, " ") != low {
			t.Errorf("of %d, %v hang low, want %s", n, got, low)
		}
	}
}

// Mirrors of the demo scenario: (2,7) (3,6) (4,5) about master 1 of 7; (1,9)
// (2,8) (3,7) (4,6) about master 5 of 9.
func TestMirror(t *testing.T) {
	for _, c := range []struct{ k, master, n, want int }{
		{1, 1, 7, 1}, {2, 1, 7, 7}, {3, 1, 7, 6}, {4, 1, 7, 5}, {7, 1, 7, 2},
		{1, 5, 9, 9}, {2, 5, 9, 8}, {3, 5, 9, 7}, {4, 5, 9, 6}, {5, 5, 9, 5}, {9, 5, 9, 1},
		{3, 0, 7, 0},
	} {
		if got := mirror(c.k, c.master, c.n); got != c.want {
			t.Errorf("about %d of %d, %d mirrors %d, want %d", c.master, c.n, c.k, got, c.want)
		}
		if m := mirror(c.k, c.master, c.n); c.master > 0 && mirror(m, c.master, c.n) != c.k {
			t.Errorf("%d of %d is not the mirror of its mirror", c.k, c.n)
		}
	}
}

// Seen from the propeller the ring is turned round: same heads, angles mirrored,
// the same ones low.
func TestRingFromThePropeller(t *testing.T) {
	b, f := demo(t, "e2")
	p := &phone{t: t, device: "bb", records: f.Records(), seen: len(b.lines)}
	p.setting("view", `"propeller"`, b.heads["view"][0].key)
	r := Open(p.records).View("", Now{}).Ring
	if !strings.Contains(r.Spoken, "seen from the propeller, number 1 at the top, numbers run anticlockwise.") {
		t.Errorf("spoken: %s", r.Spoken)
	}
	for i, h := range r.Heads {
		o := r.Flipped[i]
		if math.Abs(math.Mod(h.Angle+o.Angle, 360)) > 1e-9 || h.Low != o.Low || h.Text != o.Text || h.K != o.K {
			t.Errorf("%+v turns into %+v", h, o)
		}
	}
}

// Each head is judged against the look limit: the limit itself is at the edge,
// as is the twentieth above it, and a set that does not say how it was taken is
// not judged (common practice, no source; trade.md 15 for equality).
func TestHeadAgainstLook(t *testing.T) {
	set := func(how, v string) string {
		return `{"type":"compression","hours":{"v":"20","u":"h"},"out_of":{"v":"80","u":"psi"}` + how + `,"values":{"u":"psi","at":{"1":"` + v + `"}}}`
	}
	const hot = `,"orifice":{"v":"0.060","u":"in"},"warm":"hot"`
	limit := `{"value":{"v":"65","u":"psi"},"source":{"document":"DEMO sheet","page":"2","typed_by":"Ann"}}`
	for _, c := range []struct{ limit, set, spoken string }{
		{limit, set(hot, "64.9"), "64.9 over 80, outside, look below 65 psi"},
		{limit, set(hot, "65"), "65 over 80, at edge, look below 65 psi"},
		{limit, set(hot, "68.25"), "68.25 over 80, at edge, look below 65 psi"},
		{limit, set(hot, "68.26"), "68.26 over 80, inside, look below 65 psi"},
		{limit, set(`,"warm":"hot"`, "76"), "76 over 80, the orifice is not stated"},
		{limit, set(`,"orifice":{"v":"0.060","u":"in"}`, "76"), "76 over 80, not taken hot"},
		{"", set(hot, "76"), "76 over 80, no limit on file"},
	} {
		p := &phone{t: t, device: "aa"}
		p.write("fact", `{"type":"engine"}`)
		p.setting("cylinders", `"7"`)
		if c.limit != "" {
			p.setting("compression", c.limit)
		}
		p.write("fact", c.set)
		r := Open(p.records).View("", Now{}).Ring
		if r.Heads[0].Spoken != "Cylinder 1, "+c.spoken {
			t.Errorf("%q, want %q", r.Heads[0].Spoken, c.spoken)
		}
		// The verdicts stand beside their limit and its source, or there is none and it says so.
		if on := c.limit != ""; (r.Source != nil) != on || (r.None == "") != on || (r.Limit == "Look below 65 psi") != on {
			t.Errorf("%q: judged by %q, source %v, none %q", c.spoken, r.Limit, r.Source, r.None)
		}
	}
}
