package sync

import (
	"bytes"

	"linkrod/sync/plain"
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
	Prefs []byte // JSON; nil for none
	Books []FileBook
}

// FileBook is one book of a [File].
type FileBook struct {
	Book    ID
	Entries []Kept
}

// Kept is one entry of a [FileBook].
type Kept struct {
	Seq    uint64
	Author string
	Entry  Entry
}

const (
	fileWhat    = "everything"
	fileVersion = 1
)

// EncodeFile writes a file. prefs and books are JSON as the phone's storage
// holds it, and go in unread: an entry that was damaged there must not keep
// the others out.
func EncodeFile(prefs []byte, books [][]byte) []byte {
	var w plain.Writer
	w.Begin('{')
	w.Text("linkrod", fileWhat)
	w.Int("version", fileVersion)
	if prefs != nil {
		w.Raw("prefs", prefs)
	}
	w.Open("books", '[')
	for _, b := range books {
		w.Raw("", b)
	}
	w.End(']')
	w.End('}')
	return w.Bytes()
}

// DecodeFile reads a file. What of it can't be relied on, it leaves out and
// says so, one sentence each: an entry that can't be read, does not match its
// checksum, or stands in another book. The error, a *Fault, is of a file that
// is none, is cut short, or was made by a newer version.
func DecodeFile(data []byte) (file File, problems []string, err error) {
	// Some editors put a byte order mark in front of what they save.
	v, err := plain.Parse(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")))
	if err != nil {
		return File{}, nil, say(CodeShape, "This file is cut short, or is not one that Linkrod saved.")
	}
	version, ok := v.Get("version").Int()
	switch {
	case v.Get("linkrod").Text() != fileWhat || !ok:
		return File{}, nil, say(CodeShape, "This is not a file that Linkrod saved.")
	case version > fileVersion:
		return File{}, nil, say(CodeShape, "This file was saved by a newer Linkrod (version ", int(version), ", this one reads up to ", fileVersion, "). Update it, then open the file again.")
	}
	file.Prefs = v.Get("prefs").Raw()
	for i, b := range v.Get("books").Items() {
		book := FileBook{}
		if err := book.Book.UnmarshalText([]byte(b.Get("book").Text())); err != nil {
			problems = append(problems, say(CodeShape, "Book ", i+1, " was left out. It does not say which it is.").Words)
			continue
		}
		for j, item := range b.Get("entries").Items() {
			kept, err := readKept(item, book.Book)
			if err != nil {
				problems = append(problems, say(CodeShape, "Line ", j+1, " of book ", i+1, " was left out. ", err).Words)
				continue
			}
			book.Entries = append(book.Entries, kept)
		}
		file.Books = append(file.Books, book)
	}
	return file, problems, nil
}

func readKept(v plain.Value, book ID) (Kept, error) {
	k := Kept{Author: v.Get("author").Text()}
	if err := whole(&k.Seq, MaxNumber)(v.Get("seq")); err != nil {
		return Kept{}, say(CodeShape, "Its place in the ledger can't be read: ", err, ".")
	}
	var err error
	if k.Entry, err = ReadEntry(v.Get("entry")); err != nil {
		return Kept{}, err
	}
	if k.Entry.Book != book {
		return Kept{}, say(CodeShape, "It belongs to another book.")
	}
	return k, k.Entry.Verify()
}

// Write writes k, as it stands in a file.
func (k Kept) Write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Int("seq", int64(k.Seq))
	w.Text("author", k.Author)
	k.Entry.Write(w, "entry")
	w.End('}')
}
