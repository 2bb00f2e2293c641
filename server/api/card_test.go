package api

import (
	"os"
	"strings"
	"testing"

	"linkrod/radial/card"
	"linkrod/radial/card/cardtext"
	"linkrod/sync"
)

// What the editor and the command line would not publish is set aside by the server too,
// with the sentence; what a newer Linkrod publishes passes.
func TestACardIsLookedAtAtTheDoor(t *testing.T) {
	text, err := os.ReadFile("../../testdata/shelves/demo/torque-t7b.yaml")
	if err != nil {
		t.Fatal(err)
	}
	body, err := cardtext.Read("x", text, card.Rules{Demo: true}).Publish(nil, "", "Ilse", "2026-05-01")
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct{ old, with, want string }{
		{"", "", ""},
		{`"digits":"420 to 450`, `"digits":"between 420 and 450`, ""}, // worded by another version
		{`"final":{"from":"420"`, `"final":{"from":"240"`, "What the card torque-t7b would show is not what its text says."},
		{`{"id":"prop_hub"`, `{"id":"mount"`, "What the card torque-t7b would show"},
		{`"hash":"`, `"hash":"0`, "came with the hash of another text."},
		{`from: 420, to: 450`, `from: 420, to: 450 in-lb`, "card:21:"},
		{`"text":"# DEMO`, `"text":"DEMO`, "This is not YAML"},
		{`"text":"# DEMO`, `"TYPE":"note","text":"DEMO`, "This is not YAML"}, // a phone sees a card
	} {
		b := string(body)
		if !strings.Contains(b, tt.old) {
			t.Fatalf("%q is not in the body", tt.old)
		}
		b = strings.Replace(b, tt.old, tt.with, 1)
		f := Readable(sync.Entry{Schema: 1, Body: []byte(b)})
		if (f == nil) != (tt.want == "") || f != nil && !strings.Contains(f.Words, tt.want) {
			t.Errorf("%q for %q: %+v", tt.with, tt.old, f)
		}
		if f := Readable(sync.Entry{Schema: 2, Body: []byte(b)}); f != nil {
			t.Errorf("%q of a newer Linkrod: %+v", tt.with, f)
		}
	}
}
