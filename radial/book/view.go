package book

// View is everything the screens show about one book. Every text is ready to
// show: no screen computes, rounds, compares or words a figure. Its JSON is
// pwa/src/worker/view.ts, field by field; TestViewMatchesTypeScript holds the
// two together.
type View struct {
	Book      string     `json:"book"`
	Demo      bool       `json:"demo"`
	Name      string     `json:"name"`
	Model     string     `json:"model"`
	Since     string     `json:"since"`
	State     string     `json:"state"`
	StateChip *Chip      `json:"stateChip"`
	Headline  string     `json:"headline"`
	Sub       string     `json:"sub"`
	Missing   *Missing   `json:"missing"`
	Next      Next       `json:"next"`
	Ring      Ring       `json:"ring"`
	Tank      Tank       `json:"tank"`
	Rate      Rate       `json:"rate"`
	Plot      Plot       `json:"plot"`
	Table     []Row      `json:"table"`
	TableHead []string   `json:"tableHead"`
	Log       []LogLine  `json:"log"`
	Settings  []OnFile   `json:"settings"`
	Open      []OpenItem `json:"open"`
	Last      Last       `json:"last"`
	Words     ShopWords  `json:"words"`
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
	Chip   Chip   `json:"chip"`
	Word   string `json:"word"`
	Reason string `json:"reason"`
}

// verdictOf is a chip with the word that always goes with it.
func verdictOf(c Chip, reason string) Verdict {
	words := map[Chip]string{Inside: "Inside", AtEdge: "At edge", Outside: "Outside", Cant: "Can't judge", Stopped: "Stopped"}
	return Verdict{c, words[c], reason}
}

// noLimit is what is said where there is no limit to judge by (never a tick).
const noLimit = "No limit on file"

// Paper is the source line under a limit.
type Paper struct {
	Document  string `json:"document"`
	Page      string `json:"page"`
	Revision  string `json:"revision"`
	Date      string `json:"date"`
	TypedBy   string `json:"typedBy"`
	CheckedBy string `json:"checkedBy"`
	Line      string `json:"line"`
}

func paper(s *Source) *Paper {
	if s == nil {
		return nil
	}
	return &Paper{s.Document, s.Page, s.Revision, longDay(s.Date), s.TypedBy, s.CheckedBy, s.line()}
}

// Sum is "show the maths": lines to copy.
type Sum struct {
	Title string   `json:"title"`
	Lines []string `json:"lines"`
}

// LimitLine is a figure against its limit, as a scale.
type LimitLine struct {
	Max     float64  `json:"max"`
	Marks   []Mark   `json:"marks"`
	At      *float64 `json:"at"`
	Pointer string   `json:"pointer"`
	Chip    Chip     `json:"chip"`
	Spoken  string   `json:"spoken"`
	Source  *Paper   `json:"source"`
	None    string   `json:"none"`
}

// Mark is a limit on a scale.
type Mark struct {
	At    float64 `json:"at"`
	Label string  `json:"label"`
	Word  string  `json:"word"`
}

// Missing is what left the tank while the engine stood.
type Missing struct {
	Words   string    `json:"words"`
	Verdict Verdict   `json:"verdict"`
	Line    LimitLine `json:"line"`
	Maths   Sum       `json:"maths"`
}

// Next is the one next step.
type Next struct {
	Title  string   `json:"title"`
	Detail string   `json:"detail"`
	Go     string   `json:"go"`
	Why    []string `json:"why"`
}

// Tank is the oil tank as it is drawn.
type Tank struct {
	Unit       string   `json:"unit"`
	UnitWord   string   `json:"unitWord"`
	Capacity   float64  `json:"capacity"`
	Full       *float64 `json:"full"`
	Min        *float64 `json:"min"`
	Step       float64  `json:"step"`
	AddStep    float64  `json:"addStep"`
	Level      *float64 `json:"level"`
	LevelText  string   `json:"levelText"`
	Before     *float64 `json:"before"`
	BeforeText string   `json:"beforeText"`
	Spoken     string   `json:"spoken"`
}

// OpenItem is something that waits for a person.
type OpenItem struct {
	Key   string `json:"key"`
	Words string `json:"words"`
	Go    string `json:"go"`
}

// Last is the reading before, for "same as last time".
type Last struct {
	Hours     string `json:"hours"`
	Level     string `json:"level"`
	Added     string `json:"added"`
	Stands    string `json:"stands"`
	Minutes   string `json:"minutes"`
	AddHow    string `json:"addHow"`
	Scavenged string `json:"scavenged"`
}

// ShopWords is what to read to the shop.
type ShopWords struct {
	Shop []string `json:"shop"`
}

// View builds the view of a book for one moment. id is the book's own name on
// the wire.
func (b *Book) View(id string, now Now) View {
	now = b.today(now)
	gone := b.standing(now)
	v := View{
		Book: id, Demo: b.demo,
		Name: b.name(), Model: b.text("model"), Since: b.sinceWords(),
		Ring: b.ring(now), Tank: b.tank(gone), Rate: b.rate(), Plot: b.plot(now),
		Settings: b.onFile(), Last: b.lastTime(),
	}
	v.TableHead, v.Table = b.table()
	v.Log = b.log()
	v.Open = b.openItems()
	v.Missing = b.missing(gone)
	f := b.findings(now, gone, v)
	v.Headline, v.Sub = headline(f)
	v.State, v.StateChip = state(f, v)
	v.Next = next(f)
	v.Words.Shop = b.shopWords(f, v)
	return v
}

// name is what the book is called: its name, else its serial number.
func (b *Book) name() string {
	if n := b.text("name"); n != "" {
		return n
	}
	if n := b.text("serial"); n != "" {
		return n
	}
	return "This engine"
}

// sinceWords is the hours under the name: "SMOH 39.6 h".
func (b *Book) sinceWords() string {
	if !b.engine.settings.HoursKnown {
		return "hours not known"
	}
	total := b.engine.origin
	if h := b.hours.highest; h != nil && h.total.Compare(total) > 0 {
		total = h.total
	}
	h := figure(float64(b.hoursSince(total)), 1)
	if b.engine.what == "overhaul" {
		return "SMOH " + h + " h"
	}
	return h + " h since the " + b.engine.what
}
