package cardtext

import (
	"strconv"

	"linkrod/radial/card"
	"linkrod/sync/plain"
)

// mostBody is how long an entry's body may be (sync.MaxBody, which this package must not
// know).
const mostBody = 32 << 10

// Publish is the body of the entry that puts a card on a shelf: its text as written, what
// the phone draws, and what changed against the version before, if there is one.
func (t Text) Publish(before *card.Card, reason, by, day string) ([]byte, error) {
	if len(t.Faults) > 0 {
		return nil, card.Wrong(t.Faults[0].String())
	}
	if reason == "" {
		reason = t.reason()
	}
	if before != nil && reason == "" {
		return nil, card.Wrong("Why is " + t.Card.Title + " published anew? Give a reason, or write it into its history.")
	}
	var w plain.Writer
	w.Begin('{')
	w.Text("type", "card")
	w.Text("text", t.Text)
	w.Text("hash", t.Card.Hash)
	w.Raw("json", card.Prepare(t.Card.JSON))
	w.Text("reason", reason)
	if before != nil {
		w.Texts("what", card.Diff(*before, t.Card))
	}
	w.Text("by", by)
	w.Text("day", day)
	w.End('}')
	if body := w.Bytes(); len(body) <= mostBody {
		return body, nil
	}
	return nil, card.Wrong(t.Card.Title + " has " + strconv.Itoa(len(w.Bytes())) + " bytes with everything a phone draws, and an entry holds " + strconv.Itoa(mostBody) + ". Make two cards of it.")
}

// reason is what the card's own history says of this version.
func (t Text) reason() string {
	for _, h := range t.Card.JSON.Get("history").Items() {
		if n, _ := h.Get("version").Int(); int(n) == t.Card.Version {
			return h.Get("reason").Text()
		}
	}
	return ""
}

// Next is what stands against putting a card on a shelf that has these versions of it
// already: the same number with another text, or a number below the newest.
func (t Text) Next(file string, newest card.Card) *Fault {
	c := t.Card
	switch {
	case newest.ID == "" || c.Hash == newest.Hash || c.Version > newest.Version:
		return nil
	case c.Version == newest.Version:
		f := t.places.fault(file, card.Fault{At: "/version", Words: "Version " + strconv.Itoa(c.Version) + " of this card is published with another text, and a published version never changes. Give this one version " + strconv.Itoa(newest.Version+1) + "."})
		return &f
	}
	f := t.places.fault(file, card.Fault{At: "/version", Words: "Version " + strconv.Itoa(newest.Version) + " of this card is out already. Give this one version " + strconv.Itoa(newest.Version+1) + "."})
	return &f
}
