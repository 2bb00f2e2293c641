package api

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"time"

	"github.com/labstack/echo/v4"

	"linkrod/sync"
)

// A nudge tells a phone that a book has moved, so that it pulls now instead of
// later. It carries nothing else: a nudge that is lost costs waiting only.
type nudge struct {
	Book sync.ID `json:"book"`
	Head uint64  `json:"head"`
}

const (
	heartbeat    = 25 * time.Second // so that no proxy takes the stream for dead, and to look who is still allowed
	writeTimeout = 10 * time.Second // for one nudge: a phone that went out of signal must not hold on
)

// events is a stream of nudges about the caller's books, each book's position
// first. It ends when the access token or the sign-in does; the phone comes
// back with a new one.
func (a *api) events(c echo.Context) error {
	if err := endless(c); err != nil {
		return err
	}
	ctx, who := c.Request().Context(), caller(c).Account.ID
	moved := a.Ledger.Watch(ctx) // before the books are read, so that nothing falls between
	books, err := a.Ledger.Books(ctx, who)
	if err != nil {
		return err
	}
	h := c.Response().Header()
	h.Set(echo.HeaderContentType, "text/event-stream")
	h.Set("X-Accel-Buffering", "no")
	c.Response().WriteHeader(http.StatusOK)
	for _, b := range books {
		if err := say(c, nudge{b.Book, b.Head.Seq}); err != nil {
			return nil
		}
	}
	if err := breathe(c); err != nil {
		return nil
	}
	beat := time.NewTicker(heartbeat)
	defer beat.Stop()
	for {
		select {
		case <-ctx.Done():
			return nil
		case <-a.Stopping:
			return nil
		case <-beat.C:
			if !a.stillAllowed(ctx, c) || breathe(c) != nil {
				return nil
			}
		case news, open := <-moved:
			if !open {
				return nil
			}
			for book, head := range news {
				if _, err := a.Ledger.Member(ctx, book, who); err != nil {
					continue // not theirs: as if it did not exist
				}
				if err := say(c, nudge{book, head}); err != nil {
					return nil
				}
			}
		}
	}
}

func (a *api) stillAllowed(ctx context.Context, c echo.Context) bool {
	_, err := a.Auth.Check(ctx, bearer(c))
	return err == nil
}

func say(c echo.Context, n nudge) error {
	data, err := json.Marshal(n)
	if err != nil {
		return err
	}
	return emit(c, fmt.Sprintf("data: %s\n\n", data))
}

// breathe sends a comment, which no phone hears.
func breathe(c echo.Context) error { return emit(c, ":\n\n") }

func emit(c echo.Context, text string) error {
	r := http.NewResponseController(c.Response())
	if err := r.SetWriteDeadline(time.Now().Add(writeTimeout)); err != nil {
		return err
	}
	if _, err := c.Response().Write([]byte(text)); err != nil {
		return err
	}
	if err := r.Flush(); err != nil {
		return err
	}
	// Until the next nudge there is nothing to wait for: over HTTP/2 a deadline
	// that passes cuts the stream even while it is silent.
	return r.SetWriteDeadline(time.Time{})
}
