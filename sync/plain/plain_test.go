package plain

import (
	"bytes"
	"encoding/json"
	"math"
	"reflect"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"
)

// tree is a value as encoding/json would give it.
func tree(v Value) any {
	switch v.Kind() {
	case Bool:
		return v.Bool()
	case Number:
		return json.Number(v.Raw())
	case Text:
		return v.Text()
	case List:
		list := []any{}
		for _, e := range v.Items() {
			list = append(list, tree(e))
		}
		return list
	case Object:
		o := map[string]any{}
		for i, n := range v.Names() {
			o[n] = tree(v.Items()[i])
		}
		return o
	}
	return nil
}

// agree holds Parse against encoding/json, and names where the two may differ:
// RFC 7493 refuses what RFC 8259 leaves open.
func agree(t *testing.T, data []byte) {
	t.Helper()
	v, err := Parse(data)
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.UseNumber()
	var want any
	wrong := dec.Decode(&want)
	if wrong == nil && dec.More() || !json.Valid(data) {
		wrong = json.Unmarshal([]byte("x"), &want)
	}
	if err != nil {
		if wrong == nil && !stricter(data) {
			t.Errorf("%q: refused (%v), and encoding/json reads it", data, err)
		}
		return
	}
	if wrong != nil {
		t.Fatalf("%q: read, and encoding/json says %v", data, wrong)
	}
	if got := tree(v); !reflect.DeepEqual(got, want) {
		t.Errorf("%q: %#v, encoding/json says %#v", data, got, want)
	}
}

// stricter reports that data has something only I-JSON refuses: text that is not
// UTF-8, half a surrogate pair, a name twice, or brackets very deep.
func stricter(data []byte) bool {
	return !utf8.Valid(data) || bytes.Count(data, []byte(":")) > maxNames || bytes.Contains(bytes.ToLower(data), []byte(`\ud`)) ||
		bytes.Count(data, []byte("[")) > maxDepth || bytes.Count(data, []byte("{")) > maxDepth || twice(data)
}

func twice(data []byte) bool {
	dec := json.NewDecoder(bytes.NewReader(data))
	var walk func() bool
	walk = func() bool {
		tok, err := dec.Token()
		if err != nil {
			return false
		}
		switch tok {
		case json.Delim('['):
			for dec.More() {
				if walk() {
					return true
				}
			}
			_, _ = dec.Token()
		case json.Delim('{'):
			seen := map[any]bool{}
			for dec.More() {
				name, _ := dec.Token()
				if seen[name] {
					return true
				}
				seen[name] = true
				if walk() {
					return true
				}
			}
			_, _ = dec.Token()
		}
		return false
	}
	return walk()
}

var texts = []string{
	``, ` `, `null`, `true`, ` false `, `nul`, `truex`, `0`, `-0`, `01`, `1.`, `.5`, `-`, `1e`, `1E+2`, `1e-2`, `-1.25e3`, `1.5 2`,
	`""`, `"a"`, `"a`, `"\"\\\/\b\f\n\r\t"`, `"\u00e9\u2009"`, `"\ud83d\ude00"`, `"\ud83d"`, `"\ude00\ud83d"`, `"\x"`, `"\u12g4"`, "\"a\nb\"", "\"\x00\"", "\"\xff\"",
	`[]`, `[ ]`, `[1,2]`, `[1,]`, `[,1]`, `[1 2]`, `[`, `]`, `[[[]]]`, `{}`, `{"a":1}`, `{"a":1,}`, `{"a"}`, `{a:1}`, `{"a":1,"a":2}`, `{"a":{"b":[{"c":null}]}}`,
	`{"a" : 1 , "b":"x"}`, strings.Repeat("[", 101) + strings.Repeat("]", 101), strings.Repeat("[", 10000), `{"type":"oil","level":{"v":"15.50","u":"qt"}}`, "\ufeff1",
}

func TestParseAgreesWithEncodingJSON(t *testing.T) {
	for _, s := range texts {
		agree(t, []byte(s))
	}
	for _, s := range []string{`{"a":1,"a":2}`, `"\ud83d"`, "\"\xff\"", strings.Repeat("[", 102) + strings.Repeat("]", 102), manyNames()} {
		if _, err := Parse([]byte(s)); err == nil {
			t.Errorf("%.20q is not I-JSON and was read", s)
		}
	}
}

// manyNames is an object of one field too many.
func manyNames() string {
	s := `{"x":0`
	for i := range maxNames {
		s += `,"` + strconv.Itoa(i) + `":0`
	}
	return s + "}"
}

func FuzzParse(f *testing.F) {
	for _, s := range texts {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) { agree(t, data) })
}

func TestLookups(t *testing.T) {
	v, err := Parse([]byte(`{"a":{"b":[1,2.5,"x",true,null]},"n":-12,"big":9223372036854775808,"e":1e3}`))
	if err != nil {
		t.Fatal(err)
	}
	b := v.Get("a").Get("b").Items()
	if n, ok := b[0].Int(); n != 1 || !ok {
		t.Errorf("first is %d, %v", n, ok)
	}
	if _, ok := b[1].Int(); ok {
		t.Error("2.5 is no whole number")
	}
	if f, ok := b[1].Float(); f != 2.5 || !ok {
		t.Errorf("second is %v", f)
	}
	if _, ok := b[2].Float(); ok {
		t.Error(`"x" is no number`)
	}
	if b[2].Text() != "x" || !b[3].Bool() || b[4].Given() || b[4].Kind() != Null {
		t.Error("text, true or null misread")
	}
	if n, ok := v.Get("n").Int(); n != -12 || !ok {
		t.Errorf("n is %d", n)
	}
	if _, ok := v.Get("big").Int(); ok {
		t.Error("2^63 is no int64")
	}
	if _, ok := v.Get("e").Int(); ok {
		t.Error("1e3 is not written whole")
	}
	deep := v.Get("no").Get("such").Get("thing")
	if deep.Kind() != Absent || deep.Given() || deep.Text() != "" || deep.Bool() || deep.Raw() != nil {
		t.Error("what is absent must be nothing at all")
	}
	if got := string(v.Get("a").Raw()); got != `{"b":[1,2.5,"x",true,null]}` {
		t.Errorf("raw is %s", got)
	}
}

func TestWriterIsReadBack(t *testing.T) {
	var w Writer
	w.Begin('{')
	w.Text("text", "é \"q\" \\ \n\t\x01 \u2028 \xff")
	w.Int("int", -5)
	w.Number("number", 0.1)
	w.Number("large", 1e21)
	w.Number("none", math.NaN())
	w.Bool("bool", true)
	w.Null("null")
	w.Raw("raw", []byte(`{"a":[]}`))
	w.Raw("no raw", nil)
	w.Texts("list", []string{"a", ""})
	w.Texts("empty", nil)
	w.Open("o", '{')
	w.End('}')
	w.Open("l", '[')
	w.Int("", 1)
	w.Begin('[')
	w.End(']')
	w.Text("", "x")
	w.End(']')
	w.End('}')
	agree(t, w.Bytes())
	var got any
	if err := json.Unmarshal(w.Bytes(), &got); err != nil {
		t.Fatalf("%v in %s", err, w.Bytes())
	}
	want := map[string]any{
		"text": "é \"q\" \\ \n\t\x01 \u2028 \ufffd", "int": -5.0, "number": 0.1, "large": 1e21, "none": nil, "bool": true, "null": nil,
		"raw": map[string]any{"a": []any{}}, "no raw": nil, "list": []any{"a", ""}, "empty": []any{},
		"o": map[string]any{}, "l": []any{1.0, []any{}, "x"},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%s\nreads %#v", w.Bytes(), got)
	}
}

func FuzzQuote(f *testing.F) {
	f.Add("a\"b\\\x00é\xff")
	f.Fuzz(func(t *testing.T, s string) {
		var got string
		if err := json.Unmarshal(Quote(nil, s), &got); err != nil || got != strings.ToValidUTF8(s, "\ufffd") && utf8.ValidString(s) {
			t.Errorf("%q became %q, %v", s, got, err)
		}
		v, err := Parse(Quote(nil, s))
		if err != nil || v.Text() != got {
			t.Errorf("%q is read back as %q, %v", s, v.Text(), err)
		}
	})
}
