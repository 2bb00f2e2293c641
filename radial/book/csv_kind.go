package book

import (
	"strings"

	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// ReadCSVOf reads a file of entries of one kind of the table. Each row is a form filled in: the
// same boxes, the same refusals, and what a form would ask about is refused until a column
// “checked” says yes. Columns are called as the boxes are, by name or by label; a repeated box
// has one for each place, "values 5", and where a kind has one that is needed, its places may
// stand alone: "1", "2", "3". A unit stands in brackets.
//
//	day,hours [h],out of [psi],orifice [in],warm,1,2,3,4,5,6,7,tool,by
func (b *Book) ReadCSVOf(kind, text string) Import {
	var im Import
	k := KindOf(kind)
	if k == nil {
		im.problem(1, "This Linkrod cannot read a file of “"+kind+"”.")
		return im.done()
	}
	rows, _ := readCSV(text)
	if len(rows) == 0 {
		im.problem(1, "The file is empty. Its first line names the columns, as the boxes of the page are called.")
		return im.done()
	}
	head := rows[0]
	names := make([]string, len(head.cells)) // what each column is called in a form
	units := map[string]string{}
	for i, cell := range head.cells {
		name, unit, ok := k.column(cell)
		switch {
		case strings.TrimSpace(cell) == "":
		case !ok:
			im.problem(head.line, "The column “"+strings.TrimSpace(cell)+"” is not one that is read here. It is left out.")
		case contains(names, name):
			im.problem(head.line, "The column “"+strings.TrimSpace(cell)+"” is there twice.")
			return im.done()
		default:
			names[i] = name
			im.Columns = append(im.Columns, strings.TrimSpace(cell))
			if unit != "" {
				box, _, _ := strings.Cut(name, ".")
				units[box+".unit"] = unit
			}
		}
	}
	have := map[string]int{}
	for _, l := range b.lines {
		if f, ok := l.body.(*Facts); ok && f.Kind == k {
			have[f.alike()]++
		}
	}
	if len(rows)-1 > maxRows {
		im.problem(rows[maxRows+1].line, "The file has more than "+itoa(maxRows)+" lines. What comes after is left out.")
		rows = rows[:maxRows+1]
	}
	for _, row := range rows[1:] {
		out := ImportRow{Line: row.line, Problem: row.wrong}
		f, asks := b.rowOf(k, row, names, units)
		for _, a := range asks {
			if out.Problem == "" && a.Strength == Impossible {
				out.Problem = a.Words
			}
		}
		for _, a := range asks {
			if out.Problem == "" && a.Strength == Unlikely {
				out.Problem = a.Words + " If it is right, say yes in a column “checked”."
			}
		}
		if out.Problem != "" {
			out.Words = "Line " + itoa(row.line)
			im.problem(row.line, out.Problem)
		} else {
			out.Body, out.Words = Encode(f), importWords(f)
			if out.Already = have[f.alike()] > 0; out.Already {
				have[f.alike()]--
			}
		}
		im.Rows = append(im.Rows, out)
	}
	return im.done()
}

// rowOf fills in a form from a row.
func (b *Book) rowOf(k *Kind, row csvRow, names []string, units map[string]string) (*Facts, []Ask) {
	var w plain.Writer
	w.Begin('{')
	w.Bool("late", true) // its hours and its day place it
	by, checked := "", false
	for i, name := range names {
		if i >= len(row.cells) || name == "" {
			continue
		}
		cell := strings.TrimSpace(row.cells[i])
		switch name {
		case "by":
			by = cell
		case "checked":
			checked = strings.EqualFold(cell, "yes")
		default:
			w.Text(name, cell)
		}
	}
	for name, unit := range units {
		w.Text(name, unit)
	}
	w.End('}')
	in, err := plain.Parse(w.Bytes())
	if err != nil {
		return nil, []Ask{{Strength: Impossible, Words: "The line cannot be read."}}
	}
	d := &drafting{book: b, in: in, me: by}
	f := d.facts(k)
	d.legal("note", f.Note)
	if err := f.Check(); err != nil && !d.impossible() {
		d.ask(Ask{Strength: Impossible, Words: err.Error()})
	}
	if checked {
		var rest []Ask
		for _, a := range d.asks {
			if a.Strength == Unlikely {
				f.Checked = append(f.Checked, a.Code)
				continue
			}
			rest = append(rest, a)
		}
		d.asks = rest
	}
	return f, d.asks
}

func (d *drafting) impossible() bool {
	for _, a := range d.asks {
		if a.Strength == Impossible {
			return true
		}
	}
	return false
}

// column is what a column is called in a form, and its unit.
func (k *Kind) column(cell string) (name, unit string, ok bool) {
	s := strings.ToLower(strings.Join(strings.Fields(strings.ReplaceAll(cell, "_", " ")), " "))
	if open := strings.IndexAny(s, "[("); open >= 0 {
		said := strings.Trim(s[open:], "[]() ")
		s = strings.TrimSpace(s[:open])
		for _, d := range []quantity.Unit{quantity.UnitH, quantity.UnitMin, quantity.UnitPsi, quantity.UnitIn, quantity.UnitThou, quantity.UnitMm, quantity.UnitF, quantity.UnitC,
			quantity.UnitQt, quantity.UnitL, quantity.UnitFlOz, quantity.UnitInLb, quantity.UnitFtLb, quantity.UnitRpm, quantity.UnitDeg, quantity.UnitHp, quantity.UnitInHg} {
			if said == strings.ToLower(d.Symbol()) || said == strings.ToLower(string(d)) || said == d.Plural() {
				unit = string(d)
			}
		}
	}
	switch s {
	case "date":
		return "day", "", true
	case "time":
		return "clock", "", true
	case "tach", "meter":
		return "hours", "", true
	case "hours", "day", "clock", "tool", "note", "by", "checked":
		return s, "", true
	}
	for i := range k.Boxes {
		x := &k.Boxes[i]
		label := strings.ToLower(x.Label)
		if x.Per == One {
			if s == x.Name || s == strings.ReplaceAll(x.Name, "_", " ") || s == label {
				return x.Name, unit, true
			}
			continue
		}
		for _, at := range x.Per.places(9) {
			if s == x.Name+" "+at || s == x.Name+"."+at || s == label+" "+at || s == label+" "+x.Per.said(at) || x.Need != "" && s == at {
				return x.Name + "." + at, unit, true
			}
		}
	}
	return "", "", false
}

// alike is what two entries of a kind have alike when they are one: everything but who wrote
// it and what was asked.
func (f *Facts) alike() string {
	g := *f
	g.By, g.Checked, g.Late, g.Card, g.Clock = "", nil, false, nil, ""
	return string(Encode(&g))
}
