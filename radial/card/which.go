package card

import "linkrod/sync/plain"

// Engine is as much of an engine as decides which card is for it.
type Engine struct {
	Model, Serial string // "" when not on file
	Has           []Trait
	Deviations    []Deviation
	Demo          bool   // invented: only its cards are for it, and they for no other
	Looked        string // the model that the last look made its base, "" for none
	// decided: a person named the sheets, so no serial number of the plate speaks for the part.
	decided bool
	// Open is what two people wrote differently: "model", "serial".
	Open []string
}

// Deviation is a part that is not of the model the engine is called.
type Deviation struct {
	Part     string   // "barrels"
	Of       string   // the model it differs from
	Found    string   // "bore 5.375 in, flange with two flats"
	Wants    string   // what the model has there
	Fits     []string // models the part is as on
	Approval string   // the paper that allows it, "" for none seen
	Governs  string   // the model whose sheets a person decided on for this part, "" undecided
	By       string   // who decided, in what paper
}

// Decided reports that somebody said in writing which sheets govern the part.
func (d Deviation) Decided() bool { return d.Governs != "" && d.By != "" }

// How a search for a card ended.
const (
	One  = "one"  // exactly one card applies
	None = "none" // no card applies: no limit on file
	Cant = "cant" // it can't be judged which
)

// Found is which card applies to an engine and how that was found. It is one card or
// none; several are never merged and never chosen among.
type Found struct {
	State  string
	Card   Card     // of One
	Cards  []Card   // those that stand against each other
	Why    []string // the way it was found, a line each
	Settle []string // what would settle it
}

// Want is which card is wanted: of a kind, on a topic where a kind has several ("rockers"),
// for a part of the engine or, with Part "", for all of it.
type Want struct{ Kind, Topic, Part string }

// Which is the card that applies to an engine.
//
// A card applies when its models, its serial numbers and its configuration all are the
// engine's. Of a mixed build a part goes by the sheets that a person named for it in
// writing; until then nothing applies, whatever the plate says. What isn't on file
// and would decide between two cards is asked for rather than assumed. Common practice,
// no source: limits follow the configuration and not the name.
func Which(e Engine, want Want, cards []Card) Found {
	part := want.Part
	model := e.Model
	var why []string
	for _, d := range e.Deviations {
		if part != "" && d.Part != part {
			continue
		}
		if part == "" {
			return e.whole()
		}
		if !d.Decided() {
			return e.undecided(part)
		}
		e.Open, e.Looked = nil, ""
		model = d.Governs
		e.Serial, e.Has, e.decided = "", nil, true // the plate's, not the part's
		why = append(why, capital(d.Part)+" go by the "+d.Governs+" sheets: "+d.By+".")
	}
	switch {
	case len(e.Open) > 0:
		return Found{State: Cant, Why: []string{"Two people wrote its " + list(e.Open, "and its ") + " differently."}, Settle: []string{"Settle which is right, in the log."}}
	case e.Looked != "" && e.Looked != model:
		return Found{State: Cant, Why: []string{"On file it is a " + model + ", and the last look at it says " + e.Looked + "."}, Settle: []string{"Look again, or put the model on file right."}}
	case model == "":
		return Found{State: Cant, Why: []string{"The engine’s model is not on file."}, Settle: []string{"Write the model, or look at the engine feature by feature."}}
	}
	return e.among(model, want, why, cards)
}

// undecided is a mixed build nobody has decided on: what was found, and who must.
func (e Engine) undecided(part string) Found {
	f := Found{State: Cant}
	for _, d := range e.Deviations {
		if d.Decided() || part != "" && d.Part != part {
			continue
		}
		f.Why = append(f.Why, d.said()+".")
	}
	f.Settle = []string{"The shop says in writing which sheet governs " + theParts(e.Deviations) + ". Until then no limit applies."}
	return f
}

// said is what was found on the part, against what the model has there.
func (d Deviation) said() string {
	said := capital(d.Part) + ": " + d.Found
	if d.Wants != "" {
		said += ", where " + d.of() + " has " + d.Wants
	}
	if d.Approval == "" && !d.Decided() {
		said += "; no approval seen"
	}
	return said
}

func (d Deviation) of() string {
	if d.Of == "" {
		return "the model"
	}
	return "a " + d.Of
}

func theParts(parts []Deviation) string {
	var names []string
	for _, d := range parts {
		if !d.Decided() && !has(names, d.Part) {
			names = append(names, d.Part)
		}
	}
	return "the " + list(names, "and")
}

// whole is a mixed build asked about as a whole: what is undecided, else which sheets its
// parts go by.
func (e Engine) whole() Found {
	if f := e.undecided(""); len(f.Why) > 0 {
		return f
	}
	f := Found{State: Cant, Settle: []string{"Ask for one part of it: no one sheet is for all of it."}}
	for _, d := range e.Deviations {
		f.Why = append(f.Why, d.said()+". By "+d.By+" the "+d.Governs+" sheets govern the "+d.Part+".")
	}
	f.Why = append(f.Why, "The rest goes by the "+e.Model+" sheets.")
	return f
}

// among finds the cards for a model, by serial number and configuration.
func (e Engine) among(model string, want Want, why []string, cards []Card) Found {
	f := Found{Why: append(why, "Model "+model+".")}
	var perhaps []Card
	ask := ""
	for _, c := range cards {
		if c.Kind != want.Kind || c.Topic != want.Topic || c.State != "published" || c.Demo != e.Demo || !has(c.Applies.Models, model) {
			continue
		}
		in, known := c.Applies.holds(e.Serial)
		wants, fits := e.configured(c.Applies.When)
		switch {
		case known && !in || !fits:
		case !known && !e.decided:
			perhaps, ask = append(perhaps, c), "The serial number: "+c.Title+" is for "+c.Applies.serialWords()+"."
		case wants != "":
			perhaps, ask = append(perhaps, c), "The "+FeatureName(wants)+": look at it, and write what is there."
		default:
			f.Cards = append(f.Cards, c)
		}
	}
	word := [2]string{want.Kind + " card", want.Kind + " cards"}
	switch {
	case len(perhaps) > 0:
		f.State, f.Cards = Cant, append(f.Cards, perhaps...)
		f.Why = append(f.Why, count(len(f.Cards), word)+" could apply.")
		f.Settle = []string{ask}
	case len(f.Cards) == 0:
		f.State = None
		f.Why = append(f.Why, "No "+word[0]+" for it is on the phone. No limit on file.")
		f.Settle = []string{"A shelf that has one, or the shop’s sheet typed in."}
	case len(f.Cards) > 1:
		f.State = Cant
		f.Why = append(f.Why, count(len(f.Cards), word)+" apply, and they are not the same: "+titles(f.Cards)+".")
		f.Settle = []string{"A person says which shelf or card counts for this engine."}
	default:
		f.State, f.Card, f.Cards = One, f.Cards[0], nil
		for _, s := range f.Card.Applies.Words()[1:] {
			f.Why = append(f.Why, capital(s)+".")
		}
		if f.Card.Applies.serialWords() != "" && e.Serial != "" {
			f.Why = append(f.Why, "This one is "+e.Serial+".")
		}
		f.Why = append(f.Why, "One "+word[0]+": "+f.Card.Title+", version "+itoa(f.Card.Version)+".")
	}
	return f
}

// configured compares what a card wants of an engine with what it has: the feature that
// would have to be looked at, and whether nothing known speaks against it.
func (e Engine) configured(when []Trait) (wants string, fits bool) {
	for _, w := range when {
		is := ""
		for _, h := range e.Has {
			if h.Feature == w.Feature {
				is = h.Value
			}
		}
		if is == "" {
			wants = w.Feature
		} else if is != w.Value {
			return "", false
		}
	}
	return wants, true
}

// For is what a card is to an engine: "this" for its model, serial number and configuration,
// "every", "perhaps" where something isn't on file, "" for others.
func (c Card) For(e Engine) string {
	switch {
	case c.Applies.Everything() && c.Kind == "tool":
		if t := ReadTool(c); c.Demo == e.Demo && has(t.Fits, e.Model) {
			return "this"
		}
		return ""
	case c.Applies.Everything():
		return "every"
	case c.Demo != e.Demo || !has(c.Applies.Models, e.Model):
		return ""
	}
	in, known := c.Applies.holds(e.Serial)
	wants, fits := e.configured(c.Applies.When)
	switch {
	case known && !in || !fits:
		return ""
	case !known || wants != "":
		return "perhaps"
	}
	return "this"
}

func titles(cards []Card) string {
	var said []string
	for _, c := range cards {
		said = append(said, c.Title)
	}
	return list(said, "and")
}

func count(n int, word [2]string) string {
	if n == 1 {
		return "One " + word[0]
	}
	return capital(numberWord(n)) + " " + word[1]
}

// Write writes it as a field: {found, card?, cards?, why, settle}.
func (f Found) Write(w *plain.Writer, name string) {
	w.Open(name, '{')
	w.Text("found", f.State)
	if f.State == One {
		f.Card.name(w, "card")
	}
	w.Open("cards", '[')
	for _, c := range f.Cards {
		c.name(w, "")
	}
	w.End(']')
	w.Texts("why", f.Why)
	w.Texts("settle", f.Settle)
	w.End('}')
}

// name writes which card it is.
func (c Card) name(w *plain.Writer, name string) {
	w.Open(name, '{')
	c.fields(w)
	w.End('}')
}

func (c Card) fields(w *plain.Writer) {
	w.Text("shelf", c.Shelf)
	w.Text("card", c.ID)
	w.Int("version", int64(c.Version))
	w.Text("title", c.Title)
	w.Text("kind", c.Kind)
	w.Text("hash", c.Hash)
}
