package book

import (
	"strings"

	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// A form of a kind of the table is what was typed, by the name of the box, and for a repeated
// box by its name and place: "values.5". A unit other than the box's own stands under
// "values.unit". Besides the boxes: hours, tail, tool, note, day, clock, late, checked.

// facts makes the body of a form.
func (d *drafting) facts(k *Kind) *Facts {
	f := &Facts{Kind: k, Boxes: make([]Filled, len(k.Boxes)), Tool: d.text("tool"), Note: d.text("note"),
		Late: d.flag("late"), Checked: d.checkedCodes()}
	if d.text("hours") != "" || d.text("tail") != "" || k.Hours == Needed {
		if f.Hours = d.hours("hours"); f.Hours.Given() {
			d.hoursBack("hours", f.Hours)
		}
	}
	f.Stamp = d.stamp()
	for i := range k.Boxes {
		d.fill(&k.Boxes[i], &f.Boxes[i])
	}
	for i := range k.Boxes {
		x := &k.Boxes[i]
		if x.Is != Photos || k != &signature {
			d.need(x.Name, x.Need == "" || f.Boxes[i].given() || d.anyTyped(x), x.Need)
		}
	}
	switch k {
	case &compressionSet:
		askCompression(d, f)
	case &dimensions:
		d.far(f)
	case &torqueDone:
		askTorque(d, f)
	case &timing:
		askTiming(d, f)
	case &drops:
		askDrops(d, f)
	case &signature:
		d.sign(f)
	case &order:
		d.plan.Kind = "settle"
		for _, box := range []string{"first", "then"} {
			if key, ok := parseKey(f.text(box)); ok {
				d.plan.Refs = append(d.plan.Refs, key)
			}
		}
	}
	f.Card = d.book.pinFor(f)
	return f
}

// sign names what a signature stands under: the entries of the list "entries", and the hash
// of each.
func (d *drafting) sign(f *Facts) {
	d.plan.Kind = "sign"
	v := f.get("signed")
	for _, item := range d.in.Get("entries").Items() {
		key, _ := parseKey(item.Text())
		l := d.book.byKey[key]
		if l == nil {
			d.ask(Ask{Field: "signed", Strength: Impossible, Code: "no-line", Words: "There is no such line in this book."})
			return
		}
		d.plan.Refs = append(d.plan.Refs, key)
		v.List = append(v.List, l.Entry.Hash)
	}
	d.need("signed", len(v.List) > 0, "A signature needs the entries it stands under.")
}

// anyTyped reports that something was typed in a box, which may be unreadable.
func (d *drafting) anyTyped(x *Box) bool {
	for _, name := range d.in.Names() {
		if (name == x.Name || strings.HasPrefix(name, x.Name+".")) && name != x.Name+".unit" && d.text(name) != "" {
			return true
		}
	}
	return false
}

// unitOf is the unit a box is filled in.
func (d *drafting) unitOf(x *Box) quantity.Unit {
	if u := quantity.Unit(d.text(x.Name + ".unit")); x.Unit != "" && u.Dimension() == x.Unit.Dimension() {
		return u
	}
	if x.Unit == quantity.UnitQt {
		return d.book.engine.unit
	}
	return x.Unit
}

// fill reads one box; what cannot be read is asked about where it was typed.
func (d *drafting) fill(x *Box, v *Filled) {
	unit := d.unitOf(x)
	if x.Per != One {
		for _, at := range x.Per.places(d.book.engine.cylinders) {
			if s := d.value1(x, unit, x.Name+"."+at, capital(x.Per.said(at))); s != "" {
				v.At = append(v.At, Cell{at, s})
			}
		}
		if len(v.At) > 0 && x.Is == Figure {
			v.Unit = unit
		}
		if n := d.book.engine.cylinders; n > 0 && n < 9 {
			for _, at := range x.Per.places(9) {
				if x.Per.cylinder(at) > n && d.text(x.Name+"."+at) != "" {
					d.ask(Ask{Field: x.Name + "." + at, Strength: Impossible, Code: "no_cylinder", Words: "This engine has " + itoa(n) + " cylinders. There is no " + x.Per.said(at) + "."})
				}
			}
		}
		return
	}
	switch {
	case x.Is == Photos:
		for _, p := range d.in.Get(x.Name).Items() {
			v.List = append(v.List, p.Text())
		}
	case x.Is == Figure && x.Unit != "":
		v.M = d.figure(x, unit, x.Name, x.Label)
	default:
		v.Text = d.value1(x, unit, x.Name, x.Label)
		if n := d.book.engine.cylinders; x.Is == Count && n > 0 && atoi(v.Text) > n && (x.Name == "cyl" || strings.HasSuffix(x.Name, "_cyl")) {
			d.ask(Ask{Field: x.Name, Strength: Impossible, Code: "no_cylinder", Words: "This engine has " + itoa(n) + " cylinders. There is no cylinder " + v.Text + "."})
		}
		if x.Is == Words {
			d.legal(x.Name, v.Text)
		}
	}
}

// value1 reads one value as it is kept: the decimal of a figure, else the word.
func (d *drafting) value1(x *Box, unit quantity.Unit, name, label string) string {
	typed := d.text(name)
	if typed == "" {
		return ""
	}
	if x.Is == Figure && unit != "" {
		m := d.figure(x, unit, name, label)
		if m.Given() && m.Unit != unit {
			kept, err := m.Exactly(unit)
			a := Ask{Field: name, Strength: Impossible, Code: "other_unit", Words: "These are kept in " + unit.Plural() + ". " + inWords(m) + " does not come out even; type it in " + unit.Plural() + "."}
			if err == nil {
				a.Words = "These are kept in " + unit.Plural() + ". " + inWords(m) + " is " + inWords(kept) + "."
				a.Choices = []Choice{setText(kept.Value.Shortest().Text(), name, kept.Value.Shortest().Text())}
			}
			d.ask(a)
			return ""
		}
		return typedOr(m)
	}
	if x.Is == Figure {
		v, err := quantity.ParseNumber(typed)
		if err != nil {
			d.ask(Ask{Field: name, Strength: Impossible, Code: "unread", Words: err.Error()})
			return ""
		}
		d.usual(x, quantity.Measured{Value: v}, name, label)
		return v.Text()
	}
	if err := x.checkText(label, typed); err != nil {
		d.ask(Ask{Field: name, Strength: Impossible, Code: "unread", Words: err.Error()})
		return ""
	}
	return typed
}

func typedOr(m quantity.Measured) string { return typed(m) }

// figure reads a figure with its unit and asks about one that is far from the usual. A
// torque says its unit: twelve times apart is no guess.
func (d *drafting) figure(x *Box, unit quantity.Unit, name, label string) quantity.Measured {
	typed := d.text(name)
	if typed == "" {
		return quantity.Measured{}
	}
	if x.Unit.Dimension() == quantity.DimTorque && d.text(x.Name+".unit") == "" {
		r, err := quantity.ParseSaid(typed, quantity.DimTorque)
		if err != nil {
			a := Ask{Field: name, Strength: Impossible, Code: "which_unit", Words: err.Error()}
			for _, u := range []quantity.Unit{quantity.UnitInLb, quantity.UnitFtLb} {
				a.Choices = append(a.Choices, setText(capital(u.Plural()), x.Name+".unit", string(u)))
			}
			d.ask(a)
		}
		return r.Measured
	}
	m := d.measured(name, unit)
	if m.Given() {
		d.usual(x, m, name, label)
	}
	return m
}

// usual asks about a figure beyond the usual span of its box, with the slips of the trade as
// choices: inches typed for thou.
func (d *drafting) usual(x *Box, m quantity.Measured, name, label string) {
	past := func(limit string, sign int) bool {
		if limit == "" {
			return false
		}
		l := quantity.Measured{Value: quantity.MustDecimal(limit), Unit: x.Unit}
		if x.Unit == "" {
			return m.Value.Compare(l.Value) == sign
		}
		c, err := quantity.Compare(m, l)
		return err == nil && c == sign
	}
	thou := x.Unit == quantity.UnitThou && m.Unit == x.Unit && m.Value.Sign() > 0 && m.Value.Compare(quantity.MustDecimal("0.1")) < 0
	if !past(x.Low, -1) && !past(x.High, 1) && !thou {
		return
	}
	unit := ""
	if x.Unit != "" {
		unit = " " + x.Unit.Symbol()
	}
	code := "usual:" + name
	a := Ask{Field: name, Strength: Unlikely, Code: code,
		Words: label + ": " + d.text(name) + " is far from what is usual, " + strings.Replace(x.Low, "-", "−", 1) + " to " + x.High + unit + ". Is every digit right, and the unit?"}
	if thou {
		if t, err := m.Value.Mul(quantity.Whole(1000)); err == nil {
			t = t.Shortest()
			a.Words = d.text(name) + " thou is " + d.text(name) + " thousandths of an inch. " + t.Text() + " thou is " + d.text(name) + " in. Which is it?"
			a.Choices = append(a.Choices, setText(t.Text()+" thou", name, t.Text()))
		}
	}
	a.Choices = append(a.Choices, d.leave("It is right", code))
	d.ask(a)
}

// far asks about a bore reading that is far from nominal: 5.025 for 5.0025.
func (d *drafting) far(f *Facts) {
	nominal := d.book.boreOf(f)
	for _, c := range f.get("bore").At {
		m := f.get("bore").measured(c.At)
		a, e1 := m.Length()
		b, e2 := nominal.Length()
		if e1 != nil || e2 != nil || a-b < 0.060 && b-a < 0.060 {
			continue
		}
		code := "far:bore." + c.At
		d.ask(Ask{Field: "bore." + c.At, Strength: Unlikely, Code: code, Words: short(m) + " is " + figure((a-b).Thou(), 1) + " thou from the nominal " + short(nominal) + ". Is the point where it belongs?",
			Choices: []Choice{d.leave("It reads so", code)}})
	}
}

// legalWords have a meaning in the rules; nobody uses them as a label (14 CFR 43.2).
var legalWords = []string{"overhauled", "rebuilt", "zero-timed", "zero timed"}

// legal challenges a word with a legal meaning.
func (d *drafting) legal(field, text string) {
	low := strings.ToLower(text)
	for _, w := range legalWords {
		if !strings.Contains(low, w) {
			continue
		}
		code := "legal:" + field
		d.ask(Ask{Field: field, Strength: Unlikely, Code: code,
			Words:   "Written as “" + w + "”. That word has a legal meaning. Say what was done.",
			Choices: []Choice{setText("Write what was done", "kind", "overhaul"), d.leave("It stands so in a paper", code)}})
		return
	}
}

// Form is the page of a kind as it stands.
type Form struct {
	d    *drafting
	kind *Kind
	body *Facts
	out  Drafted
	last *Facts
}

// Form reads what was typed into a page of a kind of the table. A kind that has no row has
// no form.
func (b *Book) Form(kind string, typed plain.Value, me string, now Now) (Form, error) {
	k := KindOf(kind)
	if k == nil {
		return Form{}, Wrong("This Linkrod has no page for a “" + kind + "”.")
	}
	d := &drafting{book: b, in: typed, me: me, now: b.today(now)}
	f := Form{d: d, kind: k, last: b.lastOf(k)}
	f.body = d.body(kind).(*Facts)
	d.legal("note", f.body.Note)
	if err := f.body.Check(); err != nil && !d.stuck() {
		d.ask(Ask{Field: kind, Strength: Impossible, Code: "incomplete", Words: err.Error()})
	}
	f.out = d.done(f.body)
	return f, nil
}

// lastOf is the newest entry of a kind that counts.
func (b *Book) lastOf(k *Kind) *Facts {
	for i := len(b.lines) - 1; i >= 0; i-- {
		if f, ok := b.lines[i].body.(*Facts); ok && f.Kind == k && b.lines[i].used() {
			return f
		}
	}
	return nil
}

// Write writes the page:
//
//	{"kind","title","fields":[field],"order":{"ring":[…],"firing":[…]},"echo","asks","body"?,"envelope"?,"verdicts":[…]}
//	field {"name","label","is","per","unit","units":[{"code","word"}],"choices":[{"value","label"}],
//	       "value","problem","echo","last","hint","needed","cells":[cell]}
//	cell {"at","label","cyl","value","problem","echo","last","low"}
func (f *Form) Write(w *plain.Writer) {
	b := f.d.book
	w.Begin('{')
	w.Text("kind", f.kind.Type)
	w.Text("title", f.kind.Title)
	w.Open("fields", '[')
	head := []Box{{Name: "hours", Label: b.meterWord(), Unit: quantity.UnitH}}
	if f.kind.Hours == Needed {
		head[0].Need = "What does the meter read?"
	}
	f.field(w, &head[0], "")
	for i := range f.kind.Boxes {
		f.field(w, &f.kind.Boxes[i], f.kind.Boxes[i].Name)
	}
	for _, x := range []Box{{Name: "tool", Label: "Tool", Is: Words}, {Name: "note", Label: "Note", Is: Words}, {Name: "day", Label: "Day", Is: Date}, {Name: "clock", Label: "Time", Is: Words}} {
		f.field(w, &x, "")
	}
	w.End(']')
	w.Open("order", '{')
	n := b.engine.cylinders
	w.Texts("ring", PerCylinder.places(n))
	w.Texts("firing", firing(n))
	w.End('}')
	if f.out.Entry.Body != nil {
		w.Raw("body", f.out.Entry.Body)
		w.Open("envelope", '{')
		f.out.Entry.writeEnvelope(w)
		w.End('}')
	}
	w.Text("echo", f.out.Echo)
	writeAsks(w, f.out.Asks)
	f.verdicts(w)
	w.End('}')
}

// firing is the firing order of a single row: every second cylinder round the ring. From
// cylinder 1.
func firing(n int) (all []string) {
	for i, k := 0, 1; i < n; i, k = i+1, (k+1)%n+1 {
		all = append(all, itoa(k))
	}
	return all
}

// field writes one box; own is its name in the kind, "" for those every kind has.
func (f *Form) field(w *plain.Writer, x *Box, own string) {
	d := f.d
	unit := d.unitOf(x)
	w.Begin('{')
	w.Text("name", x.Name)
	w.Text("label", x.Label)
	w.Text("is", isNames[x.Is])
	w.Text("per", perNames[x.Per])
	if x.Unit.Dimension() == quantity.DimTorque && d.text(x.Name+".unit") == "" {
		unit = ""
	}
	w.Text("unit", string(unit))
	w.Open("units", '[')
	if x.Unit != "" {
		for _, u := range x.Unit.Dimension().Units() {
			pair(w, "code", string(u), "word", u.Plural())
		}
	}
	w.End(']')
	w.Open("choices", '[')
	of := x.Of
	if x.Is == YesNo {
		of = "yes=yes|no=no"
	}
	for of != "" {
		var one string
		one, of, _ = strings.Cut(of, "|")
		v, label, _ := strings.Cut(one, "=")
		pair(w, "value", v, "label", capital(label))
	}
	w.End(']')
	w.Text("value", d.text(x.Name))
	w.Text("problem", d.problem(x.Name))
	w.Text("hint", x.Hint)
	w.Bool("needed", x.Need != "")
	var v, last Filled
	if own != "" {
		v = *f.body.get(own)
		if f.last != nil {
			last = *f.last.get(own)
		}
	} else if x.Name == "hours" {
		v.M = f.body.Hours
		if t := d.book.top(); t != nil {
			last.M = t.body.(timed).at()
		}
	} else if x.Name == "tool" && f.last != nil {
		last.Text = f.last.Tool
	}
	echo := ""
	if v.M.Given() {
		echo = v.M.Words()
	}
	w.Text("echo", echo)
	was := last.Text
	if last.M.Given() {
		was = typed(last.M)
	}
	w.Text("last", was)
	w.Open("cells", '[')
	if x.Per != One {
		for _, at := range x.Per.places(d.book.engine.cylinders) {
			f.cell(w, x, at, unit, &last)
		}
	}
	w.End(']')
	w.End('}')
}

func pair(w *plain.Writer, a, av, b, bv string) {
	w.Begin('{')
	w.Text(a, av)
	w.Text(b, bv)
	w.End('}')
}

func (f *Form) cell(w *plain.Writer, x *Box, at string, unit quantity.Unit, last *Filled) {
	d, name := f.d, x.Name+"."+at
	w.Begin('{')
	w.Text("at", at)
	w.Text("label", capital(x.Per.said(at)))
	k := x.Per.cylinder(at)
	w.Int("cyl", int64(k))
	w.Text("value", d.text(name))
	w.Text("problem", d.problem(name))
	m := f.body.get(x.Name).measured(at)
	echo := ""
	if m.Given() && x.Is == Figure && unit != "" {
		echo = m.Words()
	}
	w.Text("echo", echo)
	was := last.cell(at)
	if was == "" && x.Name == "found" && f.last != nil {
		was = f.last.get("left").cell(at)
	}
	w.Text("last", was)
	w.Bool("low", k > 0 && hangsLow(k, d.book.engine.cylinders))
	w.End('}')
}

// problem is what stands in the way at a field.
func (d *drafting) problem(name string) string {
	for _, a := range d.asks {
		if a.Field == name && a.Strength == Impossible && a.Code != "empty" {
			return a.Words
		}
	}
	return ""
}
