package api_test

import (
	"context"
	"errors"
	"net/http"
	"strings"
	stdsync "sync"
	"testing"
	"testing/synctest"
	"time"

	"linkrod/server/people"
	"linkrod/server/store"
	"linkrod/server/store/storetest"
	"linkrod/sync"
)

// line is the client's end of a stream: what came so far, and whether the
// server has hung up.
type line struct {
	mu     stdsync.Mutex
	header http.Header
	status int
	text   strings.Builder
	closed bool
	broken error

	deadline time.Time
}

func (l *line) Header() http.Header { return l.header }

func (l *line) WriteHeader(status int) { l.status = status }

func (l *line) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.broken != nil {
		return 0, l.broken
	}
	if left := time.Until(l.deadline); left <= 0 || left > time.Minute {
		return 0, errors.New("written without a deadline")
	}
	return l.text.Write(p)
}

func (l *line) FlushError() error               { return nil }
func (l *line) SetReadDeadline(time.Time) error { return nil }

// SetWriteDeadline is what the server must do before each write, or a phone
// that went out of signal would hold it for ever.
func (l *line) SetWriteDeadline(at time.Time) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.deadline = at
	return nil
}

// heard hands over what came since the last time, in one line each.
func (l *line) heard() string {
	synctest.Wait()
	l.mu.Lock()
	defer l.mu.Unlock()
	text := l.text.String()
	l.text.Reset()
	return strings.ReplaceAll(strings.TrimSpace(text), "\n\n", " | ")
}

func (l *line) isClosed() bool {
	synctest.Wait()
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.closed
}

// listen opens a stream; end is the phone going away.
func (c caller) listen(t *testing.T) (l *line, end func()) {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	l = &line{header: http.Header{}}
	go func() {
		c.shop.handler.ServeHTTP(l, c.request("GET", "/api/v1/events", nil).WithContext(ctx))
		l.mu.Lock()
		defer l.mu.Unlock()
		l.closed = true
	}()
	synctest.Wait()
	return l, cancel
}

func nudgeOf(book sync.ID, head string) string {
	return `data: {"book":"` + book.String() + `","head":` + head + `}`
}

// A stream says where each book stands, then when one moves, and nothing of
// books that aren't the listener's.
func TestNudges(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := openShop(t, store.Memory())
		bens := sync.ID{0xb2}
		s.ann.want(t, http.StatusOK, "PUT", path(book, ""), map[string]any{}, nil)
		s.ben.want(t, http.StatusOK, "PUT", path(bens, ""), map[string]any{}, nil)
		entries := storetest.Written(phoneA, book, 1, 3, sync.Hash{})
		s.ann.want(t, http.StatusOK, "POST", path(book, "/push"), pushOf(phoneA, entries[:2]), nil)

		ann, end := s.ann.listen(t)
		if got, want := ann.heard(), nudgeOf(book, "2")+" | :"; got != want || ann.header.Get("Content-Type") != "text/event-stream" {
			t.Errorf("at first %q (%s), want %q", got, ann.header.Get("Content-Type"), want)
		}
		s.ann.want(t, http.StatusOK, "POST", path(book, "/push"), pushOf(phoneA, entries), nil)
		if got, want := ann.heard(), nudgeOf(book, "3"); got != want {
			t.Errorf("after a push %q, want %q", got, want)
		}
		s.ben.want(t, http.StatusOK, "POST", path(bens, "/push"), pushOf(phoneB, storetest.Written(phoneB, bens, 1, 1, sync.Hash{})), nil)
		if got := ann.heard(); got != "" {
			t.Errorf("Ann heard of Ben's book: %q", got)
		}
		end()
		if !ann.isClosed() {
			t.Error("the phone went away and the server goes on")
		}
	})
}

// A stream breathes every 25 seconds, so that no proxy takes it for dead.
func TestNudgesBreathe(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := openShop(t, store.Memory())
		ann, end := s.ann.listen(t)
		defer end()
		ann.heard()
		time.Sleep(24 * time.Second)
		if got := ann.heard(); got != "" {
			t.Errorf("after 24 s: %q", got)
		}
		time.Sleep(2 * time.Second)
		if got := ann.heard(); got != ":" {
			t.Errorf("after 26 s: %q, want a comment", got)
		}
		end()
		synctest.Wait()
	})
}

// A stream ends with the access token, with the device, with the server, and
// with a line that takes nothing more.
func TestNudgesEnd(t *testing.T) {
	for name, test := range map[string]struct {
		do     func(*testing.T, *shop, *line)
		within time.Duration
	}{
		"the access token runs out": {func(*testing.T, *shop, *line) {}, 12 * time.Minute},
		"the phone is removed": {func(t *testing.T, s *shop, _ *line) {
			if err := s.store.PutDevice(t.Context(), people.Device{ID: phoneA, Account: s.ann.id, Revoked: 1}); err != nil {
				t.Fatal(err)
			}
		}, 30 * time.Second},
		"the server stops":       {func(_ *testing.T, s *shop, _ *line) { close(s.stop) }, 0},
		"the line takes no more": {func(_ *testing.T, _ *shop, l *line) { l.mu.Lock(); l.broken = context.DeadlineExceeded; l.mu.Unlock() }, 30 * time.Second},
	} {
		t.Run(name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				s := openShop(t, store.Memory())
				ann, end := s.ann.listen(t)
				defer end()
				if ann.isClosed() {
					t.Fatal("it never began")
				}
				test.do(t, s, ann)
				time.Sleep(test.within)
				if !ann.isClosed() {
					t.Errorf("still open %v later", test.within)
				}
			})
		})
	}
}
