package card

import (
	"strings"

	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// Shown is a card in one version with what a reader of it must know beside it.
type Shown struct {
	Card
	Newer int    // the newest published version, 0 when this is it
	Since string // the reason of the newest
	Gone  string // why it was withdrawn, "" when it wasn't
	Tool  *Tool  // in the mechanic's hand, nil for none
	Model string // of the engine, "" when none is chosen
	Tools []Tool // of the shelf, for the joints
}

// Write writes the card ready to draw, as it stands on its shelf.
func (s Shown) Write(w *plain.Writer, on *Shelf) {
	w.Begin('{')
	s.fields(w)
	w.Text("kind_words", KindWords(s.Kind))
	w.Text("summary", s.Summary)
	w.Bool("demo", s.Demo)
	s.standing(w)
	w.Texts("applies", s.Applies.Words())
	w.Open("cautions", '[')
	for _, c := range s.Cautions {
		marked(w, "", c, "")
	}
	w.End(']')
	s.sections(w)
	s.disputes(w)
	w.Open("defers", '[')
	for i, who := range s.JSON.Get("defers").Names() {
		w.Begin('{')
		w.Text("who", deferWords(who))
		put(w, "words", s.JSON.Get("defers").Items()[i].Text())
		w.End('}')
	}
	w.End(']')
	w.Open("sources", '[')
	for _, src := range s.Sources {
		w.Begin('{')
		w.Text("key", src.Key)
		w.Text("line", src.Line())
		w.Bool("checked", src.Checked())
		w.End('}')
	}
	w.End(']')
	w.Open("history", '[')
	for _, h := range s.JSON.Get("history").Items() {
		said := "Version " + string(h.Get("version").Raw())
		if d := h.Get("date").Text(); d != "" {
			said += ", " + longDate(d)
		}
		w.Text("", said+": "+h.Get("reason").Text())
	}
	w.End(']')
	if s.Kind == "tool" {
		loans(w, on, s.ID)
	}
	w.Open("see", '[')
	for _, id := range texts(s.JSON.Get("see")) {
		if title := on.title(id); title != "" {
			w.Begin('{')
			w.Text("card", id)
			w.Text("title", title)
			w.End('}')
		}
	}
	w.End(']')
	w.End('}')
}

func deferWords(who string) string {
	if who == "mechanic" {
		return "A certificated mechanic says"
	}
	return "The maker’s manual says"
}

// standing is the word across the card and the lines about its version.
func (s Shown) standing(w *plain.Writer) {
	banner := ""
	var says []string
	switch {
	case s.Gone != "":
		banner = "Withdrawn"
		says = append(says, "This card was withdrawn: "+s.Gone)
	case s.State == "withdrawn":
		banner = "Withdrawn"
	case s.State == "draft":
		banner = "Draft"
	case s.Newer > s.Version || s.State == "superseded":
		banner = "Superseded"
	}
	w.Text("state", s.State)
	w.Text("banner", banner)
	if s.Newer > s.Version {
		w.Int("newer", int64(s.Newer))
		line := "Version " + itoa(s.Newer) + " is out"
		if s.Since != "" {
			line += ": " + s.Since
		}
		says = append(says, line+".")
	}
	for _, src := range s.Sources {
		if !src.Checked() {
			says = append(says, "Not every number has been held against its page by a second person.")
			break
		}
	}
	w.Texts("says", says)
}

// sections is the body. A section has a title, "" for none, and rows of one of these: text,
// heading, list, table, figure, joint, step, item.
func (s Shown) sections(w *plain.Writer) {
	w.Open("sections", '[')
	b := s.Body
	src := b.Get("src").Text()
	section := func(title string, v plain.Value, row func(*plain.Writer, plain.Value, string)) {
		if len(v.Items()) == 0 {
			return
		}
		w.Begin('{')
		w.Text("title", title)
		w.Open("rows", '[')
		for _, e := range v.Items() {
			row(w, e, inner(e, src))
		}
		w.End(']')
		w.End('}')
	}
	section("Before", b.Get("before"), textRow)
	switch s.Kind {
	case "engine":
		section("", b.Get("figures"), figureRow)
		s.seen(w, b.Get("features"), src)
	case "limits":
		section("", b.Get("items"), figureRow)
	case "torque":
		section("", b.Get("joints"), s.jointRow)
	case "run":
		section("On the ground", b.Get("steps"), stepRow(0))
		if t := b.Get("total"); t.Given() {
			w.Begin('{')
			w.Text("title", "")
			w.Open("rows", '[')
			figureNamed(w, t, "total", inner(t, src))
			w.End(']')
			w.End('}')
		}
		section("Flown", b.Get("plan"), planRow)
	case "check":
		for _, g := range b.Get("groups").Items() {
			in := inner(g, src)
			section(g.Get("title").Text(), g.Get("items"), func(w *plain.Writer, v plain.Value, _ string) { itemRow(w, v, inner(v, in)) })
		}
	case "step":
		section("", b.Get("steps"), stepRow(0))
	case "tool":
		s.toolRows(w, b, src)
	case "note":
		section("", b.Get("paragraphs"), paragraph)
	}
	section("After", b.Get("after"), textRow)
	section("Also", b.Get("notes"), textRow)
	w.End(']')
}

// inner is the source of what stands inside v.
func inner(v plain.Value, src string) string {
	if own := v.Get("src").Text(); own != "" {
		return own
	}
	return src
}

// put writes a text without its marks as a field, nothing for none, and the marks beside
// it when it has any.
func put(w *plain.Writer, name, s string) []string {
	if s == "" {
		return nil
	}
	text, marks := unmark(s)
	w.Text(name, text)
	return marks
}

// marked writes {"words","src":[…]}.
func marked(w *plain.Writer, name, s, src string) {
	w.Open(name, '{')
	sourced(w, put(w, "words", s), src)
	w.End('}')
}

// sourced writes the keys of the sources below a row: those in the text, else the one of
// what it stands in.
func sourced(w *plain.Writer, marks []string, src string) {
	var keys []string
	for _, m := range marks {
		if !has(keys, m) {
			keys = append(keys, m)
		}
	}
	if len(keys) == 0 && src != "" {
		keys = []string{src}
	}
	w.Texts("src", keys)
}

func row(w *plain.Writer, is string) {
	w.Begin('{')
	w.Text("is", is)
}

func textRow(w *plain.Writer, v plain.Value, src string) {
	row(w, "text")
	sourced(w, put(w, "words", v.Text()), src)
	w.End('}')
}

func paragraph(w *plain.Writer, v plain.Value, src string) {
	switch {
	case v.Kind() == plain.Text:
		textRow(w, v, src)
	case v.Get("h").Given():
		row(w, "heading")
		w.Text("words", v.Get("h").Text())
		w.End('}')
	case v.Get("p").Given():
		textRow(w, v.Get("p"), src)
	case v.Get("list").Given():
		row(w, "list")
		w.Open("items", '[')
		for _, s := range texts(v.Get("list")) {
			marked(w, "", s, src)
		}
		w.End(']')
		w.End('}')
	case v.Get("table").Given():
		row(w, "table")
		t := v.Get("table")
		var marks []string
		cells := func(name string, list plain.Value) {
			w.Open(name, '[')
			for _, s := range texts(list) {
				text, m := unmark(s)
				w.Text("", text)
				marks = append(marks, m...)
			}
			w.End(']')
		}
		cells("head", t.Get("head"))
		w.Open("rows", '[')
		for _, r := range t.Get("rows").Items() {
			cells("", r)
		}
		w.End(']')
		sourced(w, marks, src)
		w.End('}')
	}
}

// write writes a figure's fields: digits, other, words, unit, parts.
func (f Figure) write(w *plain.Writer) {
	w.Text("digits", f.Digits())
	putText(w, "other", f.Other())
	putText(w, "words", f.Words())
	putText(w, "unit", string(f.Unit))
	w.Bool("limit", f.Limit())
	w.Open("parts", '{')
	for i, p := range parts {
		putText(w, p[0], f.have[i])
	}
	w.End('}')
}

func putText(w *plain.Writer, name, s string) {
	if s != "" {
		w.Text(name, s)
	}
}

func figureRow(w *plain.Writer, v plain.Value, src string) {
	figureNamed(w, v, v.Get("id").Text(), src)
}

func figureNamed(w *plain.Writer, v plain.Value, id, src string) {
	f := readFigure(v, src)
	row(w, "figure")
	w.Text("id", id)
	w.Text("label", capital(labelOf(v.Get("label").Text(), id)))
	f.write(w)
	putText(w, "station", v.Get("station").Text())
	putText(w, "part", v.Get("part").Text())
	if p := texts(v.Get("position").Get("cylinders")); len(p) > 0 {
		w.Texts("cylinders", p)
	}
	sourced(w, put(w, "note", v.Get("note").Text()), f.Src)
	w.End('}')
}

// seen is what can be seen on the model.
func (s Shown) seen(w *plain.Writer, v plain.Value, src string) {
	w.Begin('{')
	w.Text("title", "What can be seen on it")
	w.Open("rows", '[')
	all := traits(v)
	for i, key := range v.Names() {
		_ = i
		var is []string
		for _, t := range all {
			if t.Feature == key {
				said := t.Values[0]
				if t.Serials != "" {
					said += " (" + t.Serials + ")"
				}
				is = append(is, said)
			}
		}
		row(w, "figure")
		w.Text("id", key)
		w.Text("label", capital(FeatureName(key)))
		w.Text("digits", list(is, "or"))
		w.Bool("limit", false)
		w.Open("parts", '{')
		w.End('}')
		sourced(w, nil, src)
		w.End('}')
	}
	w.End(']')
	w.End('}')
}

// stepRow writes steps with their numbers.
func stepRow(n int) func(*plain.Writer, plain.Value, string) {
	return func(w *plain.Writer, v plain.Value, src string) {
		n++
		row(w, "step")
		w.Int("n", int64(n))
		marks := put(w, "words", v.Get("do").Text())
		for _, field := range []string{"why", "caution", "record"} {
			marks = append(marks, put(w, field, v.Get(field).Text())...)
		}
		if stop := v.Get("stop"); stop.Given() {
			w.Open("stop", '{')
			w.Text("who", stop.Get("who").Text())
			marks = append(marks, put(w, "words", stop.Get("words").Text())...)
			w.End('}')
		}
		w.Open("figures", '[')
		for _, id := range []string{"rpm", "minutes"} {
			if f := v.Get(id); f.Given() {
				figureNamed(w, f, id, inner(f, src))
			}
		}
		for _, field := range []string{"limits", "figures"} {
			for _, f := range v.Get(field).Items() {
				figureRow(w, f, inner(f, src))
			}
		}
		w.End(']')
		sourced(w, marks, src)
		w.End('}')
	}
}

func planRow(w *plain.Writer, v plain.Value, src string) {
	row(w, "plan")
	w.Text("when", readFigure(v.Get("when"), src).Digits())
	marks := put(w, "words", v.Get("do").Text())
	w.Open("figures", '[')
	for _, f := range v.Get("figures").Items() {
		figureRow(w, f, inner(f, src))
	}
	w.End(']')
	sourced(w, marks, src)
	w.End('}')
}

func itemRow(w *plain.Writer, v plain.Value, src string) {
	row(w, "item")
	w.Text("id", v.Get("id").Text())
	marks := put(w, "words", v.Get("words").Text())
	marks = append(marks, put(w, "looked_for", v.Get("looked_for").Text())...)
	putText(w, "per", v.Get("per").Text())
	putText(w, "who", v.Get("who").Text())
	w.Texts("every", texts(v.Get("every")))
	if f := v.Get("figure"); f.Given() {
		w.Key("figure")
		figureNamed(w, f, "", inner(f, src))
	}
	sourced(w, marks, src)
	w.End('}')
}

// disputes is where texts disagree, each side with its source.
func (s Shown) disputes(w *plain.Writer) {
	w.Open("disputes", '[')
	for _, d := range s.JSON.Get("disputes").Items() {
		w.Begin('{')
		w.Text("question", d.Get("question").Text())
		w.Open("sides", '[')
		for _, side := range d.Get("sides").Items() {
			marked(w, "", side.Get("says").Text(), side.Get("src").Text())
		}
		w.End(']')
		w.Text("who_decides", d.Get("who_decides").Text())
		w.End('}')
	}
	w.End(']')
}

// jointRow is one joint: the final torque and what goes with it, the sum it opens, and
// what the tool in hand makes of it.
func (s Shown) jointRow(w *plain.Writer, v plain.Value, src string) {
	f := readFigure(v.Get("final"), inner(v.Get("final"), src))
	id := v.Get("id").Text()
	row(w, "joint")
	w.Text("id", id)
	w.Text("label", capital(labelOf(v.Get("label").Text(), id)))
	f.write(w)
	for _, field := range []string{"aim", "stages", "retorque"} {
		if g := v.Get(field); g.Given() {
			w.Open(field, '{')
			readFigure(g, src).write(w)
			w.End('}')
		}
	}
	for _, field := range []string{"lubrication", "thread", "count", "order", "part"} {
		putText(w, field, v.Get(field).Text())
	}
	marks := put(w, "note", v.Get("note").Text())
	aimed := aim(v, src)
	w.Text("work", workLink(aimed, v, nil))
	w.Open("tools", '[')
	for i := range s.Tools {
		if t := &s.Tools[i]; has(t.Joints, id) {
			w.Begin('{')
			w.Text("card", t.Card)
			w.Text("mark", t.Mark)
			w.Text("is", t.Is)
			w.Text("proof", t.Proved(s.models()))
			w.End('}')
		}
	}
	w.End(']')
	if s.Tool != nil {
		s.Tool.setting(w, aimed, v, s.models())
	}
	sourced(w, marks, src)
	w.End('}')
}

// models are those the torque is wanted for.
func (s Shown) models() []string {
	if s.Model != "" {
		return []string{s.Model}
	}
	return s.Applies.Models
}

// aim is the one torque a joint is pulled to: the one its sheet aims at, else its one
// value. A range without an aim has none, and the person picks.
func aim(joint plain.Value, src string) quantity.Measured {
	if m := readFigure(joint.Get("aim"), src).Part("v"); m.Given() {
		return m
	}
	return readFigure(joint.Get("final"), src).Part("v")
}

// workLink is the torque sum filled from a joint and the tool in hand.
func workLink(aimed quantity.Measured, joint plain.Value, t *Tool) string {
	var q []string
	add := func(name string, m quantity.Measured) {
		if m.Given() {
			q = append(q, name+"="+m.Value.Text(), name+".unit="+string(m.Unit))
		}
	}
	add("wanted", aimed)
	if th := joint.Get("thread").Text(); th != "" {
		q = append(q, "thread="+th)
	}
	switch l := joint.Get("lubrication").Text(); l {
	case "dry", "oiled", "anti-seize":
		q = append(q, "lube="+l)
	}
	if t != nil {
		add("lever", t.Lever)
		add("adapter", t.Length)
		if t.Angle.Given() && t.Angle.Value.Sign() != 0 {
			add("angle", t.Angle)
		}
	}
	return "/work/torque-wrench?" + strings.Join(q, "&")
}
