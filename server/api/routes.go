package api

import (
	"net/http"

	"github.com/labstack/echo/v4"
	"github.com/labstack/echo/v4/middleware"

	"linkrod/server/people"
	"linkrod/sync"
)

// route is one address of the API.
type route struct {
	method, path string
	who          who
	// act is what the table of rights must allow the caller, in the book the
	// path names or on the instance. The store looks, in the transaction that
	// does it; what stands here is what the test of all roles at all addresses
	// expects of it.
	act  people.Act
	body body
	run  func(*api, echo.Context) error
}

// who may ask at all.
type who int

const (
	anybody who = iota
	signedIn
)

// body is what a request may bring.
type body int

const (
	nothing body = iota // no body is read
	form                // a short JSON message
	batch               // JSON of a push or a salvage; the handler has the limit
	piece               // bytes of a photograph; the handler has the limit
)

// formLimit is what a form may hold.
const formLimit = "16K"

// routes is every address but the app's own files.
func routes() []route {
	const books = "/api/v1/books/:book"
	return []route{
		// Open to everybody.
		{http.MethodGet, "/healthz", anybody, "", nothing, (*api).health},
		{http.MethodGet, "/api/v1/state", anybody, "", nothing, (*api).state},
		{http.MethodPost, "/api/v1/setup", anybody, "", form, (*api).setUp},
		{http.MethodPost, "/api/v1/setup/check", anybody, "", form, (*api).checkSetUp},
		{http.MethodPost, "/api/v1/session", anybody, "", form, (*api).signIn},
		{http.MethodPost, "/api/v1/session/refresh", anybody, "", form, (*api).refresh},
		{http.MethodDelete, "/api/v1/session", anybody, "", nothing, (*api).signOut},
		{http.MethodPost, "/api/v1/pairing/claim", anybody, "", form, (*api).claim},
		{http.MethodPost, "/api/v1/invitations/look", anybody, "", form, (*api).lookAtInvitation},
		{http.MethodPost, "/api/v1/invitations/claim", anybody, "", form, (*api).claimInvitation},

		// The caller's own.
		{http.MethodPost, "/api/v1/pairing", signedIn, "", form, (*api).pair},
		{http.MethodGet, "/api/v1/hello", signedIn, "", nothing, (*api).hello},
		{http.MethodGet, "/api/v1/events", signedIn, "", nothing, (*api).events},
		{http.MethodGet, "/api/v1/devices", signedIn, "", nothing, (*api).devices},
		{http.MethodDelete, "/api/v1/devices/:device", signedIn, "", nothing, (*api).removeDevice},
		{http.MethodGet, "/api/v1/devices/:device/last", signedIn, "", nothing, (*api).lastFrom},
		{http.MethodPut, books, signedIn, "", form, (*api).openBook},

		// In a book.
		{http.MethodPost, books + "/push", signedIn, people.Read, batch, (*api).push},
		{http.MethodGet, books + "/pull", signedIn, people.Read, nothing, (*api).pull},
		{http.MethodGet, books + "/head", signedIn, people.Read, nothing, (*api).head},
		{http.MethodGet, books + "/chain", signedIn, people.Read, nothing, (*api).chain},
		{http.MethodPost, books + "/salvage", signedIn, people.Read, batch, (*api).salvage},
		{http.MethodGet, books + "/snapshot", signedIn, people.Read, nothing, (*api).snapshot},
		{http.MethodGet, books + "/export", signedIn, people.Read, nothing, (*api).export},
		{http.MethodGet, books + "/aside", signedIn, people.SeeAside, nothing, (*api).aside},
		{http.MethodPost, books + "/aside/:device/:n/admit", signedIn, people.Admit, form, (*api).admit},
		{http.MethodGet, books + "/members", signedIn, people.Read, nothing, (*api).members},
		{http.MethodPatch, books + "/members/:account", signedIn, people.Share, form, (*api).changeMember},
		{http.MethodDelete, books + "/members/:account", signedIn, people.Share, nothing, (*api).removeMember},
		{http.MethodGet, books + "/invitations", signedIn, people.Share, nothing, (*api).invitations},
		{http.MethodPost, books + "/invitations", signedIn, people.Share, form, (*api).invite},
		{http.MethodDelete, books + "/invitations/:id", signedIn, people.Share, nothing, (*api).withdrawInvitation},
		{http.MethodHead, books + "/photos/:sum", signedIn, people.Read, nothing, (*api).photoState},
		{http.MethodGet, books + "/photos/:sum", signedIn, people.Read, nothing, (*api).photo},
		{http.MethodPost, books + "/photos/:sum", signedIn, people.Write, nothing, (*api).beginPhoto},
		{http.MethodPatch, books + "/photos/:sum", signedIn, people.Write, piece, (*api).addToPhoto},

		// On the instance.
		{http.MethodGet, "/api/v1/aside", signedIn, people.SeeBooks, nothing, (*api).waiting},
		{http.MethodGet, "/api/v1/people", signedIn, people.SeePeople, nothing, (*api).people},
		{http.MethodDelete, "/api/v1/people/:account", signedIn, people.Remove, nothing, (*api).removeAccount},
		{http.MethodGet, "/api/v1/journal", signedIn, people.SeePeople, nothing, (*api).adminJournal},
	}
}

// guards are what a request must pass on its way to the handler.
func (a *api) guards(r route) (g []echo.MiddlewareFunc) {
	if r.method != http.MethodGet && r.method != http.MethodHead {
		g = append(g, sameOrigin)
	}
	switch r.body {
	case form:
		g = append(g, wants(echo.MIMEApplicationJSON, "Send JSON, with Content-Type: application/json."), middleware.BodyLimit(formLimit))
	case batch:
		g = append(g, wants(echo.MIMEApplicationJSON, "Send JSON, with Content-Type: application/json."))
	case piece:
		g = append(g, wants("application/offset+octet-stream", "Send bytes, with Content-Type: application/offset+octet-stream."))
	}
	if r.who == signedIn {
		g = append(g, a.signedIn)
	}
	return g
}

// idOf is the id a path has under name; NotFound with words when it is none.
func idOf(c echo.Context, name string, missing error) (sync.ID, error) {
	id, err := sync.ParseID(c.Param(name))
	if err != nil || id.IsZero() {
		return sync.ID{}, missing
	}
	return id, nil
}
