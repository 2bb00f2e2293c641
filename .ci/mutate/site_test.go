package main

import (
	"fmt"
	"go/format"
	"slices"
	"strings"
	"testing"
)

// Every change there is, on one line each, and nothing where nothing is arithmetic.
func TestSites(t *testing.T) {
	const src = `package p

import "math"

var names = [12]string{}

func f(a, b float64, s string) float64 {
	if a < b && b != 0 {
		return -a * 2.5
	}
	a += math.Min(a, b) / 4
	s = s + "more"
	if a >= 1 {
		b = 3 - a
	}
	return a
}
`
	want := []string{
		"8 guard dropped: a < b && b != 0 > false && (a < b && b != 0)",
		"8 && to ||: && > ||",
		"8 < to <=: < > <=",
		"8 != to ==: != > ==",
		"8 plus 1: 0 > (0 + 1)",
		"9 * to /: * > /",
		"9 minus dropped: - > +",
		"9 plus 1: 2.5 > (2.5 + 1)",
		"9 times 12: 2.5 > (2.5 * 12)",
		"11 + to -: += > -=",
		"11 / to *: / > *",
		"11 min, max: Min > Max",
		"11 plus 1: 4 > (4 + 1)",
		"11 times 12: 4 > (4 * 12)",
		"13 >= to >: >= > >",
		"13 plus 1: 1 > (1 + 1)",
		"13 times 12: 1 > (1 * 12)",
		"14 - to +: - > +",
		"14 plus 1: 3 > (3 + 1)",
		"14 times 12: 3 > (3 * 12)",
	}
	sites, err := sitesIn("p.go", []byte(src))
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, s := range sites {
		got = append(got, fmt.Sprintf("%d %s: %s > %s", s.line, s.operator, s.source[s.from:s.to], s.with))
		if m := s.mutant(); string(m) == src {
			t.Errorf("%v changes nothing", s)
		} else if _, err := format.Source(m); err != nil {
			t.Errorf("%v: %v", s, err)
		}
	}
	if !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// The order depends on the seed and the package, holds every site once, and takes
// the groups in turn.
func TestDraw(t *testing.T) {
	var sites []site
	for i := range 40 {
		sites = append(sites, site{line: i, group: []string{"sign", "unit", "unit", "unit", "boundary", "logic"}[i%6]})
	}
	lines := func(order []site) []int {
		var out []int
		for _, s := range order {
			out = append(out, s.line)
		}
		return out
	}
	a, b := draw(sites, 1, "./p"), draw(sites, 1, "./p")
	if !slices.Equal(lines(a), lines(b)) || slices.Equal(lines(a), lines(draw(sites, 2, "./p"))) || slices.Equal(lines(a), lines(draw(sites, 1, "./q"))) {
		t.Error("the draw does not follow seed and package")
	}
	for i, want := range []string{"sign", "unit", "boundary", "logic", "sign", "unit", "boundary", "logic"} {
		if a[i].group != want {
			t.Errorf("mutant %d is of %s, want %s", i, a[i].group, want)
		}
	}
	all := lines(a)
	slices.Sort(all)
	if len(slices.Compact(all)) != len(sites) {
		t.Error("a site is lost")
	}
}
