package book

import (
	"strings"
	"testing"
)

// A setting on file is handed out as it was written, one that is not as null.
func TestSettingsAsWritten(t *testing.T) {
	p := engineFor(t, "", "0.5", "")
	v := Open(p.records).View("", Now{})
	for field, want := range map[string]string{"stick_step": `"0.5"`, "tank_capacity": "null"} {
		if raw := string(setting(v, field).Raw); !strings.Contains(raw, want) {
			t.Errorf("%s is %s, want %s in it", field, raw, want)
		}
	}
}

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
