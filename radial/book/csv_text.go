package book

import "strings"

// Comma-separated text as RFC 4180 has it, and as spreadsheets write it: also
// with semicolons or tabs between the cells, with either line end, and with a
// byte order mark in front. Own code because encoding/csv brings fmt, which the
// phone's core cannot afford; a test holds the two against each other.

// csvRow is one row and the line of the file it begins on.
type csvRow struct {
	line  int
	cells []string
	wrong string // why the row cannot be read
}

// readCSV takes text apart. Rows without anything in them are left out.
func readCSV(text string) (rows []csvRow, sep byte) {
	text = strings.TrimPrefix(text, "\ufeff")
	head, _, _ := strings.Cut(text, "\n")
	sep = ','
	for _, c := range []byte{';', '\t'} {
		if strings.Count(head, string(c)) > strings.Count(head, string(sep)) {
			sep = c
		}
	}
	p := csvParser{text: text, sep: sep, line: 1}
	for p.at < len(text) {
		if row := p.row(); len(row.cells) > 1 || row.cells[0] != "" || row.wrong != "" {
			rows = append(rows, row)
		}
	}
	return rows, sep
}

type csvParser struct {
	text string
	sep  byte
	at   int
	line int
}

// row reads up to and including a line end.
func (p *csvParser) row() csvRow {
	r := csvRow{line: p.line}
	for {
		cell, wrong := p.cell()
		r.cells = append(r.cells, cell)
		if wrong != "" {
			r.wrong = wrong
			p.skipLine()
			return r
		}
		if p.at >= len(p.text) {
			return r
		}
		c := p.text[p.at]
		p.at++
		if c == '\n' {
			p.line++
			return r
		}
	}
}

// cell reads up to the separator, the line end or the end.
func (p *csvParser) cell() (cell, wrong string) {
	if p.at < len(p.text) && p.text[p.at] == '"' {
		return p.quoted()
	}
	start := p.at
	for p.at < len(p.text) && p.text[p.at] != p.sep && p.text[p.at] != '\n' {
		if p.text[p.at] == '"' {
			return "", "A quotation mark stands in the middle of a cell. Put the whole cell in quotation marks and double the ones inside."
		}
		p.at++
	}
	return p.trimCR(p.text[start:p.at]), ""
}

// trimCR drops the carriage return of a line end.
func (p *csvParser) trimCR(s string) string {
	if p.at >= len(p.text) || p.text[p.at] == '\n' {
		return strings.TrimSuffix(s, "\r")
	}
	return s
}

func (p *csvParser) quoted() (cell, wrong string) {
	begun := p.line
	p.at++
	var b strings.Builder
	for p.at < len(p.text) {
		c := p.text[p.at]
		p.at++
		switch {
		case c == '\n':
			p.line++
			b.WriteByte(c)
		case c == '\r' && strings.HasPrefix(p.text[p.at:], "\n"):
			// a line end inside a cell is one sign, as encoding/csv has it
		case c != '"':
			b.WriteByte(c)
		case strings.HasPrefix(p.text[p.at:], `"`):
			b.WriteByte('"')
			p.at++
		default:
			rest := p.text[p.at:]
			if rest == "" || rest[0] == p.sep || rest[0] == '\n' {
				return b.String(), ""
			}
			if rest == "\r" || strings.HasPrefix(rest, "\r\n") {
				p.at++
				return b.String(), ""
			}
			return "", "Something stands behind a closing quotation mark."
		}
	}
	return "", "The quotation mark on line " + itoa(begun) + " is never closed."
}

func (p *csvParser) skipLine() {
	for p.at < len(p.text) {
		p.at++
		if p.text[p.at-1] == '\n' {
			p.line++
			return
		}
	}
}

// quoteCSV is a cell for a file with commas.
func quoteCSV(s string) string {
	if strings.ContainsAny(s, ",\"\r\n") || strings.TrimSpace(s) != s {
		return `"` + strings.ReplaceAll(s, `"`, `""`) + `"`
	}
	return s
}
