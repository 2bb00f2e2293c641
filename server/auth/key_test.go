package auth

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Ensure the key outlives a restart, nobody else can read it, and a damaged
// file is said rather than replaced: that would sign nobody out, but it would
// hide that something is wrong with the folder.
func TestLoadKey(t *testing.T) {
	path := filepath.Join(t.TempDir(), "key")
	first, made, err := LoadKey(path)
	if err != nil || !made {
		t.Fatalf("first start: made = %v, %v", made, err)
	}
	if err := os.Chmod(path, 0o644); err != nil {
		t.Fatal(err)
	}
	second, made, err := LoadKey(path)
	if err != nil || made || second.id != first.id || string(second.access) != string(first.access) {
		t.Errorf("second start: made = %v, same = %v, %v", made, second.id == first.id, err)
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode = %v, %v; want 0600", info.Mode().Perm(), err)
	}
	entries, err := os.ReadDir(filepath.Dir(path))
	if err != nil || len(entries) != 1 {
		t.Errorf("left behind: %v, %v", entries, err)
	}
	for _, bad := range []string{"", "00", strings.Repeat("zz", 32)} {
		if err := os.WriteFile(path, []byte(bad), 0o600); err != nil {
			t.Fatal(err)
		}
		if _, _, err := LoadKey(path); err == nil || !strings.Contains(err.Error(), path) {
			t.Errorf("%q: %v, want the file's name", bad, err)
		}
	}
}

// Ensure the parts of a key don't give one another away.
func TestKeyParts(t *testing.T) {
	k := NewKey([32]byte{1})
	parts := map[string]string{k.id: "id"}
	for name, part := range map[string][]byte{"access": k.access, "refresh": k.refresh, "pairing": k.pairing} {
		if len(part) != 32 {
			t.Errorf("%s has %d bytes", name, len(part))
		}
		if other, ok := parts[string(part)]; ok {
			t.Errorf("%s is %s", name, other)
		}
		parts[string(part)] = name
	}
	if NewKey([32]byte{2}).id == k.id {
		t.Error("two keys have one id")
	}
}
