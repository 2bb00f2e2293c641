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

const phone = "000102030405060708090a0b0c0d0e0f"

// step gives the device of the wire example's book one input.
func step(t *testing.T, state json.RawMessage, input any) (json.RawMessage, string) {
	t.Helper()
	out := ask(t, "device.step", map[string]any{"state": state, "book": "00112233445566778899aabbccddeeff", "mine": phone, "input": input})
	var got struct {
		OK struct {
			State, Effects json.RawMessage
		}
	}
	if err := json.Unmarshal([]byte(out), &got); err != nil {
		t.Fatal(err)
	}
	if got.OK.State == nil {
		return nil, out
	}
	return got.OK.State, string(got.OK.Effects)
}

var (
	start = map[string]any{"seq": 0, "chain": strings.Repeat("0", 64)}
	pull  = map[string]any{"what": "pull", "after": start}
	none  = json.RawMessage("null")
)

// Ensure the core seals an entry to the very hash that another program
// computed (testdata/wire/vectors.py).
func TestWrittenAcrossTheSeam(t *testing.T) {
	var entries []map[string]any
	if err := json.Unmarshal(wire(t, "entry-1.json")["entries"], &entries); err != nil {
		t.Fatal(err)
	}
	// The second has a body with letters beyond ASCII.
	want := entries[1]
	const text = `{"type":"oil","hours":{"v":"523.60","u":"h"},"level":{"v":"15","u":"qt"},"note":"DEMO, tail down, 40 °F"}`
	fresh := map[string]any{"kind": want["kind"], "refs": want["refs"], "text": text}
	input := map[string]any{"is": "wrote", "fresh": []any{fresh}, "last": map[string]any{"n": 1, "hash": want["prev"]}, "clock": want["clock"]}
	_, effects := step(t, none, input)
	for _, field := range []string{"device", "n", "book", "prev", "kind", "body", "hash"} {
		value, _ := json.Marshal(want[field])
		if part := `"` + field + `":` + string(value); !strings.Contains(effects, part) {
			t.Errorf("written without %s: %s", part, effects)
		}
	}
	fresh["kind"] = "strike"
	if _, out := step(t, none, input); !strings.Contains(out, `{"error":{"code":"refs","words":"Entry 2 strikes out 0 entries`) {
		t.Errorf("a strike of nothing: %s", out)
	}
}

// Ensure the ledger of the wire example is followed, and a changed one not.
func TestPulledAcrossTheSeam(t *testing.T) {
	m := wire(t, "pull-reply-1.json")
	reply := func(records string) map[string]any {
		return map[string]any{"is": "reply", "to": pull, "status": 200, "rows": []any{},
			"reply": map[string]any{"records": json.RawMessage(records), "head": m["head"], "chain": m["chain"]}}
	}
	state, effects := step(t, none, reply(string(m["records"])))
	if !strings.Contains(string(state), `"head":{"seq":3,"chain":`+string(m["chain"])) || strings.Count(effects, `"do":"put"`) != 3 {
		t.Errorf("followed to %s: %s", state, effects)
	}
	for _, change := range [][2]string{{`"received": 1762700400000`, `"received": 1762700400001`}, {`"body": "ey`, `"body": "fy`}} {
		state, effects := step(t, none, reply(strings.Replace(string(m["records"]), change[0], change[1], 1)))
		if !strings.Contains(string(state), `"head":{"seq":0`) || !strings.Contains(effects, `"code":"damaged"`) || strings.Contains(effects, `"put"`) {
			t.Errorf("with %s: %s", change[1], effects)
		}
	}
}

// Ensure the wire example of an answer to a push is heard.
func TestPushedAcrossTheSeam(t *testing.T) {
	rows := []map[string]any{}
	for _, n := range []int{1, 2, 3, 5, 6} {
		rows = append(rows, map[string]any{"device": phone, "n": n, "state": "waiting", "own": true})
	}
	_, effects := step(t, none, map[string]any{"is": "reply", "to": map[string]any{"what": "push", "device": phone, "ns": []int{1, 2, 3, 5, 6}},
		"status": 200, "reply": wire(t, "push-reply-1.json"), "rows": rows})
	for _, want := range []string{`"n":1,"state":"sent","seq":1`, `"n":2,"state":"sent","seq":2`, `"n":3,"state":"refused","seq":0,"words":"This entry`, `{"do":"revive","device":"` + phone + `","from":4`} {
		if !strings.Contains(effects, want) {
			t.Errorf("the answer lacks %s:\n%s", want, effects)
		}
	}
}
