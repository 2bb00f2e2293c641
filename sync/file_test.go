package sync

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"linkrod/sync/plain"
)

func fileExample(tb testing.TB) []byte {
	tb.Helper()
	data, err := os.ReadFile("../testdata/wire/file-1.json")
	if err != nil {
		tb.Fatal(err)
	}
	return data
}

// Ensure the example file is read, and written again as the same file.
func TestFileRoundTrip(t *testing.T) {
	file, problems, err := DecodeFile(fileExample(t))
	if err != nil || len(problems) > 0 {
		t.Fatalf("%q, %v", problems, err)
	}
	if len(file.Books) != 2 || len(file.Books[0].Entries) != 3 || len(file.Books[1].Entries) != 0 ||
		file.Books[0].Entries[0].Author != "DEMO mechanic" || file.Books[0].Entries[2].Seq != 0 {
		t.Errorf("read as %+v", file)
	}
	var books [][]byte
	for _, b := range file.Books {
		var w plain.Writer
		w.Begin('{')
		w.Text("book", b.Book.String())
		w.Open("entries", '[')
		for _, k := range b.Entries {
			k.Write(&w, "")
		}
		w.End(']')
		w.End('}')
		books = append(books, w.Bytes())
	}
	again := EncodeFile(file.Prefs, books)
	back, problems, err := DecodeFile(append([]byte("\xef\xbb\xbf"), again...))
	a, _ := json.Marshal(file)
	b, _ := json.Marshal(back)
	if err != nil || len(problems) > 0 || string(a) != string(b) {
		t.Errorf("changed on its way: %q, %v\n%s\n%s", problems, err, a, b)
	}
}

// Ensure what is wrong with a file is said, and one bad line keeps nothing
// else out.
func TestDecodeFileSaysWhatIsWrong(t *testing.T) {
	good := string(fileExample(t))
	for _, test := range []struct{ name, old, new, words string }{
		{"cut short", good[len(good)-40:], "", "cut short"},
		{"a shopping list", good, "oil, rags, cotter pins", "cut short, or is not one"},
		{"other JSON", good, `{"books":[]}`, "not a file that Linkrod saved"},
		{"from the future", `"version": 1`, `"version": 2`, "newer Linkrod"},
	} {
		text := strings.Replace(good, test.old, test.new, 1)
		if text == good {
			t.Fatalf("%s: nothing to replace", test.name)
		}
		if _, _, err := DecodeFile([]byte(text)); err == nil || !strings.Contains(err.Error(), test.words) {
			t.Errorf("%s: %v, want words with %q", test.name, err, test.words)
		}
	}
	for _, test := range []struct{ name, old, new, words string }{
		{"a damaged line", `"body": "eyJ0eXBlIjoib2ls`, `"body": "eyJ0eXBlIjoib2ll`, "Line 2 of book 1 was left out. Entry 2 does not match its own checksum"},
		{"a line with a field missing", `"schema": 1,`, ``, `Line 1 of book 1 was left out. The entry has no field "schema"`},
		{"a place that is no number", `"seq": 1`, `"seq": "one"`, "Line 1 of book 1 was left out. Its place in the ledger"},
		{"lines of another book", `"book": "00112233445566778899aabbccddeeff",`, `"book": "10112233445566778899aabbccddeeff",`, "another book"},
	} {
		text := strings.Replace(good, test.old, test.new, 1)
		if text == good {
			t.Fatalf("%s: nothing to replace", test.name)
		}
		file, problems, err := DecodeFile([]byte(text))
		if err != nil || len(problems) == 0 || !strings.Contains(problems[0], test.words) {
			t.Errorf("%s: %q, %v; want words with %q", test.name, problems, err, test.words)
			continue
		}
		if kept := len(file.Books[0].Entries); kept != 3-len(problems) {
			t.Errorf("%s: %d lines kept, %d left out", test.name, kept, len(problems))
		}
	}
}

// Ensure a phone whose storage holds something unreadable still gets its
// file, with the unreadable in it as it is.
func TestEncodeFileOfDamagedStorage(t *testing.T) {
	text := EncodeFile(nil, [][]byte{[]byte(`{"book":"00112233445566778899aabbccddeeff","entries":[{"seq":0,"author":"","entry":{"n":"?"}}]}`)})
	file, problems, err := DecodeFile(text)
	if err != nil || len(file.Books) != 1 || len(problems) != 1 || !strings.Contains(string(text), `{"n":"?"}`) {
		t.Errorf("%+v %q %v", file, problems, err)
	}
}

// go test -fuzz=FuzzDecodeFile -fuzztime=20s ./sync
func FuzzDecodeFile(f *testing.F) {
	f.Add(fileExample(f))
	f.Add([]byte(`{"linkrod":"everything","version":1,"books":[{"entries":[{}]}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		file, _, err := DecodeFile(data)
		if err != nil {
			if !strings.HasSuffix(err.Error(), ".") {
				t.Errorf("not a sentence: %q", err)
			}
			return
		}
		for _, b := range file.Books {
			for _, k := range b.Entries {
				if err := k.Entry.Verify(); err != nil || k.Entry.Book != b.Book {
					t.Errorf("taken and not sound: %v", err)
				}
			}
		}
	})
}
