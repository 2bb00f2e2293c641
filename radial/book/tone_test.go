package book

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

// What the tool never says. A verdict is about one number and one document; only
// a named, certificated person says that an engine may be turned, run or flown.
var never = regexp.MustCompile(`(?i)\b(airworthy|safe|safely|ok to (fly|turn|run)|healthy|passed|please|sorry|oops|success|successfully|invalid|sync|offline|queue|conflict|submit)\b|!`)

func TestTone(t *testing.T) {
	files, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
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
			lit, ok := node.(*ast.BasicLit)
			if !ok || lit.Kind != token.STRING {
				return true
			}
			s, err := strconv.Unquote(lit.Value)
			if err != nil {
				t.Fatal(err)
			}
			if n++; never.MatchString(s) {
				t.Errorf("%s says %q", f.Name(), s)
			}
			return true
		})
	}
	if n < 300 {
		t.Errorf("only %d strings were looked at", n)
	}
	for _, bad := range []string{"It is safe.", "Saved!", "OK to fly", "sync failed"} {
		if !never.MatchString(bad) {
			t.Errorf("%q would go through", bad)
		}
	}
}

// No verdict without its limit: in every view of every demo engine and of books
// with anything missing, inside, at the edge and outside stand beside a source,
// and where there is no limit it says so (look.md 13, bar 19).
func TestNoVerdictWithoutLimit(t *testing.T) {
	views := []View{disagreeing(t).View("", Now{})}
	for _, name := range []string{"e1", "e2", "e3"} {
		b, f := demo(t, name)
		views = append(views, b.View(f.Book, Now{}))
	}
	for _, drop := range []string{"ceiling", "overnight", "since", "stick_step", "oil_unit", "meter"} {
		_, f := demo(t, "e2")
		var rs []Record
		for _, r := range f.Records() {
			if !strings.Contains(string(r.Entry.Body), `"field":"`+drop+`"`) {
				rs = append(rs, r)
			}
		}
		views = append(views, Open(rs).View("", Now{Day: "2025-11-09"}))
	}
	judged := func(c Chip) bool { return c != Cant }
	for i, v := range views {
		if judged(v.Rate.Verdict.Chip) && v.Rate.Verdict.Chip == Inside && (v.Rate.Ceiling == nil || v.Rate.CeilingText == "") {
			t.Errorf("view %d: %+v without a ceiling", i, v.Rate.Verdict)
		}
		if v.Rate.Ceiling == nil && len(v.Settings) > 0 && v.Rate.None == "" && len(v.Open) == 0 {
			t.Errorf("view %d: no ceiling and it does not say so", i)
		}
		if m := v.Missing; m != nil {
			if judged(m.Verdict.Chip) != (m.Line.Source != nil) || (m.Line.Source == nil) != (m.Line.None == noLimit) {
				t.Errorf("view %d: %+v with source %v, none %q", i, m.Verdict, m.Line.Source, m.Line.None)
			}
		}
		for _, h := range v.Ring.Heads {
			if h.Chip != nil && judged(*h.Chip) && !limitOn(v, "compression") {
				t.Errorf("view %d: head %d is judged, and no compression limit is on file", i, h.K)
			}
		}
	}
}

// limitOn reports that a limit is on file with its paper.
func limitOn(v View, field string) bool {
	for _, s := range v.Settings {
		if s.Field == field {
			return s.Given && s.Source != nil && len(s.Others) == 0
		}
	}
	return false
}
