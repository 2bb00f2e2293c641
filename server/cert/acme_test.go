package cert

import (
	"context"
	"crypto/x509"
	"encoding/base64"
	"encoding/json"
	"encoding/pem"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"golang.org/x/crypto/acme"
)

// Ensure nothing is asked for without a list of names and a place to keep
// what was got: both are the caller's to forget in the library.
func TestACMEConfig(t *testing.T) {
	m, err := manager(MustParseNames(t, "books.example.org,www.books.example.org"), t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	if m.Cache == nil || m.HostPolicy == nil {
		t.Fatalf("cache = %v, host policy = %v", m.Cache, m.HostPolicy)
	}
	for host, want := range map[string]bool{"books.example.org": true, "www.books.example.org": true, "evil.example": false, "x.books.example.org": false} {
		if got := m.HostPolicy(context.Background(), host) == nil; got != want {
			t.Errorf("asks for %s: %v, want %v", host, got, want)
		}
	}
	for _, names := range []string{"", "192.168.1.20", "books.example.org,192.168.1.20"} {
		if _, err := manager(MustParseNames(t, names), t.TempDir()); err == nil || !strings.Contains(err.Error(), "-name") {
			t.Errorf("names %q: %v, want what to change", names, err)
		}
	}
}

// Ensure port 80 answers the authority and sends everybody else to https.
func TestACMEPlain(t *testing.T) {
	_, plain, err := ACME(MustParseNames(t, "books.example.org"), t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		method, target string
		status         int
		location       string
	}{
		{"GET", "http://books.example.org/e/1?x=2", 302, "https://books.example.org/e/1?x=2"},
		{"GET", "http://books.example.org:80/", 302, "https://books.example.org/"},
		{"POST", "http://books.example.org/api/v1/session", 400, ""},
		{"GET", "http://books.example.org/.well-known/acme-challenge/none", 404, ""},
		{"GET", "http://evil.example/.well-known/acme-challenge/none", 403, ""},
	} {
		w := httptest.NewRecorder()
		plain.ServeHTTP(w, httptest.NewRequest(tt.method, tt.target, nil))
		if w.Code != tt.status || w.Header().Get("Location") != tt.location {
			t.Errorf("%s %s = %d to %q, want %d to %q", tt.method, tt.target, w.Code, w.Header().Get("Location"), tt.status, tt.location)
		}
	}
}

// Ensure a certificate is really got from an authority that speaks RFC 8555
// and checks over port 80, and that a restart uses it again instead of asking.
func TestACMEIssues(t *testing.T) {
	issuer := MustOwn(t, t.TempDir(), "books.example.org")
	roots := x509.NewCertPool()
	roots.AddCert(issuer.cert)
	cache := t.TempDir()
	authority := &fakeAuthority{issuer: issuer}
	s := httptest.NewServer(authority)
	defer s.Close()
	authority.url = s.URL

	for start := range 2 {
		m, err := manager(MustParseNames(t, "books.example.org"), cache)
		if err != nil {
			t.Fatal(err)
		}
		m.Client = &acme.Client{DirectoryURL: s.URL + "/directory"}
		authority.plain = m.HTTPHandler(nil)
		address := MustServe(t, base(m.GetCertificate), hello)
		res, err := visitor(t, roots, address).Get("https://books.example.org/")
		if err != nil {
			t.Fatalf("start %d: %v", start, err)
		}
		res.Body.Close()
		if _, err := visitor(t, roots, address).Get("https://evil.example/"); err == nil {
			t.Error("a certificate for somebody else's name")
		}
		if got := authority.issued.Load(); got != 1 {
			t.Errorf("after start %d: %d certificates asked for, want 1", start, got)
		}
	}
}

// fakeAuthority is the least of RFC 8555 that gets one certificate issued. It
// checks no signatures, but it does look at port 80 before it issues.
type fakeAuthority struct {
	url    string
	issuer *Authority
	plain  http.Handler
	issued atomic.Int32
	valid  atomic.Bool
	chain  atomic.Pointer[[]byte]
}

func (f *fakeAuthority) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Replay-Nonce", fmt.Sprint(time.Now().UnixNano()))
	w.Header().Set("Content-Type", "application/json")
	answer := func(status int, v any) {
		w.WriteHeader(status)
		json.NewEncoder(w).Encode(v)
	}
	payload := func(v any) {
		var jws struct{ Payload string }
		json.NewDecoder(r.Body).Decode(&jws)
		text, _ := base64.RawURLEncoding.DecodeString(jws.Payload)
		json.Unmarshal(text, v)
	}
	order := map[string]any{
		"status":         "pending",
		"identifiers":    []any{map[string]string{"type": "dns", "value": "books.example.org"}},
		"authorizations": []string{f.url + "/authz"},
		"finalize":       f.url + "/finalize",
	}
	if f.valid.Load() {
		order["status"] = "ready"
	}
	challenge := map[string]string{"type": "http-01", "url": f.url + "/challenge", "token": "TOKEN", "status": "pending"}
	switch r.URL.Path {
	case "/directory":
		answer(200, map[string]string{"newNonce": f.url + "/nonce", "newAccount": f.url + "/account", "newOrder": f.url + "/order"})
	case "/nonce":
	case "/account":
		w.Header().Set("Location", f.url+"/account/1")
		answer(201, map[string]string{"status": "valid"})
	case "/order":
		w.Header().Set("Location", f.url+"/order/1")
		answer(201, order)
	case "/order/1":
		answer(200, order)
	case "/authz":
		status := "pending"
		if f.valid.Load() {
			status = "valid"
		}
		answer(200, map[string]any{"status": status, "identifier": map[string]string{"type": "dns", "value": "books.example.org"}, "challenges": []any{challenge}})
	case "/challenge":
		look := httptest.NewRecorder()
		f.plain.ServeHTTP(look, httptest.NewRequest("GET", "http://books.example.org/.well-known/acme-challenge/TOKEN", nil))
		f.valid.Store(strings.HasPrefix(look.Body.String(), "TOKEN."))
		answer(200, challenge)
	case "/finalize":
		var m struct{ CSR string }
		payload(&m)
		der, _ := base64.RawURLEncoding.DecodeString(m.CSR)
		chain, err := f.sign(der)
		if err != nil || !f.valid.Load() {
			answer(400, map[string]string{"type": "urn:ietf:params:acme:error:badCSR", "detail": fmt.Sprint(err)})
			return
		}
		f.chain.Store(&chain)
		f.issued.Add(1)
		w.Header().Set("Location", f.url+"/order/1")
		order["status"], order["certificate"] = "valid", f.url+"/certificate"
		answer(200, order)
	case "/certificate":
		w.Header().Set("Content-Type", "application/pem-certificate-chain")
		w.Write(*f.chain.Load())
	default:
		answer(404, map[string]string{"type": "urn:ietf:params:acme:error:malformed", "detail": r.URL.Path})
	}
}

func (f *fakeAuthority) sign(csr []byte) ([]byte, error) {
	request, err := x509.ParseCertificateRequest(csr)
	if err != nil {
		return nil, err
	}
	template := &x509.Certificate{
		SerialNumber: serial(),
		NotBefore:    time.Now().Add(-time.Hour),
		NotAfter:     time.Now().Add(90 * 24 * time.Hour),
		DNSNames:     request.DNSNames,
		KeyUsage:     x509.KeyUsageDigitalSignature,
		ExtKeyUsage:  []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
	}
	der, err := x509.CreateCertificate(nil, template, f.issuer.cert, request.PublicKey, f.issuer.key)
	if err != nil {
		return nil, err
	}
	return append(pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der}),
		pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: f.issuer.cert.Raw})...), nil
}
