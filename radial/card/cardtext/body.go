package cardtext

import (
	"linkrod/radial/card"
	"linkrod/sync/plain"
)

// CheckBody is what is wrong with an entry that puts a card on a shelf: a text with a
// fault, a hash that isn't the text's, or JSON that says something else than the text.
// What was made beside the card's own fields (card.Prepare) isn't compared: another version
// of Linkrod may have worded it otherwise.
func CheckBody(body plain.Value) error {
	text, json := body.Get("text").Text(), body.Get("json")
	t := Read("card", []byte(text), card.Rules{Demo: json.Get("demo").Bool()})
	switch {
	case len(t.Faults) > 0:
		return card.Wrong(t.Faults[0].String())
	case t.Card.Hash != body.Get("hash").Text():
		return card.Wrong("The card " + t.Card.ID + " came with the hash of another text.")
	case !within(t.Card.JSON, json):
		return card.Wrong("What the card " + t.Card.ID + " would show is not what its text says.")
	}
	return nil
}

// within reports that everything of a stands in b as it is, labels aside: those are
// capitalised.
func within(a, b plain.Value) bool {
	if a.Kind() != b.Kind() {
		return false
	}
	switch a.Kind() {
	case plain.Object:
		for i, n := range a.Names() {
			if n != "label" && !within(a.Items()[i], b.Get(n)) {
				return false
			}
		}
		return true
	case plain.List:
		if len(a.Items()) != len(b.Items()) {
			return false
		}
		for i, e := range a.Items() {
			if !within(e, b.Items()[i]) {
				return false
			}
		}
		return true
	case plain.Text:
		return a.Text() == b.Text()
	}
	return string(a.Raw()) == string(b.Raw())
}
