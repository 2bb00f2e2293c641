package book

import (
	"os"
	"testing"
)

// demo opens a demo engine of testdata/demo.
func demo(t testing.TB, name string) (*Book, Fixture) {
	t.Helper()
	data, err := os.ReadFile("../../testdata/demo/" + name + ".json")
	if err != nil {
		t.Fatal(err)
	}
	f, err := ReadFixture(data)
	if err != nil {
		t.Fatal(err)
	}
	b := Open(f.Records())
	for _, l := range b.lines {
		if l.err != nil {
			t.Errorf("%s entry %d: %v", name, l.key.N, l.err)
		}
	}
	return b, f
}
