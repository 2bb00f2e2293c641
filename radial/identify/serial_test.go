package identify_test

import (
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"linkrod/radial/identify"
	"linkrod/radial/quantity"
)

var seed = flag.Uint64("seed", 1, "seed of the random cases; the log names it")

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// second is the error, and sees to it that what is refused comes with no answer.
func second[T any](v T, err error) error {
	if err != nil && !reflect.ValueOf(&v).Elem().IsZero() {
		return fmt.Errorf("%w, and yet an answer, %v", err, v)
	}
	return err
}

func serial(text string) identify.Serial { return must(identify.ParseSerial(text)) }
func ranges(text string) identify.Ranges { return must(identify.ParseRanges(text)) }

// wantRefusal expects a text refused in a whole sentence, and kept as it was typed.
func wantRefusal(t *testing.T, err error, typed string, why quantity.Why, part string) {
	t.Helper()
	var r *quantity.Refusal
	if !errors.As(err, &r) || err != error(r) || r.Why != why || r.Typed != typed || !strings.HasSuffix(r.Sentence, ".") || !strings.Contains(r.Sentence, part) {
		t.Errorf("%q refused for %s (%s): %#v", typed, why, part, err)
	}
}

func TestParseSerial(t *testing.T) {
	for _, tt := range []struct{ typed, want, prefix string }{
		{"1187", "1187", ""},
		{" B-0711 ", "B-0711", "B"},
		{"b0711", "B-0711", "B"},
		{"B 711", "B-711", "B"},
		{"B--0711", "B-0711", "B"},
		{"T7-B 0711", "T7-B-0711", "T7-B"},
		{"1187A", "1187A", ""},
		{"c-2079ab", "C-2079AB", "C"},
		{"0000", "0000", ""},
		{"ABCDEFGH-123456789XYZ", "ABCDEFGH-123456789XYZ", "ABCDEFGH"},
	} {
		got, err := identify.ParseSerial(tt.typed)
		if err != nil || got.String() != tt.want || got.Prefix() != tt.prefix || !got.Given() {
			t.Errorf("%q is %q of %q, %v", tt.typed, got, got.Prefix(), err)
		}
		if back := serial(got.String()); back != got {
			t.Errorf("%q came back as %q", got, back)
		}
	}
	for _, tt := range []struct {
		typed string
		why   quantity.Why
		part  string
	}{
		{"", quantity.WhyNoNumber, "is not a serial number"},
		{"none", quantity.WhyNoNumber, "Type it as stamped"},
		{"12-34", quantity.WhyLetter, "letters may stand before"},
		{"-34", quantity.WhyLetter, "a dash or a gap"},
		{"B_34", quantity.WhyLetter, "as B-0711"},
		{"Ü34", quantity.WhyLetter, "as B-0711"},
		{"ABCDEFGHI-1", quantity.WhyLetter, ""},
		{"1ABCD", quantity.WhyLetter, ""},
		{"1234567890", quantity.WhyTooLong, "more than 9 digits"},
		{strings.Repeat("x", 50), quantity.WhyNoNumber, "“" + strings.Repeat("x", 40) + "…” is"},
		{strings.Repeat("x", 41), quantity.WhyNoNumber, "“" + strings.Repeat("x", 40) + "…” is"},
		{strings.Repeat("x", 40), quantity.WhyNoNumber, "“" + strings.Repeat("x", 40) + "” is"},
	} {
		got, err := identify.ParseSerial(tt.typed)
		wantRefusal(t, err, tt.typed, tt.why, tt.part)
		if got.Given() || got.String() != "" {
			t.Errorf("%q refused and yet %q", tt.typed, got)
		}
	}
}

func TestCompareSerials(t *testing.T) {
	rising := []string{"B-0", "B-0620", "B-620A", "B-0620B", "B-0620AA", "B-0621", "B-10000"}
	for i, a := range rising {
		for j, b := range rising {
			want := 0
			switch {
			case i < j:
				want = -1
			case i > j:
				want = 1
			}
			if got, ok := serial(a).Compare(serial(b)); got != want || !ok {
				t.Errorf("%s against %s: %d, %v", a, b, got, ok)
			}
		}
	}
	if c, ok := serial("0711").Compare(serial("711")); c != 0 || !ok {
		t.Error("noughts before a number make another number")
	}
	for _, other := range []string{"0620", "C-0620", "BB-0620"} {
		if _, ok := serial("B-0620").Compare(serial(other)); ok {
			t.Errorf("B-0620 has an order with %s", other)
		}
	}
}

// The demo's blocks and the two places where its B changes, DEMO figures; and every way
// of writing a range.
func TestRanges(t *testing.T) {
	for _, tt := range []struct{ typed, in, out string }{
		{"1001-2240", "1001 1187 2240", "1000 2241 B-1187 1187A-1 2240A"},
		{"B-0101 to B-1866", "B-0101 B-101 B-1866 B-0711 B-0711X", "B-0100 B-1867 0711 C-0711 B-1866A"},
		{"C-2001 through C-2990", "C-2001 C-2990", "C-2000 C-2991"},
		{"to B-0620", "B-0001 B-0619 B-0620", "B-0620A B-0621 0620 A-0001"},
		{"up to and including B-0620", "B-0620", "B-0621"},
		{"before B-0621", "B-0620 B-0620Z", "B-0621 B-0622"},
		{"prior to B-0621", "B-0620", "B-0621"},
		{"all before B-0621", "B-0620", "B-0621"},
		{"after B-0900", "B-0901 B-0900A B-99999", "B-0900 B-0899"},
		{"all after B-0900", "B-0901", "B-0900"},
		{"B-0901 and up", "B-0901 B-0902", "B-0900 B-0900Z C-0901"},
		{"B-0901 and subsequent", "B-0901", "B-0900"},
		{"from B-0901", "B-0901 B-0999", "B-0900"},
		{"all from B-0901", "B-0901 B-0999", "B-0900"},
		{"from B-0901 to B-0905", "B-0901 B-0905", "B-0900 B-0906"},
		{"B-0901 on", "B-0901 B-0999", "B-0900"},
		{"S/N B-0901 and later", "B-0901 B-0999", "B-0900"},
		{"Serial numbers 1001 – 1010", "1001 1010", "1000 1011"},
		{"1001 - 1010", "1001 1010", "1000 1011"},
		{"no. 1187", "1187", "1186 1188 1187A"},
		{"B-0711", "B-0711 b711", "B-0712 0711"},
		{"1001 to 1200, 1301; 1500 and up", "1001 1200 1301 1500 9999", "1201 1300 1302 1499"},
		{"all", "1 B-0001 Z-9", ""},
	} {
		rs := ranges(tt.typed)
		for _, s := range strings.Fields(tt.in) {
			if !rs.Contains(serial(s)) {
				t.Errorf("%q does not hold %s", tt.typed, s)
			}
		}
		for _, s := range strings.Fields(tt.out) {
			if x, err := identify.ParseSerial(s); err == nil && rs.Contains(x) {
				t.Errorf("%q holds %s", tt.typed, s)
			}
		}
		if !rs.Known() || rs.Contains(identify.Serial{}) {
			t.Errorf("%q: known %v, or holds no serial at all", tt.typed, rs.Known())
		}
		if back := ranges(rs.String()); back.String() != rs.String() {
			t.Errorf("%q is %q and then %q", tt.typed, rs, back)
		}
	}
	for typed, want := range map[string]string{
		"1001-2240": "1001 to 2240", "before b621": "before B-621", "after B-0900": "after B-0900", "from B-0901": "B-0901 and up",
		"thru B-0620": "to B-0620", "B-0711 to B-0711": "B-0711", "1,3 ;all": "1, 3, all",
	} {
		if got := ranges(typed).String(); got != want {
			t.Errorf("%q is %q, want %q", typed, got, want)
		}
	}
	var none identify.Ranges
	if none.Known() || none.Contains(serial("1")) || none.String() != "" {
		t.Error("ranges not known hold something")
	}
}

func TestRangesRefuse(t *testing.T) {
	for _, tt := range []struct {
		typed   string
		why     quantity.Why
		part    string
		instead string
	}{
		{"", quantity.WhyEmpty, "no serial numbers", ""},
		{" , ;", quantity.WhyEmpty, "no serial numbers", ""},
		{"up to B-0620", quantity.WhyTwoWays, "can end with B-0620 or just before it", "to B-0620|before B-0620"},
		{"B-0101 to 1866", quantity.WhyTwoWays, "letters at one end only", "B-0101 to B-1866"},
		{"0101 to B-1866", quantity.WhyRange, "two series in it, 0101 and B-1866", ""},
		{"A-1 to B-2", quantity.WhyRange, "two series", ""},
		{"2240-1001", quantity.WhyRange, "goes backwards", "1001 to 2240"},
		{"B-2 to B-1", quantity.WhyRange, "goes backwards", "B-1 to B-2"},
		{"before dawn", quantity.WhyNoNumber, "“dawn” is not", ""},
		{"1 to x", quantity.WhyNoNumber, "“x” is not", ""},
		{"x to 1", quantity.WhyNoNumber, "“x” is not", ""},
		{"1001, dawn and up", quantity.WhyNoNumber, "“dawn” is not", ""},
		{"some", quantity.WhyNoNumber, "“some” is not", ""},
		{"1-2-3", quantity.WhyLetter, "“1-2-3” is not", ""},
	} {
		rs, err := identify.ParseRanges(tt.typed)
		wantRefusal(t, err, tt.typed, tt.why, tt.part)
		var r *quantity.Refusal
		if errors.As(err, &r) && strings.Join(r.Instead, "|") != tt.instead {
			t.Errorf("%q: instead %q", tt.typed, r.Instead)
		}
		if rs != nil {
			t.Errorf("%q refused and yet %v", tt.typed, rs)
		}
		// What is offered instead is taken.
		for _, i := range strings.Split(tt.instead, "|") {
			if tt.instead != "" {
				ranges(i)
			}
		}
	}
}

// A range holds what lies between its ends and nothing else, counted out.
func TestRangesByCounting(t *testing.T) {
	t.Logf("seed %d", *seed)
	r := rand.New(rand.NewPCG(*seed, 0))
	for range 500 {
		a := r.IntN(60)
		b := a + r.IntN(40)
		sa, sb := "B-"+strconv.Itoa(a), "B-00"+strconv.Itoa(b)
		for _, tt := range []struct {
			typed string
			holds func(n int) bool
		}{
			{sa + " to " + sb, func(n int) bool { return a <= n && n <= b }},
			{"before " + sa, func(n int) bool { return n < a }},
			{"to " + sa, func(n int) bool { return n <= a }},
			{"after " + sb, func(n int) bool { return n > b }},
			{sb + " and up", func(n int) bool { return n >= b }},
			{"before " + sa + ", after " + sb, func(n int) bool { return n < a || n > b }},
		} {
			rs := ranges(tt.typed)
			for n := range 120 {
				if got := rs.Contains(serial("B" + strconv.Itoa(n))); got != tt.holds(n) {
					t.Fatalf("%q holds %d: %v", tt.typed, n, got)
				}
			}
		}
	}
}

// FuzzParseSerial: what is taken has one spelling, which is taken as the same.
//
//	go test -fuzz FuzzParseSerial ./radial/identify
func FuzzParseSerial(f *testing.F) {
	for _, s := range []string{"1187", "B-0711", "t7-b 0711", "1187A", "12-34", "Ü1", "B\x00 1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		s, err := identify.ParseSerial(typed)
		if err != nil {
			if s.Given() {
				t.Errorf("%q refused and yet %v", typed, s)
			}
			return
		}
		back, err := identify.ParseSerial(s.String())
		if c, ok := s.Compare(back); err != nil || back != s || c != 0 || !ok {
			t.Errorf("%q is %q and then %q, %v", typed, s, back, err)
		}
	})
}

// FuzzParseRanges: what is taken has one spelling, which is taken as the same and holds
// the same.
//
//	go test -fuzz FuzzParseRanges ./radial/identify
func FuzzParseRanges(f *testing.F) {
	for _, s := range []string{"1001-2240", "B-0101 to B-1866", "after B-0900, before B-0621", "up to 5", "all", "from 1 to 2", "S/N 5 and up", "–", "to"} {
		f.Add(s, "B-0711")
	}
	f.Fuzz(func(t *testing.T, typed, one string) {
		rs, err := identify.ParseRanges(typed)
		if err != nil {
			if rs != nil || err.Error() == "" {
				t.Errorf("%q refused and yet %v", typed, rs)
			}
			return
		}
		back, err := identify.ParseRanges(rs.String())
		if err != nil || back.String() != rs.String() {
			t.Fatalf("%q is %q and then %q, %v", typed, rs, back, err)
		}
		if s, err := identify.ParseSerial(one); err == nil && rs.Contains(s) != back.Contains(s) {
			t.Errorf("%q and %q do not both hold %v", typed, rs, s)
		}
	})
}
