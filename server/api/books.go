package api

import (
	"context"
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"strconv"
	"time"

	"github.com/labstack/echo/v4"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/sync"
)

// Ledger is what the books need kept. Every method reads the caller's rights
// in the transaction that uses them; a book that isn't the caller's is
// NotFound, as if it did not exist. Busy means that nothing was taken.
type Ledger interface {
	// OpenBook makes a book of the account's own, or finds their role in it.
	OpenBook(ctx context.Context, book, account sync.ID, now int64) (people.Role, error)
	// Role is what the account may do in a book.
	Role(ctx context.Context, book, account sync.ID) (people.Role, error)
	// Books lists what the account belongs to.
	Books(ctx context.Context, account sync.ID) ([]people.Membership, error)
	// Devices lists the account's devices.
	Devices(ctx context.Context, account sync.ID) ([]people.Device, error)
	// Append takes one batch of one device, whole or not at all, and returns
	// only when it is on disk. Refused when the device is another account's or
	// was removed.
	Append(ctx context.Context, book, account sync.ID, push sync.Push, received int64, check func(sync.Entry) *sync.Fault) ([]sync.Result, sync.Head, error)
	// Read returns at most limit records after a position, and where the
	// ledger stands; Rewound when it never passed through that position.
	Read(ctx context.Context, book, account sync.ID, after sync.Head, limit int) ([]sync.Record, sync.Head, error)
}

// pullLimit is how many records one answer holds at most.
const pullLimit = 1000

// hello tells a phone that came back into signal what there is: its account,
// its devices, every book with where its ledger stands, and the limits of a
// push.
func (a *api) hello(c echo.Context) error {
	type device struct {
		ID      sync.ID `json:"id"`
		Label   string  `json:"label"`
		Created int64   `json:"created"`
		Revoked int64   `json:"revoked,omitempty"`
	}
	type book struct {
		Book  sync.ID     `json:"book"`
		Role  people.Role `json:"role"`
		Head  uint64      `json:"head"`
		Chain sync.Hash   `json:"chain"`
	}
	type limits struct {
		BatchEntries int `json:"batch_entries"`
		BatchBytes   int `json:"batch_bytes"` // of the whole message
		EntryBytes   int `json:"entry_bytes"` // of one body, before base64
	}
	reply := struct {
		stamp
		Account accountReply `json:"account"`
		Devices []device     `json:"devices"`
		Books   []book       `json:"books"`
		Limits  limits       `json:"limits"`
	}{
		stamp:   now(),
		Devices: []device{},
		Books:   []book{},
		Limits:  limits{sync.MaxBatchEntries, sync.MaxBatchBytes, sync.MaxBody},
	}
	ctx, who := c.Request().Context(), caller(c).Account
	reply.Account = accountReply{ID: who.ID, Name: who.Name, Role: who.Role}
	devices, err := a.Ledger.Devices(ctx, who.ID)
	if err != nil {
		return err
	}
	for _, d := range devices {
		reply.Devices = append(reply.Devices, device{d.ID, d.Label, d.Created, d.Revoked})
	}
	books, err := a.Ledger.Books(ctx, who.ID)
	if err != nil {
		return err
	}
	for _, b := range books {
		reply.Books = append(reply.Books, book{b.Book, b.Role, b.Head.Seq, b.Head.Chain})
	}
	return c.JSON(http.StatusOK, reply)
}

// openBook lets a phone's own book join its account. Asking twice is fine.
func (a *api) openBook(c echo.Context) error {
	book, err := bookOf(c)
	if err != nil {
		return err
	}
	role, err := a.Ledger.OpenBook(c.Request().Context(), book, caller(c).Account.ID, time.Now().UnixMilli())
	if err != nil {
		return err
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		Role people.Role `json:"role"`
	}{now(), role})
}

// push takes a batch of one device. What became of each entry is in the
// results; the status is 200 as soon as the batch could be read, and the
// answer goes out only when everything is on disk.
func (a *api) push(c echo.Context) error {
	book, err := bookOf(c)
	if err != nil {
		return err
	}
	// One byte more than allowed is enough to see that it is too long.
	data, err := io.ReadAll(io.LimitReader(c.Request().Body, sync.MaxBatchBytes+1))
	if err != nil {
		return fault.Wrap(fault.Invalid, "The batch was cut short on its way. Nothing of it was taken; send it again.", err)
	}
	push, err := sync.DecodePush(data, book)
	if err != nil {
		return told(err)
	}
	results, head, err := a.Ledger.Append(c.Request().Context(), book, caller(c).Account.ID, push, time.Now().UnixMilli(), Readable)
	if err != nil {
		return err
	}
	a.nudges.tell(book, head.Seq)
	if results == nil {
		results = []sync.Result{}
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		Results []sync.Result `json:"results"`
		Head    uint64        `json:"head"`
		Chain   sync.Hash     `json:"chain"`
	}{now(), results, head.Seq, head.Chain})
}

// pull hands out the ledger after a position the phone has, which it names
// with the chain there: a server that was put back is found out by that.
func (a *api) pull(c echo.Context) error {
	book, err := bookOf(c)
	if err != nil {
		return err
	}
	after, limit, err := position(c)
	if err != nil {
		return err
	}
	records, head, err := a.Ledger.Read(c.Request().Context(), book, caller(c).Account.ID, after, limit)
	if err != nil {
		return err
	}
	last := after.Seq
	if n := len(records); n > 0 {
		last = records[n-1].Seq
	} else {
		records = []sync.Record{}
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		Records []sync.Record `json:"records"`
		Head    uint64        `json:"head"`
		Chain   sync.Hash     `json:"chain"`
		More    bool          `json:"more"`
	}{now(), records, head.Seq, head.Chain, last < head.Seq})
}

// position reads ?after=, &chain= and &limit=. Without after it is the
// beginning, without limit as many as there may be.
func position(c echo.Context) (after sync.Head, limit int, err error) {
	limit = pullLimit
	if text := c.QueryParam("after"); text != "" {
		if after.Seq, err = strconv.ParseUint(text, 10, 64); err != nil || after.Seq > sync.MaxNumber {
			return after, 0, fault.Wrap(fault.Invalid, "“after” must be the number of the last record the phone has.", err)
		}
	}
	if text := c.QueryParam("chain"); text != "" || after.Seq > 0 {
		if after.Chain, err = sync.ParseHash(text); err != nil {
			return after, 0, fault.Wrap(fault.Invalid, "“chain” must be the chain of the last record the phone has, 64 hex digits.", err)
		}
	}
	if text := c.QueryParam("limit"); text != "" {
		n, err := strconv.Atoi(text)
		if err != nil || n < 1 {
			return after, 0, fault.Wrap(fault.Invalid, "“limit” must be a number of records, 1 or more.", err)
		}
		limit = min(n, pullLimit)
	}
	return after, limit, nil
}

// bookOf is the book an address names. One that isn't an id names no book.
func bookOf(c echo.Context) (sync.ID, error) {
	book, err := sync.ParseID(c.Param("book"))
	if err != nil || book.IsZero() {
		return sync.ID{}, fault.Wrap(fault.NotFound, "There is no such book here, or it isn't shared with you.", err)
	}
	return book, nil
}

// Readable sets aside a body that no version of Linkrod can read: one that is
// no JSON object with a type. Everything else goes into the ledger, also
// types this version does not know and values it would not accept: an old or
// a newer phone must be able to deliver what it holds, and the book says at
// the line what it can't make of it.
func Readable(e sync.Entry) *sync.Fault {
	var body struct {
		Type string `json:"type"`
	}
	if err := json.Unmarshal(e.Body, &body); err != nil || body.Type == "" {
		return &sync.Fault{Code: sync.CodeBody, Words: "This entry can't be read by any version of Linkrod, so it was not taken into the book. It is kept as it came; write it anew."}
	}
	return nil
}

// told makes what package sync says of a message a fault of the server's.
func told(err error) error {
	var f *sync.Fault
	if !errors.As(err, &f) {
		return err
	}
	if f.Code == sync.CodeSize {
		return fault.New(fault.TooLarge, f.Words)
	}
	return fault.New(fault.Invalid, f.Words)
}
