package auth

import (
	"encoding/json"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/sync"
)

// invitingFixture has a host with a book, and an invitation to it.
func invitingFixture(t *testing.T) (f fixture, caller Caller, secret string, inv people.Invitation) {
	t.Helper()
	f = newFixture()
	caller = f.MustCheck(t, f.MustSetUp(t).Access)
	if _, err := f.db.OpenBook(t.Context(), sync.ID{0xb0}, caller.Account.ID, people.Engine, 1); err != nil {
		t.Fatal(err)
	}
	secret, inv, err := f.Invite(t.Context(), caller, sync.ID{0xb0}, people.Mechanic, nil)
	if err != nil {
		t.Fatal(err)
	}
	return f, caller, secret, inv
}

func joining() Joining {
	return Joining{Name: "Bo Lathe", Role: "turns", Passphrase: "quite another passphrase"}
}

// Ensure somebody new gets in by a link, once, with exactly what it said, and
// that neither store nor log has the secret.
func TestJoinNew(t *testing.T) {
	f, _, secret, inv := invitingFixture(t)
	if len(secret) != 22 {
		t.Errorf("secret of %d characters, want 128 bits in base64", len(secret))
	}
	in, err := f.LookAt(t.Context(), home, secret)
	if err != nil || in.Shop != "Quill Radials" || in.Name != "Ada Quill" || in.Role != people.Mechanic || !in.Signs {
		t.Errorf("looked at: %+v, %v", in, err)
	}
	s, m, err := f.JoinNew(t.Context(), home, secret, joining(), phone(2))
	if err != nil || m.Book != inv.Book || m.Role != people.Mechanic {
		t.Fatalf("joined: %+v, %v", m, err)
	}
	who := f.MustCheck(t, s.Access)
	if who.Account.Name != "Bo Lathe" || who.Account.Host || who.Device != phone(2).Device {
		t.Errorf("signed in as %+v", who)
	}
	if _, err := f.SignIn(t.Context(), home, "bo lathe", joining().Passphrase, phone(3)); err != nil {
		t.Errorf("and on another phone: %v", err)
	}
	_, _, err = f.JoinNew(t.Context(), home, secret, Joining{Name: "Cy Third", Passphrase: "quite another passphrase"}, phone(4))
	wantCode(t, err, fault.NotFound)
	_, err = f.LookAt(t.Context(), home, secret)
	wantCode(t, err, fault.NotFound)
	kept, err := json.Marshal(inv)
	if err != nil || strings.Contains(string(kept), secret) || strings.Contains(f.log.String(), secret) || strings.Contains(f.log.String(), joining().Passphrase) {
		t.Errorf("the secret is in the store or the log: %s", kept)
	}
}

// Ensure somebody who is here already joins as who they are.
func TestJoin(t *testing.T) {
	f, host, secret, _ := invitingFixture(t)
	_, err := f.Join(t.Context(), home, secret, host)
	wantCode(t, err, fault.Conflict)
	s, _, err := f.JoinNew(t.Context(), home, secret, joining(), phone(2))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := f.db.OpenBook(t.Context(), sync.ID{0xb2}, host.Account.ID, people.Engine, 1); err != nil {
		t.Fatal(err)
	}
	no := false
	second, inv, err := f.Invite(t.Context(), host, sync.ID{0xb2}, people.Owner, &no)
	if err != nil || inv.Signs {
		t.Fatalf("%+v, %v", inv, err)
	}
	bo := f.MustCheck(t, s.Access)
	for range 2 { // the first answer may be lost
		m, err := f.Join(t.Context(), home, second, bo)
		if err != nil || m.Role != people.Owner || m.Signs {
			t.Errorf("%+v, %v", m, err)
		}
	}
}

// Ensure each thing that is wrong is named with its field and spends nothing.
func TestJoinMistakes(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		f, _, secret, _ := invitingFixture(t)
		for _, tt := range []struct {
			name   string
			change func(*string, *Joining, *Phone)
			code   fault.Code
			field  string
		}{
			{"no secret", func(s *string, _ *Joining, _ *Phone) { *s = "" }, fault.Invalid, "secret"},
			{"half a secret", func(s *string, _ *Joining, _ *Phone) { *s = secret[:11] }, fault.Invalid, "secret"},
			{"six letters", func(s *string, _ *Joining, _ *Phone) { *s = "CDFGHJ" }, fault.Invalid, "secret"},
			{"another secret", func(s *string, _ *Joining, _ *Phone) { *s = "AAAAAAAAAAAAAAAAAAAAAA" }, fault.NotFound, ""},
			{"no name", func(_ *string, j *Joining, _ *Phone) { j.Name = " " }, fault.Invalid, "name"},
			{"a name that is taken", func(_ *string, j *Joining, _ *Phone) { j.Name = "ADA  quill" }, fault.Conflict, ""},
			{"a long role", func(_ *string, j *Joining, _ *Phone) { j.Role = strings.Repeat("x", 81) }, fault.Invalid, "role"},
			{"a short passphrase", func(_ *string, j *Joining, _ *Phone) { j.Passphrase = "short" }, fault.Invalid, "passphrase"},
			{"the shop's name", func(_ *string, j *Joining, _ *Phone) { j.Passphrase = "quill radials" }, fault.Invalid, "passphrase"},
			{"no phone", func(_ *string, _ *Joining, p *Phone) { p.Device = sync.ID{} }, fault.Invalid, "device"},
			{"another's phone", func(_ *string, _ *Joining, p *Phone) { *p = phone(1) }, fault.Conflict, ""},
		} {
			time.Sleep(time.Minute) // let the brake go
			s, j, p := secret, joining(), phone(2)
			tt.change(&s, &j, &p)
			_, _, err := f.JoinNew(t.Context(), home, s, j, p)
			if got := fault.From(err); err == nil || got.Code != tt.code || got.Field != tt.field {
				t.Errorf("%s: %v, want code %q in field %q", tt.name, err, tt.code, tt.field)
			}
		}
		time.Sleep(time.Minute)
		if _, _, err := f.JoinNew(t.Context(), home, secret, joining(), phone(2)); err != nil {
			t.Errorf("the link was spent by a mistake: %v", err)
		}
	})
}

// Ensure a link holds for seven days, and that trying links is slowed down by
// address.
func TestInvitationExpiresAndBrakes(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		f, _, secret, _ := invitingFixture(t)
		time.Sleep(InviteLife)
		if _, err := f.LookAt(t.Context(), home, secret); err != nil {
			t.Errorf("at seven days: %v", err)
		}
		time.Sleep(time.Second)
		_, err := f.LookAt(t.Context(), home, secret)
		wantCode(t, err, fault.NotFound)

		for range 20 {
			_, err = f.LookAt(t.Context(), "198.51.100.7", "guess")
			wantCode(t, err, fault.Invalid)
		}
		_, err = f.LookAt(t.Context(), "198.51.100.7", "guess")
		wantCode(t, err, fault.TooMany)
		_, _, err = f.JoinNew(t.Context(), "198.51.100.7", secret, joining(), phone(2))
		wantCode(t, err, fault.TooMany)
		_, err = f.LookAt(t.Context(), "203.0.113.5", secret)
		wantCode(t, err, fault.NotFound)
	})
}

// Ensure whoever made too many links waits.
func TestInviteBrake(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		f, host, _, _ := invitingFixture(t)
		var err error
		for range 20 {
			_, _, err = f.Invite(t.Context(), host, sync.ID{0xb0}, people.Reader, nil)
		}
		wantCode(t, err, fault.TooMany)
		time.Sleep(time.Minute)
		_, _, err = f.Invite(t.Context(), host, sync.ID{0xff}, people.Reader, nil)
		wantCode(t, err, fault.NotFound)
		_, _, err = f.Invite(t.Context(), host, sync.ID{0xb0}, "captain", nil)
		wantCode(t, err, fault.Invalid)
	})
}

// Ensure a phone or person that was removed is told so at the refresh too, but
// only by the token that proves who asks.
func TestRemovedIsTold(t *testing.T) {
	f, host, secret, _ := invitingFixture(t)
	s, _, err := f.JoinNew(t.Context(), home, secret, joining(), phone(2))
	if err != nil {
		t.Fatal(err)
	}
	bo := f.MustCheck(t, s.Access)
	if err := f.db.RemoveAccount(t.Context(), host.Account.ID, bo.Account.ID, time.Now().UnixMilli()); err != nil {
		t.Fatal(err)
	}
	_, err = f.Check(t.Context(), s.Access)
	wantCode(t, err, fault.Revoked)
	_, err = f.Refresh(t.Context(), s.Refresh, "nonce-nonce-nonce-1", "")
	wantCode(t, err, fault.Revoked)
	forged := writeRefresh(bo.Session, newSecret())
	_, err = f.Refresh(t.Context(), forged, "nonce-nonce-nonce-1", "")
	wantCode(t, err, fault.SignIn)
	_, err = f.SignIn(t.Context(), home, "Bo Lathe", joining().Passphrase, phone(2))
	wantCode(t, err, fault.Refused)
	_, err = f.SignIn(t.Context(), home, "Bo Lathe", "", phone(2))
	wantCode(t, err, fault.Refused)
}

// FuzzInvitation looks for a secret that panics, is taken, or has a second
// spelling.
func FuzzInvitation(f *testing.F) {
	fix := newFixture()
	f.Add("AAAAAAAAAAAAAAAAAAAAAA")
	f.Add("AAAAAAAAAAAAAAAAAAAAAB")
	f.Add("")
	f.Add("CDFGHJ")
	f.Fuzz(func(t *testing.T, text string) {
		s, err := readInvitation(text)
		if err != nil {
			return
		}
		if s.text() != text {
			t.Errorf("%q is another spelling of %q", text, s.text())
		}
		if in, err := fix.db.LookInvitation(t.Context(), s.sum(), 1); err == nil {
			t.Errorf("%q invites to %+v", text, in)
		}
	})
}
