package main

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"linkrod/radial/card/cardtext"
	"linkrod/sync/plain"
)

// ask asks the editor's program with fields of text, and unpacks its answer.
func ask(t *testing.T, name string, fields map[string]any) (ok map[string]any, words string) {
	t.Helper()
	args, err := json.Marshal(fields)
	if err != nil {
		t.Fatal(err)
	}
	var reply struct {
		OK    json.RawMessage
		Error *struct{ Code, Words string }
	}
	if err := json.Unmarshal(program.Answer(name, args), &reply); err != nil {
		t.Fatal(err)
	}
	if reply.Error != nil {
		return nil, reply.Error.Words
	}
	if reply.OK[0] == '[' {
		reply.OK = append(append([]byte(`{"list":`), reply.OK...), '}')
	}
	if err := json.Unmarshal(reply.OK, &ok); err != nil {
		t.Fatal(err)
	}
	return ok, ""
}

// What a curator does in an evening: a text with a slip in it, mended, compared with what
// is out, its numbers one by one, and published. DEMO: invented.
func TestAnEveningsCard(t *testing.T) {
	file, err := os.ReadFile("../../testdata/shelves/demo/limits-t7b.yaml")
	if err != nil {
		t.Fatal(err)
	}
	out := string(file)
	next := strings.NewReplacer(`{id: exhaust_stem, new_min: "3.5", new_max: "5",`, `{id: exhaust_stem, new_min: "3.5", new_max: "5.5",`, "version: 2\nstate", "version: 3\nstate").Replace(out)

	slip := strings.Replace(next, "u: thou, part: heads}", "u: thuo, part: heads}", 1)
	read, words := ask(t, "card.read", map[string]any{"text": slip, "demo": true})
	faults, _ := read["faults"].([]any)
	if len(faults) != 1 || read["json"] != nil {
		t.Fatalf("%v %v", read, words)
	}
	fault := faults[0].(map[string]any)
	line := strings.Split(slip, "\n")[int(fault["line"].(float64))-1]
	if !strings.Contains(line, "thuo") || !strings.HasPrefix(line[int(fault["column"].(float64))-1:], "u: thuo") || !strings.Contains(fault["words"].(string), "“thuo” is not a unit known here") {
		t.Errorf("%v at %q", fault, line)
	}

	if read, _ = ask(t, "card.read", map[string]any{"text": next, "demo": true}); len(read["faults"].([]any)) != 0 || read["card"] != "limits-t7b" || read["version"] != 3.0 || read["json"] == nil {
		t.Errorf("%v", read)
	}
	if read, _ = ask(t, "card.read", map[string]any{"text": next}); len(read["faults"].([]any)) == 0 {
		t.Error("an invented card on a shelf that isn't the demo's")
	}
	if diff, _ := ask(t, "card.diff", map[string]any{"before": out, "after": next, "demo": true}); len(diff["what"].([]any)) != 1 || diff["what"].([]any)[0] != "exhaust stem in guide: new maximum 5 to 5.5 thou" {
		t.Errorf("%v", diff)
	}
	figures, _ := ask(t, "card.figures", map[string]any{"text": next, "demo": true})
	if list := figures["list"].([]any); len(list) < 20 || list[0].(map[string]any)["label"] != "Bore over nominal" || list[0].(map[string]any)["src"] != "fw" {
		t.Errorf("%v", figures)
	}

	made, words := ask(t, "card.publish", map[string]any{"text": next, "before": out, "reason": "guides measured anew", "me": "Ilse Varnham", "day": "2026-05-01", "demo": true})
	if words != "" {
		t.Fatal(words)
	}
	body, err := json.Marshal(made["body"])
	if err != nil {
		t.Fatal(err)
	}
	v, err := plain.Parse(body)
	if err != nil {
		t.Fatal(err)
	}
	if v.Get("text").Text() != next || v.Get("reason").Text() != "guides measured anew" || cardtext.CheckBody(v) != nil {
		t.Errorf("%.300s", body)
	}
	for _, tt := range []struct{ text, before, reason, want string }{
		{slip, out, "x", "“thuo” is not a unit"},
		{next, out, "", "Why is T7-B clearances and limits published anew?"},
		{strings.Replace(next, "version: 3", "version: 2", 1), out, "x", "Version 2 of this card is published with another text"},
	} {
		if _, words := ask(t, "card.publish", map[string]any{"text": tt.text, "before": tt.before, "reason": tt.reason, "demo": true}); !strings.Contains(words, tt.want) {
			t.Errorf("%q, want %q", words, tt.want)
		}
	}
	if schema, _ := ask(t, "card.schema", nil); schema["$schema"] != "https://json-schema.org/draft/2020-12/schema" {
		t.Error(schema["$schema"])
	}
}
