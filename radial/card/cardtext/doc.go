// Package cardtext is cards as people write them: YAML text to a card's JSON and back to a
// line and a column when something is wrong.
//
//	read := cardtext.Read("hold-down.yaml", text, card.Rules{})
//	for _, f := range read.Faults {
//		fmt.Println(f) // hold-down.yaml:14:9: There is no source “fv”. This card’s are: fw.
//	}
//	read.JSON // the card, when there is no fault
//
// The shape is the schema's business (card.schema.json, JSON Schema draft 2020-12, for any
// editor that knows schemas); the meaning is package card's. Both kinds of fault are told
// at the place they were typed.
//
// A plain scalar is kept as it was typed: 26.50 stays 26.50 and 1994-03-01 is no date of a
// machine's. Only version numbers and demo are a number and a yes or no. Anchors, tags and
// merges are refused: whoever reads the sheet sees what is on it.
//
// It is too heavy for the phone's core and not in it: the server, the command line and the
// editor have it.
package cardtext
