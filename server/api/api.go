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
	"github.com/labstack/echo/v4/middleware"

	"linkrod/server/auth"
)

// Config is what the HTTP side stands on.
type Config struct {
	Auth   *auth.Auth
	Ledger Ledger
	Front  http.Handler // the app itself
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
	nudges *nudges
}

// The protocol's version, in every answer.
const proto = 1

// Body limits. What grows has its own; the rest is a form.
const formLimit = "16K"

// New returns the whole HTTP side: app, API, health.
func New(c Config) http.Handler {
	a := &api{Config: c, nudges: newNudges()}
	e := echo.New()
	e.IPExtractor = echo.ExtractIPDirect() // a header anybody can write names nobody
	e.HTTPErrorHandler = a.fail
	e.Use(a.headers, requestID, a.journal(), a.recover())

	form := middleware.BodyLimit(formLimit)

	// Open to everybody.
	e.GET("/healthz", a.health)
	e.GET("/api/v1/state", a.state)
	e.POST("/api/v1/setup", a.setUp, sameOrigin, form)
	e.POST("/api/v1/setup/check", a.checkSetUp, sameOrigin, form)
	e.POST("/api/v1/session", a.signIn, sameOrigin, form)
	e.POST("/api/v1/session/refresh", a.refresh, sameOrigin, form)
	e.DELETE("/api/v1/session", a.signOut, sameOrigin, form)
	e.POST("/api/v1/pairing/claim", a.claim, sameOrigin, form)

	// Signed in.
	e.POST("/api/v1/pairing", a.pair, sameOrigin, form, a.signedIn)
	e.GET("/api/v1/hello", a.hello, a.signedIn)
	e.GET("/api/v1/events", a.events, a.signedIn)
	e.PUT("/api/v1/books/:book", a.openBook, sameOrigin, form, a.signedIn)
	e.POST("/api/v1/books/:book/push", a.push, sameOrigin, a.signedIn) // has its own limit
	e.GET("/api/v1/books/:book/pull", a.pull, a.signedIn)

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
