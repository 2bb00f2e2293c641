package fault

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"testing"
)

// Ensure a fault is found however deep it is wrapped, and its cause with it.
func TestFrom(t *testing.T) {
	deep := fmt.Errorf("books: %w", Wrap(Busy, "The disk is full.", fs.ErrPermission))
	f := From(deep)
	if f.Code != Busy || f.Words != "The disk is full." {
		t.Errorf("From = %+v, want the wrapped fault", f)
	}
	if !errors.Is(deep, fs.ErrPermission) {
		t.Error("the cause is no longer reachable")
	}
	if From(nil) != nil || CodeOf(nil) != "" {
		t.Error("no error must give no fault")
	}
}

// Ensure that a plain error's text never becomes words for people.
func TestFromHidesPlainErrors(t *testing.T) {
	f := From(errors.New("open /srv/secret.db: bad magic"))
	if f.Code != Internal {
		t.Errorf("code = %q, want %q", f.Code, Internal)
	}
	if strings.Contains(f.Words, "secret") {
		t.Errorf("words give the operator's text away: %q", f.Words)
	}
	if !strings.Contains(f.Error(), "secret") {
		t.Errorf("the log must still have it: %q", f.Error())
	}
}
