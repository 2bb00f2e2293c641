// Package card is the reference side of Linkrod: cards that a shop or a club publishes,
// what each says, which one applies to an engine, and what changed between two versions.
//
// The common case:
//
//	c, err := card.Read(json)                        // validated JSON, as it lies on the phone
//	…
//	found := card.Which(engine, "torque", cards)     // one, none, or can't judge, with the way
//	…
//	card.Diff(before, after)                         // "exhaust stem in guide: new maximum 4.5 to 5 thou"
//
// # The picture
//
// A card is one sheet: a title, what it applies to, a body by its kind, and under every
// number the line of the paper it was copied from, with who typed it and who held it
// against the page. A published version never changes; the next one has the next number.
// A shelf is a box of cards, kept by a club or a shop, and is shared as a book is.
//
// # Numbers
//
// A number on a card is a [Figure]: text as typed, a unit, and a source, its own or that
// of the item it stands in. A number in prose carries its source in brackets, "at least
// two turns [tx]". [Check] refuses one that has neither.
//
// # What it never does
//
// It never picks between two cards that both apply, never merges two shelves, and finds
// no limit for an engine that was built of several until somebody has decided in writing
// which sheet governs which part. It gives the reasons and what would settle it.
//
// # Sources
//
// Sources below every number, both people named, the limit on file or said to be missing:
// common practice, no source. What a general card must warn of: see cautions.go.
package card
