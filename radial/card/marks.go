package card

import "strings"

// Marks is the keys of the sources that a text names in brackets: "two turns [tx], [a, b]".
func Marks(s string) []string {
	_, marks := unmark(s)
	return marks
}

// unmark is a text without its marks, and the marks.
func unmark(s string) (text string, marks []string) {
	for {
		before, inside, found := strings.Cut(s, "[")
		if !found {
			return strings.TrimSpace(text + s), marks
		}
		keys, after, closed := strings.Cut(inside, "]")
		var these []string
		for _, key := range strings.Split(keys, ",") {
			if key = strings.TrimSpace(key); name(key) {
				these = append(these, key)
			}
		}
		if !closed || len(these) == 0 { // a bracket of another kind
			text, s = text+before+"[", inside
			continue
		}
		text, s = text+strings.TrimRight(before, " "), after
		marks = append(marks, these...)
	}
}
