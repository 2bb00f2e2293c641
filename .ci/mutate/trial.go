package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// fate of a mutant.
type fate string

const (
	killed    fate = "killed"
	outOfTime fate = "out of time"
	survived  fate = "SURVIVED"
	stillborn fate = "stillborn" // does not compile
	untested  fate = "untested"  // compiles, and its tests do not
)

// try runs the tests of a package with a mutant in place of its file, or with
// nothing changed.
func try(dir, pkg string, s *site, limit time.Duration) (output string, f fate) {
	// A mutant may ask for all the memory there is. The go command and the
	// test run inside the limit.
	args := []string{"-c", `ulimit -v 8000000; exec go test -vet=off -short -failfast -count=1 -p 1 "$@"`, "go test", "-timeout", limit.String()}
	var overlay []string
	if s != nil {
		file, err := s.overlay(dir)
		if err != nil {
			return err.Error(), untested
		}
		overlay = []string{"-overlay", file}
		args = append(args, overlay...)
	}
	out, err := exec.Command("sh", append(args, pkg)...).CombinedOutput()
	output = string(out)
	switch {
	case err == nil:
		return output, survived
	case strings.Contains(output, "[build failed]") || strings.Contains(output, "[setup failed]"):
		if exec.Command("go", slices.Concat([]string{"build"}, overlay, []string{pkg})...).Run() == nil {
			return output, untested
		}
		return output, stillborn
	case strings.Contains(output, "panic: test timed out"):
		return output, outOfTime
	}
	return output, killed
}

func (s *site) overlay(dir string) (string, error) {
	changed, overlay := filepath.Join(dir, "mutant.go"), filepath.Join(dir, "overlay.json")
	j, err := json.Marshal(map[string]map[string]string{"Replace": {s.file: changed}})
	if err != nil {
		return "", err
	}
	return overlay, errors.Join(os.WriteFile(changed, s.mutant(), 0o600), os.WriteFile(overlay, j, 0o600))
}

// readEquivalents: each line is a site's key (file | change | source line | which
// of those that read the same), then " => " and the reason.
func readEquivalents(file string) (map[string]string, error) {
	f, err := os.Open(file)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	all := map[string]string{}
	lines := bufio.NewScanner(f)
	for n := 1; lines.Scan(); n++ {
		line := strings.TrimSpace(lines.Text())
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		key, why, ok := strings.Cut(line, " => ")
		if !ok || why == "" {
			return nil, fmt.Errorf("%s:%d: no reason given", file, n)
		}
		all[key] = why
	}
	return all, lines.Err()
}
