package identify

import "linkrod/radial/quantity"

// Data is what a card or a club says of a family of engines: what can be looked at, and
// what each model has there. This package ships none.
type Data struct {
	Features   []Feature
	Candidates []Candidate
	// Others is the share of engines that turn out to be none of the candidates, or built
	// of several of them: a judgement, more than 0 and less than 1, and never nought,
	// because then nothing seen could ever say so.
	Others float64
	// SerialDoubt is the Doubt of a serial number on the plate or stamped on the case.
	SerialDoubt float64
}

// Feature is something that can be looked at, or measured.
type Feature struct {
	Key  string // "shaft"; "serial" is taken
	Name string // as a sentence names it: "crankshaft end"
	Part string // of the engine, as it could come from another one: "barrels"
	How  string // it is seen: "eye", "depth gauge"
	// Effort is how much work a look is, 1 for a glance: more than 0. It decides what to
	// look at next among things that tell as much.
	Effort float64
	// Values is what may be seen there. None: it is a figure.
	Values []string
	// Unit and Within are of a figure: its unit, none for a bare number such as a ratio;
	// and how far it may be from what the model has, wear and measuring together. The
	// last of it is within.
	Unit   quantity.Unit
	Within quantity.Decimal
	// Doubt is the chance that what is seen is not what the model has, seen wrongly or
	// changed since: more than 0 and less than a half.
	Doubt float64
}

// SerialKey is the key of the serial number, which every catalogue can be asked about.
const SerialKey = "serial"

// Candidate is a model the engine could be.
type Candidate struct {
	Name    string
	Serials string // its blocks, as ParseRanges takes them; none: not known
	// Weight is how many of them there are for one of another: 1 if nobody knows. More than 0.
	Weight float64
	Traits []Trait
}

// Trait is what a model has at a feature. A model without a trait for a feature is silent
// about it. With more than one value it has been built either way, and is marked down
// for none of them.
type Trait struct {
	Feature string   // by its key
	Values  []string // as the feature's, or figures
	Serials string   // of those that have it, as ParseRanges takes them; none: all
}
