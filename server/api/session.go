package api

import (
	"net/http"

	"github.com/labstack/echo/v4"

	"linkrod/server/auth"
	"linkrod/sync"
)

// sessionReply is what a phone gets when it is let in. The refresh token is
// not in it: it travels as a cookie that no script can read.
type sessionReply struct {
	stamp
	Access  string       `json:"access"`
	Expires int64        `json:"expires_ms"` // by the server's clock; compare with now
	Account accountReply `json:"account"`
	Shop    string       `json:"shop"`
	Phone   string       `json:"telephone,omitempty"` // the shop's
	Device  sync.ID      `json:"device"`
	Data    string       `json:"data,omitempty"` // path of the data file, for the host
	Book    string       `json:"book,omitempty"` // joined by the invitation that made the account
}

type accountReply struct {
	ID   sync.ID `json:"id"`
	Name string  `json:"name"`
	Role string  `json:"role"`
}

// phoneMessage is the part of a message that says which phone it is.
type phoneMessage struct {
	Device sync.ID `json:"device"`
	Label  string  `json:"label"`
}

func (m phoneMessage) phone() auth.Phone { return auth.Phone{Device: m.Device, Label: m.Label} }

func (a *api) health(c echo.Context) error {
	c.Response().Header().Set(echo.HeaderCacheControl, "no-store")
	return c.JSON(http.StatusOK, struct {
		stamp
		State string `json:"state"`
	}{now(), "up"})
}

func (a *api) state(c echo.Context) error {
	state, err := a.Auth.State(c.Request().Context())
	if err != nil {
		return err
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		SetUp bool   `json:"set_up"`
		Shop  string `json:"shop,omitempty"`
	}{now(), state.SetUp, state.Shop})
}

// foundingMessage is the answers of set-up.
type foundingMessage struct {
	phoneMessage
	Token      string `json:"token"`
	Shop       string `json:"shop"`
	Telephone  string `json:"telephone"`
	Name       string `json:"name"`
	Role       string `json:"role"`
	Passphrase string `json:"passphrase"`
}

func (m foundingMessage) founding() auth.Founding {
	return auth.Founding{
		Token:      m.Token,
		Shop:       m.Shop,
		Telephone:  m.Telephone,
		Name:       m.Name,
		Role:       m.Role,
		Passphrase: m.Passphrase,
	}
}

// checkSetUp looks at the answers so far: 204, or what is wrong and in which
// field.
func (a *api) checkSetUp(c echo.Context) error {
	m, err := read[foundingMessage](c)
	if err != nil {
		return err
	}
	if err := a.Auth.CheckFounding(c.Request().Context(), m.founding()); err != nil {
		return err
	}
	return c.NoContent(http.StatusNoContent)
}

func (a *api) setUp(c echo.Context) error {
	m, err := read[foundingMessage](c)
	if err != nil {
		return err
	}
	session, err := a.Auth.SetUp(c.Request().Context(), c.RealIP(), m.founding(), m.phone())
	return a.letIn(c, session, err)
}

func (a *api) signIn(c echo.Context) error {
	m, err := read[struct {
		phoneMessage
		Name       string `json:"name"`
		Passphrase string `json:"passphrase"`
	}](c)
	if err != nil {
		return err
	}
	session, err := a.Auth.SignIn(c.Request().Context(), c.RealIP(), m.Name, m.Passphrase, m.phone())
	return a.letIn(c, session, err)
}

func (a *api) claim(c echo.Context) error {
	m, err := read[struct {
		phoneMessage
		Code string `json:"code"`
	}](c)
	if err != nil {
		return err
	}
	session, err := a.Auth.Claim(c.Request().Context(), c.RealIP(), m.Code, m.phone())
	return a.letIn(c, session, err)
}

func (a *api) refresh(c echo.Context) error {
	m, err := read[struct {
		Nonce  string `json:"nonce"`
		Before string `json:"before"`
	}](c)
	if err != nil {
		return err
	}
	session, err := a.Auth.Refresh(c.Request().Context(), refreshCookie(c), m.Nonce, m.Before)
	if err != nil {
		return err
	}
	return a.answer(c, session)
}

func (a *api) signOut(c echo.Context) error {
	if err := a.Auth.SignOut(c.Request().Context(), refreshCookie(c)); err != nil {
		return err
	}
	dropRefreshCookie(c)
	return c.NoContent(http.StatusNoContent)
}

// letIn answers a new sign-in. Whoever was signed in on this browser before
// is signed out by it: the browser has one cookie.
func (a *api) letIn(c echo.Context, session auth.Session, err error) error {
	if err != nil {
		return err
	}
	if err := a.Auth.SignOut(c.Request().Context(), refreshCookie(c)); err != nil {
		return err
	}
	return a.answer(c, session)
}

func (a *api) answer(c echo.Context, session auth.Session) error {
	return c.JSON(http.StatusOK, a.sessionReply(c, session))
}

// sessionReply is the answer to a new sign-in; its cookie is set with it.
func (a *api) sessionReply(c echo.Context, session auth.Session) sessionReply {
	setRefreshCookie(c, session.Refresh, session.RefreshExpires)
	reply := sessionReply{
		stamp:   now(),
		Access:  session.Access,
		Expires: session.AccessExpires.UnixMilli(),
		Account: accountReply{session.Account.ID, session.Account.Name, session.Account.Role},
		Shop:    session.Shop.Name,
		Phone:   session.Shop.Telephone,
		Device:  session.Device,
	}
	if session.Account.Host {
		reply.Data = a.DataFile
	}
	return reply
}
