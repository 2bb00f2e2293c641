package book

import (
	"encoding/json"
	"fmt"
	"os"
	"regexp"
	"sort"
	"strings"
	"testing"
)

// The screens read what pwa/src/worker/view.ts says they get. This reads that
// file, as far as its own style goes, and holds real views against it: every
// value of the type it says, no field missing and none that it does not know.
func TestViewMatchesTypeScript(t *testing.T) {
	text, err := os.ReadFile("../../pwa/src/worker/view.ts")
	if err != nil {
		t.Fatal(err)
	}
	ts := parseTypes(string(text))
	seen := map[string]bool{}
	views := map[string]View{"nothing": Open(nil).View("00", Now{})}
	for _, name := range []string{"e1", "e2", "e3"} {
		b, f := demo(t, name)
		views[name] = b.View(f.Book, Now{})
	}
	for _, at := range [][2]string{{"e1", "2025-09-14"}, {"e1", "2025-11-16"}, {"e2", "2025-11-09"}, {"e3", "2026-02-01"}} {
		b, f := demoAt(t, at[0], at[1])
		views[at[0]+" on "+at[1]] = b.View(f.Book, Now{})
	}
	views["two values"] = disagreeing(t).View("00", Now{Day: "2026-05-01"})
	for name, v := range views {
		var value any
		if err := json.Unmarshal(v.JSON(), &value); err != nil {
			t.Fatal(err)
		}
		for _, wrong := range ts.check("View", value, name, seen) {
			t.Error(wrong)
		}
	}
	// Every interface was met at least once, or this test says nothing of it.
	for name := range ts {
		if !seen[name] {
			t.Errorf("no view holds a %s", name)
		}
	}
}

// typeScript is the interfaces and type names of view.ts: name -> type text, or
// for an interface its fields in braces.
type typeScript map[string]string

var (
	comments   = regexp.MustCompile(`(?m)//.*$|/\*\*[\s\S]*?\*/`)
	interfaces = regexp.MustCompile(`export interface (\w+) \{`)
	aliases    = regexp.MustCompile(`export type (\w+) =\s*([^\n]+)`)
	aField     = regexp.MustCompile(`^(\w+): ([\s\S]+)$`)
)

func parseTypes(text string) typeScript {
	text = comments.ReplaceAllString(text, "")
	ts := typeScript{}
	for _, m := range interfaces.FindAllStringSubmatchIndex(text, -1) {
		end, depth := m[1], 1 // behind the opening brace
		for ; depth > 0; end++ {
			switch text[end] {
			case '{':
				depth++
			case '}':
				depth--
			}
		}
		ts[text[m[2]:m[3]]] = text[m[1]-1 : end]
	}
	for _, m := range aliases.FindAllStringSubmatch(text, -1) {
		ts[m[1]] = m[2]
	}
	return ts
}

// fieldsOfType splits "{ a: string; b: X[] }" at its own level.
func fieldsOfType(body string) map[string]string {
	body = strings.TrimSuffix(strings.TrimPrefix(strings.TrimSpace(body), "{"), "}")
	out := map[string]string{}
	depth, start := 0, 0
	cut := func(end int) {
		if m := aField.FindStringSubmatch(strings.TrimSpace(body[start:end])); m != nil {
			out[m[1]] = strings.TrimSpace(m[2])
		}
		start = end + 1
	}
	for i, c := range body {
		switch {
		case c == '{':
			depth++
		case c == '}':
			depth--
		case depth == 0 && (c == ';' || c == '\n'):
			cut(i)
		}
	}
	if start <= len(body) {
		cut(len(body))
	}
	return out
}

func alternatives(typ string) []string {
	var out []string
	depth, start := 0, 0
	for i, c := range typ {
		switch {
		case c == '{':
			depth++
		case c == '}':
			depth--
		case c == '|' && depth == 0:
			out = append(out, strings.TrimSpace(typ[start:i]))
			start = i + 1
		}
	}
	return append(out, strings.TrimSpace(typ[start:]))
}

// check says where a value is not of a type.
func (ts typeScript) check(typ string, v any, at string, seen map[string]bool) []string {
	typ = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(typ), ";"))
	if def, ok := ts[typ]; ok {
		if v != nil {
			seen[typ] = true
		}
		typ = def
	}
	if alts := alternatives(typ); len(alts) > 1 {
		var first []string
		for _, a := range alts {
			wrong := ts.check(a, v, at, seen)
			if len(wrong) == 0 {
				return nil
			}
			if first == nil || strings.HasPrefix(a, "{") {
				first = wrong
			}
		}
		return first
	}
	bad := func() []string { return []string{fmt.Sprintf("%s: %v is not a %s", at, v, typ)} }
	switch {
	case typ == "unknown":
		return nil
	case typ == "null":
		if v != nil {
			return bad()
		}
	case typ == "string":
		if _, ok := v.(string); !ok {
			return bad()
		}
	case typ == "number":
		if _, ok := v.(float64); !ok {
			return bad()
		}
	case typ == "boolean":
		if _, ok := v.(bool); !ok {
			return bad()
		}
	case strings.HasPrefix(typ, "'"):
		if v != strings.Trim(typ, "'") {
			return bad()
		}
	case strings.HasSuffix(typ, "[]"):
		list, ok := v.([]any)
		if !ok {
			return bad()
		}
		var wrong []string
		for i, e := range list {
			wrong = append(wrong, ts.check(strings.TrimSuffix(typ, "[]"), e, fmt.Sprintf("%s[%d]", at, i), seen)...)
		}
		return wrong
	case strings.HasPrefix(typ, "{"):
		object, ok := v.(map[string]any)
		if !ok {
			return bad()
		}
		fields := fieldsOfType(typ)
		var wrong []string
		for name, t := range fields {
			value, ok := object[name]
			if !ok {
				wrong = append(wrong, at+": has no "+name)
				continue
			}
			wrong = append(wrong, ts.check(t, value, at+"."+name, seen)...)
		}
		for name := range object {
			if _, ok := fields[name]; !ok {
				wrong = append(wrong, at+": "+name+" is not in view.ts")
			}
		}
		sort.Strings(wrong)
		return wrong
	default:
		return []string{at + ": this test does not understand the type " + typ}
	}
	return nil
}

// The reader of view.ts must itself be able to fail.
func TestTypeCheckFails(t *testing.T) {
	ts := parseTypes("export interface A {\n  a: string\n  b: { c: number; d: 'x' | 'y' }[]\n}\n")
	for _, c := range []struct {
		json string
		bad  int
	}{
		{`{"a":"s","b":[{"c":1,"d":"x"}]}`, 0},
		{`{"a":1,"b":[]}`, 1},
		{`{"b":[]}`, 1},
		{`{"a":"s","b":null}`, 1},
		{`{"a":"s","b":[{"c":"1","d":"z"}],"e":1}`, 3},
	} {
		var v any
		if err := json.Unmarshal([]byte(c.json), &v); err != nil {
			t.Fatal(err)
		}
		if got := ts.check("A", v, "A", map[string]bool{}); len(got) != c.bad {
			t.Errorf("%s: %v, want %d complaints", c.json, got, c.bad)
		}
	}
}
