package sync

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"linkrod/sync/plain"
)

func parsed(t *testing.T, v any) plain.Value {
	t.Helper()
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	p, err := plain.Parse(data)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// Ensure what the server writes with encoding/json is what the phone reads
// without it.
func TestMessagesAgreeWithEncodingJSON(t *testing.T) {
	for _, want := range wireVectors(t).Records {
		want.Author = "Ann “Sparky” Example\n<&>"
		if got, err := ReadRecord(parsed(t, want)); err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("record %+v\nread as %+v, %v", want, got, err)
		}
	}
	head := Head{Seq: MaxNumber, Chain: Hash{1, 2, 3}}
	if got, err := ReadHead(parsed(t, head)); err != nil || got != head {
		t.Errorf("ReadHead = %+v, %v", got, err)
	}
	var w plain.Writer
	head.Write(&w, "")
	var back Head
	if err := json.Unmarshal(w.Bytes(), &back); err != nil || back != head {
		t.Errorf("Head.Write: %s", w.Bytes())
	}
	for _, r := range []Result{{N: 1, State: OK, Seq: 2}, {N: 3, State: Gap, From: 2, Code: "gap", Words: "No."}} {
		if got := ReadResult(parsed(t, r)); got != r {
			t.Errorf("ReadResult = %+v, want %+v", got, r)
		}
	}
	entry := wireVectors(t).Entries[3]
	viaTags, err := json.Marshal(struct{ Entry Entry }{entry})
	if err != nil || !strings.Contains(string(viaTags), `"prev":"1111`) {
		t.Errorf("%s, %v", viaTags, err)
	}
}

// Ensure a record that is not whole is refused with the field's name, and a
// result that makes no sense is no success.
func TestMessagesRefuse(t *testing.T) {
	good, err := json.Marshal(wireVectors(t).Records[0])
	if err != nil {
		t.Fatal(err)
	}
	for _, field := range []string{"seq", "received", "account", "author", "chain"} {
		v, err := plain.Parse([]byte(strings.Replace(string(good), `"`+field+`"`, `"x"`, 1)))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := ReadRecord(v); err == nil || !strings.Contains(err.Error(), field) {
			t.Errorf("without %s: %v", field, err)
		}
	}
	if _, err := ReadHead(plain.Value{}); err == nil {
		t.Error("nothing was read as a position")
	}
	odd, err := plain.Parse([]byte(`{"n":1,"state":"ok","seq":"9"}`))
	if err != nil {
		t.Fatal(err)
	}
	if r := ReadResult(odd); r.Seq != 0 {
		t.Errorf("an answer that makes no sense was read as %+v", r)
	}
}
