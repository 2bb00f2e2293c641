// Package linkrod holds no code at its root, only the one test of who may import whom.
package linkrod

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"strings"
	"testing"
)

// pkg is what `go list -json` says of one package; direct imports only, since even fmt brings in os.
type pkg struct {
	ImportPath string
	Imports    []string
}

// list asks the go command for the packages as they are built for goos/goarch.
func list(t *testing.T, env []string, patterns ...string) []pkg {
	t.Helper()
	cmd := exec.Command("go", append([]string{"list", "-json=ImportPath,Imports"}, patterns...)...)
	cmd.Env = append(cmd.Environ(), env...)
	out, err := cmd.Output()
	if err != nil {
		var exit *exec.ExitError
		if errors.As(err, &exit) {
			t.Fatalf("go list: %s", exit.Stderr)
		}
		t.Fatal(err)
	}
	var all []pkg
	dec := json.NewDecoder(strings.NewReader(string(out)))
	for {
		var p pkg
		if err := dec.Decode(&p); errors.Is(err, io.EOF) {
			return all
		} else if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
}

// The rules of design: what a package below `of` may import directly. A rule names the forbidden and says why.
var rules = []struct {
	of     string
	forbid []string
	why    string
}{
	{"linkrod/radial/", []string{"time", "os", "net", "math/rand", "math/rand/v2", "sync", "linkrod/sync", "linkrod/server", "linkrod/embed", "syscall"},
		"the trade is pure: now and chance are passed in, and it knows nothing of how entries travel"},
	{"linkrod/radial/", []string{"math/big", "regexp", "text/template", "reflect"},
		"the phone downloads it: these cost 30 to 60 kB each in the core"},
	{"linkrod/sync", []string{"time", "os", "net", "math/rand", "math/rand/v2", "linkrod/radial", "linkrod/server", "linkrod/embed"},
		"sync moves entries; it has no clock or disk, and doesn't know what an engine is"},
	{"linkrod/server/store", []string{"linkrod/radial", "linkrod/server/api", "linkrod/server/auth"},
		"the store keeps entries; api, auth and store meet in main only"},
	{"linkrod/server/auth", []string{"linkrod/radial", "linkrod/server/api", "linkrod/server/store"},
		"api, auth and store meet in main only"},
	{"linkrod/server/api", []string{"linkrod/server/store"},
		"api declares the store it needs; it does not know which one it got"},
	{"linkrod/pwa/wasm", []string{"linkrod/server", "linkrod/embed", "net", "os", "linkrod/radial/card/cardtext"},
		"the seam holds radial and sync, and nothing else of ours; YAML and its schema are for the server and the editor"},
	{"linkrod/radial/book", []string{"linkrod/radial/card/cardtext"},
		"the phone's core reads cards as JSON"},
	{"linkrod/pwa/sums-wasm", []string{"linkrod/server", "linkrod/embed", "net", "os", "fmt", "encoding/json", "linkrod/radial/book"},
		"the sums and the guided look know no book"},
	{"linkrod/embed", []string{"linkrod/"},
		"the front end is bytes"},
}

func TestWhoImportsWhom(t *testing.T) {
	packages := list(t, []string{"GOOS=js", "GOARCH=wasm"}, "./pwa/wasm", "./pwa/sums-wasm")
	for _, p := range list(t, nil, "./...") {
		if p.ImportPath != "linkrod/pwa/wasm" && p.ImportPath != "linkrod/pwa/sums-wasm" { // natively it is the seam's own test program
			packages = append(packages, p)
		}
	}
	if len(packages) < 5 {
		t.Fatalf("only %d packages listed", len(packages))
	}
	for _, p := range packages {
		for _, r := range rules {
			if p.ImportPath != strings.TrimSuffix(r.of, "/") && !strings.HasPrefix(p.ImportPath, strings.TrimSuffix(r.of, "/")+"/") {
				continue
			}
			for _, imp := range p.Imports {
				for _, bad := range r.forbid {
					if imp == "linkrod/sync/plain" || imp == "linkrod/sync/heads" {
						continue // JSON, and which of several edits holds: for the trade and for sync alike, and they know neither
					}
					if imp == bad || strings.HasPrefix(imp, strings.TrimSuffix(bad, "/")+"/") {
						t.Errorf("%s imports %s: %s", p.ImportPath, imp, r.why)
					}
				}
			}
		}
		for _, imp := range p.Imports {
			if imp == "linkrod/server" || imp == "linkrod/pwa/wasm" || imp == "linkrod/pwa/editor-wasm" || imp == "linkrod/pwa/sums-wasm" {
				t.Errorf("%s imports %s: nobody imports a program", p.ImportPath, imp)
			}
		}
	}
}
