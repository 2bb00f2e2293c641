package api

import (
	"context"
	"errors"
	"log/slog"
	"strings"
	"testing"

	"linkrod/server/auth"
	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/server/store"
)

// Ensure every code has a status of its own choosing, and that a code nobody
// listed is a defect of the server's and not a success.
func TestStatuses(t *testing.T) {
	for code, want := range map[fault.Code]int{
		fault.Invalid: 400, fault.SignIn: 401, fault.Refused: 403, fault.NotFound: 404, fault.Conflict: 409,
		fault.Rewound: 409, fault.TooLarge: 413, fault.TooMany: 429, fault.Busy: 503, fault.Internal: 500, "unheard of": 500,
	} {
		d := MustDesk(t, func(c *Config) { c.Auth = failing(fault.New(code, "Words for people.")) })
		w := d.ask(t, "GET", "/api/v1/state", nil)
		if code == fault.NotFound { // no shop yet: that is an answer
			if w.Code != 200 {
				t.Errorf("no shop: %d", w.Code)
			}
			continue
		}
		if a := wantFault(t, w, want, string(code)); a.Error.Words != "Words for people." {
			t.Errorf("%s: words %q", code, a.Error.Words)
		}
		if retry := w.Header().Get("Retry-After"); (retry != "") != (code == fault.Busy || code == fault.TooMany) {
			t.Errorf("%s: Retry-After %q", code, retry)
		}
	}
}

// Ensure the operator's text stays with the operator.
func TestOperatorText(t *testing.T) {
	for _, err := range []error{
		errors.New("open /srv/linkrod.db: bad page"),
		fault.Wrap(fault.Busy, "The disk is full. Nothing was taken.", errors.New("write /srv/linkrod.db: no space left")),
	} {
		d := MustDesk(t, func(c *Config) { c.Auth = failing(err) })
		w := d.ask(t, "GET", "/api/v1/state", nil)
		if strings.Contains(w.Body.String(), "/srv") {
			t.Errorf("the phone was told: %s", w.Body)
		}
		if !strings.Contains(d.log.String(), "/srv/linkrod.db") {
			t.Errorf("the operator wasn't:\n%s", d.log)
		}
	}
}

// failing is an Auth whose store answers everything with err.
func failing(err error) *auth.Auth {
	return auth.New(failingStore{store.Memory(), err}, auth.NewKey([32]byte{1}), slog.New(slog.DiscardHandler))
}

type failingStore struct {
	*store.DB
	err error
}

func (f failingStore) Shop(context.Context) (people.Shop, error) { return people.Shop{}, f.err }
