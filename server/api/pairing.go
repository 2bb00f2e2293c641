package api

import (
	"net"
	"net/http"
	"net/url"
	"strings"

	"github.com/labstack/echo/v4"
)

// pair makes a code for one more phone. The link carries the code after the
// #, which browsers don't send, so it stays out of every log on the way. A link
// that no other phone can open comes without a picture, and says so.
func (a *api) pair(c echo.Context) error {
	code, expires, err := a.Auth.Pair(c.Request().Context(), caller(c))
	if err != nil {
		return err
	}
	link := a.origin(c) + "/join#" + code
	picture, here := "", onlyHere(link)
	if here == "" {
		if picture, err = qrSVG(link); err != nil {
			return err
		}
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		Code     string `json:"code"`
		Expires  int64  `json:"expires_ms"`
		URL      string `json:"url"`
		QR       string `json:"qr_svg"`
		OnlyHere string `json:"only_here,omitempty"` // why no other phone can open the link
	}{now(), code, expires.UnixMilli(), link, picture, here})
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

// onlyHere says why no other phone can open a link, "" when one can: a loopback
// name means the very machine it is typed on (RFC 6761, 6.3; RFC 1122,
// 3.2.1.3).
func onlyHere(link string) string {
	u, err := url.Parse(link)
	if err != nil {
		return ""
	}
	name := strings.TrimSuffix(strings.ToLower(u.Hostname()), ".")
	if ip := net.ParseIP(name); name != "localhost" && !strings.HasSuffix(name, ".localhost") && !ip.IsLoopback() {
		return ""
	}
	return "Another phone cannot open " + u.Scheme + "://" + u.Host + ": on that phone the name means the phone itself. " +
		"Stop Linkrod and start it with -tls own -name and the name or address of this machine in the hangar's network; then make a code there."
}
