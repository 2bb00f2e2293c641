package quantity

// Problem is why something cannot be reckoned: which input, what it was, and what is
// taken instead, in a sentence for the person who gave it. A Refusal is about a text
// that was typed; a Problem is about a value that makes no sense where it stands.
// Field names the input, so that a screen can put the sentence beside that box.
type Problem struct {
	Field    string // the input's name as the package that refuses it spells it: "master rod"
	Sentence string // short, whole, with a full stop
}

// Error is the sentence.
func (p *Problem) Error() string { return p.Sentence }
