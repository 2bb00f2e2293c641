package book

import (
	"strings"

	"linkrod/radial/quantity"
)

// The columns of an oil log in CSV, in the order they are written. A column of
// figures says its unit in square brackets; a cell may say another one ("4 l").
// testdata/csv/README.md tells people.
//
//	day                2025-10-06
//	clock              18:40
//	hours [h]          the meter
//	level before [qt]  the stick, before anything was added
//	added [qt]         what went in after that
//	how added          measured, normal or guessed
//	drained            same: drained and refilled to the same reading; yes: to another or an unknown one
//	level after [qt]   after a drain, if it was read
//	after stop [min]   minutes since the engine stopped
//	oil temperature [F]
//	stands             level, tail, same or other
//	scavenged          yes or no
//	foam               yes or no
//	late               yes: written later, its hours place it
//	meter now [h]      a meter change: hours is what the old one read last
//	step explained     what was found when a step in the consumption was looked into
//	note
//	by
//
// Also read: "level_before_qt" and the like, with the unit behind an underscore;
// drained as 0, 1 (same) and 2 (yes); and one column "conditions" that holds
// res=0.5;min=20;temp_f=150;att=level;scav=yes;foam=no;add=exact.
type column struct {
	name  string
	dim   quantity.Dimension // of figures; NoDimension for words
	unit  quantity.Unit      // understood where the header need not say it
	other []string           // also read under these names
}

var columns = []column{
	{name: "day", other: []string{"date"}},
	{name: "clock", other: []string{"time"}},
	{name: "hours", dim: quantity.DimTime, unit: quantity.UnitH, other: []string{"tach", "meter"}},
	{name: "level before", dim: quantity.DimVolume, other: []string{"level"}},
	{name: "added", dim: quantity.DimVolume},
	{name: "how added"},
	{name: "drained"},
	{name: "level after", dim: quantity.DimVolume},
	{name: "after stop", dim: quantity.DimTime, unit: quantity.UnitMin, other: []string{"minutes since stop"}},
	{name: "oil temperature", dim: quantity.DimTemperature},
	{name: "stands"},
	{name: "scavenged"},
	{name: "foam"},
	{name: "late"},
	{name: "meter now", dim: quantity.DimTime, unit: quantity.UnitH},
	{name: "step explained"},
	{name: "note"},
	{name: "by"},
	{name: "conditions"},
}

// layout is which cell of a row is which column.
type layout struct {
	at   map[string]int
	unit map[string]quantity.Unit
}

// readHeader finds the columns of a file and says what is wrong with them.
func readHeader(cells []string) (l layout, unread []string, err error) {
	l = layout{map[string]int{}, map[string]quantity.Unit{}}
	for i, cell := range cells {
		name, unit := headName(cell)
		c, ok := columnOf(name)
		switch {
		case name == "":
			continue
		case !ok:
			unread = append(unread, cell)
			continue
		case l.has(c.name):
			return l, nil, Wrong("The column “" + c.name + "” is there twice.")
		}
		l.at[c.name] = i
		if c.dim == quantity.NoDimension {
			continue
		}
		if unit == "" {
			unit = c.unit
		}
		if unit == "" {
			return l, nil, Wrong("The column “" + strings.TrimSpace(cell) + "” does not say its unit. Write it as “" + c.name + " [" + exampleUnit(c.dim) + "]”.")
		}
		if unit.Dimension() != c.dim {
			return l, nil, Wrong("The column “" + strings.TrimSpace(cell) + "” is not in a unit of " + c.dim.String() + ".")
		}
		l.unit[c.name] = unit
	}
	for _, must := range []string{"hours", "level before"} {
		if !l.has(must) {
			return l, nil, Wrong("The first line has no column “" + must + "”. It should read like: hours [h],level before [qt],added [qt]")
		}
	}
	return l, unread, nil
}

func (l layout) has(name string) bool { _, ok := l.at[name]; return ok }

func exampleUnit(d quantity.Dimension) string {
	if d == quantity.DimTemperature {
		return "F"
	}
	return "qt"
}

func columnOf(name string) (column, bool) {
	for _, c := range columns {
		if c.name == name {
			return c, true
		}
		for _, o := range c.other {
			if o == name {
				return c, true
			}
		}
	}
	return column{}, false
}

// headName is a column's name and the unit it says: "level before [qt]" and
// "level_before_qt" are both level before, in quarts.
func headName(cell string) (name string, unit quantity.Unit) {
	name = strings.ToLower(strings.Join(strings.Fields(strings.ReplaceAll(cell, "_", " ")), " "))
	if open := strings.IndexAny(name, "[("); open >= 0 {
		said := strings.Trim(name[open:], "[]() ")
		return strings.TrimSpace(name[:open]), unitSaid(said)
	}
	words := strings.Fields(name)
	if n := len(words); n > 1 {
		if u := unitSaid(words[n-1]); u != "" {
			if _, ok := columnOf(strings.Join(words[:n-1], " ")); ok {
				return strings.Join(words[:n-1], " "), u
			}
		}
	}
	return name, ""
}

// unitSaid is a unit by its usual spellings, "" if it is none of an oil log's.
func unitSaid(s string) quantity.Unit {
	switch s {
	case "c":
		return quantity.UnitC
	case "f":
		return quantity.UnitF
	}
	for _, u := range []quantity.Unit{quantity.UnitQt, quantity.UnitH, quantity.UnitF} {
		if r, err := quantity.Parse("1 "+s, u); err == nil && r.Measured.Unit != "" {
			return r.Measured.Unit
		}
	}
	return ""
}
