package card

import (
	"strconv"
	"strings"
	"unicode"

	"linkrod/radial/identify"
	"linkrod/radial/quantity"
	"linkrod/sync/plain"
)

// Fault is one thing wrong with a card: where, as a JSON pointer, and in a sentence.
type Fault struct {
	At    string // "/body/items/3/src"
	Words string
}

// Rules is what the shelf asks of its cards beyond what every card needs.
type Rules struct {
	General bool // for every engine: no limit of any engine on it
	Demo    bool // invented: every card of it says so
}

// Check is what is wrong with a card whose shape is right (the schema's business): what no
// schema can say. It is empty for a card that may be published.
func Check(v plain.Value, rules Rules) []Fault {
	k := checker{sources: v.Get("sources"), rules: rules, demo: v.Get("demo").Bool(), kind: v.Get("kind").Text()}
	c, err := Read(v)
	if err != nil {
		k.fault("", err.Error())
		return k.faults
	}
	k.card(c)
	k.walk("/body", c.Body, "", "")
	k.disputes(v.Get("disputes"))
	for i, said := range c.Cautions {
		k.prose("/cautions/"+strconv.Itoa(i), said, "")
	}
	for i, n := range v.Get("defers").Names() {
		k.prose("/defers/"+n, v.Get("defers").Items()[i].Text(), "")
	}
	k.demanded(c, v)
	return k.faults
}

type checker struct {
	sources plain.Value
	rules   Rules
	demo    bool
	kind    string
	faults  []Fault
	used    []string // keys of sources
}

func (k *checker) fault(at, words string) { k.faults = append(k.faults, Fault{at, words}) }

// measuring are the kinds whose numbers a wrench or a verdict goes by: somebody copied
// them, and is named.
func measuring(kind string) bool {
	return kind == "engine" || kind == "limits" || kind == "torque" || kind == "run" || kind == "tool"
}

// card checks what stands above the body.
func (k *checker) card(c Card) {
	if !name(c.ID) {
		k.fault("/card", quoted(c.ID)+" cannot be a card’s name. It is lower-case letters, digits and hyphens, as hold-down-t7b.")
	}
	if c.ID == "shelf" {
		k.fault("/card", "“shelf” is what the file about the whole shelf is called. Give the card another name.")
	}
	if k.rules.Demo && !k.demo {
		k.fault("/demo", "This shelf is invented, and the card doesn’t say so. Write demo: true.")
	}
	if !k.rules.Demo && k.demo {
		k.fault("/demo", "An invented card has no place on a shelf that isn’t the demo’s.")
	}
	if k.rules.General {
		if measuring(c.Kind) && c.Kind != "tool" {
			k.fault("/kind", "The general shelf is for every engine and holds no "+c.Kind+" card: those numbers are one engine’s.")
		}
		if !c.Applies.Everything() {
			k.fault("/applies", "The general shelf is for every engine. A card for some of them belongs on a shop’s or a club’s shelf.")
		}
		if len(c.Sources) == 0 {
			k.fault("/sources", "A general card says where it is from. Write its sources; what has none is document: common practice, no source.")
		}
	}
	if measuring(c.Kind) && c.Kind != "tool" && len(c.Applies.Models) == 0 {
		k.fault("/applies", "Which engines is it for? "+capital(KindWords(c.Kind))+"s name their models.")
	}
	if c.Kind == "engine" && len(c.Applies.Models) != 1 {
		k.fault("/applies/models", "An engine card is for one model.")
	}
	for _, end := range [][2]string{{"from", c.Applies.From}, {"to", c.Applies.To}} {
		if end[1] == "" {
			continue
		}
		if _, err := identify.ParseSerial(end[1]); err != nil {
			k.fault("/applies/serials/"+end[0], err.Error())
		}
	}
	if a, b := c.Applies.From, c.Applies.To; a != "" && b != "" {
		if _, err := identify.ParseRanges(a + " to " + b); err != nil {
			k.fault("/applies/serials", err.Error())
		}
	}
	for _, t := range c.Applies.When {
		if _, ok := feature(t.Feature); !ok {
			k.fault("/applies/when/"+t.Feature, quoted(t.Feature)+" is not a feature known here. Known are: "+strings.Join(featureKeys, ", ")+".")
		}
	}
	for _, s := range c.Sources {
		at := "/sources/" + s.Key
		if _, _, _, ok := dateOf(s.Date); s.Date != "" && !ok {
			k.fault(at+"/date", "There is no date "+quoted(s.Date)+". Write 1994-03-01, 1994-03 or 1994.")
		}
		if measuring(c.Kind) && s.TypedBy == "" {
			k.fault(at, "Who typed these numbers? Write typed_by, and checked_by once a second person has held them against the page.")
		}
		if s.CheckedBy != "" && same(s.TypedBy, s.CheckedBy) {
			k.fault(at+"/checked_by", s.CheckedBy+" typed it and can’t be the second person. Leave checked_by out until another has held it against the page.")
		}
	}
	if c.Kind == "engine" {
		k.features(c.Body.Get("features"))
		if s := c.Body.Get("serials").Get("says").Text(); s != "" {
			if _, err := identify.ParseRanges(s); err != nil {
				k.fault("/body/serials/says", err.Error())
			}
		}
	}
}

// features checks what an engine card says can be seen.
func (k *checker) features(v plain.Value) {
	for i, key := range v.Names() {
		at := "/body/features/" + key
		if _, ok := feature(key); !ok {
			k.fault(at, quoted(key)+" is not a feature known here. Known are: "+strings.Join(featureKeys, ", ")+".")
			continue
		}
		for _, one := range v.Items()[i].Items() {
			if s := one.Get("serials").Text(); s != "" {
				if _, err := identify.ParseRanges(s); err != nil {
					k.fault(at, err.Error())
				}
			}
		}
	}
}

// walk goes through the body. src is the source of what v stands in.
func (k *checker) walk(at string, v plain.Value, field, src string) {
	switch v.Kind() {
	case plain.Object:
		if own := v.Get("src"); own.Given() {
			src = own.Text()
			k.known(at+"/src", src)
		}
		if isFigure(v) {
			k.figure(at, v, src)
			for i, n := range v.Names() {
				if partIndex(n) < 0 && n != "list" {
					k.walk(at+"/"+n, v.Items()[i], n, src)
				}
			}
			return
		}
		for i, n := range v.Names() {
			k.walk(at+"/"+n, v.Items()[i], n, src)
		}
	case plain.List:
		if field == "rows" && src == "" { // one mark in a row of a table is the row's
			if marks := Marks(prose(v)); len(marks) > 0 && v.Items()[0].Kind() == plain.Text {
				src = marks[0]
			}
		}
		for i, e := range v.Items() {
			k.walk(at+"/"+strconv.Itoa(i), e, field, src)
		}
	case plain.Text:
		if !wordless(field) && !strings.Contains(at, "/features/") {
			k.prose(at, v.Text(), src)
		}
	}
}

// known says so when no source has the key.
func (k *checker) known(at, key string) {
	k.used = append(k.used, key)
	if k.sources.Get(key).Given() {
		return
	}
	words := "There is no source " + quoted(key) + "."
	if n := k.sources.Names(); len(n) > 0 {
		words += " This card’s are: " + strings.Join(n, ", ") + "."
	}
	k.fault(at, words)
}

// figure checks one number with its unit and source.
func (k *checker) figure(at string, v plain.Value, src string) {
	if src == "" {
		k.fault(at, "This number has no source. Write src and the key of the paper it was copied from.")
	}
	f := readFigure(v, src)
	if f.Unit != "" && !f.Unit.Known() {
		k.fault(at+"/u", quoted(string(f.Unit))+" is not a unit known here. Write in_lb, ft_lb, thou, in, qt, fl_oz, psi, F, C, rpm, deg, h, min, hp, lb or another of the list.")
	}
	for i, p := range parts {
		if s := f.have[i]; s != "" && p[0] != "says" {
			if _, err := quantity.ParseDecimal(s); err != nil {
				k.fault(at+"/"+p[0], quoted(s)+" is not a number. Write it with a point and without its unit, as 335.8.")
			}
		}
	}
	numeric := f.Part("v").Given() || len(f.List) > 0
	for _, pair := range [][2]string{{"from", "to"}, {"new_min", "new_max"}, {"look", "stop"}, {"new_max", "wear"}, {"min", "max"}} {
		a, okA := number(f.text(pair[0]))
		b, okB := number(f.text(pair[1]))
		numeric = numeric || okA || okB
		// A clearance wears upwards; spring loads and the like wear down and have a min.
		if okA && okB && a.Compare(b) > 0 && pair[0] != "look" {
			k.fault(at+"/"+pair[0], "The "+partWords(pair[0])+" "+f.text(pair[0])+" is more than the "+partWords(pair[1])+" "+f.text(pair[1])+".")
		}
	}
	if f.text("look") != "" && f.text("stop") == "" && f.text("says") == "" {
		k.fault(at+"/look", "A look has its stop beside it. Where there is only one limit it is max or min.")
	}
	if k.rules.General && f.Limit() {
		k.fault(at, "This is a limit, and the general shelf is for every engine. Limits come from the maker’s or the shop’s sheet, on a shelf of theirs.")
	}
}

func partWords(name string) string { return parts[partIndex(name)][1] }

// number is a part as a decimal.
func number(s string) (quantity.Decimal, bool) {
	d, err := quantity.ParseDecimal(s)
	return d, err == nil && s != ""
}

// prose checks a text: a number in it needs a source, of the item it stands in or in
// brackets in its sentence, "at least two turns [tx]"; a bracketed key must be one.
func (k *checker) prose(at, s, src string) {
	for _, sentence := range sentences(s) {
		marks := Marks(sentence)
		for _, key := range marks {
			k.known(at, key)
		}
		if src == "" && len(marks) == 0 && numbered(sentence) {
			k.fault(at, "There is a number here without its source. Write the source’s key in brackets in its sentence, as [tm], or src beside it.")
			return
		}
	}
}

// sentences cuts a text behind each point that a capital letter follows.
func sentences(s string) []string {
	var all []string
	for from := 0; ; {
		i := strings.Index(s[from:], ". ")
		if i < 0 {
			return append(all, s)
		}
		if from += i + 2; from < len(s) && s[from] >= 'A' && s[from] <= 'Z' {
			all, s, from = append(all, s[:from]), s[from:], 0
		}
	}
}

// numbered reports a number in a text: in figures, or a count in words with its unit, "two
// full turns". A word that begins with a letter is a name: T7-B, B-0620.
func numbered(s string) bool {
	counting := 0 // words since a count in words
	for _, word := range strings.FieldsFunc(s, func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.In(r, unicode.No) && r != '-'
	}) {
		if first := []rune(word)[0]; unicode.IsDigit(first) || unicode.In(first, unicode.No) {
			return true
		}
		counting--
		switch word = strings.ToLower(word); {
		case oneOf(word, "two three four five six seven eight nine ten twelve fifteen twenty thirty forty fifty sixty hundred"):
			counting = 4
		case counting > 0 && oneOf(word, "turns hours minutes seconds blades degrees psi quarts ounces days weeks months years inches thou pounds strokes rpm revolutions volts amps ohms gallons litres"):
			return true
		}
	}
	return false
}

func oneOf(word, words string) bool { return strings.Contains(" "+words+" ", " "+word+" ") }

// disputes checks that each side says where it is from and that somebody decides.
func (k *checker) disputes(v plain.Value) {
	for i, d := range v.Items() {
		at := "/disputes/" + strconv.Itoa(i)
		for j, side := range d.Get("sides").Items() {
			k.known(at+"/sides/"+strconv.Itoa(j)+"/src", side.Get("src").Text())
			k.prose(at+"/sides/"+strconv.Itoa(j)+"/says", side.Get("says").Text(), side.Get("src").Text())
		}
		if len(d.Get("sides").Items()) < 2 {
			k.fault(at, "A dispute has two sides or more. One side alone is a statement.")
		}
	}
}

// name reports lower-case letters, digits and hyphens, a letter or digit first.
func name(s string) bool {
	if s == "" || len(s) > 64 || s[0] == '-' {
		return false
	}
	for _, c := range []byte(s) {
		if !('a' <= c && c <= 'z' || '0' <= c && c <= '9' || c == '-' || c == '_') {
			return false
		}
	}
	return true
}

// same reports one person, however the name is spaced or capitalised.
func same(a, b string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(a), " "), strings.Join(strings.Fields(b), " "))
}
