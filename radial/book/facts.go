package book

import (
	"strings"

	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// Facts is the body of an entry of a kind of the table (kinds.go).
//
//	{"type":"compression","out_of":{"v":"80","u":"psi"},"values":{"u":"psi","at":{"1":"76","2":"77"}},
//	 "hours":{"v":"541.6","u":"h"},"day":"2025-06-08","by":"T. Askerly","tool":"LT-2","note":"…",
//	 "by_card":{"shelf":"fellside","card":"limits-t7b","version":2,"hash":"…"}}
//
// A figure carries its unit, a count is text of digits, a choice is its word; what was not
// given is absent. Every value stands as it was typed.
type Facts struct {
	Kind  *Kind
	Boxes []Filled // as Kind.Boxes
	Hours quantity.Measured
	Tool  string
	Note  string
	Card  *Pin // the card it was judged by when it was written
	Stamp
	Late    bool
	Checked []string
}

// Filled is what stands in a box.
type Filled struct {
	Text string            // words, a choice, a count, yes or no, a day, a key
	M    quantity.Measured // a figure
	Unit quantity.Unit     // of the figures in At
	At   []Cell            // where the box is repeated
	List []string          // photographs
}

// Cell is one value of a repeated box.
type Cell struct{ At, V string }

// Pin names one version of one card.
type Pin struct {
	Shelf, Card string
	Version     int
	Hash        string
}

func (f *Facts) Type() string          { return f.Kind.Type }
func (f *Facts) at() quantity.Measured { return f.Hours }

// given reports that something stands in the box.
func (v *Filled) given() bool {
	return v.Text != "" || v.M.Given() || len(v.At) > 0 || len(v.List) > 0
}

// cell is the value at a place.
func (v *Filled) cell(at string) string {
	for _, c := range v.At {
		if c.At == at {
			return c.V
		}
	}
	return ""
}

// measured is the value at a place of a box of figures.
func (v *Filled) measured(at string) quantity.Measured {
	if d, err := quantity.ParseDecimal(v.cell(at)); err == nil && v.cell(at) != "" {
		return quantity.Measured{Value: d, Unit: v.Unit}
	}
	return quantity.Measured{}
}

// get is the box of a name; an empty one for a name the kind hasn't.
func (f *Facts) get(name string) *Filled {
	if i := f.Kind.box(name); i >= 0 {
		return &f.Boxes[i]
	}
	return new(Filled)
}

// text is the words in a box.
func (f *Facts) text(name string) string { return f.get(name).Text }

func (f *Facts) read(r *reader) {
	f.Boxes = make([]Filled, len(f.Kind.Boxes))
	for i := range f.Kind.Boxes {
		f.Kind.Boxes[i].read(r, &f.Boxes[i])
	}
	f.Hours, f.Tool, f.Note = r.measured("hours"), r.text("tool"), r.text("note")
	r.inside("by_card", func(in *reader) {
		if in.Given() {
			f.Card = &Pin{in.text("shelf"), in.text("card"), in.whole("version"), in.text("hash")}
		}
	})
	f.Stamp.read(r)
	f.Late, f.Checked = r.flag("late"), r.texts("checked")
}

func (x *Box) read(r *reader, v *Filled) {
	switch {
	case x.Per != One:
		r.inside(x.Name, func(in *reader) {
			v.Unit = quantity.Unit(in.text("u"))
			at := in.field("at", plain.Object)
			cells := at.Items()
			for i, name := range at.Names() {
				v.At = append(v.At, Cell{name, cells[i].Text()})
				if cells[i].Kind() != plain.Text {
					in.fail("“" + name + "” is not of the right kind.")
				}
			}
		})
	case x.Is == Photos:
		v.List = r.texts(x.Name)
	case x.Is == Figure && x.Unit != "":
		v.M = r.measured(x.Name)
	default:
		v.Text = r.text(x.Name)
	}
}

func (f *Facts) write(w *plain.Writer) {
	for i := range f.Boxes {
		v, name := &f.Boxes[i], f.Kind.Boxes[i].Name
		putText(w, name, v.Text)
		putMeasured(w, name, v.M)
		putTexts(w, name, v.List)
		if len(v.At) == 0 {
			continue
		}
		w.Open(name, '{')
		putText(w, "u", string(v.Unit))
		w.Open("at", '{')
		for _, c := range v.At {
			w.Text(c.At, c.V)
		}
		w.End('}')
		w.End('}')
	}
	putMeasured(w, "hours", f.Hours)
	putText(w, "tool", f.Tool)
	putText(w, "note", f.Note)
	f.Stamp.write(w)
	if f.Card != nil {
		w.Open("by_card", '{')
		w.Text("shelf", f.Card.Shelf)
		w.Text("card", f.Card.Card)
		w.Int("version", int64(f.Card.Version))
		putText(w, "hash", f.Card.Hash)
		w.End('}')
	}
	putFlag(w, "late", f.Late)
	putTexts(w, "checked", f.Checked)
}

func (f *Facts) Check() error {
	for i := range f.Boxes {
		if err := f.Kind.Boxes[i].check(&f.Boxes[i]); err != nil {
			return err
		}
	}
	if f.Kind.check != nil {
		if err := f.Kind.check(f); err != nil {
			return err
		}
	}
	if f.Hours.Given() || f.Kind.Hours == Needed {
		return first(needHours(f.Hours), f.Stamp.check())
	}
	return f.Stamp.check()
}

// check is what is wrong with what stands in a box, whatever the others hold.
func (x *Box) check(v *Filled) error {
	if !v.given() {
		if x.Need != "" {
			return Wrong(x.Need)
		}
		return nil
	}
	if x.Per == One {
		if v.M.Given() && v.M.Dimension() != x.Unit.Dimension() {
			return wrongKind(x.Label, v.M, x.Unit.Dimension())
		}
		return x.checkText(x.Label, v.Text)
	}
	if x.Is == Figure && v.Unit.Dimension() != x.Unit.Dimension() {
		return Wrong(x.Label + " are in " + string(v.Unit) + ", which is not a unit of " + x.Unit.Dimension().String() + ".")
	}
	for i, c := range v.At {
		label := x.Label + ", " + x.Per.said(c.At)
		if !x.Per.has(c.At) {
			return Wrong(x.Label + ": there is no " + perNames[x.Per] + " “" + c.At + "”.")
		}
		for _, d := range v.At[:i] {
			if d.At == c.At {
				return Wrong(label + " stands there twice.")
			}
		}
		if err := x.checkText(label, c.V); err != nil {
			return err
		}
	}
	return nil
}

// checkText is what is wrong with one value as it is kept.
func (x *Box) checkText(label, s string) error {
	if s == "" {
		return nil
	}
	switch x.Is {
	case Figure:
		if _, err := quantity.ParseDecimal(s); err != nil {
			return Wrong(label + ": “" + s + "” is not a figure.")
		}
	case Count:
		if !digits(s) {
			return Wrong(label + ": “" + s + "” is not a whole number.")
		}
	case OneOf:
		if wordOf(x.Of, s) == "" {
			var words []string
			for of := x.Of; of != ""; {
				var one string
				one, of, _ = strings.Cut(of, "|")
				_, w, _ := strings.Cut(one, "=")
				words = append(words, w)
			}
			return Wrong(label + ": “" + s + "” is not one of " + list(words, "or") + ".")
		}
	case YesNo:
		if s != "yes" && s != "no" {
			return Wrong(label + ": “" + s + "” is not yes or no.")
		}
	case Date:
		if _, ok := parseDay(s); !ok {
			return Wrong(label + ": there is no day “" + s + "”. A day is written 2025-10-06.")
		}
	case Ref:
		if _, ok := parseKey(s); !ok {
			return Wrong(label + ": “" + s + "” is not an entry of a book.")
		}
	}
	return nil
}

// digits reports that a text is a whole number of at most six figures.
func digits(s string) bool { return s != "" && len(s) < 7 && strings.Trim(s, "0123456789") == "" }

// parseKey reads "device:n".
func parseKey(s string) (Key, bool) {
	device, n, ok := strings.Cut(s, ":")
	return Key{device, atoi(n)}, ok && device != "" && digits(n)
}

func (f *Facts) Say() string {
	s := ""
	if f.Kind.say != nil {
		s = f.Kind.say(f)
	}
	if s == "" {
		s = f.Kind.Title + f.rest()
	}
	return s + aside(f.Note)
}

// rest is every box that is filled and not named here, as it reads aloud: ": inlet 10 …".
func (f *Facts) rest(but ...string) string {
	s, between := "", ": "
	for i := range f.Kind.Boxes {
		x := &f.Kind.Boxes[i]
		if f.Boxes[i].given() && !contains(but, x.Name) {
			s += between + small(x.Label) + " " + x.said(&f.Boxes[i])
			between = ", "
		}
	}
	return s
}

func contains(list []string, s string) bool {
	for _, l := range list {
		if l == s {
			return true
		}
	}
	return false
}

// small is s with a small letter first, unless it is an abbreviation.
func small(s string) string {
	if len(s) > 1 && s[1] >= 'A' && s[1] <= 'Z' {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

// said is a box's value in words.
func (x *Box) said(v *Filled) string {
	switch {
	case len(v.At) > 0:
		var parts []string
		for _, c := range v.At {
			at := x.Per.said(c.At)
			if x.Per == PerCylinder || x.Per == PerNut {
				at = c.At
			}
			parts = append(parts, at+" "+x.value(c.V))
		}
		s := strings.Join(parts, ", ")
		if v.Unit != "" {
			s += " " + v.Unit.Plural()
		}
		return s
	case v.M.Given():
		return inWords(v.M)
	case x.Is == Photos:
		return counted(len(v.List), "photograph", "photographs")
	}
	return x.value(v.Text)
}

// value is one value in words.
func (x *Box) value(s string) string {
	switch x.Is {
	case OneOf:
		return wordOf(x.Of, s)
	case Date:
		return longDay(s)
	case Figure:
		return strings.Replace(s, "-", "−", 1)
	}
	return s
}

// figures is the values of a repeated box without their places, in the places' order, an
// en dash where one was not taken: "72 74 70 – 69".
func (f *Facts) figures(name string) string {
	i := f.Kind.box(name)
	v := &f.Boxes[i]
	var said []string
	for _, at := range f.Kind.Boxes[i].Per.places(f.most(v)) {
		said = append(said, orNot(f.Kind.Boxes[i].value(v.cell(at)), "–"))
	}
	return strings.Join(said, " ")
}

// most is the highest cylinder of a repeated box.
func (f *Facts) most(v *Filled) (n int) {
	for _, c := range v.At {
		n = max(n, atoi(strings.TrimRight(c.At, "iefr")))
	}
	return n
}
