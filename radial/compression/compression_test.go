package compression_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"linkrod/radial/compression"
	"linkrod/radial/quantity"
)

var seed = flag.Uint64("seed", 1, "seed of the random cases; the log names it")

// random is a source of chance whose seed stands in the log.
func random(t *testing.T) *rand.Rand {
	t.Helper()
	t.Logf("seed %d", *seed)
	return rand.New(rand.NewPCG(*seed, 0))
}

var nan, inf = math.NaN(), math.Inf(1)

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// second is the error of two results. A refusal comes with no figure that could be taken
// for one.
func second[T any](v T, err error) error {
	if f := reflect.ValueOf(v); err != nil && f.CanFloat() && f.Float() != 0 {
		return fmt.Errorf("refused, and yet %v: %w", v, err)
	}
	return err
}

func near(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance }

// wantProblem expects an error about one input, in a whole sentence that holds words.
func wantProblem(t *testing.T, err error, field, words string) {
	t.Helper()
	p, ok := err.(*quantity.Problem)
	if !ok || p.Field != field || !strings.HasSuffix(p.Sentence, ".") || !strings.Contains(plain(p.Sentence), words) {
		t.Errorf("problem with the %s: %v, want one that says %q", field, err, words)
	}
}

// plain takes the thin spaces of print for plain ones.
func plain(s string) string { return strings.ReplaceAll(s, "\u2009", " ") }

// of is a measured value from "0.060 in"; "" is not given.
func of(text string) quantity.Measured {
	if text == "" {
		return quantity.Measured{}
	}
	value, unit, _ := strings.Cut(text, " ")
	return quantity.Of(value, quantity.Unit(unit))
}

// readings is "72 74 - 73" in psi, a dash for a cylinder not taken.
func readings(text string) []quantity.Measured {
	var list []quantity.Measured
	for _, s := range strings.Fields(text) {
		if s == "-" {
			list = append(list, quantity.Measured{})
			continue
		}
		list = append(list, of(s+" psi"))
	}
	return list
}

// set is a hot check of 80 psi with the 0.060, unless something else is said.
func set(text string, change ...func(*compression.Set)) compression.Set {
	s := compression.Set{Supply: of("80 psi"), Orifice: compression.Large, Engine: compression.Hot, Readings: readings(text)}
	for _, c := range change {
		c(&s)
	}
	return s
}

func orifice(text string) func(*compression.Set) {
	return func(s *compression.Set) { s.Orifice = of(text) }
}

func engine(w compression.Warmth) func(*compression.Set) {
	return func(s *compression.Set) { s.Engine = w }
}

func supplied(text string) func(*compression.Set) {
	return func(s *compression.Set) { s.Supply = of(text) }
}
