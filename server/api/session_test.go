package api

import (
	"net/http"
	"strings"
	"testing"
	"time"

	"linkrod/sync"
)

// Ensure what a phone gets when it is let in: the access token in the answer,
// the refresh token nowhere but in the cookie, and a cookie no script and no
// other site can use.
func TestSessionAnswer(t *testing.T) {
	for _, tt := range []struct {
		origin, name string
		secure       bool
	}{
		{"http://localhost:7075", "linkrod", false},
		{"https://hangar.test:7443", "__Host-linkrod", true},
	} {
		d := MustDesk(t)
		w := d.MustSetUp(t, tt.origin)
		s := decode[sessionAnswer](t, w)
		if s.Account.Name != "Ada Quill" || s.Account.Role != "overhauls" || s.Shop != "Quill Radials" || s.Device != deviceA || len(s.Account.ID) != 32 {
			t.Errorf("session = %+v", s)
		}
		if left := time.Until(time.UnixMilli(s.ExpiresMS)); left < 9*time.Minute || left > 11*time.Minute {
			t.Errorf("access for %v", left)
		}
		c := cookie(t, w)
		if c.Name != tt.name || !c.HttpOnly || c.Secure != tt.secure || c.SameSite != http.SameSiteStrictMode || c.Path != "/" || c.Domain != "" {
			t.Errorf("cookie = %v", c)
		}
		if time.Until(c.Expires) < 100*24*time.Hour {
			t.Errorf("the cookie is gone after %v", time.Until(c.Expires))
		}
		if strings.Contains(w.Body.String(), c.Value) {
			t.Error("the refresh token is in the answer, where scripts can read it")
		}
	}
}

// Ensure the whole life of a sign-in over HTTP: state, set-up, gone set-up,
// refresh with a lost reply, sign-out, sign-in.
func TestSessionLife(t *testing.T) {
	d := MustDesk(t)
	type stateAnswer struct {
		SetUp bool `json:"set_up"`
		Shop  string
	}
	if s := decode[stateAnswer](t, d.ask(t, "GET", "/api/v1/state", nil)); s != (stateAnswer{}) {
		t.Errorf("before: %+v", s)
	}
	old := cookie(t, d.MustSetUp(t, ""))
	if s := decode[stateAnswer](t, d.ask(t, "GET", "/api/v1/state", nil)); s != (stateAnswer{true, "Quill Radials"}) {
		t.Errorf("after: %+v", s)
	}
	wantFault(t, d.ask(t, "POST", "/api/v1/setup", fields{"token": "x"}), 404, "not_found")

	refresh := func(c *http.Cookie, nonce string) *http.Cookie {
		t.Helper()
		w := d.ask(t, "POST", "/api/v1/session/refresh", fields{"nonce": nonce}, "Cookie", c.Name+"="+c.Value)
		if w.Code != 200 {
			t.Fatalf("refresh: %d %s", w.Code, w.Body)
		}
		decode[sessionAnswer](t, w)
		return cookie(t, w)
	}
	lost := refresh(old, "0123456789abcdef")
	again := refresh(old, "0123456789abcdef")
	if lost.Value != again.Value || lost.Value == old.Value {
		t.Error("a lost answer isn't given again")
	}
	next := refresh(again, "fedcba9876543210")

	for range 2 {
		w := d.ask(t, "DELETE", "/api/v1/session", nil, "Cookie", next.Name+"="+next.Value)
		if c := cookie(t, w); w.Code != 204 || c.Value != "" || c.MaxAge >= 0 {
			t.Errorf("sign-out: %d, cookie %v", w.Code, c)
		}
	}
	wantFault(t, d.ask(t, "POST", "/api/v1/session/refresh", fields{"nonce": "0123456789abcdef"}, "Cookie", next.Name+"="+next.Value), 401, "sign_in")
	wantFault(t, d.ask(t, "POST", "/api/v1/session/refresh", fields{"nonce": "0123456789abcdef"}), 401, "sign_in")

	w := d.ask(t, "POST", "/api/v1/session", fields{"name": "ada quill", "passphrase": passphrase, "device": deviceA})
	if s := decode[sessionAnswer](t, w); w.Code != 200 || s.Account.Name != "Ada Quill" {
		t.Errorf("sign-in: %d %s", w.Code, w.Body)
	}
	wantFault(t, d.ask(t, "POST", "/api/v1/session", fields{"name": "ada quill", "passphrase": "wrong", "device": deviceA}), 403, "refused")
}

// Ensure a browser has one sign-in: the next one ends the one before, which
// nobody could reach any more to end.
func TestSignInEndsTheOneBefore(t *testing.T) {
	d := MustDesk(t)
	w := d.MustSetUp(t, "")
	first := cookie(t, w)
	access := decode[sessionAnswer](t, w).Access
	if w := d.ask(t, "POST", "/api/v1/session", fields{"name": "Ada Quill", "passphrase": passphrase, "device": deviceA}, "Cookie", first.Name+"="+first.Value); w.Code != 200 {
		t.Fatalf("sign-in: %d %s", w.Code, w.Body)
	}
	wantFault(t, d.ask(t, "GET", "/api/v1/hello", nil, "Authorization", "Bearer "+access), 401, "sign_in")
}

// Ensure the host is told which file to copy, and nobody else where things are.
func TestDataFileIsTheHosts(t *testing.T) {
	d := MustDesk(t, func(c *Config) { c.DataFile = "/srv/linkrod/linkrod.db" })
	type answer struct{ Data string }
	if got := decode[answer](t, d.MustSetUp(t, "")).Data; got != "/srv/linkrod/linkrod.db" {
		t.Errorf("the host is told %q", got)
	}
	host, err := d.store.AccountByName(t.Context(), "Ada Quill")
	if err != nil {
		t.Fatal(err)
	}
	guest := host
	guest.ID, guest.Name, guest.Host = sync.ID{0x9e}, "Bo Lathe", false
	if err := d.store.PutAccount(t.Context(), guest); err != nil {
		t.Fatal(err)
	}
	w := d.ask(t, "POST", "/api/v1/session", fields{"name": "Bo Lathe", "passphrase": passphrase, "device": deviceB})
	if w.Code != 200 || strings.Contains(w.Body.String(), "/srv") {
		t.Errorf("a guest: %d %s", w.Code, w.Body)
	}
}

// Ensure a mistake in a form comes back with the field it was made in.
func TestSetUpNamesTheField(t *testing.T) {
	d := MustDesk(t)
	token, err := d.auth.SetupToken(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	a := wantFault(t, d.ask(t, "POST", "/api/v1/setup", fields{"token": token, "shop": "Quill Radials", "name": "Ada", "passphrase": "short", "device": deviceA}), 400, "invalid")
	if a.Error.Field != "passphrase" {
		t.Errorf("field = %q", a.Error.Field)
	}
}

// Ensure the answers of set-up are looked at page by page by the rules of set-up, that
// looking takes nothing, and that there is nothing to look at afterwards.
func TestCheckSetUp(t *testing.T) {
	d := MustDesk(t)
	for _, c := range []struct {
		typed fields
		field string
	}{
		{fields{}, "shop"},
		{fields{"shop": "Quill Radials", "telephone": strings.Repeat("9", 81)}, "telephone"},
		{fields{"shop": "Quill Radials", "telephone": "01632 960 001"}, "name"},
		{fields{"shop": "Quill Radials", "name": "Ada", "passphrase": "short"}, "passphrase"},
		{fields{"shop": "Quill Radials", "name": "Ada", "passphrase": "quill radials"}, "passphrase"},
	} {
		if a := wantFault(t, d.ask(t, "POST", "/api/v1/setup/check", c.typed), 400, "invalid"); a.Error.Field != c.field {
			t.Errorf("%v: field %q, want %q", c.typed, a.Error.Field, c.field)
		}
	}
	if w := d.ask(t, "POST", "/api/v1/setup/check", fields{"shop": "Quill Radials", "name": "Ada", "passphrase": passphrase}); w.Code != 204 {
		t.Errorf("answers in order: %d %s", w.Code, w.Body)
	}
	if state := decode[struct {
		SetUp bool `json:"set_up"`
	}](t, d.ask(t, "GET", "/api/v1/state", nil)); state.SetUp {
		t.Error("looking at the answers set the server up")
	}
	d.MustSetUp(t, "")
	wantFault(t, d.ask(t, "POST", "/api/v1/setup/check", fields{}), 404, "not_found")
}

// Ensure no picture is shown of a link that no other phone can open, and that it is said
// what to do; the letters still serve another browser of this machine.
func TestPairingOnlyHere(t *testing.T) {
	d := MustDesk(t)
	first := decode[sessionAnswer](t, d.MustSetUp(t, ""))
	for origin, here := range map[string]bool{
		"http://localhost:7075": true, "http://127.0.0.1:7075": true, "http://[::1]:7075": true, "http://hangar.localhost": true,
		"https://localhost:7443": true, "https://hangar.test:7443": false, "http://192.168.1.20:7075": false,
	} {
		p := decode[struct {
			Code     string
			QR       string `json:"qr_svg"`
			OnlyHere string `json:"only_here"`
		}](t, d.ask(t, "POST", origin+"/api/v1/pairing", fields{}, "Authorization", "Bearer "+first.Access))
		if (p.QR == "") != here || strings.Contains(p.OnlyHere, "-tls own") != here || len(p.Code) != 6 {
			t.Errorf("%s: code %q, %d bytes of picture, %q", origin, p.Code, len(p.QR), p.OnlyHere)
		}
	}
}

// Ensure whoever is signed in can call the shop.
func TestTelephone(t *testing.T) {
	d := MustDesk(t)
	token, err := d.auth.SetupToken(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	w := d.ask(t, "POST", "/api/v1/setup", fields{"token": token, "shop": "Quill Radials", "telephone": " 01632  960 001 ", "name": "Ada", "passphrase": passphrase, "device": deviceA})
	if got := decode[struct{ Telephone string }](t, w).Telephone; got != "01632 960 001" {
		t.Errorf("telephone %q", got)
	}
	if w := d.ask(t, "GET", "/api/v1/state", nil); strings.Contains(w.Body.String(), "960") {
		t.Errorf("the telephone is told to everybody: %s", w.Body)
	}
}

// Ensure one more phone joins by code, and what is shown for it.
func TestPairing(t *testing.T) {
	d := MustDesk(t)
	first := decode[sessionAnswer](t, d.MustSetUp(t, ""))
	type pairAnswer struct {
		Code      string
		ExpiresMS int64 `json:"expires_ms"`
		URL       string
		QR        string `json:"qr_svg"`
	}
	w := d.ask(t, "POST", "https://hangar.test:7443/api/v1/pairing", fields{}, "Authorization", "Bearer "+first.Access, "X-Forwarded-Proto", "http", "X-Forwarded-Host", "evil.example")
	p := decode[pairAnswer](t, w)
	if p.URL != "https://hangar.test:7443/join#"+p.Code || len(p.Code) != 6 {
		t.Errorf("link = %s with code %s", p.URL, p.Code)
	}
	if want, err := qrSVG(p.URL); err != nil || p.QR != want {
		t.Errorf("the picture shows something else (%v)", err)
	}
	if left := time.Until(time.UnixMilli(p.ExpiresMS)); left < 9*time.Minute || left > 10*time.Minute {
		t.Errorf("the code holds %v", left)
	}
	second := decode[sessionAnswer](t, d.ask(t, "POST", "/api/v1/pairing/claim", fields{"code": p.Code, "device": deviceB, "label": "hangar phone"}))
	if second.Account != first.Account || second.Device != deviceB || second.Access == first.Access {
		t.Errorf("paired: %+v", second)
	}
	a := wantFault(t, d.ask(t, "POST", "/api/v1/pairing/claim", fields{"code": p.Code, "device": deviceB}), 400, "invalid")
	if a.Error.Field != "code" {
		t.Errorf("field = %q", a.Error.Field)
	}

	configured := MustDesk(t, func(c *Config) { c.Origin = "https://books.example.org" })
	first = decode[sessionAnswer](t, configured.MustSetUp(t, ""))
	w = configured.ask(t, "POST", "http://localhost:7075/api/v1/pairing", fields{}, "Authorization", "Bearer "+first.Access)
	if p := decode[pairAnswer](t, w); !strings.HasPrefix(p.URL, "https://books.example.org/join#") {
		t.Errorf("a phone can't go to %s", p.URL)
	}
}

// Ensure that none of the secrets of a day ends up in the log, down to debug
// level.
func TestNoSecretIsLogged(t *testing.T) {
	d := MustDesk(t)
	token, err := d.auth.SetupToken(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	secrets := map[string]string{"set-up token": token, "passphrase": passphrase}
	d.ask(t, "POST", "/api/v1/setup", fields{"token": string(token[0]^1) + token[1:], "shop": "Q", "name": "Ada", "passphrase": passphrase, "device": deviceA})
	w := d.ask(t, "POST", "/api/v1/setup", fields{"token": token, "shop": "Q", "name": "Ada", "passphrase": passphrase, "device": deviceA})
	s, c := decode[sessionAnswer](t, w), cookie(t, w)
	secrets["access token"], secrets["refresh token"] = s.Access, c.Value
	w = d.ask(t, "POST", "/api/v1/session/refresh", fields{"nonce": "0123456789abcdef"}, "Cookie", c.Name+"="+c.Value)
	secrets["next refresh token"] = cookie(t, w).Value
	secrets["nonce"] = "0123456789abcdef"
	w = d.ask(t, "POST", "/api/v1/pairing", fields{}, "Authorization", "Bearer "+s.Access)
	secrets["pairing code"] = decode[struct{ Code string }](t, w).Code
	d.ask(t, "POST", "/api/v1/pairing/claim", fields{"code": secrets["pairing code"], "device": deviceB})
	d.ask(t, "POST", "/api/v1/pairing/claim", fields{"code": secrets["pairing code"], "device": deviceB})
	d.ask(t, "POST", "/api/v1/session", fields{"name": "Ada", "passphrase": passphrase + "x", "device": deviceA})
	d.ask(t, "GET", "/api/v1/hello?access="+s.Access, nil, "Authorization", "Bearer "+s.Access)
	d.ask(t, "GET", "/api/v1/hello", nil, "Authorization", "Bearer "+s.Access[:len(s.Access)-1])
	d.ask(t, "POST", "/api/v1/session/refresh", fields{"nonce": "another nonce here"}, "Cookie", c.Name+"="+c.Value)

	log := d.log.String()
	if strings.Count(log, "msg=request") < 10 {
		t.Fatalf("the log is not the log:\n%s", log)
	}
	for what, secret := range secrets {
		if strings.Contains(log, secret) {
			t.Errorf("the log holds the %s", what)
		}
	}
}
