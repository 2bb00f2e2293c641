package torque

import (
	"math"
	"strconv"
	"strings"

	"linkrod/radial/quantity"
)

// Thread is a screw thread of 60°: unified, in inches and threads to the inch, or
// metric. It is made by ParseThread and always valid; the zero Thread is none.
type Thread struct {
	name   string
	d, p   quantity.Length // major diameter, pitch
	metric bool
}

// String is the usual name: "7/16-20", "10-32", "1-1/8-12", "M10x1.25".
func (t Thread) String() string { return t.name }

// Diameter is D, the major diameter.
func (t Thread) Diameter() quantity.Length { return t.d }

// Pitch is P, the distance from thread to thread.
func (t Thread) Pitch() quantity.Length { return t.p }

// StressArea is the tensile stress area: that of a plain rod which would break at the
// same load, the circle half-way between the pitch and the minor diameter.
//
//	At = π/4 (D − 0.9743/n)²      unified, ASME B1.1, n threads to the inch
//	As = π/4 (d − 0.9382 P)²      metric, ISO 898-1
//
// Printed tables agree to their rounding, within 0.5 %. Two are known to slip: a web page
// has 0.0163 for 7/16-14, which is 0.1063, and one textbook 0.0088 for no. 5-44, which is
// 0.0083.
func (t Thread) StressArea() quantity.Area {
	lost := 0.9743 * t.p
	if t.metric {
		lost = 0.9382 * t.p
	}
	return quantity.Circle(t.d - lost)
}

// ParseThread reads a thread as it is written on a drawing or said over a bench:
//
//	7/16-20   7/16-20 UNF   1-1/8-12   10-32   #10-32   no. 10-32   .4375-20   M10   M10x1.25
//
// A numbered screw size n is 0.060 + 0.013 n in. A bare 1 to 4 with fewer than 24 threads
// is inches, with more a number. M and a diameter alone is the coarse thread. Where the
// name says fine or coarse and the threads say otherwise it is refused with both.
// Whitworth and other 55° forms are not taken: another area belongs to them.
func ParseThread(typed string) (Thread, error) {
	s := strings.ToLower(strings.Join(strings.Fields(tidy.Replace(typed)), " "))
	if len(s) > 40 || s == "" {
		return Thread{}, noThread(typed)
	}
	if rest, ok := strings.CutPrefix(s, "m"); ok {
		return metric(rest, typed)
	}
	return unified(s, typed)
}

var tidy = strings.NewReplacer("×", "x", "–", "-", "—", "-", "‑", "-", "−", "-", `"`, " ", "”", " ", "″", " ")

func noThread(typed string) error {
	return problem("thread", "“", short(typed), "” is no thread known here. Type size and threads to the inch as 7/16-20 or 10-32, or a metric thread as M10x1.25.")
}

// short is what was typed, cut to what a sentence has room for.
func short(typed string) string {
	typed = strings.ToValidUTF8(typed, "\uFFFD")
	if r := []rune(typed); len(r) > 20 {
		return string(r[:20]) + "…"
	}
	return typed
}

func unified(s, typed string) (Thread, error) {
	numbered := false
	for _, mark := range []string{"no.", "no", "#"} {
		if rest, ok := strings.CutPrefix(s, mark); ok {
			s, numbered = strings.TrimSpace(rest), true
			break
		}
	}
	s, series := s, ""
	if i := strings.IndexAny(s, "un"); i >= 0 {
		s, series = strings.Trim(s[:i], " -"), s[i:]
	}
	cut := strings.LastIndexAny(s, "-x")
	if cut < 0 {
		return Thread{}, noThread(typed)
	}
	size, err := quantity.ParseNumber(s[:cut])
	n, err2 := strconv.Atoi(strings.TrimSpace(s[cut+1:]))
	if err != nil || err2 != nil {
		return Thread{}, noThread(typed)
	}
	// 10-32 is a numbered size, 1-12 an inch. From number 5 up no inch size is meant.
	if w := whole(size); w >= 0 && (numbered || n >= 24 || w > 4) && w <= 12 {
		size, numbered = quantity.MustDecimal("0.060"), true
		for range w {
			size, _ = size.Add(quantity.MustDecimal("0.013")) // twelve of them fit
		}
		s = strconv.Itoa(w)
	} else if numbered {
		return Thread{}, noThread(typed)
	} else {
		s = sixtyFourths(size)
	}
	t := Thread{name: s + "-" + strconv.Itoa(n), d: quantity.Length(size.Float64())}
	if !(t.d >= 0.06 && t.d <= 4) || n < 4 || n > 80 || 3/float64(n) > t.d.Inches() {
		return Thread{}, noThread(typed)
	}
	t.p = 1 / quantity.Length(n)
	return t, t.agrees(series)
}

// whole is a whole number from 0 up, or −1.
func whole(d quantity.Decimal) int {
	n, err := strconv.Atoi(d.Shortest().Text())
	if err != nil || n < 0 {
		return -1
	}
	return n
}

// sixtyFourths is a size as the rule says it, 7/16 or 1-1/8, or in decimals if it is no
// such fraction.
func sixtyFourths(size quantity.Decimal) string {
	v := size.Float64() * 64
	if v != math.Trunc(v) || !(v > 0 && v < 1e6) {
		return size.Shortest().Text()
	}
	n, den := int(v), 64
	for n%2 == 0 && den > 1 {
		n, den = n/2, den/2
	}
	s := ""
	if n >= den {
		s = strconv.Itoa(n / den)
		if n %= den; n > 0 {
			s += "-"
		}
	}
	if n > 0 {
		s += strconv.Itoa(n) + "/" + strconv.Itoa(den)
	}
	return s
}

func metric(s, typed string) (Thread, error) {
	dia, pitch, both := strings.Cut(s, "x")
	d, err := quantity.ParseNumber(dia)
	if err != nil {
		return Thread{}, noThread(typed)
	}
	if !both {
		if pitch = coarseMetric[d.Shortest().Text()]; pitch == "" {
			return Thread{}, problem("thread", "Which pitch has M", d.Shortest().Text(), "? Type it as M10x1.25.")
		}
	}
	p, err := quantity.ParseNumber(pitch)
	if err != nil || d.Float64() < 1 || d.Float64() > 100 || p.Sign() <= 0 || 3*p.Float64() > d.Float64() {
		return Thread{}, noThread(typed)
	}
	return Thread{
		name: "M" + d.Shortest().Text() + "x" + p.Shortest().Text(),
		d:    quantity.Length(d.Float64()) * quantity.Millimetre, p: quantity.Length(p.Float64()) * quantity.Millimetre,
		metric: true,
	}, nil
}

func (t Thread) check() error {
	if t.name == "" {
		return problem("thread", "No thread is given. Type size and threads to the inch as 7/16-20.")
	}
	return nil
}
