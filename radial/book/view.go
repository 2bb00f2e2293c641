package book

// View is everything the screens show about one book. Every text is ready to
// show: no screen computes, rounds, compares or words a figure. Its JSON is
// pwa/src/worker/view.ts, field by field; TestViewMatchesTypeScript holds the
// two together.
type View struct {
	Book      string
	Demo      bool
	Name      string
	Named     bool   // false: Name is how it is told from the next, and the next may be called the same
	Model     string // for an engine without a name also the day its book was begun
	Since     string
	State     string
	StateChip *Chip
	Headline  string
	Sub       string
	Missing   *Missing
	Next      Next
	Ring      Ring
	Tank      Tank
	Rate      Rate
	Plot      Plot
	Table     []Row
	TableHead []string
	Log       []LogLine // the newest; Page has the others
	More      int       // how many others there are
	Due       []DueItem
	Times     []Time
	Findings  []OpenItem // open, the gravest first
	Trends    []Trend
	Stopped   *OpenItem // the engine must not be turned
	Settings  []OnFile
	Open      []OpenItem
	Last      Last
	Words     ShopWords
}

// Chip is the shape and colour of a verdict.
type Chip string

const (
	Inside  Chip = "inside"
	AtEdge  Chip = "atedge"
	Outside Chip = "outside"
	Cant    Chip = "cant"
	Stopped Chip = "stopped"
)

// Verdict is a chip, its word and why.
type Verdict struct {
	Chip   Chip
	Word   string
	Reason string
}

// verdictOf is a chip with the word that always goes with it.
func verdictOf(c Chip, reason string) Verdict {
	words := map[Chip]string{Inside: "Inside", AtEdge: "At edge", Outside: "Outside", Cant: "Can't judge", Stopped: "Stopped"}
	return Verdict{c, words[c], reason}
}

// noLimit is what is said where there is no limit to judge by (never a tick).
const noLimit = "No limit on file"

// SourceLine is the source line under a limit.
type SourceLine struct {
	Document  string
	Page      string
	Revision  string
	Date      string
	TypedBy   string
	CheckedBy string
	Line      string
}

func sourceLine(s *Source) *SourceLine {
	if s == nil {
		return nil
	}
	return &SourceLine{s.Document, s.Page, s.Revision, longDay(s.Date), s.TypedBy, s.CheckedBy, s.line()}
}

// Sum is "show the maths": lines to copy.
type Sum struct {
	Title string
	Lines []string
}

// LimitLine is a figure against its limit, as a scale.
type LimitLine struct {
	Max     float64
	Marks   []Mark
	At      *float64
	Pointer string
	Chip    Chip
	Spoken  string
	Source  *SourceLine
	None    string
}

// Mark is a limit on a scale.
type Mark struct {
	At    float64
	Label string
	Word  string
}

// Missing is what left the tank while the engine stood.
type Missing struct {
	Words   string
	Verdict Verdict
	Line    LimitLine
	Maths   Sum
}

// Next is the one next step.
type Next struct {
	Title  string
	Detail string
	Go     string
	Why    []string
}

// Tank is the oil tank as it is drawn.
type Tank struct {
	Unit       string
	UnitWord   string
	Capacity   *float64 // nil: not on file, and nothing says how high to draw it
	Full       *float64
	Min        *float64
	Step       float64
	AddStep    float64
	Level      *float64
	LevelText  string
	Before     *float64
	BeforeText string
	Spoken     string
}

// OpenItem is something that waits for a person.
type OpenItem struct {
	Key   string
	Words string
	Go    string
}

// Last is the reading before, for "same as last time".
type Last struct {
	Hours     string
	Level     string
	Added     string
	Stands    string
	Minutes   string
	AddHow    string
	Scavenged string
}

// ShopWords is what to read to the shop.
type ShopWords struct {
	Shop []string
}

// View builds the view of a book for one moment. id is the book's own name on
// the wire.
func (b *Book) View(id string, now Now) View {
	now = b.today(now)
	gone := b.standing(now)
	v := View{
		Book: id, Demo: b.demo,
		Name: b.name(), Named: b.ownName() != "", Model: b.modelWords(), Since: b.sinceWords(),
		Ring: b.Ring("", now), Tank: b.tank(gone), Rate: b.rate(), Plot: b.plot(now),
		Settings: b.onFile(), Last: b.lastTime(),
	}
	v.TableHead, v.Table = b.table()
	var total int
	v.Log, total = b.Page(Filter{}, 0, logShown)
	v.More = total - len(v.Log)
	v.Open = b.openItems()
	v.Due, v.Times, v.Trends = b.dues(now), b.times(), b.trends()
	for _, l := range b.openFindings() {
		v.Findings = append(v.Findings, OpenItem{l.key.String(), l.body.Say(), "log:" + l.key.String()})
	}
	if l := b.stopped(); l != nil {
		v.Stopped = &OpenItem{l.key.String(), "Stopped. Do not turn. " + l.body.Say() + ".", "stop"}
	}
	v.Missing = b.missing(gone)
	f := b.findings(now, gone, v)
	v.Headline, v.Sub = headline(f)
	v.State, v.StateChip = state(f, v)
	v.Next = next(f)
	v.Words.Shop = b.shopWords(f, v)
	return v
}

// sinceWords is the hours under the name: "SMOH 39.6 h".
func (b *Book) sinceWords() string {
	if !b.engine.settings.HoursKnown {
		return "hours not known"
	}
	total := b.engine.origin
	if h := b.top(); h != nil && h.total.Compare(total) > 0 {
		total = h.total
	}
	h := figure(float64(b.hoursSince(total)), 1)
	if b.engine.what == "overhaul" {
		return "SMOH " + h + " h"
	}
	return h + " h since the " + b.engine.what
}
