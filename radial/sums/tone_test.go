package sums_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// What the tool never says: promises, verdicts that only a named person may give, and the
// words of machines.
var never = regexp.MustCompile(`(?i)\b(airworthy|safe|safely|ok to (fly|turn|run)|healthy|passed|good|please|sorry|oops|success|successfully|invalid|error|sync|offline|queue|conflict|submit)\b|!`)

func TestTone(t *testing.T) {
	files, err := os.ReadDir(".")
	if err != nil {
		t.Skip("the sources are not here: ", err) // as wasm, where the test has no disk
	}
	n := 0
	for _, f := range files {
		if !strings.HasSuffix(f.Name(), ".go") || strings.HasSuffix(f.Name(), "_test.go") {
			continue
		}
		tree, err := parser.ParseFile(token.NewFileSet(), f.Name(), nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(tree, func(node ast.Node) bool {
			if _, imported := node.(*ast.ImportSpec); imported {
				return false
			}
			if lit, ok := node.(*ast.BasicLit); ok && lit.Kind == token.STRING {
				s, err := strconv.Unquote(lit.Value)
				if err != nil {
					t.Fatal(err)
				}
				if n++; never.MatchString(s) && !strings.Contains(s, "good to") {
					t.Errorf("%s says %q", f.Name(), s)
				}
			}
			return true
		})
	}
	if n < 500 {
		t.Errorf("only %d strings were looked at", n)
	}
}

// The same of the pages themselves, with what the packages of the trade put on them.
func TestToneOfPages(t *testing.T) {
	for _, e := range examples {
		p := work(t, e.id, e.in)
		for _, s := range strings.Split(p.text(), "\n") {
			if never.MatchString(s) && !strings.Contains(s, "good to") {
				t.Errorf("%s says %q", e.id, s)
			}
		}
	}
	for _, tt := range wrong {
		if s := work(t, tt.id, tt.in).text(); never.MatchString(strings.ReplaceAll(s, "good to", "")) {
			t.Errorf("%s says %q", tt.id, never.FindString(s))
		}
	}
}
