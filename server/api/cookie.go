package api

import (
	"net/http"
	"time"

	"github.com/labstack/echo/v4"
)

// The refresh cookie. Over https its name binds it to this very host
// (__Host-: Secure, no Domain, Path=/). Over plain http, which is for
// localhost, browsers refuse that prefix, so the name is plain.
const (
	cookieSecure = "__Host-linkrod"
	cookiePlain  = "linkrod"
)

func refreshCookie(c echo.Context) string {
	cookie, err := c.Cookie(cookieName(c))
	if err != nil {
		return ""
	}
	return cookie.Value
}

func setRefreshCookie(c echo.Context, token string, expires time.Time) {
	c.SetCookie(&http.Cookie{
		Name:     cookieName(c),
		Value:    token,
		Path:     "/",
		Expires:  expires,
		HttpOnly: true,
		Secure:   c.Request().TLS != nil,
		SameSite: http.SameSiteStrictMode,
	})
}

func dropRefreshCookie(c echo.Context) {
	c.SetCookie(&http.Cookie{
		Name:     cookieName(c),
		Path:     "/",
		MaxAge:   -1,
		HttpOnly: true,
		Secure:   c.Request().TLS != nil,
		SameSite: http.SameSiteStrictMode,
	})
}

func cookieName(c echo.Context) string {
	if c.Request().TLS != nil {
		return cookieSecure
	}
	return cookiePlain
}
