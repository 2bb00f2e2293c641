package api_test

import (
	"bytes"
	"compress/gzip"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync/atomic"
	"testing"

	"linkrod/server/people"
	"linkrod/server/photo"
	"linkrod/server/store"
	"linkrod/server/store/storetest"
	"linkrod/server/witness"
	"linkrod/sync"
)

// A snapshot and the tail after it are the full ledger, record for record, and
// its receipts prove each of its pages.
func TestSnapshotAndTailAreAll(t *testing.T) {
	s := openShop(t, store.Memory())
	s.ann.want(t, http.StatusOK, "PUT", path(book, ""), map[string]any{}, nil)
	entries := storetest.Written(phoneA, book, 1, 1300, sync.Hash{})
	for from := 0; from < 1200; from += 400 {
		s.ann.push(t, phoneA, entries[from:from+400])
	}
	r := s.ann.request("GET", path(book, "/snapshot"), nil)
	r.Header.Set("Accept-Encoding", "br, gzip")
	w := httptest.NewRecorder()
	s.handler.ServeHTTP(w, r)
	if w.Code != http.StatusOK || w.Header().Get("Content-Encoding") != "gzip" || w.Header().Get("Vary") != "Accept-Encoding" || w.Header().Get("Cache-Control") != "no-store" {
		t.Fatalf("%d %v", w.Code, w.Header())
	}
	z, err := gzip.NewReader(w.Body)
	if err != nil {
		t.Fatal(err)
	}
	data, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	_, plain := s.ann.do(t, "GET", path(book, "/snapshot"), nil)
	for what, data := range map[string][]byte{"gzip": data, "plain": []byte(plain)} {
		snapshot, err := sync.DecodeSnapshot(data, book)
		if err != nil {
			t.Fatalf("%s: %v", what, err)
		}
		if what == "plain" {
			continue
		}
		if n := len(snapshot.Receipts); n < 3 || snapshot.Receipts[n-1].Seq != 1200 {
			t.Errorf("%d receipts", n)
		}
		for _, r := range snapshot.Receipts {
			if !witness.New([32]byte{2}).Signed(&r, book) || snapshot.Records[r.Seq-1].Chain != r.Chain {
				t.Errorf("the receipt at %d is not this server's", r.Seq)
			}
		}
		s.ann.push(t, phoneA, entries[1200:])
		var tail pullReply
		s.ann.want(t, http.StatusOK, "GET", path(book, fmt.Sprintf("/pull?after=%d&chain=%v", snapshot.Head.Seq, snapshot.Head.Chain)), nil, &tail)
		all, _ := s.ann.all(t, book)
		if got := append(snapshot.Records, tail.Records...); !reflect.DeepEqual(normal(t, got), normal(t, all)) {
			t.Errorf("snapshot and tail: %d records, all: %d, and they differ", len(got), len(all))
		}
	}
}

// normal is records as JSON: what a phone sees of them.
func normal(t *testing.T, records []sync.Record) string {
	t.Helper()
	text, err := json.Marshal(records)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// What is exported is the file phones save, and can be checked from the first
// entry to the receipt without the server.
func TestExportIsVerifiable(t *testing.T) {
	s := openShop(t, store.Memory())
	s.ann.want(t, http.StatusOK, "PUT", path(book, ""), map[string]any{}, nil)
	s.ann.push(t, phoneA, storetest.Written(phoneA, book, 1, 30, sync.Hash{}))
	_, text := s.ann.do(t, "GET", path(book, "/export"), nil)
	file, problems, err := sync.DecodeFile([]byte(text))
	if err != nil || len(problems) > 0 || len(file.Books) != 1 || len(file.Books[0].Entries) != 30 || file.Books[0].Entries[29].Author != "Ann Example" {
		t.Fatalf("%v %q", err, problems)
	}
	var all struct {
		Books []struct {
			Entries []sync.Record
			Ledger  struct {
				Head    uint64
				Chain   sync.Hash
				Receipt *sync.Receipt
			}
		}
	}
	if err := json.Unmarshal([]byte(text), &all); err != nil {
		t.Fatal(err)
	}
	b := all.Books[0]
	head, err := sync.Follow(sync.Head{}, b.Entries)
	if err != nil || head != (sync.Head{Seq: b.Ledger.Head, Chain: b.Ledger.Chain}) || head.Seq != 30 || !witness.New([32]byte{2}).Signed(b.Ledger.Receipt, book) {
		t.Errorf("leads to %+v, %v; says %+v", head, err, b.Ledger)
	}
	// An empty book has neither entry nor receipt.
	s.ann.want(t, http.StatusOK, "PUT", path(sync.ID{0xb7}, ""), map[string]any{}, nil)
	_, text = s.ann.do(t, "GET", path(sync.ID{0xb7}, "/export"), nil)
	if file, problems, err := sync.DecodeFile([]byte(text)); err != nil || len(problems) > 0 || len(file.Books[0].Entries) != 0 {
		t.Errorf("empty: %v %q %s", err, problems, text)
	}
	if _, err := sync.DecodeSnapshot([]byte(func() string { _, s := s.ann.do(t, "GET", path(sync.ID{0xb7}, "/snapshot"), nil); return s }()), sync.ID{0xb7}); err != nil {
		t.Errorf("a snapshot of nothing: %v", err)
	}
}

// A reader that stops in the middle of an answer holds no reading transaction:
// no call into the ledger is under way while the line is stuck, so that many
// writes later the file is no larger than without the reader. (One left open
// would keep every page of its state, some 20 kB a write here, and stop all
// writing when the file next had to grow.)
func TestASlowReaderPinsNothing(t *testing.T) {
	size := func(call string) int64 {
		file := filepath.Join(t.TempDir(), store.FileName)
		db, err := store.Open(file, store.Options{})
		if err != nil {
			t.Fatal(err)
		}
		defer db.Close()
		s := openShop(t, db)
		s.ann.want(t, http.StatusOK, "PUT", path(book, ""), map[string]any{}, nil)
		s.ann.push(t, phoneA, storetest.Written(phoneA, book, 1, 20, sync.Hash{}))
		data, sum := picture(t, 200)
		s.ann.photoCall(t, "POST", sum, nil, "Upload-Length", fmt.Sprint(len(data)))
		s.ann.photoCall(t, "PATCH", sum, bytes.NewReader(data), "Upload-Offset", "0")

		ledger := &busyLedger{DB: db}
		s.handler = s.serveWith(db, ledger)
		if call != "" {
			line := &stuckLine{header: http.Header{}, stuck: make(chan struct{}), release: make(chan struct{})}
			done := make(chan struct{})
			go func() {
				defer close(done)
				defer func() {
					if p := recover(); p != nil && p != http.ErrAbortHandler {
						t.Error(p)
					}
				}()
				s.handler.ServeHTTP(line, s.ann.request("GET", path(book, strings.Replace(call, ":sum", sum.String(), 1)), nil))
			}()
			<-line.stuck
			if n := ledger.calls.Load(); n != 0 {
				t.Fatalf("%s: %d calls into the ledger are under way while the line is stuck", call, n)
			}
			defer func() { close(line.release); <-done }()
		}
		for i := range 80 {
			if err := db.SetPassphrase(t.Context(), s.ann.id, fmt.Sprint("phc", i), false, int64(i)); err != nil {
				t.Fatal(err)
			}
		}
		info, err := os.Stat(file)
		if err != nil {
			t.Fatal(err)
		}
		return info.Size()
	}
	without := size("")
	for _, call := range []string{"/snapshot", "/export", "/photos/:sum", "/pull"} {
		if with := size(call); with > without {
			t.Errorf("%s: a stopped reader makes the file grow to %d bytes, without it is %d", call, with, without)
		}
	}
}

// stuckLine takes the first bytes of an answer and then nothing more.
type stuckLine struct {
	header         http.Header
	took           int
	stuck, release chan struct{}
}

func (l *stuckLine) Header() http.Header { return l.header }
func (l *stuckLine) WriteHeader(int)     {}

func (l *stuckLine) Write(p []byte) (int, error) {
	if l.took += len(p); l.took < 500 {
		return len(p), nil
	}
	select {
	case <-l.stuck:
	default:
		close(l.stuck)
	}
	<-l.release
	return 0, io.ErrClosedPipe
}

// busyLedger counts the reading calls that are under way.
type busyLedger struct {
	*store.DB
	calls atomic.Int32
}

func (l *busyLedger) begin() func() { l.calls.Add(1); return func() { l.calls.Add(-1) } }

func (l *busyLedger) Read(ctx context.Context, book, account sync.ID, after sync.Head, limit int) ([]sync.Record, sync.Head, error) {
	defer l.begin()()
	return l.DB.Read(ctx, book, account, after, limit)
}

func (l *busyLedger) Member(ctx context.Context, book, account sync.ID) (people.Membership, error) {
	defer l.begin()()
	return l.DB.Member(ctx, book, account)
}

func (l *busyLedger) Photo(ctx context.Context, book, account sync.ID, sum sync.Hash) (photo.State, error) {
	defer l.begin()()
	return l.DB.Photo(ctx, book, account, sum)
}

func (l *busyLedger) PhotoPiece(ctx context.Context, book, account sync.ID, sum sync.Hash, offset int64) ([]byte, error) {
	defer l.begin()()
	return l.DB.PhotoPiece(ctx, book, account, sum, offset)
}
