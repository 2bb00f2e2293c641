package torque_test

import (
	"strings"
	"testing"

	"linkrod/radial/quantity"
	"linkrod/radial/torque"
)

// Tensile stress areas as printed, in square inches: machine-design textbook table 8-2,
// compiled from ANSI B1.1-1974, read in a university library's copy.
var printedAreas = strings.Fields(`
	0-80:0.00180 1-64:0.00263 1-72:0.00278 2-56:0.00370 2-64:0.00394 3-48:0.00487 3-56:0.00523 4-40:0.00604 4-48:0.00661
	5-40:0.00796 6-32:0.00909 6-40:0.01015 8-32:0.0140 8-36:0.01474 10-24:0.0175 10-32:0.0200 12-24:0.0242 12-28:0.0258
	1/4-20:0.0318 1/4-28:0.0364 5/16-18:0.0524 5/16-24:0.0580 3/8-16:0.0775 3/8-24:0.0878 7/16-14:0.1063 7/16-20:0.1187
	1/2-13:0.1419 1/2-20:0.1599 9/16-12:0.182 9/16-18:0.203 5/8-11:0.226 5/8-18:0.256 3/4-10:0.334 3/4-16:0.373
	7/8-9:0.462 7/8-14:0.509 1-8:0.606 1-12:0.663 1-1/4-7:0.969 1-1/4-12:1.073 1-1/2-6:1.405 1-1/2-12:1.581`)

// The same in square millimetres: ISO 898-1 nominal stress areas, read in a fastener
// dealer's copy of its table.
var printedMetric = strings.Fields(`
	M3:5.03 M4:8.78 M5:14.2 M6:20.1 M7:28.9 M8:36.6 M10:58.0 M12:84.3 M14:115 M16:157 M18:192 M20:245 M22:303 M24:353
	M27:459 M30:561`)

func TestStressAreas(t *testing.T) {
	for _, line := range printedAreas {
		name, area, _ := strings.Cut(line, ":")
		th := must(torque.ParseThread(name))
		want := quantity.MustDecimal(area).Float64()
		if got := th.StressArea().SquareInches(); !near(got, want, 0.005*want) {
			t.Errorf("%s: %v sq in, printed %v", name, got, want)
		}
		if th.String() != name || th.Doubt() != "" {
			t.Errorf("%s: called %s, doubt %q", name, th, th.Doubt())
		}
	}
	for _, line := range printedMetric {
		name, area, _ := strings.Cut(line, ":")
		want := quantity.MustDecimal(area).Float64()
		if got := must(torque.ParseThread(name)).StressArea().SquareMillimetres(); !near(got, want, 0.005*want) {
			t.Errorf("%s: %v mm², printed %v", name, got, want)
		}
	}
	// 5-44 is the slip of that textbook: it prints 0.0088 where others have 0.0083.
	if got := must(torque.ParseThread("5-44")).StressArea().SquareInches(); !near(got, 0.0083, 0.00005) {
		t.Errorf("5-44: %v", got)
	}
}

func TestParseThread(t *testing.T) {
	for _, tt := range []struct {
		typed, name string
		d, p        float64 // inches
	}{
		{"7/16-20", "7/16-20", 0.4375, 0.05},
		{" 7/16 - 20 ", "7/16-20", 0.4375, 0.05},
		{"7/16–20 UNF-3A", "7/16-20", 0.4375, 0.05},
		{`7/16"-20`, "7/16-20", 0.4375, 0.05},
		{"7/16x20 nf", "7/16-20", 0.4375, 0.05},
		{".4375-20", "7/16-20", 0.4375, 0.05},
		{"0.4375-20 UN", "7/16-20", 0.4375, 0.05},
		{"7/16-28 UNEF", "7/16-28", 0.4375, 1.0 / 28},
		{"0.45-20", "0.45-20", 0.45, 0.05},
		{"1-1/8-12", "1-1/8-12", 1.125, 1.0 / 12},
		{"1 1/8-12", "1-1/8-12", 1.125, 1.0 / 12},
		{"1-12", "1-12", 1, 1.0 / 12},
		{"1-14 UNF", "1-14", 1, 1.0 / 14},
		{"1-64", "1-64", 0.073, 1.0 / 64},
		{"2-4", "2-4", 2, 0.25},
		{"4-8", "4-8", 4, 0.125}, // the largest there is
		{"4-40", "4-40", 0.112, 1.0 / 40},
		{"10-32", "10-32", 0.190, 1.0 / 32},
		{"#10-32", "10-32", 0.190, 1.0 / 32},
		{"No. 10-24 NC", "10-24", 0.190, 1.0 / 24},
		{"12-28", "12-28", 0.216, 1.0 / 28},
		{"0-80", "0-80", 0.060, 1.0 / 80},
		{"M10", "M10x1.5", 10 / 25.4, 1.5 / 25.4},
		{"m10 x 1,25", "M10x1.25", 10 / 25.4, 1.25 / 25.4},
		{"M10×1.0", "M10x1", 10 / 25.4, 1 / 25.4},
		{"M9x1", "M9x1", 9 / 25.4, 1 / 25.4},
		{"M9x3", "M9x3", 9 / 25.4, 3 / 25.4},
		{"M1x0.25", "M1x0.25", 1 / 25.4, 0.25 / 25.4},
		{"M100x6", "M100x6", 100 / 25.4, 6 / 25.4},
	} {
		th, err := torque.ParseThread(tt.typed)
		if err != nil || th.String() != tt.name || !near(th.Diameter().Inches(), tt.d, 1e-12) || !near(th.Pitch().Inches(), tt.p, 1e-12) {
			t.Errorf("%q: %s %v %v %v, want %s %v %v", tt.typed, th, th.Diameter(), th.Pitch(), err, tt.name, tt.d, tt.p)
		}
	}
	for _, tt := range []struct{ typed, words string }{
		{"", "no thread known"}, {"7/16", "Type size"}, {"7/16-", "no thread"}, {"-20", "no thread"}, {"7/16-twenty", "no thread"},
		{"#7/16-20", "no thread"}, {"13-32", "no thread"}, {"5-10", "no thread"}, {"7/16-2", "no thread"}, {"7/16-81", "no thread"},
		{"1/4-5", "no thread"}, {"4.1-8", "no thread"}, {"0.05-80", "no thread"}, {"-7/16-20", "no thread"}, {"7/16-20.5", "no thread"},
		{"7/16-20 UNC", "7/16-14 coarse and 7/16-20 fine"}, {"7/16-14 UNF", "is not UNF"}, {"0-80 UNC", "0-80 fine"},
		{"7/16-20 upside", "no series"}, {"0.45-20 UNF", "is not UNF"}, {"1-12 UNC", "1-8 coarse"},
		{"M", "no thread"}, {"M9", "Which pitch has M9"}, {"M10x", "no thread"}, {"M10x0", "no thread"}, {"M10x-1", "no thread"},
		{"M10x4", "no thread"}, {"M0.9x0.2", "no thread"}, {"M101x6", "no thread"}, {"1/2 Whitworth", "no thread"},
		{strings.Repeat("7/16-20 ", 9), "…"}, {"\xff-20", "no thread"},
	} {
		wantProblem(t, second(torque.ParseThread(tt.typed)), "thread", tt.words)
	}
}

// The two slips of a printed torque card, and what an inch was before.
func TestThreadDoubt(t *testing.T) {
	for _, tt := range []struct{ typed, words string }{
		{"7/16-24", "those are 7/16-14 coarse and 7/16-20 fine"},
		{"5/8-14", "those are 5/8-11 coarse and 5/8-18 fine"},
		{"0-72", "the usual one is 0-80 fine"},
		{"0.45-20", "not one of the usual threads."},
		{"1-14", ""}, {"7/16-20", ""}, {"M10x0.75", ""},
	} {
		got := must(torque.ParseThread(tt.typed)).Doubt()
		if tt.words == "" && got != "" || !strings.Contains(got, tt.words) {
			t.Errorf("%s: %q, want %q", tt.typed, got, tt.words)
		}
	}
	if got := (torque.Thread{}).Doubt(); got != "" {
		t.Errorf("no thread: %q", got)
	}
}

// go test -fuzz FuzzParseThread ./radial/torque
func FuzzParseThread(f *testing.F) {
	for _, s := range []string{"7/16-20 UNF-3A", "#10-32", "1-1/8-12", "M10x1.25", "m8", "1 1/8–12", "no. 4-40", "½-20", ".4375-20"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		th, err := torque.ParseThread(typed)
		if err != nil {
			if err.Error() == "" {
				t.Errorf("%q is refused without a word", typed)
			}
			return
		}
		d, a := th.Diameter(), th.StressArea()
		if !(d > 0 && th.Pitch() > 0 && a > 0 && a < quantity.Circle(d)) {
			t.Errorf("%q: %s, %v by %v, area %v", typed, th, d, th.Pitch(), a)
		}
		back, err := torque.ParseThread(th.String())
		if err != nil || back != th {
			t.Errorf("%q is %+v, whose own name is read as %+v, %v", typed, th, back, err)
		}
		_ = th.Doubt()
	})
}
