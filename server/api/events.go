package api

import (
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"net/http"
	stdsync "sync"
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
	ear := a.nudges.listen() // before the books are read, so that nothing falls between
	defer a.nudges.leave(ear)
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
		case <-ear.wake:
			for book, head := range ear.take() {
				if _, err := a.Ledger.Role(ctx, book, who); err != nil {
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

// nudges passes news of books on to whoever listens in this process.
type nudges struct {
	mu   stdsync.Mutex
	ears map[*ear]struct{}
}

// ear is one listener. News waits in moved, the latest of each book only, so a
// slow phone costs no memory and holds nobody up.
type ear struct {
	mu    stdsync.Mutex
	moved map[sync.ID]uint64
	wake  chan struct{}
}

func newNudges() *nudges { return &nudges{ears: make(map[*ear]struct{})} }

func (n *nudges) listen() *ear {
	e := &ear{moved: make(map[sync.ID]uint64), wake: make(chan struct{}, 1)}
	n.mu.Lock()
	defer n.mu.Unlock()
	n.ears[e] = struct{}{}
	return e
}

func (n *nudges) leave(e *ear) {
	n.mu.Lock()
	defer n.mu.Unlock()
	delete(n.ears, e)
}

// tell never waits.
func (n *nudges) tell(book sync.ID, head uint64) {
	n.mu.Lock()
	defer n.mu.Unlock()
	for e := range n.ears {
		e.hear(book, head)
	}
}

func (e *ear) hear(book sync.ID, head uint64) {
	e.mu.Lock()
	e.moved[book] = max(e.moved[book], head)
	e.mu.Unlock()
	select {
	case e.wake <- struct{}{}:
	default: // awake already
	}
}

// take hands over what has come since the last time.
func (e *ear) take() map[sync.ID]uint64 {
	e.mu.Lock()
	defer e.mu.Unlock()
	news := maps.Clone(e.moved)
	clear(e.moved)
	return news
}
