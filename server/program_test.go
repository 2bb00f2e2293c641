package main

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"errors"
	"io"
	"log/slog"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"linkrod/server/api"
	"linkrod/server/auth"
	"linkrod/server/cert"
	"linkrod/server/store"
)

// MustRun starts the program inside the test, on free ports.
func MustRun(tb testing.TB, c Config) *Program {
	tb.Helper()
	if c.Data == "" {
		c.Data = tb.TempDir()
	}
	p := &Program{Config: c, Out: io.Discard, Log: slog.New(slog.DiscardHandler)}
	if err := p.Run(tb.Context()); err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() {
		if err := p.Close(); err != nil {
			tb.Error(err)
		}
	})
	return p
}

// visitor trusts roots only, and finds every name where the server listens.
func visitor(tb testing.TB, roots *x509.CertPool, url string) *http.Client {
	tb.Helper()
	_, port, err := net.SplitHostPort(strings.TrimPrefix(url, "https://"))
	if err != nil {
		tb.Fatal(err)
	}
	c := browser()
	c.Transport = &http.Transport{
		TLSClientConfig:   &tls.Config{RootCAs: roots},
		ForceAttemptHTTP2: true,
		DialContext: func(ctx context.Context, network, _ string) (net.Conn, error) {
			return new(net.Dialer).DialContext(ctx, network, net.JoinHostPort("127.0.0.1", port))
		},
	}
	tb.Cleanup(c.CloseIdleConnections)
	return c
}

// Ensure a phone on a hangar network, which trusts nothing but what it got
// from the install page, reaches the server over https by its name, signs in
// and is kept signed in; and that another name fails.
func TestOwnAuthority(t *testing.T) {
	p := MustRun(t, Config{Addr: "127.0.0.1:0", TLS: "own", Names: "hangar.test", Plain: "127.0.0.1:0"})
	if !strings.HasPrefix(p.URL, "https://hangar.test:") || !strings.HasPrefix(p.PlainURL, "http://hangar.test:") || !strings.HasPrefix(p.SetUpURL, p.URL+"/set-up#") {
		t.Fatalf("links = %s, %s, %s", p.URL, p.PlainURL, p.SetUpURL)
	}

	// The install page, without TLS, at the second address.
	_, port, _ := net.SplitHostPort(strings.TrimPrefix(p.PlainURL, "http://"))
	plain := "http://127.0.0.1:" + port
	res, err := http.Get(plain + "/install/ca.crt")
	if err != nil {
		t.Fatal(err)
	}
	der, err := io.ReadAll(res.Body)
	res.Body.Close()
	if err != nil {
		t.Fatal(err)
	}
	ca, err := x509.ParseCertificate(der)
	if err != nil {
		t.Fatal(err)
	}
	roots := x509.NewCertPool()
	roots.AddCert(ca)
	res, err = http.Get(plain + "/api/v1/state")
	if err != nil {
		t.Fatal(err)
	}
	res.Body.Close()
	if res.StatusCode != 404 {
		t.Errorf("the API without TLS: %d", res.StatusCode)
	}

	phone := visitor(t, roots, p.URL)
	_, token, _ := strings.Cut(p.SetUpURL, "#")
	if status, a := send(t, phone, "POST", p.URL+"/api/v1/setup", "", founding(token)); status != 200 {
		t.Fatalf("set-up: %d %v", status, a)
	}
	if status, a := send(t, phone, "POST", p.URL+"/api/v1/session/refresh", "", map[string]any{"nonce": "0123456789abcdef"}); status != 200 {
		t.Errorf("refresh by the __Host- cookie: %d %v", status, a)
	}
	res, err = phone.Get(p.URL + "/install")
	if err != nil {
		t.Fatal(err)
	}
	page, _ := io.ReadAll(res.Body)
	res.Body.Close()
	if res.ProtoMajor != 2 || res.Header.Get("Strict-Transport-Security") != "" || !strings.Contains(string(page), p.URL) {
		t.Errorf("install page over https: %s, %v", res.Proto, res.Header)
	}
	_, err = phone.Get(strings.Replace(p.URL, "hangar.test", "other.test", 1) + "/healthz")
	var wrong x509.HostnameError
	if !errors.As(err, &wrong) {
		t.Errorf("another name: %v", err)
	}
}

// Ensure given certificate files serve https, and that what is missing stops
// the start in words.
func TestGivenFiles(t *testing.T) {
	dir := t.TempDir()
	MustRun(t, Config{Addr: "127.0.0.1:0", TLS: "own", Names: "hangar.test", Plain: "127.0.0.1:0", Data: dir})
	text, err := os.ReadFile(filepath.Join(dir, "authority.pem")) // a certificate and its key like any other
	if err != nil {
		t.Fatal(err)
	}
	block, _ := pem.Decode(text)
	ca, err := x509.ParseCertificate(block.Bytes)
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(dir, "authority.pem")
	q := MustRun(t, Config{Addr: "127.0.0.1:0", TLS: "files", Names: "hangar.test", Cert: file, Key: file})
	var got *x509.Certificate
	c := visitor(t, nil, q.URL)
	c.Transport.(*http.Transport).TLSClientConfig = &tls.Config{InsecureSkipVerify: true, VerifyConnection: func(s tls.ConnectionState) error {
		got = s.PeerCertificates[0]
		return nil
	}}
	res, err := c.Get(q.URL + "/healthz")
	if err != nil {
		t.Fatal(err)
	}
	res.Body.Close()
	if got == nil || !got.Equal(ca) {
		t.Error("another certificate than the one given")
	}

	broken := &Program{Config: Config{Data: t.TempDir(), Addr: "127.0.0.1:0", TLS: "files", Cert: "/nowhere/c.pem", Key: "/nowhere/k.pem"}, Out: io.Discard, Log: slog.New(slog.DiscardHandler)}
	if err := broken.Run(t.Context()); err == nil || !strings.Contains(err.Error(), "/nowhere/c.pem") {
		t.Errorf("missing files: %v", err)
	}
}

// pipes is a listener without a network: its connections live in the bubble
// of synctest, where deadlines run on its clock.
type pipes struct {
	waiting chan net.Conn
	closed  chan struct{}
}

func newPipes() *pipes { return &pipes{make(chan net.Conn), make(chan struct{})} }

func (p *pipes) Dial() net.Conn {
	client, server := net.Pipe()
	p.waiting <- server
	return client
}

func (p *pipes) Accept() (net.Conn, error) {
	select {
	case c := <-p.waiting:
		return c, nil
	case <-p.closed:
		return nil, net.ErrClosed
	}
}

func (p *pipes) Close() error {
	select {
	case <-p.closed:
	default:
		close(p.closed)
	}
	return nil
}

func (p *pipes) Addr() net.Addr { return &net.TCPAddr{} }

// Ensure a client that sends its request drop by drop, or leaves its body
// unsent, or stays without asking, is not waited for: it would hold a place.
func TestSlowClients(t *testing.T) {
	for _, tt := range []struct {
		name string
		sent string
		wait time.Duration
	}{
		{"says nothing", "", usual.header},
		{"half a header", "GET / HTTP/1.1\r\nHost: hangar.test\r\nX-Slow: ", usual.header},
		{"half a body", "POST /body HTTP/1.1\r\nHost: hangar.test\r\nContent-Length: 100\r\n\r\n{", usual.read},
		{"one request and no more", "GET / HTTP/1.1\r\nHost: hangar.test\r\n\r\n", usual.idle},
	} {
		t.Run(tt.name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				p := &Program{Log: slog.New(slog.DiscardHandler), timeout: usual, stopping: make(chan struct{}), failed: make(chan error, 1)}
				l := newPipes()
				p.start(l, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
					if _, err := io.ReadAll(r.Body); err != nil {
						w.WriteHeader(http.StatusRequestTimeout)
					}
				}), nil)
				c := l.Dial()
				start := time.Now()
				io.WriteString(c, tt.sent)
				io.Copy(io.Discard, c) // until the server hangs up
				if got := time.Since(start); got < tt.wait || got > tt.wait+time.Second {
					t.Errorf("hung up after %v, want %v", got, tt.wait)
				}
				c.Close()
				if err := p.Close(); err != nil {
					t.Error(err)
				}
			})
		})
	}
}

// Ensure a request in flight is finished when the server is asked to stop, and
// that one which never ends doesn't keep it from stopping.
func TestCloseFinishesRequests(t *testing.T) {
	for _, tt := range []struct{ works, stops time.Duration }{
		{3 * time.Second, 3 * time.Second},
		{time.Hour, stopWait},
	} {
		synctest.Test(t, func(t *testing.T) {
			p := &Program{Log: slog.New(slog.DiscardHandler), timeout: usual, stopping: make(chan struct{}), failed: make(chan error, 1)}
			l := newPipes()
			p.start(l, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
				select {
				case <-time.After(tt.works):
					io.WriteString(w, "done")
				case <-r.Context().Done():
				}
			}), nil)
			c := l.Dial()
			io.WriteString(c, "GET / HTTP/1.1\r\nHost: hangar.test\r\n\r\n")
			var answer []byte
			go func() { answer, _ = io.ReadAll(c) }()
			synctest.Wait()

			start := time.Now()
			err := p.Close()
			if got := time.Since(start); got < tt.stops || got > tt.stops+time.Second {
				t.Errorf("work of %v: stopped after %v, want %v", tt.works, got, tt.stops)
			}
			synctest.Wait()
			finished := tt.works < stopWait
			if strings.HasSuffix(string(answer), "done") != finished || (err == nil) != finished {
				t.Errorf("work of %v: answer %q, %v", tt.works, answer, err)
			}
			c.Close()
		})
	}
}

// Ensure a stream outlives the timeouts that are meant for requests, ends by
// itself when the access token does, and ends at once when the server stops;
// over HTTP/2 too, where a deadline that passes cuts a stream that says nothing.
func TestStreamOutlivesTimeouts(t *testing.T) {
	for _, protocol := range []string{"HTTP/1.1", "HTTP/2.0"} {
		t.Run(protocol, func(t *testing.T) { synctest.Test(t, func(t *testing.T) { streams(t, protocol) }) })
	}
}

func streams(t *testing.T, protocol string) {
	log := slog.New(slog.DiscardHandler)
	db := store.Memory()
	people := auth.New(db, auth.NewKey([32]byte{1}), log)
	short := timeouts{header: time.Second, read: time.Second, write: time.Second, idle: time.Second}
	p := &Program{Log: log, timeout: short, stopping: make(chan struct{}), failed: make(chan error, 1)}
	l := newPipes()
	app := api.New(api.Config{Auth: people, Ledger: db, Front: http.NotFoundHandler(), Stopping: p.stopping, Log: log})

	client := &http.Transport{DialContext: func(context.Context, string, string) (net.Conn, error) { return l.Dial(), nil }}
	url := "http://hangar.test"
	if protocol == "HTTP/2.0" {
		names, err := cert.ParseNames("hangar.test")
		if err != nil {
			t.Fatal(err)
		}
		authority, _, err := cert.Own(t.TempDir(), names)
		if err != nil {
			t.Fatal(err)
		}
		p.start(l, app, authority.TLS())
		url = "https://hangar.test"
		client.TLSClientConfig = &tls.Config{InsecureSkipVerify: true} // trust is looked at elsewhere
		client.ForceAttemptHTTP2 = true
	} else {
		p.start(l, app, nil)
	}

	token, err := people.SetupToken(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	session, err := people.SetUp(t.Context(), "192.0.2.1", auth.Founding{Token: token, Shop: "Quill Radials", Name: "Ada Quill", Passphrase: passphrase}, auth.Phone{Device: [16]byte{1}})
	if err != nil {
		t.Fatal(err)
	}
	listen := func() io.ReadCloser {
		r, err := http.NewRequest("GET", url+"/api/v1/events", nil)
		if err != nil {
			t.Fatal(err)
		}
		r.Header.Set("Authorization", "Bearer "+session.Access)
		res, err := client.RoundTrip(r)
		if err != nil {
			t.Fatal(err)
		}
		if res.StatusCode != 200 || res.Proto != protocol {
			t.Fatalf("stream: %s over %s", res.Status, res.Proto)
		}
		return res.Body
	}

	start := time.Now()
	body := listen()
	_, err = io.Copy(io.Discard, body)
	if got := time.Since(start); err != nil || got < auth.AccessLife || got > auth.AccessLife+2*time.Minute {
		t.Errorf("the stream lived %v (%v), want as long as the access token", got, err)
	}
	body.Close()

	session, err = people.Refresh(t.Context(), session.Refresh, "0123456789abcdef", "")
	if err != nil {
		t.Fatal(err)
	}
	body = listen()
	ended := make(chan error, 1)
	go func() {
		_, err := io.Copy(io.Discard, body)
		ended <- err
	}()
	start = time.Now()
	if err := p.Close(); err != nil {
		t.Errorf("stopping with a stream open: %v", err)
	}
	if got := time.Since(start); got > 5*time.Second {
		t.Errorf("stopping took %v", got)
	}
	if err := <-ended; err != nil {
		t.Errorf("the stream was cut, not ended: %v", err)
	}
	body.Close()
	client.CloseIdleConnections()
}
