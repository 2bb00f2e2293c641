package api

import (
	"bytes"
	"context"
	"crypto/rand"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"image"
	"image/png"
	"io"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/labstack/echo/v4"

	"linkrod/server/people"
	"linkrod/server/store/storetest"
	"linkrod/sync"
)

// Every address, asked by everybody there can be, about a book that is theirs,
// one that is somebody else's and one that there isn't. What must come of it
// is worked out from the table of rights (people.May) and the act the address
// names; an address without an example here fails.
func TestRightsTable(t *testing.T) {
	w := newHangar(t)
	cells := 0
	for _, r := range routes() {
		name := r.method + " " + r.path
		sample, ok := samples[name]
		if !ok {
			if r.who == anybody {
				continue // TestEveryAddress wants them in its list
			}
			t.Errorf("%s has no row in the test of rights", name)
			continue
		}
		for _, p := range w.people {
			for _, where := range []struct {
				what string
				book sync.ID
				role people.Role
			}{
				{"their own", p.book, p.role},
				{"a foreign one", w.foreign, ""},
				{"none", fresh(), ""},
			} {
				if where.what == "their own" && p.role == "" {
					continue // strangers have none
				}
				cells++
				ask := sample(w, p, where.book)
				got := w.ask(t, r.method, ask.path(r.path, where.book), ask.body, append(ask.headers, "Authorization", "Bearer "+p.access)...)
				want, may := ask.status, true
				switch {
				case r.act == "" && !(r.method == "PUT" && where.book == w.foreign):
				case where.what == "none" && strings.Contains(r.path, ":book"):
					want, may = 404, false
				case r.act != "" && people.May(where.role, p.host, r.act):
				case strings.Contains(r.path, ":book") && where.role != "":
					want, may = 403, false
				default:
					want, may = 404, false
				}
				at := fmt.Sprintf("%s by %s in %s book", name, p, where.what)
				if got.Code != want {
					t.Errorf("%s: %d %.200s, want %d", at, got.Code, got.Body, want)
				}
				if !may && r.method != "HEAD" {
					code := map[int]string{403: "refused", 404: "not_found"}[want]
					wantFault(t, got, want, code)
				}
				if may && ask.after != nil {
					ask.after(t, at, got, where.role)
				}
			}
			// What is somebody else's answers word for word as what there isn't.
			if strings.Contains(r.path, ":book") && r.method != "HEAD" && !p.host && r.act != "" {
				var answers []string
				for _, book := range []sync.ID{w.foreign, fresh()} {
					ask := sample(w, p, book)
					got := w.ask(t, r.method, ask.path(r.path, book), ask.body, append(ask.headers, "Authorization", "Bearer "+p.access)...)
					_, words, _ := strings.Cut(got.Body.String(), `"error"`)
					answers = append(answers, fmt.Sprint(got.Code, words, headersOf(got)))
				}
				if answers[0] != answers[1] {
					t.Errorf("%s tells %s a foreign book from none:\n%s\n%s", name, p, answers[0], answers[1])
				}
			}
		}
	}
	t.Logf("%d addresses, %d people, %d cells", len(samples), len(w.people), cells)
	if report, err := w.store.Verify(); err != nil || len(report.Problems) > 0 {
		t.Errorf("afterwards the store is not sound: %q, %v", report.Problems, err)
	}
}

// headersOf is what an answer's headers say, but for the request's own name.
func headersOf(w *httptest.ResponseRecorder) string {
	h := w.Header().Clone()
	h.Del("X-Request-Id")
	h.Del("Content-Length")
	return fmt.Sprint(h)
}

// Every address is in the table, and what is behind the sign-in stays shut
// without one, whichever way the token is missing.
func TestEveryAddress(t *testing.T) {
	d := MustDesk(t)
	var inTable []string
	for _, r := range routes() {
		inTable = append(inTable, r.method+" "+r.path)
	}
	for _, r := range d.Handler.(*echo.Echo).Routes() {
		name := r.Method + " " + r.Path
		if strings.HasSuffix(r.Path, "/*") || r.Path == "/api" || slices.Contains(inTable, name) {
			continue
		}
		t.Errorf("%s is not in the table of routes", name)
	}
	open := []string{
		"GET /healthz", "GET /api/v1/state", "POST /api/v1/setup", "POST /api/v1/setup/check",
		"POST /api/v1/session", "POST /api/v1/session/refresh", "DELETE /api/v1/session", "POST /api/v1/pairing/claim",
		"POST /api/v1/invitations/look", "POST /api/v1/invitations/claim",
	}
	access := decode[sessionAnswer](t, d.MustSetUp(t, "")).Access
	replace := strings.NewReplacer(":book", strings.Repeat("b0", 16), ":device", deviceA, ":account", deviceA, ":id", deviceA, ":n", "1", ":sum", strings.Repeat("ab", 32))
	for _, r := range routes() {
		name := r.method + " " + r.path
		if slices.Contains(open, name) != (r.who == anybody) {
			t.Errorf("%s: open to everybody or not, the two lists differ", name)
		}
		if r.who == anybody {
			continue
		}
		for _, authorization := range []string{"", "Bearer", "Bearer ", "Bearer x", "Basic " + access, access, "Bearer " + access + "x"} {
			kind := "application/json"
			if r.body == piece {
				kind = "application/offset+octet-stream"
			}
			got := d.ask(t, r.method, replace.Replace(r.path), "{}", "Content-Type", kind, "Authorization", authorization, "Cookie", "linkrod="+access)
			if got.Code != http.StatusUnauthorized {
				t.Errorf("%s with %q: %d", name, authorization, got.Code)
			}
			if r.method != "HEAD" {
				wantFault(t, got, 401, "sign_in")
			}
			if got.Header().Get("Cache-Control") != "no-store" || got.Header().Get("Content-Security-Policy") != contentPolicy ||
				!strings.HasPrefix(got.Header().Get("WWW-Authenticate"), "Bearer") {
				t.Errorf("%s with %q: headers %v", name, authorization, got.Header())
			}
		}
		// Another site's page gets nowhere, token or not; what is no JSON neither.
		if r.method == "GET" || r.method == "HEAD" {
			continue
		}
		got := d.ask(t, r.method, "http://hangar.test"+replace.Replace(r.path), "{}", "Sec-Fetch-Site", "cross-site", "Authorization", "Bearer "+access)
		wantFault(t, got, 403, "refused")
		if r.body == nothing {
			continue
		}
		for _, kind := range []string{"", "text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x"} {
			wantFault(t, d.ask(t, r.method, replace.Replace(r.path), "{}", "Content-Type", kind, "Authorization", "Bearer "+access), 400, "invalid")
		}
		if r.body == form {
			long := `{"x":"` + strings.Repeat("x", 20<<10) + `"}`
			wantFault(t, d.ask(t, r.method, replace.Replace(r.path), long, "Authorization", "Bearer "+access), 413, "too_large")
		}
	}
}

// hangar is a server with somebody in every role.
type hangar struct {
	desk
	t       *testing.T
	foreign sync.ID // a book none of the people belongs to
	keeper  sync.ID // owns all the books
	people  []person
	picture []byte
	sum     sync.Hash
}

// person asks.
type person struct {
	id     sync.ID
	access string
	book   sync.ID // theirs; for somebody without a role, one there isn't
	role   people.Role
	host   bool
}

func (p person) String() string {
	s := string(p.role)
	if s == "" {
		s = "stranger"
	}
	if p.host {
		s += " who is the host"
	}
	return "a " + s
}

// fresh is an id nothing has yet.
func fresh() (id sync.ID) {
	rand.Read(id[:])
	return id
}

func newHangar(t *testing.T) *hangar {
	w := &hangar{desk: MustDesk(t), t: t, foreign: sync.ID{0xf0}, keeper: sync.ID{0x4e}}
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 4, 3))); err != nil {
		t.Fatal(err)
	}
	w.picture, w.sum = b.Bytes(), sync.Hash(sha256.Sum256(b.Bytes()))
	host := decode[sessionAnswer](t, w.MustSetUp(t, ""))
	hostID, err := sync.ParseID(host.Account.ID)
	w.must(err)
	ada, err := w.store.Account(t.Context(), hostID)
	w.must(err, w.store.PutAccount(t.Context(), people.Account{ID: w.keeper, Name: "Kay Keeper", Passphrase: ada.Passphrase}))

	engine, shelf, hosts := sync.ID{0xe1}, sync.ID{0x5e}, sync.ID{0xe2}
	for _, b := range []struct {
		book sync.ID
		of   people.Of
	}{{engine, people.Engine}, {shelf, people.Shelf}, {hosts, people.Engine}, {w.foreign, people.Engine}} {
		_, err := w.store.OpenBook(t.Context(), b.book, w.keeper, b.of, 1)
		w.must(err)
		w.photo(b.book, w.sum, w.picture)
	}
	for _, b := range []struct {
		book sync.ID
		of   people.Of
	}{{engine, people.Engine}, {shelf, people.Shelf}} {
		for _, role := range b.of.Roles() {
			p := person{id: w.account(), book: b.book, role: role}
			w.join(b.book, p.id, role)
			w.people = append(w.people, p)
		}
	}
	w.people = append(w.people, person{id: w.account(), book: fresh()})
	for i := range w.people {
		w.people[i].access = w.signIn(w.people[i].id, i)
	}
	w.people = append(w.people, person{id: hostID, access: host.Access, host: true, book: fresh()})
	w.join(hosts, hostID, people.Reader)
	w.people = append(w.people, person{id: hostID, access: host.Access, host: true, book: hosts, role: people.Reader})
	return w
}

func (w *hangar) must(errs ...error) {
	w.t.Helper()
	for _, err := range errs {
		if err != nil {
			w.t.Fatal(err)
		}
	}
}

// account makes one more account.
func (w *hangar) account() sync.ID {
	keeper, err := w.store.Account(w.t.Context(), w.keeper)
	w.must(err)
	a := people.Account{ID: fresh(), Passphrase: keeper.Passphrase}
	a.Name = "DEMO " + a.ID.String()[:8]
	w.must(w.store.PutAccount(w.t.Context(), a))
	return a.ID
}

// join makes an account a member; a fresh one when id is zero.
func (w *hangar) join(book, id sync.ID, role people.Role) sync.ID {
	if id.IsZero() {
		id = w.account()
	}
	inv := people.Invitation{ID: fresh(), Book: book, Role: role, Signs: role.Signs(), By: w.keeper, Created: 1, Expires: 1 << 50}
	copy(inv.Secret[:], inv.ID[:])
	if w.store.PutInvitation(w.t.Context(), inv) != nil {
		return id // there is no such book: whoever asks must not learn it
	}
	_, err := w.store.Join(w.t.Context(), inv.Secret, people.Account{ID: id}, nil, 2)
	w.must(err)
	return id
}

// signIn signs an account in, from an address of its own: the brake counts.
func (w *hangar) signIn(id sync.ID, i int) string {
	account, err := w.store.Account(w.t.Context(), id)
	w.must(err)
	text, err := json.Marshal(fields{"name": account.Name, "passphrase": passphrase, "device": fresh(), "label": "phone"})
	w.must(err)
	r := httptest.NewRequest("POST", "/api/v1/session", bytes.NewReader(text))
	r.RemoteAddr = fmt.Sprintf("198.51.100.%d:1", i)
	r.Header.Set("Content-Type", "application/json")
	a := httptest.NewRecorder()
	w.ServeHTTP(a, r)
	if a.Code != http.StatusOK {
		w.t.Fatalf("sign-in of %s: %d %s", account.Name, a.Code, a.Body)
	}
	return decode[sessionAnswer](w.t, a).Access
}

// photo puts a photograph, or the beginning of one, into a book if there is such.
func (w *hangar) photo(book sync.ID, sum sync.Hash, data []byte) {
	if _, err := w.store.BeginPhoto(w.t.Context(), book, w.keeper, sum, int64(len(w.picture)), 1); err == nil && len(data) > 0 {
		_, err := w.store.AddToPhoto(w.t.Context(), book, w.keeper, sum, 0, data, 1)
		w.must(err)
	}
}

// question is one request about a book.
type question struct {
	params  map[string]string
	query   string
	body    any
	headers []string
	status  int // when it is allowed
	after   func(t *testing.T, at string, got *httptest.ResponseRecorder, role people.Role)
}

func (q question) path(pattern string, book sync.ID) string {
	pattern = strings.Replace(pattern, ":book", book.String(), 1)
	for name, value := range q.params {
		pattern = strings.Replace(pattern, name, value, 1)
	}
	return pattern + q.query
}

type sample func(w *hangar, p person, book sync.ID) question

// simply asks without more.
func simply(status int) sample {
	return func(*hangar, person, sync.ID) question { return question{status: status} }
}

// samples is a request for each address behind the sign-in.
var samples = map[string]sample{
	"POST /api/v1/pairing": func(*hangar, person, sync.ID) question { return question{body: fields{}, status: 200} },
	"GET /api/v1/hello":    simply(200),
	"GET /api/v1/events": func(*hangar, person, sync.ID) question {
		return question{body: over{}, status: 200}
	},
	"GET /api/v1/devices": simply(200),
	"DELETE /api/v1/devices/:device": func(w *hangar, p person, _ sync.ID) question {
		device := fresh()
		w.must(w.store.PutDevice(w.t.Context(), people.Device{ID: device, Account: p.id}))
		return question{params: map[string]string{":device": device.String()}, status: 204}
	},
	"GET /api/v1/devices/:device/last": func(w *hangar, p person, _ sync.ID) question {
		device := fresh()
		w.must(w.store.PutDevice(w.t.Context(), people.Device{ID: device, Account: p.id}))
		return question{params: map[string]string{":device": device.String()}, status: 200}
	},
	"PUT /api/v1/books/:book": func(*hangar, person, sync.ID) question { return question{body: fields{}, status: 200} },

	"POST /api/v1/books/:book/push": func(w *hangar, p person, book sync.ID) question {
		device := fresh()
		return question{body: fields{"device": device, "entries": storetest.Written(device, book, 1, 1, sync.Hash{})}, status: 200,
			after: func(t *testing.T, at string, got *httptest.ResponseRecorder, role people.Role) {
				want := sync.OK
				if !people.May(role, false, people.Write) {
					want = sync.Held
				}
				if a := decode[struct{ Results []sync.Result }](t, got); len(a.Results) != 1 || a.Results[0].State != want {
					t.Errorf("%s: %s, want %s", at, got.Body, want)
				}
			}}
	},
	"GET /api/v1/books/:book/pull": simply(200),
	"GET /api/v1/books/:book/head": simply(200),
	"GET /api/v1/books/:book/chain": func(*hangar, person, sync.ID) question {
		return question{query: "?at=0,1", status: 200}
	},
	"POST /api/v1/books/:book/salvage": func(*hangar, person, sync.ID) question {
		return question{body: fields{"after": sync.Head{}, "records": []any{}}, status: 200}
	},
	"GET /api/v1/books/:book/snapshot": simply(200),
	"GET /api/v1/books/:book/export":   simply(200),
	"GET /api/v1/books/:book/aside":    simply(200),
	"POST /api/v1/books/:book/aside/:device/:n/admit": func(w *hangar, p person, book sync.ID) question {
		device, reader := fresh(), w.join(book, sync.ID{}, people.Reader)
		e := storetest.Written(device, book, 1, 1, sync.Hash{})[0]
		raw, err := e.MarshalJSON()
		w.must(err)
		w.store.Append(w.t.Context(), book, reader, sync.Push{Device: device, Sent: []sync.Sent{{Entry: e, Raw: raw}}}, 1, nil) // fails where there is no book
		return question{params: map[string]string{":device": device.String(), ":n": "1"}, body: fields{"reason": "DEMO"}, status: 200}
	},
	"GET /api/v1/books/:book/members": simply(200),
	"PATCH /api/v1/books/:book/members/:account": func(w *hangar, p person, book sync.ID) question {
		return question{params: map[string]string{":account": w.join(book, sync.ID{}, people.Reader).String()}, body: fields{"signs": true}, status: 200}
	},
	"DELETE /api/v1/books/:book/members/:account": func(w *hangar, p person, book sync.ID) question {
		return question{params: map[string]string{":account": w.join(book, sync.ID{}, people.Reader).String()}, status: 204}
	},
	"GET /api/v1/books/:book/invitations": simply(200),
	"POST /api/v1/books/:book/invitations": func(*hangar, person, sync.ID) question {
		return question{body: fields{"role": "reader"}, status: 200}
	},
	"DELETE /api/v1/books/:book/invitations/:id": func(w *hangar, p person, book sync.ID) question {
		inv := people.Invitation{ID: fresh(), Book: book, Role: people.Reader, By: w.keeper, Created: 1, Expires: 1 << 50}
		copy(inv.Secret[:], inv.ID[:])
		w.store.PutInvitation(w.t.Context(), inv) // fails where there is no book
		return question{params: map[string]string{":id": inv.ID.String()}, status: 204}
	},
	"HEAD /api/v1/books/:book/photos/:sum": func(w *hangar, p person, book sync.ID) question {
		return question{params: map[string]string{":sum": w.sum.String()}, status: 200}
	},
	"GET /api/v1/books/:book/photos/:sum": func(w *hangar, p person, book sync.ID) question {
		return question{params: map[string]string{":sum": w.sum.String()}, status: 200}
	},
	"POST /api/v1/books/:book/photos/:sum": func(w *hangar, p person, book sync.ID) question {
		sum := sha256.Sum256([]byte(fresh().String()))
		return question{params: map[string]string{":sum": sync.Hash(sum).String()}, headers: []string{"Upload-Length", "10"}, status: 201}
	},
	"PATCH /api/v1/books/:book/photos/:sum": func(w *hangar, p person, book sync.ID) question {
		sum := sync.Hash(sha256.Sum256([]byte(fresh().String())))
		w.photo(book, sum, nil)
		return question{params: map[string]string{":sum": sum.String()}, body: "abc",
			headers: []string{"Upload-Offset", "0", "Content-Type", "application/offset+octet-stream"}, status: 204}
	},

	"GET /api/v1/aside":  simply(200),
	"GET /api/v1/people": simply(200),
	"DELETE /api/v1/people/:account": func(w *hangar, p person, _ sync.ID) question {
		return question{params: map[string]string{":account": w.account().String()}, status: 204}
	},
	"GET /api/v1/journal": simply(200),
}

// over is the body of a request that is given up at once: a stream ends then.
type over struct{ io.Reader }

func (w *hangar) ask(tb testing.TB, method, target string, body any, headers ...string) *httptest.ResponseRecorder {
	if _, ok := body.(over); !ok {
		return w.desk.ask(tb, method, target, body, headers...)
	}
	gone, cancel := context.WithCancel(tb.Context())
	cancel()
	r := httptest.NewRequestWithContext(gone, method, target, nil)
	for i := 0; i < len(headers); i += 2 {
		r.Header.Set(headers[i], headers[i+1])
	}
	a := endlessRecorder{httptest.NewRecorder()}
	w.ServeHTTP(a, r)
	return a.ResponseRecorder
}

// endlessRecorder can be told to wait for ever, as a connection can.
type endlessRecorder struct{ *httptest.ResponseRecorder }

func (endlessRecorder) SetWriteDeadline(time.Time) error { return nil }
