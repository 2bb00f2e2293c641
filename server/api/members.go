package api

import (
	"net/http"
	"time"

	"github.com/labstack/echo/v4"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/sync"
)

// members lists who belongs to a book.
func (a *api) members(c echo.Context) error {
	book, err := bookOf(c)
	if err != nil {
		return err
	}
	list, err := a.Ledger.Members(c.Request().Context(), book, caller(c).Account.ID)
	if err != nil {
		return err
	}
	type member struct {
		people.Member
		You bool `json:"you,omitempty"`
	}
	members := []member{}
	for _, m := range list {
		members = append(members, member{m, m.Account == caller(c).Account.ID})
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		Members []member `json:"members"`
	}{now(), members})
}

// changeMember gives a member another role, or takes or gives the right to
// sign.
func (a *api) changeMember(c echo.Context) error {
	book, account, err := memberOf(c)
	if err != nil {
		return err
	}
	change, err := read[people.Change](c)
	if err != nil {
		return err
	}
	m, err := a.Ledger.SetMember(c.Request().Context(), book, caller(c).Account.ID, account, change, time.Now().UnixMilli())
	if err != nil {
		return err
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		people.Member
	}{now(), m})
}

func (a *api) removeMember(c echo.Context) error {
	book, account, err := memberOf(c)
	if err != nil {
		return err
	}
	if err := a.Ledger.RemoveMember(c.Request().Context(), book, caller(c).Account.ID, account, time.Now().UnixMilli()); err != nil {
		return err
	}
	return c.NoContent(http.StatusNoContent)
}

// memberOf is the book and the account a path names.
func memberOf(c echo.Context) (book, account sync.ID, err error) {
	if book, err = bookOf(c); err != nil {
		return book, account, err
	}
	account, err = sync.ParseID(c.Param("account"))
	if err != nil {
		account = sync.ID{} // nobody's; what the caller may know of the book is said first
	}
	return book, account, nil
}

// people lists all accounts, for the host.
func (a *api) people(c echo.Context) error {
	list, err := a.Ledger.People(c.Request().Context(), caller(c).Account.ID)
	if err != nil {
		return err
	}
	type account struct {
		accountReply
		Host    bool  `json:"host,omitempty"`
		Created int64 `json:"created"`
		Removed int64 `json:"removed,omitempty"`
	}
	accounts := []account{}
	for _, p := range list {
		accounts = append(accounts, account{accountReply{p.ID, p.Name, p.Role}, p.Host, p.Created, p.Removed})
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		People []account `json:"people"`
	}{now(), accounts})
}

func (a *api) removeAccount(c echo.Context) error {
	account, err := sync.ParseID(c.Param("account"))
	if err != nil {
		account = sync.ID{}
	}
	if err := a.Ledger.RemoveAccount(c.Request().Context(), caller(c).Account.ID, account, time.Now().UnixMilli()); err != nil {
		return err
	}
	return c.NoContent(http.StatusNoContent)
}

// journalLimit is how many lines one answer holds.
const journalLimit = 200

// adminJournal is the log of sign-ins and administration, newest first.
func (a *api) adminJournal(c echo.Context) error {
	var before uint64
	if text := c.QueryParam("before"); text != "" {
		at, err := positions(text)
		if err != nil || len(at) != 1 {
			return fault.Wrap(fault.Invalid, "“before” must be the number of a line.", err)
		}
		before = at[0]
	}
	lines, err := a.Ledger.Journal(c.Request().Context(), caller(c).Account.ID, before, journalLimit)
	if err != nil {
		return err
	}
	if lines == nil {
		lines = []people.Line{}
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		Lines []people.Line `json:"lines"`
	}{now(), lines})
}
