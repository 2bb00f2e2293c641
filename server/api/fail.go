package api

import (
	"context"
	"errors"
	"log/slog"
	"net/http"

	"github.com/labstack/echo/v4"

	"linkrod/server/fault"
)

// The codes and what they are in HTTP. Retry is a Retry-After in seconds.
var statuses = map[fault.Code]struct {
	status int
	retry  string
}{
	fault.Invalid:  {http.StatusBadRequest, ""},
	fault.SignIn:   {http.StatusUnauthorized, ""},
	fault.Refused:  {http.StatusForbidden, ""},
	fault.Revoked:  {http.StatusForbidden, ""},
	fault.NotFound: {http.StatusNotFound, ""},
	fault.Conflict: {http.StatusConflict, ""},
	fault.Rewound:  {http.StatusConflict, ""},
	fault.TooLarge: {http.StatusRequestEntityTooLarge, ""},
	fault.Damaged:  {http.StatusUnprocessableEntity, ""},
	fault.TooMany:  {http.StatusTooManyRequests, "60"},
	fault.Busy:     {http.StatusServiceUnavailable, "10"},
	fault.Internal: {http.StatusInternalServerError, ""},
}

type failure struct {
	stamp
	Error failureWords `json:"error"`
}

type failureWords struct {
	Code  fault.Code `json:"code"`
	Words string     `json:"words"`
	Field string     `json:"field,omitempty"` // of the form, when it is about one
}

// fail is the one way an error leaves the server: status, code and words for
// the phone; the cause for the log (the journal writes it), never for the
// phone.
func (a *api) fail(err error, c echo.Context) {
	if c.Response().Committed {
		return
	}
	f := faultOf(err)
	s, ok := statuses[f.Code]
	if !ok {
		s = statuses[fault.Internal]
	}
	if s.retry != "" {
		c.Response().Header().Set(echo.HeaderRetryAfter, s.retry)
	}
	if s.status == http.StatusUnauthorized {
		c.Response().Header().Set(echo.HeaderWWWAuthenticate, `Bearer realm="linkrod"`)
	}
	c.Response().Header().Set(echo.HeaderCacheControl, "no-store")
	if c.Request().Method == http.MethodHead {
		err = c.NoContent(s.status)
	} else {
		err = c.JSON(s.status, failure{now(), failureWords{f.Code, f.Words, f.Field}})
	}
	if err != nil {
		a.Log.LogAttrs(c.Request().Context(), slog.LevelWarn, "answer not delivered", slog.String("error", err.Error()))
	}
}

// faultOf finds the fault in err; what echo itself refuses gets our words.
func faultOf(err error) *fault.Fault {
	var f *fault.Fault
	if errors.As(err, &f) {
		return f
	}
	var status *echo.HTTPError
	if errors.As(err, &status) {
		switch status.Code {
		case http.StatusNotFound, http.StatusMethodNotAllowed:
			return fault.New(fault.NotFound, "There is nothing at this address.")
		case http.StatusRequestEntityTooLarge:
			return fault.New(fault.TooLarge, "That is more than this server takes at once. Send it in smaller parts.")
		case http.StatusBadRequest, http.StatusUnsupportedMediaType:
			return fault.Wrap(fault.Invalid, "The request could not be read.", err)
		}
	}
	if errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return fault.Wrap(fault.Busy, "The request took too long or was given up. Nothing is lost; it is sent again.", err)
	}
	return fault.From(err)
}

func unknown(echo.Context) error {
	return fault.New(fault.NotFound, "There is nothing at this address.")
}
