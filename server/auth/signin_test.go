package auth

import (
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"linkrod/server/fault"
)

// Ensure people are found by their name as they would type it, and by the
// passphrase exactly.
func TestSignIn(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		f := newFixture()
		f.MustSetUp(t)
		for _, tt := range []struct {
			name, passphrase string
			want             fault.Code
		}{
			{"Ada Quill", passphrase, ""},
			{"  ada   QUILL ", passphrase, ""},
			{"Ada Quill", strings.ToUpper(passphrase), fault.Refused},
			{"Ada Quill", passphrase + " ", fault.Refused},
			{"Ada Quill", "", fault.Refused},
			{"Ada", passphrase, fault.Refused},
			{"", passphrase, fault.Refused},
			{"Ada Quill", strings.Repeat("x", passphraseMax+1), fault.Refused},
			{strings.Repeat("x", 1000), passphrase, fault.Refused},
		} {
			time.Sleep(time.Minute)
			s, err := f.SignIn(t.Context(), home, tt.name, tt.passphrase, phone(2))
			wantCode(t, err, tt.want)
			if err == nil {
				f.MustCheck(t, s.Access)
			}
		}
		if strings.Contains(f.log.String(), passphrase) {
			t.Error("a passphrase is in the log")
		}
	})
}

// Ensure the answer doesn't tell whether the name or the passphrase was wrong.
func TestSignInTellsNothing(t *testing.T) {
	f := newFixture()
	f.MustSetUp(t)
	_, unknown := f.SignIn(t.Context(), home, "Nobody", passphrase, phone(2))
	_, wrong := f.SignIn(t.Context(), home, "Ada Quill", "not the passphrase", phone(2))
	if unknown == nil || wrong == nil || unknown.Error() != wrong.Error() {
		t.Errorf("unknown name: %v\nwrong passphrase: %v", unknown, wrong)
	}
}

// Ensure an unknown name costs a hash like any other (A4): with all places at
// the hasher taken it has to wait, and is told so.
func TestSignInUnknownNameWorks(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		f := newFixture()
		f.MustSetUp(t)
		for range cap(f.hasher.slots) {
			f.hasher.slots <- struct{}{}
		}
		for _, name := range []string{"Nobody", "Ada Quill"} {
			start := time.Now()
			_, err := f.SignIn(t.Context(), home, name, passphrase, phone(2))
			wantCode(t, err, fault.Busy)
			if waited := time.Since(start); waited != 10*time.Second {
				t.Errorf("%s waited %v at the hasher, want 10s", name, waited)
			}
		}
	})
}

// Ensure guessing is slowed down by address and by name, and that one
// attacker's address doesn't lock others out.
func TestSignInBrakes(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		f := newFixture()
		f.MustSetUp(t)
		try := func(from, name string) error {
			_, err := f.SignIn(t.Context(), from, name, "a guess of an attacker", phone(2))
			return err
		}
		for range 10 {
			wantCode(t, try("198.51.100.7", "Ada Quill"), fault.Refused)
		}
		wantCode(t, try("198.51.100.7", "Somebody Else"), fault.TooMany)
		if _, err := f.SignIn(t.Context(), home, "Ada Quill", passphrase, phone(2)); err != nil {
			t.Errorf("from elsewhere: %v", err)
		}
		for i := range 9 {
			wantCode(t, try("203.0.113."+string(rune('0'+i)), "ADA quill"), fault.Refused)
		}
		wantCode(t, try("203.0.113.99", "Ada  Quill"), fault.TooMany)
		time.Sleep(5 * time.Minute)
		if _, err := f.SignIn(t.Context(), home, "Ada Quill", passphrase, phone(2)); err != nil {
			t.Errorf("five minutes later: %v", err)
		}
	})
}

// Ensure a hash made under older rules is brought up to date by signing in.
func TestSignInRehashes(t *testing.T) {
	f := newFixture()
	s := f.MustSetUp(t) // with the cheap one
	account := s.Account
	f.hasher = newHasher()
	for range 2 {
		if _, err := f.SignIn(t.Context(), home, "Ada Quill", passphrase, phone(2)); err != nil {
			t.Fatal(err)
		}
	}
	now, err := f.db.Account(t.Context(), account.ID)
	if err != nil || !strings.HasPrefix(now.Passphrase, "$argon2id$v=19$m=19456,t=2,p=1$") {
		t.Errorf("kept as %q, %v", now.Passphrase, err)
	}
}

// Ensure a phone's id stays with the account it was first used by.
func TestSignInForeignPhone(t *testing.T) {
	f := newFixture()
	s := f.MustSetUp(t)
	other := s.Account
	other.ID, other.Name = newID(), "Bo Lathe"
	if err := f.db.PutAccount(t.Context(), other); err != nil {
		t.Fatal(err)
	}
	_, err := f.SignIn(t.Context(), home, "Bo Lathe", passphrase, phone(1))
	wantCode(t, err, fault.Conflict)
	if _, err := f.SignIn(t.Context(), home, "Bo Lathe", passphrase, phone(3)); err != nil {
		t.Errorf("with an id of its own: %v", err)
	}
}
