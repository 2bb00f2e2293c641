package api

import (
	"errors"
	"fmt"
	"io"
	"net/http"
	"strconv"
	"strings"
	"time"

	"github.com/labstack/echo/v4"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/server/photo"
	"linkrod/sync"
	"linkrod/sync/plain"
)

// pullLimit is how many records one answer holds at most.
const pullLimit = 1000

// The forms of an entry's body that phones may send here. The server reads
// none, so this tells phones what the others can.
const minSchema, maxSchema = 0, 1

// hello tells a phone that came back into signal what there is: its account,
// its devices, every book with where its ledger stands, what a push may hold,
// and whether the server was put back from a backup.
func (a *api) hello(c echo.Context) error {
	type book struct {
		Book    sync.ID       `json:"book"`
		Of      people.Of     `json:"of"`
		Role    people.Role   `json:"role"`
		Signs   bool          `json:"signs"`
		Head    uint64        `json:"head"`
		Chain   sync.Hash     `json:"chain"`
		Receipt *sync.Receipt `json:"receipt,omitempty"`
	}
	type account struct {
		accountReply
		Host bool `json:"host"`
	}
	type limits struct {
		BatchEntries int `json:"batch_entries"`
		BatchBytes   int `json:"batch_bytes"` // of the whole message
		EntryBytes   int `json:"entry_bytes"` // of one body, before base64
		PhotoBytes   int `json:"photo_bytes"`
		PhotoChunk   int `json:"photo_chunk"` // of one PATCH
	}
	reply := struct {
		stamp
		Account   account       `json:"account"`
		Devices   []deviceReply `json:"devices"`
		Books     []book        `json:"books"`
		Limits    limits        `json:"limits"`
		MinSchema int           `json:"min_schema"` // of the entries this server takes
		MaxSchema int           `json:"max_schema"`
		Restored  int64         `json:"restored,omitempty"` // when the data was last put back from a backup
	}{
		stamp:     now(),
		Devices:   []deviceReply{},
		Books:     []book{},
		Limits:    limits{sync.MaxBatchEntries, sync.MaxBatchBytes, sync.MaxBody, photo.MaxBytes, photoChunk},
		MinSchema: minSchema,
		MaxSchema: maxSchema,
	}
	ctx, who := c.Request().Context(), caller(c).Account
	reply.Account = account{accountReply{ID: who.ID, Name: who.Name, Role: who.Role}, who.Host}
	var err error
	if reply.Devices, err = a.devicesOf(ctx, who.ID); err != nil {
		return err
	}
	books, err := a.Ledger.Books(ctx, who.ID)
	if err != nil {
		return err
	}
	for _, b := range books {
		reply.Books = append(reply.Books, book{b.Book, b.Of, b.Role, b.Signs, b.Head.Seq, b.Head.Chain, a.Witness.Sign(b.Book, b.Head, reply.Now)})
	}
	if reply.Restored, err = a.Ledger.Restored(ctx); err != nil {
		return err
	}
	return c.JSON(http.StatusOK, reply)
}

// openBook lets a phone's own book join its account. Asking twice is fine.
func (a *api) openBook(c echo.Context) error {
	book, err := bookOf(c)
	if err != nil {
		return err
	}
	m, err := read[struct {
		Of people.Of `json:"of"`
	}](c)
	if err != nil {
		return err
	}
	if m.Of == "" {
		m.Of = people.Engine
	}
	if !m.Of.Known() {
		return fault.At("of", "A book is of an engine or of a shelf. This server is older than the phone and knows no other kind.")
	}
	in, err := a.Ledger.OpenBook(c.Request().Context(), book, caller(c).Account.ID, m.Of, time.Now().UnixMilli())
	if err != nil {
		return err
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		Role  people.Role `json:"role"`
		Signs bool        `json:"signs"`
		Of    people.Of   `json:"of"`
		headReply
	}{now(), in.Role, in.Signs, in.Of, a.standing(book, in.Head)})
}

// push takes a batch of one device. What became of each entry is in the
// results; the status is 200 as soon as the batch could be read, and the
// answer goes out only when everything is on disk.
func (a *api) push(c echo.Context) error {
	book, err := bookOf(c)
	if err != nil {
		return err
	}
	data, err := whole(c, sync.MaxBatchBytes)
	if err != nil {
		return err
	}
	push, err := sync.DecodePush(data, book)
	if err != nil {
		return told(err)
	}
	results, head, err := a.Ledger.Append(c.Request().Context(), book, caller(c).Account.ID, push, time.Now().UnixMilli(), Readable)
	if err != nil {
		return err
	}
	if results == nil {
		results = []sync.Result{}
	}
	reply := struct {
		stamp
		Results []sync.Result `json:"results"`
		*headReply
	}{now(), results, nil}
	if head.Seq > 0 { // whoever left the book is not told how it goes on
		at := a.standing(book, head)
		reply.headReply = &at
	}
	return c.JSON(http.StatusOK, reply)
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
	last := after
	if n := len(records); n > 0 {
		last = sync.Head{Seq: records[n-1].Seq, Chain: records[n-1].Chain}
	} else {
		records = []sync.Record{}
	}
	reply := struct {
		stamp
		Records []sync.Record `json:"records"`
		headReply
		More bool `json:"more"`
	}{now(), records, a.standing(book, head), last.Seq < head.Seq}
	reply.Receipt = a.Witness.Sign(book, last, reply.Now) // of the page: each can be proved by itself
	return c.JSON(http.StatusOK, reply)
}

// head is where a ledger stands, signed.
func (a *api) head(c echo.Context) error {
	book, err := bookOf(c)
	if err != nil {
		return err
	}
	in, err := a.Ledger.Member(c.Request().Context(), book, caller(c).Account.ID)
	if err != nil {
		return err
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		headReply
	}{now(), a.standing(book, in.Head)})
}

// headReply is where a ledger stands. Its receipt proves later that it did.
type headReply struct {
	Head    uint64        `json:"head"`
	Chain   sync.Hash     `json:"chain"`
	Receipt *sync.Receipt `json:"receipt,omitempty"` // none for an empty ledger
}

func (a *api) standing(book sync.ID, head sync.Head) headReply {
	return headReply{head.Seq, head.Chain, a.Witness.Sign(book, head, time.Now().UnixMilli())}
}

// chainLimit is how many positions one question may be about.
const chainLimit = 64

// chain tells the chain at some positions, by which a phone finds the last one
// it shares with a server that was put back. Positions the ledger hasn't
// reached are left out.
func (a *api) chain(c echo.Context) error {
	book, err := bookOf(c)
	if err != nil {
		return err
	}
	at, err := positions(c.QueryParam("at"))
	if err != nil {
		return err
	}
	heads, err := a.Ledger.ChainAt(c.Request().Context(), book, caller(c).Account.ID, at)
	if err != nil {
		return err
	}
	if heads == nil {
		heads = []sync.Head{}
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		At []sync.Head `json:"at"`
	}{now(), heads})
}

// positions reads a list of numbers of records.
func positions(text string) (at []uint64, err error) {
	bad := fmt.Sprintf("“at” must be up to %d numbers of records, separated by commas.", chainLimit)
	for n := range strings.SplitSeq(text, ",") {
		seq, err := strconv.ParseUint(n, 10, 64)
		if err != nil || seq > sync.MaxNumber || len(at) == chainLimit {
			return nil, fault.Wrap(fault.Invalid, bad, err)
		}
		at = append(at, seq)
	}
	return at, nil
}

// whole reads a body of at most limit bytes; longer ones come out longer than
// that, which is enough to see it.
func whole(c echo.Context, limit int64) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(c.Request().Body, limit+1))
	if err != nil {
		return nil, fault.Wrap(fault.Invalid, "The batch was cut short on its way. Nothing of it was taken; send it again.", err)
	}
	return data, nil
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
	return idOf(c, "book", fault.New(fault.NotFound, "There is no such book here, or it isn't shared with you."))
}

// Readable sets aside a body that no version of Linkrod can read: one that is
// no JSON object with a type. Everything else goes into the ledger, also
// types this version does not know and values it would not accept: an old or
// a newer phone must be able to deliver what it holds, and the book says at
// the line what it can't make of it. A card is looked at as well (soundCard):
// people copy numbers off it.
func Readable(e sync.Entry) *sync.Fault {
	body, err := plain.Parse(e.Body) // as phones read it: one name twice, or "TYPE" for "type", is not the same to others
	if err != nil || body.Get("type").Text() == "" {
		return &sync.Fault{Code: sync.CodeBody, Words: "This entry can't be read by any version of Linkrod, so it was not taken into the book. It is kept as it came; write it anew."}
	}
	if body.Get("type").Text() == "card" {
		return soundCard(e, body)
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
