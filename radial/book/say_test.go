package book

import "testing"

func TestSpelled(t *testing.T) {
	for serial, want := range map[string]string{
		"B-0711":  "Bravo dash 0 7 1 1",
		"az 9/A":  "Alfa Zulu 9 stroke Alfa",
		"[1@`{Ü}": "[ 1 @ ` { Ü }", // the signs next to the letters are no letters
		"":        "",
	} {
		if got := spelled(serial); got != want {
			t.Errorf("%q is said %q, want %q", serial, got, want)
		}
	}
}

func TestSentence(t *testing.T) {
	for s, want := range map[string]string{
		"": "", "a": "A.", "it leaks": "It leaks.", "it leaks.": "It leaks.", "does it leak?": "Does it leak?", "1.5 qt": "1.5 qt.",
	} {
		if got := sentence(s); got != want {
			t.Errorf("%q is said %q, want %q", s, got, want)
		}
	}
}
