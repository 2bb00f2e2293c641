package api

import (
	"net/http"
	"time"

	"github.com/labstack/echo/v4"

	"linkrod/server/auth"
	"linkrod/server/people"
	"linkrod/sync"
)

// invite makes a link by which one person joins a book. It carries the secret
// after the #, which browsers don't send, and is shown once.
func (a *api) invite(c echo.Context) error {
	book, err := bookOf(c)
	if err != nil {
		return err
	}
	m, err := read[people.Change](c)
	if err != nil {
		return err
	}
	secret, inv, err := a.Auth.Invite(c.Request().Context(), caller(c), book, m.Role, m.Signs)
	if err != nil {
		return err
	}
	link := a.origin(c) + "/join#" + secret
	picture, here := "", onlyHere(link)
	if here == "" {
		if picture, err = qrSVG(link); err != nil {
			return err
		}
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		ID       sync.ID     `json:"id"`
		Role     people.Role `json:"role"`
		Signs    bool        `json:"signs"`
		Link     string      `json:"link"`
		Expires  int64       `json:"expires_ms"`
		QR       string      `json:"qr_svg"`
		OnlyHere string      `json:"only_here,omitempty"` // why no other phone can open the link
	}{now(), inv.ID, inv.Role, inv.Signs, link, inv.Expires, picture, here})
}

// invitations lists those nobody has used yet. Their links are not kept.
func (a *api) invitations(c echo.Context) error {
	book, err := bookOf(c)
	if err != nil {
		return err
	}
	list, err := a.Ledger.Invitations(c.Request().Context(), book, caller(c).Account.ID, time.Now().UnixMilli())
	if err != nil {
		return err
	}
	type invitation struct {
		ID      sync.ID     `json:"id"`
		Role    people.Role `json:"role"`
		Signs   bool        `json:"signs"`
		By      sync.ID     `json:"by"`
		Created int64       `json:"created"`
		Expires int64       `json:"expires"`
	}
	open := []invitation{}
	for _, i := range list {
		open = append(open, invitation{i.ID, i.Role, i.Signs, i.By, i.Created, i.Expires})
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		Invitations []invitation `json:"invitations"`
	}{now(), open})
}

func (a *api) withdrawInvitation(c echo.Context) error {
	book, err := bookOf(c)
	if err != nil {
		return err
	}
	id, err := sync.ParseID(c.Param("id"))
	if err != nil {
		id = sync.ID{}
	}
	if err := a.Ledger.DropInvitation(c.Request().Context(), book, caller(c).Account.ID, id, time.Now().UnixMilli()); err != nil {
		return err
	}
	return c.NoContent(http.StatusNoContent)
}

// lookAtInvitation says what a link invites to, before anybody joins. Of the
// book it tells nothing: what it is called stands in its entries.
func (a *api) lookAtInvitation(c echo.Context) error {
	m, err := read[struct {
		Secret string `json:"secret"`
	}](c)
	if err != nil {
		return err
	}
	in, err := a.Auth.LookAt(c.Request().Context(), c.RealIP(), m.Secret)
	if err != nil {
		return err
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		Shop    string      `json:"shop"`
		By      string      `json:"by"`
		Of      people.Of   `json:"of"`
		Role    people.Role `json:"role"`
		Signs   bool        `json:"signs"`
		Expires int64       `json:"expires_ms"`
	}{now(), in.Shop, in.Name, in.Of, in.Role, in.Signs, in.Expires})
}

// joined is what somebody became by an invitation.
type joined struct {
	Book  sync.ID     `json:"book"`
	Of    people.Of   `json:"of"`
	Role  people.Role `json:"role"`
	Signs bool        `json:"signs"`
}

// claimInvitation joins by a link: as the account that is signed in, or as a
// new one that is made.
func (a *api) claimInvitation(c echo.Context) error {
	m, err := read[struct {
		phoneMessage
		Secret     string `json:"secret"`
		Name       string `json:"name"`
		Role       string `json:"role"`
		Passphrase string `json:"passphrase"`
	}](c)
	if err != nil {
		return err
	}
	ctx := c.Request().Context()
	if token := bearer(c); token != "" {
		who, err := a.Auth.Check(ctx, token)
		if err != nil {
			return err
		}
		c.Set(callerKey, who)
		in, err := a.Auth.Join(ctx, c.RealIP(), m.Secret, who)
		if err != nil {
			return err
		}
		return c.JSON(http.StatusOK, struct {
			stamp
			joined
		}{now(), joined{in.Book, in.Of, in.Role, in.Signs}})
	}
	session, in, err := a.Auth.JoinNew(ctx, c.RealIP(), m.Secret, auth.Joining{Name: m.Name, Role: m.Role, Passphrase: m.Passphrase}, m.phone())
	if err != nil {
		return err
	}
	if err := a.Auth.SignOut(ctx, refreshCookie(c)); err != nil {
		return err
	}
	reply := a.sessionReply(c, session)
	reply.Book = in.Book.String()
	return c.JSON(http.StatusOK, reply)
}
