package checks

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"linkrod/radial/quantity"
)

// columns of every table, in this order.
var columns = strings.Split("id topic quantity inputs expected unit tolerance source status where", " ")

// Row is one line of a table.
type Row struct {
	ID, Topic, Quantity, Inputs, Expected, Unit string
	Tolerance                                   Tolerance
	Source, Status, Where                       string
	Line                                        int
}

// read reads a whole table. A line that cannot be read is an error with its number,
// and so is an id that stands twice.
func read(in io.Reader) ([]Row, error) {
	r := csv.NewReader(in)
	r.FieldsPerRecord = len(columns)
	head, err := r.Read()
	if err != nil {
		return nil, err
	}
	if got := strings.Join(head, " "); got != strings.Join(columns, " ") {
		return nil, fmt.Errorf("columns are %q, want %q", got, strings.Join(columns, " "))
	}
	var rows []Row
	seen := map[string]bool{}
	for {
		f, err := r.Read()
		if errors.Is(err, io.EOF) {
			return rows, nil
		}
		if err != nil {
			return nil, err
		}
		line, _ := r.FieldPos(0)
		tol, err := tolerance(f[6])
		if err != nil {
			return nil, fmt.Errorf("line %d, %s: %w", line, f[0], err)
		}
		if f[0] == "" || f[1] == "" || f[2] == "" || seen[f[0]] {
			return nil, fmt.Errorf("line %d: id %q is empty or stands twice, or topic or quantity is empty", line, f[0])
		}
		seen[f[0]] = true
		rows = append(rows, Row{f[0], f[1], f[2], f[3], f[4], f[5], tol, f[7], f[8], f[9], line})
	}
}

// Tolerance is how far an answer may lie from the expected value.
type Tolerance struct {
	Kind string  // exact, abs, rel or text
	By   float64 // in the row's unit for abs, a share for rel
}

// tolerance reads "exact", "text", "abs 0.05" and "rel 1e-6"; a unit may follow.
func tolerance(text string) (Tolerance, error) {
	f := strings.Fields(text)
	switch {
	case len(f) == 1 && (f[0] == "exact" || f[0] == "text"):
		return Tolerance{Kind: f[0]}, nil
	case len(f) >= 2 && (f[0] == "abs" || f[0] == "rel"):
		by, err := strconv.ParseFloat(f[1], 64)
		if err == nil && by >= 0 && by < math.Inf(1) {
			return Tolerance{f[0], by}, nil
		}
	}
	return Tolerance{}, fmt.Errorf("tolerance %q is not exact, text, abs x or rel x", text)
}

// holds reports that got is near enough to want. An exact number may be off by the
// rounding of a few floating operations (1e-12 of it), which no value in a table is.
func (t Tolerance) holds(got, want float64) bool {
	room := t.By
	switch t.Kind {
	case "exact":
		room = 1e-12 * math.Abs(want)
	case "rel":
		room = t.By * math.Abs(want)
	case "text":
		return false // a text has no number to be near
	}
	// A printed 0.0005 means 0.0005 itself is still inside, however it rounds, and so is an
	// answer that misses it by what the expected figure lost when it was printed: 0.00324324
	// within rel 1e-6, of 0.00324324324…, which is off by 1.000001e-6.
	return math.Abs(got-want) <= room*(1+1e-5)
}

// Case is a row being answered: its inputs by name, and what has gone wrong so far.
type Case struct {
	Row
	names []string
	in    map[string]string
	asked map[string]bool
	err   error
}

// open takes the inputs apart. name=value pairs stand between semicolons; what has
// no name is called #1, #2 and so on.
func open(r Row) *Case {
	c := &Case{Row: r, in: map[string]string{}, asked: map[string]bool{}}
	bare := 0
	for part := range strings.SplitSeq(r.Inputs, ";") {
		if part = strings.TrimSpace(part); part == "" {
			continue
		}
		name, value, found := strings.Cut(part, "=")
		if !found {
			bare++
			name, value = "#"+strconv.Itoa(bare), part
		}
		if _, twice := c.in[name]; twice {
			c.fail(fmt.Errorf("input %q stands twice", name))
		}
		c.names = append(c.names, name)
		c.in[name] = value
	}
	return c
}

// fail keeps the first thing that went wrong.
func (c *Case) fail(err error) {
	if c.err == nil {
		c.err = err
	}
}

// Has reports that an input of this name, with or without a unit in it, is there.
func (c *Case) Has(name string) bool { return len(c.find(name)) > 0 }

// find is the names of the inputs meant by name: itself, or name_unit.
func (c *Case) find(name string) []string {
	if _, ok := c.in[name]; ok {
		return []string{name}
	}
	var found []string
	for _, n := range c.names {
		if unit, ok := strings.CutPrefix(n, name+"_"); ok && isUnit(unit) {
			found = append(found, n)
		}
	}
	return found
}

// Text is an input as it stands.
func (c *Case) Text(name string) string {
	found := c.find(name)
	if len(found) != 1 {
		c.fail(fmt.Errorf("%d inputs are called %q", len(found), name))
		return ""
	}
	c.asked[found[0]] = true
	return strings.TrimSpace(c.in[found[0]])
}

// Aside names inputs that say something about the row and change no figure.
func (c *Case) Aside(names ...string) {
	for _, n := range names {
		c.asked[n] = true
	}
}

// Number is an input without a unit: a ratio, an index, a constant of the source.
func (c *Case) Number(name string) float64 {
	v, err := strconv.ParseFloat(c.Text(name), 64)
	if err != nil {
		c.fail(fmt.Errorf("input %s: %w", name, err))
	}
	return v
}

// Int is an input that counts something. +1 and -1 are taken.
func (c *Case) Int(name string) int {
	v, err := strconv.Atoi(c.Text(name))
	if err != nil {
		c.fail(fmt.Errorf("input %s: %w", name, err))
	}
	return v
}

// Measured is an input as a measured value of the wanted dimension. The unit stands
// after the figure (5 in), or in the name (bore_in, crank_deg_before_tdc), or is def
// if that is given and neither says one.
func (c *Case) Measured(name string, want quantity.Dimension, def quantity.Unit) quantity.Measured {
	list := c.measuredList(name, want, def)
	if len(list) != 1 {
		c.fail(fmt.Errorf("input %s is %d values, want one", name, len(list)))
		return quantity.Measured{}
	}
	return list[0]
}

// measuredList is an input that may hold one value for each cylinder, with blanks.
func (c *Case) measuredList(name string, want quantity.Dimension, def quantity.Unit) []quantity.Measured {
	text := c.Text(name)
	if c.err != nil {
		return nil
	}
	figures := strings.Fields(text)
	unit := unitIn(c.find(name)[0], want)
	// 5 in, 100 lbf.in, 2 US qt: the first field is the figure and the rest a unit.
	if u, ok := unitOf(strings.Join(figures[min(1, len(figures)):], " "), want); ok && len(figures) > 1 {
		figures, unit = figures[:1], u
	}
	if unit == "" {
		unit = def
	}
	if unit == "" {
		c.fail(fmt.Errorf("input %s=%s has no unit of %s", name, text, want))
		return nil
	}
	var list []quantity.Measured
	for _, f := range figures {
		d, err := quantity.ParseDecimal(f)
		if err != nil {
			c.fail(fmt.Errorf("input %s: %w", name, err))
			return nil
		}
		list = append(list, quantity.Measured{Value: d, Unit: unit})
	}
	return list
}

// unitIn is the unit of the wanted dimension in an input's name: the longest run of
// its words that is one, looking from the end.
func unitIn(name string, want quantity.Dimension) quantity.Unit {
	words := strings.Split(name, "_")
	for end := len(words); end > 1; end-- {
		for start := 1; start < end; start++ {
			if u, ok := unitOf(strings.Join(words[start:end], " "), want); ok {
				return u
			}
		}
	}
	return ""
}

// unitOf is the unit of the wanted dimension that text spells, as radial/quantity
// understands it. Words after the unit are notes: "deg crank", "lb on piston".
func unitOf(text string, want quantity.Dimension) (quantity.Unit, bool) {
	text, _, _ = strings.Cut(text, "(")
	text, _, _ = strings.Cut(text, ",")
	words := strings.Fields(text)
	for n := len(words); n > 0; n-- {
		r, err := quantity.ParseSaid("1 "+strings.Join(words[:n], " "), want)
		if err == nil && r.Measured.Dimension() == want {
			return r.Measured.Unit, true
		}
	}
	return "", false
}

// isUnit reports that text begins with a unit of any dimension.
func isUnit(text string) bool {
	for d := quantity.DimLength; d.Base() != ""; d++ {
		if _, ok := unitOf(strings.ReplaceAll(text, "_", " "), d); ok {
			return true
		}
	}
	return false
}

// one turns the input called name into the typed value of its dimension.
func one[T any](c *Case, name string, want quantity.Dimension, typed func(quantity.Measured) (T, error)) T {
	m := c.Measured(name, want, "")
	if c.err != nil {
		var zero T
		return zero
	}
	v, err := typed(m)
	if err != nil {
		c.fail(fmt.Errorf("input %s: %w", name, err))
	}
	return v
}

// each is one for an input that lists a value for each cylinder.
func each[T any](c *Case, name string, want quantity.Dimension, typed func(quantity.Measured) (T, error)) []T {
	var list []T
	for _, m := range c.measuredList(name, want, "") {
		v, err := typed(m)
		if err != nil {
			c.fail(fmt.Errorf("input %s: %w", name, err))
		}
		list = append(list, v)
	}
	return list
}

// The inputs as typed quantities.

func (c *Case) Length(name string) quantity.Length {
	return one(c, name, quantity.DimLength, quantity.Measured.Length)
}

func (c *Case) Lengths(name string) []quantity.Length {
	return each(c, name, quantity.DimLength, quantity.Measured.Length)
}

func (c *Case) Volume(name string) quantity.Volume {
	return one(c, name, quantity.DimVolume, quantity.Measured.Volume)
}

func (c *Case) Torque(name string) quantity.Torque {
	return one(c, name, quantity.DimTorque, quantity.Measured.Torque)
}

func (c *Case) Pressure(name string) quantity.Pressure {
	return one(c, name, quantity.DimPressure, quantity.Measured.Pressure)
}

func (c *Case) Temperature(name string) quantity.Temperature {
	return one(c, name, quantity.DimTemperature, quantity.Measured.Temperature)
}

func (c *Case) Difference(name string) quantity.TemperatureDifference {
	return one(c, name, quantity.DimDifference, quantity.Measured.TemperatureDifference)
}

func (c *Case) Angle(name string) quantity.Angle {
	return one(c, name, quantity.DimAngle, quantity.Measured.Angle)
}

func (c *Case) Angles(name string) []quantity.Angle {
	return each(c, name, quantity.DimAngle, quantity.Measured.Angle)
}

func (c *Case) Speed(name string) quantity.Speed {
	m := c.Measured(name, quantity.DimSpeed, quantity.UnitRpm) // rpm=2300 names its unit already
	v, err := m.Speed()
	if err != nil {
		c.fail(err)
	}
	return v
}

func (c *Case) Power(name string) quantity.Power {
	m := c.Measured(name, quantity.DimPower, quantity.UnitHp) // bhp=450 too
	v, err := m.Power()
	if err != nil {
		c.fail(err)
	}
	return v
}

func (c *Case) Force(name string) quantity.Force {
	return one(c, name, quantity.DimForce, quantity.Measured.Force)
}

func (c *Case) Hours(name string) quantity.Hours {
	return one(c, name, quantity.DimTime, quantity.Measured.Hours)
}
