package api_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"linkrod/server/api"
	"linkrod/server/auth"
	"linkrod/server/people"
	"linkrod/server/store"
	"linkrod/server/store/storetest"
	"linkrod/server/witness"
	"linkrod/sync"
)

var (
	book   = sync.ID{0xb0}
	phoneA = sync.ID{0x0a}
	phoneB = sync.ID{0x0b}
)

// shop is a server with two accounts, Ann and Ben, each signed in on a phone.
type shop struct {
	handler http.Handler
	store   *store.DB
	stop    chan struct{}
	ann     caller
	ben     caller
}

type caller struct {
	shop  *shop
	id    sync.ID
	token string
}

func openShop(tb testing.TB, db *store.DB) *shop {
	tb.Helper()
	s := &shop{store: db, stop: make(chan struct{})}
	s.handler = s.serve(db)
	token, err := auth.New(db, auth.NewKey([32]byte{1}), slog.New(slog.DiscardHandler)).SetupToken(tb.Context())
	if err != nil {
		tb.Fatal(err)
	}
	const passphrase = "a passphrase long enough"
	var in struct {
		Access  string
		Account struct{ ID sync.ID }
	}
	nobody := caller{shop: s}
	nobody.want(tb, http.StatusOK, "POST", "/api/v1/setup", map[string]any{"token": token, "shop": "DEMO shop", "telephone": "555",
		"name": "Ann Example", "role": "owner", "passphrase": passphrase, "device": phoneA, "label": "Ann's phone"}, &in)
	s.ann = caller{s, in.Account.ID, in.Access}

	ann, err := db.Account(tb.Context(), s.ann.id)
	if err != nil {
		tb.Fatal(err)
	}
	ben := people.Account{ID: sync.ID{0xbe}, Name: "Ben Example", Passphrase: ann.Passphrase}
	if err := db.PutAccount(tb.Context(), ben); err != nil {
		tb.Fatal(err)
	}
	nobody.want(tb, http.StatusOK, "POST", "/api/v1/session", map[string]any{"name": "Ben Example", "passphrase": passphrase, "device": phoneB, "label": "Ben's phone"}, &in)
	s.ben = caller{s, ben.ID, in.Access}
	return s
}

// serve is the HTTP side over a store, always with the same keys.
func (s *shop) serve(db *store.DB) http.Handler { return s.serveWith(db, db) }

func (s *shop) serveWith(db *store.DB, ledger api.Ledger) http.Handler {
	log := slog.New(slog.DiscardHandler)
	return api.New(api.Config{Auth: auth.New(db, auth.NewKey([32]byte{1}), log), Ledger: ledger, Witness: witness.New([32]byte{2}),
		Front: http.NotFoundHandler(), Stopping: s.stop, Log: log})
}

func (c caller) request(method, path string, body io.Reader) *http.Request {
	r := httptest.NewRequest(method, path, body)
	if body != nil {
		r.Header.Set("Content-Type", "application/json")
	}
	if c.token != "" {
		r.Header.Set("Authorization", "Bearer "+c.token)
	}
	return r
}

// do sends body (as JSON unless it is []byte) and returns status and answer.
func (c caller) do(tb testing.TB, method, path string, body any) (int, string) {
	tb.Helper()
	var r io.Reader
	switch b := body.(type) {
	case nil:
	case []byte:
		r = bytes.NewReader(b)
	default:
		data, err := json.Marshal(b)
		if err != nil {
			tb.Fatal(err)
		}
		r = bytes.NewReader(data)
	}
	w := httptest.NewRecorder()
	c.shop.handler.ServeHTTP(w, c.request(method, path, r))
	return w.Code, w.Body.String()
}

func (c caller) want(tb testing.TB, status int, method, path string, body, answer any) {
	tb.Helper()
	got, text := c.do(tb, method, path, body)
	if got != status {
		tb.Fatalf("%s %s: %d %s, want %d", method, path, got, text, status)
	}
	if answer != nil {
		if err := json.Unmarshal([]byte(text), answer); err != nil {
			tb.Fatalf("%s %s: %v in %s", method, path, err, text)
		}
	}
}

// refused wants an error with a status, a code and a sentence.
func (c caller) refused(tb testing.TB, what string, status int, code, words, method, path string, body any) {
	tb.Helper()
	got, text := c.do(tb, method, path, body)
	var answer struct {
		Proto int
		Now   int64
		Error struct{ Code, Words string }
	}
	if err := json.Unmarshal([]byte(text), &answer); err != nil {
		tb.Errorf("%s: %v in %s", what, err, text)
	}
	if got != status || answer.Error.Code != code || !strings.Contains(answer.Error.Words, words) || answer.Proto != 1 || answer.Now == 0 {
		tb.Errorf("%s: %d %s, want %d, code %q and words with %q", what, got, text, status, code, words)
	}
}

type pushReply struct {
	Results []sync.Result
	Head    uint64
	Chain   sync.Hash
}

type pullReply struct {
	Records []sync.Record
	Head    uint64
	Chain   sync.Hash
	More    bool
}

func pushOf(device sync.ID, entries []sync.Entry) map[string]any {
	return map[string]any{"device": device, "entries": entries}
}

func path(book sync.ID, call string) string { return "/api/v1/books/" + book.String() + call }

func states(results []sync.Result) string {
	var all []string
	for _, r := range results {
		all = append(all, fmt.Sprintf("%d %s", r.N, r.State))
	}
	return strings.Join(all, ", ")
}

// A phone's book joins its account with everything in it; what was sent comes
// back in order, and sending it again changes nothing.
func TestABookFromPhoneToLedgerAndBack(t *testing.T) {
	s := openShop(t, store.Memory())
	var role struct{ Role people.Role }
	for range 2 {
		s.ann.want(t, http.StatusOK, "PUT", path(book, ""), map[string]any{"device": phoneA}, &role)
	}
	if role.Role != people.Owner {
		t.Errorf("role %q, want owner", role.Role)
	}
	entries := storetest.Written(phoneA, book, 1, 12, sync.Hash{})
	var pushed pushReply
	s.ann.want(t, http.StatusOK, "POST", path(book, "/push"), pushOf(phoneA, entries[:10]), &pushed)
	if pushed.Head != 10 || len(pushed.Results) != 10 {
		t.Errorf("pushed: %+v", pushed)
	}
	s.ann.want(t, http.StatusOK, "POST", path(book, "/push"), pushOf(phoneA, entries[8:]), &pushed)
	if got := states(pushed.Results); got != "9 dup, 10 dup, 11 ok, 12 ok" {
		t.Errorf("pushed again: %s", got)
	}

	var head sync.Head
	for more := true; more; {
		var page pullReply
		s.ann.want(t, http.StatusOK, "GET", path(book, fmt.Sprintf("/pull?after=%d&chain=%v&limit=5", head.Seq, head.Chain)), nil, &page)
		var err error
		if head, err = sync.Follow(head, page.Records); err != nil {
			t.Fatal(err)
		}
		more = page.More
	}
	if head.Seq != 12 || head.Chain != pushed.Chain {
		t.Errorf("pulled up to %+v, want what the push said: %d %v", head, pushed.Head, pushed.Chain)
	}

	var hello struct {
		Account struct{ ID sync.ID }
		Devices []struct{ ID sync.ID }
		Books   []struct {
			Book  sync.ID
			Role  people.Role
			Head  uint64
			Chain sync.Hash
		}
		Limits map[string]int
	}
	s.ann.want(t, http.StatusOK, "GET", "/api/v1/hello", nil, &hello)
	if len(hello.Books) != 1 || hello.Books[0].Head != 12 || hello.Books[0].Chain != head.Chain || hello.Books[0].Role != people.Owner ||
		len(hello.Devices) != 1 || hello.Devices[0].ID != phoneA || hello.Account.ID != s.ann.id || hello.Limits["batch_entries"] != 500 {
		t.Errorf("hello: %+v", hello)
	}
}

// The wire examples of version 1 are taken and answered as they say.
func TestWireExamples(t *testing.T) {
	s := openShop(t, store.Memory())
	example := func(name string, v any) []byte {
		data, err := os.ReadFile(filepath.Join("../../testdata/wire", name))
		if err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(data, v); err != nil {
			t.Fatal(err)
		}
		return data
	}
	var page pullReply
	example("pull-reply-1.json", &page)
	if head, err := sync.Follow(sync.Head{}, page.Records); err != nil || head.Seq != page.Head || head.Chain != page.Chain {
		t.Errorf("pull-reply-1.json: leads to %+v, %v", head, err)
	}
	book := page.Records[0].Entry.Book
	var push struct{ Entries []sync.Entry }
	body := example("push-1.json", &push)
	s.ann.want(t, http.StatusOK, "PUT", path(book, ""), map[string]any{}, nil)
	var pushed pushReply
	s.ann.want(t, http.StatusOK, "POST", path(book, "/push"), body, &pushed)
	if got := states(pushed.Results); got != "1 ok, 2 ok, 3 ok" {
		t.Errorf("push-1.json: %s", got)
	}
	var reply pushReply
	example("push-reply-1.json", &reply)
	if got := states(reply.Results); got != "1 dup, 2 ok, 3 rejected, 5 gap, 6 later" {
		t.Errorf("push-reply-1.json is read as %s", got)
	}
}

// What isn't yours answers exactly as if it did not exist, on every address.
func TestForeignBooksDoNotExist(t *testing.T) {
	s := openShop(t, store.Memory())
	s.ann.want(t, http.StatusOK, "PUT", path(book, ""), map[string]any{}, nil)
	s.ann.want(t, http.StatusOK, "POST", path(book, "/push"), pushOf(phoneA, storetest.Written(phoneA, book, 1, 3, sync.Hash{})), nil)
	unknown := sync.ID{0xff}
	for _, call := range []struct{ method, call string }{{"POST", "/push"}, {"GET", "/pull"}, {"GET", "/pull?after=1&chain=" + strings.Repeat("0", 64)}} {
		var answers []string
		for _, b := range []sync.ID{book, unknown} {
			var body any
			if call.method == "POST" {
				body = pushOf(phoneB, storetest.Written(phoneB, b, 1, 1, sync.Hash{}))
			}
			s.ben.refused(t, call.call, http.StatusNotFound, "not_found", "no such book", call.method, path(b, call.call), body)
			status, text := s.ben.do(t, call.method, path(b, call.call), body)
			_, words, _ := strings.Cut(text, `"error"`) // all but the time
			answers = append(answers, fmt.Sprint(status, words))
		}
		if answers[0] != answers[1] {
			t.Errorf("%s tells a foreign book from none:\n%s\n%s", call.call, answers[0], answers[1])
		}
	}
	s.ben.refused(t, "opening another's", http.StatusNotFound, "not_found", "no such book", "PUT", path(book, ""), map[string]any{})
	for _, bad := range []string{"/api/v1/books/xyz/pull", "/api/v1/books/" + strings.Repeat("0", 32) + "/pull", "/api/v1/books/" + strings.ToUpper(book.String()) + "/pull"} {
		s.ann.refused(t, bad, http.StatusNotFound, "not_found", "", "GET", bad, nil)
	}
	var hello struct{ Books []any }
	s.ben.want(t, http.StatusOK, "GET", "/api/v1/hello", nil, &hello)
	if len(hello.Books) != 0 {
		t.Errorf("Ben is told of %v", hello.Books)
	}
	s.ann.want(t, http.StatusOK, "GET", path(book, "/pull"), nil, nil)
}

// Without a sign-in there is nothing to be had, and no address tells another.
func TestBooksNeedASignIn(t *testing.T) {
	s := openShop(t, store.Memory())
	nobody := caller{shop: s}
	forged := caller{shop: s, token: s.ann.token[:len(s.ann.token)-2] + "xx"}
	for _, c := range []struct {
		method, path string
		body         any
	}{
		{"GET", "/api/v1/hello", nil},
		{"GET", "/api/v1/events", nil},
		{"PUT", path(book, ""), map[string]any{}},
		{"POST", path(book, "/push"), pushOf(phoneA, storetest.Written(phoneA, book, 1, 1, sync.Hash{}))},
		{"GET", path(book, "/pull"), nil},
	} {
		for _, who := range []caller{nobody, forged} {
			who.refused(t, c.method+" "+c.path, http.StatusUnauthorized, "sign_in", "", c.method, c.path, c.body)
		}
	}
}

// A body no version can read is set aside with words; one of the future, or
// one this version would not accept, goes into the ledger as it is.
func TestWhatABodyMayBe(t *testing.T) {
	s := openShop(t, store.Memory())
	s.ann.want(t, http.StatusOK, "PUT", path(book, ""), map[string]any{}, nil)
	var entries []sync.Entry
	var prev sync.Hash
	for i, body := range []string{
		`{"type":"oil"}`,                        // breaks the book's rules
		`{"type":"borescope","frames":[1,2,3]}`, // of the future
		`{"typ":"oil"}`,                         // no type
		`[]`, `nonsense`, ``,
		`{"type":"note","type":"oil"}`, // two types: every reader takes another
		`{"TYPE":"oil"}`,               // no type to a phone
		`{"type":"note","text":"after all that"}`,
	} {
		e, err := sync.Seal(sync.Entry{Device: phoneA, N: uint64(i + 1), Book: book, Prev: prev, Kind: sync.Fact, Body: []byte(body)})
		if err != nil {
			t.Fatal(err)
		}
		entries, prev = append(entries, e), e.Hash
	}
	var pushed pushReply
	s.ann.want(t, http.StatusOK, "POST", path(book, "/push"), pushOf(phoneA, entries), &pushed)
	if got, want := states(pushed.Results), "1 ok, 2 ok, 3 rejected, 4 rejected, 5 rejected, 6 rejected, 7 rejected, 8 rejected, 9 ok"; got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
	if w := pushed.Results[2].Words; !strings.HasSuffix(w, ".") {
		t.Errorf("no sentence says why: %q", w)
	}
}

// A batch that is torn anywhere is refused whole with a sentence; whole it is
// taken whole.
func TestATornBatchTakesNothing(t *testing.T) {
	s := openShop(t, store.Memory())
	s.ann.want(t, http.StatusOK, "PUT", path(book, ""), map[string]any{}, nil)
	whole, err := json.Marshal(pushOf(phoneA, storetest.Written(phoneA, book, 1, 2, sync.Hash{})))
	if err != nil {
		t.Fatal(err)
	}
	for n := range len(whole) {
		status, text := s.ann.do(t, "POST", path(book, "/push"), whole[:n:n])
		if status != http.StatusBadRequest || !strings.Contains(text, `"code":"invalid"`) {
			t.Fatalf("cut at byte %d: %d %s", n, status, text)
		}
	}
	// The connection broke in the middle of the body.
	w := httptest.NewRecorder()
	broken := io.MultiReader(bytes.NewReader(whole[:100]), brokenReader{})
	s.handler.ServeHTTP(w, s.ann.request("POST", path(book, "/push"), broken))
	if w.Code != http.StatusBadRequest || !strings.Contains(w.Body.String(), "cut short") {
		t.Errorf("a broken connection: %d %s", w.Code, w.Body)
	}
	var page pullReply
	s.ann.want(t, http.StatusOK, "GET", path(book, "/pull"), nil, &page)
	if page.Head != 0 {
		t.Fatalf("something of it was taken: %+v", page)
	}
	var pushed pushReply
	s.ann.want(t, http.StatusOK, "POST", path(book, "/push"), whole, &pushed)
	if got := states(pushed.Results); got != "1 ok, 2 ok" {
		t.Errorf("whole: %s", got)
	}
}

type brokenReader struct{}

func (brokenReader) Read([]byte) (int, error) { return 0, io.ErrUnexpectedEOF }

// Every limit is answered with words that name it.
func TestLimitsOfAPush(t *testing.T) {
	s := openShop(t, store.Memory())
	s.ann.want(t, http.StatusOK, "PUT", path(book, ""), map[string]any{}, nil)
	many := storetest.Written(phoneA, book, 1, sync.MaxBatchEntries+1, sync.Hash{})
	s.ann.refused(t, "too many", http.StatusRequestEntityTooLarge, "too_large", "500", "POST", path(book, "/push"), pushOf(phoneA, many))
	s.ann.refused(t, "too long", http.StatusRequestEntityTooLarge, "too_large", "262144", "POST", path(book, "/push"), bytes.Repeat([]byte(" "), 10<<20))
	var pushed pushReply
	s.ann.want(t, http.StatusOK, "POST", path(book, "/push"), pushOf(phoneA, many[:sync.MaxBatchEntries]), &pushed)
	if pushed.Head != sync.MaxBatchEntries {
		t.Errorf("a batch at the limit: head %d", pushed.Head)
	}
	// One entry too long can't be sealed, but it can be sent; those behind it arrive.
	long := sync.Entry{Device: phoneA, N: sync.MaxBatchEntries + 1, Book: book, Prev: many[sync.MaxBatchEntries-1].Hash, Kind: sync.Fact,
		Body: append([]byte(`{"type":"note","text":"`), bytes.Repeat([]byte("x"), sync.MaxBody)...)}
	long.Hash = long.Sum()
	next := storetest.Written(phoneA, book, long.N+1, long.N+1, long.Hash)
	s.ann.want(t, http.StatusOK, "POST", path(book, "/push"), pushOf(phoneA, append([]sync.Entry{long}, next...)), &pushed)
	if got := states(pushed.Results); got != "501 rejected, 502 ok" || !strings.Contains(pushed.Results[0].Words, "32768") {
		t.Errorf("an entry too long: %s %q", got, pushed.Results[0].Words)
	}
	for _, q := range []string{"?after=-1", "?after=1.5", "?after=9007199254740993", "?after=1", "?after=1&chain=xyz", "?limit=0", "?limit=x"} {
		s.ann.refused(t, q, http.StatusBadRequest, "invalid", "must be", "GET", path(book, "/pull"+q), nil)
	}
	var page pullReply
	s.ann.want(t, http.StatusOK, "GET", path(book, "/pull?limit=1000000"), nil, &page)
	if len(page.Records) == 0 || len(page.Records) > 1000 {
		t.Errorf("%d records on one page", len(page.Records))
	}
}

// A phone that knows more than the server, or something else, is told that
// the server was put back.
func TestARewoundLedgerIsSaid(t *testing.T) {
	s := openShop(t, store.Memory())
	s.ann.want(t, http.StatusOK, "PUT", path(book, ""), map[string]any{}, nil)
	s.ann.want(t, http.StatusOK, "POST", path(book, "/push"), pushOf(phoneA, storetest.Written(phoneA, book, 1, 3, sync.Hash{})), nil)
	for _, q := range []string{"?after=4&chain=", "?after=2&chain="} {
		s.ann.refused(t, q, http.StatusConflict, "rewound", "backup", "GET", path(book, "/pull"+q+strings.Repeat("ab", 32)), nil)
	}
}

// A copied phone and a phone of somebody else's are told so.
func TestDevicesAreOneAccounts(t *testing.T) {
	s := openShop(t, store.Memory())
	s.ann.want(t, http.StatusOK, "PUT", path(book, ""), map[string]any{}, nil)
	s.ann.refused(t, "Ben's phone", http.StatusForbidden, "refused", "another account", "POST", path(book, "/push"),
		pushOf(phoneB, storetest.Written(phoneB, book, 1, 1, sync.Hash{})))
	entries := storetest.Written(phoneA, book, 1, 2, sync.Hash{})
	s.ann.want(t, http.StatusOK, "POST", path(book, "/push"), pushOf(phoneA, entries), nil)
	var pushed pushReply
	s.ann.want(t, http.StatusOK, "POST", path(book, "/push"), pushOf(phoneA, storetest.Written(phoneA, book, 2, 3, sync.Hash{1})), &pushed)
	if got := states(pushed.Results); got != "2 fork, 3 later" {
		t.Errorf("a copied phone: %s", got)
	}
}
