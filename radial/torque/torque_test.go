package torque_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

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

const ftLb = quantity.FootPound

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
	if !ok || p.Field != field || !strings.HasSuffix(p.Sentence, ".") || !strings.Contains(p.Sentence, words) {
		t.Errorf("problem with the %s: %v, want one that says %q", field, err, words)
	}
}

// says reports that a sentence holds the words, its thin spaces taken as plain ones.
func says(sentence, words string) bool {
	return strings.Contains(strings.ReplaceAll(sentence, "\u2009", " "), words)
}
