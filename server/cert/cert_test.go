package cert

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"log/slog"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
)

func quiet() *slog.Logger { return slog.New(slog.DiscardHandler) }

func MustParseNames(tb testing.TB, list string) Names {
	tb.Helper()
	n, err := ParseNames(list)
	if err != nil {
		tb.Fatal(err)
	}
	return n
}

// MustServe starts an https server with config and returns its address.
func MustServe(tb testing.TB, config *tls.Config, h http.Handler) string {
	tb.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		tb.Fatal(err)
	}
	s := &http.Server{Handler: h, TLSConfig: config, ErrorLog: slog.NewLogLogger(slog.DiscardHandler, slog.LevelError)} // refused handshakes are the point
	go s.ServeTLS(l, "", "")
	tb.Cleanup(func() { s.Close() })
	return l.Addr().String()
}

// visitor is a client that trusts roots only and finds every name at address.
func visitor(tb testing.TB, roots *x509.CertPool, address string) *http.Client {
	t := &http.Transport{
		TLSClientConfig:   &tls.Config{RootCAs: roots},
		ForceAttemptHTTP2: true,
		DialContext: func(ctx context.Context, network, _ string) (net.Conn, error) {
			return new(net.Dialer).DialContext(ctx, network, address)
		},
	}
	tb.Cleanup(t.CloseIdleConnections)
	return &http.Client{Transport: t}
}

var hello = http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { w.Write([]byte("hello")) })

// Ensure names are read as people type them, and that what is no name is
// refused in words.
func TestParseNames(t *testing.T) {
	n := MustParseNames(t, " Hangar.local, 192.168.1.20 ,fe80::1%eth0,[2001:db8::1],")
	if got, want := n.String(), "hangar.local, 192.168.1.20, fe80::1, 2001:db8::1"; got != want {
		t.Errorf("names = %s, want %s", got, want)
	}
	if got := MustParseNames(t, ""); !got.Empty() || got.First() != "" {
		t.Errorf("nothing gives %v", got)
	}
	for _, bad := range []string{"https://hangar.local", "hangar.local:7443", "hangar..local", "-hangar.local", "hang ar", "hängar.local", "*.local", strings.Repeat("a", 64)} {
		if _, err := ParseNames(bad); err == nil {
			t.Errorf("%q was taken for a name", bad)
		} else if !strings.Contains(err.Error(), "is no host name") {
			t.Errorf("%q: %v", bad, err)
		}
	}
}

func TestLink(t *testing.T) {
	for _, tt := range []struct{ host, listen, want string }{
		{"hangar.test", ":7443", "https://hangar.test:7443"},
		{"hangar.test", ":443", "https://hangar.test"},
		{"192.168.1.20", "0.0.0.0:7443", "https://192.168.1.20:7443"},
		{"2001:db8::1", ":443", "https://[2001:db8::1]"},
		{"2001:db8::1", "[::]:7443", "https://[2001:db8::1]:7443"},
	} {
		if got := Link(tt.host, tt.listen); got != tt.want {
			t.Errorf("Link(%s, %s) = %s, want %s", tt.host, tt.listen, got, tt.want)
		}
	}
	if got, want := PlainLink("hangar.test", ":80"), "http://hangar.test"; got != want {
		t.Errorf("PlainLink = %s, want %s", got, want)
	}
}

func ask(h http.Handler, target string) *httptest.ResponseRecorder {
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest("GET", target, nil))
	return w
}
