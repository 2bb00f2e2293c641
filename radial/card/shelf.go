package card

import (
	"sort"

	"linkrod/sync/plain"
)

// Shelf is what a shelf adds up to: every version of every card that was put on it.
type Shelf struct {
	ID, Title     string
	Demo, General bool
	versions      []version      // in the order they came
	latest        map[string]int // the newest version that is out, by card
	loans         []Loan
	// Problems is what cannot be as it was written, a sentence each. Nothing of it is lost.
	Problems []string
	Changes  []Change
}

// version is a card with what became of it.
type version struct {
	Card
	author string // whom the server knows the publisher as, "" while it is only on this phone
	said   string // the name the entry gives
	by     string // both, as it is shown
	reason string // of publishing it
	gone   string // why it was withdrawn
	checks []check
}

// check is a second person's word that the numbers were held against the page.
type check struct {
	by, said, author string   // as of a version
	srcs             []string // keys of sources, none for all
}

// Change is one thing that happened on a shelf, for who looks at it again.
type Change struct {
	Seq   int // the ledger's number, 0 while it is only on this phone
	Card  string
	Words string
	What  []string // against the version before, a sentence each: what Diff said when it was published
	By    string
}

// Loan is a tool that went out, or came back.
type Loan struct {
	Card, Who, Day, Condition string
	Out                       bool
}

// Record is an entry of a shelf, in the ledger's order, those not sent yet last.
type Record struct {
	Seq    int
	Author string // whom the server knows the writer as
	Schema int    // version of the body, as its entry says; 0 is as good as 1
	Body   plain.Value
}

// bodies is the newest version of bodies this program can read.
const bodies = 1

// Load reads a shelf as the worker hands it over: {"shelf","bundle":{…}} for one that came
// with Linkrod, {"shelf","records":[{"seq","author","schema","body"}]} for one that is shared, a
// body being the entry's JSON as text.
func Load(v plain.Value) (Shelf, error) {
	if b := v.Get("bundle"); b.Given() {
		return ReadBundle(b)
	}
	var records []Record
	for _, r := range v.Get("records").Items() {
		body, err := plain.Parse([]byte(r.Get("body").Text()))
		if err != nil {
			continue // kept, and no card
		}
		seq, _ := r.Get("seq").Int()
		schema, _ := r.Get("schema").Int()
		records = append(records, Record{int(seq), r.Get("author").Text(), int(schema), body})
	}
	return Open(v.Get("shelf").Text(), records), nil
}

// ReadBundle reads a shelf that came with Linkrod: {"shelf","title","general","demo",
// "cards":[{"hash","json"}]}.
func ReadBundle(v plain.Value) (Shelf, error) {
	s := Shelf{ID: v.Get("shelf").Text(), Title: v.Get("title").Text(), Demo: v.Get("demo").Bool(), General: v.Get("general").Bool()}
	for _, e := range v.Get("cards").Items() {
		c, err := Read(e.Get("json"))
		if err != nil {
			s.Problems = append(s.Problems, err.Error())
			continue
		}
		c.Shelf, c.Hash = s.ID, e.Get("hash").Text()
		s.add(version{Card: c})
	}
	if s.ID == "" {
		return Shelf{}, Wrong("This is no shelf: it has no name.")
	}
	return s, nil
}

// Open adds up a shelf's entries. Bodies:
//
//	{"type":"shelf","title","demo"?,"general"?}                     the first
//	{"type":"card","text","json","hash","reason","what":[…],"by","day"}  a version: draft or published, as its text says
//	{"type":"card_withdrawn","card","version","reason","by","day"}
//	{"type":"card_check","card","version","hash","sources"?:[…],"by","day"}
//	{"type":"loan","card","out":true|false,"who","day","condition","by"}
//
// A version is what the ledger took first under its number; another text under the same
// number is a problem to be told and changes nothing.
func Open(id string, records []Record) Shelf {
	s := Shelf{ID: id}
	for _, r := range records {
		b := r.Body
		switch b.Get("type").Text() {
		case "shelf":
			s.Title, s.Demo, s.General = b.Get("title").Text(), b.Get("demo").Bool(), b.Get("general").Bool()
		case "card":
			s.put(r)
		case "card_withdrawn":
			s.withdraw(r)
		case "card_check":
			s.check(r)
		case "loan":
			s.loans = append(s.loans, Loan{b.Get("card").Text(), b.Get("who").Text(), b.Get("day").Text(), b.Get("condition").Text(), b.Get("out").Bool()})
		}
	}
	return s
}

// put takes a version.
func (s *Shelf) put(r Record) {
	if r.Schema > bodies {
		// Nobody here can check that its words say what its figures do.
		s.Problems = append(s.Problems, "A card was published by a newer Linkrod than this one. Bring this one up to date to see it.")
		return
	}
	c, err := Read(r.Body.Get("json"))
	if err != nil {
		s.Problems = append(s.Problems, err.Error())
		return
	}
	c.Shelf, c.Hash = s.ID, r.Body.Get("hash").Text()
	change := Change{Seq: r.Seq, Card: c.ID, By: by(r)}
	for i, v := range s.versions {
		if v.ID != c.ID || v.Version != c.Version {
			continue
		}
		switch {
		case v.Hash == c.Hash:
		case v.State == "draft": // a draft is written again until it is published
			s.versions[i] = version{Card: c, author: r.Author, said: said(r), by: by(r), reason: r.Body.Get("reason").Text()}
			s.announce(c, change, r)
			s.out(s.versions[i])
		default:
			s.Problems = append(s.Problems, "Version "+itoa(c.Version)+" of "+c.Title+" was published twice and differently. What came first stands; the other needs a number of its own.")
		}
		return
	}
	s.announce(c, change, r)
	s.add(version{Card: c, author: r.Author, said: said(r), by: by(r), reason: r.Body.Get("reason").Text()})
}

// announce adds a published version to what changed.
func (s *Shelf) announce(c Card, change Change, r Record) {
	if c.State != "published" {
		return
	}
	change.Words = c.Title + " is new"
	if s.newest(c.ID) > 0 {
		change.Words = c.Title + ", version " + itoa(c.Version)
	}
	change.What = texts(r.Body.Get("what"))
	if reason := r.Body.Get("reason").Text(); reason != "" {
		change.Words += ": " + reason
	}
	s.Changes = append(s.Changes, change)
}

func (s *Shelf) withdraw(r Record) {
	n, _ := r.Body.Get("version").Int()
	for i, v := range s.versions {
		if v.ID == r.Body.Get("card").Text() && v.Version == int(n) {
			s.versions[i].gone = r.Body.Get("reason").Text()
			if s.versions[i].gone == "" {
				s.versions[i].gone = "no reason was given"
			}
			s.Changes = append(s.Changes, Change{Seq: r.Seq, Card: v.ID, By: by(r), Words: v.Title + " was withdrawn: " + s.versions[i].gone})
		}
	}
}

// check takes a second person's word. It counts for the text it names and for nobody who
// published or typed it.
func (s *Shelf) check(r Record) {
	n, _ := r.Body.Get("version").Int()
	for i, v := range s.versions {
		if v.ID != r.Body.Get("card").Text() || v.Version != int(n) || v.Hash != r.Body.Get("hash").Text() {
			continue
		}
		who := by(r)
		if same(who, v.by) || same(said(r), v.said) || r.Author != "" && same(r.Author, v.author) {
			s.Problems = append(s.Problems, who+" published "+v.Title+" and can’t be the second person who checks it.")
			return
		}
		s.versions[i].checks = append(s.versions[i].checks, check{who, said(r), r.Author, texts(r.Body.Get("sources"))})
		s.Changes = append(s.Changes, Change{Seq: r.Seq, Card: v.ID, By: who, Words: v.Title + ", version " + itoa(v.Version) + ": checked against the page by " + who})
	}
}

// said is the name the body gives, else whom the server knows.
func said(r Record) string {
	if s := r.Body.Get("by").Text(); s != "" {
		return s
	}
	return r.Author
}

// by is who says it: the name as they give it, and whose account it came from where that is
// another, since a name in a body is anybody's to type.
func by(r Record) string {
	if r.Author == "" || same(said(r), r.Author) {
		return said(r)
	}
	return said(r) + " (account of " + r.Author + ")"
}

// card is a version as it stands now: its sources with the checks, its state.
func (v version) card() Card {
	c := v.Card
	c.Sources = append([]Source(nil), c.Sources...)
	for i := range c.Sources {
		src := &c.Sources[i]
		for _, k := range v.checks {
			if src.CheckedBy == "" && src.TypedBy != "" && !same(src.TypedBy, k.said) && !same(src.TypedBy, k.author) && (len(k.srcs) == 0 || has(k.srcs, src.Key)) {
				src.CheckedBy = k.by
			}
		}
	}
	if v.gone != "" {
		c.State = "withdrawn"
	}
	return c
}

// Current is the newest version of every card that is out, those withdrawn included, by
// kind and title.
func (s *Shelf) Current() []Card {
	var all []Card
	for _, v := range s.versions {
		if v.State != "draft" && s.newest(v.ID) == v.Version {
			all = append(all, v.card())
		}
	}
	sort.SliceStable(all, func(i, j int) bool {
		a, b := all[i], all[j]
		if a.Kind != b.Kind {
			return kindOrder(a.Kind) < kindOrder(b.Kind)
		}
		return a.Title < b.Title
	})
	return all
}

func kindOrder(kind string) int {
	for i, k := range kinds {
		if k[0] == kind {
			return i
		}
	}
	return len(kinds)
}

// add puts a version behind the others.
func (s *Shelf) add(v version) {
	s.versions = append(s.versions, v)
	s.out(v)
}

// out notes that a version is out, if it is.
func (s *Shelf) out(v version) {
	if s.latest == nil {
		s.latest = map[string]int{}
	}
	if v.State != "draft" {
		s.latest[v.ID] = max(s.latest[v.ID], v.Version)
	}
}

// newest is the number of the newest version that is out, 0 for none.
func (s *Shelf) newest(id string) int { return s.latest[id] }

// Find is a version of a card; the newest that is out for 0.
func (s *Shelf) Find(id string, n int) (Shown, bool) {
	newest := s.newest(id)
	if n == 0 {
		n = newest
	}
	for _, v := range s.versions {
		if v.ID != id || v.Version != n {
			continue
		}
		shown := Shown{Card: v.card(), Gone: v.gone}
		if newest > n {
			shown.Newer = newest
			for _, w := range s.versions {
				if w.ID == id && w.Version == newest {
					shown.Since = w.reason
				}
			}
		}
		return shown, true
	}
	return Shown{}, false
}

// title is the title of a card on the shelf, "" for none.
func (s *Shelf) title(id string) string {
	n := s.newest(id)
	for _, v := range s.versions {
		if v.ID == id && v.Version == n {
			return v.Title
		}
	}
	return ""
}
