package sums_test

import (
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"
)

var nothing = regexp.MustCompile(`\bNaN\b|\bInf\b|%!|<nil>|\{[a-zA-Z0-9=]+\}`)

// FuzzWork types the same three texts into the boxes of a sum in turn. Whatever they
// are, there is a page: answered or with a sentence why not, nothing lost, and no figure in
// it that is none.
func FuzzWork(f *testing.F) {
	for _, e := range examples {
		var first, second, third string
		for _, text := range e.in {
			first, second, third = second, third, text
		}
		f.Add(e.id, first, second, third, "")
	}
	for _, tt := range wrong {
		for _, text := range tt.in {
			f.Add(tt.id, text, "5", "9", "mm")
		}
	}
	f.Add("tops", "7", "1", "-0", "deg")
	f.Add("words", "999999999999 gal", "", "torque", "")
	ids := list(f)
	f.Fuzz(func(t *testing.T, id, a, b, c, unit string) {
		known := false
		for _, s := range ids {
			known = known || s == id
		}
		if !known {
			id = ids[len(id+a)%len(ids)]
		}
		texts := []string{a, b, c}
		in := typed{}
		for i, box := range work(t, id, nil).Fields {
			text := texts[i%3]
			if len(box.Choices) > 0 && i%2 == 0 {
				text = box.Choices[len(text)%len(box.Choices)].Value
			}
			in[box.Name] = text
			if i%4 == 3 {
				in[box.Name+".unit"] = unit
			}
			if box.Or != "" && len(a)%2 == i%2 {
				delete(in, box.Name)
			}
		}
		p := work(t, id, in)
		if (p.Waits == "") != (len(p.Answers) > 0) {
			t.Errorf("%s: %d answers and waits %q", id, len(p.Answers), p.Waits)
		}
		for _, box := range p.Fields {
			if utf8.ValidString(in[box.Name]) && box.Value != in[box.Name] {
				t.Errorf("%s: %s lost %q", id, box.Name, in[box.Name])
			}
		}
		typedIn := strings.Join(texts, " ") + unit
		if bad := nothing.FindString(p.text()); bad != "" && !strings.Contains(typedIn, strings.Trim(bad, "{}")) {
			t.Errorf("%s %v says %q in %s", id, in, bad, p.text())
		}
		for name, v := range p.Draw {
			if v == nil {
				t.Errorf("%s draws nothing as %s", id, name)
			}
			list, _ := v.([]any)
			for _, x := range list {
				if x == nil {
					t.Errorf("%s draws nothing in %s", id, name)
				}
			}
		}
	})
}
