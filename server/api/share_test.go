package api_test

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"

	"linkrod/server/people"
	"linkrod/server/store"
	"linkrod/sync"
)

// From a link to a member: made by the owner, looked at, joined by somebody
// who has no account yet, changed, removed; the host sees all of it.
func TestSharingABook(t *testing.T) {
	s := openShop(t, store.Memory())
	var opened struct {
		Role  people.Role
		Signs bool
		Of    people.Of
		Head  *uint64
	}
	s.ann.want(t, http.StatusOK, "PUT", path(book, ""), map[string]any{"device": phoneA}, &opened)
	if opened.Role != people.Owner || !opened.Signs || opened.Of != people.Engine || opened.Head == nil {
		t.Errorf("opened: %+v", opened)
	}
	s.ann.refused(t, "a book of something else", 400, "invalid", "engine or of a shelf", "PUT", path(sync.ID{0xb5}, ""), map[string]any{"of": "kite"})
	s.ann.want(t, http.StatusOK, "PUT", path(sync.ID{0x5e}, ""), map[string]any{"of": "shelf"}, &opened)
	if opened.Role != people.Curator || opened.Of != people.Shelf {
		t.Errorf("a shelf: %+v", opened)
	}
	s.ann.refused(t, "a mechanic on a shelf", 400, "invalid", "no such role", "POST", path(sync.ID{0x5e}, "/invitations"), map[string]any{"role": "mechanic"})

	var inv struct {
		ID      sync.ID
		Link    string
		Role    people.Role
		Signs   bool
		Expires int64  `json:"expires_ms"`
		QR      string `json:"qr_svg"`
		Only    string `json:"only_here"`
		Now     int64
	}
	s.ann.want(t, http.StatusOK, "POST", path(book, "/invitations"), map[string]any{"role": "helper", "signs": true}, &inv)
	at, secret, _ := strings.Cut(inv.Link, "#")
	if at != "http://example.com/join" || len(secret) != 22 || inv.Role != people.Helper || !inv.Signs || !strings.HasPrefix(inv.QR, "<svg") || inv.Only != "" {
		t.Errorf("invited: %+v", inv)
	}
	if week := int64(7 * 24 * 60 * 60 * 1000); inv.Expires-inv.Now < week-1000 || inv.Expires-inv.Now > week+1000 {
		t.Errorf("it holds for %d ms", inv.Expires-inv.Now)
	}
	var list struct {
		Invitations []struct{ ID sync.ID }
	}
	s.ann.want(t, http.StatusOK, "GET", path(book, "/invitations"), nil, &list)
	_, text := s.ann.do(t, "GET", path(book, "/invitations"), nil)
	if len(list.Invitations) != 1 || list.Invitations[0].ID != inv.ID || strings.Contains(text, secret) {
		t.Errorf("open: %s", text)
	}
	nobody := caller{shop: s}
	var look struct {
		Shop, By string
		Of       people.Of
		Role     people.Role
	}
	nobody.want(t, http.StatusOK, "POST", "/api/v1/invitations/look", map[string]any{"secret": secret}, &look)
	if look.Shop != "DEMO shop" || look.By != "Ann Example" || look.Role != people.Helper || look.Of != people.Engine {
		t.Errorf("looked at: %+v", look)
	}
	claim := map[string]any{"secret": secret, "name": "Cyd Example", "passphrase": "a passphrase long enough", "device": sync.ID{0x0c}, "label": "Cyd's"}
	var in struct {
		Access  string
		Account struct{ ID sync.ID }
		Book    sync.ID
		Shop    string
	}
	nobody.want(t, http.StatusOK, "POST", "/api/v1/invitations/claim", claim, &in)
	if in.Book != book || in.Shop != "DEMO shop" || in.Access == "" {
		t.Errorf("joined: %+v", in)
	}
	cyd := caller{s, in.Account.ID, in.Access}
	for name, body := range map[string]any{"used": claim, "none": map[string]any{"secret": strings.Repeat("A", 22)}} {
		nobody.refused(t, name, http.StatusNotFound, "not_found", "Ask for a new one", "POST", "/api/v1/invitations/claim", body)
		s.ben.refused(t, name+", by Ben", http.StatusNotFound, "not_found", "Ask for a new one", "POST", "/api/v1/invitations/claim", body)
	}
	nobody.refused(t, "not whole", http.StatusBadRequest, "invalid", "not whole", "POST", "/api/v1/invitations/look", map[string]any{"secret": secret[:20]})
	forged := caller{shop: s, token: s.ann.token + "x"}
	forged.refused(t, "with a token that is none", http.StatusUnauthorized, "sign_in", "", "POST", "/api/v1/invitations/claim", claim)

	var who struct {
		Members []struct {
			people.Member
			You bool
		}
	}
	cyd.want(t, http.StatusOK, "GET", path(book, "/members"), nil, &who)
	for _, m := range who.Members {
		if want := map[string]people.Role{"Ann Example": people.Owner, "Cyd Example": people.Helper}[m.Name]; m.Role != want || m.You != (m.Account == cyd.id) || !m.Signs || m.By != s.ann.id {
			t.Errorf("member: %+v", m)
		}
	}
	if len(who.Members) != 2 {
		t.Errorf("%d members", len(who.Members))
	}
	var m people.Member
	s.ann.want(t, http.StatusOK, "PATCH", path(book, "/members/"+cyd.id.String()), map[string]any{"role": "mechanic"}, &m)
	if m.Role != people.Mechanic || m.Account != cyd.id || m.Name != "Cyd Example" {
		t.Errorf("changed: %+v", m)
	}
	s.ann.refused(t, "the last owner goes", http.StatusConflict, "conflict", "at least one owner", "DELETE", path(book, "/members/"+s.ann.id.String()), nil)
	s.ann.refused(t, "nobody goes", http.StatusNotFound, "not_found", "Nobody", "DELETE", path(book, "/members/xyz"), nil)
	s.ann.want(t, http.StatusOK, "POST", path(book, "/invitations"), map[string]any{"role": "reader"}, &inv)
	s.ann.want(t, http.StatusNoContent, "DELETE", path(book, "/invitations/"+inv.ID.String()), nil, nil)
	_, secret, _ = strings.Cut(inv.Link, "#")
	nobody.refused(t, "withdrawn", http.StatusNotFound, "not_found", "", "POST", "/api/v1/invitations/look", map[string]any{"secret": secret})

	var devices struct {
		Devices []struct{ ID sync.ID }
		This    sync.ID
	}
	cyd.want(t, http.StatusOK, "GET", "/api/v1/devices", nil, &devices)
	if len(devices.Devices) != 1 || devices.This != (sync.ID{0x0c}) {
		t.Errorf("devices: %+v", devices)
	}
	var hello struct {
		Account struct{ Host bool }
		Books   []struct {
			Role  people.Role
			Signs bool
			Of    people.Of
		}
		Limits map[string]int
	}
	cyd.want(t, http.StatusOK, "GET", "/api/v1/hello", nil, &hello)
	if hello.Account.Host || len(hello.Books) != 1 || hello.Books[0].Role != people.Mechanic || !hello.Books[0].Signs || hello.Limits["photo_bytes"] != 10<<20 {
		t.Errorf("hello: %+v", hello)
	}

	var all struct {
		People []struct {
			ID      sync.ID
			Name    string
			Host    bool
			Removed int64
		}
	}
	s.ann.want(t, http.StatusOK, "GET", "/api/v1/people", nil, &all)
	if _, text := s.ann.do(t, "GET", "/api/v1/people", nil); len(all.People) != 3 || strings.Contains(text, "argon2") {
		t.Errorf("people: %s", text)
	}
	s.ann.want(t, http.StatusNoContent, "DELETE", "/api/v1/people/"+cyd.id.String(), nil, nil)
	cyd.refused(t, "removed", http.StatusForbidden, "revoked", "can be exported", "GET", "/api/v1/hello", nil)
	s.ann.refused(t, "the host goes", http.StatusConflict, "conflict", "", "DELETE", "/api/v1/people/"+s.ann.id.String(), nil)

	var lines struct{ Lines []people.Line }
	s.ann.want(t, http.StatusOK, "GET", "/api/v1/journal", nil, &lines)
	var what []string
	var line people.Line
	for i := len(lines.Lines) - 1; i >= 0; i-- {
		if next := line.Next(lines.Lines[i].Event); next != lines.Lines[i] {
			t.Errorf("line %d does not follow", lines.Lines[i].Seq)
		}
		line = lines.Lines[i]
		what = append(what, string(line.What))
	}
	want := "set up, device enrolled, signed in, device enrolled, signed in, book opened, book opened, invited, device enrolled, joined, signed in, " +
		"role changed, invited, invitation withdrawn, account removed"
	if got := strings.Join(what, ", "); got != want {
		t.Errorf("the journal:\n%s\nwant\n%s", got, want)
	}
	s.ann.want(t, http.StatusOK, "GET", "/api/v1/journal?before=3", nil, &lines)
	if len(lines.Lines) != 2 || lines.Lines[0].Seq != 2 {
		t.Errorf("before line 3: %+v", lines)
	}
	s.ann.refused(t, "before nonsense", http.StatusBadRequest, "invalid", "before", "GET", "/api/v1/journal?before=x", nil)
	if text, _ := json.Marshal(lines); strings.Contains(string(text), secret) {
		t.Error("a secret is in the journal")
	}
}
