package api

import (
	"net/http"
	"strings"
	"testing"
)

// Ensure every kind of answer, errors too, carries the same protection and
// the right rule of caching.
func TestHeaders(t *testing.T) {
	d := MustDesk(t)
	html := []string{"Accept", "text/html"}
	for _, tt := range []struct {
		method, target string
		headers        []string
		status         int
		kind, cache    string
	}{
		{"GET", "/", html, 200, "text/html", "no-cache"},
		{"HEAD", "/", html, 200, "text/html", "no-cache"},
		{"GET", "/e/0b11/oil", html, 200, "text/html", "no-cache"},
		{"GET", "/set-up", html, 200, "text/html", "no-cache"},
		{"GET", "/sw.js", nil, 200, "text/javascript", "no-cache"},
		{"GET", "/assets/a-1.js", nil, 200, "text/javascript", "public, max-age=31536000, immutable"},
		{"GET", "/assets/a-0.js", html, 404, "text/plain", "no-store"},
		{"GET", "/install", html, 200, "text/html", "no-cache"}, // no authority of our own: the app's
		{"POST", "/", nil, 405, "text/plain", "no-store"},
		{"GET", "/healthz", nil, 200, "application/json", "no-store"},
		{"GET", "/api/v1/state", nil, 200, "application/json", "no-store"},
		{"GET", "/api/v1/hello", nil, 401, "application/json", "no-store"},
		{"GET", "/api/v1/events", nil, 401, "application/json", "no-store"},
		{"POST", "/api/v1/session", nil, 400, "application/json", "no-store"},
		{"PUT", "/api/v1/state", nil, 404, "application/json", "no-store"},
		{"GET", "/api/v1/session", html, 404, "application/json", "no-store"},
		{"GET", "/api/v2/anything", html, 404, "application/json", "no-store"},
		{"GET", "/api", html, 404, "application/json", "no-store"},
		{"GET", "/api/", html, 404, "application/json", "no-store"},
		{"BREW", "/api/v1/state", nil, 404, "application/json", "no-store"},
		{"BREW", "/", nil, 404, "application/json", "no-store"},
	} {
		w := d.ask(t, tt.method, tt.target, nil, tt.headers...)
		h := w.Header()
		at := tt.method + " " + tt.target
		if w.Code != tt.status {
			t.Errorf("%s = %d, want %d", at, w.Code, tt.status)
		}
		if got := h.Get("Content-Type"); !strings.HasPrefix(got, tt.kind) {
			t.Errorf("%s: type %q, want %q", at, got, tt.kind)
		}
		if got := h.Get("Cache-Control"); got != tt.cache {
			t.Errorf("%s: cache %q, want %q", at, got, tt.cache)
		}
		for name, want := range map[string]string{
			"Content-Security-Policy":      contentPolicy,
			"X-Content-Type-Options":       "nosniff",
			"Referrer-Policy":              "no-referrer",
			"Cross-Origin-Opener-Policy":   "same-origin",
			"Cross-Origin-Resource-Policy": "same-origin",
			"Strict-Transport-Security":    "",
			"Server":                       "",
		} {
			if got := h.Get(name); got != want {
				t.Errorf("%s: %s = %q, want %q", at, name, got, want)
			}
		}
		if h.Get("Permissions-Policy") == "" || h.Get("X-Request-Id") == "" {
			t.Errorf("%s: lacks a header: %v", at, h)
		}
	}
}

// Ensure the policy allows what the app is made of, and none of the ways by
// which injected text becomes a running script (CSP level 3).
func TestContentPolicy(t *testing.T) {
	policy := map[string]string{}
	for directive := range strings.SplitSeq(contentPolicy, "; ") {
		name, sources, _ := strings.Cut(directive, " ")
		if _, twice := policy[name]; twice {
			t.Errorf("%s stands twice; browsers read the first only", name)
		}
		policy[name] = sources
	}
	for name, want := range map[string]string{
		"default-src":               "'none'",
		"script-src":                "'self' 'wasm-unsafe-eval'",
		"base-uri":                  "'none'",
		"frame-ancestors":           "'none'",
		"require-trusted-types-for": "'script'",
		"trusted-types":             "app svelte-trusted-html",
	} {
		if policy[name] != want {
			t.Errorf("%s is %q, want %q", name, policy[name], want)
		}
	}
	for _, bad := range []string{"'unsafe-inline'", "'unsafe-eval'", "*", "data:", "http:", "https:", "object-src"} {
		if strings.Contains(contentPolicy, bad) {
			t.Errorf("the policy allows %s", bad)
		}
	}
}

// Ensure https is demanded for good only where it is there for good.
func TestHSTS(t *testing.T) {
	d := MustDesk(t, func(c *Config) { c.HSTS = true })
	if got := d.ask(t, "GET", "/", nil).Header().Get("Strict-Transport-Security"); got != "max-age=31536000" {
		t.Errorf("HSTS = %q", got)
	}
}

// Ensure one bad request takes nobody else's server down, and that the phone
// learns nothing of it but that it happened.
func TestPanic(t *testing.T) {
	d := MustDesk(t, func(c *Config) {
		c.Front = http.HandlerFunc(func(http.ResponseWriter, *http.Request) { panic("secret detail") })
	})
	w := d.ask(t, "GET", "/", nil)
	wantFault(t, w, 500, "internal")
	if strings.Contains(w.Body.String(), "secret") {
		t.Errorf("the phone was told: %s", w.Body)
	}
	if log := d.log.String(); !strings.Contains(log, "secret detail") || !strings.Contains(log, "headers_test.go") {
		t.Errorf("the log lacks cause or stack:\n%s", log)
	}
	if w := d.ask(t, "GET", "/healthz", nil); w.Code != 200 {
		t.Errorf("afterwards: %d", w.Code)
	}
}

// Ensure a request's name in the log is the one in the answer, and never what
// a client makes up.
func TestRequestID(t *testing.T) {
	d := MustDesk(t)
	w := d.ask(t, "GET", "/api/v1/state", nil, "X-Request-Id", "made\nup")
	id := w.Header().Get("X-Request-Id")
	if id == "made\nup" || len(id) < 20 {
		t.Errorf("id = %q", id)
	}
	if log := d.log.String(); !strings.Contains(log, "request="+id) || strings.Contains(log, "made") {
		t.Errorf("log of %s:\n%s", id, log)
	}
}
