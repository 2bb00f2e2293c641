package book

import (
	"sort"
	"strings"

	"linkrod/radial/quantity"
)

// WriteCSV is the oil log of the book as a file that ReadCSV takes back: every
// reading, drain, meter change and explained step that was not struck out, in
// the order of reading, each figure as it was typed.
func (b *Book) WriteCSV() string {
	l := layout{at: map[string]int{}, unit: map[string]quantity.Unit{}}
	var head []string
	for _, c := range columns {
		if c.name == "conditions" {
			continue
		}
		l.at[c.name] = len(head)
		name := c.name
		if c.dim != quantity.NoDimension {
			l.unit[c.name] = c.unit
			switch c.dim {
			case quantity.DimVolume:
				l.unit[c.name] = b.engine.unit
			case quantity.DimTemperature:
				l.unit[c.name] = quantity.UnitF
			}
			name += " [" + headUnit(l.unit[c.name]) + "]"
		}
		head = append(head, name)
	}
	var out strings.Builder
	writeRow(&out, head)
	for _, line := range b.logOfOil() {
		writeRow(&out, l.cells(line, len(head)))
	}
	return out.String()
}

// headUnit is a unit as it stands in a header.
func headUnit(u quantity.Unit) string {
	if u == quantity.UnitF {
		return "F"
	}
	return u.Symbol()
}

func writeRow(out *strings.Builder, cells []string) {
	for i, c := range cells {
		if i > 0 {
			out.WriteByte(',')
		}
		out.WriteString(quoteCSV(c))
	}
	out.WriteString("\r\n")
}

// logOfOil is the lines of the oil log in the order of reading, meter changes
// at their place.
func (b *Book) logOfOil() []*line {
	var lines []*line
	for _, l := range b.hours.readings {
		if renews(l.body) == "" { // no line of an oil log
			lines = append(lines, l)
		}
	}
	lines = append(lines, b.hours.changes...)
	placed := func(l *line) *line {
		if l.behind != nil {
			return l.behind // what goes back stands behind what it falls behind
		}
		return l
	}
	sort.SliceStable(lines, func(i, j int) bool {
		x, y := placed(lines[i]), placed(lines[j])
		if c := x.total.Compare(y.total); c != 0 {
			return c < 0
		}
		return x.era < y.era
	})
	return lines
}

// cells is a line as a row.
func (l layout) cells(from *line, n int) []string {
	row := make([]string, n)
	put := func(name, s string) { row[l.at[name]] = s }
	figure := func(name string, m quantity.Measured) { put(name, asTyped(m, l.unit[name])) }
	common := func(c Conditions, note string, late bool) {
		figure("after stop", c.Minutes)
		figure("oil temperature", c.Temp)
		put("stands", c.Stands)
		put("scavenged", c.Scavenged)
		put("foam", c.Foam)
		put("note", note)
		if late {
			put("late", "yes")
		}
	}
	s := stampOf(from)
	put("day", s.Day)
	put("clock", s.Clock)
	put("by", s.By)
	switch v := from.body.(type) {
	case *Oil:
		figure("hours", v.Hours)
		figure("level before", v.Level)
		figure("added", v.Added)
		put("how added", v.AddHow)
		common(v.Conditions, v.Note, v.Late)
	case *Drain:
		figure("hours", v.Hours)
		figure("level before", v.LevelBefore)
		figure("level after", v.LevelAfter)
		put("drained", "yes")
		if v.Same {
			put("drained", "same")
		}
		common(v.Conditions, v.Note, v.Late)
	case *MeterChange:
		figure("hours", v.Out)
		figure("meter now", v.In)
	case *StepClosed:
		figure("hours", v.Hours)
		put("step explained", v.Found)
	}
	return row
}
