package api

import (
	"net/http"

	"github.com/labstack/echo/v4"
)

// pair makes a code for one more phone. The link carries the code after the
// #, which browsers don't send, so it stays out of every log on the way.
func (a *api) pair(c echo.Context) error {
	code, expires, err := a.Auth.Pair(c.Request().Context(), caller(c))
	if err != nil {
		return err
	}
	link := a.origin(c) + "/join#" + code
	picture, err := qrSVG(link)
	if err != nil {
		return err
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		Code    string `json:"code"`
		Expires int64  `json:"expires_ms"`
		URL     string `json:"url"`
		QR      string `json:"qr_svg"`
	}{now(), code, expires.UnixMilli(), link, picture})
}

// origin is the address the other phone should use.
func (a *api) origin(c echo.Context) string {
	if a.Origin != "" {
		return a.Origin
	}
	if c.Request().TLS != nil {
		return "https://" + c.Request().Host
	}
	return "http://" + c.Request().Host
}
