package cert

import (
	_ "embed"
	"html/template"
	"net/http"
	"strings"
)

//go:embed install.html
var installPage string

//go:embed install.css
var installStyle []byte

// Install shows how to trust the authority: the page, its style, and the
// certificate itself. It needs no sign-in and may be served over plain http,
// since everything it shows is public; what protects the person is the
// fingerprint, which they compare with the one the server printed.
//
// app is the address to go to afterwards.
func (a *Authority) Install(app string) http.Handler {
	var page strings.Builder
	err := template.Must(template.New("install").Parse(installPage)).Execute(&page, map[string]any{
		"App":         app,
		"Name":        a.given.First(),
		"Names":       a.given.String(),
		"Fingerprint": a.Fingerprint(),
		"Until":       a.Until().Format("2 January 2006"),
	})
	if err != nil {
		panic(err) // the template and its values are fixed
	}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /install", send("text/html; charset=utf-8", []byte(page.String())))
	mux.HandleFunc("GET /install/look.css", send("text/css; charset=utf-8", installStyle))
	mux.HandleFunc("GET /install/ca.crt", send("application/x-x509-ca-cert", a.cert.Raw))
	mux.Handle("GET /{$}", http.RedirectHandler("/install", http.StatusFound))
	return mux
}

// send answers with fixed bytes and the policy they need: nothing but a style
// sheet of our own.
func send(kind string, body []byte) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Type", kind)
		h.Set("Cache-Control", "no-store")
		h.Set("Content-Security-Policy", "default-src 'none'; style-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		w.Write(body)
	}
}
