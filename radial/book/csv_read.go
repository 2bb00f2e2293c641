package book

import (
	"strings"

	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// Import is a CSV file as it was read: nothing of it is in the book yet.
type Import struct {
	Columns  []string
	Rows     []ImportRow
	Problems []Problem
	Summary  string
}

// ImportRow is one row that can be taken, or why it cannot.
type ImportRow struct {
	Line    int
	Body    []byte // nil when it cannot be taken
	Words   string
	Problem string
	Already bool // the book has it
}

// Problem is what is wrong on one line.
type Problem struct {
	Line  int
	Words string
}

// maxRows is more than any engine's life of oil checks.
const maxRows = 20000

// ReadCSV reads an oil log. Every line that cannot be taken is named with its
// number and the reason; the others can be taken all the same. Rows the book
// has already are recognised by what they say, so that reading a file twice
// changes nothing.
func (b *Book) ReadCSV(text string) Import {
	var im Import
	rows, _ := readCSV(text)
	if len(rows) == 0 {
		im.problem(1, "The file is empty. Its first line names the columns: hours [h],level before [qt],added [qt]")
		return im.done()
	}
	head := rows[0]
	l, unread, err := readHeader(head.cells)
	if head.wrong != "" {
		err = Wrong(head.wrong)
	}
	if err != nil {
		im.problem(head.line, err.Error())
		return im.done()
	}
	for _, c := range columns {
		if l.has(c.name) {
			im.Columns = append(im.Columns, strings.TrimSpace(head.cells[l.at[c.name]]))
		}
	}
	for _, name := range unread {
		im.problem(head.line, "The column “"+strings.TrimSpace(name)+"” is not one that is read here. It is left out.")
	}
	if len(rows)-1 > maxRows {
		im.problem(rows[maxRows+1].line, "The file has more than "+itoa(maxRows)+" lines. What comes after is left out.")
		rows = rows[:maxRows+1]
	}
	bodies := map[int]Body{}
	step := ""
	for _, row := range rows[1:] {
		r := rowReader{book: b, layout: l, row: row}
		body := r.body()
		out := ImportRow{Line: row.line, Problem: r.wrong}
		if r.wrong != "" {
			im.problem(row.line, r.wrong)
			out.Words = "Line " + itoa(row.line)
		} else {
			out.Body = Encode(body)
			bodies[len(im.Rows)] = body
			out.Words = importWords(body)
		}
		if r.step != "" && r.step != step {
			step = r.step
			if words := b.stepDiffers(r.step); words != "" {
				im.problem(row.line, words)
			}
		}
		im.Rows = append(im.Rows, out)
	}
	b.markAlready(&im, bodies)
	b.foresee(&im)
	return im.done()
}

func (im *Import) problem(line int, words string) {
	im.Problems = append(im.Problems, Problem{line, words})
}

func (im Import) done() Import {
	fresh, already, bad := 0, 0, 0
	for _, r := range im.Rows {
		switch {
		case r.Problem != "":
			bad++
		case r.Already:
			already++
		default:
			fresh++
		}
	}
	im.Summary = counted(fresh, "line", "lines") + " to take"
	if already > 0 {
		im.Summary += ", " + itoa(already) + " in the book already"
	}
	if bad > 0 {
		im.Summary += ", " + itoa(bad) + " cannot be read"
	}
	im.Summary += ". Nothing is taken until you say so."
	return im
}

// rowReader reads one row. The first thing wrong is what is said of it.
type rowReader struct {
	book *Book
	layout
	row   csvRow
	wrong string
	step  string // the stick's step, where the row says it
}

func (r *rowReader) fail(words string) {
	if r.wrong == "" {
		r.wrong = words
	}
}

func (r *rowReader) cell(name string) string {
	i, ok := r.at[name]
	if !ok || i >= len(r.row.cells) {
		return ""
	}
	return strings.TrimSpace(r.row.cells[i])
}

func (r *rowReader) measured(name string) quantity.Measured {
	cell := r.cell(name)
	if cell == "" {
		return quantity.Measured{}
	}
	p, err := quantity.Parse(cell, r.unit[name])
	if err != nil {
		r.fail(capital(name) + ": " + err.Error())
	}
	return p.Measured
}

// choice reads a cell that holds one of a few words.
func (r *rowReader) choice(name string, words map[string]string) string {
	v := strings.ToLower(r.cell(name))
	if _, ok := words[v]; v != "" && !ok {
		r.fail(capital(name) + ": “" + v + "” is not one of the words for it.")
		return ""
	}
	return v
}

func (r *rowReader) body() Body {
	if r.row.wrong != "" {
		r.fail(r.row.wrong)
		return nil
	}
	stamp := Stamp{r.cell("day"), r.cell("clock"), r.cell("by")}
	hours, level, added := r.measured("hours"), r.measured("level before"), r.measured("added")
	c := Conditions{
		Minutes: r.measured("after stop"), Temp: r.measured("oil temperature"), Stands: r.choice("stands", standsWords),
		Scavenged: r.choice("scavenged", scavengedWords), Foam: r.choice("foam", foamWords),
	}
	how := r.choice("how added", addHowWords)
	r.packed(&c, &how)
	late := r.choice("late", scavengedWords) == "yes"
	after, in := r.measured("level after"), r.measured("meter now")
	if added.Value.Sign() == 0 {
		added, how = quantity.Measured{}, ""
	}
	var body Body
	drained := strings.ToLower(r.cell("drained"))
	switch {
	case in.Given():
		body = &MeterChange{Out: hours, In: in, Stamp: stamp}
	case r.cell("step explained") != "":
		body = &StepClosed{Hours: hours, Found: r.cell("step explained"), Stamp: stamp}
	case drained == "" || drained == "0" || drained == "no":
		body = &Oil{Hours: hours, Level: level, Added: added, AddHow: how, Conditions: c, Note: r.cell("note"), Stamp: stamp, Late: late}
	case drained == "1" || drained == "same" || drained == "2" || drained == "yes":
		if added.Given() {
			r.fail("Drained and refilled is no add. Write what was added on a line of its own.")
		}
		body = &Drain{Hours: hours, LevelBefore: level, LevelAfter: after, Same: drained == "1" || drained == "same",
			Conditions: c, Note: r.cell("note"), Stamp: stamp, Late: late}
	default:
		r.fail("Drained: “" + drained + "” is not same, yes or no.")
		return nil
	}
	if err := body.Check(); err != nil {
		r.fail(err.Error())
	}
	return body
}

// packed reads the column that holds all conditions at once.
func (r *rowReader) packed(c *Conditions, how *string) {
	for _, part := range strings.FieldsFunc(r.cell("conditions"), func(c rune) bool { return c == ';' }) {
		name, value, _ := strings.Cut(strings.TrimSpace(part), "=")
		switch name {
		case "res":
			r.step = value
		case "min":
			c.Minutes = r.figure(part, value, quantity.UnitMin)
		case "temp_f":
			c.Temp = r.figure(part, value, quantity.UnitF)
		case "temp_c":
			c.Temp = r.figure(part, value, quantity.UnitC)
		case "att":
			c.Stands = r.word(part, value, standsWords)
		case "scav":
			c.Scavenged = r.word(part, value, scavengedWords)
		case "foam":
			c.Foam = r.word(part, value, foamWords)
		case "add":
			*how = map[string]string{"exact": "measured", "guess": "guessed", "normal": "normal"}[value]
			if *how == "" {
				r.fail("Conditions: “" + part + "” is not one that is known.")
			}
		default:
			r.fail("Conditions: “" + part + "” is not one that is known.")
		}
	}
}

func (r *rowReader) figure(part, value string, unit quantity.Unit) quantity.Measured {
	p, err := quantity.Parse(value, unit)
	if err != nil {
		r.fail("Conditions: “" + part + "”: " + err.Error())
	}
	return p.Measured
}

func (r *rowReader) word(part, value string, words map[string]string) string {
	if _, ok := words[value]; !ok {
		r.fail("Conditions: “" + part + "” is not one that is known.")
		return ""
	}
	return value
}

// stepDiffers says that a file's stick is read more or less finely than the
// book's.
func (b *Book) stepDiffers(step string) string {
	p, err := quantity.Parse(step, b.engine.unit)
	if err != nil {
		return ""
	}
	v, ok := b.value("stick_step")
	if !ok {
		return "The file says that the stick is read to " + short(p.Measured) + ". That is not on file: add it."
	}
	if c, err := quantity.Compare(v.M, p.Measured); err == nil && c != 0 {
		return "The file says that the stick is read to " + short(p.Measured) + "; on file is " + short(v.M) + "."
	}
	return ""
}

// importWords is a row in words, for a look before it is taken.
func importWords(body Body) string {
	s := body.Say()
	if t, ok := body.(timed); ok && t.at().Given() {
		s = t.at().Value.Show() + " h: " + s
	}
	return s
}

// figuresOf is what two entries must have alike to be the same one: the figures,
// not how they were typed.
func figuresOf(body Body) string {
	f := func(m quantity.Measured) string {
		return m.Value.Shortest().Text() + string(m.Unit) + "|"
	}
	switch v := body.(type) {
	case *Oil:
		return "oil " + f(v.Hours) + f(v.Level) + f(v.Added)
	case *Drain:
		return "drain " + f(v.Hours) + f(v.before()) + f(v.after())
	case *MeterChange:
		return "meter " + f(v.Out) + f(v.In)
	case *StepClosed:
		return "step " + f(v.Hours) + v.Found
	}
	return ""
}

// markAlready finds the rows the book has. Each line of the book accounts for
// one row: the same figures, and days that do not contradict each other. What
// was struck out counts too: it was in the book, and a person took it out.
func (b *Book) markAlready(im *Import, bodies map[int]Body) {
	have := map[string][]*line{}
	for _, l := range b.lines {
		if l.err == nil {
			if f := figuresOf(l.body); f != "" {
				have[f] = append(have[f], l)
			}
		}
	}
	taken := map[*line]bool{}
	match := func(i int, sameDay bool) {
		body, ok := bodies[i]
		if !ok || im.Rows[i].Already {
			return
		}
		day := body.(stamped).stamp().Day
		for _, l := range have[figuresOf(body)] {
			other := stampOf(l).Day
			if !taken[l] && (other == day || !sameDay && (day == "" || other == "")) {
				taken[l] = true
				im.Rows[i].Already = true
				return
			}
		}
	}
	for _, sameDay := range []bool{true, false} {
		for i := range im.Rows {
			match(i, sameDay)
		}
	}
}

// foresee says of each row that would be taken what the book would have to say
// about it.
func (b *Book) foresee(im *Import) {
	var bodies [][]byte
	var rowOf []int
	for i, r := range im.Rows {
		if r.Body != nil && !r.Already {
			bodies, rowOf = append(bodies, r.Body), append(rowOf, i)
		}
	}
	then, lines := b.then(bodies...)
	for i, l := range lines {
		if words := then.remark(l); words != "" {
			im.Rows[rowOf[i]].Words += ". " + words
		}
	}
}

// Write writes {"columns","rows","problems","summary"}.
func (im Import) Write(w *plain.Writer) {
	w.Begin('{')
	w.Texts("columns", im.Columns)
	w.Open("rows", '[')
	for _, r := range im.Rows {
		w.Begin('{')
		w.Int("line", int64(r.Line))
		if r.Body != nil {
			w.Raw("body", r.Body)
		}
		w.Text("words", r.Words)
		if r.Problem != "" {
			w.Text("problem", r.Problem)
		}
		w.Bool("already", r.Already)
		w.End('}')
	}
	w.End(']')
	w.Open("problems", '[')
	for _, p := range im.Problems {
		w.Begin('{')
		w.Int("line", int64(p.Line))
		w.Text("words", p.Words)
		w.End('}')
	}
	w.End(']')
	w.Text("summary", im.Summary)
	w.End('}')
}
