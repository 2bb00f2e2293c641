package auth

import (
	"strings"
	stdsync "sync"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"

	"linkrod/server/fault"
	"linkrod/sync"
)

// Ensure the set-up link works once, and afterwards set-up is as if it had
// never been there.
func TestSetUpOnce(t *testing.T) {
	f := newFixture()
	if state, err := f.State(t.Context()); err != nil || state.SetUp {
		t.Fatalf("before: %+v, %v", state, err)
	}
	token, err := f.SetupToken(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if _, err := f.SetUp(t.Context(), home, founding(token), phone(1)); err != nil {
		t.Fatal(err)
	}
	if state, err := f.State(t.Context()); err != nil || state != (State{SetUp: true, Shop: "Quill Radials"}) {
		t.Errorf("after: %+v, %v", state, err)
	}
	_, err = f.SetUp(t.Context(), home, founding(token), phone(2))
	wantCode(t, err, fault.NotFound)
	_, err = f.SetupToken(t.Context())
	wantCode(t, err, fault.Conflict)
	if strings.Contains(f.log.String(), token) || strings.Contains(f.log.String(), passphrase) {
		t.Error("a secret is in the log")
	}
}

// Ensure a link holds for half an hour, and that the next start's link makes
// the one before worthless.
func TestSetUpTokenExpires(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		f := newFixture()
		first, err := f.SetupToken(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		second, err := f.SetupToken(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		_, err = f.SetUp(t.Context(), home, founding(first), phone(1))
		wantCode(t, err, fault.Refused)
		time.Sleep(SetupLife + time.Second)
		_, err = f.SetUp(t.Context(), home, founding(second), phone(1))
		wantCode(t, err, fault.Refused)
		f.MustSetUp(t)
	})
}

// Ensure each thing that is wrong is named with its field, and spends neither
// the link nor what was typed.
func TestSetUpMistakes(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		f := newFixture()
		token, err := f.SetupToken(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		for _, tt := range []struct {
			name   string
			change func(*Founding, *Phone)
			field  string
			words  string // part of them
		}{
			{"no token", func(f *Founding, p *Phone) { f.Token = "" }, "token", "Copy all of it"},
			{"half a token", func(f *Founding, p *Phone) { f.Token = token[:20] }, "token", "Copy all of it"},
			{"no shop", func(f *Founding, p *Phone) { f.Shop = " \t" }, "shop", "name for the shop is needed"},
			{"a shop of many words", func(f *Founding, p *Phone) { f.Shop = strings.Repeat("radial ", 20) }, "shop", "139 characters; 80 fit"},
			{"a telephone with a bell in it", func(f *Founding, p *Phone) { f.Telephone = "555\a0100" }, "telephone", "can't be shown"},
			{"no name", func(f *Founding, p *Phone) { f.Name = "" }, "name", "name is needed"},
			{"a name of broken text", func(f *Founding, p *Phone) { f.Name = "A\xffda" }, "name", "can't be shown"},
			{"a name that hides its direction", func(f *Founding, p *Phone) { f.Name = "Ada\u202e" }, "name", "can't be shown"},
			{"a long role", func(f *Founding, p *Phone) { f.Role = strings.Repeat("x", 81) }, "role", "80 fit"},
			{"no passphrase", func(f *Founding, p *Phone) { f.Passphrase = "" }, "passphrase", "at least 12 characters; this one has 0"},
			{"eleven characters", func(f *Founding, p *Phone) { f.Passphrase = "ééééééééééx" }, "passphrase", "this one has 11"},
			{"one character over and over", func(f *Founding, p *Phone) { f.Passphrase = "aaaaaaaaaaaaaaaa" }, "passphrase", "One character"},
			{"the shop's name", func(f *Founding, p *Phone) { f.Passphrase = "quill radials" }, "passphrase", "everybody knows"},
			{"a book", func(f *Founding, p *Phone) { f.Passphrase = strings.Repeat("word ", 300) }, "passphrase", "Shorten it"},
			{"no phone", func(f *Founding, p *Phone) { p.Device = sync.ID{} }, "device", "no id"},
			{"a long label", func(f *Founding, p *Phone) { p.Label = strings.Repeat("x", 81) }, "label", "80 fit"},
		} {
			time.Sleep(time.Minute) // let the brake go
			typed, from := founding(token), phone(1)
			tt.change(&typed, &from)
			_, err := f.SetUp(t.Context(), home, typed, from)
			if err == nil {
				t.Fatalf("%s: taken", tt.name)
			}
			if got := fault.From(err); got.Code != fault.Invalid || got.Field != tt.field || !strings.Contains(got.Words, tt.words) {
				t.Errorf("%s: %v in field %q\nwant in %q: …%s…", tt.name, err, got.Field, tt.field, tt.words)
			}
		}
		time.Sleep(time.Minute)
		typed := founding(token)
		typed.Telephone, typed.Role = "", "" // may be left out
		if _, err := f.SetUp(t.Context(), home, typed, phone(1)); err != nil {
			t.Errorf("the link was spent by a mistake: %v", err)
		}
	})
}

// Ensure two people with one link don't both become the first.
func TestSetUpRace(t *testing.T) {
	f := newFixture()
	token, err := f.SetupToken(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	var wins atomic.Int32
	var wg stdsync.WaitGroup
	for i := range 4 {
		wg.Go(func() {
			_, err := f.SetUp(t.Context(), home, founding(token), phone(byte(i+1)))
			switch fault.CodeOf(err) {
			case "":
				wins.Add(1)
			case fault.NotFound:
			default:
				t.Errorf("the slower one: %v", err)
			}
		})
	}
	wg.Wait()
	if wins.Load() != 1 {
		t.Errorf("%d first accounts", wins.Load())
	}
}

// Ensure guessing tokens is slowed down.
func TestSetUpBrake(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		f := newFixture()
		var last error
		for range 11 {
			_, last = f.SetUp(t.Context(), home, founding("guess"), phone(1))
		}
		wantCode(t, last, fault.TooMany)
	})
}
