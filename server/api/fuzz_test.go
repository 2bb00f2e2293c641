package api_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strconv"
	"strings"
	"testing"

	"linkrod/server/photo"
	"linkrod/server/store"
	"linkrod/server/store/storetest"
	"linkrod/sync"
)

// FuzzCursor looks for a position that is answered with a defect of ours, or
// with records that don't follow from it.
func FuzzCursor(f *testing.F) {
	s := openShop(f, store.Memory())
	s.ann.want(f, http.StatusOK, "PUT", path(book, ""), map[string]any{}, nil)
	var pushed pushReply
	s.ann.want(f, http.StatusOK, "POST", path(book, "/push"), pushOf(phoneA, storetest.Written(phoneA, book, 1, 9, sync.Hash{})), &pushed)
	f.Add("0", "", "5", "0,1,9")
	f.Add("9", pushed.Chain.String(), "", "9")
	f.Add("9", strings.Repeat("0", 64), "1000000", "10")
	f.Add("-1", "x", "0", "1,,2")
	f.Add("9007199254740991", "", "", "9007199254740992")
	f.Fuzz(func(t *testing.T, after, chain, limit, at string) {
		q := url.Values{"after": {after}, "chain": {chain}, "limit": {limit}}
		status, text := s.ann.do(t, "GET", path(book, "/pull?"+q.Encode()), nil)
		switch status {
		case http.StatusBadRequest, http.StatusConflict:
		case http.StatusOK:
			var page pullReply
			if err := json.Unmarshal([]byte(text), &page); err != nil {
				t.Fatal(err)
			}
			var from sync.Head
			if after != "" {
				from.Seq, _ = strconv.ParseUint(after, 10, 64)
			}
			if chain != "" {
				from.Chain, _ = sync.ParseHash(chain)
			}
			if end, err := sync.Follow(from, page.Records); err != nil || !page.More && (end.Seq != 9 || end.Chain != pushed.Chain) {
				t.Errorf("%v lead to %+v, %v", q, end, err)
			}
		default:
			t.Errorf("%v: %d %s", q, status, text)
		}
		status, text = s.ann.do(t, "GET", path(book, "/chain?"+url.Values{"at": {at}}.Encode()), nil)
		if status != http.StatusOK && status != http.StatusBadRequest {
			t.Errorf("at=%q: %d %s", at, status, text)
		}
	})
}

// FuzzUpload sends a photograph in two pieces with any lengths and offsets. It
// must be whole exactly when the pieces are the announced bytes in order, and
// stand in between exactly where the accepted bytes end.
func FuzzUpload(f *testing.F) {
	s := openShop(f, store.Memory())
	s.ann.want(f, http.StatusOK, "PUT", path(book, ""), map[string]any{}, nil)
	f.Add("8", "0", "5", []byte("12345"), []byte("678"))
	f.Add("8", "0", "4", []byte("12345"), []byte("678"))
	f.Add("3", "0", "3", []byte("123"), []byte(""))
	f.Add("-1", "1e3", "", []byte("1"), []byte("2"))
	f.Add("10485761", "9223372036854775807", "0", []byte("1"), []byte("2"))
	f.Fuzz(func(t *testing.T, length, first, second string, a, b []byte) {
		sum := sync.Hash(sha256.Sum256(append(bytes.Clone(a), b...)))
		at := path(book, "/photos/"+sum.String())
		ask := func(method string, body []byte, name, value string) *httptest.ResponseRecorder {
			r := s.ann.request(method, at, bytes.NewReader(body))
			r.Header.Set("Content-Type", "application/offset+octet-stream")
			if name != "" {
				r.Header.Set(name, value)
			}
			w := httptest.NewRecorder()
			s.handler.ServeHTTP(w, r)
			if w.Code >= 500 {
				t.Fatalf("%s with %s=%q: %d %s", method, name, value, w.Code, w.Body)
			}
			return w
		}
		before := ask("HEAD", nil, "", "")
		begun := ask("POST", nil, "Upload-Length", length)
		n, err := strconv.ParseInt(length, 10, 64)
		if before.Code == http.StatusNotFound && (begun.Code == http.StatusCreated) != (err == nil && n > 0 && n <= photo.MaxBytes) {
			t.Errorf("a length of %q: %d", length, begun.Code)
		}
		for _, piece := range []struct {
			offset string
			data   []byte
		}{{first, a}, {second, b}} {
			was := ask("HEAD", nil, "", "")
			w := ask("PATCH", piece.data, "Upload-Offset", piece.offset)
			is := ask("HEAD", nil, "", "")
			if w.Code != http.StatusNoContent {
				if is.Code == http.StatusOK && is.Header().Get("Upload-Offset") != was.Header().Get("Upload-Offset") {
					t.Errorf("refused (%d) and yet it moved", w.Code)
				}
				continue
			}
			from, _ := strconv.Atoi(was.Header().Get("Upload-Offset"))
			to, _ := strconv.Atoi(is.Header().Get("Upload-Offset"))
			if told, err := strconv.Atoi(piece.offset); err != nil || told != from || to != from+len(piece.data) {
				t.Errorf("%d bytes taken at %q: it was at %d and is at %d", len(piece.data), piece.offset, from, to)
			}
		}
		if w := ask("GET", nil, "", ""); w.Code == http.StatusOK && sha256.Sum256(w.Body.Bytes()) != sum {
			t.Error("what is handed out is not what its name says")
		}
	})
}
