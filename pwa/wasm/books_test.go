package main

import (
	"encoding/base64"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"linkrod/sync/plain"
)

// asked unpacks the answer of a call: its ok, or its error's code and words.
func asked(t *testing.T, name, args string) (ok json.RawMessage, code, words string) {
	t.Helper()
	var reply struct {
		OK    json.RawMessage
		Error *struct{ Code, Words string }
	}
	if err := json.Unmarshal(answer(name, []byte(args)), &reply); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	if reply.Error != nil {
		return nil, reply.Error.Code, reply.Error.Words
	}
	return reply.OK, "", ""
}

func entry(n int, kind, body string, seq int) string {
	refs := "[]"
	return `{"entry":{"device":"` + strings.Repeat("a", 32) + `","n":` + string(rune('0'+n)) + `,"kind":"` + kind + `","refs":` + refs +
		`,"body":"` + base64.StdEncoding.EncodeToString([]byte(body)) + `","seen":0,"clock":{"wall":1762700000000,"zone":60}},"seq":` + string(rune('0'+seq)) + `}`
}

// A book is opened by four answers, its entries are loaded, a draft becomes an
// entry, the entry is added, and the view has it.
func TestABookAcrossTheSeam(t *testing.T) {
	ok, _, words := asked(t, "book.open", `{"answers":{"cylinders":"7","view":"cockpit","oil_unit":"qt","meter":{"which":"tach","reading":"541.0"}},"me":"Ann","now":{"day":"2026-05-01","clock":"10:00"}}`)
	if words != "" {
		t.Fatal(words)
	}
	var plan struct {
		Bodies []struct {
			Kind string
			Refs []any
			Body json.RawMessage
		}
	}
	if err := json.Unmarshal(ok, &plan); err != nil || len(plan.Bodies) != 5 || plan.Bodies[0].Refs == nil {
		t.Fatalf("%v in %s", err, ok)
	}
	var entries []string
	for i, b := range plan.Bodies {
		entries = append(entries, entry(i+1, b.Kind, string(b.Body), 0))
	}
	if ok, _, words := asked(t, "book.load", `{"book":"x","entries":[`+strings.Join(entries, ",")+`]}`); string(ok) != `{"entries":5}` {
		t.Fatalf("%s %s", ok, words)
	}
	ok, _, words = asked(t, "book.draft", `{"book":"x","kind":"oil","draft":{"hours":"541.6","level":"15"},"me":"Ann","now":{"day":"2026-05-01","clock":"10:00"}}`)
	var d struct {
		Body     json.RawMessage
		Envelope struct{ Kind string }
		Echo     string
	}
	if err := json.Unmarshal(ok, &d); err != nil || d.Body == nil || d.Envelope.Kind != "fact" || d.Echo != "Fifteen quarts, nothing added, at 541.6" {
		t.Fatalf("%s %s", ok, words)
	}
	if ok, _, words := asked(t, "book.add", `{"book":"x",`+entry(6, "fact", string(d.Body), 0)[1:]); string(ok) != "null" {
		t.Fatalf("%s %s", ok, words)
	}
	view := func() map[string]any {
		ok, _, words := asked(t, "book.view", `{"book":"x","now":{"day":"2026-05-01"}}`)
		var v map[string]any
		if err := json.Unmarshal(ok, &v); err != nil {
			t.Fatalf("%v %s", err, words)
		}
		return v
	}
	line := view()["log"].([]any)[0].(map[string]any)
	if line["words"] != "Level 15 quarts, nothing added" || line["sent"] != false || line["clock"] != "this phone's clock said 9 Nov 2025 15:53" {
		t.Errorf("the newest line: %v", line)
	}
	// The ledger numbers it: the same line, now sent.
	if _, _, words := asked(t, "book.add", `{"book":"x",`+entry(6, "fact", string(d.Body), 6)[1:]); words != "" {
		t.Fatal(words)
	}
	v := view()
	sent := 0
	for _, l := range v["log"].([]any) {
		if l.(map[string]any)["sent"] == true {
			sent++
		}
	}
	if len(v["log"].([]any)) != 6 || sent != 1 {
		t.Errorf("%d lines, %d sent", len(v["log"].([]any)), sent)
	}
	// Loaded or brought along, the view is the same.
	entries = append(entries, entry(6, "fact", string(d.Body), 6))
	ok1, _, _ := asked(t, "book.view", `{"book":"x","now":{"day":"2026-05-01"}}`)
	ok2, _, _ := asked(t, "book.view", `{"book":"x","entries":[`+strings.Join(entries, ",")+`],"now":{"day":"2026-05-01"}}`)
	if string(ok1) != string(ok2) {
		t.Error("a loaded book and the same entries make two views")
	}
	if _, _, words := asked(t, "book.drop", `{"book":"x"}`); words != "" {
		t.Fatal(words)
	}
	for _, name := range []string{"book.view", "book.add", "book.draft", "book.paper", "csv.read", "csv.write"} {
		if _, code, words := asked(t, name, `{"book":"x"}`); code != "wrong" || words != string(notLoaded) {
			t.Errorf("%s of a book that is not loaded: %s, %s", name, code, words)
		}
	}
}

// The demo engine, its log out as CSV and in again: nothing to take.
func TestCSVAcrossTheSeam(t *testing.T) {
	fixture, err := os.ReadFile("../../testdata/demo/e2.json")
	if err != nil {
		t.Fatal(err)
	}
	if _, _, words := asked(t, "book.load", `{"book":"e2","fixture":`+string(fixture)+`}`); words != "" {
		t.Fatal(words)
	}
	ok, _, words := asked(t, "csv.write", `{"book":"e2"}`)
	var out struct{ Text string }
	if err := json.Unmarshal(ok, &out); err != nil || strings.Count(out.Text, "\n") != 25 { // header, change, 23 readings
		t.Fatalf("%d lines, %v %s", strings.Count(out.Text, "\n"), err, words)
	}
	ok, _, _ = asked(t, "csv.read", `{"book":"e2","text":`+string(plain.Quote(nil, out.Text))+`}`)
	var in struct {
		Columns  []string
		Rows     []struct{ Already bool }
		Problems []any
		Summary  string
	}
	if err := json.Unmarshal(ok, &in); err != nil || len(in.Rows) != 24 || len(in.Problems) != 0 || !strings.HasPrefix(in.Summary, "0 lines to take, 24 in the book already.") {
		t.Errorf("%v: %s", err, ok)
	}
	ok, _, _ = asked(t, "book.paper", `{"book":"e2","text":"15 +1 541.6"}`)
	if string(ok) != `{"draft":{"level":"15","added":"1","hours":"541.6"},"chips":["15 qt","+1 qt","541.6 h"]}` {
		t.Errorf("paper: %s", ok)
	}
	if ok, _, _ = asked(t, "book.tail", `{"last":"540.9","digits":"16"}`); string(ok) != `{"options":["541.6"]}` {
		t.Errorf("tail: %s", ok)
	}
}

// No call ends the program: not one that does not exist, not one that is no
// JSON, not one with nothing in it, and not one that panics.
func TestNothingEndsTheCore(t *testing.T) {
	for _, c := range []struct{ name, args, code string }{
		{"no.such", `{}`, "no-such-call"}, {"book.view", `{`, "core"}, {"book.view", ``, "core"}, {"book.view", `{"entries":[{}]}`, "wrong"},
		{"book.load", `{"fixture":{"format":"x"}}`, "wrong"},
	} {
		if _, code, words := asked(t, c.name, c.args); code != c.code || words == "" {
			t.Errorf("%s %s: %s, %q", c.name, c.args, code, words)
		}
	}
	for name := range table {
		for _, args := range []string{`{}`, `null`, `[]`, `{"entries":[],"records":[],"books":[],"results":[],"draft":null,"text":null,"answers":[]}`} {
			if out := answer(name, []byte(args)); !json.Valid(out) {
				t.Errorf("%s %s answers %s", name, args, out)
			}
		}
	}
	table["test.panic"] = func(plain.Value, *plain.Writer) error { var p *int; *p = 1; return nil }
	defer delete(table, "test.panic")
	_, code, words := asked(t, "test.panic", `{}`)
	if code != "core" || !strings.HasPrefix(words, "Linkrod stumbled over this (test.panic: runtime error: ") {
		t.Errorf("a panic gives %s, %q", code, words)
	}
}
