package main

import (
	"encoding/json"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"hash/fnv"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// site is one place where one operator changes the source.
type site struct {
	file     string // as the go command names it
	source   []byte
	from, to int // offsets of what is replaced
	with     string
	operator string
	group    string // drawn from in turn, so that none is drowned by the many literals
	line     int
	column   int
	nth      int // which of the same change on lines that read the same, from 1
}

func (s site) text() string {
	return strings.TrimSpace(strings.Split(string(s.source), "\n")[s.line-1])
}

func (s site) String() string {
	return fmt.Sprintf("%s:%d:%d %s: `%s` to `%s` in `%s`", short(s.file), s.line, s.column, s.operator, s.source[s.from:s.to], s.with, s.text())
}

// key names the site without its line number, which moves.
func (s site) key() string {
	return fmt.Sprintf("%s | %s | %s | %d", short(s.file), s.operator, s.text(), s.nth)
}

func short(file string) string {
	if here, err := os.Getwd(); err == nil {
		if rel, err := filepath.Rel(here, file); err == nil {
			return rel
		}
	}
	return file
}

func (s site) mutant() []byte {
	return slices.Concat(s.source[:s.from], []byte(s.with), s.source[s.to:])
}

// sitesOf every file of a package but its tests.
func sitesOf(pkg string) ([]site, error) {
	out, err := exec.Command("go", "list", "-json=Dir,GoFiles", pkg).Output()
	if err != nil {
		return nil, fmt.Errorf("go list %s: %w", pkg, err)
	}
	var p struct {
		Dir     string
		GoFiles []string
	}
	if err := json.Unmarshal(out, &p); err != nil {
		return nil, err
	}
	var all []site
	for _, name := range p.GoFiles {
		file := filepath.Join(p.Dir, name)
		source, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		sites, err := sitesIn(file, source)
		if err != nil {
			return nil, err
		}
		all = append(all, sites...)
	}
	seen := map[string]int{}
	for i := range all {
		k := all[i].key()
		seen[k]++
		all[i].nth = seen[k]
	}
	return all, nil
}

// swaps of one token for another.
var swaps = map[token.Token]struct {
	to              token.Token
	operator, group string
}{
	token.ADD: {token.SUB, "+ to -", "sign"}, token.SUB: {token.ADD, "- to +", "sign"},
	token.MUL: {token.QUO, "* to /", "sign"}, token.QUO: {token.MUL, "/ to *", "sign"},
	token.ADD_ASSIGN: {token.SUB_ASSIGN, "+ to -", "sign"}, token.SUB_ASSIGN: {token.ADD_ASSIGN, "- to +", "sign"},
	token.MUL_ASSIGN: {token.QUO_ASSIGN, "* to /", "sign"}, token.QUO_ASSIGN: {token.MUL_ASSIGN, "/ to *", "sign"},
	token.LSS: {token.LEQ, "< to <=", "boundary"}, token.LEQ: {token.LSS, "<= to <", "boundary"},
	token.GTR: {token.GEQ, "> to >=", "boundary"}, token.GEQ: {token.GTR, ">= to >", "boundary"},
	token.EQL: {token.NEQ, "== to !=", "logic"}, token.NEQ: {token.EQL, "!= to ==", "logic"},
	token.LAND: {token.LOR, "&& to ||", "logic"}, token.LOR: {token.LAND, "|| to &&", "logic"},
}

// sitesIn one file, in the order of the source.
func sitesIn(file string, source []byte) ([]site, error) {
	set := token.NewFileSet()
	parsed, err := parser.ParseFile(set, file, source, parser.SkipObjectResolution)
	if err != nil {
		return nil, err
	}
	var sites []site
	add := func(from, to token.Pos, with, operator, group string) {
		sites = append(sites, site{
			file: file, source: source,
			from: set.Position(from).Offset, to: set.Position(to).Offset,
			with: with, operator: operator, group: group, line: set.Position(from).Line, column: set.Position(from).Column,
		})
	}
	token := func(at token.Pos, t token.Token) {
		if s, ok := swaps[t]; ok {
			add(at, at+tokenLen(t), s.to.String(), s.operator, s.group)
		}
	}
	src := func(n ast.Node) string {
		return string(source[set.Position(n.Pos()).Offset:set.Position(n.End()).Offset])
	}
	ast.Inspect(parsed, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec, *ast.ArrayType:
			return false
		case *ast.BinaryExpr:
			if !hasString(n) {
				token(n.OpPos, n.Op)
			}
		case *ast.AssignStmt:
			if !hasString(n.Rhs[0]) {
				token(n.TokPos, n.Tok)
			}
		case *ast.UnaryExpr:
			if n.Op.String() == "-" {
				add(n.OpPos, n.OpPos+1, "+", "minus dropped", "sign")
			}
		case *ast.BasicLit:
			if number(n) {
				add(n.Pos(), n.End(), "("+n.Value+" + 1)", "plus 1", "boundary")
				if v, err := strconv.ParseFloat(n.Value, 64); err != nil || v != 0 {
					add(n.Pos(), n.End(), "("+n.Value+" * 12)", "times 12", "unit")
				}
			}
		case *ast.CallExpr:
			name, start := called(n)
			if other := map[string]string{"min": "max", "max": "min", "Min": "Max", "Max": "Min"}[name]; other != "" {
				add(start, start+3, other, "min, max", "sign")
			}
		case *ast.IfStmt:
			if n.Else == nil && leaves(n.Body) {
				add(n.Cond.Pos(), n.Cond.End(), "false && ("+src(n.Cond)+")", "guard dropped", "logic")
			}
		}
		return true
	})
	return sites, nil
}

// hasString: a string is in it, so + is not arithmetic.
func hasString(n ast.Node) bool {
	b, ok := n.(*ast.BinaryExpr)
	if ok {
		return hasString(b.X) || hasString(b.Y)
	}
	l, ok := n.(*ast.BasicLit)
	return ok && l.Kind == token.STRING
}

func number(l *ast.BasicLit) bool { return l.Kind == token.INT || l.Kind == token.FLOAT }

// called is min, max, math.Min or math.Max, and where its name starts.
func called(c *ast.CallExpr) (string, token.Pos) {
	switch f := c.Fun.(type) {
	case *ast.Ident:
		if f.Name == "min" || f.Name == "max" {
			return f.Name, f.Pos()
		}
	case *ast.SelectorExpr:
		if x, ok := f.X.(*ast.Ident); ok && x.Name == "math" {
			return f.Sel.Name, f.Sel.Pos()
		}
	}
	return "", 0
}

// leaves: the block ends the function, or this turn of the loop.
func leaves(b *ast.BlockStmt) bool {
	if len(b.List) == 0 {
		return false
	}
	switch s := b.List[len(b.List)-1].(type) {
	case *ast.ReturnStmt:
		return true
	case *ast.BranchStmt:
		return s.Tok == token.CONTINUE || s.Tok == token.BREAK
	}
	return false
}

func tokenLen(t token.Token) token.Pos { return token.Pos(len(t.String())) }

// draw puts the sites in the order they are tried in: shuffled, then one from
// each group in turn. Another package, or another file list, does not change it.
func draw(sites []site, seed uint64, pkg string) []site {
	h := fnv.New64a()
	h.Write([]byte(pkg))
	r := rand.New(rand.NewPCG(seed, h.Sum64()))
	sites = slices.Clone(sites)
	r.Shuffle(len(sites), func(i, j int) { sites[i], sites[j] = sites[j], sites[i] })
	groups := []string{"sign", "unit", "boundary", "logic"}
	by := map[string][]site{}
	for _, s := range sites {
		by[s.group] = append(by[s.group], s)
	}
	var order []site
	for len(order) < len(sites) {
		for _, g := range groups {
			if len(by[g]) > 0 {
				order, by[g] = append(order, by[g][0]), by[g][1:]
			}
		}
	}
	return order
}
