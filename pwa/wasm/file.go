package main

import (
	"encoding/json"
	"fmt"
	"strings"

	"linkrod/radial/book"
	"linkrod/sync"
)

// fileWrite {books: [{book, entries: [{entry, seq, author}]}], prefs} makes the
// one file of everything on this phone.
func fileWrite(args []byte) (any, error) {
	a, err := unpack[struct {
		Books []json.RawMessage `json:"books"`
		Prefs json.RawMessage   `json:"prefs"`
	}](args)
	if err != nil {
		return nil, err
	}
	text, err := sync.EncodeFile(a.Prefs, a.Books)
	return struct {
		Text string `json:"text"`
	}{string(text)}, err
}

// fileRead {text} says what such a file holds, each book with the name its
// entries give it. What had to be left out is in the summary.
func fileRead(args []byte) (any, error) {
	a, err := unpack[struct {
		Text string `json:"text"`
	}](args)
	if err != nil {
		return nil, err
	}
	file, problems, err := sync.DecodeFile([]byte(a.Text))
	if err != nil {
		return nil, err
	}
	type named struct {
		Name string `json:"name"`
		sync.FileBook
	}
	read := struct {
		Books   []named         `json:"books"`
		Prefs   json.RawMessage `json:"prefs,omitempty"`
		Summary string          `json:"summary"`
	}{Books: []named{}, Prefs: file.Prefs}
	lines := 0
	for _, b := range file.Books {
		name, err := nameOf(b)
		if err != nil {
			return nil, err
		}
		if b.Entries == nil {
			b.Entries = []sync.Kept{}
		}
		read.Books = append(read.Books, named{name, b})
		lines += len(b.Entries)
	}
	read.Summary = strings.Join(append([]string{fmt.Sprintf("%s with %s.", some(len(read.Books), "engine"), some(lines, "line"))}, problems...), "\n")
	return read, nil
}

// nameOf is what the entries of a book call the engine.
func nameOf(b sync.FileBook) (string, error) {
	text, err := json.Marshal(b.Entries)
	if err != nil {
		return "", err
	}
	var records []book.Record
	if err := json.Unmarshal(text, &records); err != nil {
		return "", err
	}
	return book.Open(records).View(b.Book.String(), book.Now{}).Name, nil
}

func some(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
