package api

import (
	"bytes"
	"encoding/json"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	stdsync "sync"
	"testing"
	"testing/fstest"

	"linkrod/server/auth"
	"linkrod/server/front"
	"linkrod/server/store"
	"linkrod/server/witness"
)

const passphrase = "four words kept apart"

// desk is the HTTP side over a store in memory, with everything it logs.
type desk struct {
	http.Handler
	auth  *auth.Auth
	store *store.DB
	log   *record
}

// record is a log that may be read while it is written.
type record struct {
	mu  stdsync.Mutex
	buf bytes.Buffer
}

func (r *record) Write(p []byte) (int, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.buf.Write(p)
}

func (r *record) String() string {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.buf.String()
}

func MustDesk(tb testing.TB, change ...func(*Config)) desk {
	tb.Helper()
	app, err := front.New(fstest.MapFS{
		"index.html":    {Data: []byte("<!doctype html>")},
		"sw.js":         {Data: []byte("//")},
		"assets/a-1.js": {Data: []byte("//")},
	})
	if err != nil {
		tb.Fatal(err)
	}
	rec := new(record)
	log := slog.New(slog.NewTextHandler(rec, &slog.HandlerOptions{Level: slog.LevelDebug}))
	db := store.Memory()
	c := Config{Auth: auth.New(db, auth.NewKey([32]byte{1}), log), Ledger: db, Witness: witness.New([32]byte{2}), Front: app, Stopping: make(chan struct{}), Log: log}
	for _, f := range change {
		f(&c)
	}
	return desk{New(c), c.Auth, db, rec}
}

// ask sends a request: a body that is no text goes as JSON; headers are pairs.
func (d desk) ask(tb testing.TB, method, target string, body any, headers ...string) *httptest.ResponseRecorder {
	tb.Helper()
	var r *http.Request
	switch b := body.(type) {
	case nil:
		r = httptest.NewRequest(method, target, nil)
	case string:
		r = httptest.NewRequest(method, target, strings.NewReader(b))
	case io.Reader:
		r = httptest.NewRequest(method, target, b)
	default:
		text, err := json.Marshal(b)
		if err != nil {
			tb.Fatal(err)
		}
		r = httptest.NewRequest(method, target, bytes.NewReader(text))
	}
	if body != nil {
		r.Header.Set("Content-Type", "application/json")
	}
	for i := 0; i < len(headers); i += 2 {
		r.Header.Set(headers[i], headers[i+1])
	}
	w := httptest.NewRecorder()
	d.ServeHTTP(w, r)
	return w
}

type fields map[string]any

const (
	deviceA = "0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a"
	deviceB = "0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b0b"
)

// MustSetUp makes the first account and returns the whole answer.
func (d desk) MustSetUp(tb testing.TB, target string) *httptest.ResponseRecorder {
	tb.Helper()
	token, err := d.auth.SetupToken(tb.Context())
	if err != nil {
		tb.Fatal(err)
	}
	w := d.ask(tb, "POST", target+"/api/v1/setup", fields{
		"token": token, "shop": "Quill Radials", "telephone": "555 0100", "name": "Ada Quill", "role": "overhauls",
		"passphrase": passphrase, "device": deviceA, "label": "bench phone",
	})
	if w.Code != http.StatusOK {
		tb.Fatalf("set-up: %d %s", w.Code, w.Body)
	}
	return w
}

// decode reads an answer as a phone does: it must carry proto and now.
func decode[T any](tb testing.TB, w *httptest.ResponseRecorder) (answer T) {
	tb.Helper()
	var s struct {
		Proto int
		Now   int64
	}
	if err := json.Unmarshal(w.Body.Bytes(), &s); err != nil || s.Proto != 1 || s.Now == 0 {
		tb.Fatalf("no answer of ours (%v): %s", err, w.Body)
	}
	if err := json.Unmarshal(w.Body.Bytes(), &answer); err != nil {
		tb.Fatal(err)
	}
	return answer
}

type sessionAnswer struct {
	Access    string
	ExpiresMS int64 `json:"expires_ms"`
	Account   struct{ ID, Name, Role string }
	Shop      string
	Device    string
}

type errorAnswer struct {
	Error struct{ Code, Words, Field string }
}

func wantFault(tb testing.TB, w *httptest.ResponseRecorder, status int, code string) errorAnswer {
	tb.Helper()
	a := decode[errorAnswer](tb, w)
	if w.Code != status || a.Error.Code != code || a.Error.Words == "" {
		tb.Errorf("answer = %d %s, want %d %q with words", w.Code, w.Body, status, code)
	}
	return a
}

// cookie returns the one cookie an answer sets.
func cookie(tb testing.TB, w *httptest.ResponseRecorder) *http.Cookie {
	tb.Helper()
	all := w.Result().Cookies()
	if len(all) != 1 {
		tb.Fatalf("%d cookies: %v", len(all), all)
	}
	return all[0]
}
