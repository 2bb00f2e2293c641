package simulate

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// rows are what hangars, phones and hosts do to a ledger. Each has a test whose
// name says so: here as a transcript, at the server, or in a real browser where
// only a browser can show it.
var rows = []string{
	"reply lost after commit",
	"half a batch received",
	"two tabs push at once",
	"device clock ±10 years, jumps mid-session",
	"server restored from backup",
	"phone storage restored or cloned",
	"old app, newer server",
	"newer app, older server",
	"device revoked",
	"role removed while offline",
	"account switch on shared phone",
	"sign-out or expired refresh",
	"photo cut at 60 %",
	"photo bytes corrupt",
	"quota exceeded",
	"eviction or cleared data",
	"private mode",
	"idb connection dies on resume",
	"server disk full",
	"kill -9 or power loss",
	"service worker update broken",
	"captive portal answering html with 200",
	"a poisoned entry in the middle of a queue of 100",
}

func TestEveryRowOfTheFailureTableHasATest(t *testing.T) {
	where := map[string][]string{}
	for _, folder := range []string{"testdata/sync", "server", "sync", "pwa/e2e", "pwa/src", "pwa/sw"} {
		root := filepath.Join("..", "..", folder)
		err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !isTest(path) || filepath.Base(path) == "failures_test.go" && folder == "sync" {
				return err
			}
			text, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			lower := strings.ToLower(string(text))
			for _, row := range rows {
				if strings.Contains(lower, row) {
					where[row] = append(where[row], strings.TrimPrefix(path, "../../"))
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	for _, row := range rows {
		if len(where[row]) == 0 {
			t.Errorf("no test is named %q", row)
		}
		t.Logf("%s: %s", row, strings.Join(where[row], ", "))
	}
}

func isTest(path string) bool {
	switch filepath.Ext(path) {
	case ".go":
		return strings.HasSuffix(path, "_test.go")
	case ".txt":
		return strings.Contains(path, "testdata/sync")
	}
	return strings.HasSuffix(path, ".spec.ts") || strings.HasSuffix(path, ".test.ts") || strings.HasSuffix(path, ".mjs")
}
