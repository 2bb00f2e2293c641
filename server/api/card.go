package api

import (
	"linkrod/radial/card/cardtext"
	"linkrod/sync"
	"linkrod/sync/plain"
)

// bodies is the version of bodies this server knows.
const bodies = 1

// soundCard sets a card aside that the editor and the command line would not have
// published: the same check, at the door. A card of a newer version of Linkrod passes, for
// this one can't know what it may hold.
func soundCard(e sync.Entry, body plain.Value) *sync.Fault {
	if e.Schema > bodies {
		return nil
	}
	if err := cardtext.CheckBody(body); err != nil {
		return &sync.Fault{Code: sync.CodeBody, Words: "This card was not put on the shelf. " + err.Error() + " It is kept as it came; mend it and publish it again."}
	}
	return nil
}
