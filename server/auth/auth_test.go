package auth

import (
	"bytes"
	"context"
	"log/slog"
	stdsync "sync"
	"testing"
	"testing/synctest"
	"time"

	"linkrod/server/fault"
	"linkrod/server/people"
	"linkrod/server/store"
	"linkrod/sync"
)

const (
	home       = "192.0.2.1" // an address of RFC 5737, for documentation
	passphrase = "four words kept apart"
)

// fixture is an Auth over a store in memory, with its log.
type fixture struct {
	*Auth
	db  *store.DB
	log *record
}

// record is a log that may be read while it is written.
type record struct {
	mu  stdsync.Mutex
	buf bytes.Buffer
}

func (r *record) Write(p []byte) (int, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.buf.Write(p)
}

func (r *record) String() string {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.buf.String()
}

// newFixture hashes cheaply; what hashing costs is looked at where it matters.
func newFixture() fixture {
	db, log := store.Memory(), new(record)
	f := fixture{New(db, NewKey([32]byte{1}), slog.New(slog.NewTextHandler(log, nil))), db, log}
	f.hasher.cost = cheap
	return f
}

var cheap = cost{memory: 64, passes: 1, threads: 1}

// MustSetUp makes the first account, "Ada Quill", on phone 1.
func (f fixture) MustSetUp(tb testing.TB) Session {
	tb.Helper()
	token, err := f.SetupToken(tb.Context())
	if err != nil {
		tb.Fatal(err)
	}
	s, err := f.SetUp(tb.Context(), home, founding(token), phone(1))
	if err != nil {
		tb.Fatal(err)
	}
	return s
}

func (f fixture) MustCheck(tb testing.TB, access string) Caller {
	tb.Helper()
	who, err := f.Check(tb.Context(), access)
	if err != nil {
		tb.Fatal(err)
	}
	return who
}

func founding(token string) Founding {
	return Founding{Token: token, Shop: "Quill Radials", Telephone: "555 0100", Name: "Ada Quill", Role: "overhauls", Passphrase: passphrase}
}

func phone(n byte) Phone { return Phone{Device: sync.ID{15: n}, Label: "phone"} }

func wantCode(tb testing.TB, err error, want fault.Code) {
	tb.Helper()
	if got := fault.CodeOf(err); got != want {
		tb.Errorf("error = %v (%q), want code %q", err, got, want)
	}
}

// Ensure what a request may do is read from the store, at each request, not
// from the token.
func TestCheckReadsTheStore(t *testing.T) {
	f := newFixture()
	s := f.MustSetUp(t)
	who := f.MustCheck(t, s.Access)
	if who.Account.Name != "Ada Quill" || !who.Account.Host || who.Device != phone(1).Device {
		t.Errorf("caller = %+v", who)
	}

	account := who.Account
	account.Role = "retired"
	if err := f.db.PutAccount(t.Context(), account); err != nil {
		t.Fatal(err)
	}
	if got := f.MustCheck(t, s.Access).Account.Role; got != "retired" {
		t.Errorf("role = %q, want the one the store has now", got)
	}

	if err := f.SignOut(t.Context(), s.Refresh); err != nil {
		t.Fatal(err)
	}
	_, err := f.Check(t.Context(), s.Access)
	wantCode(t, err, fault.SignIn)
}

// Ensure a phone that was locked out is refused in other words than one whose
// sign-in is over: only the first has to ask somebody.
func TestCheckRefusesLockedOutPhone(t *testing.T) {
	f := newFixture()
	s := f.MustSetUp(t)
	f.lockOut(t, s)
	_, err := f.Check(t.Context(), s.Access)
	wantCode(t, err, fault.Revoked)
	_, err = f.Refresh(t.Context(), s.Refresh, "nonce-nonce-nonce-1", "")
	wantCode(t, err, fault.Revoked)
	_, err = f.SignIn(t.Context(), home, "Ada Quill", passphrase, phone(1))
	wantCode(t, err, fault.Revoked)
}

func (f fixture) lockOut(tb testing.TB, s Session) {
	tb.Helper()
	device, err := f.db.Device(tb.Context(), s.Device)
	if err != nil {
		tb.Fatal(err)
	}
	device.Revoked = time.Now().UnixMilli()
	if err := f.db.PutDevice(tb.Context(), device); err != nil {
		tb.Fatal(err)
	}
}

// Ensure an access token lasts ten minutes and the minute of leeway, and that
// a sign-in lasts a winter.
func TestExpiry(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		f := newFixture()
		s := f.MustSetUp(t)
		time.Sleep(AccessLife + tokenLeeway - time.Second)
		f.MustCheck(t, s.Access)
		time.Sleep(2 * time.Second)
		_, err := f.Check(t.Context(), s.Access)
		wantCode(t, err, fault.SignIn)

		time.Sleep(RefreshLife - time.Hour)
		next, err := f.Refresh(t.Context(), s.Refresh, "nonce-nonce-nonce-1", "")
		if err != nil {
			t.Fatalf("after the winter: %v", err)
		}
		f.MustCheck(t, next.Access)
		time.Sleep(RefreshLife - time.Hour) // each refresh starts the winter anew
		next, err = f.Refresh(t.Context(), next.Refresh, "nonce-nonce-nonce-2", "")
		if err != nil {
			t.Fatalf("after the next winter: %v", err)
		}
		time.Sleep(RefreshLife)
		_, err = f.Refresh(t.Context(), next.Refresh, "nonce-nonce-nonce-3", "")
		wantCode(t, err, fault.SignIn)
	})
}

// Ensure a store that can't be read is a trouble of the server and not a
// sign-out: a phone must not throw its sign-in away for it.
func TestBrokenStoreIsNoSignOut(t *testing.T) {
	f := newFixture()
	s := f.MustSetUp(t)
	broken := New(brokenStore{Store: f.db}, f.key, slog.New(slog.DiscardHandler))
	_, err := broken.Check(t.Context(), s.Access)
	wantCode(t, err, fault.Busy)
	_, err = broken.Refresh(t.Context(), s.Refresh, "nonce-nonce-nonce-1", "")
	wantCode(t, err, fault.Busy)
	if _, err := f.Refresh(t.Context(), s.Refresh, "nonce-nonce-nonce-1", ""); err != nil {
		t.Errorf("once it works again: %v", err)
	}
}

type brokenStore struct{ Store }

var errDisk = fault.New(fault.Busy, "The disk is full.")

func (brokenStore) Session(context.Context, sync.ID) (people.Session, error) {
	return people.Session{}, errDisk
}

func (brokenStore) UpdateSession(context.Context, sync.ID, func(*people.Session) error) error {
	return errDisk
}
