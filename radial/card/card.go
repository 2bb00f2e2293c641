package card

import (
	"strconv"
	"strings"

	"linkrod/sync/plain"
)

// Card is one card in one version. What its kind makes of the body stays JSON until it is
// asked for.
type Card struct {
	ID       string
	Kind     string
	Title    string
	Topic    string // among cards of one kind for one engine: one per topic applies
	Version  int
	State    string // draft, published, withdrawn, superseded
	Demo     bool   // invented: DEMO is drawn across it
	Applies  Applies
	Sources  []Source
	Cautions []string
	Body     plain.Value

	JSON  plain.Value // the whole card
	Shelf string      // it stands on, by its id
	Hash  string      // SHA-256 of its text as written, 64 hex digits, "" when not known
}

// Source is where a number was copied from.
type Source struct {
	Key                            string
	Document, Page, Revision, Date string
	TypedBy, CheckedBy             string // "" when nobody has held it against the page yet
}

// kinds are the kinds of card, in the order of lists, with their words.
var kinds = [][2]string{
	{"engine", "Engine card"}, {"limits", "Limits card"}, {"torque", "Torque card"}, {"run", "Run card"},
	{"check", "Check card"}, {"step", "Step card"}, {"tool", "Tool card"}, {"note", "Note card"},
}

// KindWords is a kind of card in words, "" for none known here.
func KindWords(kind string) string {
	for _, k := range kinds {
		if k[0] == kind {
			return k[1]
		}
	}
	return ""
}

// Wrong is what is wrong, in a sentence for the person who can put it right.
type Wrong string

func (w Wrong) Error() string { return string(w) }

// Read reads a card's JSON. It takes what Check has found sound, and of anything else what
// it can; a card without id, kind or version is none.
func Read(v plain.Value) (Card, error) {
	n, _ := v.Get("version").Int()
	c := Card{
		ID: v.Get("card").Text(), Kind: v.Get("kind").Text(), Title: v.Get("title").Text(),
		Topic: v.Get("topic").Text(), Version: int(n),
		State: v.Get("state").Text(), Demo: v.Get("demo").Bool(), Applies: readApplies(v.Get("applies")),
		Sources: readSources(v.Get("sources")), Cautions: texts(v.Get("cautions")), Body: v.Get("body"), JSON: v,
	}
	if c.ID == "" || c.Version < 1 || KindWords(c.Kind) == "" {
		return Card{}, Wrong("This is no card: its name, its kind or its version is missing or of a newer Linkrod.")
	}
	return c, nil
}

func readSources(v plain.Value) []Source {
	var all []Source
	for i, key := range v.Names() {
		s := v.Items()[i]
		all = append(all, Source{key, s.Get("document").Text(), s.Get("page").Text(), s.Get("revision").Text(),
			s.Get("date").Text(), s.Get("typed_by").Text(), s.Get("checked_by").Text()})
	}
	return all
}

// Source is the source of a key.
func (c Card) Source(key string) (Source, bool) {
	for _, s := range c.Sources {
		if s.Key == key {
			return s, true
		}
	}
	return Source{}, false
}

// Line is the source as it stands below a number: "Fellside sheet T7-B, page 2, rev. C,
// 1 March 1994. Typed I. Varnham, checked T. Askerly."
func (s *Source) Line() string { return s.paper() + s.people() }

// paper is the paper's part of the line.
func (s *Source) paper() string {
	said := s.Document
	if s.Page != "" {
		said += ", page " + s.Page
	}
	if s.Revision != "" {
		said += ", rev. " + s.Revision
	}
	if s.Date != "" {
		said += ", " + longDate(s.Date)
	}
	return said + "."
}

// people is who typed it and who held it against the page, "" for a published text that
// nobody typed numbers from.
func (s *Source) people() string {
	switch {
	case s.TypedBy == "":
		return ""
	case s.CheckedBy == "":
		return " Typed " + s.TypedBy + ", not checked yet."
	}
	return " Typed " + s.TypedBy + ", checked " + s.CheckedBy + "."
}

// Checked reports that a second person held it against the page, or that nobody had to:
// a published document quoted in words has no one who typed it.
func (s *Source) Checked() bool { return s.TypedBy == "" || s.CheckedBy != "" }

var months = [...]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"}

// longDate is 1994-03-01 as 1 March 1994, 1994-03 as March 1994, and anything else as it is.
func longDate(s string) string {
	year, month, day, ok := dateOf(s)
	switch {
	case !ok || month == 0:
		return s
	case day == 0:
		return months[month-1] + " " + year
	}
	return strconv.Itoa(day) + " " + months[month-1] + " " + year
}

// dateOf reads 1994, 1994-03 or 1994-03-01; month and day are 0 where not given.
func dateOf(s string) (year string, month, day int, ok bool) {
	parts := strings.Split(s, "-")
	if len(parts) > 3 || len(parts[0]) != 4 || !digits(s) {
		return "", 0, 0, false
	}
	if len(parts) > 1 {
		if month, _ = strconv.Atoi(parts[1]); len(parts[1]) != 2 || month < 1 || month > 12 {
			return "", 0, 0, false
		}
	}
	if len(parts) > 2 {
		y, _ := strconv.Atoi(parts[0])
		if day, _ = strconv.Atoi(parts[2]); len(parts[2]) != 2 || day < 1 || day > daysIn(y, month) {
			return "", 0, 0, false
		}
	}
	return parts[0], month, day, true
}

func daysIn(year, month int) int {
	switch {
	case month == 2 && (year%4 == 0 && year%100 != 0 || year%400 == 0):
		return 29
	case month == 2:
		return 28
	case month == 4 || month == 6 || month == 9 || month == 11:
		return 30
	}
	return 31
}

// digits reports that a text is figures and dashes.
func digits(s string) bool { return strings.Trim(s, "0123456789-") == "" }

// texts is a list of texts.
func texts(v plain.Value) []string {
	var all []string
	for _, t := range v.Items() {
		all = append(all, t.Text())
	}
	return all
}

// quoted is what was typed, cut to what a sentence has room for.
func quoted(s string) string {
	if r := []rune(s); len(r) > 40 {
		s = string(r[:40]) + "…"
	}
	return "“" + s + "”"
}

// list joins words as a sentence does: "a, b and c".
func list(words []string, last string) string {
	n := len(words)
	if n < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:n-1], ", ") + " " + last + " " + words[n-1]
}

// capital is s with a capital letter first.
func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
