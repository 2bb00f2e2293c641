package book

// Source is the paper a limit stands on.
type Source struct {
	Document  string `json:"document"`
	Page      string `json:"page"`
	Revision  string `json:"revision,omitempty"`
	Date      string `json:"date,omitempty"` // of the document
	TypedBy   string `json:"typed_by,omitempty"`
	CheckedBy string `json:"checked_by,omitempty"` // a second person; empty: not checked yet
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
