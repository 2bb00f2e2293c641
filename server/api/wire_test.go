package api_test

import (
	"bytes"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"linkrod/server/people"
	"linkrod/server/store"
	"linkrod/server/store/storetest"
	"linkrod/server/witness"
	"linkrod/sync"
)

// example is a file of testdata/wire.
func example(t *testing.T, name string, v any) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("../../testdata/wire", name))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, v); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}

// Messages grow and never change: whatever a phone of any version was told to
// expect (testdata/wire, never edited) is in the answers of today, of the same
// kind.
func TestAnswersHaveEverythingTheyHad(t *testing.T) {
	s := openShop(t, store.Memory())
	s.ann.want(t, http.StatusOK, "PUT", path(book, ""), map[string]any{}, nil)
	s.benJoins(t, people.Reader)
	s.ann.push(t, phoneA, storetest.Written(phoneA, book, 1, 3, sync.Hash{}))
	s.ben.push(t, phoneB, storetest.Written(phoneB, book, 1, 1, sync.Hash{}))
	var inv struct {
		Link string
	}
	s.ann.want(t, http.StatusOK, "POST", path(book, "/invitations"), map[string]any{"role": "helper"}, &inv)
	_, secret, _ := strings.Cut(inv.Link, "#")
	cyd := caller{shop: s}
	var in struct{ Access string }
	cyd.want(t, http.StatusOK, "POST", "/api/v1/invitations/claim", map[string]any{"secret": secret, "name": "Cyd", "passphrase": "a passphrase long enough", "device": sync.ID{0x0c}}, &in)
	s.ann.want(t, http.StatusOK, "POST", path(book, "/invitations"), map[string]any{"role": "owner"}, &inv)
	_, secret, _ = strings.Cut(inv.Link, "#")
	for _, tt := range []struct {
		file, method, path string
		body               any
	}{
		{"hello-reply-1.json", "GET", "/api/v1/hello", nil},
		{"hello-reply-2.json", "GET", "/api/v1/hello", nil},
		{"open-reply-2.json", "PUT", path(book, ""), map[string]any{}},
		{"push-reply-1.json", "POST", path(book, "/push"), pushOf(phoneA, storetest.Written(phoneA, book, 1, 3, sync.Hash{}))},
		{"pull-reply-1.json", "GET", path(book, "/pull"), nil},
		{"head-reply-1.json", "GET", path(book, "/head"), nil},
		{"chain-reply-1.json", "GET", path(book, "/chain?at=1,2"), nil},
		{"members-reply-1.json", "GET", path(book, "/members"), nil},
		{"invitation-reply-1.json", "POST", path(book, "/invitations"), map[string]any{"role": "reader"}},
		{"invitations-reply-1.json", "GET", path(book, "/invitations"), nil},
		{"look-reply-1.json", "POST", "/api/v1/invitations/look", map[string]any{"secret": secret}},
		{"aside-reply-1.json", "GET", path(book, "/aside"), nil},
		{"waiting-reply-1.json", "GET", "/api/v1/aside", nil},
		{"devices-reply-1.json", "GET", "/api/v1/devices", nil},
		{"last-reply-1.json", "GET", "/api/v1/devices/" + phoneA.String() + "/last", nil},
		{"people-reply-1.json", "GET", "/api/v1/people", nil},
		{"journal-reply-1.json", "GET", "/api/v1/journal", nil},
	} {
		var want, got any
		example(t, tt.file, &want)
		s.ann.want(t, http.StatusOK, tt.method, tt.path, tt.body, &got)
		for _, missing := range lacks("", want, got) {
			t.Errorf("%s: the answer of today has no %s", tt.file, missing)
		}
	}
	// The one that changes who asks: Ben accepts what Ann looked at.
	s.ann.want(t, http.StatusNoContent, "DELETE", path(book, "/members/"+s.ben.id.String()), nil, nil)
	var want, got any
	example(t, "join-reply-1.json", &want)
	s.ben.want(t, http.StatusOK, "POST", "/api/v1/invitations/claim", map[string]any{"secret": secret}, &got)
	for _, missing := range lacks("", want, got) {
		t.Errorf("join-reply-1.json: the answer of today has no %s", missing)
	}
}

// optional fields stand in an answer only when there is something to say.
var optional = map[string]bool{".restored": true, ".results[].code": true, ".results[].words": true, ".results[].from": true,
	".members[].you": true, ".people[].host": true}

// lacks lists the fields of want that got has not, or of another kind. Of lists
// the first items are compared.
func lacks(at string, want, got any) (missing []string) {
	switch w := want.(type) {
	case map[string]any:
		g, ok := got.(map[string]any)
		if !ok {
			return []string{at + " (an object)"}
		}
		for name, v := range w {
			if _, there := g[name]; !there {
				if !optional[at+"."+name] {
					missing = append(missing, at+"."+name)
				}
				continue
			}
			missing = append(missing, lacks(at+"."+name, v, g[name])...)
		}
	case []any:
		g, ok := got.([]any)
		if !ok || len(w) > 0 && len(g) == 0 {
			return []string{at + " (a list of something)"}
		}
		if len(w) > 0 {
			missing = lacks(at+"[]", w[0], g[0])
		}
	default:
		if fmt.Sprintf("%T", want) != fmt.Sprintf("%T", got) {
			missing = append(missing, fmt.Sprintf("%s (it is %T)", at, got))
		}
	}
	return missing
}

// The receipt another program signed, with the key of RFC 8032, is the one this
// server would give, byte for byte; the journal another program chained follows.
func TestReceiptAndJournalOfAnotherProgram(t *testing.T) {
	var r struct {
		Receipt sync.Receipt
		Message string
		Public  string
	}
	example(t, "receipt-1.json", &r)
	seed, err := hex.DecodeString("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60")
	if err != nil {
		t.Fatal(err)
	}
	ours := witness.New([32]byte(seed)).Sign(r.Receipt.Book, sync.Head{Seq: r.Receipt.Seq, Chain: r.Receipt.Chain}, r.Receipt.Received)
	if hex.EncodeToString(ours.Message()) != r.Message || !bytes.Equal(ours.Sig, r.Receipt.Sig) {
		t.Errorf("signed %x over %x\nwant   %x over %s", ours.Sig, ours.Message(), r.Receipt.Sig, r.Message)
	}
	var j struct{ Lines []people.Line }
	example(t, "journal-reply-1.json", &j)
	var line people.Line
	for i := len(j.Lines) - 1; i >= 0; i-- {
		if line = line.Next(j.Lines[i].Event); line != j.Lines[i] {
			t.Errorf("line %d: %+v\nwant %+v", i, line, j.Lines[i])
		}
	}
	if len(j.Lines) != 3 {
		t.Errorf("%d lines", len(j.Lines))
	}
}

// What a phone hands back after a restore is taken as the example of it says.
func TestSalvageExample(t *testing.T) {
	var salvage struct {
		After   sync.Head
		Records []json.RawMessage
		Receipt sync.Receipt
	}
	example(t, "salvage-1.json", &salvage)
	book := salvage.Receipt.Book
	var page struct{ Records []sync.Record }
	example(t, "pull-reply-1.json", &page)
	for _, proven := range []bool{true, false} {
		db := store.Memory()
		s := openShop(t, db)
		s.ann.want(t, http.StatusOK, "PUT", path(book, ""), map[string]any{}, nil)
		data, err := os.ReadFile("../../testdata/wire/salvage-1.json")
		if err != nil {
			t.Fatal(err)
		}
		// The ledger stands where the example says it was put back to.
		whole := sync.Salvage{Records: page.Records[:salvage.After.Seq]}
		last := whole.Records[len(whole.Records)-1]
		whole.Receipt = &sync.Receipt{Book: book, Seq: last.Seq, Chain: last.Chain}
		if _, head, err := db.Salvage(t.Context(), book, s.ann.id, whole, true, 1); err != nil || head != salvage.After {
			t.Fatalf("%+v, %v", head, err)
		}
		read, err := sync.DecodeSalvage(data, book)
		if err != nil {
			t.Fatal(err)
		}
		results, head, err := db.Salvage(t.Context(), book, s.ann.id, read, proven, 1)
		if err != nil || len(results) != len(salvage.Records) {
			t.Fatalf("%+v, %v", results, err)
		}
		if want := (sync.Head{Seq: salvage.Receipt.Seq, Chain: salvage.Receipt.Chain}); proven != (head == want) {
			t.Errorf("proven %v: it leads to %+v, the receipt is of %+v", proven, head, want)
		}
	}
}
