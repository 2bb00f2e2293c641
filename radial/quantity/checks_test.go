package quantity

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// checkRow is one row of an outside table (testdata/checks): a figure with its unit, what another
// source says it is in a second unit, and how closely the source says it.
type checkRow struct {
	id, quantity, inputs, expected, unit, tolerance, source string
}

// readChecks is the rows of a table that convert a figure.
func readChecks(t *testing.T, name string) []checkRow {
	t.Helper()
	path := filepath.Join("..", "..", "testdata", "checks", name)
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if got, want := strings.Join(lines[0], ","), "id,topic,quantity,inputs,expected,unit,tolerance,source,status,where"; got != want {
		t.Fatalf("%s has the columns %s, want %s", path, got, want)
	}
	var rows []checkRow
	for _, c := range lines[1:] {
		if c[1] == "units" || c[1] == "13_units" || strings.HasSuffix(c[2], " as hours per quart") {
			rows = append(rows, checkRow{c[0], c[2], c[3], c[4], c[5], c[6], c[7]})
		}
	}
	return rows
}

// question is what the row converts: the figure as it would be typed and the
// units wanted.
func (c checkRow) question() (typed string, wanted []string) {
	q := c.quantity
	if i := strings.Index(q, " ("); i >= 0 {
		_, after, _ := strings.Cut(q, ")")
		q = q[:i] + after
	}
	wanted = strings.Split(c.unit, "; ")
	if name, value, ok := strings.Cut(c.inputs, "="); ok { // lbf_in=300;reference=0C
		value, _, _ = strings.Cut(value, ";")
		return value + " " + name, wanted
	}
	if i := strings.LastIndex(q, " in "); i >= 0 { // 435 lbf.in in N.m
		if c.unit == "" {
			wanted = []string{q[i+len(" in "):]}
		}
		q = q[:i]
	}
	q, _, _ = strings.Cut(q, " as ") // 0.25 qt/h as hours per quart
	if strings.HasSuffix(c.inputs, "degF") || strings.HasSuffix(c.inputs, "degC") {
		q = c.inputs
	}
	if _, amount, ok := strings.Cut(q, "DIFFERENCE "); ok { // temperature DIFFERENCE 50 degF
		q = amount
	}
	return q, wanted
}

// measured reads the figure and one wanted unit with this package's own parser,
// in the first dimension that knows both.
func (c checkRow) measured(typed, wanted string) (m Measured, to Unit, ok bool) {
	for d := DimLength; d < dimensionCount; d++ {
		if (d == DimDifference) != strings.Contains(c.quantity, "DIFFERENCE") {
			continue
		}
		from, err1 := ParseSaid(typed, d)
		unit, err2 := ParseSaid("1 "+wanted, d)
		if err1 == nil && err2 == nil {
			return from.Measured, unit.Measured.Unit, true
		}
	}
	return Measured{}, "", false
}

func TestOutsideUnits(t *testing.T) {
	rows := append(readChecks(t, "general.csv"), readChecks(t, "mechanics.csv")...)
	passed := map[string]int{}
	for _, c := range rows {
		typedFigure, wanted := c.question()
		// A list of results stands in one field, blank between them.
		expected := strings.Fields(c.expected)
		if len(expected) != len(wanted) {
			t.Errorf("%s: %d results for %d units; this row can't be read", c.id, len(expected), len(wanted))
			continue
		}
		for i, unit := range wanted {
			m, to, ok := c.measured(typedFigure, unit)
			want, err := ParseDecimal(expected[i])
			if !ok || err != nil {
				t.Errorf("%s: %q in %q, expected %q: this row can't be read (%v)", c.id, typedFigure, unit, expected[i], err)
				continue
			}
			if c.tolerance == "exact" {
				got, err := m.Exactly(to)
				if err != nil || got.Value.Compare(want) != 0 {
					t.Errorf("%s: %v is %v, %v, want exactly %v %s (%s)", c.id, m, got, err, want, to, c.source)
				}
			}
			slack := tolerance(t, c, want.Float64())
			got, _, err := m.Rounded(to, 12)
			if err != nil || !float64Near(got.Value.Float64(), want.Float64(), slack) {
				t.Errorf("%s: %v is %v, %v, want %v ± %g (%s)", c.id, m, got, err, want, slack, c.source)
			}
			if got := typed[to](m); !float64Near(got, want.Float64(), slack) {
				t.Errorf("%s: %v is %v by the typed floats, want %v ± %g (%s)", c.id, m, got, want, slack, c.source)
			}
			passed[m.Dimension().String()]++
		}
	}
	for d := DimLength; d < dimensionCount; d++ {
		t.Logf("%-20s %d rows", d, passed[d.String()])
	}
	if len(rows) < 56 {
		t.Errorf("%d rows; some of the table is gone", len(rows))
	}
}

// tolerance is the row's own, which is the rounding of the printed figure; exact
// leaves the floats their own few parts in 10^16.
func tolerance(t *testing.T, c checkRow, want float64) float64 {
	t.Helper()
	kind, figure, _ := strings.Cut(c.tolerance, " ")
	if kind == "exact" && figure == "" {
		return 4e-16*math.Abs(want) + 1e-12
	}
	x, err := strconv.ParseFloat(figure, 64)
	switch {
	case err == nil && kind == "abs":
		return x
	case err == nil && kind == "rel":
		return x * math.Abs(want)
	}
	t.Errorf("%s: tolerance %q can't be read", c.id, c.tolerance)
	return -1
}

// The inch of mercury at 60 °F stands beside the conventional one in NIST SP 811,
// App. B: 3.376 85 E+03 Pa (from memory).
func TestInchOfMercury60F(t *testing.T) {
	if got := InchOfMercury60F.Pascals(); !float64Near(got, 3376.85, 1e-9) {
		t.Errorf("1 inHg (60 °F) = %v Pa, want 3376.85", got)
	}
}
