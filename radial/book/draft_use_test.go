package book

import (
	"strings"
	"testing"

	"linkrod/sync/plain"
)

// Where two values stand, a person settles on one of them with a reason, and
// gets it exactly as it was written. (Rule of the design: nothing becomes one
// value without a person deciding.)
func TestSettleOnOneOfTwo(t *testing.T) {
	b := disagreeing(t)
	var other *line
	for _, h := range b.heads["ceiling"] {
		if strings.HasPrefix(h.key.String(), "bb") {
			other = h
		}
	}
	if other == nil {
		t.Fatal("the second phone's value does not stand")
	}
	draft := func(use, reason string) Drafted {
		fields, err := plain.Parse([]byte(`{"field":"ceiling","use":"` + use + `","reason":"` + reason + `"}`))
		if err != nil {
			t.Fatal(err)
		}
		return b.Draft("setting", fields, "Cy", Now{Day: "2026-05-01"})
	}

	if got := draft(other.key.String(), ""); got.Entry.Body != nil {
		t.Errorf("settled without a reason: %s", got.Entry.Body)
	}
	if got := draft("00:1", "misread"); got.Entry.Body != nil {
		t.Errorf("settled on a value that does not stand: %s", got.Entry.Body)
	}
	got := draft(other.key.String(), "the newer page")
	if got.Entry.Kind != "settle" || len(got.Entry.Refs) != 2 {
		t.Errorf("kind %q with %d refs, want settle with both heads", got.Entry.Kind, len(got.Entry.Refs))
	}
	if body := string(got.Entry.Body); !strings.Contains(body, `"v":"0.70"`) || !strings.Contains(body, "Ben") {
		t.Errorf("body %s, want the second phone's figure and source", body)
	}
}
