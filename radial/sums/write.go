package sums

import (
	"strings"

	"linkrod/radial/civil"
	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// List writes what there is to work out: {"groups":[{"title","sums":[{"id","title","what",
// "drawing","first"}]}]}.
func List(w *plain.Writer) {
	w.Begin('{')
	w.Open("groups", '[')
	for _, g := range groups {
		w.Begin('{')
		w.Text("title", g.title)
		w.Open("sums", '[')
		for _, s := range g.sums {
			w.Begin('{')
			s.write(w)
			w.Bool("first", s.first)
			w.End('}')
		}
		w.End(']')
		w.End('}')
	}
	w.End(']')
	w.End('}')
}

func (s *sum) write(w *plain.Writer) {
	w.Text("id", s.id)
	w.Text("title", s.title)
	w.Text("what", s.what)
	w.Text("drawing", s.drawing)
}

// ReadTyped reads what stands on a page: {"typed":{"wanted":"435"},"units":{"wanted":
// "in_lb"},"checked":["…"],"now":{"day"},"demo":true}. A link's "wanted.unit" among the
// typed is a unit as well.
func ReadTyped(args plain.Value) Typed {
	in := Typed{Text: map[string]string{}, Demo: args.Get("demo").Bool()}
	typed, units := args.Get("typed"), args.Get("units")
	for i, name := range typed.Names() {
		in.Text[name] = typed.Items()[i].Text()
	}
	for i, name := range units.Names() {
		in.Text[name+".unit"] = units.Items()[i].Text()
	}
	for _, code := range args.Get("checked").Items() {
		in.Checked = append(in.Checked, code.Text())
	}
	in.Today, _ = civil.Parse(args.Get("now").Get("day").Text()) // no day is no day
	return in
}

// Write writes the page as the screen takes it.
func (p *Page) Write(w *plain.Writer) {
	w.Begin('{')
	p.sum.write(w)
	w.Open("fields", '[')
	for i := range p.readings {
		p.fields[i].write(w, p.readings[i])
	}
	w.End(']')
	w.Open("answers", '[')
	for _, a := range p.answers {
		w.Begin('{')
		w.Text("label", a.label)
		w.Text("figure", a.figure)
		w.Text("unit", a.unit)
		w.Text("words", a.words)
		optional(w, "verdict", string(a.verdict))
		w.End('}')
	}
	w.End(']')
	w.Text("waits", p.waits)
	w.Open("maths", '{')
	w.Text("title", p.sum.title)
	w.Texts("lines", p.maths())
	w.End('}')
	w.Text("source", p.sum.source)
	w.Texts("notes", p.notes)
	w.Texts("cautions", append(p.cautions, p.sum.cautions...))
	w.Open("asks", '[')
	for _, a := range p.asks {
		a.write(w, p.in.Checked)
	}
	w.End(']')
	w.Text("share", p.share())
	w.Open("draw", '{')
	for _, d := range p.draws {
		if !d.isList {
			w.Number(d.name, d.value)
			continue
		}
		w.Open(d.name, '[')
		for _, v := range d.list {
			w.Number("", v)
		}
		w.End(']')
	}
	w.End('}')
	w.End('}')
}

func (f *field) write(w *plain.Writer, r reading) {
	w.Begin('{')
	w.Text("name", f.name)
	w.Text("label", f.label)
	optional(w, "sym", f.sym)
	optional(w, "part", f.part)
	w.Text("kind", f.kind.String())
	unit := r.unit
	if unit == "" && len(f.units) > 0 && f.units[0].Dimension() != quantity.DimTorque {
		unit = f.units[0]
	}
	w.Text("unit", string(unit))
	w.Open("units", '[')
	for _, u := range f.units {
		w.Begin('{')
		w.Text("code", string(u))
		w.Text("word", u.Plural())
		w.End('}')
	}
	w.End(']')
	w.Open("choices", '[')
	for _, c := range f.choices {
		w.Begin('{')
		w.Text("value", c.value)
		w.Text("label", c.label)
		w.End('}')
	}
	w.End(']')
	w.Text("value", r.typed)
	w.Text("hint", f.hint)
	w.Bool("optional", f.without != "")
	optional(w, "with", f.with)
	optional(w, "or", f.or)
	w.Text("problem", r.problem)
	w.Text("echo", r.echo)
	w.End('}')
}

func (a ask) write(w *plain.Writer, checked []string) {
	w.Begin('{')
	w.Text("field", a.field)
	w.Text("strength", a.strength)
	w.Text("code", a.code)
	w.Text("words", a.words)
	w.Open("choices", '[')
	for _, way := range a.ways {
		w.Begin('{')
		w.Text("label", way.label)
		w.Open("set", '{')
		if way.name == "" {
			w.Texts("checked", append(append([]string(nil), checked...), a.code))
		} else {
			w.Text(way.name, way.text)
		}
		w.End('}')
		w.End('}')
	}
	w.End(']')
	w.End('}')
}

func optional(w *plain.Writer, name, s string) {
	if s != "" {
		w.Text(name, s)
	}
}

// maths is the lines that show how it was worked out, the first of them what was typed.
func (p *Page) maths() []string {
	if len(p.answers) == 0 {
		return nil
	}
	var given []string
	for i, r := range p.readings {
		f := &p.fields[i]
		if !r.ok {
			continue
		}
		s := f.label + ": "
		if f.sym != "" {
			s = f.sym + " = "
		}
		s += f.shown(r)
		if f.kind == figure && r.based && r.unit != f.units[0] {
			s += " = " + f.base(r) + "\u2009" + f.units[0].Symbol()
		}
		given = append(given, s)
	}
	return append([]string{strings.Join(given, ", ")}, p.lines...)
}

// share is the sum in one line of plain text, for sending: what was typed, and what came
// out.
func (p *Page) share() string {
	if len(p.answers) == 0 {
		return ""
	}
	var given, out []string
	for i, r := range p.readings {
		if f := &p.fields[i]; r.ok {
			given = append(given, f.plain()+" "+f.shown(r))
		}
	}
	for i, a := range p.answers {
		if i > 0 {
			a.label = lower(a.label)
		}
		out = append(out, a.label+" "+a.brief())
	}
	s := p.sum.title + ": " + strings.Join(given, ", ") + ". " + strings.Join(out, "; ") + "."
	if p.in.Demo {
		s = "DEMO, every number is invented. " + s
	}
	return strings.ReplaceAll(s, "\u2009", " ")
}
