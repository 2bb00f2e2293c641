// Package front serves the built app: the same bytes to everybody, known in
// full when the server starts.
//
// Three rules of caching. What lies in assets/ has its hash in its name and
// is kept for a year. Everything else, the page and the service worker above
// all, is asked for each time and answered with 304 while it is the same. What
// isn't there must not be remembered as missing, or a phone could keep a hole
// from the minute of an update.
package front

import (
	"bytes"
	"io/fs"
	"net/http"
	"path"
	"strconv"
	"strings"
	"time"
)

const (
	cacheForever = "public, max-age=31536000, immutable"
	cacheAsk     = "no-cache"
	cacheNever   = "no-store"
)

// Handler answers with the files it was made from.
type Handler struct{ files map[string]file }

// New reads all of files. A name ending in .br or .gz is the compressed form
// of the name before it, made by the build.
func New(files fs.FS) (*Handler, error) {
	index, err := read(files)
	if err != nil {
		return nil, err
	}
	return &Handler{index}, nil
}

// ServeHTTP answers GET and HEAD. An address that is no file gets the app's
// page when a person's browser asks for a page ([wantsPage]), because the app
// knows its own addresses; anything else that is missing is a plain 404.
func (h *Handler) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		w.Header().Set("Allow", "GET, HEAD")
		refuse(w, http.StatusMethodNotAllowed, "This address can only be read.")
		return
	}
	name, ok := nameOf(r)
	f, found := h.files[name]
	if ok && !found && wantsPage(r, name) {
		f, found = h.files["index.html"]
	}
	if !ok || !found {
		refuse(w, http.StatusNotFound, "There is nothing at this address.")
		return
	}
	f.serve(w, r)
}

// nameOf is the file an address asks for. Addresses with dot segments, hidden
// names, doubled or encoded slashes are nobody's honest request.
func nameOf(r *http.Request) (name string, ok bool) {
	escaped := strings.ToLower(r.URL.EscapedPath())
	if strings.Contains(escaped, "%2f") || strings.Contains(escaped, "%5c") || strings.Contains(r.URL.Path, `\`) {
		return "", false
	}
	name, ok = strings.CutPrefix(r.URL.Path, "/")
	if !ok || strings.Contains("/"+name, "/.") || strings.Contains("/"+name, "//") {
		return "", false
	}
	if name == "" {
		name = "index.html"
	}
	return name, true
}

// wantsPage reports whether a browser asks for a page of the app: it accepts
// HTML and the address has no file extension. A missing script must stay a
// 404, since a page in its place is a syntax error far from its cause.
func wantsPage(r *http.Request, name string) bool {
	return strings.Contains(r.Header.Get("Accept"), "text/html") &&
		!strings.Contains(path.Base(name), ".") && !strings.HasPrefix(name, "assets/")
}

func (f file) serve(w http.ResponseWriter, r *http.Request) {
	encoding := choose(r.Header.Values("Accept-Encoding"), f.encodings())
	body := f.bodies[encoding]
	h := w.Header()
	h.Set("Content-Type", f.kind)
	h.Set("Cache-Control", f.cache)
	h.Set("ETag", body.tag)
	if len(f.bodies) > 1 {
		h.Add("Vary", "Accept-Encoding")
	}
	if encoding != identity {
		// The library leaves the length out of encoded answers, for fear that
		// something on the way encodes them again. Here it is known.
		h.Set("Content-Encoding", encoding)
		h.Set("Content-Length", strconv.Itoa(len(body.bytes)))
	}
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(body.bytes))
}

func refuse(w http.ResponseWriter, status int, words string) {
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	w.Header().Set("Cache-Control", cacheNever)
	w.WriteHeader(status)
	w.Write([]byte(words + "\n")) // net/http drops it for HEAD
}
