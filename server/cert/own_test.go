package cert

import (
	"bytes"
	"crypto/sha256"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"errors"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"testing/synctest"
	"time"
)

func MustOwn(tb testing.TB, dir, names string) *Authority {
	tb.Helper()
	a, _, err := Own(dir, MustParseNames(tb, names))
	if err != nil {
		tb.Fatal(err)
	}
	return a
}

// download gets the authority's certificate the way a phone does, and makes
// it the only one trusted.
func download(tb testing.TB, a *Authority) *x509.CertPool {
	tb.Helper()
	w := ask(a.Install("https://hangar.test"), "/install/ca.crt")
	cert, err := x509.ParseCertificate(w.Body.Bytes())
	if err != nil {
		tb.Fatal(err)
	}
	pool := x509.NewCertPool()
	pool.AddCert(cert)
	return pool
}

// Ensure that somebody who trusts the authority, and nothing else, reaches
// the server by each of its names and by no other.
func TestOwnIsTrusted(t *testing.T) {
	a := MustOwn(t, t.TempDir(), "hangar.test,192.168.1.20")
	address := MustServe(t, a.TLS(), hello)
	roots := download(t, a)

	for _, name := range []string{"hangar.test", "192.168.1.20", "localhost", "127.0.0.1"} {
		res, err := visitor(t, roots, address).Get("https://" + name + "/")
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		body, _ := io.ReadAll(res.Body)
		res.Body.Close()
		if string(body) != "hello" || res.ProtoMajor != 2 {
			t.Errorf("%s: %q over HTTP/%d", name, body, res.ProtoMajor)
		}
	}
	for _, name := range []string{"other.test", "sub.hangar.test", "192.168.1.21"} {
		_, err := visitor(t, roots, address).Get("https://" + name + "/")
		var wrong x509.HostnameError
		if !errors.As(err, &wrong) {
			t.Errorf("%s: %v, want a name that doesn't fit", name, err)
		}
	}
	_, err := visitor(t, x509.NewCertPool(), address).Get("https://hangar.test/")
	var stranger x509.UnknownAuthorityError
	if !errors.As(err, &stranger) {
		t.Errorf("without trust: %v, want an unknown authority", err)
	}
}

// Ensure the authority's key, if stolen, can't vouch for the rest of the
// world: the certificate it would sign is refused by whoever trusts it.
func TestOwnIsConstrained(t *testing.T) {
	a := MustOwn(t, t.TempDir(), "hangar.test")
	roots := download(t, a)
	for _, tt := range []struct {
		names string
		taken bool
	}{
		{"hangar.test", true},
		{"192.168.99.7", true}, // the router gave the box another address
		{"bank.example", false},
		{"hangar.test.example", false},
		{"93.184.215.14", false},
	} {
		thief := &Authority{names: MustParseNames(t, tt.names), cert: a.cert, key: a.key}
		leaf, err := thief.issue(time.Now())
		if err != nil {
			t.Fatal(err)
		}
		_, err = leaf.Leaf.Verify(x509.VerifyOptions{Roots: roots})
		if (err == nil) != tt.taken {
			t.Errorf("%s: verify says %v, want taken = %v", tt.names, err, tt.taken)
		}
	}
}

// Ensure OpenSSL, which wrote none of this, agrees on who is vouched for.
func TestOwnByOpenSSL(t *testing.T) {
	openssl, err := exec.LookPath("openssl")
	if err != nil {
		t.Skip("openssl is not installed")
	}
	dir := t.TempDir()
	a := MustOwn(t, dir, "hangar.test,192.168.1.20")
	write := func(name string, der []byte) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der}), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	ca, leaf := write("ca.pem", a.cert.Raw), write("leaf.pem", a.leaf.Certificate[0])
	stranger, err := (&Authority{names: MustParseNames(t, "bank.example"), cert: a.cert, key: a.key}).issue(time.Now())
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		arguments []string
		taken     bool
	}{
		{[]string{"-verify_hostname", "hangar.test", leaf}, true},
		{[]string{"-verify_ip", "192.168.1.20", leaf}, true},
		{[]string{"-verify_hostname", "other.test", leaf}, false},
		{[]string{"-verify_hostname", "bank.example", write("stranger.pem", stranger.Certificate[0])}, false},
	} {
		arguments := append([]string{"verify", "-x509_strict", "-purpose", "sslserver", "-CAfile", ca}, tt.arguments...)
		out, err := exec.Command(openssl, arguments...).CombinedOutput()
		if (err == nil) != tt.taken {
			t.Errorf("openssl %s: %v, want taken = %v\n%s", strings.Join(tt.arguments, " "), err, tt.taken, out)
		}
	}
}

// Ensure a restart keeps the authority that phones trust, that nobody else
// can read its key, and that other names don't replace it in silence.
func TestOwnIsKept(t *testing.T) {
	dir := t.TempDir()
	first, made, err := Own(dir, MustParseNames(t, "hangar.test"))
	if err != nil || !made {
		t.Fatalf("first start: made = %v, %v", made, err)
	}
	path := filepath.Join(dir, authorityFile)
	if err := os.Chmod(path, 0o644); err != nil { // a careless copy
		t.Fatal(err)
	}
	again, made, err := Own(dir, MustParseNames(t, "hangar.test,10.1.2.3"))
	if err != nil || made {
		t.Fatalf("second start: made = %v, %v", made, err)
	}
	if again.Fingerprint() != first.Fingerprint() {
		t.Error("a restart made another authority: every phone would have to trust it anew")
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode of the key = %v, %v; want 0600", info.Mode().Perm(), err)
	}
	before, _ := os.ReadFile(path)
	if _, _, err := Own(dir, MustParseNames(t, "elsewhere.test")); err == nil || !strings.Contains(err.Error(), "every phone must then trust the new one") {
		t.Errorf("another name: %v, want a refusal that says what it would cost", err)
	}
	if after, _ := os.ReadFile(path); !bytes.Equal(before, after) {
		t.Error("the refusal changed the file")
	}
	if err := os.WriteFile(path, []byte("rubbish"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, _, err := Own(dir, MustParseNames(t, "hangar.test")); err == nil || !strings.Contains(err.Error(), path) {
		t.Errorf("a damaged file: %v, want its name", err)
	}
	public := MustOwn(t, t.TempDir(), "198.51.100.4") // RFC 5737
	if err := public.leaf.Leaf.VerifyHostname("198.51.100.4"); err != nil {
		t.Errorf("a public address: %v", err)
	}
	if _, _, err := Own(t.TempDir(), Names{}); err == nil || !strings.Contains(err.Error(), "-name") {
		t.Errorf("no names: %v, want what to add", err)
	}
}

// Ensure the server's certificate is renewed while it runs, long before it
// ends, and made again when the clock turns out to have been ahead.
func TestOwnRenews(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		a := MustOwn(t, t.TempDir(), "hangar.test")
		get := a.TLS().GetCertificate
		MustGet := func() *tls.Certificate {
			t.Helper()
			c, err := get(nil)
			if err != nil {
				t.Fatal(err)
			}
			now := time.Now()
			if now.Before(c.Leaf.NotBefore) || now.After(c.Leaf.NotAfter) {
				t.Errorf("at %v: certificate holds from %v to %v", now, c.Leaf.NotBefore, c.Leaf.NotAfter)
			}
			return c
		}
		first := MustGet()
		time.Sleep(leafRenew - time.Hour)
		if MustGet() != first {
			t.Error("renewed too early")
		}
		time.Sleep(2 * time.Hour)
		second := MustGet()
		if second == first || !second.Leaf.NotAfter.After(first.Leaf.NotAfter) {
			t.Error("not renewed in time")
		}
		if limit := 825 * 24 * time.Hour; second.Leaf.NotAfter.Sub(second.Leaf.NotBefore) > limit {
			t.Error("a phone refuses certificates that last so long")
		}
		ahead, err := a.issue(time.Now().Add(48 * time.Hour))
		if err != nil {
			t.Fatal(err)
		}
		a.leaf = ahead
		if MustGet() == ahead {
			t.Error("a certificate from the future is handed out")
		}
	})
}

// Ensure the install page shows the fingerprint of exactly the file it offers.
func TestInstall(t *testing.T) {
	a := MustOwn(t, t.TempDir(), "hangar.test")
	h := a.Install("https://hangar.test:7443")

	file := ask(h, "/install/ca.crt")
	if got := file.Header().Get("Content-Type"); got != "application/x-x509-ca-cert" {
		t.Errorf("type of the certificate = %q", got)
	}
	sum := sha256.Sum256(file.Body.Bytes())
	var pairs []string
	for _, b := range sum {
		pairs = append(pairs, fmt.Sprintf("%02X", b))
	}
	fingerprint := strings.Join(pairs, " ")
	page := ask(h, "/install")
	for _, want := range []string{fingerprint, "It can vouch for hangar.test and", `href="/install/ca.crt"`, "https://hangar.test:7443", "iPhone", "Android"} {
		if !strings.Contains(page.Body.String(), want) {
			t.Errorf("the page doesn't show %q", want)
		}
	}
	if a.Fingerprint() != fingerprint {
		t.Errorf("the log prints %s, the page %s", a.Fingerprint(), fingerprint)
	}
	if style := ask(h, "/install/look.css"); style.Code != 200 || !strings.Contains(page.Body.String(), `href="/install/look.css"`) {
		t.Error("the page has no style sheet")
	}
	if strings.Contains(page.Body.String(), "style=") || strings.Contains(page.Body.String(), "<script") {
		t.Error("the page needs what its own policy forbids")
	}
	if home := ask(h, "/"); home.Code != http.StatusFound || home.Header().Get("Location") != "/install" {
		t.Errorf("/ = %d to %q", home.Code, home.Header().Get("Location"))
	}
	if missing := ask(h, "/install/authority.pem"); missing.Code != 404 {
		t.Errorf("the key file: %d", missing.Code)
	}
}
