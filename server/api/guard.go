package api

import (
	"mime"
	"net/http"
	"strings"

	"github.com/labstack/echo/v4"

	"linkrod/server/auth"
	"linkrod/server/fault"
)

// signedIn lets nobody through without a valid access token, and tells the
// handler who it is ([caller]).
func (a *api) signedIn(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		who, err := a.Auth.Check(c.Request().Context(), bearer(c))
		if err != nil {
			return err
		}
		c.Set(callerKey, who)
		return next(c)
	}
}

// bearer is the access token a request came with, or nothing.
func bearer(c echo.Context) string {
	scheme, token, _ := strings.Cut(c.Request().Header.Get(echo.HeaderAuthorization), " ")
	if !strings.EqualFold(scheme, "Bearer") {
		return ""
	}
	return token
}

const callerKey = "caller"

// caller is who sent the request; for handlers behind [api.signedIn] only.
func caller(c echo.Context) auth.Caller { return c.Get(callerKey).(auth.Caller) }

// sameOrigin keeps other sites' pages from writing with a visitor's cookie:
// the browser must say that the request comes from our own pages.
func sameOrigin(next echo.HandlerFunc) echo.HandlerFunc {
	check := http.NewCrossOriginProtection().Check
	return func(c echo.Context) error {
		if err := check(c.Request()); err != nil {
			return fault.Wrap(fault.Refused, "This was sent from another site and is not taken.", err)
		}
		return next(c)
	}
}

// wants takes one media type only, none of those a plain form can send.
func wants(want, words string) echo.MiddlewareFunc {
	return func(next echo.HandlerFunc) echo.HandlerFunc {
		return func(c echo.Context) error {
			kind, _, err := mime.ParseMediaType(c.Request().Header.Get(echo.HeaderContentType))
			if err != nil || kind != want {
				return fault.Wrap(fault.Invalid, words, err)
			}
			return next(c)
		}
	}
}
