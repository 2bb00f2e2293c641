package book

import (
	"strconv"
	"strings"

	"linkrod/radial/quantity"
)

// inWords is a value as it was typed with its unit as a word: "15 quarts".
func inWords(m quantity.Measured) string {
	if !m.Given() {
		return "not given"
	}
	if m.Value == quantity.Whole(1) {
		return "1 " + m.Unit.Singular()
	}
	return m.Value.Show() + " " + m.Unit.Plural()
}

// short is a value as it was typed, with the symbol of its unit: "15 qt".
func short(m quantity.Measured) string {
	if !m.Given() {
		return ""
	}
	return m.Value.Show() + " " + m.Unit.Symbol()
}

// aside is a remark after a sentence, nothing if there is none.
func aside(remark string) string {
	if remark == "" {
		return ""
	}
	return " (" + remark + ")"
}

// capital is s with a capital letter first.
func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// list joins parts as a sentence does: "a, b and c".
func list(parts []string, last string) string {
	if len(parts) < 2 {
		return strings.Join(parts, "")
	}
	return strings.Join(parts[:len(parts)-1], ", ") + " " + last + " " + parts[len(parts)-1]
}

// counted is a number with its word: "1 day", "34 days".
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return itoa(n) + " " + many
}

func itoa(n int) string { return strconv.Itoa(n) }

// atoi is for figures that were checked when they were read.
func atoi(s string) int {
	n, _ := strconv.Atoi(s)
	return n
}

// typed is the figure of a value as it was typed, "" when not given.
func typed(m quantity.Measured) string {
	if !m.Given() {
		return ""
	}
	return m.Value.Text()
}
