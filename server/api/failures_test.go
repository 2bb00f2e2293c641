package api_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"linkrod/server/people"
	"linkrod/server/store"
	"linkrod/server/store/storetest"
	"linkrod/sync"
)

// What hangars, phones and hosts do to a book, as the server meets it: one
// test for each row of the failure table that the server alone can show, named
// by the row and what must come of it. (kill -9 is TestKill of package main.)
func TestFailureTable(t *testing.T) {
	for _, row := range []struct {
		name string
		run  func(*testing.T, *shop)
	}{
		{"reply lost after commit: sent again it is known, at the same place", replyLost},
		{"half a batch received: 400 with words, nothing of it taken", halfABatch},
		{"two tabs push at once: both hear the same places", twoTabs},
		{"device clock ±10 years, jumps mid-session: taken like any other, the clock kept as evidence", wrongClock},
		{"phone storage restored or cloned: a fork, then a new device id, nothing lost", copiedPhone},
		{"old app, newer server: what it holds is carried forward as it is", oldApp},
		{"newer app, older server: told what is taken; the unknown set aside, nothing blocked", newerApp},
		{"device revoked: 403 in its own words, what was taken stays, the owner comes back on another", revoked},
		{"role removed while offline: held, seen by author and owner, admitted by the host", roleRemoved},
		{"account switch on shared phone: no line of one goes up as another's", accountSwitch},
		{"sign-out or expired refresh: the door closes, what waits goes up after the next sign-in", signedOut},
		{"a poisoned entry in the middle of a queue of 100: 99 arrive, one is in the tray, readable", poisoned},
		{"photo cut at 60 %: goes on from where it was", photoCut},
		{"photo bytes corrupt: thrown away with words, sent again whole", photoCorrupt},
	} {
		t.Run(row.name, func(t *testing.T) {
			s := openShop(t, store.Memory())
			s.ann.want(t, http.StatusOK, "PUT", path(book, ""), map[string]any{}, nil)
			row.run(t, s)
			if r, err := s.store.Verify(); err != nil || len(r.Problems) > 0 {
				t.Errorf("afterwards the store is not sound: %q, %v", r.Problems, err)
			}
		})
	}
	t.Run("server restored from backup, also after others moved it past the phone: told, put back, nothing lost", restored)
	t.Run("server disk full: 503 and nothing acknowledged, reading goes on", aFullDisk)
}

func (c caller) push(t *testing.T, device sync.ID, entries []sync.Entry) (reply pushReply) {
	t.Helper()
	c.want(t, http.StatusOK, "POST", path(entries[0].Book, "/push"), pushOf(device, entries), &reply)
	return reply
}

func (c caller) all(t *testing.T, book sync.ID) (records []sync.Record, head sync.Head) {
	t.Helper()
	for more := true; more; {
		var page pullReply
		c.want(t, http.StatusOK, "GET", path(book, fmt.Sprintf("/pull?after=%d&chain=%v", head.Seq, head.Chain)), nil, &page)
		var err error
		if head, err = sync.Follow(head, page.Records); err != nil {
			t.Fatal(err)
		}
		records, more = append(records, page.Records...), page.More
	}
	return records, head
}

// A line that breaks while the answer is on its way.
func replyLost(t *testing.T, s *shop) {
	entries := storetest.Written(phoneA, book, 1, 6, sync.Hash{})
	places := map[uint64]uint64{}
	for from := range entries {
		s.ann.push(t, phoneA, entries[:from+1]) // the answer never comes; the phone sends all of it again
		for _, r := range s.ann.push(t, phoneA, entries[:from+1]).Results {
			if r.State != sync.Dup || places[r.N] != 0 && places[r.N] != r.Seq {
				t.Errorf("sent again: %+v, was at %d", r, places[r.N])
			}
			places[r.N] = r.Seq
		}
	}
	if records, _ := s.ann.all(t, book); len(records) != 6 {
		t.Errorf("%d records of 6 entries", len(records))
	}
}

// A real connection that is cut after each byte of a small batch.
func halfABatch(t *testing.T, s *shop) {
	server := httptest.NewServer(s.handler)
	defer server.Close()
	body, err := json.Marshal(pushOf(phoneA, storetest.Written(phoneA, book, 1, 1, sync.Hash{})))
	if err != nil {
		t.Fatal(err)
	}
	head := fmt.Sprintf("POST %s HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nAuthorization: Bearer %s\r\nContent-Length: %d\r\n\r\n",
		path(book, "/push"), s.ann.token, len(body))
	for n := range len(body) {
		line, err := net.Dial("tcp", server.Listener.Addr().String())
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.WriteString(line, head+string(body[:n])); err != nil {
			t.Fatal(err)
		}
		line.(*net.TCPConn).CloseWrite() // and hear what it says
		answer, err := io.ReadAll(line)
		if err != nil || !strings.HasPrefix(string(answer), "HTTP/1.1 400 ") || !strings.Contains(string(answer), "send it again") {
			t.Fatalf("cut at byte %d: %.200s %v", n, answer, err)
		}
		line.Close()
	}
	if records, _ := s.ann.all(t, book); len(records) != 0 {
		t.Fatalf("something of it was taken: %+v", records)
	}
}

// Two tabs of one browser, without locks, each with the queue as it saw it.
func twoTabs(t *testing.T, s *shop) {
	entries := storetest.Written(phoneA, book, 1, 60, sync.Hash{})
	done := make(chan pushReply)
	for range 2 {
		go func() {
			var last pushReply
			for n := 10; n <= 60; n += 10 {
				status, text := s.ann.do(t, "POST", path(book, "/push"), pushOf(phoneA, entries[:n]))
				if status != http.StatusOK || json.Unmarshal([]byte(text), &last) != nil {
					t.Errorf("%d %s", status, text)
				}
			}
			done <- last
		}()
	}
	for a, b := <-done, <-done; len(a.Results) > 0; a.Results, b.Results = a.Results[1:], b.Results[1:] {
		if a.Results[0].Seq == 0 || a.Results[0].Seq != b.Results[0].Seq {
			t.Errorf("one tab heard %+v, the other %+v", a.Results[0], b.Results[0])
		}
	}
	if records, _ := s.ann.all(t, book); len(records) != 60 {
		t.Errorf("%d records of 60 entries", len(records))
	}
}

// The phone's clock decides nothing: what it says is kept as evidence, beside
// the time the server received the entry.
func wrongClock(t *testing.T, s *shop) {
	const year = 365 * 24 * 60 * 60 * 1000
	var entries []sync.Entry
	var prev sync.Hash
	now := time.Now().UnixMilli()
	walls := []int64{now, now - 10*year, now + 10*year, now, 0, -now}
	for i, wall := range walls {
		e, err := sync.Seal(sync.Entry{Device: phoneA, N: uint64(i + 1), Book: book, Prev: prev, Kind: sync.Fact,
			Body: []byte(`{"type":"note","text":"DEMO"}`), Clock: sync.Clock{Wall: wall, Zone: 60}})
		if err != nil {
			t.Fatal(err)
		}
		entries, prev = append(entries, e), e.Hash
	}
	if got := states(s.ann.push(t, phoneA, entries).Results); got != "1 ok, 2 ok, 3 ok, 4 ok, 5 ok, 6 ok" {
		t.Errorf("%s", got)
	}
	records, _ := s.ann.all(t, book)
	for i, r := range records {
		if r.Entry.Clock.Wall != walls[i] || r.Received < now || r.Received > now+60_000 {
			t.Errorf("record %d: clock %d, received %d; want the clock as it was and the server's time", r.Seq, r.Entry.Clock.Wall, r.Received)
		}
	}
}

// Two phones that believe to be one.
func copiedPhone(t *testing.T, s *shop) {
	entries := storetest.Written(phoneA, book, 1, 4, sync.Hash{})
	s.ann.push(t, phoneA, entries)
	other, err := sync.Seal(sync.Entry{Device: phoneA, N: 4, Book: book, Prev: entries[2].Hash, Kind: sync.Fact, Body: []byte(`{"type":"note","text":"DEMO the copy"}`)})
	if err != nil {
		t.Fatal(err)
	}
	reply := s.ann.push(t, phoneA, append(append([]sync.Entry{}, entries[:3]...), other))
	if got := states(reply.Results); got != "1 dup, 2 dup, 3 dup, 4 fork" || !strings.Contains(reply.Results[3].Words, "nothing is lost") {
		t.Errorf("%s: %q", got, reply.Results[3].Words)
	}
	// It goes on under a new device id with what it wrote.
	anew := sync.ID{0x0c}
	other.Device, other.N, other.Prev = anew, 1, sync.Hash{}
	if other, err = sync.Seal(other); err != nil {
		t.Fatal(err)
	}
	if got := states(s.ann.push(t, anew, []sync.Entry{other}).Results); got != "1 ok" {
		t.Errorf("under a new id: %s", got)
	}
	if records, _ := s.ann.all(t, book); len(records) != 5 {
		t.Errorf("%d records, want all four and the copy's", len(records))
	}
}

// Entries of every schema and kind of body there was go in as they are, also
// from a phone that knows nothing of what hello says today.
func oldApp(t *testing.T, s *shop) {
	var entries []sync.Entry
	var prev sync.Hash
	for i, body := range []string{`{"type":"engine"}`, `{"type":"oil","hours":{"v":"1","u":"h"}}`, `{"type":"a kind that was given up","x":1}`} {
		e, err := sync.Seal(sync.Entry{Device: phoneA, N: uint64(i + 1), Book: book, Prev: prev, Kind: sync.Fact, Body: []byte(body), Schema: i % 2})
		if err != nil {
			t.Fatal(err)
		}
		entries, prev = append(entries, e), e.Hash
	}
	if got := states(s.ann.push(t, phoneA, entries).Results); got != "1 ok, 2 ok, 3 ok" {
		t.Errorf("%s", got)
	}
	records, _ := s.ann.all(t, book)
	for i, r := range records {
		if !bytes.Equal(r.Entry.Body, entries[i].Body) || r.Entry.Schema != entries[i].Schema {
			t.Errorf("record %d came back as %s, schema %d", r.Seq, r.Entry.Body, r.Entry.Schema)
		}
	}
}

// A server tells what it takes; an entry of a kind it does not know is set
// aside with words, and blocks nothing.
func newerApp(t *testing.T, s *shop) {
	var hello struct {
		Min *int `json:"min_schema"`
		Max *int `json:"max_schema"`
	}
	s.ann.want(t, http.StatusOK, "GET", "/api/v1/hello", nil, &hello)
	if hello.Min == nil || hello.Max == nil || *hello.Min != 0 || *hello.Max != 1 {
		t.Errorf("hello says %+v", hello)
	}
	one := storetest.Written(phoneA, book, 1, 1, sync.Hash{})[0]
	future := sync.Entry{Device: phoneA, N: 2, Book: book, Prev: one.Hash, Kind: "annotate", Refs: []sync.Ref{{Device: phoneA, N: 1}}, Body: []byte(`{"type":"later"}`), Schema: 9}
	future.Hash = future.Sum()
	three := storetest.Written(phoneA, book, 3, 3, future.Hash)[0]
	reply := s.ann.push(t, phoneA, []sync.Entry{one, future, three})
	if got := states(reply.Results); got != "1 ok, 2 rejected, 3 ok" || !strings.Contains(reply.Results[1].Words, "does not know") {
		t.Errorf("%s: %q", got, reply.Results[1].Words)
	}
	var tray struct{ Aside []struct{ Raw []byte } }
	s.ann.want(t, http.StatusOK, "GET", path(book, "/aside"), nil, &tray)
	if len(tray.Aside) != 1 || !bytes.Contains(tray.Aside[0].Raw, []byte(future.Hash.String())) {
		t.Errorf("kept: %+v", tray)
	}
	// The fields of a newer message are passed over.
	s.ann.want(t, http.StatusOK, "POST", path(book, "/push"), map[string]any{"device": phoneA, "entries": []sync.Entry{one}, "weather": "fair"}, nil)
}

func revoked(t *testing.T, s *shop) {
	s.ann.push(t, phoneA, storetest.Written(phoneA, book, 1, 2, sync.Hash{}))
	var last struct {
		Books []people.Last
	}
	s.ann.want(t, http.StatusOK, "GET", "/api/v1/devices/"+phoneA.String()+"/last", nil, &last)
	if len(last.Books) != 1 || last.Books[0].N != 2 || last.Books[0].Book != book || last.Books[0].Received == 0 {
		t.Errorf("what the server last had: %+v", last)
	}
	s.ben.refused(t, "by somebody else", http.StatusNotFound, "not_found", "", "DELETE", "/api/v1/devices/"+phoneA.String(), nil)
	s.ann.want(t, http.StatusNoContent, "DELETE", "/api/v1/devices/"+phoneA.String(), nil, nil)
	for _, c := range []struct{ method, call string }{{"POST", "/push"}, {"GET", "/pull"}} {
		var body any
		if c.method == "POST" {
			body = pushOf(phoneA, storetest.Written(phoneA, book, 3, 3, sync.Hash{1}))
		}
		s.ann.refused(t, c.call, http.StatusForbidden, "revoked", "kept and can be exported", c.method, path(book, c.call), body)
	}
	// Ann comes back on another phone, and everything is there.
	var in struct{ Access string }
	nobody := caller{shop: s}
	nobody.want(t, http.StatusOK, "POST", "/api/v1/session", map[string]any{"name": "Ann Example", "passphrase": "a passphrase long enough", "device": sync.ID{0x0d}, "label": "new"}, &in)
	again := caller{s, s.ann.id, in.Access}
	if records, _ := again.all(t, book); len(records) != 2 {
		t.Errorf("%d records on the new phone", len(records))
	}
	again.refused(t, "with the old device's id", http.StatusForbidden, "revoked", "removed", "POST", path(book, "/push"), pushOf(phoneA, storetest.Written(phoneA, book, 3, 3, sync.Hash{1})))
}

// benJoins makes Ben a member by an invitation, over HTTP.
func (s *shop) benJoins(t *testing.T, role people.Role) {
	t.Helper()
	var inv struct{ Link string }
	s.ann.want(t, http.StatusOK, "POST", path(book, "/invitations"), map[string]any{"role": role}, &inv)
	_, secret, _ := strings.Cut(inv.Link, "#")
	s.ben.want(t, http.StatusOK, "POST", "/api/v1/invitations/claim", map[string]any{"secret": secret}, nil)
}

func roleRemoved(t *testing.T, s *shop) {
	s.benJoins(t, people.Mechanic)
	three := storetest.Written(phoneB, book, 1, 3, sync.Hash{})
	s.ben.push(t, phoneB, three[:1])
	s.ann.want(t, http.StatusNoContent, "DELETE", path(book, "/members/"+s.ben.id.String()), nil, nil)
	reply := s.ben.push(t, phoneB, three) // he was out of signal when it happened
	if got := states(reply.Results); got != "1 dup, 2 held, 3 held" || !strings.Contains(reply.Results[1].Words, "kept beside it") {
		t.Errorf("%s: %+v", got, reply.Results)
	}
	if reply.Head != 0 {
		t.Errorf("he is told how the ledger goes on: head %d", reply.Head)
	}
	s.ben.refused(t, "and reads", http.StatusNotFound, "not_found", "", "GET", path(book, "/pull"), nil)
	var tray struct {
		Aside []struct {
			Device sync.ID
			N      uint64
			Author string
			Words  string
			State  sync.State
		}
	}
	s.ann.want(t, http.StatusOK, "GET", path(book, "/aside"), nil, &tray)
	if len(tray.Aside) != 2 || tray.Aside[0].Author != "Ben Example" || tray.Aside[0].State != sync.Held || tray.Aside[0].Words == "" {
		t.Errorf("the owner sees %+v", tray)
	}
	var in struct{ Seq uint64 }
	at := path(book, "/aside/"+phoneB.String()+"/2/admit")
	s.ann.refused(t, "without a reason", http.StatusBadRequest, "invalid", "why", "POST", at, map[string]any{"reason": " "})
	s.ann.want(t, http.StatusOK, "POST", at, map[string]any{"reason": "DEMO: read on the last day"}, &in) // Ann is the host too
	if records, _ := s.ann.all(t, book); in.Seq != 2 || len(records) != 2 || records[1].Author != "Ben Example" || records[1].Entry.Hash != three[1].Hash {
		t.Errorf("admitted at %d: %+v", in.Seq, records)
	}
	var lines struct{ Lines []people.Line }
	s.ann.want(t, http.StatusOK, "GET", "/api/v1/journal", nil, &lines)
	if l := lines.Lines[0]; l.What != people.Admitted || l.By != s.ann.id || l.Account != s.ben.id || !strings.Contains(l.Words, "DEMO: read on the last day") {
		t.Errorf("the journal's last line: %+v", l)
	}
}

// What one account wrote can't go up as another's.
func accountSwitch(t *testing.T, s *shop) {
	s.benJoins(t, people.Mechanic)
	entries := storetest.Written(phoneA, book, 1, 2, sync.Hash{})
	s.ann.push(t, phoneA, entries[:1])
	s.ben.refused(t, "Ann's lines sent by Ben", http.StatusForbidden, "refused", "another account", "POST", path(book, "/push"), pushOf(phoneA, entries))
	s.ann.push(t, phoneA, entries)
	records, _ := s.ann.all(t, book)
	for _, r := range records {
		if r.Account != s.ann.id || r.Author != "Ann Example" {
			t.Errorf("record %d is %s's", r.Seq, r.Author)
		}
	}
}

func signedOut(t *testing.T, s *shop) {
	entries := storetest.Written(phoneA, book, 1, 4, sync.Hash{})
	s.ann.push(t, phoneA, entries[:2])
	r := s.ann.request("POST", "/api/v1/session", strings.NewReader(`{"name":"Ann Example","passphrase":"a passphrase long enough","device":"`+phoneA.String()+`"}`))
	w := httptest.NewRecorder()
	s.handler.ServeHTTP(w, r)
	var in struct{ Access string }
	if err := json.Unmarshal(w.Body.Bytes(), &in); err != nil || len(w.Result().Cookies()) != 1 {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	cookie := w.Result().Cookies()[0]
	r = s.ann.request("DELETE", "/api/v1/session", nil)
	r.AddCookie(cookie)
	w = httptest.NewRecorder()
	if s.handler.ServeHTTP(w, r); w.Code != http.StatusNoContent {
		t.Fatalf("sign-out: %d %s", w.Code, w.Body)
	}
	out := caller{s, s.ann.id, in.Access}
	out.refused(t, "a push after it", http.StatusUnauthorized, "sign_in", "everything on it is kept", "POST", path(book, "/push"), pushOf(phoneA, entries))
	r = s.ann.request("POST", "/api/v1/session/refresh", strings.NewReader(`{"nonce":"0123456789abcdef"}`))
	r.AddCookie(cookie)
	w = httptest.NewRecorder()
	if s.handler.ServeHTTP(w, r); w.Code != http.StatusUnauthorized || !strings.Contains(w.Body.String(), "everything on it is kept") {
		t.Errorf("refresh after it: %d %s", w.Code, w.Body)
	}
	if got := states(s.again(t, s.ann).push(t, phoneA, entries).Results); got != "1 dup, 2 dup, 3 ok, 4 ok" {
		t.Errorf("after the next sign-in: %s", got)
	}
}

// One entry that storage has damaged, and one whose body nobody can read.
func poisoned(t *testing.T, s *shop) {
	entries := storetest.Written(phoneA, book, 1, 100, sync.Hash{})
	var queue []json.RawMessage
	for _, e := range entries {
		text, err := json.Marshal(e)
		if err != nil {
			t.Fatal(err)
		}
		queue = append(queue, text)
	}
	good := queue[49]
	queue[49] = bytes.Replace(good, []byte(`"kind":"fact"`), []byte(`"kind":"fa\u0000ct"`), 1)
	if bytes.Equal(queue[49], good) {
		t.Fatal("nothing is poisoned")
	}
	var reply pushReply
	s.ann.want(t, http.StatusOK, "POST", path(book, "/push"), map[string]any{"device": phoneA, "entries": queue}, &reply)
	taken := 0
	for _, r := range reply.Results {
		switch {
		case r.State == sync.OK:
			taken++
		case r.N != 50 || r.State != sync.Rejected || r.Words == "":
			t.Errorf("%+v", r)
		}
	}
	if taken != 99 || reply.Head != 99 {
		t.Errorf("%d taken, head %d", taken, reply.Head)
	}
	var tray struct {
		Aside []struct {
			N     uint64
			Words string
			Raw   []byte
		}
	}
	s.ann.want(t, http.StatusOK, "GET", path(book, "/aside"), nil, &tray)
	if len(tray.Aside) != 1 || tray.Aside[0].N != 50 || !bytes.Equal(tray.Aside[0].Raw, queue[49]) || tray.Aside[0].Words != reply.Results[49].Words {
		t.Errorf("in the tray: %+v", tray)
	}
	s.ann.refused(t, "admitted as it is", http.StatusConflict, "conflict", "damaged", "POST", path(book, "/aside/"+phoneA.String()+"/50/admit"), map[string]any{"reason": "DEMO"})
}

// picture is a photograph of some size.
func picture(t *testing.T, pixels int) (data []byte, sum sync.Hash) {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, pixels, pixels))
	for i := range img.Pix {
		img.Pix[i] = byte(i*7919) ^ byte(i>>8)
	}
	img.Set(1, 1, color.White)
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes(), sync.Hash(sha256.Sum256(b.Bytes()))
}

// photoCall is one request of an upload.
func (c caller) photoCall(t *testing.T, method string, sum sync.Hash, body io.Reader, headers ...string) *httptest.ResponseRecorder {
	t.Helper()
	r := httptest.NewRequest(method, path(book, "/photos/"+sum.String()), body)
	r.Header.Set("Authorization", "Bearer "+c.token)
	r.Header.Set("Content-Type", "application/offset+octet-stream")
	for i := 0; i < len(headers); i += 2 {
		r.Header.Set(headers[i], headers[i+1])
	}
	w := httptest.NewRecorder()
	c.shop.handler.ServeHTTP(w, r)
	return w
}

func offsetOf(t *testing.T, w *httptest.ResponseRecorder) int {
	t.Helper()
	n, err := strconv.Atoi(w.Header().Get("Upload-Offset"))
	if err != nil {
		t.Fatalf("%d %s: no Upload-Offset", w.Code, w.Body)
	}
	return n
}

// A photograph whose line is cut at 60 % goes on from where it was, and then
// comes back byte for byte, as a picture that can do nothing else.
func photoCut(t *testing.T, s *shop) {
	s.benJoins(t, people.Reader)
	data, sum := picture(t, 900)
	if len(data) < 600_000 {
		t.Fatalf("the picture has %d bytes only", len(data))
	}
	w := s.ann.photoCall(t, "POST", sum, nil, "Upload-Length", strconv.Itoa(len(data)))
	if w.Code != http.StatusCreated || offsetOf(t, w) != 0 || w.Header().Get("Location") == "" || w.Header().Get("Tus-Resumable") != "1.0.0" {
		t.Fatalf("begun: %d %v", w.Code, w.Header())
	}
	cut := len(data) * 6 / 10
	s.ann.photoCall(t, "PATCH", sum, io.MultiReader(bytes.NewReader(data[:cut]), brokenReader{}), "Upload-Offset", "0")
	w = s.ann.photoCall(t, "HEAD", sum, nil)
	at := offsetOf(t, w)
	if w.Code != http.StatusOK || at < cut-256<<10 || at > cut {
		t.Errorf("cut at %d, kept %d (%d)", cut, at, w.Code)
	}
	if w := s.ann.photoCall(t, "GET", sum, nil); w.Code != http.StatusNotFound {
		t.Errorf("half a picture is handed out: %d", w.Code)
	}
	w = s.ann.photoCall(t, "PATCH", sum, bytes.NewReader(data), "Upload-Offset", "0")
	if w.Code != http.StatusConflict || offsetOf(t, w) != at {
		t.Errorf("from the beginning: %d %s", w.Code, w.Body)
	}
	w = s.ann.photoCall(t, "PATCH", sum, bytes.NewReader(data[at:]), "Upload-Offset", strconv.Itoa(at))
	if w.Code != http.StatusNoContent || offsetOf(t, w) != len(data) {
		t.Errorf("the rest: %d %s", w.Code, w.Body)
	}
	w = s.ben.photoCall(t, "GET", sum, nil)
	if w.Code != http.StatusOK || !bytes.Equal(w.Body.Bytes(), data) {
		t.Errorf("it came back as %d, %d bytes", w.Code, w.Body.Len())
	}
	for name, want := range map[string]string{"Content-Type": "image/jpeg", "X-Content-Type-Options": "nosniff",
		"Content-Security-Policy": "default-src 'none'; sandbox", "Content-Length": strconv.Itoa(len(data)), "Cache-Control": "no-store", "Cross-Origin-Resource-Policy": "same-origin"} {
		if got := w.Header().Get(name); got != want {
			t.Errorf("%s = %q, want %q", name, got, want)
		}
	}
	// The same picture in a book of Ben's own: nothing tells him that it is here.
	bens := sync.ID{0xbb}
	s.ben.want(t, http.StatusOK, "PUT", path(bens, ""), map[string]any{}, nil)
	s.ben.refused(t, "in another book", http.StatusNotFound, "not_found", "", "GET", path(bens, "/photos/"+sum.String()), nil)
}

func photoCorrupt(t *testing.T, s *shop) {
	data, sum := picture(t, 300)
	flipped := bytes.Clone(data)
	flipped[len(flipped)/2] ^= 1
	send := func(data []byte) *httptest.ResponseRecorder {
		if w := s.ann.photoCall(t, "POST", sum, nil, "Upload-Length", strconv.Itoa(len(data))); w.Code != http.StatusCreated {
			t.Fatalf("begun: %d %s", w.Code, w.Body)
		}
		return s.ann.photoCall(t, "PATCH", sum, bytes.NewReader(data), "Upload-Offset", "0")
	}
	w := send(flipped)
	if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), `"code":"hash"`) || !strings.Contains(w.Body.String(), "from the beginning") {
		t.Errorf("a flipped byte: %d %s", w.Code, w.Body)
	}
	if w := s.ann.photoCall(t, "HEAD", sum, nil); w.Code != http.StatusNotFound {
		t.Errorf("and something of it is kept: %d", w.Code)
	}
	if w := send(data); w.Code != http.StatusNoContent {
		t.Errorf("sent again: %d %s", w.Code, w.Body)
	}
	for name, c := range map[string]struct {
		method  string
		headers []string
		status  int
	}{
		"no length":             {"POST", nil, 400},
		"a length of nothing":   {"POST", []string{"Upload-Length", "0"}, 413},
		"a length of much":      {"POST", []string{"Upload-Length", "10485761"}, 413},
		"a length that is none": {"POST", []string{"Upload-Length", "-5"}, 400},
		"an offset of none":     {"PATCH", []string{"Upload-Offset", "1e3"}, 400},
		"no offset":             {"PATCH", nil, 400},
		"as a form":             {"PATCH", []string{"Upload-Offset", "0", "Content-Type", "text/plain"}, 400},
		"what never began":      {"PATCH", []string{"Upload-Offset", "0"}, 404},
	} {
		if w := s.ann.photoCall(t, c.method, sync.Hash{9}, strings.NewReader("x"), c.headers...); w.Code != c.status {
			t.Errorf("%s: %d %s, want %d", name, w.Code, w.Body, c.status)
		}
	}
	// What is no picture is not kept, whatever it calls itself.
	for _, text := range []string{`<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>`, "<!doctype html><script>", "GIF89a" + strings.Repeat("x", 40)} {
		sum := sync.Hash(sha256.Sum256([]byte(text)))
		s.ann.photoCall(t, "POST", sum, nil, "Upload-Length", strconv.Itoa(len(text)))
		if w := s.ann.photoCall(t, "PATCH", sum, strings.NewReader(text), "Upload-Offset", "0"); w.Code != http.StatusBadRequest {
			t.Errorf("%.20s…: %d %s", text, w.Code, w.Body)
		}
	}
}

// Written, backed up, written on, acknowledged; then the backup is put back
// and others move the ledger past where the phone was. The phone finds the
// last position both have by the chain, puts back what it holds of others by
// the server's own receipts, sends its own again; nothing is lost.
func restored(t *testing.T) {
	dir := t.TempDir()
	file, backup := filepath.Join(dir, store.FileName), filepath.Join(dir, "backup.db")
	open := func() *store.DB {
		db, err := store.Open(file, store.Options{})
		if err != nil {
			t.Fatal(err)
		}
		return db
	}
	db := open()
	s := openShop(t, db)
	s.ann.want(t, http.StatusOK, "PUT", path(book, ""), map[string]any{}, nil)
	s.benJoins(t, people.Mechanic)
	ann, ben := storetest.Written(phoneA, book, 1, 9, sync.Hash{}), storetest.Written(phoneB, book, 1, 4, sync.Hash{})
	s.ann.push(t, phoneA, ann[:4])
	if _, err := store.Backup(file, backup, db.Copy); err != nil {
		t.Fatal(err)
	}
	s.ann.push(t, phoneA, ann[4:6])
	s.ben.push(t, phoneB, ben)
	// Ann's phone has seen all of it, and holds the receipt of its page.
	var page struct {
		pullReply
		Receipt *sync.Receipt
	}
	s.ann.want(t, http.StatusOK, "GET", path(book, "/pull"), nil, &page)
	if page.Head != 10 || page.Receipt == nil || page.Receipt.Seq != 10 {
		t.Fatalf("before: %+v", page)
	}
	seen := page.Records

	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	if _, _, err := store.Restore(file, backup, time.Now()); err != nil {
		t.Fatal(err)
	}
	db = open()
	defer db.Close()
	s.reopen(t, db) // the same keys: they lie beside the data file
	// Somebody else is faster, and writes past where Ann was.
	faster := storetest.Written(sync.ID{0x0e}, book, 1, 8, sync.Hash{})
	s.ann.push(t, sync.ID{0x0e}, faster)

	at := fmt.Sprintf("/pull?after=%d&chain=%v", page.Head, page.Chain)
	s.ann.refused(t, "only the chain tells", http.StatusConflict, "rewound", "put back from a backup", "GET", path(book, at), nil)
	var hello struct {
		Restored int64
		Books    []struct {
			Head    uint64
			Receipt *sync.Receipt
		}
	}
	for _, who := range []caller{s.ann, s.ben} { // every device is told
		s.again(t, who).want(t, http.StatusOK, "GET", "/api/v1/hello", nil, &hello)
		if hello.Restored < time.Now().Add(-time.Minute).UnixMilli() || len(hello.Books) != 1 || hello.Books[0].Head != 12 || hello.Books[0].Receipt == nil {
			t.Errorf("hello: %+v", hello)
		}
	}
	var chain struct{ At []sync.Head }
	s.ann.want(t, http.StatusOK, "GET", path(book, "/chain?at=2,4,5,10,11,99"), nil, &chain)
	if len(chain.At) != 5 || chain.At[1].Chain != seen[3].Chain || chain.At[2].Chain == seen[4].Chain {
		t.Errorf("chain: %+v", chain)
	}
	common := chain.At[1]
	var back struct {
		Results []sync.SalvageResult
		Head    uint64
		Chain   sync.Hash
		Receipt *sync.Receipt
	}
	salvage := map[string]any{"after": common, "records": seen[4:], "receipt": page.Receipt}
	forged := *page.Receipt
	forged.Sig = bytes.Clone(forged.Sig)
	forged.Sig[3] ^= 1
	s.ben.want(t, http.StatusOK, "POST", path(book, "/salvage"), map[string]any{"after": common, "records": seen[4:], "receipt": forged}, &back)
	for _, r := range back.Results {
		if r.State != sync.Held {
			t.Errorf("with a forged receipt: %+v", r)
		}
	}
	s.ann.want(t, http.StatusOK, "POST", path(book, "/salvage"), salvage, &back)
	for _, r := range back.Results {
		if r.State != sync.OK {
			t.Errorf("put back: %+v", r)
		}
	}
	s.ben.want(t, http.StatusOK, "POST", path(book, "/salvage"), salvage, &back)
	for _, r := range back.Results {
		if r.State != sync.Dup {
			t.Errorf("put back by another: %+v", r)
		}
	}
	if got := states(s.ben.push(t, phoneB, ben).Results); got != "1 dup, 2 dup, 3 dup, 4 dup" {
		t.Errorf("Ben offers his own: %s", got)
	}
	if got := states(s.ann.push(t, phoneA, ann).Results); !strings.HasSuffix(got, "6 dup, 7 ok, 8 ok, 9 ok") {
		t.Errorf("Ann goes on: %s", got)
	}
	records, _ := s.ann.all(t, book)
	have := map[sync.Hash]sync.Record{}
	for _, r := range records {
		have[r.Entry.Hash] = r
	}
	if len(records) != 9+4+8 || len(have) != len(records) {
		t.Errorf("%d records, %d different; want 21", len(records), len(have))
	}
	for _, r := range seen {
		if again := have[r.Entry.Hash]; again.Author != r.Author || again.Received != r.Received {
			t.Errorf("entry %d of %v came back as %+v", r.Entry.N, r.Entry.Device, again)
		}
	}
	if r, err := db.Verify(); err != nil || len(r.Problems) > 0 || r.Aside != 0 {
		t.Errorf("afterwards: %+v, %v", r, err)
	}
}

// reopen goes on with other data under the same keys.
func (s *shop) reopen(t *testing.T, db *store.DB) {
	t.Helper()
	s.store = db
	s.handler = s.serve(db)
	s.ann, s.ben = s.again(t, s.ann), s.again(t, s.ben)
}

// again signs in anew: sign-ins made after a backup are not in it.
func (s *shop) again(t *testing.T, who caller) caller {
	t.Helper()
	name, device := "Ann Example", phoneA
	if who.id == s.ben.id {
		name, device = "Ben Example", phoneB
	}
	var in struct{ Access string }
	nobody := caller{shop: s}
	nobody.want(t, http.StatusOK, "POST", "/api/v1/session", map[string]any{"name": name, "passphrase": "a passphrase long enough", "device": device, "label": "phone"}, &in)
	return caller{s, who.id, in.Access}
}

// A full disk is 503 with words and Retry-After; nothing is acknowledged, and
// reading goes on.
func aFullDisk(t *testing.T) {
	db, err := store.Open(filepath.Join(t.TempDir(), store.FileName), store.Options{MaxSize: 512 << 10})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := db.Close(); err != nil {
			t.Error(err)
		}
	})
	s := openShop(t, db)
	s.ann.want(t, http.StatusOK, "PUT", path(book, ""), map[string]any{}, nil)
	entries := storetest.Written(phoneA, book, 1, 2000, sync.Hash{})
	acknowledged := uint64(0)
	for acknowledged < 2000 {
		body, err := json.Marshal(pushOf(phoneA, entries[acknowledged:acknowledged+10]))
		if err != nil {
			t.Fatal(err)
		}
		w := httptest.NewRecorder()
		s.handler.ServeHTTP(w, s.ann.request("POST", path(book, "/push"), bytes.NewReader(body)))
		if w.Code != http.StatusOK {
			if w.Code != http.StatusServiceUnavailable || w.Header().Get("Retry-After") == "" || !strings.Contains(w.Body.String(), "disk is full") {
				t.Errorf("a full disk: %d %s, Retry-After %q", w.Code, w.Body, w.Header().Get("Retry-After"))
			}
			break
		}
		acknowledged += 10
	}
	if acknowledged == 0 || acknowledged == 2000 {
		t.Fatalf("%d acknowledged: the disk was never full", acknowledged)
	}
	var page pullReply
	s.ann.want(t, http.StatusOK, "GET", path(book, "/pull?limit=1"), nil, &page)
	if page.Head != acknowledged {
		t.Errorf("the ledger has %d, %d were acknowledged", page.Head, acknowledged)
	}
}
