package oil

import (
	"encoding/csv"
	"flag"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

var seed = flag.Int64("seed", 20251109, "seed of the generated logs; printed when a test fails")

const dir = "../../testdata/oil"

// table reads a CSV file as rows of named cells. Lines that start with # are
// remarks.
func table(t testing.TB, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join(dir, name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll() // every row must have as many cells as the head
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	var out []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for i, cell := range row {
			m[rows[0][i]] = cell
		}
		out = append(out, m)
	}
	if len(out) == 0 {
		t.Fatalf("%s holds no rows", name)
	}
	return out
}

func number(t testing.TB, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatalf("not a number: %q", s)
	}
	return x
}

// series reads a log. Every part of its conditions must be one we know.
func series(t testing.TB, name string, base Conditions) (Settings, []Reading) {
	t.Helper()
	s := Settings{HoursKnown: true}
	var log []Reading
	for _, row := range table(t, name) {
		r := Reading{
			Hours:      Hours(number(t, row["hours"])),
			Level:      Quarts(number(t, row["level_before_qt"])),
			Added:      Quarts(number(t, row["added_qt"])),
			Conditions: base,
		}
		switch row["drained"] {
		case "0":
		case "1":
			r.Drained = DrainedSame
		case "2":
			r.Drained = DrainedUnknown
		default:
			t.Fatalf("%s: drained %q", name, row["drained"])
		}
		for _, part := range strings.Split(row["conditions"], ";") {
			if part == "" {
				continue
			}
			switch key, v, _ := strings.Cut(part, "="); part {
			case "att=level":
				r.Conditions.Stands = StandsLevel
			case "scav=yes":
				r.Conditions.Scavenged = Yes
			case "scav=no":
				r.Conditions.Scavenged = No
			case "foam=yes":
				r.Conditions.Foam = Yes
			case "add=exact":
				r.Poured = PouredMeasured
			case "add=guess":
				r.Poured = PouredGuessed
			default:
				switch key {
				case "res":
					s.StickStep = Is(Quarts(number(t, v)))
				case "min":
					r.Conditions.SinceStop = Is(Minutes(number(t, v)))
				case "temp_f":
					r.Conditions.Temp = Is(Fahrenheit(number(t, v)))
				default:
					t.Fatalf("%s: condition %q", name, part)
				}
			}
		}
		log = append(log, r)
	}
	return s, log
}

// demo is one of the invented series, as the brief reads it.
func demo(t testing.TB, which string) (Settings, []Reading) {
	t.Helper()
	s, log := series(t, "demo_"+which+".csv", Conditions{SD: Is(Quarts(0.10))})
	s.StickStep = Is(Quarts(map[string]float64{"A": 0.5, "B": 0.5, "C": 0.25}[which]))
	s.Ceiling = Is(QtPerHour(map[string]float64{"A": 0.60, "B": 0.70, "C": 0.60}[which]))
	return s, log
}

// near64 is the one comparison of floats.
func near64(got, want, tolerance float64) bool { return math.Abs(got-want) <= tolerance }

func mustRun(t testing.TB, s Settings, log []Reading) []Answer {
	t.Helper()
	as, err := Run(s, log)
	if err != nil {
		t.Fatal(err)
	}
	return as
}

// history of verdicts: where each was first said, as in the reference file.
func verdicts(as []Answer) string {
	var out []string
	last := None
	for _, a := range as {
		if a.Verdict != last {
			out = append(out, strconv.FormatFloat(float64(a.Hours), 'f', 1, 64)+" "+a.Verdict.String())
		}
		last = a.Verdict
	}
	return strings.Join(out, "; ")
}
