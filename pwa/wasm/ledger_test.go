package main

import (
	"encoding/json"
	"os"
	"strings"
	"testing"
)

// wire reads an example message of testdata/wire.
func wire(t *testing.T, name string) map[string]json.RawMessage {
	t.Helper()
	data, err := os.ReadFile("../../testdata/wire/" + name)
	if err != nil {
		t.Fatal(err)
	}
	var m map[string]json.RawMessage
	if err := json.Unmarshal(data, &m); err != nil {
		t.Fatal(err)
	}
	return m
}

// ask calls the core as the worker does: JSON in, JSON out.
func ask(t *testing.T, name string, args any) string {
	t.Helper()
	data, err := json.Marshal(args)
	if err != nil {
		t.Fatal(err)
	}
	return string(answer(name, data))
}

// Ensure the core seals an entry to the very hash that another program
// computed (testdata/wire/vectors.py).
func TestSealAcrossTheSeam(t *testing.T) {
	var entries []map[string]any
	if err := json.Unmarshal(wire(t, "entry-1.json")["entries"], &entries); err != nil {
		t.Fatal(err)
	}
	// The second has a body with letters beyond ASCII.
	want := entries[1]
	const text = `{"type":"oil","hours":{"v":"523.60","u":"h"},"level":{"v":"15","u":"qt"},"note":"DEMO, tail down, 40 °F"}`
	given := map[string]any{}
	for _, field := range []string{"device", "n", "book", "prev", "kind", "refs", "seen", "schema", "clock"} {
		given[field] = want[field]
	}
	var got struct{ OK map[string]any }
	if err := json.Unmarshal([]byte(ask(t, "seal", map[string]any{"entry": given, "text": text})), &got); err != nil {
		t.Fatal(err)
	}
	for field := range want {
		a, _ := json.Marshal(got.OK[field])
		b, _ := json.Marshal(want[field])
		if string(a) != string(b) {
			t.Errorf("%s is %s, want %s", field, a, b)
		}
	}
	given["kind"] = "strike"
	if out := ask(t, "seal", map[string]any{"entry": given, "text": text}); !strings.Contains(out, `{"error":{"code":"refs","words":"Entry 2 strikes out 0 entries`) {
		t.Errorf("a strike of nothing: %s", out)
	}
}

// Ensure the ledger of the wire example is followed, and a changed one not.
func TestVerifyAcrossTheSeam(t *testing.T) {
	m := wire(t, "pull-reply-1.json")
	start := map[string]any{"seq": 0, "chain": strings.Repeat("0", 64)}
	out := ask(t, "verify", map[string]any{"records": m["records"], "after": start})
	if want := `{"ok":{"head":{"seq":3,"chain":` + string(m["chain"]) + `}}}`; out != want {
		t.Errorf("verify = %s, want %s", out, want)
	}
	changed := strings.Replace(string(m["records"]), `"received": 1762700400000`, `"received": 1762700400001`, 1)
	if out := ask(t, "verify", map[string]any{"records": json.RawMessage(changed), "after": start}); !strings.Contains(out, `"code":"chain"`) {
		t.Errorf("a changed record: %s", out)
	}
	changed = strings.Replace(string(m["records"]), `"body": "ey`, `"body": "fy`, 1)
	if out := ask(t, "verify", map[string]any{"records": json.RawMessage(changed), "after": start}); !strings.Contains(out, `"code":"hash"`) {
		t.Errorf("a changed body: %s", out)
	}
}

// Ensure the wire example of an answer is heard, also when what was sent can
// no longer be read.
func TestPushTakeAcrossTheSeam(t *testing.T) {
	m := wire(t, "push-reply-1.json")
	pending := []map[string]any{{"n": 1}, {"n": 2, "body": 7}, {"n": 3}, {"n": 5}, {"n": 6}}
	out := ask(t, "push.take", map[string]any{"pending": pending, "results": m["results"]})
	for _, want := range []string{`"done":[{"n":1,"seq":1},{"n":2,"seq":2}]`, `"tray":[{"n":3,"state":"rejected","words":"This entry`, `"wait":true,"from":4,"forked":false`} {
		if !strings.Contains(out, want) {
			t.Errorf("push.take lacks %s:\n%s", want, out)
		}
	}
}
