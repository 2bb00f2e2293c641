package card

import (
	"strings"

	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// Figure is a number of a card with its unit, as typed. It is a value, a range, the three
// numbers of an old table, a look and stop pair, a single limit, a list, or words where
// there is no number ("none").
type Figure struct {
	Unit quantity.Unit // "" for a bare number
	Src  string        // key of its source
	have [len(parts)]string
	List []string // in order; words stand among them: "first run"
}

// A figure's parts, in the order they are said. The first word is the field's name on the
// card, the second how a sentence calls it.
var parts = [...][2]string{
	{"v", "value"}, {"from", "least"}, {"to", "most"},
	{"new_min", "new minimum"}, {"new_max", "new maximum"}, {"wear", "wear limit"},
	{"look", "look"}, {"stop", "stop"}, {"min", "minimum"}, {"max", "maximum"},
	{"edge", "edge"}, {"says", "words"},
}

// limiting are the parts that make a figure a limit.
const limiting = " new_min new_max wear look stop min max "

func partIndex(name string) int {
	for i, p := range parts {
		if p[0] == name {
			return i
		}
	}
	return -1
}

// isFigure reports that an object holds a number, whatever else.
func isFigure(v plain.Value) bool {
	for i, name := range v.Names() {
		if partIndex(name) >= 0 && v.Items()[i].Kind() == plain.Text {
			return true
		}
	}
	return v.Get("list").Given() && v.Get("u").Given()
}

// readFigure reads a figure; src is the source of what it stands in.
func readFigure(v plain.Value, src string) Figure {
	f := Figure{Unit: quantity.Unit(v.Get("u").Text()), Src: src}
	if own := v.Get("src").Text(); own != "" {
		f.Src = own
	}
	for i, p := range parts {
		f.have[i] = v.Get(p[0]).Text()
	}
	if v.Get("u").Given() {
		f.List = texts(v.Get("list"))
	}
	return f
}

// Part is one of the numbers: "v", "from", "to", "new_min", "new_max", "wear", "look",
// "stop", "min", "max", "edge". Not Given when the figure has none.
func (f Figure) Part(name string) quantity.Measured {
	i := partIndex(name)
	if i < 0 || f.have[i] == "" {
		return quantity.Measured{}
	}
	d, err := quantity.ParseDecimal(f.have[i])
	if err != nil {
		return quantity.Measured{}
	}
	return quantity.Measured{Value: d, Unit: f.Unit}
}

func (f Figure) text(name string) string { return f.have[partIndex(name)] }

// minus is a figure with the real minus sign.
func minus(s string) string { return strings.Replace(s, "-", "\u2212", 1) }

// Limit reports that the figure says where something stops being in order.
func (f Figure) Limit() bool {
	for i, p := range parts {
		if f.have[i] != "" && strings.Contains(limiting, " "+p[0]+" ") {
			return true
		}
	}
	return false
}

// Digits is the figure as it is read from a sheet, with its unit: "420 to 450 in-lb".
func (f Figure) Digits() string {
	said := f.said(minus)
	if f.text("says") != "" && said == f.text("says") {
		return said
	}
	if f.Unit != "" {
		gap := "\u2009"
		if f.Unit == quantity.UnitDeg {
			gap = ""
		}
		said += gap + f.Unit.Symbol()
	}
	return said
}

// Other is the same in the unit it is confused with: foot pounds for inch pounds, inches
// for thou. "" where there is none.
func (f Figure) Other() string {
	to := quantity.Unit("")
	switch f.Unit {
	case quantity.UnitInLb:
		to = quantity.UnitFtLb
	case quantity.UnitFtLb:
		to = quantity.UnitInLb
	case quantity.UnitThou:
		to = quantity.UnitIn
	default:
		return ""
	}
	said := f.said(func(s string) string {
		d, err := quantity.ParseDecimal(s)
		if err != nil {
			return s
		}
		m := quantity.Measured{Value: d, Unit: f.Unit}
		places := 1
		if to == quantity.UnitIn {
			places = 4
		}
		if r, err := m.Exactly(to); err == nil && r.Value.Places() <= places+1 {
			return r.Value.Show()
		}
		r, _, err := m.Rounded(to, places)
		if err != nil {
			return s
		}
		return r.Value.Show()
	})
	return said + "\u2009" + to.Symbol()
}

// Words is the figure as on the telephone, its unit spelled out.
func (f Figure) Words() string {
	if f.Unit == "" || f.text("says") != "" {
		return ""
	}
	said := f.said(func(s string) string {
		d, err := quantity.ParseDecimal(s)
		if err != nil {
			return s
		}
		return d.Words()
	})
	return said + " " + f.Unit.Plural()
}

// said is the figure with each number through show.
func (f Figure) said(show func(string) string) string {
	var said []string
	add := func(before, name, after string) {
		if s := f.have[partIndex(name)]; s != "" {
			if name != "says" {
				s = show(s)
			}
			said = append(said, before+s+after)
		}
	}
	both := func(before, a, b string) {
		x, y := f.have[partIndex(a)], f.have[partIndex(b)]
		if x != "" && y != "" {
			said = append(said, before+show(x)+" to "+show(y))
			return
		}
		add(before+"from ", a, "")
		add(before+"to ", b, "")
	}
	add("", "v", "")
	if len(said) > 0 && f.have[partIndex("to")] != "" {
		both("accepted ", "from", "to")
	} else {
		both("", "from", "to")
	}
	both("new ", "new_min", "new_max")
	add("wear limit ", "wear", "")
	add("look at ", "look", "")
	add("stop at ", "stop", "")
	add("at least ", "min", "")
	add("at most ", "max", "")
	add("", "says", "")
	for _, s := range f.List {
		said = append(said, show(s))
	}
	return strings.Join(said, ", ")
}
