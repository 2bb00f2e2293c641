// Package api is the server's HTTP side: which address does what, who may
// call it, what an error looks like, what every answer carries.
//
// A handler reads its message, asks auth or the ledger, answers. It returns
// errors; [api.fail] is the one place that turns them into status and words.
package api

import (
	"log/slog"
	"net/http"
	"time"

	"github.com/labstack/echo/v4"

	"linkrod/server/auth"
	"linkrod/server/witness"
)

// Config is what the HTTP side stands on.
type Config struct {
	Auth   *auth.Auth
	Ledger Ledger
	// Witness signs where ledgers stand.
	Witness witness.Key
	Front   http.Handler // the app itself
	// Install shows how to trust the server's own certificate authority; nil
	// when it has none.
	Install http.Handler
	// Origin is the address phones know this server by, without a slash at the
	// end, when it was configured. Otherwise links are made from the request.
	Origin string
	HSTS   bool // TLS is public and there to stay
	// DataFile is the path of the data, told to the host only: set-up shows
	// what is to be copied.
	DataFile string
	// Stopping is closed when the server begins to stop: streams end then.
	Stopping <-chan struct{}
	Log      *slog.Logger
}

type api struct {
	Config
	builds chan struct{} // places for snapshots in the making
}

// The protocol's version, in every answer.
const proto = 1

// New returns the whole HTTP side: app, API (routes.go), health.
func New(c Config) http.Handler {
	a := &api{Config: c, builds: make(chan struct{}, 2)}
	e := echo.New()
	e.IPExtractor = echo.ExtractIPDirect() // a header anybody can write names nobody
	e.HTTPErrorHandler = a.fail
	e.Use(a.headers, requestID, a.journal(), a.recover())
	for _, r := range routes() {
		e.Add(r.method, r.path, func(c echo.Context) error { return r.run(a, c) }, a.guards(r)...)
	}
	// The rest is the app.
	e.Any("/api", unknown)
	e.Any("/api/*", unknown)
	if c.Install != nil {
		e.Any("/install", echo.WrapHandler(c.Install))
		e.Any("/install/*", echo.WrapHandler(c.Install))
	}
	e.Any("/*", echo.WrapHandler(c.Front))
	return e
}

// stamp stands in every answer.
type stamp struct {
	Proto int   `json:"proto"`
	Now   int64 `json:"now"` // ms by the server's clock; a phone's may be years off
}

func now() stamp { return stamp{Proto: proto, Now: time.Now().UnixMilli()} }
