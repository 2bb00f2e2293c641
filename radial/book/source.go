package book

import "linkrod/sync/plain"

// Source is the paper a limit stands on.
type Source struct {
	Document  string
	Page      string
	Revision  string
	Date      string // of the document
	TypedBy   string
	CheckedBy string // a second person; empty: not checked yet
}

// source reads the paper a limit stands on, nil if none is given.
func (r *reader) source(name string) (s *Source) {
	r.inside(name, func(in *reader) {
		if in.Given() {
			s = &Source{in.text("document"), in.text("page"), in.text("revision"), in.text("date"), in.text("typed_by"), in.text("checked_by")}
		}
	})
	return s
}

func (s *Source) write(w *plain.Writer) {
	w.Open("source", '{')
	putText(w, "document", s.Document)
	putText(w, "page", s.Page)
	putText(w, "revision", s.Revision)
	putText(w, "date", s.Date)
	putText(w, "typed_by", s.TypedBy)
	putText(w, "checked_by", s.CheckedBy)
	w.End('}')
}

// check says what a source lacks. A limit without its paper is not a limit.
func (s *Source) check() error {
	switch {
	case s == nil || s.Document == "":
		return Wrong("Which document is it from? A limit is kept with the paper it stands on.")
	case s.Page == "":
		return Wrong("Which page of " + s.Document + "? A limit is kept with its page.")
	case s.TypedBy == "":
		return Wrong("Who typed it from the paper? A limit carries that name.")
	}
	return nil
}

// line is the source in one line: "Fellside sheet T7-B, page 2, rev. C".
func (s *Source) line() string {
	if s == nil {
		return ""
	}
	line := s.Document + ", page " + s.Page
	if s.Revision != "" {
		line += ", rev. " + s.Revision
	}
	return line
}
