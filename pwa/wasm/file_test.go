package main

import (
	"encoding/json"
	"os"
	"strings"
	"testing"
)

// Ensure the example file is read with its books' names and counts, and that
// what was read makes the same file again.
func TestFileAcrossTheSeam(t *testing.T) {
	data, err := os.ReadFile("../../testdata/wire/file-1.json")
	if err != nil {
		t.Fatal(err)
	}
	out := ask(t, "file.read", map[string]any{"text": string(data)})
	var read struct {
		OK struct {
			Books []struct {
				Book    string            `json:"book"`
				Name    string            `json:"name"`
				Entries []json.RawMessage `json:"entries"`
			}
			Prefs   json.RawMessage
			Summary string
		}
	}
	if err := json.Unmarshal([]byte(out), &read); err != nil {
		t.Fatal(err)
	}
	f := read.OK
	if len(f.Books) != 2 || len(f.Books[0].Entries) != 3 || f.Books[1].Entries == nil || f.Summary != "2 engines with 3 lines." {
		t.Errorf("read as %s", out)
	}
	again := ask(t, "file.write", map[string]any{"books": f.Books, "prefs": f.Prefs})
	var wrote struct{ OK struct{ Text string } }
	if err := json.Unmarshal([]byte(again), &wrote); err != nil {
		t.Fatal(err)
	}
	if second := ask(t, "file.read", map[string]any{"text": wrote.OK.Text}); !strings.Contains(second, "2 engines with 3 lines.") {
		t.Errorf("written again: %s", second)
	}
	if out := ask(t, "file.read", map[string]any{"text": "oil, rags"}); !strings.Contains(out, `"code":"shape"`) {
		t.Errorf("a shopping list: %s", out)
	}
}
