package book

import (
	"strings"

	"linkrod/radial/quantity"
)

// Most kinds of entry are rows of a table. A Kind lists the boxes of its page, in the order
// they are filled in; one body (facts.go) reads, writes, checks and says any of them, and
// one form (form.go) draws it. What is special to a kind is a function of a few lines.

// Kind is one kind of entry. Its Type is final once released.
type Kind struct {
	Type  string
	Title string
	Hours Needs // of the meter
	Boxes []Box

	// say is the entry as it reads aloud; nil says its title and every box that is filled.
	say func(*Facts) string
	// check is what its boxes must be together; each box by itself is checked already.
	check func(*Facts) error
}

// Needs is whether something has to be there.
type Needs uint8

const (
	Needed   Needs = iota // it is asked for
	Optional              // it may be left out
)

// Box is one box of a kind: what goes into it and what is asked when it is left empty.
type Box struct {
	Name, Label string
	Is          Is
	Per         Per           // one for each of these; the zero Per is a single box
	Unit        quantity.Unit // of a figure, when none is typed; "" is a bare number
	Low, High   string        // of a figure: beyond these it is asked about, never refused
	Of          string        // of a choice: "hot=hot|cold=cold"
	Need        string        // the question when it is left empty; "" where it may be
	Hint        string
}

// Is is what goes into a box.
type Is uint8

const (
	Figure Is = iota // a value with its unit, as typed
	Count            // a whole number, 0 or more
	Words            // free words
	OneOf            // one of a few words
	YesNo            // yes or no; left empty is neither
	Date             // a day
	Ref              // another entry of the book, by its key
	Photos           // photographs, by the SHA-256 of each
)

// is are the names of Is for the screens.
var isNames = [...]string{"figure", "count", "words", "choice", "yesno", "day", "ref", "photo"}

// Per is what a box is repeated over.
type Per uint8

const (
	One         Per = iota
	PerCylinder     // 1, 2, 3 …
	PerValve        // 1i, 1e, 2i … : inlet and exhaust
	PerPlug         // 1f, 1r, 2f … : front and rear
	PerSide         // left, right, as seen from the cockpit seat
	PerStation      // 1a, 1b … 5b: stations down a bore, fore-aft and side to side
	PerShape        // of what a screen held
	PerItem         // of a dimensional sheet, by the ids of limits cards
	PerMetal        // of an oil sample
	PerNut          // 1, 2, 3 … of one joint
)

var perNames = [...]string{"", "cylinder", "valve", "plug", "side", "station", "shape", "item", "metal", "nut"}

const (
	mostNuts = 24
	shapes   = "dust=dust|hair=hairs|flake=flakes|granule=granules|ball=balls"
	metals   = "fe=iron|cu=copper|al=aluminium|cr=chromium|ni=nickel|si=silicon|ag=silver|pb=lead|sn=tin|mg=magnesium|na=sodium"
	sides    = "left=left|right=right"
	items    = "out_of_round=out-of-round|taper=taper|choke=choke|skirt_clearance=piston skirt clearance|ring_gap=ring gap|top_ring_side=top ring side clearance|ring_side=other rings, side clearance|inlet_stem=inlet stem in guide|exhaust_stem=exhaust stem in guide|pin_in_piston=pin in piston|bore_wear=bore over nominal"
)

// places are those of a Per on an engine of n cylinders, in the order of the ring; 9
// cylinders where the number is not known.
func (p Per) places(n int) (all []string) {
	if n == 0 {
		n = 9
	}
	ends := ""
	switch p {
	case PerCylinder:
	case PerValve:
		ends = "ie"
	case PerPlug:
		ends = "fr"
	case PerStation:
		n, ends = 5, "ab"
	case PerNut:
		n = mostNuts
	default:
		for _, w := range strings.Split(p.words(), "|") {
			name, _, _ := strings.Cut(w, "=")
			all = append(all, name)
		}
		return all
	}
	for k := 1; k <= n; k++ {
		if ends == "" {
			all = append(all, itoa(k))
			continue
		}
		all = append(all, itoa(k)+ends[:1], itoa(k)+ends[1:])
	}
	return all
}

// words of a Per whose places have names.
func (p Per) words() string {
	switch p {
	case PerSide:
		return sides
	case PerShape:
		return shapes
	case PerItem:
		return items
	case PerMetal:
		return metals
	}
	return ""
}

// has reports that a place is one of the Per's, on any engine.
func (p Per) has(at string) bool {
	for _, is := range p.places(9) {
		if is == at {
			return true
		}
	}
	return false
}

// said is a place as a sentence says it: "cylinder 6 exhaust".
func (p Per) said(at string) string {
	if w := wordOf(p.words(), at); w != "" {
		return w
	}
	k, end := at, ""
	if n := len(at) - 1; n > 0 && at[n] > '9' {
		k, end = at[:n], at[n:]
	}
	switch p {
	case PerCylinder:
		return "cylinder " + k
	case PerValve:
		return "cylinder " + k + map[string]string{"i": " inlet", "e": " exhaust"}[end]
	case PerPlug:
		return "cylinder " + k + map[string]string{"f": " front", "r": " rear"}[end]
	case PerStation:
		return "station " + k + map[string]string{"a": " fore and aft", "b": " side to side"}[end]
	case PerNut:
		return "nut " + k
	}
	return at
}

// cylinder is the cylinder a place is at, 0 for none.
func (p Per) cylinder(at string) int {
	switch p {
	case PerCylinder:
		return atoi(at)
	case PerValve, PerPlug:
		return atoi(at[:len(at)-1])
	}
	return 0
}

// wordOf is what a value is called in "hot=hot|cold=cold", "" for none of them.
func wordOf(choices, value string) string {
	for choices != "" {
		var one string
		one, choices, _ = strings.Cut(choices, "|")
		if v, words, _ := strings.Cut(one, "="); v == value {
			return words
		}
	}
	return ""
}

// box is a box of the kind by its name, -1 for none.
func (k *Kind) box(name string) int {
	for i := range k.Boxes {
		if k.Boxes[i].Name == name {
			return i
		}
	}
	return -1
}

// KindOf is a kind of the table by its type, nil for none.
func KindOf(typ string) *Kind {
	for _, k := range kinds {
		if k.Type == typ {
			return k
		}
	}
	return nil
}

// Kinds are all kinds of the table, in the order a person is shown them.
func Kinds() []*Kind { return kinds }
