package sync

import (
	"bytes"
	"encoding/json"
	"fmt"
)

// File is everything a phone holds, in one file: the backup of somebody
// without an account, and the way from one phone to another.
//
// It is JSON: {"linkrod": "everything", "version": 1, "prefs": {…}, "books":
// [{"book": id, "entries": [{"seq", "author", "entry"}, …]}, …]}. Entries are
// as they were written, so that taking a file twice changes nothing; seq is
// where the ledger had them (0: not sent), and evidence only. prefs are the
// phone's own and not looked into here. testdata/wire/file-1.json is one.
type File struct {
	Prefs json.RawMessage `json:"prefs,omitempty"`
	Books []FileBook      `json:"books"`
}

// FileBook is one book of a [File].
type FileBook struct {
	Book    ID     `json:"book"`
	Entries []Kept `json:"entries"`
}

// Kept is one entry of a [FileBook].
type Kept struct {
	Seq    uint64 `json:"seq"`
	Author string `json:"author"`
	Entry  Entry  `json:"entry"`
}

const (
	fileWhat    = "everything"
	fileVersion = 1
)

// EncodeFile writes a file. Entries go in as the phone's storage holds them,
// unread: an entry that was damaged there must not keep the others out.
func EncodeFile(prefs json.RawMessage, books []json.RawMessage) ([]byte, error) {
	return json.Marshal(struct {
		Linkrod string            `json:"linkrod"`
		Version int               `json:"version"`
		Prefs   json.RawMessage   `json:"prefs,omitempty"`
		Books   []json.RawMessage `json:"books"`
	}{fileWhat, fileVersion, prefs, books})
}

// DecodeFile reads a file. What of it can't be relied on, it leaves out and
// says so, one sentence each: an entry that can't be read, does not match its
// checksum, or stands in another book. The error, a *Fault, is of a file that
// is none, is cut short, or was made by a newer version.
func DecodeFile(data []byte) (File, []string, error) {
	// Some editors put a byte order mark in front of what they save.
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	var head struct {
		Linkrod string          `json:"linkrod"`
		Version int             `json:"version"`
		Prefs   json.RawMessage `json:"prefs"`
		Books   []struct {
			Book    ID `json:"book"`
			Entries []struct {
				Seq    uint64          `json:"seq"`
				Author string          `json:"author"`
				Entry  json.RawMessage `json:"entry"`
			} `json:"entries"`
		} `json:"books"`
	}
	if !json.Valid(data) {
		return File{}, nil, faultf(CodeShape, "This file is cut short, or is not one that Linkrod saved.")
	}
	err := json.Unmarshal(data, &head)
	switch {
	case head.Linkrod != fileWhat:
		return File{}, nil, faultf(CodeShape, "This is not a file that Linkrod saved.")
	case head.Version > fileVersion:
		return File{}, nil, faultf(CodeShape, "This file was saved by a newer Linkrod (version %d, this one reads up to %d). Update it, then open the file again.", head.Version, fileVersion)
	case err != nil:
		return File{}, nil, faultf(CodeShape, "This file was changed after Linkrod saved it and can't be read any more: %v.", err)
	}
	file := File{Prefs: head.Prefs}
	var problems []string
	for i, b := range head.Books {
		book := FileBook{Book: b.Book}
		for j, k := range b.Entries {
			var e Entry
			err := json.Unmarshal(orNull(k.Entry), &e)
			if err == nil {
				err = e.Verify()
			}
			if err == nil && e.Book != b.Book {
				err = faultf(CodeShape, "It belongs to another book.")
			}
			if err != nil {
				problems = append(problems, fmt.Sprintf("Line %d of book %d was left out. %v", j+1, i+1, err))
				continue
			}
			book.Entries = append(book.Entries, Kept{k.Seq, k.Author, e})
		}
		file.Books = append(file.Books, book)
	}
	return file, problems, nil
}
