package card

import (
	"linkrod/radial/identify"
	"linkrod/sync/plain"
)

// Applies is what a card is for. The zero Applies is every engine.
type Applies struct {
	Models   []string
	From, To string // serial numbers, both taken in; "" is an open end
	When     []Trait
	Position []string // cylinders
}

// Trait is one feature of an engine as it is: "rocker_lubrication" is "grease nipple".
type Trait struct{ Feature, Value string }

func readApplies(v plain.Value) Applies {
	s := v.Get("serials")
	a := Applies{Models: texts(v.Get("models")), From: s.Get("from").Text(), To: s.Get("to").Text(), Position: texts(v.Get("position").Get("cylinders"))}
	w := v.Get("when")
	for i, key := range w.Names() {
		a.When = append(a.When, Trait{key, w.Items()[i].Text()})
	}
	return a
}

// Everything reports that it is for every engine.
func (a Applies) Everything() bool {
	return len(a.Models) == 0 && a.From == "" && a.To == "" && len(a.When) == 0
}

// Words is what it is for, a line each.
func (a Applies) Words() []string {
	if a.Everything() && len(a.Position) == 0 {
		return []string{"Every engine"}
	}
	var said []string
	if len(a.Models) > 0 {
		said = append(said, list(a.Models, "and"))
	}
	if s := a.serialWords(); s != "" {
		said = append(said, "serial numbers "+s)
	}
	for _, t := range a.When {
		said = append(said, FeatureName(t.Feature)+": "+t.Value)
	}
	if len(a.Position) > 0 {
		said = append(said, "cylinders "+list(a.Position, "and"))
	}
	return said
}

func (a Applies) serialWords() string {
	switch {
	case a.From != "" && a.To != "":
		return a.From + " to " + a.To
	case a.From != "":
		return a.From + " and up"
	case a.To != "":
		return "to " + a.To
	}
	return ""
}

// FeatureName is a feature as a sentence names it, the key itself for one not known here.
func FeatureName(key string) string {
	if f, ok := feature(key); ok {
		return f.Name
	}
	return key
}

// holds is whether an engine's serial number is in the card's range: its series must be
// the same, the letters before the number, and both ends belong to it.
func (a Applies) holds(serial string) (in, known bool) {
	if a.From == "" && a.To == "" {
		return true, true
	}
	s, err := identify.ParseSerial(serial)
	if err != nil {
		return false, false
	}
	for i, end := range []string{a.From, a.To} {
		if end == "" {
			continue
		}
		e, err := identify.ParseSerial(end)
		if err != nil {
			return false, false
		}
		order, same := s.Compare(e)
		if !same || i == 0 && order < 0 || i == 1 && order > 0 {
			return false, true
		}
	}
	return true, true
}
