package embed

import (
	"io/fs"
	"strings"
	"testing"
)

// Ensure there is always a page to show, and that the placeholder says what to do.
func TestFront(t *testing.T) {
	files, built := Front()
	page, err := fs.ReadFile(files, "index.html")
	if err != nil {
		t.Fatal(err)
	}
	if !built && !strings.Contains(string(page), "make run") {
		t.Errorf("the placeholder names no remedy:\n%s", page)
	}
	if _, err := placeholder.ReadFile("placeholder/index.html"); err != nil {
		t.Errorf("the placeholder must stay in the binary for the next fresh checkout: %v", err)
	}
}
