package auth

import (
	"fmt"
	"math/rand/v2"
	"strings"
	stdsync "sync"
	"testing"
	"testing/synctest"
	"time"

	"linkrod/server/fault"
)

func nonce(n int) string { return fmt.Sprintf("a nonce of this phone, number %d", n) }

func (f fixture) MustRefresh(tb testing.TB, token string, n int) Session {
	tb.Helper()
	s, err := f.Refresh(tb.Context(), token, nonce(n), "")
	if err != nil {
		tb.Fatal(err)
	}
	return s
}

// Ensure each refresh gives a new token, and the one before is worth nothing
// to anybody else.
func TestRefreshRotates(t *testing.T) {
	f := newFixture()
	s := f.MustSetUp(t)
	seen := map[string]bool{s.Refresh: true}
	for n := range 5 {
		s = f.MustRefresh(t, s.Refresh, n)
		if seen[s.Refresh] {
			t.Fatal("a token came back")
		}
		seen[s.Refresh] = true
		f.MustCheck(t, s.Access)
	}
	if s.Account.Name != "Ada Quill" || s.Shop.Name != "Quill Radials" || s.Device != phone(1).Device {
		t.Errorf("session = %+v", s)
	}
}

// Ensure that a reply lost on a bad line signs nobody out: the same question
// gets the same answer, for as long as the grace lasts (A2).
func TestRefreshAfterLostReply(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		f := newFixture()
		old := f.MustSetUp(t)
		lost := f.MustRefresh(t, old.Refresh, 1)
		for range 3 {
			time.Sleep(Grace / 3)
			if again := f.MustRefresh(t, old.Refresh, 1); again.Refresh != lost.Refresh {
				t.Fatal("the same question got another answer")
			}
		}
		next := f.MustRefresh(t, lost.Refresh, 2)
		f.MustCheck(t, next.Access)
	})
}

// Ensure that a browser killed before it wrote the new cookie signs nobody out:
// it comes back with the old cookie, and proves itself by the nonce of the
// exchange it did have an answer to (A2).
func TestRefreshAfterLostCookie(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		f := newFixture()
		old := f.MustSetUp(t)
		lost := f.MustRefresh(t, old.Refresh, 1)
		time.Sleep(Grace)
		again, err := f.Refresh(t.Context(), old.Refresh, nonce(2), nonce(1))
		if err != nil {
			t.Fatal(err)
		}
		if again.Refresh != lost.Refresh {
			t.Fatal("the cookie that was lost is not the one given again")
		}
		next := f.MustRefresh(t, again.Refresh, 3)
		f.MustCheck(t, next.Access)
	})
}

// Ensure every other use of a token that isn't the newest ends the sign-in on
// all its copies, and says so in the log (A3; RFC 9700, section 4.14.2).
func TestRefreshReuse(t *testing.T) {
	for _, tt := range []struct {
		name string
		use  func(f fixture, t *testing.T, old, live Session) error
	}{
		{"another nonce", func(f fixture, t *testing.T, old, live Session) error {
			_, err := f.Refresh(t.Context(), old.Refresh, nonce(99), "")
			return err
		}},
		{"another nonce before", func(f fixture, t *testing.T, old, live Session) error {
			_, err := f.Refresh(t.Context(), old.Refresh, nonce(98), nonce(99))
			return err
		}},
		{"after the grace", func(f fixture, t *testing.T, old, live Session) error {
			time.Sleep(Grace + time.Millisecond)
			_, err := f.Refresh(t.Context(), old.Refresh, nonce(1), "")
			return err
		}},
		{"after the successor was used", func(f fixture, t *testing.T, old, live Session) error {
			f.MustRefresh(t, live.Refresh, 2)
			_, err := f.Refresh(t.Context(), old.Refresh, nonce(1), "")
			return err
		}},
		{"a secret nobody gave out", func(f fixture, t *testing.T, old, live Session) error {
			id, _, _ := readRefresh(live.Refresh)
			_, err := f.Refresh(t.Context(), writeRefresh(id, newSecret()), nonce(2), "")
			return err
		}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				f := newFixture()
				old := f.MustSetUp(t)
				live := f.MustRefresh(t, old.Refresh, 1)
				wantCode(t, tt.use(f, t, old, live), fault.SignIn)

				_, err := f.Refresh(t.Context(), live.Refresh, nonce(3), "")
				wantCode(t, err, fault.SignIn)
				_, err = f.Check(t.Context(), live.Access)
				wantCode(t, err, fault.SignIn)
				log := f.log.String()
				if !strings.Contains(log, "refresh token used again") {
					t.Errorf("the log doesn't say so:\n%s", log)
				}
				for _, secret := range []string{old.Refresh, live.Refresh, live.Access} {
					if strings.Contains(log, secret) {
						t.Error("a token is in the log")
					}
				}
			})
		})
	}
}

// Ensure that a phone that keeps its nonce until it has an answer is never
// signed out, whatever the line does.
func TestRefreshOnBadLine(t *testing.T) {
	for seed := range uint64(50) {
		synctest.Test(t, func(t *testing.T) {
			draw := rand.New(rand.NewPCG(seed, 0))
			f := newFixture()
			token := f.MustSetUp(t).Refresh
			for n := range 20 {
				for {
					s, err := f.Refresh(t.Context(), token, nonce(n), "")
					if err != nil {
						t.Fatalf("seed %d, refresh %d: %v", seed, n, err)
					}
					if draw.IntN(3) > 0 { // the reply arrives, two times in three
						token = s.Refresh
						break
					}
					time.Sleep(time.Duration(draw.IntN(45)) * time.Second)
				}
				time.Sleep(time.Duration(draw.IntN(24)) * time.Hour)
			}
		})
	}
}

// Ensure two pages of one phone that ask at once, with the phone's one nonce,
// both go on.
func TestRefreshTwiceAtOnce(t *testing.T) {
	f := newFixture()
	s := f.MustSetUp(t)
	var got [8]Session
	var wg stdsync.WaitGroup
	for i := range got {
		wg.Go(func() { got[i] = f.MustRefresh(t, s.Refresh, 1) })
	}
	wg.Wait()
	for _, g := range got {
		if g.Refresh != got[0].Refresh {
			t.Fatal("two successors of one token")
		}
	}
	f.MustRefresh(t, got[0].Refresh, 2)
}

// Ensure a restart with the same key file changes nothing for a phone, and
// that a new key costs it one refresh and no sign-in.
func TestRefreshOverRestart(t *testing.T) {
	f := newFixture()
	s := f.MustSetUp(t)

	restarted := fixture{New(f.db, NewKey([32]byte{1}), f.Auth.log), f.db, f.log}
	restarted.MustCheck(t, s.Access)
	s = restarted.MustRefresh(t, s.Refresh, 1)

	rekeyed := fixture{New(f.db, NewKey([32]byte{9}), f.Auth.log), f.db, f.log}
	_, err := rekeyed.Check(t.Context(), s.Access)
	wantCode(t, err, fault.SignIn)
	s = rekeyed.MustRefresh(t, s.Refresh, 2)
	rekeyed.MustCheck(t, s.Access)
}

// Ensure tokens that were never ours, and nonces that are none, change
// nothing.
func TestRefreshNonsense(t *testing.T) {
	f := newFixture()
	s := f.MustSetUp(t)
	for _, token := range []string{"", "x", s.Access, s.Refresh + "A", s.Refresh[1:], strings.ToUpper(s.Refresh), strings.Repeat("A", len(s.Refresh))} {
		_, err := f.Refresh(t.Context(), token, nonce(1), "")
		wantCode(t, err, fault.SignIn)
	}
	for _, n := range []string{"", "short", strings.Repeat("n", 65)} {
		_, err := f.Refresh(t.Context(), s.Refresh, n, "")
		wantCode(t, err, fault.Invalid)
	}
	f.MustRefresh(t, s.Refresh, 1)
}

// Ensure signing out ends the sign-in, twice is no error, and a token that
// proves nothing signs nobody out.
func TestSignOut(t *testing.T) {
	f := newFixture()
	s := f.MustSetUp(t)
	id, _, _ := readRefresh(s.Refresh)
	for _, token := range []string{"", "x", writeRefresh(id, newSecret()), writeRefresh(newID(), newSecret())} {
		if err := f.SignOut(t.Context(), token); err != nil {
			t.Errorf("SignOut(%q) = %v", token, err)
		}
	}
	f.MustCheck(t, s.Access)
	for range 2 {
		if err := f.SignOut(t.Context(), s.Refresh); err != nil {
			t.Fatal(err)
		}
	}
	_, err := f.Check(t.Context(), s.Access)
	wantCode(t, err, fault.SignIn)
	_, err = f.Refresh(t.Context(), s.Refresh, nonce(1), "")
	wantCode(t, err, fault.SignIn)
}
