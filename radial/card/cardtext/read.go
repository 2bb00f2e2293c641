package cardtext

import (
	"errors"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"

	"linkrod/radial/card"
	"linkrod/sync/plain"
)

// MostText is how long a card's text may be: it travels with its JSON in one entry.
const MostText = 14 << 10

// Fault is one thing wrong with a text, where it was typed.
type Fault struct {
	File         string
	Line, Column int // from 1
	At           string
	Words        string
}

// String is file:line:column: sentence.
func (f Fault) String() string {
	return f.File + ":" + strconv.Itoa(f.Line) + ":" + strconv.Itoa(f.Column) + ": " + f.Words
}

// Text is a card's text, read.
type Text struct {
	Text   string // as written
	JSON   []byte
	Card   card.Card // the zero Card while there are faults
	Faults []Fault
	places places
}

// Read reads a card. It gives every fault it can find, in the order of the text.
func Read(file string, text []byte, rules card.Rules) Text {
	t := read(file, text)
	t.Text = string(text)
	if len(t.Faults) > 0 {
		return t
	}
	faults := t.shape()
	v, err := plain.Parse(t.JSON)
	if err != nil {
		faults = append(faults, card.Fault{Words: "This text cannot be kept as a card: " + err.Error() + "."})
	}
	if len(faults) == 0 {
		faults = card.Check(v, rules)
	}
	for _, f := range faults {
		t.Faults = append(t.Faults, t.places.fault(file, f))
	}
	inOrder(t.Faults)
	if len(t.Faults) == 0 {
		t.Card, _ = card.Read(v)
		t.Card.Hash = Hash(text)
	}
	return t
}

// read takes the text apart, with the place of everything in it.
func read(file string, text []byte) (t Text) {
	t.places = places{"": {1, 1}}
	whole := func(words string) Text {
		t.Faults = []Fault{{file, 1, 1, "", words}}
		return t
	}
	switch {
	case len(text) > MostText:
		return whole("The text has " + strconv.Itoa(len(text)) + " bytes, and a card takes " + strconv.Itoa(MostText) + ". Make two cards of it.")
	case !utf8.Valid(text):
		return whole("The text is not UTF-8. Save it again in that encoding.")
	case strings.HasPrefix(string(text), "\ufeff"):
		return whole("The text begins with a byte order mark. Save it as UTF-8 without one.")
	case strings.TrimSpace(string(text)) == "":
		return whole("There is nothing in it.")
	}
	parsed, err := parser.ParseBytes(text, 0, parser.AllowDuplicateMapKey()) // told by us, at the second
	if err != nil {
		t.Faults = []Fault{syntax(file, text, err)}
		return t
	}
	var docs []ast.Node
	for _, d := range parsed.Docs {
		if d.Body != nil {
			docs = append(docs, d.Body)
		}
	}
	if len(docs) != 1 {
		return whole("One card a file: there are " + strconv.Itoa(len(docs)) + " in this one.")
	}
	r := reader{file: file, places: t.places}
	r.value("", docs[0])
	t.JSON, t.Faults = r.w.Bytes(), r.faults
	return t
}

// syntax is what the parser could not take, in a sentence.
func syntax(file string, text []byte, err error) Fault {
	f := Fault{File: file, Line: 1, Column: 1, Words: "This is not YAML: " + err.Error()}
	var e yaml.Error
	if errors.As(err, &e) {
		f.Words = "This is not YAML: " + e.GetMessage() + "."
		if tk := e.GetToken(); tk != nil && tk.Position != nil {
			f.Line, f.Column = tk.Position.Line, tk.Position.Column
		}
	}
	if line, col := tab(text); line > 0 && line <= f.Line {
		f.Line, f.Column, f.Words = line, col, "This line is indented with a tab. YAML takes spaces only."
	}
	return f
}

// tab is the first line indented with one.
func tab(text []byte) (line, column int) {
	for i, l := range strings.Split(string(text), "\n") {
		if rest := strings.TrimLeft(l, " "); strings.HasPrefix(rest, "\t") {
			return i + 1, len(l) - len(rest) + 1
		}
	}
	return 0, 0
}

// reader writes a YAML tree as JSON and keeps the places.
type reader struct {
	file   string
	w      plain.Writer
	places places
	faults []Fault
}

func (r *reader) fault(n ast.Node, words string) {
	line, column := place(n.GetToken())
	r.faults = append(r.faults, Fault{r.file, line, column, "", words})
}

// start is the token a node begins with: of fields one a line, the first of them.
func start(n ast.Node) *token.Token {
	switch v := n.(type) {
	case *ast.MappingNode:
		if !v.IsFlowStyle && len(v.Values) > 0 {
			return v.Values[0].Key.GetToken()
		}
	case *ast.MappingValueNode:
		return v.Key.GetToken()
	}
	return n.GetToken()
}

func place(t *token.Token) (line, column int) {
	if t == nil || t.Position == nil {
		return 1, 1
	}
	return t.Position.Line, t.Position.Column
}

func (r *reader) value(at string, n ast.Node) {
	if _, ok := r.places[at]; !ok {
		line, column := place(start(n))
		r.places[at] = [2]int{line, column}
	}
	switch v := n.(type) {
	case *ast.MappingNode:
		r.object(at, v.Values)
	case *ast.MappingValueNode:
		r.object(at, []*ast.MappingValueNode{v})
	case *ast.SequenceNode:
		r.w.Begin('[')
		for i, e := range v.Values {
			r.value(at+"/"+strconv.Itoa(i), e)
		}
		r.w.End(']')
	case *ast.BoolNode:
		r.w.Bool("", v.Value)
	case *ast.StringNode:
		r.w.Text("", v.Value)
	case *ast.LiteralNode:
		r.w.Text("", strings.TrimRight(v.Value.Value, "\n"))
	case *ast.NullNode:
		r.fault(n, "Nothing stands here. Write what belongs here, or take it out. Inside { } or [ ] a text with a comma or a colon goes in quotation marks.")
		r.w.Null("")
	case *ast.AnchorNode, *ast.AliasNode:
		r.fault(n, "An anchor or alias (& or *) stands here. Write it out, so that the sheet can be read; a text that begins with one goes in quotation marks.")
		r.w.Null("")
	case *ast.TagNode:
		r.fault(n, "A tag (!) stands here. Cards do without; a text that begins with one goes in quotation marks.")
		r.w.Null("")
	default: // a number, as it was typed
		r.scalar(at, n)
	}
}

// scalar is a plain number, infinity or the like: as it was typed.
func (r *reader) scalar(at string, n ast.Node) {
	typed := strings.TrimSpace(n.GetToken().Value)
	if isVersion(at) {
		if v, err := strconv.ParseInt(typed, 10, 32); err == nil {
			r.w.Int("", v)
			return
		}
	}
	r.w.Text("", typed)
}

// isVersion reports the places that hold a number rather than a figure.
func isVersion(at string) bool {
	return at == "/version" || strings.HasPrefix(at, "/history/") && strings.HasSuffix(at, "/version")
}

func (r *reader) object(at string, values []*ast.MappingValueNode) {
	r.w.Begin('{')
	seen := map[string]bool{}
	for _, v := range values {
		if _, merge := v.Key.(*ast.MergeKeyNode); merge {
			r.fault(v.Key, "A merge (<<) stands here. Write it out, so that the sheet can be read.")
			continue
		}
		key := strings.TrimSpace(v.Key.GetToken().Value)
		in := at + "/" + escape(key)
		if seen[key] {
			r.fault(v.Key, "“"+key+"” stands here a second time. Each field stands once.")
			continue
		}
		seen[key] = true
		line, column := place(v.Key.GetToken())
		r.places[in] = [2]int{line, column}
		r.w.Key(key)
		r.value(in, v.Value)
	}
	r.w.End('}')
}

// places is line and column by JSON pointer.
type places map[string][2]int

// fault gives a fault of package card its place: of itself, or of what it would stand in.
func (p places) fault(file string, f card.Fault) Fault {
	for at := f.At; ; {
		if place, ok := p[at]; ok {
			return Fault{file, place[0], place[1], f.At, f.Words}
		}
		i := strings.LastIndexByte(at, '/')
		if i < 0 {
			return Fault{file, 1, 1, f.At, f.Words}
		}
		at = at[:i]
	}
}

// escape is a name in a JSON pointer (RFC 6901).
func escape(name string) string {
	return strings.ReplaceAll(strings.ReplaceAll(name, "~", "~0"), "/", "~1")
}
