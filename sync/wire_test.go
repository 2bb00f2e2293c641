package sync

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"errors"
	"strings"
	"testing"
)

// Ensure each malformed entry is refused with a sentence that names what is
// wrong, and never with a silent default.
func TestDecodeEntryRefuses(t *testing.T) {
	good, _ := json.Marshal(wireVectors(t).Entries[2])
	var e Entry
	if err := json.Unmarshal(good, &e); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct{ name, old, new, words string }{
		{"cut short", `"clock":{"wall":0,"zone":0}}`, `"clock":{"wall":0`, "not whole"},
		{"a list", string(good), `[1,2]`, "must be a JSON object"},
		{"field missing", `"seen":2,`, ``, `no field "seen"`},
		{"field unknown", `"seen":2`, `"seen":2,"salt":1`, `"salt", which this version does not know`},
		{"field twice", `"seen":2`, `"seen":2,"seen":3`, "not whole"},
		{"other letter case", `"seen"`, `"Seen"`, `"seen"`},
		{"upper-case hex", `"000102030405060708090a0b0c0d0e0f","n":3`, `"000102030405060708090A0B0C0D0E0F","n":3`, "lower-case hex"},
		{"short hex", `"prev":"`, `"prev":"0`, "64 hex digits"},
		{"number as text", `"n":3`, `"n":"3"`, "whole number"},
		{"fraction", `"n":3`, `"n":3.5`, "whole number"},
		{"exponent", `"n":3`, `"n":3e0`, "whole number"},
		{"negative", `"n":3`, `"n":-3`, "whole number"},
		{"beyond 2^53", `"seen":2`, `"seen":9007199254740993`, "whole number"},
		{"null", `"refs":[`, `"refs":null,"x":[`, "must be a list"},
		{"ref without n", `,"n":2}]`, `}]`, `no field "n"`},
		{"ref with more", `,"n":2}]`, `,"n":2,"x":1}]`, `unknown field "x"`},
		{"not base64", `"body":"`, `"body":"!`, `field "body"`},
		{"loose base64", `"body":"`, `"body":"A`, `field "body"`},
		{"a second spelling of the same bytes", `"body":"` + base64.StdEncoding.EncodeToString(e.Body), `"body":"AB==`, `field "body"`},
		{"clock as text", `"wall":0`, `"wall":"0"`, "whole numbers"},
		{"schema too large", `"schema":1`, `"schema":9007199254740991`, "from 0 to 1073741824"},
	} {
		text := strings.Replace(string(good), test.old, test.new, 1)
		if text == string(good) {
			t.Fatalf("%s: nothing to replace", test.name)
		}
		var e Entry
		var f *Fault
		if err := e.UnmarshalJSON([]byte(text)); !errors.As(err, &f) || f.Code != CodeShape || !strings.Contains(f.Words, test.words) {
			t.Errorf("%s: %v, want words with %q", test.name, err, test.words)
		}
	}
}

// Ensure a batch is refused whole only when it can't be told whose entries
// these are; anything less sets one entry aside.
func TestDecodePush(t *testing.T) {
	v := wireVectors(t)
	book := v.Entries[0].Book
	batch := func(entries ...string) string {
		return `{"device":"` + v.Entries[0].Device.String() + `","entries":[` + strings.Join(entries, ",") + `],"later":"version"}`
	}
	var e [3]string
	for i := range e {
		b, _ := json.Marshal(v.Entries[i])
		e[i] = string(b)
	}
	swap := func(s, old, new string) string { return strings.Replace(s, old, new, 1) }

	p, err := DecodePush([]byte(batch(e[0], e[1], e[2])), book)
	if err != nil || len(p.Sent) != 3 || p.Sent[0].Fault != nil || p.Sent[2].Fault != nil {
		t.Fatalf("DecodePush = %+v, %v", p, err)
	}

	for _, test := range []struct{ name, entry, code string }{
		{"a body changed on the way", swap(e[1], `"body":"ey`, `"body":"fy`), CodeHash},
		{"a kind of the future", swap(e[1], `"kind":"fact"`, `"kind":"photo"`), CodeKind},
		{"a field of the future", swap(e[1], `"seen"`, `"salt":1,"seen"`), CodeShape},
		{"no body", swap(e[1], `"body"`, `"bodi"`), CodeShape},
		{"no device", swap(e[1], `"device":"000`, `"device":"x00`), CodeShape},
		{"device of zeros", swap(e[1], v.Entries[0].Device.String(), strings.Repeat("0", 32)), CodeShape},
	} {
		p, err := DecodePush([]byte(batch(e[0], test.entry, e[2])), book)
		if err != nil {
			t.Errorf("%s: the whole batch was refused: %v", test.name, err)
			continue
		}
		s := p.Sent[1]
		if s.Fault == nil || s.Fault.Code != test.code || s.Entry.N != 2 || s.Entry.Hash != v.Entries[1].Hash || !bytes.Equal(s.Raw, []byte(test.entry)) {
			t.Errorf("%s: %+v, want fault %q and what came", test.name, s.Fault, test.code)
		}
		if p.Sent[0].Fault != nil || p.Sent[2].Fault != nil {
			t.Errorf("%s: its neighbours suffered", test.name)
		}
	}

	for _, test := range []struct{ name, text, words string }{
		{"cut short", batch(e[0])[:90], "not whole"},
		{"no device", swap(batch(e[0]), `"device"`, `"devise"`), "which device"},
		{"no entries", `{"device":"` + v.Entries[0].Device.String() + `"}`, "no list of entries"},
		{"no number", batch(swap(e[0], `"n":1`, `"n":null`)), "no usable number or hash"},
		{"no hash", batch(swap(e[0], `"hash":"6`, `"hash":"g`)), "no usable number or hash"},
		{"of another device", batch(swap(e[0], `"device":"00`, `"device":"01`)), "another device or book"},
		{"of another book", batch(swap(e[0], `"book":"00`, `"book":"01`)), "another device or book"},
		{"too many", batch(strings.Repeat("0,", MaxBatchEntries) + "0"), "at most 500"},
		{"too long", batch(e[0]) + strings.Repeat(" ", MaxBatchBytes), "at most 262144"},
	} {
		if _, err := DecodePush([]byte(test.text), book); err == nil || !strings.Contains(err.Error(), test.words) {
			t.Errorf("%s: %v, want words with %q", test.name, err, test.words)
		}
	}
}

// go test -fuzz=FuzzDecodeEntry -fuzztime=20s ./sync
func FuzzDecodeEntry(f *testing.F) {
	for _, e := range wireVectors(f).Entries {
		b, _ := json.Marshal(e)
		f.Add(b)
	}
	f.Add([]byte(`{"n":1e9}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		var e Entry
		if err := json.Unmarshal(data, &e); err != nil {
			return
		}
		text, err := json.Marshal(e)
		if err != nil {
			t.Fatalf("read and can't be written: %v", err)
		}
		var back Entry
		if err := json.Unmarshal(text, &back); err != nil {
			t.Fatalf("written and can't be read: %v\n%s", err, text)
		}
		if back.Sum() != e.Sum() || back.Hash != e.Hash {
			t.Fatalf("changed on its way:\n%s\n%s", data, text)
		}
	})
}

// go test -fuzz=FuzzDecodePush -fuzztime=20s ./sync
//
// Whatever arrives, every entry gets one answer, the ledger stays whole, and
// sending the same again changes nothing (D1, D2).
func FuzzDecodePush(f *testing.F) {
	v := wireVectors(f)
	book := v.Entries[0].Book
	seed, _ := json.Marshal(map[string]any{"device": v.Entries[0].Device, "entries": v.Entries[:3]})
	f.Add(seed)
	f.Add(bytes.Replace(seed, []byte(`"n":2`), []byte(`"n":9`), 1))
	f.Add(bytes.Replace(seed, []byte(`"kind":"fact"`), []byte(`"kind":"fiction"`), 1))
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := DecodePush(data, book)
		if err != nil {
			if !strings.HasSuffix(err.Error(), ".") {
				t.Errorf("not a sentence: %q", err)
			}
			return
		}
		l := newLedger()
		once := l.push(p.Sent)
		before := l.head
		again := l.push(p.Sent)
		if len(once) != len(p.Sent) || len(again) != len(p.Sent) {
			t.Fatalf("%d entries, %d and %d answers", len(p.Sent), len(once), len(again))
		}
		if l.head != before {
			t.Fatal("the same batch again changed the ledger")
		}
		l.check(t)
	})
}
