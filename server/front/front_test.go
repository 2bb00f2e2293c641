package front

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/fstest"

	"linkrod/embed"
)

const page = "<!doctype html><title>the app</title>"

var tree = fstest.MapFS{
	".gitkeep":              {},
	"index.html":            {Data: []byte(page)},
	"sw.js":                 {Data: []byte("// worker")},
	"sw.js.br":              {Data: []byte("br of worker")},
	"manifest.webmanifest":  {Data: []byte("{}")},
	"assets/app-4f2a.js":    {Data: []byte("// the app, plain")},
	"assets/app-4f2a.js.br": {Data: []byte("the app, br")},
	"assets/app-4f2a.js.gz": {Data: []byte("the app, gz")},
	"assets/core-77.wasm":   {Data: []byte("\x00asm")},
	"assets/lost.css.gz":    {Data: []byte("no original")},
	"assets/font.woff2":     {Data: []byte("wOF2")},
}

func MustNew(tb testing.TB, files fs.FS) *Handler {
	tb.Helper()
	h, err := New(files)
	if err != nil {
		tb.Fatal(err)
	}
	return h
}

func ask(h http.Handler, method, target string, headers ...string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, target, nil)
	for i := 0; i < len(headers); i += 2 {
		r.Header.Add(headers[i], headers[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

// Ensure every kind of address gets the right thing with the right type and
// the right memory.
func TestAddresses(t *testing.T) {
	h := MustNew(t, tree)
	html := []string{"Accept", "text/html,application/xhtml+xml;q=0.9,*/*;q=0.8"}
	for _, tt := range []struct {
		name    string
		method  string
		target  string
		headers []string
		status  int
		kind    string
		cache   string
		body    string
	}{
		{"the page", "GET", "/", html, 200, "text/html; charset=utf-8", cacheAsk, page},
		{"the page without a browser", "GET", "/", nil, 200, "text/html; charset=utf-8", cacheAsk, page},
		{"an address of the app", "GET", "/e/0b11/oil", html, 200, "text/html; charset=utf-8", cacheAsk, page},
		{"the same, asked by a script", "GET", "/e/0b11/oil", []string{"Accept", "*/*"}, 404, "text/plain; charset=utf-8", cacheNever, ""},
		{"the service worker", "GET", "/sw.js", nil, 200, "text/javascript; charset=utf-8", cacheAsk, "// worker"},
		{"the manifest", "GET", "/manifest.webmanifest", nil, 200, "application/manifest+json", cacheAsk, "{}"},
		{"a hashed script", "GET", "/assets/app-4f2a.js", nil, 200, "text/javascript; charset=utf-8", cacheForever, "// the app, plain"},
		{"the core", "GET", "/assets/core-77.wasm", nil, 200, "application/wasm", cacheForever, "\x00asm"},
		{"the font", "GET", "/assets/font.woff2", nil, 200, "font/woff2", cacheForever, "wOF2"},
		{"a script that is gone", "GET", "/assets/app-0000.js", html, 404, "text/plain; charset=utf-8", cacheNever, ""},
		{"a folder of assets", "GET", "/assets/app", html, 404, "text/plain; charset=utf-8", cacheNever, ""},
		{"a page with an extension", "GET", "/about.html", html, 404, "text/plain; charset=utf-8", cacheNever, ""},
		{"compressed only", "GET", "/assets/lost.css", nil, 404, "text/plain; charset=utf-8", cacheNever, ""},
		{"the compressed form by name", "GET", "/assets/app-4f2a.js.br", html, 404, "text/plain; charset=utf-8", cacheNever, ""},
		{"a hidden file", "GET", "/.gitkeep", html, 404, "text/plain; charset=utf-8", cacheNever, ""},
		{"a hidden folder", "GET", "/.well-known/change-password", html, 404, "text/plain; charset=utf-8", cacheNever, ""},
		{"dot segments", "GET", "/assets/../index.html", html, 404, "text/plain; charset=utf-8", cacheNever, ""},
		{"encoded dot segments", "GET", "/assets/%2e%2e/index.html", html, 404, "text/plain; charset=utf-8", cacheNever, ""},
		{"an encoded slash", "GET", "/assets%2fapp-4f2a.js", html, 404, "text/plain; charset=utf-8", cacheNever, ""},
		{"an encoded backslash", "GET", "/assets%5capp-4f2a.js", html, 404, "text/plain; charset=utf-8", cacheNever, ""},
		{"a doubled slash", "GET", "//sw.js", html, 404, "text/plain; charset=utf-8", cacheNever, ""},
		{"a doubled slash in a page's address", "GET", "//e/0b11", html, 404, "text/plain; charset=utf-8", cacheNever, ""},
		{"writing", "POST", "/", html, 405, "text/plain; charset=utf-8", cacheNever, ""},
		{"deleting", "DELETE", "/assets/app-4f2a.js", nil, 405, "text/plain; charset=utf-8", cacheNever, ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			w := ask(h, tt.method, tt.target, tt.headers...)
			if w.Code != tt.status {
				t.Errorf("status = %d, want %d", w.Code, tt.status)
			}
			if got := w.Header().Get("Content-Type"); got != tt.kind {
				t.Errorf("type = %q, want %q", got, tt.kind)
			}
			if got := w.Header().Get("Cache-Control"); got != tt.cache {
				t.Errorf("cache = %q, want %q", got, tt.cache)
			}
			if tt.status == 200 && w.Body.String() != tt.body {
				t.Errorf("body = %q, want %q", w.Body, tt.body)
			}
			if allow := w.Header().Get("Allow"); (tt.status == 405) != (allow == "GET, HEAD") {
				t.Errorf("Allow = %q with status %d", allow, w.Code)
			}
			if tt.status == 404 && w.Header().Get("ETag") != "" {
				t.Error("a missing file has a tag")
			}
		})
	}
}

// Ensure the encoding follows the client's weights.
func TestEncoding(t *testing.T) {
	h := MustNew(t, tree)
	for _, tt := range []struct {
		accept string
		want   string
	}{
		{"", ""},
		{"gzip, deflate, br, zstd", "br"},
		{"gzip", "gzip"},
		{"br;q=0, gzip", "gzip"},
		{"br;q=0", ""},
		{"gzip;q=0.8, br;q=0.2", "gzip"},
		{"br; q=0.5, gzip; q=0.5", "br"},
		{"BR", "br"},
		{"*", "br"},
		{"*;q=0.1", "br"},
		{"br;q=0, *", "gzip"},
		{"identity", ""},
		{"identity;q=1, br;q=0.5", ""},
		{"identity;q=0, gzip", "gzip"},
		{"identity;q=0", ""},
		{"br;q=nonsense, gzip", "gzip"},
		{"br;q=7, gzip", "gzip"},
		{",, ,br", "br"},
	} {
		w := ask(h, "GET", "/assets/app-4f2a.js", "Accept-Encoding", tt.accept)
		if got := w.Header().Get("Content-Encoding"); got != tt.want {
			t.Errorf("Accept-Encoding: %s -> %q, want %q", tt.accept, got, tt.want)
		}
		if w.Header().Get("Vary") != "Accept-Encoding" {
			t.Errorf("Accept-Encoding: %s: Vary = %q", tt.accept, w.Header().Get("Vary"))
		}
		if got, want := w.Header().Get("Content-Length"), fmt.Sprint(w.Body.Len()); got != want {
			t.Errorf("Accept-Encoding: %s: Content-Length = %s, body has %s", tt.accept, got, want)
		}
	}
	if w := ask(h, "GET", "/assets/core-77.wasm", "Accept-Encoding", "br"); w.Header().Get("Content-Encoding") != "" || w.Header().Get("Vary") != "" {
		t.Error("a file with one form only pretends to have more")
	}
}

// Ensure that a tag belongs to one encoding, and that whoever has the bytes
// gets 304 and none.
func TestTags(t *testing.T) {
	h := MustNew(t, tree)
	tags := map[string]string{}
	for _, encoding := range []string{"identity", "gzip", "br"} {
		w := ask(h, "GET", "/assets/app-4f2a.js", "Accept-Encoding", encoding)
		tag := w.Header().Get("ETag")
		if other, ok := tags[tag]; ok || tag == "" {
			t.Fatalf("%s has the tag of %s: %q", encoding, other, tag)
		}
		tags[tag] = encoding
		for _, match := range []string{tag, "W/" + tag, `"other", ` + tag, "*"} {
			w := ask(h, "GET", "/assets/app-4f2a.js", "Accept-Encoding", encoding, "If-None-Match", match)
			if w.Code != 304 || w.Body.Len() != 0 {
				t.Errorf("%s, If-None-Match: %s -> %d with %d bytes, want 304 with none", encoding, match, w.Code, w.Body.Len())
			}
			if w.Header().Get("ETag") != tag || w.Header().Get("Cache-Control") != cacheForever || w.Header().Get("Vary") == "" {
				t.Errorf("304 lacks what a cache needs: %v", w.Header())
			}
		}
		if w := ask(h, "GET", "/assets/app-4f2a.js", "Accept-Encoding", encoding, "If-None-Match", `"other"`); w.Code != 200 {
			t.Errorf("%s with another tag: %d, want 200", encoding, w.Code)
		}
	}
}

// Ensure HEAD says what GET would, length included, and sends nothing.
func TestHead(t *testing.T) {
	h := MustNew(t, tree)
	srv := httptest.NewServer(h)
	defer srv.Close()
	for _, target := range []string{"/", "/sw.js", "/assets/app-4f2a.js", "/assets/none.js"} {
		get := ask(h, "GET", target, "Accept-Encoding", "br")
		r, err := http.NewRequest("HEAD", srv.URL+target, nil)
		if err != nil {
			t.Fatal(err)
		}
		r.Header.Set("Accept-Encoding", "br")
		res, err := srv.Client().Do(r)
		if err != nil {
			t.Fatal(err)
		}
		if body, err := io.ReadAll(res.Body); err != nil || len(body) != 0 {
			t.Errorf("HEAD %s sent %d bytes, %v", target, len(body), err)
		}
		res.Body.Close()
		if res.StatusCode != get.Code {
			t.Errorf("HEAD %s = %d, GET = %d", target, res.StatusCode, get.Code)
		}
		for _, name := range []string{"Content-Type", "Content-Encoding", "ETag", "Cache-Control", "Vary"} {
			if got, want := res.Header.Get(name), get.Header().Get(name); got != want {
				t.Errorf("HEAD %s: %s = %q, GET has %q", target, name, got, want)
			}
		}
		if get.Code == 200 && res.ContentLength != int64(get.Body.Len()) {
			t.Errorf("HEAD %s: length %d, GET sends %d", target, res.ContentLength, get.Body.Len())
		}
	}
}

// Ensure the front end that is really in the binary is complete: every file
// has a type of its own, and every compressed form holds the original.
func TestEmbedded(t *testing.T) {
	files, built := embed.Front()
	if !built {
		t.Log("the front end is not built: this looks at the placeholder")
	}
	for name, f := range MustNew(t, files).files {
		if f.kind == "application/octet-stream" {
			t.Errorf("%s: its type is missing from the table", name)
		}
		if gz, ok := f.bodies["gzip"]; ok {
			var plain bytes.Buffer
			z, err := gzip.NewReader(bytes.NewReader(gz.bytes))
			if err == nil {
				_, err = plain.ReadFrom(z)
			}
			if err != nil || !bytes.Equal(plain.Bytes(), f.bodies[identity].bytes) {
				t.Errorf("%s.gz is not %s (%v)", name, name, err)
			}
		}
		if strings.HasPrefix(name, "assets/") && f.cache != cacheForever {
			t.Errorf("%s: cache %q", name, f.cache)
		}
	}
}
