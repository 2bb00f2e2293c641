package api

import (
	"bytes"
	"compress/gzip"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"strings"
	"time"

	"github.com/labstack/echo/v4"

	"linkrod/server/people"
	"linkrod/sync"
)

// salvage takes back from a phone what a server that was put back has lost.
func (a *api) salvage(c echo.Context) error {
	book, err := bookOf(c)
	if err != nil {
		return err
	}
	ctx, who := c.Request().Context(), caller(c).Account.ID
	if _, err := a.Ledger.Member(ctx, book, who); err != nil {
		return err // before three megabytes are read
	}
	data, err := whole(c, sync.MaxSalvageBytes)
	if err != nil {
		return err
	}
	s, err := sync.DecodeSalvage(data, book)
	if err != nil {
		return told(err)
	}
	results, head, err := a.Ledger.Salvage(ctx, book, who, s, a.Witness.Signed(s.Receipt, book), time.Now().UnixMilli())
	if err != nil {
		return err
	}
	if results == nil {
		results = []sync.SalvageResult{}
	}
	return c.JSON(http.StatusOK, struct {
		stamp
		Results []sync.SalvageResult `json:"results"`
		headReply
	}{now(), results, a.standing(book, head)})
}

// snapshot is the whole ledger in short form, to start a new phone from. It is
// put together from pages and lies in memory while it is sent: however slow
// the reader is, the data file waits for nobody.
func (a *api) snapshot(c echo.Context) error {
	book, err := bookOf(c)
	if err != nil {
		return err
	}
	ctx := c.Request().Context()
	select { // a few at a time: each holds one book in memory
	case a.builds <- struct{}{}:
	case <-ctx.Done():
		return ctx.Err()
	}
	data, err := a.build(ctx, book, caller(c).Account.ID)
	if err != nil {
		return err
	}
	h := c.Response().Header()
	h.Set(echo.HeaderVary, echo.HeaderAcceptEncoding)
	h.Set(echo.HeaderContentType, echo.MIMEApplicationJSON)
	if strings.Contains(c.Request().Header.Get(echo.HeaderAcceptEncoding), "gzip") {
		h.Set(echo.HeaderContentEncoding, "gzip")
		data = gzipped(data)
	}
	c.Response().WriteHeader(http.StatusOK)
	_, err = c.Response().Write(data)
	return err
}

func gzipped(data []byte) []byte {
	var b bytes.Buffer
	w := gzip.NewWriter(&b) // into memory, where nothing fails
	w.Write(data)
	w.Close()
	return b.Bytes()
}

// build gives its place back, whatever happens.
func (a *api) build(ctx context.Context, book, who sync.ID) ([]byte, error) {
	defer func() { <-a.builds }()
	var records []sync.Record
	err := a.pages(ctx, book, who, func(page []sync.Record) error {
		records = append(records, page...)
		return nil
	})
	if err != nil {
		return nil, err
	}
	at := time.Now().UnixMilli()
	var receipts []sync.Receipt
	for _, end := range sync.PageEnds(records) {
		receipts = append(receipts, *a.Witness.Sign(book, end, at))
	}
	return sync.EncodeSnapshot(book, records, receipts, at), nil
}

// export is everything of one book in one file that can be checked without a
// server: the entries with their hashes, the ledger with its chain, and the
// receipt of its end. It is the file a phone saves ([sync.File]) with a few
// fields more, so phones and the import command take it.
func (a *api) export(c echo.Context) error {
	book, err := bookOf(c)
	if err != nil {
		return err
	}
	ctx, who := c.Request().Context(), caller(c).Account.ID
	in, err := a.Ledger.Member(ctx, book, who)
	if err != nil {
		return err
	}
	h := c.Response().Header()
	h.Set(echo.HeaderContentType, echo.MIMEApplicationJSON)
	h.Set(echo.HeaderContentDisposition, fmt.Sprintf(`attachment; filename="linkrod-%v.json"`, book))
	c.Response().WriteHeader(http.StatusOK)
	w := c.Response()
	fmt.Fprintf(w, `{"linkrod":"everything","version":1,"books":[{"book":"%v","entries":[`, book)
	var head sync.Head
	err = a.pages(ctx, book, who, func(page []sync.Record) error {
		for _, r := range page {
			if head.Seq > 0 {
				io.WriteString(w, ",\n")
			}
			text, err := json.Marshal(r)
			if err != nil {
				return err
			}
			if _, err := w.Write(text); err != nil {
				return err
			}
			head = sync.Head{Seq: r.Seq, Chain: r.Chain}
		}
		return nil
	})
	if err != nil {
		panic(http.ErrAbortHandler) // so that the other end sees a file cut off, not a short one
	}
	end, err := json.Marshal(struct {
		Of people.Of `json:"of"`
		headReply
	}{in.Of, a.standing(book, head)})
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(w, `],"ledger":%s}]}`, end)
	return err
}

// pages calls fn with all records of a book from the first on, a page at a
// time, up to where the ledger stood when it began.
func (a *api) pages(ctx context.Context, book, who sync.ID, fn func([]sync.Record) error) error {
	var at, end sync.Head
	for first := true; first || at.Seq < end.Seq; first = false {
		page, head, err := a.Ledger.Read(ctx, book, who, at, pullLimit)
		if err != nil {
			return err
		}
		if first {
			end = head
		}
		for i, r := range page {
			if r.Seq > end.Seq {
				page = page[:i]
				break
			}
		}
		if len(page) == 0 {
			return nil
		}
		if err := fn(page); err != nil {
			return err
		}
		last := page[len(page)-1]
		at = sync.Head{Seq: last.Seq, Chain: last.Chain}
	}
	return nil
}
