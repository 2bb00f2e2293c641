package api

import (
	"fmt"
	"io"
	"strings"
	"testing"
)

// Ensure no other site can write with a visitor's cookie.
func TestSameOrigin(t *testing.T) {
	d := MustDesk(t)
	for _, tt := range []struct {
		name    string
		headers []string
		status  int
	}{
		{"our page", []string{"Sec-Fetch-Site", "same-origin"}, 401},
		{"typed into the address bar", []string{"Sec-Fetch-Site", "none"}, 401},
		{"an older browser's own page", []string{"Origin", "http://hangar.test"}, 401},
		{"no browser", nil, 401},
		{"another site", []string{"Sec-Fetch-Site", "cross-site"}, 403},
		{"a neighbour under one domain", []string{"Sec-Fetch-Site", "same-site"}, 403},
		{"an older browser on another site", []string{"Origin", "https://evil.example"}, 403},
		{"a page without origin", []string{"Origin", "null"}, 403},
		{"a plain form", []string{"Content-Type", "application/x-www-form-urlencoded"}, 400},
		{"a form with a file", []string{"Content-Type", "multipart/form-data; boundary=x"}, 400},
		{"text", []string{"Content-Type", "text/plain"}, 400},
		{"no type", []string{"Content-Type", ""}, 400},
		{"JSON with its charset", []string{"Content-Type", "application/json; charset=utf-8"}, 401},
	} {
		w := d.ask(t, "POST", "http://hangar.test/api/v1/session/refresh", fields{"nonce": "0123456789abcdef"}, tt.headers...)
		if w.Code != tt.status {
			t.Errorf("%s: %d %s, want %d", tt.name, w.Code, w.Body, tt.status)
		}
	}
	if w := d.ask(t, "DELETE", "http://hangar.test/api/v1/session", nil, "Sec-Fetch-Site", "cross-site"); w.Code != 403 {
		t.Errorf("signing out from another site: %d", w.Code)
	}
}

// Ensure the address that is slowed down, and that stands in the log, is the
// one that really connected.
func TestSpoofedAddress(t *testing.T) {
	d := MustDesk(t)
	d.MustSetUp(t, "")
	last := 0
	for i := range 12 {
		fake := fmt.Sprintf("203.0.113.%d", i)
		w := d.ask(t, "POST", "/api/v1/pairing/claim", fields{"code": "CDFGHJ", "device": deviceB},
			"X-Forwarded-For", fake, "X-Real-Ip", fake, "Forwarded", "for="+fake, "X-Client-Ip", fake)
		if last = w.Code; last == 429 {
			wantFault(t, w, 429, "too_many")
			if w.Header().Get("Retry-After") == "" {
				t.Error("nobody says how long to wait")
			}
		}
	}
	if last != 429 {
		t.Errorf("the twelfth try from one machine under twelve names: %d, want 429", last)
	}
	if strings.Contains(d.log.String(), "203.0.113.") {
		t.Errorf("a made-up address is in the log:\n%s", d.log)
	}
}

// Ensure what can't be read is refused, and what is too long is not read.
func TestBodies(t *testing.T) {
	d := MustDesk(t)
	long := strings.Repeat("x", 20<<10)
	for _, tt := range []struct {
		name   string
		body   any
		status int
		code   string
	}{
		{"nothing", "", 400, "invalid"},
		{"no JSON", "name=Ada", 400, "invalid"},
		{"cut off", `{"name":"Ada"`, 400, "invalid"},
		{"two messages", `{"device":"` + deviceA + `"}{"name":"Ada"}`, 400, "invalid"},
		{"a list", `["Ada"]`, 400, "invalid"},
		{"a number for a name", `{"name":7}`, 400, "invalid"},
		{"half a device", `{"device":"0a0a"}`, 400, "invalid"},
		{"a device in capitals", `{"device":"` + strings.ToUpper(deviceA) + `"}`, 400, "invalid"},
		{"no device", fields{"name": "Ada", "passphrase": passphrase}, 400, "invalid"},
		{"a field of a newer phone", fields{"device": deviceA, "name": "Ada", "passphrase": passphrase, "fingers": 5}, 403, "refused"},
		{"too long", fields{"device": deviceA, "name": long}, 413, "too_large"},
		{"too long, length not told", io.MultiReader(strings.NewReader(`{"name":"`), strings.NewReader(long), strings.NewReader(`"}`)), 413, "too_large"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			wantFault(t, d.ask(t, "POST", "/api/v1/session", tt.body), tt.status, tt.code)
		})
	}
}
