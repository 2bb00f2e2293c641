package sync

// Span is a stretch of time by the server's clock, in milliseconds since 1970.
// From 0: from any time on. The zero Span: nothing to say.
type Span struct{ From, To int64 }

// How far a phone's clock may be off before it is called wrong. Entries are
// received late as a rule and never early; what the author had seen first is a
// weaker witness, because a restore can number the ledger anew.
const (
	slackAhead  = 5 * 60 * 1000
	slackBehind = 24 * 60 * 60 * 1000
)

// When says between which times an entry was written: after the ledger got what
// its author had seen (seen, 0: not known), before the ledger got it. wrong is
// that the author's clock says otherwise. It is shown to people, and decides
// nothing.
func When(r Record, seen int64) (span Span, wrong bool) {
	wall := r.Entry.Clock.Wall
	span = Span{seen, r.Received}
	return span, wall > r.Received+slackAhead || seen > 0 && wall < seen-slackBehind
}
