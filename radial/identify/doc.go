// Package identify says which engine it could be when the plate is gone: which models
// have what was seen, how likely each is, what speaks against it, which parts come from
// elsewhere, and what to look at next.
//
// The common case:
//
//	family, err := identify.New(data)               // what a club knows of its models
//	…
//	r, err := family.Identify([]identify.Observation{
//		{Feature: "cylinders", State: identify.Observed, Values: []string{"7"}},
//		{Feature: "shaft", State: identify.NotVisible},
//	})
//	…
//	r.Words()                                       // Nothing seen speaks against … (about 5 in 10) or …
//
// # The picture
//
// Walk round the engine with a list. At each feature you see something, or you can't, or
// you see it two ways. A model that has what you saw stays as likely as it was; one that
// has not becomes less likely by a stated factor, and what spoke against it is kept. It is
// never struck off, because eyes err, paint hides and parts were changed. Beside the
// models stands one more possibility: that it is none of them, or built of several. It
// gains with each contradiction, so that an engine nobody listed does not end up as the
// least unlike model on the list.
//
// Features belong to parts. A barrel can be of one model and the case it stands on of
// another, and then limits follow the parts and not the name. So the same observations are
// also taken part by part (Build): which models each part could have come from, the
// base that most parts fit, and the rest as deviations with their photographs and whatever
// approval was seen.
//
// What changed in a model's life changed at a serial number. Ranges say so, with prefixes
// and open ends (ParseRanges), and features that changed are weighed together: short
// plugs and oiled rockers each occur, and never on one engine.
//
// # What it never does
//
// It never gives one name without how likely it is. It never proposes a serial number or
// anything for a plate: who an engine is stands in its papers, and where they are lost,
// finding out is for the authority and the maker or who holds the type. It takes no
// displacement from a name (Designation). It never finds limits: on a mixed build those
// are for the shop to say, in writing.
//
// # Cautions
//
// Looking closely means handling: plugs out of every cylinder before the shaft is turned,
// in the direction of rotation only, never a steel rod through a plug hole, and
// whatever was poured in to measure a volume drained again before anything turns. No
// scratching or acid on a magnesium case.
//
// # Limits of validity
//
// The shares are as good as the data: doubts, weights and the share of others are
// judgements of whoever wrote them, and features are taken as independent but for what
// changes with the serial number. Read a share as an order and not as a measurement.
// Which models there are, and what they have, is data passed in; the package ships none.
//
// # Sources
//
// Elimination with odds is Bayes' rule. Expected information: Lindley 1956 and Shannon 1948
// (from memory), written out at Look. Names within 5 cubic inches, displacement to half a
// per cent, what changes at serial numbers: common practice, no source. That plates are the
// maker's and nobody else's: 14 CFR 45.10 to 45.13.
package identify
