package api

import (
	"net/http"
	"strconv"
	"strings"
	"time"

	"github.com/labstack/echo/v4"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/sync"
)

// aside lists what of a book was set aside, with the reason: the caller's
// own, or everybody's for those who may see that.
func (a *api) aside(c echo.Context) error {
	book, err := bookOf(c)
	if err != nil {
		return err
	}
	list, err := a.Ledger.Asides(c.Request().Context(), book, caller(c).Account.ID)
	if err != nil {
		return err
	}
	type waiting struct {
		Device   sync.ID    `json:"device"`
		N        uint64     `json:"n"`
		Hash     sync.Hash  `json:"hash"`
		State    sync.State `json:"state"`
		Code     string     `json:"code"`
		Words    string     `json:"words"`
		Received int64      `json:"received"`
		Account  sync.ID    `json:"account"`
		Author   string     `json:"author"`
		By       sync.ID    `json:"by"` // who handed it in
		ByName   string     `json:"by_name"`
		Proven   bool       `json:"proven"` // false: the account is only claimed
		Raw      []byte     `json:"raw"`    // the bytes as they came
	}
	all := []waiting{}
	for _, w := range list {
		all = append(all, waiting{w.Device, w.N, w.Hash, w.State, w.Fault.Code, w.Fault.Words, w.Received, w.Account, w.Author, w.By, w.ByName, w.Proven, w.Raw})
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		Aside []waiting `json:"aside"`
	}{now(), all})
}

// waiting lists the books that something waits beside, for the host, who need
// not belong to them.
func (a *api) waiting(c echo.Context) error {
	list, err := a.Ledger.Waiting(c.Request().Context(), caller(c).Account.ID)
	if err != nil {
		return err
	}
	if list == nil {
		list = []people.Waiting{}
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		Books []people.Waiting `json:"books"`
	}{now(), list})
}

// admit takes an entry that was set aside into the ledger, for a reason.
func (a *api) admit(c echo.Context) error {
	book, err := bookOf(c)
	if err != nil {
		return err
	}
	m, err := read[struct {
		Reason string    `json:"reason"`
		Hash   sync.Hash `json:"hash"`
	}](c)
	if err != nil {
		return err
	}
	reason := strings.TrimSpace(m.Reason)
	if reason == "" || len(reason) > 1000 {
		return fault.At("reason", "Say in a sentence why this entry is admitted; it stays in the journal.")
	}
	nothing := fault.New(fault.NotFound, "Nothing waits under that number.")
	device, err := idOf(c, "device", nothing)
	if err != nil {
		return err
	}
	n, err := strconv.ParseUint(c.Param("n"), 10, 64)
	if err != nil {
		return nothing
	}
	seq, err := a.Ledger.Admit(c.Request().Context(), book, caller(c).Account.ID, device, n, m.Hash, reason, time.Now().UnixMilli())
	if err != nil {
		return err
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		Seq uint64 `json:"seq"`
	}{now(), seq})
}
